"""TinyDB's storage for one client: whole files, older ones kept, the newest good one read.

TinyDB's own storage writes over its file in place, so that a flat battery leaves half
new, half old text.  Here a file is written beside the good one, brought to the disk, and put
in its place.  The files before it are kept, each further apart in time: the save before,
one from about an hour before that, one from about a day before that.
"""

import itertools
import json
import re
import zlib
from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager
from typing import Any

from tinydb.storages import Storage

from core.errors import Damaged, WorkroomError
from core.store.disk import NotSaved, reason
from core.store.shelf import Shelf, Stamp

Tables = dict[str, dict[str, Any]]

FORMAT = "pins-to-seams-store"
NEWEST = 1
UPGRADES: dict[int, Callable[[Tables], Tables]] = {}
"""One function per step: ``UPGRADES[n]`` turns the tables of format n into n + 1, in memory."""

CURRENT = "client.json"
OLDER = ("client.1.json", "client.2.json", "client.3.json")
APART_NS = (3_600 * 10**9, 24 * 3_600 * 10**9)
"""How much older than the one before it the second and third kept file are, at least."""

_HEAD = re.compile(
    rb'\{"format":"' + FORMAT.encode() + rb'/(\d{1,6})","crc32":"([0-9a-f]{8})","tables":'
)


class TooNew(WorkroomError):
    """A client's file was written by a newer program."""


class GenerationStorage(Storage):
    """The tables of one client, read once and held.

    ``recovered`` says in words which older file had to be taken; empty where all is well.
    Raises ``Damaged`` where no file can be read, ``NotSaved`` where writing fails.
    """

    def __init__(self, shelf: Shelf) -> None:
        self._shelf = shelf
        self._held: Tables | None = None
        self._stamp: Stamp | None = None
        self._pending: Tables | None = None
        self._together = False
        self.recovered = ""

    def read(self) -> Tables | None:
        """Return what is kept; TinyDB may change the records' fields, not what is in them."""
        if self._held is None:
            self._held = self._load()
            self._stamp = self._shelf.stamp(CURRENT)
        held = self._held if self._pending is None else self._pending
        return {
            name: {number: dict(record) for number, record in table.items()}
            for name, table in held.items()
        } or None

    def write(self, data: Mapping[str, Mapping[str, Any]]) -> None:
        tables = {name: dict(table) for name, table in data.items()}
        if self._together:
            self._pending = tables
            return
        try:
            self._shelf.write(CURRENT, written(tables), older=self._rotation())
        except (OSError, TypeError, ValueError) as wrong:
            raise NotSaved(
                f"This could not be saved ({reason(wrong)}). Everything up to the touch before"
                " it is safe"
            ) from wrong
        self._held, self._stamp = tables, self._shelf.stamp(CURRENT)

    @contextmanager
    def together(self) -> Iterator[None]:
        """Let several changes be written as one file, or none of them."""
        self._together = True
        try:
            yield
            self._together = False
            if self._pending is not None:
                self.write(self._pending)
        finally:
            self._together, self._pending = False, None

    def _rotation(self) -> tuple[tuple[str, str], ...]:
        """Return which files move to which older name before the new one takes its place."""
        stamps = [self._shelf.stamp(name) for name in (CURRENT, *OLDER)]
        if stamps[0] is None:
            return ()
        if stamps[0] != self._stamp:  # written by another hand since it was read: keep it
            return ((CURRENT, self._free("client.other-{}.json")),)
        moves = [(CURRENT, OLDER[0])]
        for place, apart_ns in enumerate(APART_NS, 1):
            newer, older = stamps[place], stamps[place + 1]
            if newer is None or (older is not None and newer[1] - older[1] < apart_ns):
                break
            moves.insert(0, (OLDER[place - 1], OLDER[place]))
        return tuple(moves)

    def _load(self) -> Tables:
        """Return the newest good file's tables: the current one, or what stands in for it."""
        wrong: Exception | None = None
        there = self._shelf.has(CURRENT)
        for name, read in self._candidates():
            try:
                tables = tables_in(read())
            except FileNotFoundError:
                continue
            except (OSError, ValueError, Damaged) as found:
                wrong = wrong or found
                continue
            self._take(name, was_there=there)
            return tables
        if wrong is not None:
            raise Damaged(
                "This client's file and the older ones kept beside it cannot be read. Nothing was"
                " changed: keep the folder, and bring her back from a backup"
            ) from wrong
        return {}

    def _candidates(self) -> list[tuple[str, Callable[[], bytes]]]:
        """Return what may be read, newest first; a whole file not yet in place comes second."""
        read = self._shelf.read
        unfinished = ("", lambda: self._shelf.read_unfinished(CURRENT))
        older = [(name, lambda name=name: read(name)) for name in OLDER]
        return [(CURRENT, lambda: read(CURRENT)), unfinished, *older]

    def _take(self, name: str, *, was_there: bool) -> None:
        """Put the files in order after reading ``name``, and say what was lost, if anything."""
        if name != CURRENT and was_there:
            self._shelf.put_aside(CURRENT, self._free("client.spoilt-{}.json"))
        if name == "":
            self._shelf.finish(CURRENT)
        else:
            self._shelf.drop_unfinished(CURRENT)
        if name in OLDER or (name == "" and was_there):
            state = "damaged" if was_there else "missing"
            age = "the save before" if name in ("", OLDER[0]) else "an older save"
            self.recovered = (
                f"This client's file was {state}: {age} was taken, so look over the last changes"
            )

    def _free(self, name: str) -> str:
        """Return a name, numbered, that no file has yet."""
        names = map(name.format, itertools.count(1))
        return next(name for name in names if not self._shelf.has(name))


def written(tables: Tables) -> bytes:
    """Return the tables as a file: JSON with its format number and a check of its content."""
    inner = json.dumps(tables, ensure_ascii=False, allow_nan=False, separators=(",", ":")).encode()
    head = f'{{"format":"{FORMAT}/{NEWEST}","crc32":"{zlib.crc32(inner):08x}","tables":'
    return head.encode() + inner + b"}"


def tables_in(content: bytes) -> Tables:
    """Return the tables of a file; ``ValueError`` where it is spoilt, ``TooNew`` where newer."""
    head = _HEAD.match(content)
    if head is None:
        raise ValueError("not a client's file")
    number, inner = int(head[1]), content[head.end() : -1]
    if number > NEWEST:
        raise TooNew(
            f"This client's file is of format {number}, newer than this program, which reads up to"
            f" {NEWEST}. Nothing was changed: open it with the newer program"
        )
    if zlib.crc32(inner) != int(head[2], 16) or content[-1:] != b"}":
        raise ValueError("not as it was written")
    tables = json.loads(inner)
    for step in range(number, NEWEST):
        tables = UPGRADES[step](tables)
    return tables  # type: ignore[no-any-return]
