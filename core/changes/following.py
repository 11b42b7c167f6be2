"""Planning the other layers: each moves as the outer does, unless that spoils its own fit."""

from collections.abc import Mapping
from dataclasses import dataclass, field, replace

from core.changes.laid_by_hand import lay_hand, settle_short
from core.changes.layer_plan import Amount, LayerPlan, Spot, Work
from core.changes.laying import lay_pins
from core.changes.planning import draw_lines, take_over
from core.changes.set_by_hand import NOTHING_SET
from core.lengths import SMALLEST_MM
from core.records.answer import Source
from core.sewn.rounds import DartSide, Edge, Round
from core.share.giving import Sharer


def plan_other(work: Work, outer: LayerPlan) -> LayerPlan:
    """Return a layer's moves: the outer's totals, on the seam of the same id where there is one.

    Within its own limits.  A level that following would leave outside its own band is
    shared by its own turns instead.
    """
    plan = LayerPlan(work)
    lay_pins(plan)
    if work.hand.moves:
        plan.before = plan_other(replace(work, hand=NOTHING_SET), outer)
    if work.hand.shared_again:
        lay_hand(plan)
    for number, around in enumerate(work.rounds):
        leader = _leader(outer, around)
        if leader is None:
            _share_own(plan, number, {level for level in around.sewn if work.judged(number, level)})
        else:
            _follow_round(_Follower(plan, number, outer, leader))
    if work.hand.moves and not work.hand.shared_again:
        lay_hand(plan)
        settle_short(plan)
    draw_lines(plan)
    plan.close()
    return plan


@dataclass(slots=True)
class _Follower:
    plan: LayerPlan
    number: int
    outer: LayerPlan
    leader: int
    own: set[str] = field(default_factory=set)

    @property
    def around(self) -> Round:
        return self.plan.work.rounds[self.number]


def _leader(outer: LayerPlan, around: Round) -> int | None:
    for number, other in enumerate(outer.work.rounds):
        if other.ring.id == around.ring.id and other.side == around.side:
            return number
    return None


def _follow_round(follower: _Follower) -> None:
    """Follow level by level; share anew while a level is left outside its own band.

    Each try adds a level that was not shared yet, so there are no more tries than levels.
    """
    plan, number = follower.plan, follower.number
    pinned = {spot for spot in plan.edges if spot[0] == number}
    pinned_legs = {spot for spot in plan.legs if spot[0] == number}
    short = {key: lacks for key, lacks in plan.short.items() if key[0] == number}
    while True:
        _clear(plan, number, pinned, pinned_legs)
        plan.short |= short  # what pins lack, and what she set
        _follow_darts(follower)
        for level in follower.around.ring.levels:
            if level not in follower.own and not _only_carried(follower, level):
                _follow_level(follower, level)
        if follower.own:
            _share_own(plan, number, follower.own)
        outside = _outside(follower)
        if outside <= follower.own:
            plan.own |= {(number, level) for level in follower.own}
            return
        follower.own |= outside


def _clear(plan: LayerPlan, number: int, pinned: set[Spot], pinned_legs: set[Spot]) -> None:
    """Take back what an earlier try put down; pins stay."""
    for moves, kept in ((plan.edges, pinned), (plan.legs, pinned_legs)):
        for spot in [spot for spot in moves if spot[0] == number and spot not in kept]:
            del moves[spot]
    for key in [key for key in plan.short if key[0] == number]:
        del plan.short[key]


def _follow_darts(follower: _Follower) -> None:
    plan, number = follower.plan, follower.number
    leading = follower.outer.work.rounds[follower.leader].darts
    for index, dart in enumerate(follower.around.darts):
        if dart.widest in follower.own or any(
            at == number and which == index for at, which, _ in plan.legs
        ):
            continue
        same = next(
            (
                place
                for place, other in enumerate(leading)
                if other.dart.id == dart.dart.id and other.side == dart.side
            ),
            None,
        )
        amount = (
            None
            if same is None
            else follower.outer.legs.get((follower.leader, same, leading[same].widest))
        )
        if amount is not None and amount.move:
            _lay_wedge(follower, index, dart, amount)


def _lay_wedge(follower: _Follower, index: int, dart: DartSide, amount: Amount) -> None:
    limit = follower.plan.work.rules.leg_limit(dart, dart.widest, amount.move)
    move = max(-limit, min(limit, amount.move))
    for level in dart.take_up:
        share = dart.share_at(level, dart.widest)
        if share:
            source = _from(amount, follower.plan)
            wedge = Amount(amount.move * share, move * share, source)
            follower.plan.legs[follower.number, index, level] = wedge


def _follow_level(follower: _Follower, level: str) -> None:
    """Move the same seams alike; what the outer moves elsewhere is shared by own turns."""
    plan, number = follower.plan, follower.number
    matched: set[str] = set()
    for index, edge in enumerate(follower.around.edges):
        spot = (number, index, level)
        if level in edge.levels and spot not in plan.edges:
            amount = _same_edge(follower, edge, level)
            if amount is not None:
                matched.add(edge.seam.id)
                plan.edges[spot] = Amount(
                    amount.move, _within(plan.work, edge, level, amount.move), _from(amount, plan)
                )
    total = follower.outer.planned(follower.leader, level) if _reached(follower, level) else 0.0
    elsewhere = total - _matched_total(follower, level)
    if abs(elsewhere) > SMALLEST_MM:
        _share_elsewhere(follower, level, elsewhere)


def _only_carried(follower: _Follower, level: str) -> bool:
    """Tell whether nothing but run-outs reach a level that is not judged: own runs decide."""
    if follower.plan.work.judged(follower.number, level):
        return False
    found = [
        amount.source
        for moves in (follower.outer.edges, follower.outer.legs)
        for (number, _, at), amount in moves.items()
        if number == follower.leader and at == level
    ]
    return all(source == "carried" for source in found)


def _share_elsewhere(follower: _Follower, level: str, amount: float) -> None:
    plan, number = follower.plan, follower.number
    fixed = plan.planned(number, level)
    held = frozenset((index, at) for n, index, at in plan.edges if n == number)
    darts = frozenset(range(len(follower.around.darts)))
    sharer = Sharer(
        plan.work, number, {level: fixed + amount}, {level: fixed}, held, darts, band=0.0
    )
    given = sharer.share()
    given.short.clear()  # what it cannot follow shows against its own need
    given.judged = ()  # what a pin lacks there stays
    take_over(plan, number, given)


def _from(amount: Amount, plan: LayerPlan) -> Source:
    """Return where a move comes from; what was set by hand on the outer is not set here."""
    if amount.source != "hand":
        return amount.source
    return "pins" if plan.work.lead == "pins" else "tape"


def _reached(follower: _Follower, level: str) -> bool:
    return level in follower.outer.work.rounds[follower.leader].ring.levels


def _same_edge(follower: _Follower, edge: Edge, level: str) -> Amount | None:
    edges = follower.outer.work.rounds[follower.leader].edges
    for index, other in enumerate(edges):
        if (other.seam.id, other.side, other.position) == (edge.seam.id, edge.side, edge.position):
            return follower.outer.edges.get((follower.leader, index, level))
    return None


def _within(work: Work, edge: Edge, level: str, move: float) -> float:
    limit = work.rules.limit(edge, level, move)
    return max(-limit, min(limit, move))


def _matched_total(follower: _Follower, level: str) -> float:
    """Return what the outer moves at a level on seams and darts this layer has too (mm)."""
    seams = {edge.seam.id for edge in follower.around.edges if level in edge.levels}
    darts = {dart.dart.id for dart in follower.around.darts}
    around = follower.outer.work.rounds[follower.leader]
    total = sum(
        edge.count * amount.move
        for index, edge in enumerate(around.edges)
        if edge.seam.id in seams
        and (amount := follower.outer.edges.get((follower.leader, index, level)))
    )
    return total + sum(
        2 * amount.move
        for index, dart in enumerate(around.darts)
        if dart.dart.id in darts
        and (amount := follower.outer.legs.get((follower.leader, index, level)))
    )


def _share_own(plan: LayerPlan, number: int, levels: set[str]) -> None:
    """Share a layer's own need at these levels by its own turns."""
    work, around = plan.work, plan.work.rounds[number]
    wanted = work.wanted[number]
    needs: Mapping[str, float] = {
        level: needed
        for level in around.ring.levels
        if level in levels and (needed := wanted[level].needed) is not None
    }
    held = frozenset((index, level) for at, index, level in plan.edges if at == number)
    darts = frozenset(index for at, index, _ in plan.legs if at == number)
    fixed = {level: plan.planned(number, level) for level in needs}
    take_over(plan, number, Sharer(work, number, needs, fixed, held, darts).share())


def _outside(follower: _Follower) -> set[str]:
    """Return the judged levels that are left outside this layer's own band."""
    plan, number = follower.plan, follower.number
    band = plan.work.settings.band
    return {
        level
        for level, wanted in plan.work.wanted[number].items()
        if wanted.needed is not None
        and abs(wanted.needed - plan.planned(number, level)) > band + SMALLEST_MM
    }
