"""The tape, one number at a time: what is taken, what is missing, and where to go on.

All of it is worked out from the document, so that a battery that dies takes nothing with it.
Days are ISO dates; ``today`` is the day of the sitting.
"""

import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date
from typing import Literal

from core.body.asked_once import Asked, asked, last_time
from core.body.keypad import Keypad, keypad_of
from core.body.measurements import catalogue, places
from core.body.readings import asks_for_third
from core.body.sitting import both_sides, readings, sitting_of, skipped, typed, value_mm, values_in
from core.body.tape_order import Number, measurements_for, number_of, sided_for
from core.client.over_time import Document, unit_of
from core.days import day_month_of
from core.lengths import Unit, read_length, write_length
from core.less_or_more import change
from core.number_words import length_in_words, number_in_words
from core.wording import sentences

SECOND_READINGS = ("bust_girth", "waist_girth", "hip_girth", "side_neck_to_waist_front")
"""Where a second reading is offered, never demanded: bench practice, no source."""

MOST_READINGS = 3

State = Literal["taken", "skipped", "to take"]

_BOTH_UNITS = re.compile(r"(\d+) in \((\d+) cm\)")


@dataclass(frozen=True, slots=True)
class Row:
    """A number in the list; ``heading`` is where she stands, on the first of each place.

    ``words`` is the value in the unit shown, or ``skipped``, or ``to take``.
    """

    number: Number
    label: str
    heading: str
    state: State
    words: str


@dataclass(frozen=True, slots=True)
class Taking:
    """The whole sitting as it stands; ``go_on`` is where to go on, nothing when all is done."""

    rows: tuple[Row, ...]
    taken: int
    skipped: int
    go_on: Number | None

    @property
    def total(self) -> int:
        return len(self.rows)

    @property
    def progress(self) -> str:
        return f"{self.taken} of {self.total} taken"


@dataclass(frozen=True, slots=True)
class LastTime:
    """The number as it was taken before: its value, its day, and what changed since in words."""

    value: str
    day: str
    change: str


@dataclass(frozen=True, slots=True)
class Page:
    """One number, ready to show.

    ``keypad`` holds the reading in hand, for opening the number: while it is typed the screen
    keeps its own.  ``readings`` are all of them in the unit shown, ``kept`` is what they come to.
    ``offers_second`` is a hint, any number may be read again; ``third`` asks for a third
    reading, or is empty.  ``can_have_sides``: she may take left and right though the kind asks
    for one number.
    """

    number: Number
    title: str
    side: str
    place: str
    how: str
    keypad: Keypad
    kept: str
    readings: tuple[str, ...]
    reading: int
    offers_second: bool
    third: str
    last_time: LastTime | None
    asked: tuple[Asked, ...]
    can_have_sides: bool
    spoken: str


def numbers_of(document: Document, today: str, kinds: Iterable[str]) -> tuple[Number, ...]:
    """Return every number to take, in order, her left before her right.

    What else was taken today follows at the end: nothing that is written down is hidden.
    """
    kinds, sitting = tuple(kinds), sitting_of(document, today)
    wanted = measurements_for(document, kinds)
    also = (name for name, value in values_in(sitting).items() if value is not None)
    sided = sided_for(kinds) | set(both_sides(sitting))
    return tuple(
        number
        for name in dict.fromkeys((*wanted, *also))
        for number in (
            (Number(name, "left"), Number(name, "right")) if name in sided else (Number(name),)
        )
    )


def taking_of(document: Document, today: str, kinds: Iterable[str], unit: Unit) -> Taking:
    """Return the list of a day's sitting and how far it is, lengths in ``unit``."""
    numbers = numbers_of(document, today, kinds)
    rows: list[Row] = []
    place = ""
    for number in numbers:
        here = place_of(number)
        rows.append(_row(document, today, number, here if here != place else "", unit))
        place = here
    return Taking(
        rows=tuple(rows),
        taken=sum(row.state == "taken" for row in rows),
        skipped=sum(row.state == "skipped" for row in rows),
        go_on=go_on(document, today, numbers),
    )


def go_on(document: Document, today: str, numbers: Sequence[Number]) -> Number | None:
    """Return where to go on after leaving: the first number from the one touched last that is
    neither taken nor skipped, from the beginning again after the end; ``None`` when none is left.
    """
    last = sitting_of(document, today).get("last_touched")
    at = number_of(last) if isinstance(last, str) else None
    start = numbers.index(at) if at in numbers else 0
    return _open(document, today, (*numbers[start:], *numbers[:start]))


def come_back(document: Document, today: str, numbers: Sequence[Number]) -> Number | None:
    """Return the number she was at when she left, so that one half typed is not passed over.

    Where that one is skipped or no longer asked for it is the one to go on with, or the first;
    ``None`` only where there are no numbers.
    """
    sitting = sitting_of(document, today)
    last = sitting.get("last_touched")
    at = number_of(last) if isinstance(last, str) else None
    if at in numbers and last not in skipped(sitting):
        return at
    return go_on(document, today, numbers) or next(iter(numbers), None)


def after(
    document: Document, today: str, numbers: Sequence[Number], number: Number
) -> Number | None:
    """Return the next one to take after this number; ``None`` when none is left but this."""
    at = numbers.index(number) + 1 if number in numbers else 0
    return _open(document, today, [*numbers[at:], *numbers[: max(at - 1, 0)]])


def before(numbers: Sequence[Number], number: Number) -> Number | None:
    """Return the number before this one in the list, whether it is taken or not."""
    at = numbers.index(number) if number in numbers else 0
    return numbers[at - 1] if at else None


def page_of(
    document: Document,
    today: str,
    number: Number,
    unit: Unit,
    *,
    reading: int = 0,
    sixteenths: bool = False,
) -> Page:
    """Return one number ready to show, in ``unit``; ``reading`` (from 0) is the one in hand."""
    file_unit, known = unit_of(document), catalogue().get(number.measurement)
    kept_mm, read = value_mm(document, today, number), readings(document, today, number)
    read_mm = [read_length(text, file_unit).mm for text in read]
    return Page(
        number=number,
        title=number.title,
        side=number.side or "",
        place=place_of(number),
        how=_how(number, unit),
        keypad=keypad_of(
            typed(document, today, number, reading), file_unit, unit, sixteenths=sixteenths
        ),
        kept="" if kept_mm is None else write_length(kept_mm, unit),
        readings=tuple(write_length(mm, unit) for mm in read_mm),
        reading=reading,
        offers_second=number.measurement in SECOND_READINGS and len(read) == 1,
        third=_third(read_mm, unit),
        last_time=_last_time(document, today, number, unit),
        asked=asked(document, today, number, unit),
        can_have_sides=number.side is None and known is not None and known.both_sides,
        spoken=spoken(document, today, number, unit),
    )


def spoken(document: Document, today: str, number: Number, unit: Unit) -> str:
    """Return what is said aloud for a number: its name, how in a breath, and last time's value.

    Numbers are words: ``Waist. Level round over the cord. Last time thirty-three.``
    """
    how = _how(number, unit, aloud=True).partition(";")[0]
    before = last_time(document, today, number)
    last = f"last time {length_in_words(before.mm, unit)}" if before else ""
    return sentences([number.label, how, last])


def place_of(number: Number) -> str:
    """Return where she stands for a number: ``Facing her``; what is in no catalogue, elsewhere."""
    known = catalogue().get(number.measurement)
    return places()[known.place] if known else "Others"


def _row(document: Document, today: str, number: Number, heading: str, unit: Unit) -> Row:
    mm = value_mm(document, today, number)
    state: State = "taken"
    if mm is None:
        state = "skipped" if number.key in skipped(sitting_of(document, today)) else "to take"
    words = state if mm is None else write_length(mm, unit)
    return Row(number, number.label, heading, state, words)


def _open(document: Document, today: str, numbers: Iterable[Number]) -> Number | None:
    passed = skipped(sitting_of(document, today))
    for number in numbers:
        if number.key not in passed and value_mm(document, today, number) is None:
            return number
    return None


def _how(number: Number, unit: Unit, *, aloud: bool = False) -> str:
    """Return how it is taken, the few lengths in it in her unit, as figures or in words."""
    known = catalogue().get(number.measurement)
    if known is None:
        return ""
    group, name = (1, "inches" if aloud else "in") if unit == "in" else (
        2, "centimetres" if aloud else "cm")  # fmt: skip

    def said(found: re.Match[str]) -> str:
        length = number_in_words(int(found[group])) if aloud else found[group]
        return f"{length} {name}"

    return _BOTH_UNITS.sub(said, known.how)


def _third(read_mm: Sequence[float], unit: Unit) -> str:
    if len(read_mm) != MOST_READINGS - 1 or not asks_for_third(*read_mm):
        return ""
    apart = write_length(abs(read_mm[0] - read_mm[1]), unit)
    return f"The two readings are {apart} apart: read it a third time"


def _last_time(document: Document, today: str, number: Number, unit: Unit) -> LastTime | None:
    before, mm = last_time(document, today, number), value_mm(document, today, number)
    if before is None:
        return None
    return LastTime(
        value=write_length(before.mm, unit),
        day=day_month_of(before.on, date.fromisoformat(today)),
        change="" if mm is None else _than_last_time(mm, before.mm, unit),
    )


def _than_last_time(mm: float, before_mm: float, unit: Unit) -> str:
    words = change(mm, before_mm, unit).words
    return words if words == "the same" else f"{words} than last time"
