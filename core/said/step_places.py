"""What each step of a plan is about: its seam, dart or fold, with the amounts as records.

A step holds words.  Whoever speaks it, draws it or lays it out in a table needs the moves
behind the words, so the plan of each layer is made once more, and each step is found again by
writing the steps of one seam (or dart, or fold) at a time.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Literal

from core.changes.layer_plan import LayerPlan
from core.changes.plan import plan_layers
from core.changes.seam_line import SeamLine
from core.file.fitting_file import FittingFile, fitting_of
from core.lengths import Unit
from core.records.answer import Move, Plan, Side, Step
from core.records.garment import Garment, Ring, Seam
from core.said.between_steps import between_steps
from core.said.dart_steps import dart_steps, fold_steps
from core.said.seam_steps import seam_steps
from core.said.sums import told_apart
from core.sewn.rounds import DartSide
from core.share.pinned import LineKey
from core.wording import Words

What = Literal["seam", "dart", "fold", "between"]


@dataclass(frozen=True, slots=True)
class Row:
    """One level of a seam's step: how far down (mm), and the move of each edge (mm).

    ``moves`` goes with the seam's ``edges``; ``None`` where that edge stays.
    """

    level: str
    label: str
    down: float
    moves: tuple[float | None, ...]


@dataclass(frozen=True, slots=True)
class Place:
    """What one step is about.

    ``name`` is the id of the seam, dart or piece; ``side`` whose amounts ``rows`` holds, and
    ``both`` is true where the other side is the same.  ``edges`` are the labels of the two
    pieces the seam joins (one for a seam that joins a piece to itself).
    """

    what: What
    plan: LayerPlan
    name: str
    side: Side | None
    both: bool = False
    edges: tuple[str, ...] = ()
    rows: tuple[Row, ...] = ()

    @property
    def alike(self) -> bool:
        """Tell whether every edge of the seam moves, and moves alike, at every level."""
        return all(
            None not in row.moves and len({told_apart(move or 0.0) for move in row.moves}) == 1
            for row in self.rows
        )

    def line(self, position: int) -> SeamLine | None:
        """Return the new line of one edge, by its place in the seam's ``joins``."""
        return self.plan.lines.get((self.name, self.side, position))

    @property
    def seam(self) -> tuple[Ring, Seam]:
        """Return the seam, with the first ring that it is in."""
        return next(
            (ring, seam)
            for ring in self.plan.work.layer.rings
            for seam in ring.seams
            if seam.id == self.name
        )

    @property
    def longest_line(self) -> SeamLine | None:
        """Return the line of the edge that moves most, whose ends are the step's."""
        best, most = 0, 0.0
        for row in self.rows:
            for position, move in enumerate(row.moves):
                if abs(move or 0.0) > most:
                    best, most = position, abs(move or 0.0)
        return self.line(best)


@dataclass(frozen=True, slots=True)
class StepPlaces:
    """The layers of a plan as they were worked out, and what each of its steps is about."""

    garment: Garment
    layers: tuple[LayerPlan, ...]
    places: tuple[Place | None, ...]

    def of(self, step: Step) -> Place | None:
        """Return what a step is about; ``None`` for marking, opening, checking, the hem."""
        return self.places[step.order - 1]


def step_places(plan: Plan, file: FittingFile, unit: Unit) -> StepPlaces:
    """Return what the steps are about; ``unit`` is the one the plan's words are written in.

    Raises ``NotFound`` where the garment or fitting is not in the file.
    """
    garment = file.garment(plan.garment)
    fitting = None if plan.fitting is None else fitting_of(garment, plan.fitting)
    layers = tuple(plan_layers(file, garment, fitting, plan.lead, plan.way))
    words = Words(unit)
    found: dict[tuple[str, str], list[Place]] = {}
    for layer in layers:
        for place, steps in _parts(layer, words):
            for step in steps:
                told = _with_moves(replace(place, side=step.side), plan, words)
                found.setdefault((step.layer, step.text), []).append(told)
    return StepPlaces(garment, layers, tuple(_taken(found, step) for step in plan.steps))


def _taken(found: dict[tuple[str, str], list[Place]], step: Step) -> Place | None:
    """Return the first place that says a step's words and was not taken yet."""
    places = found.get((step.layer, step.text))
    return places.pop(0) if places else None


def _parts(layer: LayerPlan, words: Words) -> Iterator[tuple[Place, Sequence[Step]]]:
    """Yield each dart, fold, seam and pinned seam with the steps that are written of it alone."""
    work = layer.work
    for dart in dict.fromkeys(dart.dart.id for around in work.rounds for dart in around.darts):
        legs = {
            spot: amount for spot, amount in layer.legs.items()
            if work.rounds[spot[0]].darts[spot[1]].dart.id == dart
        }  # fmt: skip
        yield Place("dart", layer, dart, None), dart_steps(replace(layer, legs=legs), words)
    for piece, level in dict.fromkeys((piece, level) for _, piece, _, level in layer.folds):
        folds = {
            spot: move for spot, move in layer.folds.items() if (spot[1], spot[3]) == (piece, level)
        }
        yield Place("fold", layer, piece, None), fold_steps(replace(layer, folds=folds), words)
    for seam in dict.fromkeys(seam.id for ring in work.layer.rings for seam in ring.seams):
        edges = {
            spot: amount for spot, amount in layer.edges.items()
            if work.rounds[spot[0]].edges[spot[1]].seam.id == seam
        }  # fmt: skip
        yield Place("seam", layer, seam, None), seam_steps(replace(layer, edges=edges), words)
        between = {
            spot: amount for spot, amount in layer.between.items()
            if work.rounds[spot[0]].edges[spot[1]].seam.id == seam
        }  # fmt: skip
        alone = replace(layer, between=between)
        yield Place("between", layer, seam, None), between_steps(alone, words)


def _with_moves(place: Place, plan: Plan, words: Words) -> Place:
    """Return a seam's place with its rows, whose side and whether the other side is the same."""
    if place.what not in ("seam", "between"):
        return replace(place, both=place.side is None and _has_sides(place, plan))
    own = [move for move in plan.moves if words.shows(move.move)
           and (move.layer, move.seam) == (place.plan.work.layer.id, place.name)]  # fmt: skip
    sides = {move.side for move in own} | {key[1] for key in _keys(place)}
    both = place.side is None and "left" in sides
    side: Side | None = "left" if both else place.side
    return replace(
        place, side=side, both=both, edges=_edge_labels(place),
        rows=_rows(place, [move for move in own if move.side == side]),
    )  # fmt: skip


def _keys(place: Place) -> list[LineKey]:
    return [key for key in place.plan.lines if key[0] == place.name]


def _has_sides(place: Place, plan: Plan) -> bool:
    own = [move for move in plan.moves if move.layer == place.plan.work.layer.id and move.side]
    if place.what == "dart":
        return any(move.dart == place.name for move in own)
    return any(move.dart is None and move.seam is None and move.edge == place.name for move in own)


def _edge_labels(place: Place) -> tuple[str, ...]:
    ring, seam = place.seam
    names = seam.joins[:1] if seam.joins_itself else seam.joins
    return tuple(ring.piece(name).label for name in names)


def _rows(place: Place, moves: Sequence[Move]) -> tuple[Row, ...]:
    """Return the levels where an edge moves by more than nothing, from top to bottom."""
    rings = {ring.id: ring for ring in place.plan.work.layer.rings}
    levels = place.plan.work.garment.levels
    found: dict[str, list[float | None]] = {}
    for move in moves:
        seam = rings[move.ring].seam(place.name)
        if seam is not None:
            row = found.setdefault(move.level, [None] * (1 if seam.joins_itself else 2))
            row[seam.joins.index(move.edge)] = move.move
    return tuple(
        Row(name, levels[name].label, levels[name].down, tuple(found[name]))
        for name in sorted(found, key=lambda name: levels[name].down)
    )


def dart_of(place: Place) -> tuple[DartSide, int, int]:
    """Return a dart's own side, with its round and its place there; her left where both are."""
    for number, around in enumerate(place.plan.work.rounds):
        for index, dart in enumerate(around.darts):
            if dart.dart.id == place.name and (
                place.side == dart.side or (place.side is None and dart.side in (None, "left"))
            ):
                return dart, number, index
    raise LookupError(f"The plan has no dart “{place.name}”")
