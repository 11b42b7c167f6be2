"""Every step of a plan as sentences for reading aloud, while both hands are busy.

One breath each: the place, her left or right, the direction, height and amount downwards, where
it ends, what must not be done.  *Front and back alike* is said once, the word *edge* never.
"""

import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from core.file.fitting_file import FittingFile, fitting_of
from core.lengths import SMALLEST_MM, Unit
from core.number_words import number_in_words
from core.records.answer import Plan, Step
from core.records.garment import Garment
from core.said.dart_steps import told_at
from core.said.seam_steps import baste_only
from core.said.spoken_text import breaths, finished, label_aloud, length_aloud, text_aloud
from core.said.step_places import Place, Row, dart_of, step_places
from core.said.steps import pins_counted
from core.wording import Words, direction, listed

_STOP = re.compile(r"(?<=[.?!]) +")


@dataclass(frozen=True, slots=True)
class _Reader:
    plan: Plan
    garment: Garment
    unit: Unit
    pins: int
    labels: tuple[str, ...]

    def length(self, mm: float) -> str:
        return length_aloud(mm, self.unit)

    def text(self, text: str) -> str:
        return text_aloud(text, self.unit, self.labels)

    def level(self, name: str) -> str:
        return label_aloud(self.garment.level_called(name))


def spoken_steps(
    plan: Plan, file: FittingFile, *, unit: Unit | None = None
) -> tuple[tuple[str, ...], ...]:
    """Return the sentences of each step, in the order of ``plan.steps``.

    ``unit`` is the one the plan was made with, the file's unless told.  Join a step's sentences
    with a space for a voice.  Raises ``NotFound`` where the plan's garment or fitting is not in
    the file.
    """
    unit = unit or file.unit
    found = step_places(plan, file, unit)
    garment = found.garment
    fitting = None if plan.fitting is None else fitting_of(garment, plan.fitting)
    pins = 0 if fitting is None else pins_counted(fitting, garment)
    points = [] if fitting is None or fitting.hem is None else fitting.hem.points
    labels = (*_labels(garment), *(point.at for point in points))
    reader = _Reader(plan, garment, unit, pins, labels)
    return tuple(
        _spoken(step, place, reader)
        for step, place in zip(plan.steps, found.places, strict=True)
    )  # fmt: skip


def _labels(garment: Garment) -> Iterable[str]:
    """Yield every name in the garment that may have a number in it."""
    yield from (level.label for level in garment.levels.values())
    yield from (opening.label for opening in garment.openings.values())
    yield from (part.label for part in garment.joined)
    yield from (line.label for line in garment.lines)
    yield from (insert.label for insert in garment.inserts)
    for layer in garment.layers:
        yield layer.label
        for ring in layer.rings:
            yield ring.label
            yield from (seam.label for seam in ring.seams)
            for piece in ring.pieces:
                yield from (piece.label, *(dart.label for dart in piece.darts))


def _spoken(step: Step, place: Place | None, reader: _Reader) -> tuple[str, ...]:
    of = number_in_words(len(reader.plan.steps))
    said = [f"Step {number_in_words(step.order)} of {of}."]
    if place is not None and place.what == "seam":
        said += _seam(step, place, reader)
    elif place is not None and place.what == "dart":
        said += _dart(step, place, reader)
    elif step.group == "mark":
        said += _mark(step, reader)
    elif step.group == "open":
        said += ["Open.", *_written(step, reader)]
    elif step.group == "baste and check":
        said += _check(step, reader)
    else:
        said += _written(step, reader)
    return tuple(breath for sentence in said for breath in breaths(finished(sentence)) if breath)


def _written(step: Step, reader: _Reader) -> list[str]:
    """Return a step's own sentences; why it is so is not read out."""
    written = [part for part in _STOP.split(step.text) if not part.startswith("Why: ")]
    return [reader.text(part) for part in written]


def _seam(step: Step, place: Place, reader: _Reader) -> list[str]:
    ways = list(dict.fromkeys(direction(move) for row in place.rows for move in _there(row)))
    across = "across" if len(ways) > 1 else "in" if ways == ["take in"] else "out"
    how = [
        ways[0] if len(ways) == 1 else "",
        _which_edges(place),
        f"level {across} from the old stitching",
    ]
    said = [_whose(step, place), ", ".join(filter(None, how))]
    for row in place.rows:
        said += _amounts(row, place, len(ways) > 1, reader)
    said += _ends(place, reader)
    basted = baste_only(place.plan, place.name, place.side, Words(reader.unit))
    return [*said, "baste only" if basted else "", _inside(place, reader)]


def _there(row: Row) -> list[float]:
    return [move for move in row.moves if move is not None]


def _whose(step: Step, place: Place) -> str:
    title = label_aloud(step.title)
    if step.side is not None:
        other = "right" if step.side == "left" else "left"
        return f"{title}, her {step.side}, and the {step.side} is not like the {other}"
    return f"{title}, both sides alike" if place.both else title


def _which_edges(place: Place) -> str:
    """Return ``front and back alike``; nothing for a seam that joins a piece to itself."""
    ring, seam = place.seam
    if seam.joins_itself:
        return ""
    alike = "alike" if place.alike else "not alike"
    if seam.id == ring.side_line:
        return f"front and back {alike}"
    return f"{listed([label_aloud(label.lower()) for label in place.edges])} {alike}"


def _amounts(row: Row, place: Place, mixed: bool, reader: _Reader) -> list[str]:
    """Return ``Waist, five eighths``; a sentence for each edge where they are not alike."""

    def amount(move: float) -> str:
        return f"{direction(move) + ' ' if mixed else ''}{reader.length(move)}"

    label = reader.level(row.level)
    if place.alike:
        return [f"{label}, {amount(_there(row)[0])}"]
    return [
        f"{label}, {label_aloud(edge.lower())} {amount(move)}"
        for edge, move in zip(place.edges, row.moves, strict=True)
        if move is not None
    ]


def _ends(place: Place, reader: _Reader) -> list[str]:
    """Return where the line ends: run out to nothing, or carried to the end of the seam."""
    line = place.longest_line
    if line is None:
        return []
    said = []
    if line.above is not None:
        said.append(f"run out to nothing at {_height(line.above, reader)}")
    elif line.carries_up:
        said.append(f"the same {reader.length(line.points[0][1])} up to the top of the seam")
    if line.below is not None:
        below = _height(line.below, reader)
        said.append(f"run out to nothing at {below}; do not go below it")
    elif line.carries_down:
        said.append(f"the same {reader.length(line.points[-1][1])} down to the end of the seam")
    return said


def _height(down: float, reader: _Reader) -> str:
    for name, level in reader.garment.levels.items():
        if abs(level.down - down) <= SMALLEST_MM:
            return f"the {reader.level(name).lower()}"
    return f"{reader.length(down)} down"


def _inside(place: Place, reader: _Reader) -> str:
    """Return what is left inside where most is moved, and that it is not to be trimmed."""
    layer = place.plan.work.layer.id
    moves = [move for move in reader.plan.moves
             if (move.layer, move.seam, move.side) == (layer, place.name, place.side)
             and move.allowance_left is not None]  # fmt: skip
    most = max((abs(move.move) for move in moves), default=0.0)
    moves = [move for move in moves if abs(move.move) > most - SMALLEST_MM]
    moves.sort(key=lambda move: reader.garment.levels[move.level].down)
    least = min(moves, key=lambda move: move.allowance_left or 0.0, default=None)
    if least is None:
        return ""
    amount = reader.length(max(least.allowance_left or 0.0, 0.0))
    level = reader.level(least.level).lower()
    return f"you will have {amount} inside at the {level}: do not trim"


def _dart(step: Step, place: Place, reader: _Reader) -> list[str]:
    level, before, move = told_at(place.plan, *dart_of(place)[1:])
    title = label_aloud(step.title)
    whose = f", her {step.side}" if step.side else ", both sides alike" if place.both else ""
    return [
        f"{title}{whose}",
        "deeper" if move < 0 else "shallower",
        f"at the {reader.level(level).lower()}, {reader.length(move)} on each leg",
        f"{reader.length(before)} becomes {reader.length(before - 2 * move)}",
        "same top, same point",
    ]


def _mark(step: Step, reader: _Reader) -> list[str]:
    said = [part for part in _STOP.split(step.text) if not part.startswith("Count the pins")]
    if reader.pins:
        count = number_in_words(reader.pins)
        pins = "pin" if reader.pins == 1 else "pins"
        said += [f"{count} {pins}", f"Tell me when the tin has {count}."]
    return said


def _check(step: Step, reader: _Reader) -> list[str]:
    words = Words(reader.unit)
    girths = []
    for row in reader.plan.levels:
        if row.layer == step.layer and abs(row.planned) > SMALLEST_MM:
            side = f", her {row.side}" if row.side else ""
            after = reader.length(words.shown(row.as_sewn) + words.shown(row.planned))
            girths.append((f"{reader.level(row.level)}{side}", after))
    baste = "Baste it closed on the new lines, the centre seams too"
    if not girths:
        return _written(step, reader)
    if len(girths) == 1:
        ((place, after),) = girths
        tape = [f"Tape round the inside at the {place.lower()}", f"It should be {after}"]
    else:
        tape = ["Tape round the inside", "This is what it should be"]
        tape += [f"{place}, {after}" for place, after in girths]
    return [baste, *tape, "What do you have?"]


def aloud(sentences: Sequence[str]) -> str:
    """Return a step's sentences as one text for a voice."""
    return " ".join(sentences)
