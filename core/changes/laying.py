"""Putting amounts down in a plan: what was pinned, and what one edge can be let out."""

from core.changes.between_levels import lay_between
from core.changes.layer_plan import Amount, LayerPlan, Spot
from core.lengths import SMALLEST_MM
from core.records.answer import Source
from core.sewn.rounds import Edge


def lay_pins(plan: LayerPlan) -> None:
    """Put down what was pinned: unrounded, and cut to the cloth there is."""
    work = plan.work
    if work.lead == "tape" or not work.pinned.any:
        return
    for number, around in enumerate(work.rounds):
        for index, edge in enumerate(around.edges):
            for level in edge.levels:
                pinned = work.pinned_edge(edge, level)
                if pinned is not None:
                    lay_edge(plan, (number, index, level), edge, pinned)
        for index, dart in enumerate(around.darts):
            own = work.pinned.legs.get((dart.dart.id, dart.side), {})
            for level, leg in work.pinned_legs(dart).items():
                source: Source = "pins" if level in own else "carried"
                room = work.rules.leg_limit(dart, level, leg)
                move = min(leg, room) if leg > 0 else leg
                plan.legs[number, index, level] = Amount(leg, move, source)
                if move != leg and level in own:
                    add_short(plan, number, level, 2 * (leg - move))
        _lay_folds(plan, number)
    lay_between(plan)


def lay_edge(
    plan: LayerPlan,
    spot: Spot,
    edge: Edge,
    exact: float,
    source: Source = "pins",
) -> None:
    """Put one edge's unrounded move down; let out no further than there is cloth."""
    number, _, level = spot
    rules = plan.work.rules
    room = exact if rules.on_paper else rules.room_out(edge, level)
    move = min(exact, room) if exact > 0 else exact
    plan.edges[spot] = Amount(exact, move, source)
    if exact - move > SMALLEST_MM:
        plan.cut[spot] = exact - move
        if source in ("pins", "hand"):
            add_short(plan, number, level, edge.count * (exact - move))


def _lay_folds(plan: LayerPlan, number: int) -> None:
    around = plan.work.rounds[number]
    pieces = {piece.id for piece in around.ring.pieces}
    for (piece, side), levels in plan.work.pinned.folds.items():
        if piece in pieces and side in around.sides():
            for level, move in levels.items():
                plan.folds[number, piece, side, level] = move


def leave_inside_band(plan: LayerPlan) -> None:
    """Call no level short whose tape is content: what is left there lies inside the band.

    What a pin lacks is told with the pin all the same.
    """
    work = plan.work
    for number, level in list(plan.short):
        if work.judged(number, level):
            left = (work.wanted[number][level].needed or 0.0) - plan.planned(number, level)
            if abs(left) <= work.settings.band + SMALLEST_MM:
                del plan.short[number, level]


def add_short(plan: LayerPlan, number: int, level: str, short: float) -> None:
    plan.short[number, level] = plan.short.get((number, level), 0.0) + short
