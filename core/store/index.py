"""The list of clients, kept beside them so that starting does not read every client.

The index is only ever a copy of what the clients' files say.  Each row carries the stamp of
the file it was read from; a row whose file has another stamp, or none, is read anew, and an
index that is missing, damaged or of another make is made anew.
"""

import json
import unicodedata
from collections.abc import Iterable, Mapping
from dataclasses import asdict, dataclass
from typing import Any

from core.store.shelf import Stamp

MAKE = 1
"""Raised whenever a row holds other things, so that an index of an older make is read anew."""


@dataclass(frozen=True, slots=True)
class Row:
    """What the list shows of a client, and where she is kept.

    ``fittings`` is how many she had; ``due`` the days her garments are due (ISO 8601, with the
    garment's name); ``searched`` is the name as it is searched, ``changed`` when anything of
    hers was last saved.
    """

    folder: str
    id: str
    name: str
    searched: str = ""
    fittings: int = 0
    due: tuple[tuple[str, str], ...] = ()
    changed: str = ""
    damaged: bool = False
    stamp: Stamp | None = None


def row_of(folder: str, document: Mapping[str, Any], changed: str, stamp: Stamp | None) -> Row:
    """Return the row of a client's document; a field that is not as it should be is left out."""
    client = document["client"]
    garments = _entries(document, "garments")
    return Row(
        folder=folder,
        id=str(client["id"]),
        name=str(client["name"]),
        searched=folded(str(client["name"])),
        fittings=sum(len(_entries(garment, "fittings")) for garment in garments),
        due=tuple(
            sorted(
                (garment["due"], str(garment.get("name", "")))
                for garment in garments
                if isinstance(garment.get("due"), str)
            )
        ),
        changed=changed,
        stamp=stamp,
    )


def _entries(data: Mapping[str, Any], name: str) -> list[Mapping[str, Any]]:
    entries = data.get(name)
    return [entry for entry in entries if isinstance(entry, dict)] if entries else []


def write_index(rows: Iterable[Row]) -> bytes:
    kept = [asdict(row) for row in rows]
    return json.dumps({"make": MAKE, "rows": kept}, ensure_ascii=False).encode()


def read_index(content: bytes) -> dict[str, Row]:
    """Return the rows by folder; none of them where the index cannot be used."""
    try:
        data = json.loads(content)
        if data["make"] != MAKE:
            return {}
        return {row["folder"]: _read_row(row) for row in data["rows"]}
    except (ValueError, KeyError, TypeError):
        return {}


def _read_row(row: Mapping[str, Any]) -> Row:
    stamp = row["stamp"]
    read = {
        **row,
        "due": tuple((str(day), str(name)) for day, name in row["due"]),
        "stamp": None if stamp is None else (int(stamp[0]), int(stamp[1]), int(stamp[2])),
    }
    return Row(**read)


def folded(text: str) -> str:
    """Return a name as it is searched: no capitals, no accents, one blank between words."""
    apart = unicodedata.normalize("NFKD", text.casefold())
    plain = "".join(sign for sign in apart if not unicodedata.combining(sign))
    return " ".join(plain.split())


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
