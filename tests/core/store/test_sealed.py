"""A sealed folder tells nothing to whoever holds it, and everything to whoever has the passcode."""

import json
import shutil
from pathlib import Path

import pytest

from core.errors import Damaged
from core.seal import WrongPasscode
from core.store.clients import Locked, Store
from core.store.passcode import (
    change_passcode,
    remove_passcode,
)
from core.store.photos import read_photo, read_thumbnail
from core.store.stands import FILES
from tests.core.store.invented import (
    BEATRIX,
    BUST,
    NAME,
    OTHER_NAME,
    PASSCODE,
    WILHELMINA,
    everything_in,
    note_of,
    photo,
    where_found,
    with_note,
)
from tests.core.store.telling import TELLING, tells

pytestmark = pytest.mark.usefixtures("quick_passcode")

NEW_PASSCODE = "eight golden thimbles"


def test_there_is_no_readable_name_measurement_or_image_anywhere(sealed: Path) -> None:
    assert tells(sealed) == []


def test_nor_while_it_is_open(sealed: Path) -> None:
    with Store(sealed, PASSCODE) as store:
        for note in ("one", "two", "three"):
            store.save(with_note(store.read(WILHELMINA), note))
        store.clients()
        store.rest()
        assert tells(sealed) == []


def test_what_is_looked_for_is_found_where_it_is_not_sealed(sealed: Path, tmp_path: Path) -> None:
    with Store(sealed, PASSCODE) as store:
        remove_passcode(store, PASSCODE)
        store.clients()
    for text in TELLING:
        assert where_found(sealed, text), text
    assert any("a picture" in found for found in tells(sealed))
    for number, form in enumerate((NAME.encode("utf-16"), NAME.upper().encode("utf-16-be"),
                                   NAME.encode().hex().encode())):  # fmt: skip
        (tmp_path / f"forms {number}").mkdir()
        (tmp_path / f"forms {number}" / "any").write_bytes(b"\0\1\2" + form)
        assert tells(tmp_path / f"forms {number}")


def test_sizes_of_folders_and_files_are_all_that_shows(sealed: Path) -> None:
    for path in (sealed / "clients").rglob("*"):
        name = path.name
        assert name in ("photos", "thumbnails") or (len(name) == 32 and int(name, 16) >= 0)


def test_with_the_passcode_everything_is_there(sealed: Path) -> None:
    with Store(sealed, PASSCODE) as store:
        assert [row.name for row in store.clients()] == ["Ada Finch", OTHER_NAME, NAME]
        document = store.read(WILHELMINA)
        assert note_of(document) == "sealed now"
        assert document["measurements"][0]["values"] == {"bust_girth": BUST}
        name = document["garments"][0]["fittings"][0]["photos"][0]["file"]
        assert read_photo(store, WILHELMINA, name) == photo().content
        assert read_thumbnail(store, WILHELMINA, name) == photo().thumbnail
        assert store.stands.fittings_then == 2


@pytest.mark.parametrize("passcode", [None, "", "seven silver pin", PASSCODE + "s", "x" * 500])
def test_without_the_right_passcode_nothing_opens_and_no_byte_changes(
    sealed: Path, passcode: str | None
) -> None:
    before = everything_in(sealed)
    with pytest.raises(Locked if passcode is None else WrongPasscode):
        Store(sealed, passcode)
    with Store(sealed, PASSCODE) as store:
        for act in (change_passcode, remove_passcode):
            with pytest.raises(WrongPasscode, match="Nothing was changed"):
                act(store, passcode or "nothing", *([NEW_PASSCODE] * (act is change_passcode)))
    assert everything_in(sealed) == before


def test_a_damaged_sealed_file_gives_way_to_the_save_before(sealed: Path) -> None:
    with Store(sealed, PASSCODE) as store:
        store.save(with_note(store.read(WILHELMINA), "newest"))
        path = store.file(WILHELMINA).shelf.path("client.json")
    content = path.read_bytes()
    path.write_bytes(content[:60] + bytes([content[60] ^ 1]) + content[61:])
    with Store(sealed, PASSCODE) as store:
        assert note_of(store.read(WILHELMINA)) == "sealed now"
        assert "damaged" in store.recovered(WILHELMINA)


def test_a_file_put_into_another_clients_folder_is_refused(sealed: Path) -> None:
    with Store(sealed, PASSCODE) as store:
        hers, others = (store.file(one).shelf.path("client.json") for one in (WILHELMINA, BEATRIX))
    for older in hers.parent.glob("*"):
        if older.is_file():
            older.unlink()
    shutil.copy(others, hers)
    with Store(sealed, PASSCODE) as store, pytest.raises(Damaged):
        store.read(WILHELMINA)


def _flip(path: Path) -> None:
    found = json.loads(path.read_bytes())
    found["wrapped"]["salt"] = "00" + found["wrapped"]["salt"][2:]
    path.write_text(json.dumps(found))


@pytest.mark.parametrize("lost", FILES)
@pytest.mark.parametrize(
    "how", [Path.unlink, lambda path: path.write_bytes(b""), lambda path: path.write_bytes(b"[1]"),
            lambda path: path.write_bytes(path.read_bytes()[:200]), _flip],
    ids=["missing", "empty", "a list", "half", "another salt"],
)  # fmt: skip
def test_one_of_the_two_files_with_the_key_is_enough_and_makes_the_other(
    sealed: Path, lost: str, how: object
) -> None:
    how(sealed / lost)  # type: ignore[operator]
    with Store(sealed, PASSCODE) as store:
        assert note_of(store.read(WILHELMINA)) == "sealed now"
    assert (sealed / FILES[0]).read_bytes() == (sealed / FILES[1]).read_bytes()


@pytest.mark.parametrize("how", ["missing", "spoilt"])
def test_without_both_files_it_is_told_and_nothing_is_changed(sealed: Path, how: str) -> None:
    for name in FILES:
        (sealed / name).unlink()
        if how == "spoilt":
            (sealed / name).write_bytes(b"spoilt")
    before = everything_in(sealed)
    with pytest.raises(Damaged, match=r"Nothing was changed.*backup"):
        Store(sealed, PASSCODE)
    assert everything_in(sealed) == before
