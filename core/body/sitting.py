"""One day's measuring as it is written down: every key saves, and nothing taken is lost.

A sitting is an entry of the file's ``measurements``.  Beside ``on``, ``worn`` and ``values`` it
may have these fields of ours, all optional; a key is ``waist_girth`` or ``upper_arm_girth:left``.

- ``readings``: by key the single readings, ``{"waist_girth": ["31 1/4", "31 1/2"]}``, where there
  is more than one; the value is what is kept of them
- ``skipped``: the keys of numbers passed by; ``last_touched``: a key
- ``both_sides``: measurements taken left and right though the kind asks for one number
- ``said_right``: what was asked about and is right (see ``asked_once``)
- ``waist_found``: natural, midway or narrowest

Every function that changes something is given a document that is the caller's own.
"""

from collections.abc import Mapping, Sequence
from copy import deepcopy
from fractions import Fraction
from typing import Any

from core.body.readings import kept_mm
from core.body.tape_order import Number
from core.client.over_time import Document, unit_of
from core.errors import BadLength
from core.lengths import MM_PER_UNIT, SMALLEST_MM, Unit, read_length

WAIST_FOUND = ("natural", "midway", "narrowest")
_BEGINNING = 0.5
"""A reading under this share of the others is one that is still being typed, and counts for
nothing yet: ``3`` on the way to ``31``.  A rule of the keys, not of the body."""


def sitting_of(document: Document, today: str) -> Mapping[str, Any]:
    """Return the last sitting of a day (ISO date); an empty one where there is none."""
    return _found(document, today) or {}


def new_sitting(document: dict[str, Any], today: str) -> dict[str, Any]:
    """Begin a sitting, also where the day has one already: she wears something else now.

    What is worn and how the waist is found are taken over from the last sitting by date.
    """
    kept = sorted(_entries(document), key=lambda entry: str(entry.get("on", "")))
    last = kept[-1] if kept else {}
    sitting = {"on": today, "worn": deepcopy(last.get("worn") or {})}
    if last.get("waist_found"):
        sitting["waist_found"] = last["waist_found"]
    sitting["values"] = {}
    document["measurements"] = [*(document.get("measurements") or []), sitting]
    return sitting


def begun(document: dict[str, Any], today: str) -> dict[str, Any]:
    """Return the day's last sitting, the caller's own to change; begin one where there is none."""
    return _found(document, today) or new_sitting(document, today)


def as_begun(document: Document, today: str) -> Mapping[str, Any]:
    """Return a day's sitting as it is or would be begun: worn as last time; begins none."""
    return _found(document, today) or new_sitting(dict(document), today)


def set_worn(document: dict[str, Any], today: str, *, foundation: str, heel: str) -> None:
    """Write down what is worn at this sitting; an empty heel is none said.

    Raises ``BadLength`` with nothing changed where the heel is no height.
    """
    if heel.strip():
        _refuse_negative(heel, unit_of(document))
    sitting = begun(document, today)
    worn = sitting["worn"] = dict(sitting.get("worn") or {})
    for name, said in (("foundation", foundation.strip()), ("heel", heel.strip())):
        worn.pop(name, None)
        if said:
            worn[name] = said


def set_waist_found(document: dict[str, Any], today: str, how: str) -> None:
    """Write down how the waist was found; waists found otherwise are not compared with it."""
    begun(document, today)["waist_found"] = how


def typed(document: Document, today: str, number: Number, reading: int = 0) -> str:
    """Return the text of a number's reading as it was typed; empty where there is none.

    Readings are counted from 0.  A single value of a measurement with sides serves both.
    """
    read = readings(document, today, number)
    return read[reading] if 0 <= reading < len(read) else ""


def readings(document: Document, today: str, number: Number) -> tuple[str, ...]:
    """Return every reading of a number as typed: none, one, two or three."""
    sitting = sitting_of(document, today)
    several = _several(sitting).get(number.key)
    if isinstance(several, list) and several:
        return tuple(map(str, several))
    value = _value(sitting, number)
    return () if value is None else (read_length(value, unit_of(document)).typed,)


def value_mm(document: Document, today: str, number: Number) -> float | None:
    """Return what is kept of a number (mm); ``None`` where it was not taken."""
    value = _value(sitting_of(document, today), number)
    return None if value is None else read_length(value, unit_of(document)).mm


def set_value(
    document: dict[str, Any], today: str, number: Number, text: str, reading: int = 0
) -> None:
    """Write down what was typed for a number; an empty text takes that reading away.

    The first sitting of the day is begun where there is none.  With more than one reading
    the value is what is kept of them.  Raises ``BadLength`` with nothing changed.
    """
    unit = unit_of(document)
    if text:
        _refuse_negative(text, unit)
    before = list(readings(document, today, number))
    at = min(max(reading, 0), len(before))
    after = [*before[:at], *([text] if text else []), *before[at + 1 :]]
    sitting = begun(document, today)
    sitting["last_touched"] = number.key
    _unskip(sitting, number)
    _write_several(sitting, number, after)
    _write(sitting, number, _kept(after, at, unit) if after else None)


def take_away(document: dict[str, Any], today: str, number: Number) -> None:
    """Take a number away with all of its readings: it is to be taken again."""
    sitting = begun(document, today)
    sitting["last_touched"] = number.key
    _write_several(sitting, number, ())
    _write(sitting, number, None)


def skip(document: dict[str, Any], today: str, number: Number) -> None:
    """Pass a number by today; one that is taken stays taken."""
    sitting = begun(document, today)
    sitting["last_touched"] = number.key
    if _value(sitting, number) is None and number.key not in skipped(sitting):
        sitting["skipped"] = [*skipped(sitting), number.key]


def put_in_hand(document: dict[str, Any], today: str, number: Number) -> None:
    """Remember that she is at a number, to come back to it; begins no sitting by itself."""
    sitting = _found(document, today)
    if sitting is not None:
        sitting["last_touched"] = number.key


def values_in(sitting: Mapping[str, Any]) -> Mapping[str, Any]:
    """Return the values of a sitting as they are written; none where there are none."""
    values = sitting.get("values")
    return values if isinstance(values, dict) else {}


def skipped(sitting: Mapping[str, Any]) -> tuple[str, ...]:
    """Return the keys of the numbers that were passed by."""
    return _words(sitting.get("skipped"))


def take_both_sides(document: dict[str, Any], today: str, measurement: str) -> None:
    """Take a measurement on her left and on her right today; a value taken is her left's."""
    sitting = begun(document, today)
    if measurement not in both_sides(sitting):
        sitting["both_sides"] = [*both_sides(sitting), measurement]
    whole, left = Number(measurement), Number(measurement, "left")
    value = values_in(sitting).get(measurement)
    if value is not None and not isinstance(value, dict):
        _write(sitting, whole, {"left": value})
        _write_several(sitting, left, _several(sitting).get(whole.key) or ())
        _write_several(sitting, whole, ())


def both_sides(sitting: Mapping[str, Any]) -> tuple[str, ...]:
    """Return the measurements with two sides today, by her wish or as they were written."""
    written = [name for name, value in values_in(sitting).items() if isinstance(value, dict)]
    return tuple(dict.fromkeys((*_words(sitting.get("both_sides")), *written)))


# -- how it is written ----------------------------------------------------------------


def _entries(document: Document) -> list[dict[str, Any]]:
    return [entry for entry in document.get("measurements") or () if isinstance(entry, dict)]


def _found(document: Document, today: str) -> dict[str, Any] | None:
    return next((entry for entry in reversed(_entries(document)) if entry.get("on") == today), None)


def _value(sitting: Mapping[str, Any], number: Number) -> Any:
    value = values_in(sitting).get(number.measurement)
    if not isinstance(value, dict):
        return value
    return value.get(number.side) if number.side else None


def _write(sitting: dict[str, Any], number: Number, value: Any) -> None:
    values = sitting["values"] = dict(values_in(sitting))
    after = value
    if number.side:
        before = values.get(number.measurement)
        sides = before if isinstance(before, dict) else {"left": before, "right": before}
        sides = {**sides, number.side: value}
        after = {side: mm for side, mm in sides.items() if mm is not None} or None
    if after is None:
        values.pop(number.measurement, None)
    else:
        values[number.measurement] = after


def _several(sitting: Mapping[str, Any]) -> dict[str, Any]:
    several = sitting.get("readings")
    return several if isinstance(several, dict) else {}


def _write_several(sitting: dict[str, Any], number: Number, read: Sequence[str]) -> None:
    """Keep the single readings where there is more than one; one alone is the value itself."""
    several = {key: kept for key, kept in _several(sitting).items() if key != number.key}
    sitting.pop("readings", None)
    if len(read) > 1:
        several[number.key] = list(read)
    if several:
        sitting["readings"] = several


def _kept(read: Sequence[str], touched: int, unit: Unit) -> str:
    """Return the text kept of some readings: the one there is, or what they come to."""
    all_mm = [read_length(text, unit).mm for text in read]
    if len(all_mm) > 1 and touched < len(all_mm):
        others = all_mm[:touched] + all_mm[touched + 1 :]
        if all_mm[touched] < min(others) * _BEGINNING:
            read, all_mm = [*read[:touched], *read[touched + 1 :]], others
    return read[0] if len(read) == 1 else _exactly(kept_mm(all_mm), unit)


def _exactly(mm: float, unit: Unit) -> str:
    """Return a length nothing is rounded off from: a fraction of an inch, or a decimal."""
    inches = Fraction(mm / MM_PER_UNIT["in"]).limit_denominator(64)
    if unit == "in" and abs(float(inches) * MM_PER_UNIT["in"] - mm) < SMALLEST_MM:
        whole, part = divmod(inches, 1)
        return " ".join(str(each) for each in (whole, part) if each) or "0"
    text = f"{mm / MM_PER_UNIT['cm' if unit == 'in' else unit]:.6f}".rstrip("0").rstrip(".")
    return f"{text} cm" if unit == "in" else text


def _unskip(sitting: dict[str, Any], number: Number) -> None:
    rest = [key for key in skipped(sitting) if key != number.key]
    sitting.pop("skipped", None)
    if rest:
        sitting["skipped"] = rest


def _refuse_negative(text: str, unit: Unit) -> None:
    if read_length(text, unit).mm < 0:
        raise BadLength(f"“{text}” is less than nothing, so it was not written down")


def _words(listed: Any) -> tuple[str, ...]:
    if not isinstance(listed, list):
        return ()
    return tuple(word for word in listed if isinstance(word, str))
