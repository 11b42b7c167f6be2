"""The ways to share out what the tape asks for, each with what it opens, its minutes, its moves."""

from collections.abc import Sequence
from dataclasses import dataclass

from core.changes.layer_plan import LayerPlan
from core.changes.options import WAYS, minutes_of
from core.changes.plan import plan_layers
from core.changes.plan_levels import moves_of
from core.file.fitting_file import FittingFile, fitting_of
from core.lengths import SMALLEST_MM, Unit
from core.records.answer import Move, Plan, Sharing
from core.records.garment import Garment, Layer
from core.wording import Words, listed

TITLES: dict[Sharing, str] = {
    "by_turns": "By turns",
    "fewest": "The fewest seams",
    "spread": "Spread over all",
}
REMARKS: dict[Sharing, str] = {
    "by_turns": "the usual order, each seam no further than is easy",
    "fewest": "the first seams alone, as far as they go",
    "spread": "gentler moves, more to open",
}


@dataclass(frozen=True, slots=True)
class WayTold:
    """One way; ``opens`` names the seams and darts, ``short`` what no edge could give."""

    way: Sharing
    title: str
    remark: str
    opens: str
    minutes: int
    largest: str
    short: str
    chosen: bool


def ways_told(
    file: FittingFile, plan: Plan, chosen: Sharing, unit: Unit
) -> tuple[WayTold, ...]:
    """Return the chosen way and those that differ from it; none where the pins lead alone.

    Minutes are those of all layers.  Raises ``NotFound`` where the plan's garment is not there.
    """
    if plan.lead == "pins":
        return ()
    garment = file.garment(plan.garment)
    fitting = None if plan.fitting is None else fitting_of(garment, plan.fitting)
    differ = {option.way for option in plan.options}
    told, seen = [], []
    for way in (chosen, *(way for way in WAYS if way != chosen and way in differ)):
        layers = plan_layers(file, garment, fitting, plan.lead, way)
        moves = [(move.seam, move.dart, move.side, move.edge, move.level, move.move)
                 for layer in layers for move in moves_of(layer) if move.move]  # fmt: skip
        if moves and moves not in seen:
            told.append(_told(way, layers, way == chosen, Words(unit)))
        seen.append(moves)
    return tuple(sorted(told, key=lambda one: WAYS.index(one.way)))


def moved_without_pin(plan: Plan, file: FittingFile, unit: Unit) -> tuple[str, ...]:
    """Return the seams and darts that move although no pin was set on them.

    Of another layer only what the first does not move so too: ``lining centre back``.
    """
    words = Words(unit)
    garment = file.garment(plan.garment)
    named: dict[str, str] = {}
    for move in plan.moves:  # the first layer's come first
        if move.source == "tape" and words.shows(move.move):
            named.setdefault(move.seam or move.dart or "", _label(move, garment))
    return tuple(named.values())


def _told(way: Sharing, layers: Sequence[LayerPlan], chosen: bool, words: Words) -> WayTold:
    first = layers[0]
    opened = first.opened()
    minutes = sum(minutes_of(layer.work.rules, layer.opened()) for layer in layers)
    also = [layer.work.layer.label.lower() for layer in layers[1:] if layer.opened()]
    names = [*_names(first.work.layer, opened), *also]
    largest = max((first.largest(number) for number in range(len(first.work.rounds))), default=0.0)
    short = sum(abs(amount) for amount in first.short.values())
    return WayTold(
        way, TITLES[way], REMARKS[way], listed(names), round(minutes), words.length(largest),
        words.length(short) if short > SMALLEST_MM else "", chosen,
    )  # fmt: skip


def _names(layer: Layer, opened: Sequence[str]) -> list[str]:
    labels = {seam.id: seam.label for ring in layer.rings for seam in ring.seams}
    labels |= {dart.id: dart.label for ring in layer.rings for piece in ring.pieces
               for dart in piece.darts}  # fmt: skip
    return [labels[name].lower() for name in labels if name in opened]


def _label(move: Move, garment: Garment) -> str:
    """Return ``side seam``, or ``lining side seam`` of a layer that is not the first."""
    what, name = ("seam", move.seam) if move.seam else ("dart", move.dart)
    label = garment.label_of(what, name, move.layer).lower() if name else "a new dart"
    layer = garment.layer(move.layer)
    of = layer.label.lower() if layer and layer is not garment.layers[0] else ""
    return label if label.startswith(of) else f"{of} {label}"
