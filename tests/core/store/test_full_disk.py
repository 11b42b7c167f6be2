"""A full or failing disk: a plain sentence, nothing lost, and on she goes."""

import os
import subprocess
import sys
from collections.abc import Callable
from datetime import UTC, datetime
from functools import partial
from pathlib import Path

import pytest

from core.errors import WorkroomError
from core.store.arrivals import Unfinished
from core.store.clients import Locked, Store
from core.store.passcode import change_passcode, remove_passcode, set_passcode
from core.store.photos import read_photo
from core.store.records import unstamped
from tests.core.store.invented import (
    BEATRIX,
    PASSCODE,
    WILHELMINA,
    client,
    kept,
    kept_note,
    note_of,
    save_with_photo,
    with_note,
)
from tests.core.store.steps import How, each_copy, failing_at

pytestmark = pytest.mark.usefixtures("quick_passcode")

NEW_PASSCODE = "eight golden thimbles"
how = pytest.mark.parametrize(
    "how", [failing_at, partial(failing_at, stays=True)], ids=["once", "and stays so"]
)


class Trying:
    """An act whose refusals are kept: ``said`` is the sentence of the last time, or empty."""

    def __init__(self, act: Callable[[Path], object]) -> None:
        self._act = act
        self.said = ""
        self.wrong: WorkroomError | None = None

    def __call__(self, folder: Path) -> None:
        self.said, self.wrong = "", None
        try:
            self._act(folder)
        except WorkroomError as wrong:
            self.said, self.wrong = str(wrong), wrong.with_traceback(None)
            self.wrong.__cause__ = self.wrong.__context__ = None  # nothing is held open by it
            assert "No space left on device" in self.said
            assert self.said[0].isupper()
            assert not {"\n", "/", "Errno"} & set(self.said.split(" "))


@how
def test_a_refused_save_changes_nothing_and_the_next_one_goes_through(
    workroom: Path, how: How
) -> None:
    def save(folder: Path) -> None:
        store = Store(folder)
        document = store.read(WILHELMINA)
        try:
            store.save(with_note(document, "new"))
        finally:
            shown = note_of(store.read(WILHELMINA))
            assert shown == ("now" if sys.exc_info()[0] else "new")

    trying, refused = Trying(save), 0
    for copy, failed in each_copy(workroom, trying, how):
        assert failed or not trying.said
        refused += bool(trying.said)
        assert not trying.said or "Everything up to the touch before it is safe" in trying.said
        with Store(copy) as store:
            document = store.read(WILHELMINA)
            assert store.recovered(WILHELMINA) == ""
            assert note_of(document) in (("now", "new") if trying.said else ("new",))
            store.save(with_note(document, "next"))
        assert kept_note(copy) == "next"
        assert kept_note(copy, BEATRIX) == "the other's"
    assert refused > 3


@how
def test_the_program_that_was_refused_can_save_when_there_is_room_again(
    workroom: Path, how: How
) -> None:
    for number in range(10):
        with Store(workroom) as store:
            document = store.read(WILHELMINA)
            with how(number):
                Trying(lambda _: store.save(with_note(document, "refused?")))(workroom)  # noqa: B023
            store.save(with_note(store.read(WILHELMINA), f"saved {number}"))
            assert note_of(store.read(WILHELMINA)) == f"saved {number}"
        assert kept_note(workroom) == f"saved {number}"


def test_a_refused_save_gives_the_room_it_took_back(workroom: Path) -> None:
    with Store(workroom) as store:
        document = with_note(store.read(WILHELMINA), "refused")
        with failing_at(1) as failed, pytest.raises(WorkroomError):
            store.save(document)
        assert failed[0].what == "write"
        assert list(workroom.rglob("*.new")) == []


def test_what_was_refused_is_never_taken_for_what_is_saved_after_it(workroom: Path) -> None:
    moment = datetime(2026, 3, 2, tzinfo=UTC)  # the clock stands still
    with Store(workroom, now=lambda: moment) as store:
        document = store.read(WILHELMINA)
        with failing_at(0), pytest.raises(WorkroomError):
            store.save({**document, "number": 1})
        store.save({**document, "number": True})  # to Python alone the same
    assert kept(workroom)["number"] is True


@how
def test_a_photo_that_could_not_be_kept_leaves_the_rest(workroom: Path, how: How) -> None:
    def add(folder: Path) -> None:
        store = Store(folder)
        save_with_photo(store, store.read(WILHELMINA), "crimson")

    trying = Trying(add)
    for copy, _ in each_copy(workroom, trying, how):
        with Store(copy) as store:
            taken = store.read(WILHELMINA)["garments"][0]["fittings"][0]["photos"]
            assert len(taken) in ((1, 2) if trying.said else (2,))
            for one in taken:
                assert read_photo(store, WILHELMINA, one["file"])


@how
def test_a_first_save_that_fails_can_be_done_again(tmp_path: Path, how: How) -> None:
    (tmp_path / "new").mkdir()
    trying = Trying(lambda folder: Store(folder / "workroom").save(client("first")))
    for copy, _ in each_copy(tmp_path / "new", trying, how):
        with Store(copy / "workroom") as store:
            assert [row.damaged for row in store.clients()] in ([], [False])
            store.save(client("again"))
        assert kept_note(copy / "workroom") == "again"


@how
def test_a_deletion_that_fails_says_whether_she_is_gone(workroom: Path, how: How) -> None:
    def delete(folder: Path) -> None:
        store = Store(folder)
        try:
            store.delete(WILHELMINA)
        finally:
            listed = {row.id for row in store.clients()}
            assert (WILHELMINA in listed) == store.has(WILHELMINA)

    trying = Trying(delete)
    for copy, _ in each_copy(workroom, trying, how):
        with Store(copy) as store:
            assert store.has(WILHELMINA) is ("is as it was" in trying.said)
            assert {row.id for row in store.clients()} >= {BEATRIX}
        assert not (copy / "leaving").exists()  # what could not be deleted is, now


def seal(folder: Path) -> None:
    set_passcode(Store(folder), PASSCODE)


def unseal(folder: Path) -> None:
    remove_passcode(Store(folder, PASSCODE), PASSCODE)


@how
@pytest.mark.parametrize("act", [seal, unseal])
def test_sealing_that_fails_has_changed_nothing_or_is_finished_at_the_next_opening(
    workroom: Path, how: How, act: Callable[[Path], None]
) -> None:
    if act is unseal:
        seal(workroom)
    trying, seen = Trying(act), set()
    for copy, _ in each_copy(workroom, trying, how):
        with opened(copy) as store:
            turned = (store.seal is not None) is (act is seal)
            assert turned is (not trying.said or isinstance(trying.wrong, Unfinished))
            assert note_of(store.read(WILHELMINA)) == "now"
            assert note_of(store.read(BEATRIX)) == "the other's"
            seen.add((turned, bool(trying.said)))
        assert not (copy / "coming").exists()
    assert {(False, True), (True, True), (True, False)} == seen


def test_a_program_that_could_not_finish_a_move_takes_nothing_more(workroom: Path) -> None:
    def seal_and_go_on(folder: Path) -> None:
        with Store(folder) as store:
            try:
                set_passcode(store, PASSCODE)
            except Unfinished:
                more = (
                    lambda: store.save(client("lost")),
                    lambda: store.delete(BEATRIX),
                    lambda: set_passcode(store, PASSCODE),
                )
                for act in more:
                    with pytest.raises(Unfinished, match="Nothing is lost: close the program"):
                        act()
                raise

    trying, unfinished = Trying(seal_and_go_on), 0
    for copy, _ in each_copy(workroom, trying, failing_at):
        if isinstance(trying.wrong, Unfinished):
            unfinished += 1
            with Store(copy, PASSCODE) as store:
                assert note_of(store.read(WILHELMINA)) == "now"
                assert note_of(store.read(BEATRIX)) == "the other's"
    assert unfinished > 3


@how
def test_a_changed_passcode_that_fails_leaves_one_that_opens(workroom: Path, how: How) -> None:
    seal(workroom)
    trying = Trying(lambda folder: change_passcode(Store(folder, PASSCODE), PASSCODE, NEW_PASSCODE))
    for copy, _ in each_copy(workroom, trying, how):
        opens = [passcode for passcode in (PASSCODE, NEW_PASSCODE) if _opens(copy, passcode)]
        assert len(opens) == 1
        assert trying.said or opens == [NEW_PASSCODE]


def opened(folder: Path) -> Store:
    try:
        return Store(folder)
    except Locked:
        return Store(folder, PASSCODE)


def _opens(folder: Path, passcode: str) -> bool:
    try:
        Store(folder, passcode).close()
    except WorkroomError:
        return False
    return True


@how
def test_closing_on_a_full_disk_is_no_trouble(workroom: Path, how: How) -> None:
    def close(folder: Path) -> None:
        store = Store(folder)
        store.clients()
        store.save(with_note(store.read(WILHELMINA), "new"))
        store.close()

    trying, closed = Trying(close), 0
    for copy, _ in each_copy(workroom, trying, how):
        assert kept_note(copy) == "new" or trying.said
        closed += not trying.said
    assert closed > 3  # those that failed after the save


SAVER = """
import resource, sys
from pathlib import Path
from core.store.clients import Store
from core.store.disk import NotSaved
with Store(Path(sys.argv[1])) as store:
    document = store.read(sys.argv[2])
    resource.setrlimit(resource.RLIMIT_FSIZE, (4_000, 4_000))
    try:
        store.save({**document, "long": "x" * 100_000})
    except NotSaved as wrong:
        print(wrong)
    store.save({**document, "short": True})
"""


@pytest.mark.skipif(os.name == "nt", reason="there is no such limit")
def test_a_real_limit_of_the_system_is_told_and_nothing_is_lost(workroom: Path) -> None:
    run = [sys.executable, "-c", SAVER, str(workroom), WILHELMINA]
    said = subprocess.run(run, capture_output=True, text=True, check=True).stdout
    assert "This could not be saved (File too large)" in said
    assert kept(workroom) == {**_plain(workroom), "short": True}


def _plain(folder: Path) -> dict[str, object]:
    with Store(folder) as store:
        document = unstamped(store.read(WILHELMINA))
    document.pop("short")
    assert note_of(document) == "now"
    return document
