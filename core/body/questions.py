"""Soft questions about measurements: odd figures are real, so each is asked once, never refused."""

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from typing import Literal

from core.body.measurements import Value, catalogue, label_of, tape_error_mm
from core.lengths import SMALLEST_MM, Unit, write_length
from core.records.answer import Side
from core.resources import read_resource

SIDES_APART_MM = 25.4 / 4
"""Left and right further apart than this are asked about: common practice, no source."""

FAR_FROM_LAST_TIME = 0.05
"""A change over a twentieth, and over twice the tape's error: a working default, no source."""

About = Literal["range", "sides", "arc", "against", "last_time"]
Values = Mapping[str, Value]
Write = Callable[[float], str]


@dataclass(frozen=True, slots=True)
class Question:
    """One question; ``measurements`` are the ids it is about, ``text`` a plain sentence.

    ``side`` is the side it was noticed on, ``None`` for no side or both.
    """

    about: About
    measurements: tuple[str, ...]
    text: str
    side: Side | None = None

    @property
    def key(self) -> str:
        """What to remember, so that it is asked once."""
        return ":".join((self.about, *self.measurements))


def questions(
    values_mm: Values, earlier_mm: Values | None = None, *, unit: Unit = "in"
) -> tuple[Question, ...]:
    """Return what is worth asking about these measurements, each matter once.

    A value (mm) is held against its usual range, its other side, its whole round, the
    measurements it is seldom longer than, and last time's.  ``unit`` is the one the
    sentences speak in.  Nothing is refused: what cannot be compared is not asked about.
    """

    def write(mm: float) -> str:
        return write_length(mm, unit)

    asked: dict[str, Question] = {}
    for question in (
        *_out_of_range(values_mm, write),
        *_sides_apart(values_mm, write),
        *_odd_arcs(values_mm, write),
        *_longer_than_usual(values_mm, write),
        *_far_from_last_time(values_mm, earlier_mm or {}, write),
    ):
        asked.setdefault(question.key, question)
    return tuple(asked.values())


def _out_of_range(values: Values, write: Write) -> Iterator[Question]:
    for name, value in values.items():
        known = catalogue().get(name)
        if known is None:
            continue
        least, most = known.range_mm
        for side, mm in _by_side(value).items():
            if not least <= mm <= most:
                usual = f"usually between {write(least)} and {write(most)}"
                text = f"{_named(name, side)} {write(mm)}: {usual}. Is that as you read it?"
                yield Question("range", (name,), text, side)


def _sides_apart(values: Values, write: Write) -> Iterator[Question]:
    for name, value in values.items():
        sides = _by_side(value)
        left, right = sides.get("left"), sides.get("right")
        if left is None or right is None:
            continue
        apart = abs(left - right)
        if apart > SIDES_APART_MM + SMALLEST_MM:
            text = (
                f"{label_of(name)}: left {write(left)} and right {write(right)}"
                f" are {write(apart)} apart. Is that so?"
            )
            yield Question("sides", (name,), text)


def _odd_arcs(values: Values, write: Write) -> Iterator[Question]:
    for name in values:
        whole = name.removesuffix("_front_arc") + "_girth"
        if not name.endswith("_front_arc") or whole not in values:
            continue
        for side, arc, round_mm in _together(values[name], values[whole]):
            if round_mm / 3 - SMALLEST_MM <= arc <= round_mm * 2 / 3 + SMALLEST_MM:
                continue
            share = "less than a third" if arc < round_mm / 2 else "more than two thirds"
            text = (
                f"{_named(name, side)} {write(arc)} is {share} of the whole round,"
                f" {write(round_mm)}. Is it from side line to side line?"
            )
            yield Question("arc", (name, whole), text, side)


def _longer_than_usual(values: Values, write: Write) -> Iterator[Question]:
    for rule in read_resource("measurements")["never_over"]:
        first, second = rule["first"], rule["second"]
        if first not in values or second not in values:
            continue
        for side, long, short in _together(values[first], values[second]):
            if long - short > rule["by_mm"] + SMALLEST_MM:
                text = (
                    f"{_named(first, side)} {write(long)} is {write(long - short)} more than"
                    f" {_lower(label_of(second))} {write(short)}. Is that as you read them?"
                )
                yield Question("against", (first, second), text, side)


def _far_from_last_time(values: Values, earlier: Values, write: Write) -> Iterator[Question]:
    for name, value in values.items():
        known = catalogue().get(name)
        if name not in earlier or (known is not None and known.is_wish):
            continue
        for side, now, before in _together(value, earlier[name]):
            least = max(FAR_FROM_LAST_TIME * abs(before), 2 * tape_error_mm(name))
            if abs(now - before) > least + SMALLEST_MM:
                text = f"{_named(name, side)} {write(now)}: last time {write(before)}. Is that so?"
                yield Question("last_time", (name,), text, side)


def _by_side(value: Value) -> dict[Side | None, float]:
    if not isinstance(value, Mapping):
        return {None: value}
    sides: tuple[Side, ...] = ("left", "right")
    return {side: value[side] for side in sides if side in value}


def _together(one: Value, other: Value) -> Iterator[tuple[Side | None, float, float]]:
    """Yield what can be compared: side with side, or a single number with each side."""
    ones, others = _by_side(one), _by_side(other)
    for side in dict.fromkeys((*ones, *others)):
        mine, theirs = ones.get(side, ones.get(None)), others.get(side, others.get(None))
        if mine is not None and theirs is not None:
            yield side, mine, theirs


def _named(name: str, side: Side | None) -> str:
    return f"{label_of(name)}, {side}" if side else label_of(name)


def _lower(label: str) -> str:
    return label[:1].lower() + label[1:]
