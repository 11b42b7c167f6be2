"""Many clients put in place at once: all of them, or none, whatever happens meanwhile.

Everything is first written under ``coming/``, where nobody looks.  Then one small file,
``ready.json``, says what is to go: with it the move is finished, now or when the folder is next
opened; without it what lies under ``coming/`` is thrown away.  From then on files are only
moved, which needs no room on the disk.  What has to go is first moved to ``leaving/``, so that
it is gone at once, and deleted after.
"""

import json
import os
import shutil
from collections.abc import Iterator, Mapping, Sequence
from contextlib import contextmanager, suppress
from dataclasses import dataclass
from pathlib import Path
from typing import Any
from uuid import uuid4

from core.errors import Damaged, WorkroomError
from core.store.disk import reason
from core.store.stands import as_written
from core.whole_file import make_folder, replace_file, sync_folder, write_whole

CLIENTS, COMING, LEAVING, READY, STANDS = "clients", "coming", "leaving", "ready.json", "stands"


class Unfinished(WorkroomError):
    """A move was begun and could not be finished; it is when the folder is next opened."""


class NotAllGone(WorkroomError):
    """A client is deleted, but some of her files are still on the disk."""


_UNFINISHED = (
    "Not everything could be put in its place yet ({}). Nothing is lost: close the program, look"
    " that there is room on the disk, and open it again"
)


@dataclass(frozen=True, slots=True)
class Arrival:
    """What is being brought in, still out of sight; ``clients`` is where it is written."""

    root: Path

    @property
    def clients(self) -> Path:
        return self.root / COMING / CLIENTS

    def settle(
        self, *, going: Sequence[str] = (), stands: Mapping[str, Any] | None = None
    ) -> None:  # fmt: skip
        """Put everything in its place; ``going`` are folders that leave.

        ``stands`` are files of the store itself, by name, to be written with it (as JSON;
        ``None`` takes the file away).  Raises ``OSError`` with nothing changed; ``Unfinished``
        where the move will be finished when the folder is next opened.
        """
        stands = stands or {}
        for name, content in stands.items():
            if content is not None:
                write_whole(self.root / COMING / STANDS / name, as_written(content))
        _sync_all(self.root / COMING)
        arriving = {path.name for path in self.clients.iterdir()}
        ready = {
            "going": [folder for folder in going if folder not in arriving],
            "gone": [name for name, content in stands.items() if content is None],
        }
        self._decide(json.dumps(ready).encode())
        try:
            finish(self.root)
        except OSError as wrong:
            raise Unfinished(_UNFINISHED.format(reason(wrong))) from wrong


    def _decide(self, ready: bytes) -> None:
        path = self.root / COMING / READY
        try:
            write_whole(path, ready)
        except OSError:
            path.unlink(missing_ok=True)
            raise


@contextmanager
def arrival(root: Path) -> Iterator[Arrival]:
    """Give a place out of sight to write to; what was not settled is thrown away after."""
    refuse_unfinished(root)
    _clear(root / COMING)
    for name in (CLIENTS, STANDS):
        make_folder(root / COMING / name)
    try:
        yield Arrival(root)
    finally:
        if not (root / COMING / READY).exists():
            _clear(root / COMING)


def finish(root: Path) -> None:
    """Finish a move that was cut off, or throw away what was not ready to move."""
    ready = root / COMING / READY
    if ready.exists():
        _move(root, _read_ready(ready))
        ready.unlink()
        with suppress(OSError):  # it is done, and done again it would change nothing
            sync_folder(ready.parent)
    for folder in (COMING, LEAVING):
        with suppress(OSError):  # tried again the next time
            _clear(root / folder)


def refuse_unfinished(root: Path) -> None:
    """Raise ``Unfinished`` where a move still has to be finished before anything else."""
    if os.path.exists(f"{root}/{COMING}/{READY}"):  # asked at every save
        raise Unfinished(_UNFINISHED.format("something was in the way"))


def take_away(root: Path, folder: str) -> None:
    """Delete a client's folder: gone from the list in one move, then from the disk.

    Raises ``OSError`` with nothing changed, ``NotAllGone`` where files of hers are left.
    """
    try:
        _leave(root, folder)
        _clear(root / LEAVING)
    except OSError as wrong:
        if (root / CLIENTS / folder).exists():
            raise
        raise NotAllGone(
            f"She is off the list, but not all of her files could be deleted ({reason(wrong)}). It"
            " is tried again whenever the program is opened"
        ) from wrong


def _move(root: Path, ready: Mapping[str, Any]) -> None:
    make_folder(root / CLIENTS)
    coming = root / COMING / CLIENTS
    for folder in ready["going"]:
        _leave(root, folder)
    for arrived in sorted(coming.iterdir()):
        _leave(root, arrived.name)
        replace_file(arrived, root / CLIENTS / arrived.name)
    sync_folder(root / CLIENTS)
    for arrived in sorted((root / COMING / STANDS).iterdir()):
        replace_file(arrived, root / arrived.name)
    for name in ready["gone"]:
        (root / name).unlink(missing_ok=True)
    sync_folder(root)


def _read_ready(path: Path) -> Mapping[str, Any]:
    try:
        ready = json.loads(path.read_bytes())
        return {name: [str(entry) for entry in ready[name]] for name in ("going", "gone")}
    except (ValueError, KeyError, TypeError) as wrong:
        raise Damaged(
            f"The file {COMING}/{READY} cannot be read, so a move that was cut off cannot be"
            " finished. Nothing was changed: keep the folder, and restore everything from a backup"
            " into a new one"
        ) from wrong


def _leave(root: Path, folder: str) -> None:
    path = root / CLIENTS / folder
    if not path.exists():
        return
    make_folder(root / LEAVING)
    replace_file(path, root / LEAVING / uuid4().hex)
    sync_folder(root / CLIENTS)


def _sync_all(folder: Path) -> None:
    """Bring every folder's list of files to the disk; the files were when they were written."""
    for path in sorted(folder.rglob("*"), reverse=True):
        if path.is_dir():
            sync_folder(path)
    sync_folder(folder)


def _clear(folder: Path) -> None:
    with suppress(FileNotFoundError):
        shutil.rmtree(folder)
