"""What the new lines themselves have to say: too quick a run, a wave, edges that stop matching."""

from core.changes.layer_plan import LayerPlan
from core.changes.seam_line import SeamLine, every, matching_change, too_quick, waves
from core.lengths import SMALLEST_MM
from core.records.garment import CARRY, NOTHING
from core.share.pinned import Point
from core.wording import Words, whose

_MATCH_MM = 3.175
"""A change in how two edges match is told from 1/8 in (3 mm)."""

_STATED_MM = 50.8


def line_cautions(plan: LayerPlan, words: Words) -> list[str]:
    """Return whole sentences on each line that was drawn, once for edges alike."""
    said: dict[str, None] = {}
    heights = {
        plan.work.down(level): label.label.lower()
        for level, label in plan.work.garment.levels.items()
    }
    drawn = {line: (too_quick(line), waves(line)) for line in set(plan.lines.values())}
    alike = dict.fromkeys((seam, side, line) for (seam, side, _), line in plan.lines.items())
    for seam, side, line in alike:
        label = seam_label(plan, seam)
        where = ", ".join(filter(None, [label, whose(side)]))
        quick, waving = drawn[line]
        for first, second in quick:
            said[
                f"{where}: {words.length(second[1] - first[1])} changes over only"
                f" {words.length(second[0] - first[0])}, less than eight times as much; run it out"
                " further or it will poke."
            ] = None
        for down, _ in waving:
            said[
                f"{where}, {heights.get(down, 'between')}: the line would wave here; take that"
                " level again."
            ] = None
        if pinned_beyond(plan, seam, line):
            said[f"{where}: pinned where its run says nothing; sewn as pinned."] = None
    return list(said) + _matching(plan, words)


def pinned_beyond(plan: LayerPlan, seam: str, line: SeamLine) -> bool:
    """Tell whether a line moves at or beyond the level where its run says nothing."""
    for around in plan.work.rounds:
        for own in around.ring.seams:
            if own.id != seam:
                continue
            for downwards in (False, True):
                stop = plan.work.rules.run(own, downwards)
                if stop in (NOTHING, CARRY):
                    continue
                at = plan.work.down(stop)
                end = line.points[-1][0] if downwards else line.points[0][0]
                if (end >= at - SMALLEST_MM) if downwards else (end <= at + SMALLEST_MM):
                    return True
    return False


def _matching(plan: LayerPlan, words: Words) -> list[str]:
    said = []
    two_edged = dict.fromkeys(
        (edge.seam.id, edge.side)
        for around in plan.work.rounds
        for edge in around.edges
        if edge.position == 1
    )
    for seam, side in two_edged:
        first, second = (plan.lines.get((seam, side, position)) for position in (0, 1))
        if first is not None and second is not None and first.points == second.points:
            continue  # two edges alike match as they did
        lines = [line for line in (first, second) if line is not None]
        tops = [down for line in lines for down in (line.points[0][0], line.above)]
        bottoms = [down for line in lines for down in (line.points[-1][0], line.below)]
        top = min((down for down in tops if down is not None), default=0.0)
        bottom = max((down for down in bottoms if down is not None), default=0.0)
        if bottom <= top:
            continue
        change = matching_change(_drawn(first, top, bottom), _drawn(second, top, bottom))
        if abs(change) > _MATCH_MM:
            longer = "second" if change > 0 else "first"
            where = ", ".join(filter(None, [seam_label(plan, seam), whose(side)]))
            said.append(
                f"{where}: its {longer} edge becomes {words.length(change)} longer against"
                " the other; ease it in or check the notches."
            )
    return said


def _drawn(line: SeamLine | None, top: float, bottom: float) -> list[Point]:
    """Return a line as points from top to bottom; an edge that stays is straight."""
    if line is None:
        return [(top, 0.0), (bottom, 0.0)]
    return [*every(line, top, bottom, _STATED_MM / 2), (bottom, line.at(bottom))]


def seam_label(plan: LayerPlan, seam: str) -> str:
    """Return a seam's label, with its layer where that is not the first."""
    label = next(
        own.label for around in plan.work.rounds for own in around.ring.seams if own.id == seam
    )
    if plan.work.garment.layers[0].id == plan.work.layer.id:
        return label
    return f"{plan.work.layer.label}, {label.lower()}"
