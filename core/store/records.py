"""A client's document as records, each with its own id, revision and time of change.

The client herself, every day she was measured, every garment, fitting and photo is a record.
Two tablets can later be merged record by record: the ids never change and are the same
nowhere else, and a record that was taken away leaves its id behind.
"""

import marshal
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from datetime import datetime
from functools import cached_property
from typing import Any, Literal

from core.store.folders import is_uuid

Kind = Literal["client", "sitting", "garment", "fitting", "photo"]

PARTS: dict[Kind, dict[str, Kind]] = {
    "client": {"measurements": "sitting", "garments": "garment"},
    "garment": {"fittings": "fitting"},
    "fitting": {"photos": "photo"},
    "sitting": {},
    "photo": {},
}
"""Which lists of a record hold records of their own, and of which kind."""

_REMOVABLE = [kind for kind in PARTS if kind != "client"]

STAMP = ("uuid", "revision", "changed")
REMOVED = "removed"
"""The document's list of what was taken away: kind, uuid, revision and time, nothing else."""


@dataclass(frozen=True)
class Record:
    """One record; ``body`` is its part of the document, with the ids of its parts in their place.

    ``revision`` counts its changes from 1, ``changed`` is when the last one was saved
    (ISO 8601, UTC).  A record taken away keeps no body.
    """

    uuid: str
    kind: Kind
    revision: int
    changed: str
    body: Mapping[str, Any] = field(default_factory=dict)
    removed: bool = False

    @cached_property
    def packed(self) -> bytes:
        """The body as it is quickest to copy and to compare."""
        return _packed(self.body)

    def stamp(self) -> dict[str, Any]:
        return {"uuid": self.uuid, "revision": self.revision, "changed": self.changed}


def split(
    document: Mapping[str, Any],
    kept: Mapping[str, Record],
    *,
    now: str,
    new_uuid: Callable[[], str],
) -> dict[str, Record]:
    """Return a document's records, the client's first; what changed is a revision further.

    ``kept`` are the records as they were: one that is as it was is handed back itself, one that
    is not in the document any more is kept as taken away.  A record without an id of
    its own, or with one that another has already, gets a new one.  The client's own record stays
    the one it is.  What the document says of a record's revision and time counts only where
    nothing is kept of it yet (a file brought in).  Raises ``ValueError`` where the document
    holds what JSON does not know.
    """
    found: dict[str, Record] = {}
    told = {} if kept else _told_removed(document)
    before = {**kept, **told}
    _take("client", document, found, before, now, new_uuid)
    for uuid, record in before.items():
        if uuid not in found:
            found[uuid] = record if record.removed else _gone(record, now)
    return found


def join(records: Mapping[str, Record]) -> dict[str, Any]:
    """Return the document again, every record with its stamp; a copy, the caller's own."""
    root = next(record for record in records.values() if record.kind == "client")
    document = _put_together(root, records)
    removed = [
        {"kind": record.kind, **record.stamp()} for record in records.values() if record.removed
    ]
    if removed:
        document[REMOVED] = removed
    return document


def unstamped(document: Mapping[str, Any]) -> dict[str, Any]:
    """Return a document without the marks of its records."""
    return _plain("client", document)


def _take(
    kind: Kind,
    data: Mapping[str, Any],
    found: dict[str, Record],
    kept: Mapping[str, Record],
    now: str,
    new_uuid: Callable[[], str],
) -> str:
    stamp = _stamp_of(kind, data)
    known = _uuid_of(stamp, found, kept, kind)
    uuid = known or new_uuid()
    body = _without_stamp(kind, data)
    found[uuid] = Record(uuid, kind, 0, now)  # its place, before its parts'
    for name, part in PARTS[kind].items():
        entries = data.get(name)
        if isinstance(entries, list) and all(isinstance(entry, dict) for entry in entries):
            body[name] = [_take(part, entry, found, kept, now, new_uuid) for entry in entries]
    found[uuid] = _stamped(uuid, kind, body, stamp if known else {}, kept.get(uuid), now)
    return uuid


def _stamped(
    uuid: str,
    kind: Kind,
    body: dict[str, Any],
    stamp: Mapping[str, Any],
    before: Record | None,
    now: str,
) -> Record:
    packed = _packed(body)
    if before is not None and not before.removed and before.packed == packed:
        return before
    own = marshal.loads(packed)  # shares nothing with the caller's
    if before is not None:
        return Record(uuid, kind, before.revision + 1, now, own)
    if _can_be(stamp):
        return Record(uuid, kind, stamp["revision"], stamp["changed"], own)
    return Record(uuid, kind, 1, now, own)


def same(before: Any, after: Any) -> bool:
    """Tell whether two are the same JSON; to Python alone 1, 1.0 and true are equal."""
    return bool(before == after) and _packed(before) == _packed(after)


def _packed(plain: Any) -> bytes:
    """Return plain JSON as bytes that are the same for the same and tell 1 from 1.0 and true.

    They never leave the memory, so that it is no matter what Python of what make wrote them.
    """
    return marshal.dumps(plain, 0)


def _can_be(stamp: Mapping[str, Any]) -> bool:
    """Tell whether a revision and a time of change are such as this program writes."""
    revision, changed = stamp.get("revision"), stamp.get("changed")
    if type(revision) is not int or revision < 1 or not isinstance(changed, str):
        return False
    try:
        return datetime.fromisoformat(changed).tzinfo is not None
    except ValueError:
        return False


def _gone(record: Record, now: str) -> Record:
    return Record(record.uuid, record.kind, record.revision + 1, now, {}, removed=True)


def _put_together(record: Record, records: Mapping[str, Record]) -> dict[str, Any]:
    data: dict[str, Any] = marshal.loads(record.packed)
    for name, part in PARTS[record.kind].items():
        entries = data.get(name)
        if isinstance(entries, list) and all(_is_one(entry, part, records) for entry in entries):
            data[name] = [_put_together(records[uuid], records) for uuid in entries]
    (data["client"] if record.kind == "client" else data).update(record.stamp())
    return data


def _is_one(entry: Any, kind: Kind, records: Mapping[str, Record]) -> bool:
    """Tell whether an entry of a list is the id of a record, and not a text of the document."""
    return isinstance(entry, str) and entry in records and records[entry].kind == kind


def _stamp_of(kind: Kind, data: Mapping[str, Any]) -> Mapping[str, Any]:
    """Return what a record says of itself; a client whose id is one already needs no other."""
    if kind != "client":
        return data
    client: Mapping[str, Any] = data["client"]
    return client if "uuid" in client else {**client, "uuid": client.get("id")}


def _uuid_of(
    stamp: Mapping[str, Any],
    found: Mapping[str, Record],
    kept: Mapping[str, Record],
    kind: Kind,
) -> str | None:
    if kind == "client":
        for record in kept.values():
            if record.kind == kind:
                return record.uuid
    uuid = stamp.get("uuid")
    if not isinstance(uuid, str) or uuid in found:
        return None
    if uuid in kept:
        return uuid if kept[uuid].kind == kind else None
    return uuid if is_uuid(uuid) else None


def _without_stamp(kind: Kind, data: Mapping[str, Any]) -> dict[str, Any]:
    if kind != "client":
        return {key: value for key, value in data.items() if key not in STAMP}
    body = {key: value for key, value in data.items() if key != REMOVED}
    body["client"] = {key: value for key, value in data["client"].items() if key not in STAMP}
    return body


def _plain(kind: Kind, data: Mapping[str, Any]) -> dict[str, Any]:
    plain = _without_stamp(kind, data)
    for name, part in PARTS[kind].items():
        entries = plain.get(name)
        if isinstance(entries, list):
            plain[name] = [
                _plain(part, entry) if isinstance(entry, dict) else entry for entry in entries
            ]
    return plain


def _told_removed(document: Mapping[str, Any]) -> dict[str, Record]:
    """Return what a file brought in says was taken away; nonsense in it is left out."""
    entries = document.get(REMOVED)
    return {
        entry["uuid"]: Record(
            entry["uuid"], entry["kind"], entry["revision"], entry["changed"], {}, removed=True
        )
        for entry in (entries if isinstance(entries, list) else ())
        if isinstance(entry, dict)
        and entry.get("kind") in _REMOVABLE
        and _can_be(entry)
        and isinstance(entry.get("uuid"), str)
        and is_uuid(entry["uuid"])
    }
