"""What the cloth lacks at pins that stand between the levels, told with the ways out."""

from collections.abc import Sequence

from core.changes.between_levels import missing_at
from core.changes.layer_plan import LayerPlan
from core.lengths import SMALLEST_MM
from core.said.line_cautions import seam_label
from core.said.shortages import ways_out
from core.wording import Words, listed, whose


def between_cautions(plans: Sequence[LayerPlan], words: Words) -> list[str]:
    """Return for each seam and height what is short, then each side's edges that were cut."""
    said: list[str] = []
    for plan in plans:
        for number in range(len(plan.work.rounds)):
            said += _shortages(plan, number, words)
        said += _cut(plan, words)
    return list(dict.fromkeys(said))


def _shortages(plan: LayerPlan, number: int, words: Words) -> list[str]:
    around = plan.work.rounds[number]
    said = []
    for (seam, down), short in missing_at(plan, number).items():
        where = ", ".join(filter(None, [seam_label(plan, seam), whose(around.side)]))
        level = min(around.ring.levels, key=lambda name: abs(plan.work.down(name) - down))
        outs = listed(ways_out(plan, number, level, short, words), "or")
        said.append(
            f"{where}, {words.length(down)} down: {words.length(short)} short to let out; {outs}."
        )
    return said


def _cut(plan: LayerPlan, words: Words) -> list[str]:
    said = []
    for (number, index, down), amount in plan.between.items():
        edge, lacks = plan.work.rounds[number].edges[index], amount.exact - amount.move
        if lacks > SMALLEST_MM:
            where = ", ".join(filter(None, [seam_label(plan, edge.seam.id), whose(edge.side)]))
            said.append(
                f"{where}, {words.length(down)} down: pinned {words.length(amount.exact)} an edge,"
                f" the cloth gives {words.length(amount.move)}; {words.length(lacks)} an edge is"
                " missing."
            )
    return said
