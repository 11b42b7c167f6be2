"""Quiet questions about a number just taken, each asked once and never about the same value again.

What she said is right is kept in the sitting's optional field ``said_right``: a list of
``{"about": a question's key, "values": what it was asked about}``, in the sitting's own words.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from core.body.measurements import Value
from core.body.questions import Question, questions
from core.body.sitting import begun, sitting_of, value_mm, values_in
from core.body.tape_order import Number
from core.client.over_time import Document, Point, days_measured, points, unit_of
from core.file.field import Field
from core.file.reading_fittings import read_values
from core.lengths import Unit
from core.less_or_more import change
from core.records.answer import Side
from core.records.fitting import Taken


@dataclass(frozen=True, slots=True)
class Asked:
    """A question in sight: ``key`` to answer it by, ``words`` short, ``text`` the whole of it."""

    key: str
    words: str
    text: str


def asked(document: Document, today: str, number: Number, unit: Unit) -> tuple[Asked, ...]:
    """Return what is to be asked about a number as it stands, in the words of ``unit``.

    It is held against what was taken the same day and against last time.  What she said
    is right is left out for as long as the values it was about are the same.
    """
    said = _said(document, today)
    return tuple(
        Asked(question.key, _short(document, today, number, question, unit), question.text)
        for question in _about(document, today, number, unit)
        if _entry(document, today, number, question) not in said
    )


def it_is_right(document: dict[str, Any], today: str, number: Number, key: str = "") -> None:
    """Remember that a number is right: for one question by its key, or for all in sight.

    Going on from a question in sight is an answer as well.  ``document`` is the caller's own.
    """
    said = _said(document, today)
    for question in _about(document, today, number, unit_of(document)):
        entry = _entry(document, today, number, question)
        if key in ("", question.key) and entry not in said:
            said.append(entry)
            begun(document, today)["said_right"] = said


def last_time(document: Document, today: str, number: Number) -> Point | None:
    """Return a number as it was taken last on an earlier day; ``None`` where it never was."""
    waist_found = str(sitting_of(document, today).get("waist_found") or "")
    days = [day for day in days_measured(document) if day.on < today]
    before = points(days, number.measurement, number.side, waist_found)
    return before[-1] if before else None


def _about(document: Document, today: str, number: Number, unit: Unit) -> tuple[Question, ...]:
    """Return every question about a number; of the other side's only how far they are apart."""
    if value_mm(document, today, number) is None:
        return ()
    values = {name: _whole(taken) for name, taken in _taken(document, today).items()}
    before = last_time(document, today, number)
    earlier = {number.measurement: before.mm} if before else {}
    mine = questions(_on_side(values, number.side), earlier, unit=unit)
    apart = questions({number.measurement: values.get(number.measurement, {})}, unit=unit)
    return tuple(
        question
        for question in (
            *(each for each in mine if each.about != "sides"),
            *(each for each in apart if each.about == "sides"),
        )
        if number.measurement in question.measurements
    )


def _short(document: Document, today: str, number: Number, question: Question, unit: Unit) -> str:
    """Return ``1 3/4 less than last time``; other matters need their whole sentence."""
    now_mm, before = value_mm(document, today, number), last_time(document, today, number)
    if question.about != "last_time" or now_mm is None or before is None:
        return question.text
    return f"{change(now_mm, before.mm, unit).words} than last time"


def _entry(document: Document, today: str, number: Number, question: Question) -> dict[str, Any]:
    values = values_in(sitting_of(document, today))
    side = None if question.about == "sides" else number.side
    cut = _on_side({name: values[name] for name in question.measurements}, side)
    return {"about": question.key, "values": cut}


def _said(document: Document, today: str) -> list[dict[str, Any]]:
    said = sitting_of(document, today).get("said_right")
    return [entry for entry in said if isinstance(entry, dict)] if isinstance(said, list) else []


def _taken(document: Document, today: str) -> dict[str, Taken]:
    values = values_in(sitting_of(document, today))
    return read_values(Field(values, "measurements", unit_of(document)))


def _whole(taken: Taken) -> Value:
    if not taken.sided and taken.left is not None:
        return taken.left
    sides = {"left": taken.left, "right": taken.right}
    return {side: mm for side, mm in sides.items() if mm is not None}


def _on_side(values: Mapping[str, Any], side: Side | None) -> dict[str, Any]:
    """Return the values cut to one side where they have two; a single number stays."""
    if side is None:
        return dict(values)
    return {
        name: {side: value[side]} if isinstance(value, Mapping) else value
        for name, value in values.items()
        if not isinstance(value, Mapping) or side in value
    }
