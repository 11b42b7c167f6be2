"""Many clients put in place at once: all of them, or none, whatever happens meanwhile.

Everything is first written under ``coming/``, where nobody looks.  Then one small file,
``ready.json``, says what is to go where: with it the move is finished, now or when the folder
is next opened; without it what lies under ``coming/`` is thrown away.  What has to go is
first moved to ``leaving/``, so that it is gone at once, and deleted after.
"""

import json
import shutil
from collections.abc import Iterator, Mapping, Sequence
from contextlib import contextmanager, suppress
from dataclasses import dataclass
from pathlib import Path
from typing import Any
from uuid import uuid4

from core.whole_file import replace_file, sync_folder, write_whole

CLIENTS, COMING, LEAVING, READY = "clients", "coming", "leaving", "ready.json"


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
        ``None`` takes the file away).  Raises ``OSError`` with nothing changed, or with the
        move finished when the folder is next opened.
        """
        _sync_all(self.root / COMING)
        arriving = {path.name for path in self.clients.iterdir()}
        ready = {
            "going": [folder for folder in going if folder not in arriving],
            "stands": dict(stands or {}),
        }
        write_whole(self.root / COMING / READY, json.dumps(ready).encode())
        finish(self.root)


@contextmanager
def arrival(root: Path) -> Iterator[Arrival]:
    """Give a place out of sight to write to; what was not settled is thrown away after."""
    _clear(root / COMING)
    (root / COMING / CLIENTS).mkdir(parents=True)
    try:
        yield Arrival(root)
    finally:
        if not (root / COMING / READY).exists():
            _clear(root / COMING)


def finish(root: Path) -> None:
    """Finish a move that was cut off, or throw away what was not ready to move."""
    ready = root / COMING / READY
    if ready.exists():
        _move(root, json.loads(ready.read_bytes()))
        ready.unlink()
        sync_folder(ready.parent)
    _clear(root / COMING)
    _clear(root / LEAVING)


def take_away(root: Path, folder: str) -> None:
    """Delete a client's folder: gone from the list in one move, then from the disk."""
    _leave(root, folder)
    _clear(root / LEAVING)


def _move(root: Path, ready: Mapping[str, Any]) -> None:
    (root / CLIENTS).mkdir(exist_ok=True)
    coming = root / COMING / CLIENTS
    for folder in ready["going"]:
        _leave(root, folder)
    for arrived in sorted(coming.iterdir()):
        _leave(root, arrived.name)
        replace_file(arrived, root / CLIENTS / arrived.name)
    sync_folder(root / CLIENTS)
    for name, content in ready["stands"].items():
        if content is None:
            (root / name).unlink(missing_ok=True)
        else:
            write_whole(root / name, json.dumps(content, indent=1).encode())
    sync_folder(root)


def _leave(root: Path, folder: str) -> None:
    path = root / CLIENTS / folder
    if not path.exists():
        return
    (root / LEAVING).mkdir(exist_ok=True)
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
