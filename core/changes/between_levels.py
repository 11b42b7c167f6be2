"""Pins that stand between the levels: each cut to the cloth there, as a point of its line."""

from collections.abc import Iterator, Sequence

from core.changes.layer_plan import Amount, LayerPlan, Stretch, Work
from core.lengths import SMALLEST_MM
from core.share.pinned import LineKey, Point


def lay_between(plan: LayerPlan) -> None:
    """Put down the pins that stand at no level: unrounded, let out no further than there is cloth.

    What is sewn on paper has no such limit.
    """
    rules = plan.work.rules
    for key, edges in lines_of(plan.work).items():
        for down, exact in _points(plan.work, key, edges):
            number, index, edge = _holder(plan.work, edges, down)
            room = exact if rules.on_paper else rules.room_at(edge, down)
            move = min(exact, room) if exact > 0 else exact
            plan.between[number, index, down] = Amount(exact, move, "pins")


def lines_of(work: Work) -> dict[LineKey, list[Stretch]]:
    """Return the stretches of each line: the edges it passes, round by round."""
    lines: dict[LineKey, list[Stretch]] = {}
    for number, around in enumerate(work.rounds):
        for index, edge in enumerate(around.edges):
            if edge.levels:
                key = (edge.seam.id, edge.side, edge.position)
                lines.setdefault(key, []).append((number, index, edge))
    return lines


def missing_at(plan: LayerPlan, number: int) -> dict[tuple[str, float], float]:
    """Return by seam and height what its pins between the levels lack over a round (mm)."""
    found: dict[tuple[str, float], float] = {}
    for (at, index, down), amount in plan.between.items():
        edge = plan.work.rounds[at].edges[index]
        lacks = amount.exact - amount.move
        if at == number and lacks > SMALLEST_MM:
            key = edge.seam.id, down
            found[key] = found.get(key, 0.0) + edge.count * lacks
    return found


def _points(work: Work, key: LineKey, edges: Sequence[Stretch]) -> Iterator[Point]:
    """Yield the pins of a line that stand at none of its levels."""
    line = None if work.lead == "tape" else work.pinned.lines.get(key)
    levels = [work.down(level) for _, _, edge in edges for level in edge.levels]
    for down, move in line.points if line is not None else ():
        if all(abs(down - level) > SMALLEST_MM for level in levels):
            yield down, move


def _holder(work: Work, edges: Sequence[Stretch], down: float) -> Stretch:
    """Return the stretch that a height is on, or that ends nearest to it."""

    def beyond(stretch: Stretch) -> float:
        downs = [work.down(level) for level in stretch[2].levels]
        return max(min(downs) - down, down - max(downs), 0.0)

    return min(edges, key=beyond)
