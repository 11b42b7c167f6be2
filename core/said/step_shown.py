"""One step as it fills a screen: whose side, place, direction, amounts by level, what stays inside.

Everything is ready to show; what a step's table says is not said again in its words.
"""

import re
from collections.abc import Collection, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from core.changes.seam_line import SeamLine
from core.file.fitting_file import FittingFile
from core.lengths import SMALLEST_MM, Unit
from core.records.answer import Plan, Step
from core.records.garment import Garment
from core.said.dart_steps import told_at
from core.said.spoken import spoken_steps
from core.said.step_places import Place, StepPlaces, dart_of
from core.said.step_words import words_of
from core.wording import Words, direction, listed, sentence

_STOP = re.compile(r"(?<=[.?!]) +")
_RUNS_OUT = re.compile(
    r"Run out to nothing at the (?P<level>[^;]+?)(?P<below>; do not go below it)?\."
)
_CARRIES = re.compile(r"The same .+ (?P<way>up|down) to the seam's (?P<end>top|end)\.")
_SAMPLES = 12
"""Between two levels a line is drawn in so many pieces."""

SIDES = {"left": "Her left", "right": "Her right"}


@dataclass(frozen=True, slots=True)
class AmountShown:
    """One amount, and its direction; without one it stands still."""

    text: str
    way: str = ""


@dataclass(frozen=True, slots=True)
class RowShown:
    """One level: its name, how far down it is (mm), and an amount for each column."""

    label: str
    down: float
    amounts: tuple[AmountShown, ...]

    @property
    def moves(self) -> bool:
        return any(amount.way for amount in self.amounts)


@dataclass(frozen=True, slots=True)
class LineShown:
    """A new line beside the rows: heights and moves (mm), positive away from the garment."""

    points: tuple[tuple[float, float], ...]


@dataclass(frozen=True, slots=True)
class DartShown:
    """A dart's take-up before and after (mm), and where it is widest: 0 its top, 1 its end."""

    before: float
    after: float
    widest: float


@dataclass(frozen=True, slots=True)
class StepShown:
    """One step.  ``way`` is its one direction, empty where it has both or none.

    ``columns`` are empty where front and back are alike, which ``alike`` then says once.
    ``told`` are its words, ``kept`` what stays inside and must not be done; ``why`` and ``sums``
    lie behind a touch; ``spoken`` is what a voice says.
    """

    order: int
    of: int
    group: str
    whose: str
    place: str
    way: str = ""
    way_words: str = ""
    columns: tuple[str, ...] = ()
    alike: str = ""
    rows: tuple[RowShown, ...] = ()
    told: tuple[str, ...] = ()
    kept: tuple[str, ...] = ()
    cautions: tuple[str, ...] = ()
    why: str = ""
    sums: tuple[str, ...] = ()
    between: str = ""
    lines: tuple[LineShown, ...] = ()
    dart: DartShown | None = None
    mirrored: bool = False
    spoken: tuple[str, ...] = ()


def steps_shown(
    plan: Plan, file: FittingFile, found: StepPlaces, unit: Unit
) -> tuple[StepShown, ...]:
    """Return every step of a plan, ready to show; ``found`` says what each is about.

    ``unit`` is the one the plan was made with.
    """
    spoken = spoken_steps(plan, file, unit=unit)
    return tuple(
        _shown(step, found.of(step), plan, found.garment, said, Words(unit))
        for step, said in zip(plan.steps, spoken, strict=True)
    )


def _shown(
    step: Step, place: Place | None, plan: Plan, garment: Garment, spoken: tuple[str, ...],
    words: Words,
) -> StepShown:  # fmt: skip
    said, why = words_of(step, place, words)
    shown = StepShown(
        step.order, len(plan.steps), step.group, _whose(step, place), step.title,
        told=_sentences(said, step), cautions=step.cautions, why=why,
        sums=_sums(step), between=step.line, spoken=spoken,
    )  # fmt: skip
    if place is not None and place.what == "seam":
        return _seam(shown, place, garment, words)
    if place is not None and place.what == "dart":
        return _dart(shown, place, garment, words)
    return shown


def _whose(step: Step, place: Place | None) -> str:
    if step.side is not None:
        return SIDES[step.side]
    return "Both sides" if place is not None and place.both else ""


def _sentences(said: str, step: Step) -> tuple[str, ...]:
    """Return a step's sentences, without one that only says its place again."""
    titles = (f"{step.title}.", f"{step.title}, her {step.side}.")
    return tuple(one for one in _STOP.split(said) if one and one not in titles)


def _sums(step: Step) -> tuple[str, ...]:
    """Return why the amounts are what they are, a level each."""
    if not step.sum:
        return ()
    joint = "; " if step.group == "baste and check" else " | "
    return tuple(sentence(one) for one in step.sum.split(joint))


# -- seams --------------------------------------------------------------------


def _seam(shown: StepShown, place: Place, garment: Garment, words: Words) -> StepShown:
    alike = place.alike
    rows = tuple(_rows(place, garment, words, alike=alike))
    ways = {amount.way for row in rows for amount in row.amounts if amount.way}
    way = ways.pop() if len(ways) == 1 else ""
    told, kept = _parted(shown.told, {row.label.lower() for row in rows if not row.moves})
    lines = [place.line(number) for number in range(len(place.edges))]
    drawn = lines[:1] if alike else lines
    downs = [row.down for row in rows]
    return replace(
        shown, rows=rows, way=way, way_words=way, told=told, kept=kept,
        alike=_alike(place) if alike else "",
        columns=() if alike else tuple(edge.lower() for edge in place.edges),
        lines=tuple(LineShown(_sampled(line, downs)) for line in drawn if line is not None),
        mirrored=place.side == "right",
    )  # fmt: skip


def _rows(place: Place, garment: Garment, words: Words, *, alike: bool) -> Sequence[RowShown]:
    """Return the levels that move, and those where the line runs out to nothing."""
    rows = [
        RowShown(
            garment.level_called(row.level), row.down,
            tuple(_amount(move, words) for move in (row.moves[:1] if alike else row.moves)),
        )
        for row in place.rows
    ]  # fmt: skip
    line, columns = place.longest_line, 1 if alike else len(place.edges)
    there = [row.down for row in rows]
    for end in (line.above, line.below) if line else ():
        for name, level in garment.levels.items():
            free = all(abs(level.down - down) > SMALLEST_MM for down in there)
            if end is not None and abs(level.down - end) <= SMALLEST_MM and free:
                still = (AmountShown("0"),) * columns
                rows.append(RowShown(garment.level_called(name), level.down, still))
                there.append(level.down)
    return sorted(rows, key=lambda row: row.down)


def _amount(move: float | None, words: Words) -> AmountShown:
    if move is None:
        return AmountShown("0")
    return AmountShown(words.length(move), direction(move))


def _alike(place: Place) -> str:
    ring, seam = place.seam
    if seam.joins_itself:
        return "each half" if ring.kind == "half" else "each edge"
    if seam.id == ring.side_line:
        return "front and back alike"
    return f"{listed([label.lower() for label in place.edges])} alike"


def _parted(
    told: Sequence[str], still: Collection[str]
) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """Return what is said of the line, and what stays inside and must not be done.

    How the amounts are laid off (*level in from the old stitching*) the drawing shows, and where
    it is nothing the rows that stand ``still``.
    """
    rest, kept, carried = [], [], []
    for one in told:
        ends = _RUNS_OUT.fullmatch(one)
        if ends is not None and ends["level"] in still:
            kept += [f"Do not go below the {ends['level']}."] if ends["below"] else []
        elif carries := _CARRIES.fullmatch(one):
            carried.append(f"{carries['way']} to the {carries['end']}")
        elif one.startswith(("Leaves ", "Baste only")):
            kept.append(one)
        elif not one.endswith(" from the old stitching."):
            rest.append(one)
    if carried:
        rest.insert(0, f"The same {' and '.join(carried)}.")
    return tuple(rest), tuple(sorted(kept, key=lambda one: not one.startswith("Leaves ")))


def _sampled(line: SeamLine, downs: Sequence[float]) -> tuple[tuple[float, float], ...]:
    """Return heights and moves from the first row to the last."""
    points = []
    for high, low in pairwise(downs):
        points += [high + (low - high) * part / _SAMPLES for part in range(_SAMPLES)]
    return tuple((down, line.at(down)) for down in [*points, *downs[-1:]])


# -- darts --------------------------------------------------------------------


def _dart(shown: StepShown, place: Place, garment: Garment, words: Words) -> StepShown:
    level, before, move = told_at(place.plan, *dart_of(place)[1:])
    after = before - 2 * move
    said = ("At the ", "Deeper", "Shallower")
    told = tuple(one for one in shown.told if not one.startswith(said))
    dart = dart_of(place)[0].dart
    where = 0.5
    if dart.top is not None and dart.point is not None and dart.point > dart.top:
        where = (garment.levels[level].down - dart.top) / (dart.point - dart.top)
    called = garment.level_called(level)
    row = RowShown(called, garment.levels[level].down, (_amount(move, words),))
    becomes = f"{words.length(before)} becomes {words.length(after)}."
    return replace(
        shown, rows=(row,), way=direction(move), alike="on each leg",
        way_words="deeper" if move < 0 else "shallower", told=(becomes, *told),
        dart=DartShown(before, after, min(max(where, 0.1), 0.9)),
    )  # fmt: skip
