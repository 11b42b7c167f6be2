"""A client's document as records, each with its own id, revision and time of change.

The client herself, every day she was measured, every garment, fitting and photo is a record.
Two tablets can later be merged record by record: the ids never change and are the same
nowhere else, and a record that was taken away leaves its id behind.
"""

import json
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field
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

STAMP = ("uuid", "revision", "changed")
REMOVED = "removed"
"""The document's list of what was taken away: kind, uuid, revision and time, nothing else."""


@dataclass(frozen=True, slots=True)
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
    its own, or with one that another has already, gets a new one.  Stamps that stand
    in the document count only where nothing is kept yet (a file brought in).
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
    uuid = _uuid_of(stamp, found, kept, kind) or new_uuid()
    body = _without_stamp(kind, data)
    found[uuid] = Record(uuid, kind, 0, now)  # its place, before its parts'
    for name, part in PARTS[kind].items():
        entries = data.get(name)
        if isinstance(entries, list) and all(isinstance(entry, dict) for entry in entries):
            body[name] = [_take(part, entry, found, kept, now, new_uuid) for entry in entries]
    found[uuid] = _stamped(uuid, kind, body, stamp, kept.get(uuid), now)
    return uuid


def _stamped(
    uuid: str,
    kind: Kind,
    body: dict[str, Any],
    stamp: Mapping[str, Any],
    before: Record | None,
    now: str,
) -> Record:
    if before is not None:
        if not before.removed and before.body == body:
            return before
        return Record(uuid, kind, before.revision + 1, now, copied(body))
    revision, changed = stamp.get("revision"), stamp.get("changed")
    if type(revision) is int and revision > 0 and isinstance(changed, str):
        return Record(uuid, kind, revision, changed, copied(body))
    return Record(uuid, kind, 1, now, copied(body))


def copied(body: Any) -> Any:
    """Return a copy of plain JSON that shares nothing with it."""
    return json.loads(json.dumps(body))


def _gone(record: Record, now: str) -> Record:
    return Record(record.uuid, record.kind, record.revision + 1, now, {}, removed=True)


def _put_together(record: Record, records: Mapping[str, Record]) -> dict[str, Any]:
    data: dict[str, Any] = copied(record.body)
    for name in PARTS[record.kind]:
        entries = data.get(name)
        if isinstance(entries, list) and all(map(records.__contains__, map(str, entries))):
            data[name] = [_put_together(records[uuid], records) for uuid in entries]
    (data["client"] if record.kind == "client" else data).update(record.stamp())
    return data


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
    uuid = stamp.get("uuid")
    if not isinstance(uuid, str) or uuid in found or not is_uuid(uuid):
        return None
    return uuid if uuid not in kept or kept[uuid].kind == kind else None


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
    entries: Sequence[Any] = document.get(REMOVED) or ()
    return {
        entry["uuid"]: Record(
            entry["uuid"], entry["kind"], entry["revision"], entry["changed"], {}, removed=True
        )
        for entry in (entries if isinstance(entries, list) else ())
        if isinstance(entry, dict)
        and entry.get("kind") in PARTS
        and entry["kind"] != "client"
        and type(entry.get("revision")) is int
        and isinstance(entry.get("changed"), str)
        and isinstance(entry.get("uuid"), str)
        and is_uuid(entry["uuid"])
    }
