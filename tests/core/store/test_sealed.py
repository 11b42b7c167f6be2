"""A sealed folder tells nothing to whoever holds it, and everything to whoever has the passcode."""

import json
import shutil
from pathlib import Path

import pytest

from core.errors import Damaged
from core.seal import WeakPasscode, WrongPasscode, unwrap
from core.store.clients import Locked, Store
from core.store.passcode import (
    AlreadySealed,
    NotSealed,
    change_passcode,
    remove_passcode,
    set_passcode,
)
from core.store.photos import read_photo, read_thumbnail
from core.store.records import unstamped
from core.store.stands import FILES
from tests.core.store.invented import (
    BEATRIX,
    BUST,
    NAME,
    OTHER_NAME,
    PASSCODE,
    WILHELMINA,
    client,
    everything_in,
    note_of,
    photo,
    save_with_photo,
    where_found,
    with_note,
)

pytestmark = pytest.mark.usefixtures("quick_passcode")

NEW_PASSCODE = "eight golden thimbles"
TELLING = [NAME, "Oatcake", OTHER_NAME, WILHELMINA, BEATRIX, BUST, "bust_girth", "Silk gown",
           "2026-03-02", "pins-to-seams/1", photo().name.removesuffix(".jpg")]  # fmt: skip
"""What nobody may find."""


@pytest.fixture
def sealed(workroom: Path) -> Path:
    """Return a folder that was sealed, then used: saved to, photographed for, listed, closed."""
    with Store(workroom) as store:
        set_passcode(store, PASSCODE)
    with Store(workroom, PASSCODE) as store:
        store.clients()
        store.save(with_note(store.read(WILHELMINA), "sealed now"))
        save_with_photo(store, store.read(BEATRIX), "crimson")
        store.say(store.stands.with_backup(store.now(), 2))
        store.save(client("new", client_id="Mrs Finch", name="Ada Finch"))
        store.clients()
    return workroom


def tells(folder: Path) -> list[str]:
    """Return what can be found in a folder by whoever looks at its bytes and names."""
    found = [where for text in (*TELLING, "Ada Finch", "Mrs Finch", "sealed now")
             for where in where_found(folder, text)]  # fmt: skip
    pictures = [b"JFIF", b"Exif", b"\x89PNG", photo().content[40:80], photo().thumbnail[40:80]]
    return found + [
        f"{path}: a picture" for path, content in everything_in(folder).items()
        if content.startswith(b"\xff\xd8") or any(part in content for part in pictures)
    ]  # fmt: skip


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
    for text in (*TELLING, "Ada Finch", "sealed now"):
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


def test_another_passcode_opens_the_same(sealed: Path) -> None:
    with Store(sealed, PASSCODE) as store:
        before = {row.id: store.read(row.id) for row in store.clients()}
        change_passcode(store, PASSCODE, NEW_PASSCODE)
        store.save(with_note(store.read(WILHELMINA), "after"))
    with pytest.raises(WrongPasscode):
        Store(sealed, PASSCODE)
    with Store(sealed, NEW_PASSCODE) as store:
        assert {row.id: store.read(row.id) for row in store.clients() if row.id != WILHELMINA} == {
            client_id: document for client_id, document in before.items() if client_id != WILHELMINA
        }
        assert note_of(store.read(WILHELMINA)) == "after"
    assert tells(sealed) == []


def test_removing_the_passcode_opens_everything_as_it_was(sealed: Path) -> None:
    with Store(sealed, PASSCODE) as store:
        before = {row.id: store.read(row.id) for row in store.clients()}
        remove_passcode(store, PASSCODE)
        assert {row.id: store.read(row.id) for row in store.clients()} == before
    with Store(sealed) as store:
        assert {row.id: store.read(row.id) for row in store.clients()} == before
        name = before[WILHELMINA]["garments"][0]["fittings"][0]["photos"][0]["file"]
        assert read_photo(store, WILHELMINA, name) == photo().content
    assert not [path for path in sealed.rglob("*") if len(path.name) == 32]


def test_sealing_keeps_ids_revisions_and_times(workroom: Path) -> None:
    with Store(workroom) as store:
        before = store.read(WILHELMINA)
        set_passcode(store, PASSCODE)
        assert store.read(WILHELMINA) == before
    with Store(workroom, PASSCODE) as store:
        assert store.read(WILHELMINA) == before


def test_sealing_leaves_nothing_readable_of_a_list_that_was_cut_off(workroom: Path) -> None:
    (workroom / "index.json.new").write_bytes(b'{"rows": "' + NAME.encode())
    with Store(workroom) as store:
        set_passcode(store, PASSCODE)
    assert tells(workroom) == []


def test_a_client_who_fell_back_is_sealed_as_she_is(workroom: Path) -> None:
    (workroom / "clients" / WILHELMINA / "client.json").write_bytes(b"spoilt")
    with Store(workroom) as store:
        set_passcode(store, PASSCODE)
    with Store(workroom, PASSCODE) as store:
        assert unstamped(store.read(WILHELMINA)) == client("now")  # before the photo
    assert tells(workroom) == []


def test_a_damaged_client_stops_the_sealing_and_nothing_is_changed(workroom: Path) -> None:
    for path in (workroom / "clients" / WILHELMINA).glob("*.json"):
        path.write_bytes(b"[")
    with Store(workroom) as store:
        store.clients()
        before = everything_in(workroom)
        with pytest.raises(Damaged, match=r"would be lost.*Nothing was changed"):
            set_passcode(store, PASSCODE)
        assert note_of(store.read(BEATRIX)) == "the other's"
    assert everything_in(workroom) == before


def test_a_folder_copied_by_hand_is_listed_as_a_copy_and_stops_the_sealing(workroom: Path) -> None:
    hers = workroom / "clients" / WILHELMINA
    shutil.copytree(hers, hers.with_name(f"{WILHELMINA} copy"))
    with Store(workroom) as store:
        store.save(with_note(store.read(WILHELMINA), "newer"))
        with pytest.raises(Damaged, match=r"a copy of a client's folder.*Nothing was changed"):
            set_passcode(store, PASSCODE)
        (copied,) = (row for row in store.clients() if row.damaged)
        assert copied.name == f"{NAME} (a copy of her folder)"
        with pytest.raises(Damaged, match="delete the copy"):
            store.read(copied.id)
        store.delete(copied.id)
        assert note_of(store.read(WILHELMINA)) == "newer"
        set_passcode(store, PASSCODE)
        assert len(store.clients()) == 2


def test_a_folder_renamed_by_hand_is_put_back_and_sealed(workroom: Path) -> None:
    hers = workroom / "clients" / WILHELMINA
    hers.rename(hers.with_name("Wilhelmina's things"))
    with Store(workroom) as store:
        set_passcode(store, PASSCODE)
        assert len(store.clients()) == 2
        assert store.read(WILHELMINA)["client"]["name"] == NAME


def test_a_folder_that_has_only_photos_left_stops_the_sealing(workroom: Path) -> None:
    for path in (workroom / "clients" / WILHELMINA).glob("*.json"):
        path.unlink()
    with Store(workroom) as store, pytest.raises(Damaged, match="no client's file"):
        set_passcode(store, PASSCODE)
    assert list((workroom / "clients" / WILHELMINA / "photos").iterdir())


def test_an_older_store_json_put_back_by_hand_does_not_open_as_empty(workroom: Path) -> None:
    before = {name: (workroom / name).read_bytes() for name in FILES}
    with Store(workroom) as store:
        set_passcode(store, PASSCODE)
    for name, content in before.items():
        (workroom / name).write_bytes(content)
    with pytest.raises(Damaged, match="has not the key"):
        Store(workroom)


def test_an_old_passcode_with_an_old_backup_does_not_open_what_is_sealed_now(
    workroom: Path,
) -> None:
    with Store(workroom) as store:
        set_passcode(store, PASSCODE)
        wrapped = store.stands.wrapped
        change_passcode(store, PASSCODE, NEW_PASSCODE)
    assert wrapped is not None
    old = unwrap(wrapped, PASSCODE)
    with pytest.raises(Locked):
        Store(workroom, seal=old)


def test_what_the_program_wrote_of_its_faults_goes_when_all_is_sealed(workroom: Path) -> None:
    (workroom / "faults.txt").write_text(f"{NAME} cannot be shown")
    with Store(workroom) as store:
        set_passcode(store, PASSCODE)
    assert not (workroom / "faults.txt").exists()


def test_what_makes_no_sense_is_refused_in_words(workroom: Path) -> None:
    with Store(workroom) as store:
        before = everything_in(workroom)
        with pytest.raises(WeakPasscode):
            set_passcode(store, "short")
        with pytest.raises(NotSealed):
            remove_passcode(store, PASSCODE)
        with pytest.raises(NotSealed):
            change_passcode(store, PASSCODE, NEW_PASSCODE)
        assert everything_in(workroom) == before
        set_passcode(store, PASSCODE)
        with pytest.raises(AlreadySealed):
            set_passcode(store, NEW_PASSCODE)
        with pytest.raises(WeakPasscode):
            change_passcode(store, PASSCODE, "short")
    Store(workroom, PASSCODE).close()


def test_progress_is_told_up_to_the_end(workroom: Path) -> None:
    told: list[tuple[int, int]] = []
    with Store(workroom) as store:
        set_passcode(store, PASSCODE, lambda done, of: told.append((done, of)))
        remove_passcode(store, PASSCODE, lambda done, of: told.append((done, of)))
    assert told == [(0, 2), (1, 2), (2, 2)] * 2


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
