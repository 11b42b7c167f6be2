"""Putting down what she set by hand: as she set it, cut only to the cloth there is, and told.

What she set takes the place of what was pinned or shared there.  It is put down last, so that
everything else stays as planned; or before the sharing, where she asks to have what is left
shared again: then nobody is asked for more or less at the places she set.
"""

from collections.abc import Mapping

from core.changes.layer_plan import Amount, LayerPlan, Spot
from core.changes.laying import add_short, lay_edge
from core.lengths import SMALLEST_MM
from core.records.answer import Source
from core.sewn.rounds import DartSide, Edge


def lay_hand(plan: LayerPlan) -> None:
    """Put down what was set by hand in this layer, darts as wedges."""
    hand = plan.work.hand
    for number, around in enumerate(plan.work.rounds if hand.moves else ()):
        for index, edge in enumerate(around.edges):
            for level in edge.levels:
                move = hand.of_edge(edge, level)
                if move is not None:
                    _put_edge(plan, (number, index, level), edge, move)
        for index, dart in enumerate(around.darts):
            _put_legs(plan, number, index, dart)


def settle_short(plan: LayerPlan) -> None:
    """Let nothing be called short that the levels no longer need, now that she set some."""
    work = plan.work
    for (number, level), short in list(plan.short.items()):
        if work.lead == "pins" or not work.judged(number, level):
            continue
        left = (work.wanted[number][level].needed or 0.0) - plan.planned(number, level)
        if left * short <= 0 or abs(left) <= work.settings.band + SMALLEST_MM:
            del plan.short[number, level]
        elif abs(left) < abs(short):
            plan.short[number, level] = left


def asked_of(plan: LayerPlan, number: int, level: str) -> float:
    """Return what a level needs in all (mm): by the tape, or by the pins where they lead alone.

    Where the round was not measured, it is what was planned there.
    """
    work, before = plan.work, plan.before or plan
    if work.lead != "pins" and work.judged(number, level):
        return work.wanted[number][level].needed or 0.0
    return before.planned(number, level) + before.short.get((number, level), 0.0)


def changed_levels(plan: LayerPlan, number: int) -> list[str]:
    """Return the levels of a round where she set an amount, or where one that she set reaches."""
    before = plan.before
    if before is None:
        return []
    by_hand = {
        level
        for moves in (plan.edges, plan.legs)
        for (at, _, level), amount in moves.items()
        if at == number and amount.source == "hand"
    }
    return [
        level
        for level in plan.work.rounds[number].ring.levels
        if level in by_hand
        or abs(plan.planned(number, level) - before.planned(number, level)) > SMALLEST_MM
    ]


def _put_edge(plan: LayerPlan, spot: Spot, edge: Edge, move: float) -> None:
    number, _, level = spot
    cut = plan.cut.pop(spot, 0.0)
    if cut and plan.edges[spot].source == "pins":
        add_short(plan, number, level, -edge.count * cut)
    lay_edge(plan, spot, edge, move, "hand")


def _put_legs(plan: LayerPlan, number: int, index: int, dart: DartSide) -> None:
    legs = _wedge(plan, dart)
    for level, (leg, source) in legs.items():
        spot = (number, index, level)
        old = plan.legs.get(spot)
        if old is not None and old.source == "pins":
            add_short(plan, number, level, -2 * (old.exact - old.move))
        room = plan.work.rules.leg_limit(dart, level, leg)
        move = min(leg, room) if leg > 0 else leg
        plan.legs[spot] = Amount(leg, move, source)
        if source == "hand" and leg - move > SMALLEST_MM:
            add_short(plan, number, level, 2 * (leg - move))


def _wedge(plan: LayerPlan, dart: DartSide) -> Mapping[str, tuple[float, Source]]:
    """Return the legs as set by hand (mm) and, as a dart is one wedge, its other levels."""
    own = {level: move for level in dart.take_up
           if (move := plan.work.hand.of_leg(dart, level)) is not None}  # fmt: skip
    if not own:
        return {}
    leading = max(own, key=lambda level: dart.take_up.get(level, 0.0))
    found: dict[str, tuple[float, Source]] = {
        level: (own[leading] * share, "carried")
        for level in dart.take_up
        if (share := dart.share_at(level, leading))
    }
    return found | {level: (move, "hand") for level, move in own.items()}
