"""Planning the first layer: pins as pinned, the rest shared out, then the lines drawn."""

from collections.abc import Sequence

from core.changes.layer_plan import Amount, Given, LayerPlan, Work
from core.changes.seam_line import SeamLine, line_through
from core.lengths import SMALLEST_MM
from core.records.answer import Source
from core.records.garment import CARRY, NOTHING
from core.sewn.rounds import Edge
from core.share.giving import Sharer
from core.share.pinned import LineKey, Point
from core.share.sharing import Sharing


def plan_first(work: Work, way: Sharing = "by_turns") -> LayerPlan:
    """Return the moves of the layer that is pinned: pins, sharing, lines."""
    plan = LayerPlan(work)
    lay_pins(plan)
    if work.lead != "pins":
        for number in range(len(work.rounds)):
            plan.given[number] = share_round(plan, number, way)
            take_over(plan, number, plan.given[number])
    draw_lines(plan)
    plan.close()
    return plan


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
                    _lay_edge(plan, (number, index, level), edge, pinned)
        for index, dart in enumerate(around.darts):
            own = work.pinned.legs.get((dart.dart.id, dart.side), {})
            for level, leg in work.pinned_legs(dart).items():
                source: Source = "pins" if level in own else "carried"
                room = work.rules.leg_limit(dart, level, leg)
                move = min(leg, room) if leg > 0 else leg
                plan.legs[number, index, level] = Amount(leg, move, source)
                if move != leg and level in own:
                    _add_short(plan, number, level, 2 * (leg - move))
        _lay_folds(plan, number)


def share_round(plan: LayerPlan, number: int, way: Sharing) -> Given:
    """Share what the pins of a round leave over (all of it where the tape leads)."""
    work, around = plan.work, plan.work.rounds[number]
    needs = {
        level: wanted.needed
        for level, wanted in work.wanted[number].items()
        if wanted.needed is not None
    }
    held = {(index, level) for at, index, level in plan.edges if at == number}
    darts = {index for at, index, _ in plan.legs if at == number}
    moved = plan.edges or plan.legs or plan.folds
    fixed = {level: plan.planned(number, level) for level in around.ring.levels if moved}
    return Sharer(work, number, needs, fixed, frozenset(held), frozenset(darts), way).share()


def take_over(plan: LayerPlan, number: int, given: Given) -> None:
    """Put what a sharing gave into the plan, darts as wedges."""
    edges, darts = plan.work.rounds[number].edges, plan.work.rounds[number].darts
    for level, gifts in given.seams.items():
        for gift in gifts:
            first, second = (Amount(gift.exact, move, "tape") for move in (gift.first, gift.second))
            for index in gift.member.indexes:
                plan.edges[number, index, level] = second if edges[index].position else first
    for index, exact in given.exact_legs.items():
        dart = darts[index]
        for level in dart.take_up:
            share = dart.share_at(level, dart.widest)
            if share:
                amount = Amount(exact * share, given.legs[index] * share, "tape")
                plan.legs[number, index, level] = amount
    for level in given.judged:
        plan.short.pop((number, level), None)  # what a pin lacked is part of what was shared
    for level, short in given.short.items():
        _add_short(plan, number, level, short)
    plan.freer |= {(number, level) for level in given.freer}


def draw_lines(plan: LayerPlan) -> None:
    """Draw each edge's line through what is known, and read it at every other level."""
    drawn: dict[object, SeamLine | None] = {}  # most edges move as another does
    for key, edges in _lines_of(plan.work).items():
        points = tuple(_points(plan, key, edges))
        levels = {plan.work.down(level) for _, _, edge in edges for level in edge.levels}
        course = points, tuple(sorted(levels)), _runs(plan, edges)
        if course not in drawn:
            drawn[course] = line_through(points, course[1], *course[2])
        line = drawn[course]
        if line is not None:
            plan.lines[key] = line
            _lay_between(plan, line, edges)


Stretch = tuple[int, int, Edge]
"""A round, the edge's place in it, and the edge."""


def _lay_between(plan: LayerPlan, line: SeamLine, edges: Sequence[Stretch]) -> None:
    """Put down what a line says at the levels where nothing is put down yet."""
    for number, index, edge in edges:
        for level in edge.levels:
            spot = (number, index, level)
            if spot not in plan.edges:
                down = plan.work.down(level)
                move = line.at(down)
                if abs(move) > SMALLEST_MM:
                    source: Source = "tape" if line.within(down) else "carried"
                    _lay_edge(plan, spot, edge, move, source)


def _lines_of(work: Work) -> dict[LineKey, list[Stretch]]:
    lines: dict[LineKey, list[Stretch]] = {}
    for number, around in enumerate(work.rounds):
        for index, edge in enumerate(around.edges):
            if edge.levels:
                key = (edge.seam.id, edge.side, edge.position)
                lines.setdefault(key, []).append((number, index, edge))
    return lines


def _points(plan: LayerPlan, key: LineKey, edges: Sequence[Stretch]) -> list[Point]:
    """Return the pins of a line and, beyond them, every level that is judged or moved."""
    work = plan.work
    pinned = None if work.lead == "tape" else work.pinned.lines.get(key)
    points = dict(pinned.points) if pinned is not None else {}
    for number, index, edge in edges:
        for level in edge.levels:
            down, amount = work.down(level), plan.edges.get((number, index, level))
            if pinned is not None and pinned.at(down) is not None:
                if down in points and amount is not None:
                    points[down] = amount.move  # a pin cut to the cloth there is
            elif amount is not None or work.judged(number, level):
                points[down] = amount.move if amount is not None else 0.0
    return sorted(points.items())


def _runs(plan: LayerPlan, edges: Sequence[Stretch]) -> tuple[str | float, str | float]:
    """Return what happens above the topmost stretch of a line and below the lowest."""
    work = plan.work
    in_order = sorted(edges, key=lambda entry: work.down(entry[2].levels[0]))
    up = work.rules.run(in_order[0][2].seam, downwards=False)
    down = work.rules.run(in_order[-1][2].seam, downwards=True)
    return tuple(run if run in (NOTHING, CARRY) else work.down(run) for run in (up, down))  # type: ignore[return-value]


def _lay_edge(
    plan: LayerPlan,
    spot: tuple[int, int, str],
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
        if source == "pins":
            _add_short(plan, number, level, edge.count * (exact - move))


def _lay_folds(plan: LayerPlan, number: int) -> None:
    around = plan.work.rounds[number]
    pieces = {piece.id for piece in around.ring.pieces}
    for (piece, side), levels in plan.work.pinned.folds.items():
        if piece in pieces and side in around.sides():
            for level, move in levels.items():
                plan.folds[number, piece, side, level] = move


def _add_short(plan: LayerPlan, number: int, level: str, short: float) -> None:
    plan.short[number, level] = plan.short.get((number, level), 0.0) + short
