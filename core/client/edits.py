"""Changes to what is written of a client herself, made on a document that is the caller's own.

Optional fields of ours: the client's ``since``, the day she was written down first; a garment's
``next_fitting`` and ``collected`` (see ``client_facts``).
"""

from datetime import date, datetime
from typing import Any

from core.client.facts import entries, id_of
from core.client.over_time import unit_of
from core.errors import BadFile, BadLength, NotFound, WorkroomError
from core.file.field import Field
from core.file.fitting_file import FORMAT, NEWEST
from core.file.reading_parts import read_ease
from core.lengths import Unit


class NoName(WorkroomError):
    """A client needs a name to be found by."""


class NotADay(WorkroomError):
    """What was given for a day is none."""


def new_client(name: str, client_id: str, today: date, unit: Unit) -> dict[str, Any]:
    """Return the document of a client with nothing but her name; raises ``NoName``."""
    return {
        "format": f"{FORMAT}/{NEWEST}",
        "unit": unit,
        "client": {"id": client_id, "name": _name(name), "since": today.isoformat()},
        "measurements": [],
        "garments": [],
    }


def rename(document: dict[str, Any], name: str) -> None:
    """Call a client by another name; raises ``NoName`` with nothing changed."""
    document["client"]["name"] = _name(name)


def follow_unit(document: dict[str, Any], unit: Unit) -> None:
    """Put a file that holds no length yet into another unit; one that holds some stays as it is.

    So a client who is first measured in centimetres gets her drafts in centimetres.
    """
    if not (document["client"].get("ease") or entries(document, "measurements")
            or entries(document, "garments")):  # fmt: skip
        document["unit"] = unit


def set_notes(document: dict[str, Any], notes: str) -> None:
    document["client"]["notes"] = notes


def set_ease(document: dict[str, Any], level: str, typed: str) -> None:
    """Write down the ease she likes at a level: a length or a share (``4%``), as it was typed.

    An empty text takes it away.  Raises ``BadLength`` with nothing changed.
    """
    text, before = typed.strip(), document["client"].get("ease")
    ease = dict(before) if isinstance(before, dict) else {}
    if text:
        try:
            read_ease(Field({level: text}, "ease", unit_of(document)))
        except BadFile as wrong:
            raise BadLength(f"{wrong.wrong}. Ease is a length, or a share like 4%") from None
        ease[level] = text
    else:
        ease.pop(level, None)
    _put(document["client"], "ease", ease)


def give_consent(document: dict[str, Any], day: str) -> None:
    """Write down that she agreed to photos on a day (ISO date); raises ``NotADay``."""
    document["client"]["photo_consent"] = _day(day)


def withdraw_consent(document: dict[str, Any]) -> None:
    """Take her agreement away: no new photos; those that are there stay until removed."""
    document["client"].pop("photo_consent", None)


def set_due(document: dict[str, Any], garment_id: str, day: str) -> None:
    """Write down when a garment is due (ISO date); empty for no day.

    Raises ``NotADay`` or ``NotFound`` with nothing changed.
    """
    _put(garment_in(document, garment_id), "due", _day(day) if day else "")


def plan_fitting(document: dict[str, Any], garment_id: str, at: str) -> None:
    """Plan the next fitting of a garment: a day, or a day and time (ISO 8601); empty for none.

    Raises ``NotADay`` or ``NotFound`` with nothing changed.
    """
    garment = garment_in(document, garment_id)
    try:
        planned = datetime.fromisoformat(at) if at else None
    except ValueError:
        raise _not_a_day(at) from None
    if planned is None:
        _put(garment, "next_fitting", "")
    elif len(at) <= len("2026-05-14"):
        _put(garment, "next_fitting", planned.date().isoformat())
    else:
        _put(garment, "next_fitting", planned.replace(tzinfo=None).isoformat(timespec="minutes"))


def collect(document: dict[str, Any], garment_id: str, day: str) -> None:
    """Write down that she took a garment home on a day (ISO date); empty takes it back.

    Raises ``NotADay`` or ``NotFound`` with nothing changed.
    """
    _put(garment_in(document, garment_id), "collected", _day(day) if day else "")


def garment_in(document: dict[str, Any], garment_id: str) -> dict[str, Any]:
    """Return a garment of the document, the caller's own to change; raises ``NotFound``."""
    for number, garment in enumerate(entries(document, "garments"), 1):
        if id_of(garment, "garment", number) == garment_id and isinstance(garment, dict):
            return garment
    raise NotFound("This garment is not here any more")


def _put(data: dict[str, Any], name: str, value: Any) -> None:
    if value:
        data[name] = value
    else:
        data.pop(name, None)


def _name(name: str) -> str:
    plain = " ".join(name.split())
    if not plain:
        raise NoName("Type a name first: she is found by it")
    return plain


def _day(day: str) -> str:
    try:
        return date.fromisoformat(day).isoformat()
    except ValueError:
        raise _not_a_day(day) from None


def _not_a_day(said: str) -> NotADay:
    return NotADay(f"“{said[:40]}” is not a day like 2026-03-02, so nothing was written down")
