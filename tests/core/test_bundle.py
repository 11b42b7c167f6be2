"""What is packed into a bundle comes out of it again, and nothing else does."""

import copy
import io
import json
import os
import shutil
import subprocess
import sys
import textwrap
import tracemalloc
import unicodedata
import zipfile
from pathlib import Path
from typing import Any

import pytest
from PIL import Image

from core.bundle.packing import Packed, write_bundle
from core.bundle.reading import open_bundle
from core.bundle.refusals import BadBundle, Cancelled, NotPacked
from core.errors import Damaged, WorkroomError
from core.file.fitting_file import load
from core.photos import is_ours, read_photo
from core.seal import Seal, wrap
from tests.garments import Document
from tests.hostile_zips import CAMERA, Entry, as_json, bundle, client, kept, packed, taken

ROOT = Path(__file__).resolve().parents[2]
DEMO = json.loads((ROOT / "resources" / "demo" / "moss_green_sheath.json").read_bytes())
MADE = "2026-03-20T10:00:00Z"


@pytest.fixture
def path(tmp_path: Path) -> Path:
    return tmp_path / "packed.zip"


def came_out(path: Path, **options: Any) -> list[tuple[Document, dict[str, bytes]]]:
    """Return everything that a bundle gives."""
    with open_bundle(path, **options) as opened:
        return [(one.read(), {name: photo() for name, photo in one.photos.items()})
                for one in opened.clients]  # fmt: skip


def went_in(*clients: Packed) -> list[tuple[Document, dict[str, bytes]]]:
    return [(one.read(), {name: photo() for name, photo in one.photos.items()})
            for one in clients]  # fmt: skip


def members(path: Path) -> dict[str, bytes]:
    with zipfile.ZipFile(path) as found:
        return {name: found.read(name) for name in found.namelist()}


def test_one_client_comes_out_as_she_went_in(path: Path) -> None:
    one = packed(1)
    write_bundle(path, [one], made=MADE)
    assert came_out(path) == went_in(one)
    with open_bundle(path) as opened:
        assert not opened.sealed
        assert opened.made == ""
        assert opened.missing == opened.unnamed == opened.left_aside == ()


def test_the_demo_client_comes_out_as_she_went_in(path: Path) -> None:
    document = copy.deepcopy(DEMO) | {"a field of tomorrow": {"ß": [1, 2.5, None, "″ ½"]}}
    write_bundle(path, [Packed.of(document, {})], made=MADE)
    ((found, photos),) = came_out(path)
    assert (found, photos) == (document, {})
    assert load(path).data == document


def test_several_clients_come_out_as_they_went_in(path: Path) -> None:
    several = [packed(1), packed(2, ["red"]), packed(3, []), Packed.of(DEMO, {})]
    write_bundle(path, several, made=MADE)
    assert came_out(path) == went_in(*several)
    with open_bundle(path) as opened:
        assert opened.made == MADE


def test_a_list_may_be_of_one_client(path: Path) -> None:
    write_bundle(path, [packed(1)], made=MADE, many=True)
    assert came_out(path) == went_in(packed(1))
    assert "bundle.json" in members(path)


def test_the_folders_are_as_they_are_described(path: Path) -> None:
    (name, photo), (other, _) = kept("teal"), kept("plum")
    write_bundle(path, [packed(1)], made=MADE)
    assert set(members(path)) == {"client.json", f"photos/{name}", f"photos/{other}"}
    write_bundle(path, [packed(7), packed(8, ["teal"])], made=MADE)
    found = members(path)
    assert json.loads(found["bundle.json"]) == {
        "format": "pins-to-seams-bundle/1",
        "made": MADE,
        "everything": False,
        "clients": [
            {"folder": "0001", "id": client(7)["client"]["id"], "name": "Invented 7",
             "photos": [name, other]},
            {"folder": "0002", "id": client(8)["client"]["id"], "name": "Invented 8",
             "photos": [name]},
        ],
    }  # fmt: skip
    assert found[f"clients/0002/photos/{name}"] == photo
    assert json.loads(found["clients/0002/client.json"]) == packed(8, ["teal"]).read()


def test_photos_are_stored_and_texts_made_smaller(path: Path) -> None:
    write_bundle(path, [packed(1)], made=MADE)
    with zipfile.ZipFile(path) as found:
        for info in found.infolist():
            photo = info.filename.startswith("photos/")
            assert info.compress_type == (zipfile.ZIP_STORED if photo else zipfile.ZIP_DEFLATED)
            assert info.date_time == (1980, 1, 1, 0, 0, 0)


def test_a_file_that_shrinks_like_a_trap_is_read_all_the_same(path: Path) -> None:
    document = client() | {"notes": "no " * 1_500_000}
    write_bundle(path, [Packed.of(document, {})], made=MADE)
    assert came_out(path) == [(document, {})]


def test_the_same_is_packed_alike(path: Path, tmp_path: Path) -> None:
    write_bundle(path, [packed(1)], made=MADE)
    other = tmp_path / "other.zip"
    write_bundle(other, [packed(1)], made=MADE)
    assert path.read_bytes() == other.read_bytes()


# -- photos ---------------------------------------------------------------------------------


def placed(file: str, mark: str) -> Document:
    """Return a document that names a photo in a fitting, and again at a mark."""
    document = client(1, ["gone.jpg"])
    fitting = document["garments"][0]["fittings"][0]
    fitting["photos"].append({"file": file, "view": "front"})
    fitting["marks"] = [{"what": "tight", "piece": "front", "photo": mark}, {"what": "loose"}]
    return document


@pytest.mark.parametrize("kind", ["JPEG", "PNG", "WEBP"])
def test_a_photo_from_elsewhere_loses_its_place_and_gets_its_own_name(
    kind: str, path: Path
) -> None:
    given = taken("plum", kind)
    document = placed("photos/her back.jpg", "photos/her back.jpg")
    path.write_bytes(bundle(Entry("photos/her back.jpg", given), file=document))
    ((found, photos),) = came_out(path)
    ((name, content),) = photos.items()
    assert CAMERA.encode() in given
    assert CAMERA.encode() not in content
    with Image.open(io.BytesIO(content)) as picture:
        assert not picture.getexif()
    assert is_ours(content, name)
    assert (name, content) == (read_photo(given).name, read_photo(given).content)
    fitting = found["garments"][0]["fittings"][0]
    assert fitting["photos"][1] == {"file": f"photos/{name}", "view": "front"}
    assert fitting["marks"] == [{"what": "tight", "piece": "front", "photo": f"photos/{name}"},
                                {"what": "loose"}]  # fmt: skip
    assert fitting["photos"][0] == {"file": "photos/gone.jpg", "view": "back"}


def test_a_photo_named_as_ours_but_not_ours_is_made_anew(path: Path) -> None:
    name = kept("plum")[0]
    document = client(1, [name])
    path.write_bytes(bundle(Entry(f"photos/{name}", taken("teal")), file=document))
    ((found, photos),) = came_out(path)
    assert photos == dict([kept("teal")])
    assert found["garments"][0]["fittings"][0]["photos"][0]["file"] == f"photos/{kept('teal')[0]}"


def test_the_same_photo_under_two_names_is_one(path: Path) -> None:
    document = client(1, ["a.jpg", "b.jpg"])
    path.write_bytes(
        bundle(Entry("photos/a.jpg", taken()), Entry("photos/b.jpg", taken()), file=document)
    )
    ((found, photos),) = came_out(path)
    assert photos == dict([kept()])
    named = [photo["file"] for photo in found["garments"][0]["fittings"][0]["photos"]]
    assert named == [f"photos/{kept()[0]}"] * 2


def test_a_photo_is_found_however_its_name_is_written(path: Path) -> None:
    written, packed_as = "photos/Rücken.JPG", unicodedata.normalize("NFD", "photos/rücken.jpg")
    path.write_bytes(bundle(Entry(packed_as, taken()), file=placed(written, "")))
    with open_bundle(path) as opened:
        assert opened.missing == ("Invented 1: photos/gone.jpg",)
        assert opened.unnamed == ()


def test_a_name_that_is_not_of_the_photos_folder_stays_as_it_is(path: Path) -> None:
    path.write_bytes(bundle(Entry("photos/a.jpg", taken()), file=placed("photos/a.jpg", "a.jpg")))
    ((found, _),) = came_out(path)
    fitting = found["garments"][0]["fittings"][0]
    assert fitting["photos"][1]["file"] == f"photos/{kept()[0]}"
    assert fitting["marks"][0]["photo"] == "a.jpg"


def test_missing_and_unnamed_photos_are_told_and_kept(path: Path) -> None:
    (teal, content), (plum, _) = kept("teal"), kept("plum")
    one = Packed.of(client(1, [plum]), {teal: lambda: content})
    write_bundle(path, [one, packed(2)], made=MADE)
    with open_bundle(path) as opened:
        assert opened.missing == (f"Invented 1: photos/{plum}",)
        assert opened.unnamed == (f"Invented 1: photos/{teal}",)
        assert opened.clients[0].photos[teal]() == content


@pytest.mark.parametrize("photos", [None, 5, "x", {}, [5], [{}], [{"file": 5}], [{"file": ""}]])
def test_nonsense_among_the_photos_of_a_document_is_kept(photos: Any, path: Path) -> None:
    document = client(1)
    document["garments"][0]["fittings"][0]["photos"] = photos
    path.write_bytes(bundle(file=document))
    assert came_out(path) == [(document, {})]


# -- bundles made by other programs ---------------------------------------------------------


def test_a_bundle_packed_by_hand_is_read(path: Path, tmp_path: Path) -> None:
    """As any program packs a folder: with the folder named, deflated, and with dates."""
    folder = tmp_path / "folder"
    (folder / "photos").mkdir(parents=True)
    (folder / "client.json").write_bytes(as_json(placed("photos/b.jpg", "")))
    (folder / "photos" / "b.jpg").write_bytes(taken())
    shutil.make_archive(str(path.with_suffix("")), "zip", folder)
    assert "photos/" in members(path)
    ((_, photos),) = came_out(path)
    assert list(photos) == [kept()[0]]
    assert load(path).client.name == "Invented 1"


def test_a_bundle_sent_through_a_pipe_is_read(path: Path) -> None:
    """Its lengths then stand behind each member, not before it."""

    class Pipe(io.RawIOBase):
        def __init__(self) -> None:
            self.sent = b""

        def writable(self) -> bool:
            return True

        def write(self, content: Any) -> int:
            self.sent += bytes(content)
            return len(content)

    pipe = Pipe()
    with zipfile.ZipFile(pipe, "w", zipfile.ZIP_DEFLATED) as packing:  # type: ignore[call-overload]
        packing.writestr("client.json", as_json(client()))
        packing.writestr(f"photos/{kept()[0]}", kept()[1])
    path.write_bytes(pipe.sent)
    assert came_out(path) == [(client(), dict([kept()]))]
    assert load(path).client.name == "Invented 1"


def test_a_name_that_is_left_aside_is_told_in_plain_signs(path: Path) -> None:
    path.write_bytes(bundle(Entry("README\u202efdp.exe", b"x")))  # turns the writing round
    with open_bundle(path) as opened:
        assert opened.left_aside == ("README·fdp.exe",)


def test_what_other_programs_put_in_is_left_aside(path: Path) -> None:
    extras = ["__MACOSX/._client.json", "__MACOSX/", ".DS_Store", "photos/.DS_Store",
              "photos/Thumbs.db", "photos/._a.jpg", "README", "README.txt", "readme.md",
              "desktop.ini", "photos/desktop.ini"]  # fmt: skip
    path.write_bytes(
        bundle(*(Entry(name, b"" if name.endswith("/") else b"x") for name in extras))
    )
    with open_bundle(path) as opened:
        assert opened.left_aside == tuple(extras)
        assert opened.clients[0].read() == client()
        assert not opened.clients[0].photos
    assert load(path).client.name == "Invented 1"


# -- writing --------------------------------------------------------------------------------


def test_the_progress_is_told_and_ends_at_the_end(path: Path) -> None:
    heard: list[tuple[int, int]] = []
    write_bundle(path, [packed(1)], made=MADE, told=lambda done, of: heard.append((done, of)))
    assert heard == [(0, 3), (1, 3), (2, 3), (3, 3)]
    heard.clear()
    with open_bundle(path, told=lambda done, of: heard.append((done, of))):
        assert heard == [(0, 3), (1, 3), (2, 3), (3, 3)]


class Stopping:
    """Stops at a step, in the way given."""

    def __init__(self, at: int, wrong: BaseException) -> None:
        self.at, self.wrong = at, wrong

    def __call__(self, done: int, of: int) -> None:
        if done == self.at:
            raise self.wrong


@pytest.mark.parametrize("sealed", [False, True])
@pytest.mark.parametrize("wrong", [Cancelled(), KeyboardInterrupt(), ValueError("a mistake")])
@pytest.mark.parametrize("at", range(5))
def test_stopped_at_any_step_nothing_is_left_behind(
    at: int, wrong: BaseException, sealed: bool, path: Path, wrapped: tuple[Seal, dict[str, Any]]
) -> None:
    path.write_bytes(b"what was there before")
    clients, seal = [packed(1), packed(2, [])], wrapped if sealed else None
    with pytest.raises(type(wrong)):
        write_bundle(path, clients, made=MADE, seal=seal, told=Stopping(at, wrong))
    assert path.read_bytes() == b"what was there before"
    assert list(path.parent.iterdir()) == [path]
    path.unlink()
    with pytest.raises(type(wrong)):
        write_bundle(path, clients, made=MADE, seal=seal, told=Stopping(at, wrong))
    assert not list(path.parent.iterdir())


@pytest.fixture(scope="module")
def wrapped() -> tuple[Seal, dict[str, Any]]:
    seal = Seal.new()
    return seal, wrap(seal, "blue thimble", n=2**14)


@pytest.mark.parametrize("at", range(4))
def test_reading_may_be_stopped_at_any_step(at: int, path: Path) -> None:
    write_bundle(path, [packed(1)], made=MADE)
    before = path.read_bytes()
    with pytest.raises(Cancelled), open_bundle(path, told=Stopping(at, Cancelled())):
        pass
    assert path.read_bytes() == before
    assert list(path.parent.iterdir()) == [path]


def test_a_photo_that_cannot_be_read_leaves_nothing_behind(path: Path) -> None:
    def gone() -> bytes:
        raise FileNotFoundError(2, "No such file")

    def damaged() -> bytes:
        raise Damaged("The photo is damaged")

    name, content = kept()
    for photo, said in (
        (gone, "A photo of Invented 1 cannot be read"),
        (damaged, "The photo is damaged"),
        (lambda: content[:-1], "A photo of Invented 1 is damaged"),
        (taken, "A photo of Invented 1 is damaged"),
    ):
        with pytest.raises(WorkroomError, match=said):
            write_bundle(path, [Packed.of(client(1, [name]), {name: photo})], made=MADE)
        assert not list(path.parent.iterdir())


@pytest.mark.skipif(sys.platform == "win32", reason="no limit on the size of files there")
def test_a_full_disk_is_told_and_leaves_nothing_behind(path: Path) -> None:
    import resource

    path.write_bytes(b"before")
    before = resource.getrlimit(resource.RLIMIT_FSIZE)
    resource.setrlimit(resource.RLIMIT_FSIZE, (1_500, before[1]))
    try:
        with pytest.raises(NotPacked, match=r"packed\.zip could not be written .*make room"):
            write_bundle(path, [packed(1)], made=MADE)
    finally:
        resource.setrlimit(resource.RLIMIT_FSIZE, before)
    assert list(path.parent.iterdir()) == [path]
    assert path.read_bytes() == b"before"


def test_a_place_that_cannot_be_written_is_told(tmp_path: Path) -> None:
    (tmp_path / "file").write_bytes(b"")
    (tmp_path / "folder").mkdir()
    for place in (tmp_path / "none" / "a.zip", tmp_path / "file" / "a.zip", tmp_path / "folder"):
        with pytest.raises(NotPacked, match="could not be written"):
            write_bundle(place, [packed(1)], made=MADE)
    assert sorted(tmp_path.iterdir()) == [tmp_path / "file", tmp_path / "folder"]


def test_killed_midway_the_bundle_before_is_whole(path: Path) -> None:
    write_bundle(path, [packed(1)], made=MADE)
    before = path.read_bytes()
    killed = textwrap.dedent("""
        import os, sys
        from pathlib import Path
        from core.bundle.packing import write_bundle
        from tests.hostile_zips import packed
        def told(done, of):
            if done == 3:
                os._exit(9)
        write_bundle(Path(sys.argv[1]), [packed(2), packed(3)], made="", told=told)
    """)
    environment = {**os.environ, "PYTHONPATH": str(ROOT)}
    done = subprocess.run([sys.executable, "-c", killed, str(path)], cwd=ROOT, env=environment)
    assert done.returncode == 9
    assert path.read_bytes() == before
    write_bundle(path, [packed(2)], made=MADE)  # over what the killed one left
    assert came_out(path) == went_in(packed(2))
    assert list(path.parent.iterdir()) == [path]


def unpackable() -> dict[str, tuple[list[Packed], dict[str, Any], str]]:
    spoilt = client(1) | {"unit": "ell"}
    climbing = client(1, ["../../a.jpg"])
    no_number = client(1) | {"x": float("nan")}
    other = (Seal.new(), wrap(Seal.new(), "blue thimble", n=2**14))
    return {
        "nobody": ([], {}, "one client, or a list"),
        "two where one is meant": ([packed(1), packed(2)], {"many": False}, "one client, or"),
        "one client twice": ([packed(1), packed(1)], {}, "Invented 1 is in the bundle twice"),
        "a spoilt document": ([Packed.of(spoilt, {})], {}, "Invented 1 cannot be packed: unit: "),
        "what is no number": ([Packed.of(no_number, {})], {}, "cannot be packed: x: nan"),
        "half a sign": ([Packed.of(client(1) | {"x": "\ud800"}, {})], {}, "cannot be packed: x: "),
        "a photo’s name that climbs": ([Packed.of(climbing, {})], {}, "a name that is none"),
        "another’s passcode": ([packed(1)], {"seal": other}, "another seal"),
    }


@pytest.mark.parametrize("name", unpackable())
def test_what_could_not_be_read_again_is_not_written(name: str, path: Path) -> None:
    clients, options, said = unpackable()[name]
    with pytest.raises(NotPacked, match=said) as refused:
        write_bundle(path, clients, made=MADE, **options)
    assert "Nothing was written" in str(refused.value)
    assert not list(path.parent.iterdir())


def test_what_is_too_large_to_read_again_is_not_written(
    path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("core.bundle.packing.LARGEST_DOCUMENTS", 5_000)
    with pytest.raises(NotPacked, match="fewer clients at a time"):
        write_bundle(path, [packed(number, []) for number in range(5)], made=MADE)
    monkeypatch.setattr("core.bundle.packing.MOST_MEMBERS", 4)
    with pytest.raises(NotPacked, match="at most 4 files"):
        write_bundle(path, [packed(1)], made=MADE)
    assert not list(path.parent.iterdir())


def test_many_photos_never_sit_in_memory_together(path: Path) -> None:
    """40 clients with a photo of a megabyte each; never more than a few of them at once."""
    out = io.BytesIO()
    Image.effect_noise((1400, 1000), 90).save(out, "PNG")
    photo = read_photo(out.getvalue())
    assert len(photo.content) > 600_000

    def asked() -> bytes:
        return bytes(bytearray(photo.content))  # another copy each time, as from a disk

    several = [Packed.of(client(number, [photo.name]), {photo.name: asked})
               for number in range(40)]  # fmt: skip
    tracemalloc.start()
    try:
        write_bundle(path, several, made=MADE)
        with open_bundle(path) as opened:
            for one in opened.clients:
                assert one.photos[photo.name]() == photo.content
            _, most = tracemalloc.get_traced_memory()
    finally:
        tracemalloc.stop()
    assert path.stat().st_size > 40 * 600_000
    assert most < 12_000_000


def test_a_bundle_of_several_is_refused_by_the_plan_command(path: Path) -> None:
    write_bundle(path, [packed(1), packed(2)], made=MADE)
    with pytest.raises(WorkroomError, match=r"packed\.zip: is a bundle of several clients"):
        load(path)


def test_a_photo_is_not_looked_at_for_a_plan(path: Path) -> None:
    path.write_bytes(bundle(Entry("photos/a.jpg", b"no photo")))
    assert load(path).client.name == "Invented 1"
    with pytest.raises(BadBundle, match="not a photo"), open_bundle(path):
        pass
