"""Setting, changing and removing the passcode: everything with it, or nothing at all."""

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
from core.store.photos import read_photo
from core.store.records import unstamped
from core.store.stands import FILES
from tests.core.store.invented import (
    BEATRIX,
    NAME,
    PASSCODE,
    WILHELMINA,
    client,
    everything_in,
    note_of,
    photo,
    with_note,
)
from tests.core.store.telling import tells

pytestmark = pytest.mark.usefixtures("quick_passcode")

NEW_PASSCODE = "eight golden thimbles"


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
