"""The list of clients, kept beside them so that starting does not read every client.

The index is only ever a copy of what the clients' files say.  Each row carries the stamp of
the file it was read from; a row whose file has another stamp, or none, is read anew, and an
index that is missing, damaged or of another make is made anew.
"""

import json
import re
import unicodedata
import zlib
from collections.abc import Iterable, Mapping
from itertools import starmap
from typing import Any, NamedTuple

from core.client.facts import Coming, Due, ToSew, entries, facts_of
from core.store.shelf import Stamp

MAKE = 3
"""Raised whenever a row holds other things, so that an index of an older make is read anew."""

_HEAD = re.compile(rb'\{"make":(\d{1,6}),"crc32":"([0-9a-f]{8})","rows":')
_LETTERS = {"ø": "o", "ł": "l", "đ": "d", "ı": "i", "æ": "ae", "œ": "oe"}
"""Letters that are no letter with an accent, and are typed as the plain ones all the same."""


class Row(NamedTuple):
    """What the list shows of a client, and where she is kept.

    ``fittings`` is how many she had; ``due``, ``coming``, ``to_sew`` and ``measured`` are what
    the day book needs; ``searched`` is the name as it is searched, ``changed`` when anything of
    hers was last saved.  A plain tuple, because all of them are read before anything is seen.
    """

    folder: str
    id: str
    name: str
    searched: str = ""
    fittings: int = 0
    due: tuple[Due, ...] = ()
    coming: tuple[Coming, ...] = ()
    to_sew: tuple[ToSew, ...] = ()
    measured: str = ""
    changed: str = ""
    damaged: bool = False
    stamp: Stamp | None = None


def row_of(folder: str, document: Mapping[str, Any], changed: str, stamp: Stamp | None) -> Row:
    """Return the row of a client's document; a field that is not as it should be is left out."""
    client = document["client"]
    name = str(client.get("name", ""))
    garments, facts = entries(document, "garments"), facts_of(document)
    return Row(
        folder=folder,
        id=str(client["id"]),
        name=name,
        searched=folded(name),
        fittings=sum(len(entries(garment, "fittings")) for garment in garments),
        due=facts.due,
        coming=facts.coming,
        to_sew=facts.to_sew,
        measured=facts.measured,
        changed=changed,
        stamp=stamp,
    )


def write_index(rows: Iterable[Row]) -> bytes:
    kept = json.dumps(list(rows), separators=(",", ":")).encode()
    return b'{"make":%d,"crc32":"%08x","rows":%b}' % (MAKE, zlib.crc32(kept), kept)


def read_index(content: bytes) -> dict[str, Row]:
    """Return the rows by folder; none of them where the index cannot be used."""
    try:
        head = _HEAD.match(content)
        kept = content[head.end() : -1] if head else b""
        if head is None or int(head[1]) != MAKE or zlib.crc32(kept) != int(head[2], 16):
            return {}
        return {row.folder: row for row in map(_read_row, json.loads(kept))}
    except (ValueError, TypeError):
        return {}


def _read_row(kept: list[Any]) -> Row:
    *plain, due, coming, to_sew, measured, changed, damaged, stamp = kept
    folder, client_id, name, searched, fittings = plain
    return Row(
        folder,
        client_id,
        name,
        searched,
        fittings,
        tuple(starmap(Due, due)) if due else (),
        tuple(starmap(Coming, coming)) if coming else (),
        tuple(starmap(ToSew, to_sew)) if to_sew else (),
        measured,
        changed,
        damaged,
        None if stamp is None else (stamp[0], stamp[1], stamp[2]),
    )


def folded(text: str) -> str:
    """Return a name as it is searched: no capitals, accents or signs, one blank between words."""
    apart = unicodedata.normalize("NFKD", text.casefold())
    plain = (_LETTERS.get(sign, sign) for sign in apart if not unicodedata.combining(sign))
    words = (sign if unicodedata.category(sign[0])[0] in "LMN" else " " for sign in plain)
    return " ".join("".join(words).split())


class NameList:
    """The rows by name, and those found as she types."""

    def __init__(self, rows: Iterable[Row]) -> None:
        self.rows = tuple(sorted(rows, key=lambda row: (row.searched, row.name, row.folder)))
        self._names = [f" {row.searched}" for row in self.rows]

    def search(self, text: str) -> tuple[Row, ...]:
        """Return the rows where each word typed begins a word of the name, in any order."""
        words = [f" {word}" for word in folded(text).split()]
        return tuple(
            row
            for row, name in zip(self.rows, self._names, strict=True)
            if all(word in name for word in words)
        )
