"""Planning the first layer: pins as pinned, the rest shared out, then the lines drawn."""

from collections.abc import Sequence
from dataclasses import replace

from core.changes.between_levels import lines_of
from core.changes.laid_by_hand import asked_of, changed_levels, lay_hand, settle_short
from core.changes.layer_plan import Amount, Given, LayerPlan, Stretch, Work
from core.changes.laying import add_short, lay_edge, lay_pins
from core.changes.seam_line import SeamLine, line_through
from core.changes.set_by_hand import NOTHING_SET
from core.lengths import SMALLEST_MM
from core.records.answer import Sharing, Source
from core.records.garment import CARRY, NOTHING
from core.share.giving import Sharer
from core.share.pinned import LineKey, Point


def plan_first(work: Work, way: Sharing = "by_turns") -> LayerPlan:
    """Return the moves of the layer that is pinned: pins, what was set by hand, sharing, lines."""
    plan = LayerPlan(work)
    lay_pins(plan)
    if work.hand.moves:
        plan.before = plan_first(replace(work, hand=NOTHING_SET), way)
    if work.hand.shared_again:
        lay_hand(plan)
    for number in range(len(work.rounds)):
        if work.lead != "pins":
            plan.given[number] = share_round(plan, number, way)
            take_over(plan, number, plan.given[number])
        elif work.hand.shared_again:
            take_over(plan, number, _share_rest(plan, number, way))
    if work.hand.moves and not work.hand.shared_again:
        lay_hand(plan)
        settle_short(plan)
    draw_lines(plan)
    plan.close()
    return plan


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


def _share_rest(plan: LayerPlan, number: int, way: Sharing) -> Given:
    """Share what the pins asked for and what was set by hand in their place does not give."""
    levels = changed_levels(plan, number)
    needs = {level: asked_of(plan, number, level) for level in levels}
    held = frozenset((index, level) for at, index, level in plan.edges if at == number)
    darts = frozenset(index for at, index, _ in plan.legs if at == number)
    fixed = {level: plan.planned(number, level) for level in levels}
    return Sharer(plan.work, number, needs, fixed, held, darts, way).share()


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
        add_short(plan, number, level, short)
    plan.freer |= {(number, level) for level in given.freer}


def draw_lines(plan: LayerPlan) -> None:
    """Draw each edge's line through what is known, and read it at every other level."""
    drawn: dict[object, SeamLine | None] = {}  # most edges move as another does
    for key, edges in lines_of(plan.work).items():
        points = tuple(_points(plan, key, edges))
        levels = {plan.work.down(level) for _, _, edge in edges for level in edge.levels}
        course = points, tuple(sorted(levels)), _runs(plan, edges)
        if course not in drawn:
            drawn[course] = line_through(points, course[1], *course[2])
        line = drawn[course]
        if line is not None:
            plan.lines[key] = line
            _lay_between(plan, line, edges)


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
                    lay_edge(plan, spot, edge, move, source)


def _points(plan: LayerPlan, key: LineKey, edges: Sequence[Stretch]) -> list[Point]:
    """Return the pins of a line and, beyond them, every level that is judged or moved."""
    work = plan.work
    pinned = None if work.lead == "tape" else work.pinned.lines.get(key)
    points = dict(pinned.points) if pinned is not None else {}
    by_hand = plan.before is not None  # every level between the pins stays but those she set
    for number, index, edge in edges:
        for down in points:
            if cut := plan.between.get((number, index, down)):
                points[down] = cut.move
        for level in edge.levels:
            down, amount = work.down(level), plan.edges.get((number, index, level))
            if pinned is not None and pinned.at(down) is not None:
                if (down in points or by_hand) and amount is not None:
                    points[down] = amount.move  # a pin cut to the cloth there is, or hers
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
