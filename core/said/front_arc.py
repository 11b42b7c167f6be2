"""The front against its own arc: a full bust with a narrow back agrees only in the round."""

from core.changes.layer_plan import LayerPlan
from core.file.checking import net_width
from core.lengths import SMALLEST_MM
from core.wording import Words


def front_arc_cautions(plan: LayerPlan, words: Words) -> list[str]:
    """Return a caution for each level whose front is outside the band of its own arc.

    The front's own ``wanted = front arc + ease / 2``; as sewn is the draft's front and the moves
    sewn since on the front's edges.
    """
    work, said = plan.work, []
    if work.garment.layers[0].id != work.layer.id:
        return []
    for number, around in enumerate(work.rounds):
        fronts = tuple(piece.id for piece in around.ring.front_pieces())
        for level, wanted in work.wanted[number].items():
            arc = work.arcs.get(work.garment.levels[level].front_arc)
            if arc is None or not fronts or wanted.body is None:
                continue
            needed = arc + wanted.ease / 2 - _front_as_sewn(plan, number, level, fronts)
            if abs(needed) > work.settings.band + SMALLEST_MM:
                label = work.garment.levels[level].label
                loose = "loose" if needed < 0 else "tight"
                said.append(
                    f"{label}: the front alone is {words.length(needed)} {loose} against"
                    " its own arc, whatever the round says."
                )
    return said


def _front_as_sewn(plan: LayerPlan, number: int, level: str, fronts: tuple[str, ...]) -> float:
    """Return the front from side line to side line in mm: as drafted, and what was sewn since.

    Where the side seam is set forward of the side line, the front is that much wider.
    """
    work, around = plan.work, plan.work.rounds[number]
    ring = around.ring
    width = sum(
        net_width(work.garment, ring, ring.piece(name), level, half)
        for name in fronts
        for half in (0, 1)
    )
    width += 2 * work.rules.side_set_forward(ring)
    for edge in around.edges:
        if edge.piece in fronts and level in edge.levels:
            width += edge.count * edge.moved.get(level, 0.0)
    for dart in around.darts:
        if dart.piece in fronts:
            width += 2 * dart.moved.get(level, 0.0)
    return width
