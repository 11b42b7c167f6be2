"""Steps for pins that stand between the levels, where no level's amount would tell of them."""

from collections.abc import Sequence

from core.changes.layer_plan import LayerPlan
from core.lengths import SMALLEST_MM
from core.records.answer import Side, Step
from core.said.seam_steps import group_of
from core.sewn.rounds import Edge
from core.share.pinned import Point
from core.wording import Words, direction, sentences, whose

_Found = dict[tuple[str, float], dict[Side | None, list[str]]]
"""What is said of a seam at a height, by side."""


def between_steps(plan: LayerPlan, words: Words) -> list[Step]:
    """Return a step for each seam and height pinned between levels; a side of its own if unlike."""
    steps = []
    for (seam, down), sides in _found(plan, words).items():
        left, right = sides.get("left"), sides.get("right")
        if left is not None and left == right:
            steps.append(_step(plan, seam, down, None, "both sides alike", left, words))
        else:
            for side, said in sides.items():
                steps.append(_step(plan, seam, down, side, whose(side), said, words))
    return steps


def _found(plan: LayerPlan, words: Words) -> _Found:
    found: _Found = {}
    for around in plan.work.rounds:
        for edge in around.edges:
            for down, move in _points(plan, edge):
                if words.shows(move) and _nearest(plan, edges=[edge], down=down):
                    label = around.ring.piece(edge.piece).label.lower()
                    said = found.setdefault((edge.seam.id, down), {}).setdefault(edge.side, [])
                    said.append(_amount(plan, edge, label, (down, move), words))
    return found


def _points(plan: LayerPlan, edge: Edge) -> list[Point]:
    """Return the pins of an edge that stand at none of the levels of its seam."""
    work = plan.work
    line = None if work.lead == "tape" else work.pinned.lines.get(
        (edge.seam.id, edge.side, edge.position))  # fmt: skip
    if line is None:
        return []
    levels = [
        work.down(level)
        for around in work.rounds
        for other in around.edges
        if other.seam.id == edge.seam.id
        for level in other.levels
    ]
    return [(down, move) for down, move in line.points
            if all(abs(down - level) > SMALLEST_MM for level in levels)]  # fmt: skip


def _nearest(plan: LayerPlan, edges: Sequence[Edge], down: float) -> str:
    """Return the level nearest a height, if it belongs to these edges; else nothing."""
    seam = edges[0].seam.id
    every = {
        level
        for around in plan.work.rounds
        for edge in around.edges
        if edge.seam.id == seam
        for level in edge.levels
    }
    nearest = min(every, key=lambda level: abs(plan.work.down(level) - down), default="")
    return nearest if any(nearest in edge.levels for edge in edges) else ""


def _amount(plan: LayerPlan, edge: Edge, label: str, point: Point, words: Words) -> str:
    down, move = point
    said = f"{label} {direction(move)} {words.length(move)}"
    room = plan.work.rules.room_out(edge, _nearest(plan, [edge], down))
    if move > room + SMALLEST_MM:
        said += (
            f", but the cloth gives {words.length(room)}; {words.length(move - room)} is missing"
        )
    return said


def _step(
    plan: LayerPlan,
    name: str,
    down: float,
    side: Side | None,
    whose_side: str,
    said: Sequence[str],
    words: Words,
) -> Step:
    ring, seam = next((ring, seam) for ring in plan.work.layer.rings for seam in ring.seams
                      if seam.id == name)  # fmt: skip
    layer = plan.work.layer
    first = plan.work.garment.layers[0].id == layer.id
    title = seam.label if first else f"{layer.label}, {seam.label.lower()}"
    text = [
        ", ".join(filter(None, [title, whose_side])),
        f"between the levels, {words.length(down)} down: {', '.join(said)}",
        "the line passes through this point",
        "Why: the pins",
    ]
    return Step(0, group_of(plan, ring, seam), layer.id, title, side, sentences(text))
