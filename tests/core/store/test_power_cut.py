"""After a power cut at any step, in the worst case that POSIX allows, what was said is there."""

import hashlib
import shutil
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest

from core.errors import WorkroomError
from core.store.clients import Locked, Store
from core.store.passcode import remove_passcode, set_passcode
from core.store.photos import read_photo
from tests.core.store.invented import (
    BEATRIX,
    PASSCODE,
    WILHELMINA,
    client,
    note_of,
    other,
    save_with_photo,
    with_note,
)
from tests.core.store.power import Disk, lay_down
from tests.core.store.steps import Step, watched

pytestmark = pytest.mark.usefixtures("quick_passcode")

Kept = dict[str, tuple[str, tuple[str, ...]]]
Verb = Callable[[Store], object]


def kept(store: Store) -> Kept:
    """Return each client's note and the photos that can be read, by her id."""
    found = {}
    for row in store.clients():
        document = store.read(row.id)
        names = [one["file"] for one in document["garments"][0]["fittings"][0].get("photos", ())]
        photos = [hashlib.sha256(read_photo(store, row.id, name)).hexdigest() for name in names]
        found[row.id] = note_of(document), tuple(photos)
    return found


def note(text: str, client_id: str = WILHELMINA) -> Verb:
    return lambda store: store.save(with_note(store.read(client_id), text))


SAVING: list[Verb] = [
    lambda store: store.save(client("first")),
    note("second"),
    note("third"),
    note("fourth"),
    lambda store: store.save(other("the other's")),
    note("fifth"),
    note("the other's second", BEATRIX),
]
PHOTOS: list[Verb] = [
    lambda store: store.save(client("first")),
    lambda store: save_with_photo(store, store.read(WILHELMINA)),
    lambda store: save_with_photo(store, store.read(WILHELMINA), "crimson"),
]
DELETING: list[Verb] = [
    lambda store: store.save(other("stays")),
    lambda store: store.save(client("goes")),
    lambda store: save_with_photo(store, store.read(WILHELMINA)),
    lambda store: store.delete(WILHELMINA),
    lambda store: store.save(client("is back")),
]
SEALING: list[Verb] = [
    lambda store: store.save(client("first")),
    lambda store: store.save(other("the other's")),
    lambda store: set_passcode(store, PASSCODE),
    note("sealed"),
    lambda store: remove_passcode(store, PASSCODE),
    note("open again"),
]
WORK = {"saving": SAVING, "photos": PHOTOS, "deleting": DELETING, "sealing": SEALING}


def losses(
    folder: Path, verbs: list[Verb], forgotten: Callable[[Step], bool] = lambda step: False
) -> Iterator[str]:
    """Do some work; yield where a cut would have lost what had been said to be saved.

    The steps that are ``forgotten`` are left out of what reached the disk.
    """
    (folder / "work").mkdir()
    steps: list[Step] = []
    said: list[tuple[int, Kept]] = [(0, {})]
    with watched(steps.append):
        store = Store(folder / "work" / "room")
        for verb in verbs:
            verb(store)
            said.append((len(steps), kept(store)))
    disk = Disk(folder / "work")
    for number, step in enumerate([*steps, None]):
        done = sum(taken <= number for taken, _ in said) - 1
        allowed = [kept for _, kept in said[done : done + 2]]
        for case in disk.worst():
            lay_down(case, folder / "cut")
            if _after_the_cut(folder / "cut" / "room") not in allowed:
                yield f"before step {number}, {step}"
            shutil.rmtree(folder / "cut")
        if step is not None and not forgotten(step):
            disk.take(step)


def _after_the_cut(folder: Path) -> Kept | str:
    try:
        try:
            store = Store(folder)
        except Locked:
            store = Store(folder, PASSCODE)
        with store:
            return kept(store)
    except WorkroomError as wrong:
        return str(wrong)


@pytest.mark.parametrize("work", WORK)
def test_what_was_said_to_be_saved_is_there(tmp_path: Path, work: str) -> None:
    assert list(losses(tmp_path, WORK[work])) == []


def _brings_down(step: Step) -> str:
    if step.what != "fsync":
        return "nothing"
    return "a file" if step.path.suffix == ".new" else "a folder"


@pytest.mark.parametrize("what", ["a file", "a folder"])
@pytest.mark.parametrize("work", WORK)
def test_something_would_be_lost_if_it_were_not_brought_down(
    tmp_path: Path, work: str, what: str
) -> None:
    assert next(losses(tmp_path, WORK[work], lambda step: _brings_down(step) == what), None)
