"""The files kept beside a client's own: the save before, one of the hour and one of the day."""

import os
from collections.abc import Iterator
from pathlib import Path

import pytest

from core.store.client_file import document_in
from core.store.clients import Store
from core.store.generations import numbered_tables, tables_in
from tests.core.store.invented import (
    WILHELMINA,
    client,
    current,
    everything_in,
    home,
    kept_note,
    note_of,
    with_note,
)
from tests.core.store.opened import files_opened
from tests.core.store.steps import each_copy, killed_at

HOUR_S, DAY_S = 3600, 24 * 3600
START_S = 1_700_000_000
NAMES = ("client.json", "client.1.json", "client.2.json", "client.3.json")


@pytest.fixture
def store(tmp_path: Path) -> Iterator[Store]:
    with Store(tmp_path) as store:
        store.save(client("at 0"))
        yield store


def set_time(folder: Path, at_s: float) -> None:
    """Let the current file have been written so many seconds after the start."""
    os.utime(current(folder), (START_S + at_s, START_S + at_s))


def save_at(folder: Path, moments_s: list[float]) -> None:
    """Save once at each moment, each time from a program opened anew."""
    for at_s in moments_s:
        with Store(folder) as store:
            store.save(client(f"at {at_s}"))
        set_time(folder, at_s)


def notes(folder: Path) -> list[str]:
    """Return what each file kept holds, newest first."""
    paths = [home(folder) / name for name in NAMES]
    return [note_of(document_in(tables_in(path.read_bytes()))) for path in paths if path.exists()]


def test_the_save_before_is_kept(store: Store, tmp_path: Path) -> None:
    store.save(client("second"))
    assert notes(tmp_path) == ["second", "at 0"]


def test_three_older_files_are_kept_and_no_more(tmp_path: Path) -> None:
    save_at(tmp_path, [hour * HOUR_S for hour in range(12)])
    assert sorted(path.name for path in home(tmp_path).iterdir()) == sorted(NAMES)


def test_saves_close_together_push_only_the_save_before_out(tmp_path: Path) -> None:
    save_at(tmp_path, [0, 60, 120, 180, 240])
    assert notes(tmp_path) == ["at 240", "at 180", "at 0"]


def test_there_is_always_one_of_the_hour_and_one_of_the_day(tmp_path: Path) -> None:
    ages = []
    for half_hour in range(120):
        save_at(tmp_path, [half_hour * HOUR_S / 2])
        times = [float(note.split()[1]) for note in notes(tmp_path)]
        assert times == sorted(times, reverse=True)
        if half_hour >= 6:
            newest, before, hour, day = times
            assert newest - before == HOUR_S / 2
            assert 0 < before - hour <= HOUR_S
            assert HOUR_S <= hour - day <= DAY_S + HOUR_S
            ages.append(hour - day)
    assert min(ages) < 3 * HOUR_S  # it was replaced
    assert max(ages) > 22 * HOUR_S  # and not before its time


def test_a_clock_that_was_years_ahead_does_not_stop_the_older_files(tmp_path: Path) -> None:
    save_at(tmp_path, [0, 10**9, 10**9 + 60, 10**9 + 120])
    save_at(tmp_path, [step * HOUR_S for step in range(1, 60)])
    times = [float(note.split()[1]) for note in notes(tmp_path)]
    assert max(times) == 59 * HOUR_S
    assert len(times) == 4


@pytest.mark.parametrize("lost", range(1, 4))
def test_the_newest_file_that_is_left_is_taken(tmp_path: Path, lost: int) -> None:
    save_at(tmp_path, [0, DAY_S, 2 * DAY_S, 3 * DAY_S])
    expected = notes(tmp_path)[lost]
    for name in NAMES[:lost]:
        (home(tmp_path) / name).unlink()
    with Store(tmp_path) as store:
        assert note_of(store.read(WILHELMINA)) == expected
        assert "missing" in store.recovered(WILHELMINA)


def test_saving_the_same_again_pushes_nothing_out(store: Store, tmp_path: Path) -> None:
    document = store.save(client("second"))
    before = everything_in(tmp_path)
    store.save(document)
    assert everything_in(tmp_path) == before


def test_the_next_save_after_a_loss_keeps_the_good_older_file(tmp_path: Path) -> None:
    save_at(tmp_path, [0, 60])
    current(tmp_path).write_bytes(b"spoilt")
    with Store(tmp_path) as store:
        store.save(with_note(store.read(WILHELMINA), "after"))
    assert notes(tmp_path) == ["after", "at 0"]


def test_every_save_has_a_number_of_its_own(store: Store, tmp_path: Path) -> None:
    for number in range(3):
        store.save(client(str(number)))
    store.close()
    save_at(tmp_path, [60])
    paths = [home(tmp_path) / name for name in NAMES[:2]]
    assert [numbered_tables(path.read_bytes())[0] for path in paths] == [5, 4]


def test_where_the_file_is_good_no_older_one_is_read(store: Store, tmp_path: Path) -> None:
    store.save(client("second"))
    store.close()
    with files_opened(home(tmp_path)) as opened:
        assert kept_note(tmp_path) == "second"
    assert {path.name for path in opened} == {"client.json"}


def test_a_file_that_was_only_touched_is_not_another_hand_s(store: Store, tmp_path: Path) -> None:
    document = store.save(client("second"))
    set_time(tmp_path, 0)
    store.save(with_note(document, "third"))
    assert notes(tmp_path) == ["third", "second", "at 0"]
    assert list(home(tmp_path).glob("*other*")) == []


def test_what_dropped_out_behind_a_newer_file_is_not_put_before_it(tmp_path: Path) -> None:
    save_at(tmp_path, [0, HOUR_S, 2 * HOUR_S])
    (home(tmp_path) / NAMES[2]).rename(home(tmp_path) / "client.spare.json")
    (home(tmp_path) / NAMES[1]).rename(home(tmp_path) / NAMES[2])  # and here it was cut off
    assert kept_note(tmp_path) == f"at {2 * HOUR_S}"
    assert notes(tmp_path) == [f"at {2 * HOUR_S}", f"at {HOUR_S}"]


def test_the_room_of_a_file_that_dropped_out_is_used_and_given_back(
    store: Store, tmp_path: Path
) -> None:
    for number in range(4):
        store.save(client(str(number) + "long " * 50 * (number % 2)))
    assert (home(tmp_path) / "client.spare.json").exists()
    store.save(client("short"))
    assert notes(tmp_path)[:2] == ["short", "3" + "long " * 50]
    store.close()
    assert not (home(tmp_path) / "client.spare.json").exists()
    assert kept_note(tmp_path) == "short"


def test_a_file_that_was_dropping_out_and_is_the_newest_good_one_is_not_written_over(
    tmp_path: Path,
) -> None:
    save_at(tmp_path, [0, 60, 120])
    (home(tmp_path) / NAMES[1]).rename(home(tmp_path) / "client.spare.json")
    current(tmp_path).write_bytes(b"spoilt")

    def save(folder: Path) -> None:
        store = Store(folder)
        assert note_of(store.read(WILHELMINA)) == "at 60"
        store.save(client("after"))

    for copy, killed in each_copy(tmp_path, save, killed_at):
        assert kept_note(copy) in (("at 60", "after") if killed else ("after",))


def test_an_older_file_that_was_just_dropping_out_is_put_back(tmp_path: Path) -> None:
    save_at(tmp_path, [0, 60, 120])
    (home(tmp_path) / NAMES[1]).rename(home(tmp_path) / "client.spare.json")
    assert kept_note(tmp_path) == "at 120"
    assert notes(tmp_path) == ["at 120", "at 60", "at 0"]
