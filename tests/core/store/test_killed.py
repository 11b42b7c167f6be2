"""Killed at any step of anything it does, a program opened again has all of it or none."""

from collections.abc import Callable
from pathlib import Path

import pytest

from core.store.clients import Locked, Store
from core.store.passcode import change_passcode, remove_passcode, set_passcode
from core.store.photo_names import PHOTOS, THUMBNAILS
from core.store.photos import read_photo, read_thumbnail
from tests.core.store.invented import (
    BEATRIX,
    BUST,
    NAME,
    OTHER_NAME,
    PASSCODE,
    WILHELMINA,
    client,
    everything_in,
    home,
    note_of,
    other,
    photo,
    save_with_photo,
    where_found,
    with_note,
)
from tests.core.store.steps import each_copy, killed_at

pytestmark = pytest.mark.usefixtures("quick_passcode")

NEW_PASSCODE = "eight golden thimbles"


def is_whole(store: Store, note: str | None = None) -> str:
    """Check that both clients and the photo are there; return the first one's note."""
    document = store.read(WILHELMINA)
    assert store.recovered(WILHELMINA) == store.recovered(BEATRIX) == ""
    assert note_of(store.read(BEATRIX)) == "the other's"
    assert [row.name for row in store.clients()] == [OTHER_NAME, NAME]
    for taken in document["garments"][0]["fittings"][0]["photos"]:
        assert read_photo(store, WILHELMINA, taken["file"]).startswith(b"\xff\xd8")
        assert read_thumbnail(store, WILHELMINA, taken["file"]).startswith(b"\xff\xd8")
    return note_of(document)


def is_tidy(folder: Path) -> None:
    """Check that nothing is left of what was cut off."""
    assert not (folder / "coming").exists()
    assert not (folder / "leaving").exists()
    assert list(folder.rglob("*.new")) == []


def opened(folder: Path, *passcodes: str) -> Store:
    """Open a store with the first passcode that it takes, or with none."""
    try:
        return Store(folder)
    except Locked:
        return Store(folder, passcodes[0])


def test_a_save_cut_off_anywhere_is_the_old_or_the_new(workroom: Path) -> None:
    def save(folder: Path) -> None:
        store = Store(folder)
        for note in ("second", "third", "fourth"):
            store.save(with_note(store.read(WILHELMINA), note))

    seen = set()
    for copy, killed in each_copy(workroom, save, killed_at):
        with Store(copy) as store:
            note = is_whole(store)
            seen.add(note)
            assert killed or note == "fourth"
            store.save(with_note(store.read(WILHELMINA), "next"))
        with Store(copy) as store:
            assert is_whole(store) == "next"
        is_tidy(copy)
    assert seen == {"now", "second", "third", "fourth"}


def test_the_very_first_save_cut_off_anywhere_leaves_a_folder_that_opens(tmp_path: Path) -> None:
    (tmp_path / "new").mkdir()

    def save(folder: Path) -> None:
        Store(folder / "deep" / "workroom").save(client("first"))

    for copy, killed in each_copy(tmp_path / "new", save, killed_at):
        with Store(copy / "deep" / "workroom") as store:
            listed = [note_of(store.read(row.id)) for row in store.clients()]
            assert listed in ([["first"], []] if killed else [["first"]])
            assert list(copy.rglob("*.new")) == []
            store.save(client("next"))
        with Store(copy / "deep" / "workroom") as store:
            assert note_of(store.read(WILHELMINA)) == "next"


def test_a_photo_cut_off_anywhere_is_there_where_it_is_named_and_only_there(
    workroom: Path,
) -> None:
    def add(folder: Path) -> None:
        store = Store(folder)
        save_with_photo(store, store.read(WILHELMINA), "crimson")

    for copy, killed in each_copy(workroom, add, killed_at):
        with Store(copy) as store:
            is_whole(store)
            taken = store.read(WILHELMINA)["garments"][0]["fittings"][0]["photos"]
            assert len(taken) in ((1, 2) if killed else (2,))
        for part in (PHOTOS, THUMBNAILS):
            names = {path.name for path in (home(copy) / part).iterdir()}
            assert names == {Path(one["file"]).name for one in taken}


def test_a_deletion_cut_off_anywhere_leaves_her_whole_or_nothing_of_her(workroom: Path) -> None:
    def delete(folder: Path) -> None:
        Store(folder).delete(WILHELMINA)

    seen = set()
    for copy, killed in each_copy(workroom, delete, killed_at):
        with Store(copy) as store:
            there = store.has(WILHELMINA)
            if there:
                assert is_whole(store) == "now"
            assert len(store.clients()) == 1 + there
            assert note_of(store.read(BEATRIX)) == "the other's"
        assert there or where_found(copy, NAME) == []
        assert there or list(copy.rglob("*.jpg")) == []
        assert killed or not there
        is_tidy(copy)
        seen.add(there)
    assert seen == {True, False}


def sealed(folder: Path) -> None:
    set_passcode(Store(folder), PASSCODE)


def is_sealed_throughout(folder: Path) -> None:
    for text in (NAME, OTHER_NAME, BUST, WILHELMINA, BEATRIX):
        assert where_found(folder, text) == []
    for content in everything_in(folder / "clients").values():
        assert content.startswith(b"\x93SEALED")


def is_open_throughout(folder: Path) -> None:
    assert {path.name for path in (folder / "clients").iterdir()} == {WILHELMINA, BEATRIX}
    assert not [path for path in folder.rglob("*") if path.is_file() and b"\x93SEALED" in
                path.read_bytes()]  # fmt: skip


def test_sealing_cut_off_anywhere_is_all_open_or_all_sealed(workroom: Path) -> None:
    _all_or_nothing(workroom, sealed, (False, True))


def test_opening_the_seal_cut_off_anywhere_is_all_sealed_or_all_open(workroom: Path) -> None:
    sealed(workroom)

    def unsealed(folder: Path) -> None:
        remove_passcode(Store(folder, PASSCODE), PASSCODE)

    _all_or_nothing(workroom, unsealed, (True, False))


def _all_or_nothing(
    folder: Path, act: Callable[[Path], None], before_and_after: tuple[bool, bool]
) -> None:
    seen = []
    for copy, killed in each_copy(folder, act, killed_at):
        with opened(copy, PASSCODE) as store:
            seen.append(store.seal is not None)
            assert is_whole(store) == "now"
        (is_sealed_throughout if seen[-1] else is_open_throughout)(copy)
        is_tidy(copy)
        assert killed or seen[-1] == before_and_after[1]
    before, after = before_and_after
    turned = seen.index(after)
    assert turned > 0
    assert seen == [before] * turned + [after] * (len(seen) - turned)


def test_a_changed_passcode_cut_off_anywhere_is_the_old_or_the_new(workroom: Path) -> None:
    sealed(workroom)

    def change(folder: Path) -> None:
        change_passcode(Store(folder, PASSCODE), PASSCODE, NEW_PASSCODE)

    seen = set()
    for copy, killed in each_copy(workroom, change, killed_at):
        passcode = PASSCODE if _opens(copy, PASSCODE) else NEW_PASSCODE
        with Store(copy, passcode) as store:
            assert is_whole(store) == "now"
        assert not (_opens(copy, PASSCODE) and _opens(copy, NEW_PASSCODE))
        (copy / "store.json").unlink()  # the copy of the key has the same passcode
        assert _opens(copy, passcode)
        assert killed or passcode == NEW_PASSCODE
        seen.add(passcode)
    assert seen == {PASSCODE, NEW_PASSCODE}


def _opens(folder: Path, passcode: str) -> bool:
    from core.seal import WrongPasscode

    try:
        Store(folder, passcode).close()
    except WrongPasscode:
        return False
    return True


@pytest.mark.parametrize("seal", [False, True])
def test_opening_after_a_cut_off_can_itself_be_cut_off_anywhere(
    workroom: Path, seal: bool
) -> None:
    if seal:
        sealed(workroom)

    def turn(folder: Path) -> None:
        if seal:
            remove_passcode(Store(folder, PASSCODE), PASSCODE)
        else:
            sealed(folder)

    begun = next(copy for copy, _ in each_copy(workroom, turn, killed_at)
                 if (copy / "coming" / "ready.json").exists())  # fmt: skip
    for copy, _ in each_copy(begun, lambda folder: opened(folder, PASSCODE), killed_at):
        with opened(copy, PASSCODE) as store:
            assert (store.seal is not None) is not seal
            assert is_whole(store) == "now"
        (is_open_throughout if seal else is_sealed_throughout)(copy)
        is_tidy(copy)


def test_closing_cut_off_anywhere_loses_nothing(workroom: Path) -> None:
    def close(folder: Path) -> None:
        store = Store(folder)
        store.clients()
        document = store.read(WILHELMINA)
        document["garments"][0]["fittings"][0]["photos"] = []
        store.save(with_note(document, "without"))
        store.close()

    for copy, killed in each_copy(workroom, close, killed_at):
        with Store(copy) as store:
            assert is_whole(store) in (("now", "without") if killed else ("without",))
        is_tidy(copy)


def test_photos_are_named_by_their_content(workroom: Path) -> None:
    assert [path.name for path in (home(workroom) / PHOTOS).iterdir()] == [photo("olive").name]
    with Store(workroom) as store:
        save_with_photo(store, other("the other's"))
        assert store.read(BEATRIX)["garments"]
