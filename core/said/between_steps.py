"""Steps for pins that stand between the levels, where no level's amount would tell of them."""

from collections.abc import Sequence

from core.changes.layer_plan import Amount, LayerPlan
from core.lengths import SMALLEST_MM
from core.records.answer import Side, Step
from core.said.seam_steps import group_of
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
    for (number, index, down), amount in plan.between.items():
        around = plan.work.rounds[number]
        edge = around.edges[index]
        if words.shows(amount.exact):
            label = around.ring.piece(edge.piece).label.lower()
            said = found.setdefault((edge.seam.id, down), {}).setdefault(edge.side, [])
            said.append(f"{label} {_amount(amount, words)}")
    return found


def _amount(amount: Amount, words: Words) -> str:
    said = f"{direction(amount.exact)} {words.length(amount.exact)}"
    lacks = amount.exact - amount.move
    if lacks > SMALLEST_MM:
        said += f", but the cloth gives {words.length(amount.move)}"
        said += f"; {words.length(lacks)} is missing"
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
