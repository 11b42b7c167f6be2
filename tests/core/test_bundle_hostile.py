"""A zip made to do harm, or spoilt on its way, is refused in plain words and changes nothing."""

import zipfile
from pathlib import Path

import pytest

from core.bundle.members import open_members
from core.bundle.photos import checked_photo
from core.bundle.reading import open_bundle
from core.bundle.refusals import BadBundle
from core.command import UNUSABLE, main
from core.errors import BadFile
from core.file.fitting_file import load
from core.photos import is_ours
from tests.hostile_zips import HOSTILE, Entry, as_json, bundle, client, kept, many, taken


def there(folder: Path) -> dict[str, bytes]:
    return {str(path): path.read_bytes() for path in folder.rglob("*") if path.is_file()}


@pytest.fixture
def path(tmp_path: Path) -> Path:
    return tmp_path / "given.zip"


@pytest.mark.parametrize("name", HOSTILE)
def test_what_could_do_harm_is_refused(name: str, path: Path) -> None:
    content, word = HOSTILE[name]
    path.write_bytes(content)
    before = there(path.parent)
    with pytest.raises(BadBundle) as refused, open_bundle(path):
        pass
    said = str(refused.value)
    assert word in said
    assert said.startswith("given.zip: ")
    assert said.endswith(". Nothing was changed")
    assert said.count("Nothing was changed") == 1
    assert said.isprintable()
    assert len(said) < 400
    assert there(path.parent) == before


UNSEEN_BY_PLAN = ("photo", "zip for a photo", "longer than both", "shorter than both", "deflated",
                  "a wrong checksum", "that says it is small")  # fmt: skip


@pytest.mark.parametrize("name", HOSTILE)
def test_the_plan_command_refuses_it_too(
    name: str, path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """All but what is inside a photo, which it does not look at, and lists it does not read."""
    content, _ = HOSTILE[name]
    path.write_bytes(content)
    code, said = main([str(path)]), capsys.readouterr().err
    if any(word in name for word in UNSEEN_BY_PLAN) and code == 0:
        assert said == ""
    else:
        assert code == UNUSABLE
        assert said.count("\n") == 1


def test_a_good_bundle_is_accepted_by_the_same_builder(path: Path) -> None:
    """So that the hostile ones are refused for what is wrong with them, and nothing else."""
    name, content = kept()
    more = (Entry(f"photos/{name}", content), Entry("photos/front.png", taken("plum", "PNG"), 8))
    path.write_bytes(bundle(*more, comment=b"made by hand"))
    with open_bundle(path) as opened:
        assert len(opened.clients[0].photos) == 2
    path.write_bytes(many([client(1), client(2)]))
    with open_bundle(path) as opened:
        assert [packed.name for packed in opened.clients] == ["Invented 1", "Invented 2"]


def test_a_bundle_cut_short_anywhere_is_refused(path: Path) -> None:
    whole = bundle(Entry("photos/a.jpg", taken()))
    for end in range(0, len(whole), 7):
        path.write_bytes(whole[:end])
        with pytest.raises(BadBundle, match=r"given\.zip"), open_bundle(path):
            pass


def test_any_changed_byte_of_a_photo_is_noticed(path: Path) -> None:
    name, content = kept()
    whole = bundle(Entry(f"photos/{name}", content))
    start = whole.index(content)
    for place in range(start, start + len(content), 5):
        path.write_bytes(whole[:place] + bytes([whole[place] ^ 1]) + whole[place + 1 :])
        with pytest.raises(BadBundle, match="is damaged"), open_bundle(path):
            pass


def test_all_members_together_may_not_be_without_end(
    path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("core.bundle.members.LARGEST_TOTAL", 2_000)
    path.write_bytes(bundle(Entry("photos/a.jpg", taken()), Entry("photos/b.jpg", taken("plum"))))
    with pytest.raises(BadBundle, match="more than all clients"), open_bundle(path):
        pass


def test_the_list_of_members_may_not_be_without_end(
    path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("core.bundle.directory._LARGEST_DIRECTORY", 200)
    path.write_bytes(bundle(Entry("photos/a.jpg", taken(), listed={"extra": bytes(200)})))
    with pytest.raises(BadBundle, match="more files than all clients"), open_bundle(path):
        pass


def test_all_clients_files_together_are_no_larger_than_clients_could_be(
    path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    files = [client(number) for number in (1, 2, 3)]
    path.write_bytes(many(files))
    room = sum(len(as_json(file)) for file in files)
    monkeypatch.setattr("core.bundle.reading.LARGEST_DOCUMENTS", room)
    with open_bundle(path) as opened:
        assert len(opened.clients) == 3
    monkeypatch.setattr("core.bundle.reading.LARGEST_DOCUMENTS", room - 1)
    with pytest.raises(BadBundle, match="any dressmaker"), open_bundle(path):
        pass


def test_one_clients_file_has_its_limit(path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    path.write_bytes(bundle())
    monkeypatch.setattr("core.bundle.reading.LARGEST_BYTES", 1_000)
    with pytest.raises(BadBundle, match="larger than any client"), open_bundle(path):
        pass
    monkeypatch.setattr("core.file.fitting_file.LARGEST_BYTES", 1_000)
    with pytest.raises(BadFile, match="larger than any client"):
        load(path)


def test_more_members_than_a_short_count_can_say_are_found(path: Path) -> None:
    """A backup of many years has more than 65,535 members: the zip's larger end record."""
    with zipfile.ZipFile(path, "w") as packing:
        for number in range(65_540):
            packing.writestr(zipfile.ZipInfo(f"photos/{number}.jpg"), b"")
    with open_members(path) as members:
        assert len(members.names) == 65_540
        assert members.read("photos/65539.jpg") == b""
    whole = path.read_bytes()
    path.write_bytes(b"before" + whole)
    with pytest.raises(BadBundle, match=r"given\.zip"), open_members(path):
        pass


def test_a_missing_file_a_folder_and_a_device_are_refused(tmp_path: Path) -> None:
    for path in (tmp_path / "none.zip", tmp_path, tmp_path / "a\0b.zip", Path("/dev/zero")):
        with pytest.raises(BadBundle, match="Nothing was changed"), open_bundle(path):
            pass


def test_what_goes_wrong_outside_is_not_taken_for_the_bundles_fault(path: Path) -> None:
    path.write_bytes(bundle())
    with pytest.raises(OSError, match=r"^the caller’s own$"), open_bundle(path):
        raise OSError("the caller’s own")


class Changing:
    """A source that gives a photo first, and something else when it is asked again."""

    bundle, names = "given.zip", ("photos/a.jpg",)

    def __init__(self, *contents: bytes) -> None:
        self._contents = list(contents)

    def size(self, name: str) -> int:
        return 0

    def read(self, name: str) -> bytes:
        return self._contents.pop(0)


@pytest.mark.parametrize("name", ["a.jpg", kept()[0]])
def test_a_photo_changed_after_it_was_checked_is_refused(name: str) -> None:
    first = kept()[1]
    photo = checked_photo(Changing(first, first, taken("plum")), f"photos/{name}")
    assert is_ours(photo.content(), photo.name)
    with pytest.raises(BadBundle, match="changed while it was being read"):
        photo.content()


def test_a_photo_asked_for_after_the_bundle_was_closed_is_refused(path: Path) -> None:
    name, content = kept()
    path.write_bytes(bundle(Entry(f"photos/{name}", content)))
    with open_bundle(path) as opened:
        photo = opened.clients[0].photos[name]
        assert photo() == content
    with pytest.raises(BadBundle, match="was closed"):
        photo()
