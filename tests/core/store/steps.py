"""The disk in the program's hands, step by step, so that any step can be the last.

A step is one call that changes the disk or brings it there: making a folder, writing a file,
moving, deleting, ``fsync``.  What watches is told before each one and may raise.
"""

import errno
import os
import shutil
from collections.abc import Callable, Iterator
from contextlib import AbstractContextManager, contextmanager, suppress
from dataclasses import dataclass
from pathlib import Path
from typing import Any
from unittest import mock

ONE_PATH = ("mkdir", "unlink", "rmdir")
NEEDS_ROOM = ("mkdir", "write", "fsync")


@dataclass(frozen=True)
class Step:
    """``what`` is done to ``path``; ``to`` is where it is moved, ``content`` what is written."""

    what: str
    path: Path
    to: Path | None = None
    content: bytes = b""


class Killed(BaseException):
    """The battery died here."""


class _File:
    """An open file that tells what is written to it; half of it is where it is cut off there."""

    def __init__(self, file: Any, path: Path, watch: Callable[[Step], None]) -> None:
        self._file, self._path, self._watch = file, path, watch

    def write(self, content: bytes) -> int:
        try:
            self._watch(Step("write", self._path, content=content))
        except BaseException:
            self._file.write(content[: len(content) // 2])
            self._file.flush()
            raise
        return int(self._file.write(content))

    def __getattr__(self, name: str) -> Any:
        return getattr(self._file, name)

    def __enter__(self) -> "_File":
        return self

    def __exit__(self, *_: object) -> None:
        self._file.close()


@contextmanager
def watched(watch: Callable[[Step], None]) -> Iterator[None]:
    """Tell every step that the program is about to take."""
    handles: dict[int, Path] = {}
    real = {name: getattr(os, name) for name in (*ONE_PATH, "open", "replace", "fsync")}

    def one(name: str) -> Callable[..., Any]:
        def call(path: Any, *given: Any, **named: Any) -> Any:
            watch(Step(name, Path(path)))
            return real[name](path, *given, **named)

        return call

    def open_handle(path: Any, *given: Any, **named: Any) -> int:
        handle = int(real["open"](path, *given, **named))
        handles[handle] = Path(path)
        return handle

    def open_file(path: Any, *given: Any, **named: Any) -> _File:
        return _File(open(path, *given, **named), Path(path), watch)

    def replace(source: Any, target: Any) -> None:
        watch(Step("replace", Path(source), Path(target)))
        real["replace"](source, target)

    def fsync(handle: int) -> None:
        watch(Step("fsync", handles[handle]))
        real["fsync"](handle)

    patched = {name: one(name) for name in ONE_PATH}
    with (
        mock.patch.multiple(os, open=open_handle, replace=replace, fsync=fsync, **patched),
        mock.patch("core.whole_file.open", open_file, create=True),
        mock.patch.object(shutil, "_use_fd_functions", False),  # so that it tells whole paths
    ):
        yield


def steps_of(act: Callable[[], object]) -> list[Step]:
    """Return every step that an act takes."""
    taken: list[Step] = []
    with watched(taken.append):
        act()
    return taken


@contextmanager
def killed_at(number: int) -> Iterator[list[Step]]:
    """Kill the program before its step of this number; the dead take no step after it.

    Gives a list that holds the step, where the program came to it.
    """
    reached: list[Step] = []
    left = iter(range(number))

    def watch(step: Step) -> None:
        if next(left, None) is None:
            reached.append(step)
            raise Killed

    with suppress(Killed), watched(watch):
        yield reached


@contextmanager
def failing_at(number: int, *, stays: bool = False) -> Iterator[list[Step]]:
    """Let a step fail as on a full disk; ``stays``: all after it too that need room."""
    reached: list[Step] = []
    left = iter(range(number))

    def watch(step: Step) -> None:
        if next(left, None) is None and (not reached or (stays and step.what in NEEDS_ROOM)):
            reached.append(step)
            raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))

    with watched(watch):
        yield reached


How = Callable[[int], AbstractContextManager[list[Step]]]


def each_copy(
    folder: Path, act: Callable[[Path], object], how: How
) -> Iterator[tuple[Path, bool]]:
    """Do an act on a fresh copy of a folder for every step of it, with ``how`` at that step.

    Yields the copy and whether the act came to that step; the last time it did not.
    """
    reached, number = True, 0
    while reached:
        copy = folder.with_name(f"{folder.name} {number}")
        shutil.copytree(folder, copy)
        reached = _came_to(how(number), act, copy)
        yield copy, reached
        shutil.rmtree(copy)
        number += 1


def _came_to(
    how: AbstractContextManager[list[Step]], act: Callable[[Path], object], copy: Path
) -> bool:
    """Do it; in a function of its own, so that what the dead held is let go of."""
    with how as reached:
        act(copy)
    return bool(reached)
