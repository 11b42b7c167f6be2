"""What a store says of itself stands twice, and is never taken from a damaged file."""

from pathlib import Path

import pytest

from core.errors import Damaged
from core.store.clients import Store
from core.store.stands import FILES, Stands, read_stands, write_stands
from tests.core.store.invented import client

SAID = Stands("a tablet", {"kdf": "scrypt", "n": 65536}, "2026-03-02T09:00:00.000+00:00", 12)


def test_it_is_read_as_it_was_written(tmp_path: Path) -> None:
    write_stands(tmp_path, SAID)
    assert read_stands(tmp_path) == SAID
    assert (tmp_path / FILES[0]).read_bytes() == (tmp_path / FILES[1]).read_bytes()


def test_a_new_folder_says_nothing(tmp_path: Path) -> None:
    assert read_stands(tmp_path) is None


def test_no_single_byte_can_change_what_it_says(tmp_path: Path) -> None:
    write_stands(tmp_path, SAID)
    path = tmp_path / FILES[0]
    (tmp_path / FILES[1]).unlink()
    content = path.read_bytes()
    for at in range(len(content)):
        for bits in (0x01, 0x04, 0x20):
            path.write_bytes(content[:at] + bytes([content[at] ^ bits]) + content[at + 1 :])
            try:
                said = read_stands(tmp_path)
            except Damaged:
                continue
            assert said == SAID  # one blank for another


def test_a_tablet_keeps_its_id(tmp_path: Path) -> None:
    with Store(tmp_path) as store:
        store.save(client())
        tablet = store.stands.tablet
    with Store(tmp_path) as store:
        assert store.stands.tablet == tablet
    with Store(tmp_path / "another") as store:
        assert store.stands.tablet != tablet


def test_a_backup_that_was_noted_stays_noted(tmp_path: Path) -> None:
    with Store(tmp_path) as store:
        store.save(client())
        store.say(store.stands.with_backup("2026-03-02T09:00:00.000+00:00", 12))
    with Store(tmp_path) as store:
        assert (store.stands.backed_up[:10], store.stands.fittings_then) == ("2026-03-02", 12)


@pytest.mark.parametrize("lost", [FILES[:1], FILES[1:], FILES])
def test_an_open_store_makes_what_is_missing_anew(tmp_path: Path, lost: tuple[str, ...]) -> None:
    with Store(tmp_path) as store:
        store.save(client())
    for name in lost:
        (tmp_path / name).unlink()
    with Store(tmp_path) as store:
        tablet = store.stands.tablet
        assert len(store.clients()) == 1
    with Store(tmp_path) as store:
        assert store.stands.tablet == tablet
