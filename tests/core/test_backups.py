"""Everything backed up to another folder, and put back from there."""

import json
from pathlib import Path

import pytest

from core.bundle.refusals import BadBundle, NeedsPasscode
from core.seal import WrongPasscode
from core.store.backups import (
    NoBackup,
    NotABackupFolder,
    WouldReplace,
    back_up,
    restore,
)
from core.store.bundles import NothingToSend, send
from core.store.clients import Locked, Store
from core.store.passcode import set_passcode
from core.store.photos import read_photo
from core.store.reminder import reminder
from tests.core.cutting import after_each_step
from tests.core.test_carrying import DEMO, OTTOLINE, PASSCODE, everything_in, other, with_photo


@pytest.fixture
def card(tmp_path: Path) -> Path:
    (tmp_path / "card").mkdir()
    return tmp_path / "card"


def test_a_backup_put_back_on_an_empty_tablet_is_everything(tmp_path: Path, card: Path) -> None:
    with Store(tmp_path / "one") as one:
        name = with_photo(one)
        one.save(other("Wilhelmina Oatcake", "w"))
        sent = back_up(one, card)
        documents = [one.read(row.id) for row in one.clients()]
        photo = read_photo(one, OTTOLINE, name)
    with Store(tmp_path / "two") as two:
        assert len(restore(two, sent.path).new) == 2
        assert [two.read(row.id) for row in two.clients()] == documents
        assert read_photo(two, OTTOLINE, name) == photo


def test_a_backup_of_a_sealed_store_is_sealed_under_the_same_passcode(
    tmp_path: Path, card: Path
) -> None:
    with Store(tmp_path / "one") as one:
        with_photo(one)
        set_passcode(one, PASSCODE)
        sent = back_up(one, card)
    assert b"Ottoline" not in sent.path.read_bytes()
    with Store(tmp_path / "two") as two:
        with pytest.raises(NeedsPasscode):
            restore(two, sent.path)
        with pytest.raises(WrongPasscode):
            restore(two, sent.path, "not the passcode")
        restore(two, sent.path, PASSCODE)
    with pytest.raises(Locked):  # it brought its passcode with it
        Store(tmp_path / "two")
    with Store(tmp_path / "two", PASSCODE) as again:
        assert again.read(OTTOLINE)["client"]["name"] == DEMO["client"]["name"]
    assert not any(b"Ottoline" in held for held in everything_in(tmp_path / "two").values())


def test_a_restored_backup_takes_the_place_of_what_is_here_only_when_told(
    tmp_path: Path, card: Path
) -> None:
    with Store(tmp_path / "one") as one:
        one.save(DEMO)
        sent = back_up(one, card)
        one.save(other("Wilhelmina Oatcake", "w"))
        before = everything_in(one.root)
        with pytest.raises(WouldReplace, match="takes their place"):
            restore(one, sent.path)
        assert everything_in(one.root) == before
        restore(one, sent.path, replace=True)
        assert [row.id for row in one.clients()] == [OTTOLINE]


def test_a_restore_cut_at_any_step_leaves_the_old_or_the_new(tmp_path: Path, card: Path) -> None:
    with Store(tmp_path / "one") as one:
        with_photo(one)
        one.save(other("Wilhelmina Oatcake", "w"))
        sent = back_up(one, card)
    with Store(tmp_path / "two") as two:
        two.save(other("Hepzibah Thrale", "h"))
        two.save({**DEMO, "note": "here before"})
    seen = set()
    for folder in after_each_step(
        tmp_path / "two", lambda place: restore_in(place, sent.path)
    ):  # fmt: skip
        with Store(folder) as again:
            names = tuple(row.name.split()[0] for row in again.clients())
            seen.add((names, again.read(OTTOLINE).get("note")))
    assert seen == {(("Hepzibah", "Ottoline"), "here before"), (("Ottoline", "Wilhelmina"), None)}


def restore_in(folder: Path, path: Path) -> None:
    with Store(folder) as store:
        restore(store, path, replace=True)


def test_a_damaged_backup_changes_nothing(tmp_path: Path, card: Path) -> None:
    with Store(tmp_path / "one") as one:
        with_photo(one)
        sent = back_up(one, card)
        half = card / "half.zip"
        half.write_bytes(sent.path.read_bytes()[:-700])
        before = everything_in(one.root)
        with pytest.raises(BadBundle, match="Nothing was changed"):
            restore(one, half, replace=True)
        assert everything_in(one.root) == before


def test_a_backup_never_writes_over_another(tmp_path: Path, card: Path) -> None:
    with Store(tmp_path / "one") as one:
        one.save(DEMO)
        paths = {back_up(one, card).path for _ in range(3)}
        assert len(paths) == 3
        assert sorted(card.iterdir()) == sorted(paths)


def test_a_backup_beside_the_clients_or_nowhere_is_refused(tmp_path: Path) -> None:
    with Store(tmp_path / "one") as one:
        one.save(DEMO)
        for folder in (one.root, one.root / "clients", tmp_path / "no such place"):
            with pytest.raises(NotABackupFolder, match="Nothing was written"):
                back_up(one, folder)


def test_a_photo_that_is_gone_is_told_and_the_rest_is_backed_up(tmp_path: Path, card: Path) -> None:
    with Store(tmp_path / "one") as one:
        name = with_photo(one)
        (one.root / "clients" / one.folder_of(OTTOLINE) / name).unlink()
        sent = back_up(one, card)
        assert len(sent.left_out) == 1
        assert "missing or damaged" in sent.left_out[0]
    with Store(tmp_path / "two") as two:
        restored = restore(two, sent.path)
        assert restored.new == (DEMO["client"]["name"],)
        assert f"{name} is named in the bundle, but is not in it" in restored.notes[0]


def test_a_backup_that_left_something_out_is_asked_for_again(tmp_path: Path, card: Path) -> None:
    with Store(tmp_path / "one") as one:
        name = with_photo(one)
        (one.root / "clients" / one.folder_of(OTTOLINE) / name).unlink()
        back_up(one, card)
        assert "no backup yet" in reminder(one, after=1)


def test_a_bundle_of_some_clients_does_not_take_the_place_of_all(
    tmp_path: Path, card: Path
) -> None:
    with Store(tmp_path / "one") as one:
        one.save(DEMO)
        one.save(other("Wilhelmina Oatcake", "w"))
        send(one, card / "hers.zip", ["w"])
        with pytest.raises(NoBackup, match="bring it in instead"):
            restore(one, card / "hers.zip", replace=True)
        assert len(one.clients()) == 2


def test_what_a_cut_off_backup_left_on_the_card_goes_with_the_next(
    tmp_path: Path, card: Path
) -> None:
    (card / "pins-to-seams-backup-2026-01-01-0900.zip.new").write_bytes(b"half")
    (card / "other.zip.new").write_bytes(b"hers")
    with Store(tmp_path / "one") as one:
        one.save(DEMO)
        sent = back_up(one, card)
    assert {path.name for path in card.iterdir()} == {sent.path.name, "other.zip.new"}


def test_one_client_who_cannot_be_read_elsewhere_does_not_stop_the_backup(
    tmp_path: Path, card: Path
) -> None:
    odd = json.loads(json.dumps(DEMO))
    odd["client"] = {"id": "odd", "name": "Euphemia Garnett"}
    odd["garments"][0]["fittings"][0]["photos"] = [{"file": "photos/../../x.jpg"}]
    with Store(tmp_path / "one") as one:
        one.save(DEMO)
        one.save(odd)
        one.save({**DEMO, "unit": "ell", "client": {"id": "e", "name": "Hepzibah Thrale"}})
        sent = back_up(one, card)
        assert sent.names == (DEMO["client"]["name"],)
        assert [words.partition(":")[0] for words in sent.left_out] == [
            "Euphemia Garnett", "Hepzibah Thrale",
        ]  # fmt: skip


def test_with_no_client_there_is_nothing_to_back_up(tmp_path: Path, card: Path) -> None:
    with Store(tmp_path / "one") as one, pytest.raises(NothingToSend, match="no client to send"):
        back_up(one, card)
    assert not list(card.iterdir())


class TestBeingReminded:
    def test_comes_after_so_many_fittings_without_a_backup(
        self, tmp_path: Path, card: Path
    ) -> None:
        with Store(tmp_path / "one") as one:
            one.save(DEMO)  # one fitting
            assert reminder(one, after=2) == ""
            one.save(other("Wilhelmina Oatcake", "w"))
            assert "no backup yet" in reminder(one, after=2)
            back_up(one, card)
            assert reminder(one, after=2) == ""
        with Store(tmp_path / "one") as again:
            assert reminder(again, after=2) == ""
            again.save(other("Hepzibah Thrale", "h"))
            again.save(other("Euphemia Garnett", "e"))
            assert reminder(again, after=2).startswith("2 fittings since the last backup (20")

    def test_does_not_come_back_when_clients_are_deleted(self, tmp_path: Path, card: Path) -> None:
        with Store(tmp_path / "one") as one:
            one.save(DEMO)
            one.save(other("Wilhelmina Oatcake", "w"))
            back_up(one, card)
            one.delete("w")
            assert reminder(one, after=1) == ""
