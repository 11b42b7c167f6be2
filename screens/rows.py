"""What the screens show, line by line: the core's records turned into ready words.

Nothing is worked out here; lengths become text and meanings become words and marks.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from core.lengths import SMALLEST_MM, Unit, write_length
from core.records.answer import Consequence, LevelAnswer, Side, Step

WHOSE = {"left": "her left", "right": "her right", "both": "both sides"}
UNIT_WORDS: dict[Unit, str] = {"in": "inches", "cm": "centimetres", "mm": "millimetres"}
NOTHING = "–"

_RIGHT = ("agrees", "right as it is")
_LOOSE = ("too loose", "still loose")
_TIGHT = ("too tight", "would be tight")


@dataclass(frozen=True, slots=True)
class LevelRow:
    """One level of the strip; ``mark`` and ``moved_mark`` name a meaning or nothing."""

    layer: str
    level: str
    label: str
    body: str
    ease: str
    wanted: str
    as_sewn: str
    moved: str
    moved_mark: str
    verdict: str
    mark: str
    short: bool
    sum: str
    live: bool = False


@dataclass(frozen=True, slots=True)
class StepRow:
    """One step of the list: its first sentence, and the rest of it; ``done`` once ticked off."""

    number: str
    title: str
    text: str
    sum: str = ""
    cautions: tuple[str, ...] = ()
    done: bool = False


_MONTHS = ("January", "February", "March", "April", "May", "June", "July", "August",
           "September", "October", "November", "December")  # fmt: skip


def day(on: str) -> str:
    """Return a date as she says it.

    >>> day("2026-03-02")
    '2 March 2026'
    """
    if not on:
        return ""
    year, month, number = on.split("-")
    return f"{int(number)} {_MONTHS[int(month) - 1]} {year}"


def amount(mm: float, unit: Unit) -> str:
    """Return a length without its sign: the word beside it says which way."""
    return write_length(abs(mm), unit)


def direction(mm: float) -> str:
    """Return the meaning of a change: negative takes in, positive lets out."""
    if abs(mm) < SMALLEST_MM:
        return ""
    return "take in" if mm < 0 else "let out"


def with_side(text: str, side: Side | str | None) -> str:
    return f"{text}, {WHOSE[side]}" if side in WHOSE else text


def level_rows(
    levels: Iterable[LevelAnswer],
    layer: str,
    unit: Unit,
    live: Sequence[str] = (),
    *,
    planned_within: float | None = None,
) -> list[LevelRow]:
    """Return the strip of one layer; ``live`` names the level of the pin in hand.

    Where the pins lead it shows what is pinned and what that leaves over; otherwise
    ``planned_within`` is the band (mm), and it shows what is planned and leaves over.
    """
    return [_level_row(answer, _moved(answer, planned_within), unit, answer.level in live)
            for answer in levels if answer.layer == layer]  # fmt: skip


@dataclass(frozen=True, slots=True)
class _Moved:
    """How far a level moves, and how it then stands (mm)."""

    by: float
    left_over: float | None
    verdict: str


def _moved(answer: LevelAnswer, band: float | None) -> _Moved:
    if band is None:
        return _Moved(answer.pinned, answer.left_over, answer.verdict)
    if answer.needed is None:
        return _Moved(answer.planned, None, answer.verdict)
    left = answer.needed - answer.planned
    if abs(left) <= band + SMALLEST_MM:
        return _Moved(answer.planned, left, "agrees")
    return _Moved(answer.planned, left, "still loose" if left < 0 else "would be tight")


def _level_row(answer: LevelAnswer, moved: _Moved, unit: Unit, live: bool) -> LevelRow:
    measured = answer.body is not None and answer.wanted is not None
    return LevelRow(
        layer=answer.layer,
        level=answer.level,
        label=with_side(answer.label or answer.level, answer.side),
        body=amount(answer.body, unit) if answer.body is not None else "not measured",
        ease=f"{'−' if answer.ease < 0 else '+'} {amount(answer.ease, unit)}" if measured else "",
        wanted=f"= {amount(answer.wanted, unit)}" if answer.wanted is not None else "",
        as_sewn=amount(answer.as_sewn, unit),
        moved=amount(moved.by, unit) if direction(moved.by) else NOTHING,
        moved_mark=direction(moved.by),
        verdict=_verdict(answer, moved, unit),
        mark=_verdict_mark(answer, moved),
        short=bool(direction(answer.short)),
        sum=_lines(answer.sum),
        live=live,
    )


def _verdict(answer: LevelAnswer, moved: _Moved, unit: Unit) -> str:
    """Return the verdict; what the cloth is short of stands beside it, never in its place."""
    words = moved.verdict
    if words == "not measured":
        words = "not judged"
    elif words in _LOOSE + _TIGHT and moved.left_over is not None:
        words = f"{words} by {amount(moved.left_over, unit)}"
    if direction(answer.short):
        return f"{words}, {amount(answer.short, unit)} short"
    return words


def _verdict_mark(answer: LevelAnswer, moved: _Moved) -> str:
    if direction(answer.short):
        return "caution"
    if moved.verdict in _RIGHT:
        return "agrees"
    if moved.verdict in _LOOSE:
        return "take in"
    return "let out" if moved.verdict in _TIGHT else ""


def step_rows(steps: Iterable[Step]) -> list[StepRow]:
    """Return the alteration list in its order."""
    return [StepRow(str(step.order), *_parted(step), _sums(step), step.cautions)
            for step in steps]  # fmt: skip


def _sums(step: Step) -> str:
    """Return why a step's amounts are what they are, and what they are between the levels."""
    between = f"Between the levels: {step.line}" if step.line else ""
    return "\n".join(filter(None, [_lines(step.sum), between]))


def follow_lines(follows: Iterable[Consequence], steps: Iterable[Step]) -> list[str]:
    """Return what follows in its own words, without what is a step of the list already."""
    groups = {step.group for step in steps}
    return [follow.text for follow in follows if follow.what not in groups]


def other_cautions(warnings: Iterable[str], steps: Iterable[Step]) -> list[str]:
    """Return the cautions that no step says itself."""
    said = {caution for step in steps for caution in step.cautions}
    return [warning for warning in warnings if warning not in said]


def _parted(step: Step) -> tuple[str, str]:
    """Return a heading and the rest, so that a step never says its place twice."""
    first, _, rest = step.text.partition(". ")
    if rest and first.lower().startswith(step.title.lower()):
        return first, rest
    return with_side(step.title, step.side), step.text


def _lines(text: str) -> str:
    return text.replace(" | ", "\n")
