"""What the day book needs to know of a client, gathered from her document while it is at hand.

It reads plain JSON and never refuses: a field that is not as it should be is left out.  Optional
fields of ours on a garment: ``next_fitting`` (``2026-05-14T10:30``, ISO 8601, the workroom's own
time) and ``collected`` (the day she took it home; nothing of it is due any more).
"""

from collections.abc import Iterator, Mapping
from typing import Any, NamedTuple

from core.days import read_day, read_time

READ = ("pinch", "gap", "edges")
"""What a pin has once it is read."""


class Due(NamedTuple):
    """A garment that is wanted on a day (ISO date)."""

    day: str
    garment: str
    garment_id: str = ""


class Coming(NamedTuple):
    """A fitting that is planned: when (ISO 8601, without a time where none was said), and which
    of the garment's fittings it will be, from 1."""

    at: str
    garment: str
    garment_id: str
    number: int


class ToSew(NamedTuple):
    """A fitting with pins and nothing ticked off: how many are read and how many not yet.

    ``by`` is when it must be ready: the next fitting, else the day it is due, else empty.
    """

    garment: str
    garment_id: str
    fitting_id: str
    on: str
    pins: int
    unread: int
    by: str


class Facts(NamedTuple):
    """What the day book needs of one client; ``measured`` is the last day she was measured."""

    due: tuple[Due, ...] = ()
    coming: tuple[Coming, ...] = ()
    to_sew: tuple[ToSew, ...] = ()
    measured: str = ""


def facts_of(document: Mapping[str, Any]) -> Facts:
    """Return the facts of a client's document; plain tuples and texts, ready for the index."""
    garments = tuple(_in_the_making(document))
    return Facts(
        due=tuple(sorted(_due(garments))),
        coming=tuple(sorted(_coming(garments))),
        to_sew=tuple(_to_sew(garments)),
        measured=_measured(document),
    )


def entries(data: Mapping[str, Any], name: str) -> list[Mapping[str, Any]]:
    """Return the objects of a list in a document; nothing that is not as it should be."""
    listed = data.get(name)
    if not isinstance(listed, list):
        return []
    return [entry for entry in listed if isinstance(entry, Mapping)]


def id_of(entry: Mapping[str, Any], noun: str, number: int) -> str:
    """Return an entry's id, or the one the file's reader gives it (``garment_2``)."""
    return _text(entry, "id") or f"{noun}_{number}"


def is_read(pin: Mapping[str, Any]) -> bool:
    return any(pin.get(amount) is not None for amount in READ)


def _in_the_making(document: Mapping[str, Any]) -> Iterator[tuple[str, Mapping[str, Any]]]:
    for number, garment in enumerate(entries(document, "garments"), 1):
        if not read_day(garment.get("collected")):
            yield id_of(garment, "garment", number), garment


def _due(garments: tuple[tuple[str, Mapping[str, Any]], ...]) -> Iterator[Due]:
    for garment_id, garment in garments:
        if read_day(garment.get("due")):
            yield Due(_text(garment, "due"), _text(garment, "name"), garment_id)


def _coming(garments: tuple[tuple[str, Mapping[str, Any]], ...]) -> Iterator[Coming]:
    for garment_id, garment in garments:
        at = next_fitting(garment)
        if at:
            number = len(entries(garment, "fittings")) + 1
            yield Coming(at, _text(garment, "name"), garment_id, number)


def next_fitting(garment: Mapping[str, Any]) -> str:
    """Return when the next fitting is planned; empty once one was held on that day or later."""
    at = read_time(garment.get("next_fitting"))
    if at is None:
        return ""
    held = [read_day(fitting.get("on")) for fitting in entries(garment, "fittings")]
    over = any(day is not None and day >= at.date() for day in held)
    return "" if over else _text(garment, "next_fitting")


def _to_sew(garments: tuple[tuple[str, Mapping[str, Any]], ...]) -> Iterator[ToSew]:
    for garment_id, garment in garments:
        fittings = entries(garment, "fittings")
        if not fittings or fittings[-1].get("done"):
            continue
        pins = entries(fittings[-1], "pins")
        read = sum(map(is_read, pins))
        if read:
            due = _text(garment, "due") if read_day(garment.get("due")) else ""
            yield ToSew(
                garment=_text(garment, "name"),
                garment_id=garment_id,
                fitting_id=id_of(fittings[-1], "fitting", len(fittings)),
                on=_text(fittings[-1], "on"),
                pins=read,
                unread=len(pins) - read,
                by=next_fitting(garment) or due,
            )


def _measured(document: Mapping[str, Any]) -> str:
    days = [entry for entry in entries(document, "measurements") if entry.get("values")]
    days += [
        fitting
        for garment in entries(document, "garments")
        for fitting in entries(garment, "fittings")
        if fitting.get("measurements")
    ]
    return max((_text(day, "on") for day in days if read_day(day.get("on"))), default="")


def _text(data: Mapping[str, Any], name: str) -> str:
    said = data.get(name)
    return said if isinstance(said, str) else ""
