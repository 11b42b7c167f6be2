"""TinyDB's storage for one client: whole files, older ones kept, the newest good one read.

TinyDB's own storage writes over its file in place, so that a flat battery leaves half
new, half old text.  Here a file is written beside the good one, brought to the disk, and put
in its place.  Three files before it are kept: the save before, one of the last hour before
that, and one of the last day, an hour older at least.  The one that drops out is written over
by the next save while the program is open: that halves what a save takes.
"""

import itertools
import json
import re
import zlib
from collections.abc import Callable, Iterable, Iterator, Mapping
from contextlib import contextmanager, suppress
from typing import Any

from tinydb.storages import Storage

from core.errors import Damaged, WorkroomError
from core.store.disk import not_saved
from core.store.shelf import Shelf, Stamp

Tables = dict[str, dict[str, Any]]
Texts = dict[tuple[str, str], tuple[Any, str]]
"""Records, by table and number, with the JSON they were last written as."""

FORMAT = "pins-to-seams-store"
NEWEST = 1
UPGRADES: dict[int, Callable[[Tables], Tables]] = {}
"""One function per step: ``UPGRADES[n]`` turns the tables of format n into n + 1, in memory."""

CURRENT = "client.json"
OLDER = ("client.1.json", "client.2.json", "client.3.json")
APART_NS = (3_600 * 10**9, 24 * 3_600 * 10**9)
"""How far the second and the third file kept fall behind before a newer takes their place."""
SPARE = "client.spare.json"
"""The file that dropped out last, to be written over by the next save."""
SPOILT, OTHER = "client.spoilt-{}.json", "client.other-{}.json"
"""What is kept aside, numbered from 1: a damaged file, and one that another hand wrote."""
UNFINISHED = ""
"""What a cut-off save had written beside the current file."""

_json = json.JSONEncoder(ensure_ascii=False, allow_nan=False, separators=(",", ":")).encode
_HEAD = re.compile(
    rb'\{"format":"' + FORMAT.encode() + rb'/(\d{1,6})","save":(\d{1,15}),'
    rb'"crc32":"([0-9a-f]{8})","tables":'
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
        self._check = 0
        self._save = 0
        self._pending: Tables | None = None
        self._together = False
        self._texts: Texts = {}
        self.recovered = ""

    def read(self) -> Tables | None:
        """Return what is kept; TinyDB may change the records' fields, not what is in them."""
        if self._held is None:
            self._held = self._load()
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
            content = written(tables, self._texts, save=self._save + 1)
            check = self._shelf.write(CURRENT, content, older=self._rotation(), over=SPARE)
        except (OSError, TypeError, ValueError, RecursionError) as wrong:
            self._texts.clear()
            raise not_saved(wrong) from wrong
        self._held, self._save = tables, self._save + 1
        self._stamp, self._check = self._shelf.stamp(CURRENT), check

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

    def drop_spare(self) -> None:
        with suppress(OSError):  # the next reading drops it
            self._shelf.drop(SPARE)

    def _rotation(self) -> tuple[tuple[str, str], ...]:
        """Return which files move to which older name before the new one takes its place."""
        stamps = [self._shelf.stamp(name) for name in (CURRENT, *OLDER)]
        if stamps[0] is None:
            return ()
        if stamps[0] != self._stamp and self._shelf.check(CURRENT) != self._check:
            # written by another hand since it was read: keep it
            return ((CURRENT, self._free(OTHER)),)
        moves = [(CURRENT, OLDER[0])]
        for place, apart_ns in enumerate(APART_NS, 1):
            newer, older = stamps[place], stamps[place + 1]
            if newer is None or (older is not None and abs(newer[1] - older[1]) < apart_ns):
                break
            moves.insert(0, (OLDER[place - 1], OLDER[place]))
        if stamps[len(moves)] is not None:
            moves.insert(0, (OLDER[len(moves) - 1], SPARE))
        return tuple(moves)

    def _load(self) -> Tables:
        """Return the newest good file's tables: the current one, or what stands in for it."""
        stamp = self._shelf.stamp(CURRENT)  # before reading: what is written after it is seen
        good, wrong = self._read_all()
        if CURRENT in good:
            name = CURRENT
        elif good:
            name = max(good, key=lambda found: good[found][0])
        elif wrong is not None:
            raise Damaged(
                "This client's file and the older ones kept beside it cannot be read. Nothing was"
                " changed: keep the folder, and bring her back from a backup"
            ) from wrong
        else:
            self._shelf.drop_unfinished(CURRENT)  # a first save that was cut off
            return {}
        self._save = max(save for save, _ in good.values())
        self._stamp = stamp if name == CURRENT else None
        self._take(name, was_there=stamp is not None)
        self._check = self._shelf.check(CURRENT) if self._stamp else 0
        return good[name][1]

    def _read_all(self) -> tuple[dict[str, tuple[int, Tables]], Exception | None]:
        """Return the good files by name, each with its number; all of them only in need."""
        good: dict[str, tuple[int, Tables]] = {}
        wrong: Exception | None = None
        for name in (CURRENT, UNFINISHED, *OLDER, SPARE):
            try:
                good[name] = numbered_tables(
                    self._shelf.read_unfinished(CURRENT) if name == UNFINISHED
                    else self._shelf.read(name)
                )  # fmt: skip
            except FileNotFoundError:
                continue
            except (OSError, ValueError, Damaged) as found:
                if name not in (UNFINISHED, SPARE):
                    wrong = wrong or found
                continue
            if name == CURRENT:
                break
        return good, wrong

    def _take(self, name: str, *, was_there: bool) -> None:
        """Put the files in order after reading ``name``, and say what was lost, if anything."""
        with suppress(OSError):  # what cannot be moved now is kept aside by the next save
            if name != CURRENT and was_there:
                self._shelf.put_aside(CURRENT, self._free(SPOILT))
            if name == UNFINISHED:
                self._shelf.finish(CURRENT)
                self._stamp = self._shelf.stamp(CURRENT)
            if name == SPARE:
                self._shelf.put_aside(SPARE, OLDER[0])  # the next save would write over it
            else:
                self._put_spare_back()
        if name != UNFINISHED:
            self._shelf.drop_unfinished(CURRENT)
        if name in (*OLDER, SPARE):
            state = "damaged" if was_there else "missing"
            age = "the save before" if name == OLDER[0] else "an older save"
            self.recovered = (
                f"This client's file was {state}: {age} was taken, so look over the last changes"
            )

    def _put_spare_back(self) -> None:
        """Keep what had just dropped out when a save was cut off, if it is the newest of them."""
        if not self._shelf.has(SPARE):
            return
        if not self._shelf.has(OLDER[0]) and self._number(SPARE) > max(map(self._number, OLDER)):
            self._shelf.put_aside(SPARE, OLDER[0])
        else:
            self._shelf.drop(SPARE)

    def _number(self, name: str) -> int:
        """Return which save a file is; 0 where it is missing or spoilt."""
        try:
            return numbered_tables(self._shelf.read(name))[0]
        except (OSError, ValueError, WorkroomError):
            return 0

    def _free(self, name: str) -> str:
        """Return a name, numbered, that no file has yet."""
        names = map(name.format, itertools.count(1))
        return next(name for name in names if not self._shelf.has(name))


def written(tables: Tables, texts: Texts | None = None, *, save: int = 1) -> bytes:
    """Return the tables as a file: JSON with its format number and a check of its content.

    ``save`` counts the saves of this client, so that the newest of several files is known.
    ``texts`` are kept from one time to the next: a record that is as it was is not written out
    again.  Raises ``TypeError`` or ``ValueError`` where something is not JSON.
    """
    known = {} if texts is None else texts
    inner = _object(
        (name, _object((number, _text(record, (name, number), known))
                       for number, record in table.items()))
        for name, table in tables.items()
    ).encode()  # fmt: skip
    check = f"{_check(NEWEST, save, inner):08x}"
    head = f'{{"format":"{FORMAT}/{NEWEST}","save":{save},"crc32":"{check}","tables":'
    return head.encode() + inner + b"}"


def tables_in(content: bytes) -> Tables:
    """Return the tables of a file; ``ValueError`` where it is spoilt, ``TooNew`` where newer."""
    return numbered_tables(content)[1]


def numbered_tables(content: bytes) -> tuple[int, Tables]:
    """Return which save a file is, and its tables; raises as ``tables_in``."""
    head = _HEAD.match(content)
    if head is None:
        raise ValueError("not a client's file")
    number, save, inner = int(head[1]), int(head[2]), content[head.end() : -1]
    if _check(number, save, inner) != int(head[3], 16) or content[-1:] != b"}":
        raise ValueError("not as it was written")
    if number > NEWEST:
        raise TooNew(
            f"This client's file is of format {number}, newer than this program, which reads up to"
            f" {NEWEST}. Nothing was changed: open it with the newer program"
        )
    tables = json.loads(inner)
    for step in range(number, NEWEST):
        tables = UPGRADES[step](tables)
    return save, tables


def _object(fields: Iterable[tuple[str, str]]) -> str:
    return "{" + ",".join(f"{_json(name)}:{text}" for name, text in fields) + "}"


def _text(record: Any, place: tuple[str, str], texts: Texts) -> str:
    if place not in texts or texts[place][0] != record:  # a changed one has another revision
        texts[place] = record, _json(record)
    return texts[place][1]


def _check(number: int, save: int, inner: bytes) -> int:
    """Return the CRC-32 of a file's content and its numbers; newer formats keep to it."""
    return zlib.crc32(inner, zlib.crc32(b"%d/%d" % (number, save)))
