"""A damaged file is never taken for what she recorded: the newest good one is, and it is said."""

from collections.abc import Callable
from pathlib import Path

import pytest

from core.errors import Damaged
from core.store.clients import Store
from core.store.disk import NotSaved
from core.store.generations import tables_in, written
from core.whole_file import unfinished
from tests.core.store.invented import (
    BEATRIX,
    NAME,
    OTHER_NAME,
    WILHELMINA,
    client,
    current,
    everything_in,
    home,
    kept,
    kept_note,
    note_of,
    other,
    with_note,
)


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """Return a folder with a client saved twice, and another one."""
    with Store(tmp_path) as store:
        store.save(client("before"))
        store.save(client("now"))
        store.save(other("the other's"))
        store.clients()
    return tmp_path


def _flipped(content: bytes, at: int, bits: int = 0x01) -> bytes:
    return content[:at] + bytes([content[at] ^ bits]) + content[at + 1 :]


SPOILT: dict[str, Callable[[bytes], bytes]] = {
    "empty": lambda content: b"",
    "the first byte only": lambda content: content[:1],
    "half its head": lambda content: content[:20],
    "only its head": lambda content: content[: content.index(b'"tables":') + 9],
    "half": lambda content: content[: len(content) // 2],
    "all but the last byte": lambda content: content[:-1],
    "all but the last record": lambda content: content[: content.rindex(b"{")],
    "zeros behind": lambda content: content + b"\0" * 512,
    "zeros instead": lambda content: b"\0" * len(content),
    "the start twice": lambda content: content[:60] + content,
    "another JSON": lambda content: b'{"records": {}}',
    "no text": lambda content: b"\xff" + content[1:],
    "a sign flipped": lambda content: _flipped(content, len(content) // 2),
}


@pytest.mark.parametrize("how", SPOILT)
def test_a_spoilt_file_is_put_aside_and_the_save_before_is_taken(folder: Path, how: str) -> None:
    spoilt = SPOILT[how](current(folder).read_bytes())
    current(folder).write_bytes(spoilt)
    with Store(folder) as store:
        assert note_of(store.read(WILHELMINA)) == "before"
        assert "damaged" in store.recovered(WILHELMINA)
        assert "look over the last changes" in store.recovered(WILHELMINA)
        assert store.recovered(BEATRIX) == ""
    assert (home(folder) / "client.spoilt-1.json").read_bytes() == spoilt
    assert kept_note(folder, BEATRIX) == "the other's"


def test_no_single_byte_can_change_unnoticed(folder: Path) -> None:
    content = current(folder).read_bytes()
    for at in range(len(content)):
        for bits in (0x01, 0x02, 0x20, 0x80):
            with pytest.raises(ValueError, match="not"):
                tables_in(_flipped(content, at, bits))


@pytest.mark.parametrize("at", [0, 11, 31, 45, 60, 100, -1])
def test_one_byte_flipped_anywhere_falls_back_and_says_so(folder: Path, at: int) -> None:
    content = current(folder).read_bytes()
    current(folder).write_bytes(_flipped(content, at % len(content)))
    with Store(folder) as store:
        assert note_of(store.read(WILHELMINA)) == "before"
        assert store.recovered(WILHELMINA)


def test_a_missing_file_is_said_too(folder: Path) -> None:
    current(folder).unlink()
    with Store(folder) as store:
        assert note_of(store.read(WILHELMINA)) == "before"
        assert "missing" in store.recovered(WILHELMINA)


def test_a_folder_in_the_file_s_place_is_put_aside(folder: Path) -> None:
    current(folder).unlink()
    current(folder).mkdir()
    with Store(folder) as store:
        assert note_of(store.read(WILHELMINA)) == "before"
        store.save(with_note(store.read(WILHELMINA), "after"))
    assert kept_note(folder) == "after"


def test_what_was_said_is_said_until_she_saves(folder: Path) -> None:
    current(folder).write_bytes(b"")
    for _ in range(2):
        with Store(folder) as store:
            store.clients()
            assert store.recovered(WILHELMINA)
    with Store(folder) as store:
        store.save(with_note(store.read(WILHELMINA), "looked over"))
    with Store(folder) as store:
        assert store.recovered(WILHELMINA) == ""


def test_a_second_spoilt_file_does_not_push_the_first_out(folder: Path) -> None:
    for spoilt in (b"once", b"twice"):
        with Store(folder) as store:
            store.save(with_note(store.read(WILHELMINA), f"before {spoilt!r}"))
        current(folder).write_bytes(spoilt)
        kept(folder)
    assert (home(folder) / "client.spoilt-1.json").read_bytes() == b"once"
    assert (home(folder) / "client.spoilt-2.json").read_bytes() == b"twice"


@pytest.mark.parametrize("half", [False, True])
def test_what_a_cut_off_save_left_beside_a_good_file_is_dropped(folder: Path, half: bool) -> None:
    content = current(folder).read_bytes().replace(b"now", b"new")
    unfinished(current(folder)).write_bytes(content[:100] if half else content)
    with Store(folder) as store:
        assert note_of(store.read(WILHELMINA)) == "now"
        assert store.recovered(WILHELMINA) == ""
    assert not unfinished(current(folder)).exists()


@pytest.mark.parametrize("instead", [None, b"spoilt"])
def test_a_whole_save_that_was_not_yet_in_place_is_finished(
    folder: Path, instead: bytes | None
) -> None:
    current(folder).rename(unfinished(current(folder)))
    if instead is not None:
        current(folder).write_bytes(instead)
    with Store(folder) as store:
        assert note_of(store.read(WILHELMINA)) == "now"
        assert store.recovered(WILHELMINA) == ""  # nothing of hers was lost
    assert kept_note(folder) == "now"


def test_half_a_save_without_a_file_falls_back(folder: Path) -> None:
    half = current(folder).read_bytes()[:300]
    current(folder).unlink()
    unfinished(current(folder)).write_bytes(half)
    with Store(folder) as store:
        assert note_of(store.read(WILHELMINA)) == "before"
        assert store.recovered(WILHELMINA)


def _spoil_all(folder: Path) -> dict[str, bytes]:
    for path in home(folder).iterdir():
        path.write_bytes(b"[" + path.name.encode())
    return everything_in(home(folder))


def test_a_client_damaged_with_all_older_files_is_told_and_nothing_is_changed(
    folder: Path,
) -> None:
    spoilt = _spoil_all(folder)
    with Store(folder) as store:
        for act in (lambda: store.read(WILHELMINA), lambda: store.save(client("over it"))):
            with pytest.raises(Damaged, match=r"Nothing was changed.*backup"):
                act()
        rows = {row.id: row for row in store.clients()}
        assert rows[WILHELMINA].damaged
        assert rows[WILHELMINA].name == NAME  # the list still knew
        assert not rows[BEATRIX].damaged
    assert everything_in(home(folder)) == spoilt


def test_a_damaged_client_the_list_does_not_know_is_shown_and_can_be_opened_or_deleted(
    folder: Path,
) -> None:
    spoilt = _spoil_all(folder)
    (folder / "index.json").unlink()
    with Store(folder) as store:
        damaged, good = store.clients()
        assert (damaged.name, damaged.damaged) == ("A client whose file is damaged", True)
        assert good.name == OTHER_NAME
        with pytest.raises(Damaged):
            store.read(damaged.id)
        assert everything_in(home(folder)) == spoilt
        store.delete(damaged.id)
        assert [row.name for row in store.clients()] == [OTHER_NAME]
    assert not home(folder).exists()


def test_an_empty_file_is_not_taken_for_a_new_client(tmp_path: Path) -> None:
    with Store(tmp_path) as store:
        store.save(client())
    current(tmp_path).write_bytes(b"")
    with Store(tmp_path) as store, pytest.raises(Damaged):
        store.read(WILHELMINA)


def test_a_whole_file_without_a_client_in_it_is_told(folder: Path) -> None:
    tables = tables_in(current(folder).read_bytes())
    tables["records"].pop("1")
    current(folder).write_bytes(written(tables))
    with Store(folder) as store, pytest.raises(Damaged, match="Nothing was changed"):
        store.read(WILHELMINA)


def test_a_save_that_fails_says_what_is_safe(folder: Path) -> None:
    with Store(folder) as store:
        document = store.read(WILHELMINA)
        with pytest.raises(NotSaved, match="Everything up to the touch before it is safe"):
            store.save({**document, "bust": float("nan")})
