"""What follows from the moves: joined parts, lines, sleeves, inserts, zip, tucks, hem."""

import math
from collections.abc import Sequence

from core.changes.layer_plan import LayerPlan
from core.changes.plan_levels import ease_as_pinned, levels_of
from core.draft.circles import cut_down_mm, wedge
from core.lengths import SMALLEST_MM
from core.records.answer import Consequence
from core.records.fitting import Fitting
from core.records.garment import Garment, Insert, Joined
from core.said.hem import hem_follows
from core.said.lines import layer_of, line_follows, sleeves_follow
from core.said.tucks import tucks_follow
from core.sewn.compare import Body
from core.wording import Words, listed, moved, sentence, whose


def what_follows(
    plans: Sequence[LayerPlan], garment: Garment, fitting: Fitting | None, body: Body, words: Words
) -> tuple[Consequence, ...]:
    """Return everything the moves bring with them, in the order it is met."""
    found: list[Consequence] = []
    if not plans:
        return ()
    for part in garment.joined:
        found += _joined(part, plans, words)
    for line in garment.lines:
        found += line_follows(line, plans, body, words)
    found += sleeves_follow(plans, garment, words)
    for insert in garment.inserts:
        found += _insert(insert, plans, words)
    for plan in plans:
        found += _zips(plan, words)
    if fitting is not None:
        found += tucks_follow(garment, fitting, words)
        found += hem_follows(garment, fitting, words)
        found += _ease_as_pinned(plans[0], words)
    return tuple(found)


def _joined(part: Joined, plans: Sequence[LayerPlan], words: Words) -> list[Consequence]:
    """A joined part's edge follows the new girth, times its fullness."""
    plan = layer_of(plans, part.layer)
    if plan is None:
        return []
    found = []
    for number, around in enumerate(plan.work.rounds):
        change = (
            plan.planned(number, part.level) * part.fullness
            if around.ring.id == part.ring and part.level in around.sewn
            else 0.0
        )
        if abs(change) > SMALLEST_MM:
            label = ", ".join(filter(None, [part.label, whose(around.side)]))
            found.append(
                Consequence(
                    part.id,
                    change,
                    _joined_text(part, label, change, around.as_sewn(part.level), words),
                )
            )
    return found


def _joined_text(part: Joined, label: str, change: float, girth: float, words: Words) -> str:
    longer = "longer" if change > 0 else "shorter"
    said = f"{label}: {words.length(change)} {longer}, like the edge it is joined to"
    turns = part.turns
    if turns is None and part.inner_radius:
        turns = girth * part.fullness / (2 * math.pi * part.inner_radius)
    if not turns:
        return sentence(said)
    if change > 0:
        down = words.length(cut_down_mm(change, turns))
        return sentence(f"{said}: cut its inner edge down by {down} all round")
    radius = part.inner_radius or girth * part.fullness / (2 * math.pi * turns)
    taken = wedge(-change, radius, part.depth)
    return sentence(
        f"{said}: it can only shrink by a wedge out of its seams,"
        f" {words.length(taken.top_mm)} at the top and {words.length(taken.bottom_mm)}"
        " at the bottom"
    )


def _insert(insert: Insert, plans: Sequence[LayerPlan], words: Words) -> list[Consequence]:
    """If the seam moves at a godet its point moves; what differs inside is trimmed."""
    plan = layer_of(plans, insert.layer)
    if plan is None or insert.seam not in plan.opened():
        return []
    points: dict[float, list[str]] = {}
    inside: set[float] = set()
    for number, around in enumerate(plan.work.rounds):
        for index, edge in enumerate(around.edges):
            if edge.seam.id == insert.seam and insert.level in edge.levels:
                amount = plan.edges.get((number, index, insert.level))
                move = amount.move if amount else 0.0
                points.setdefault(round(move, 4), []).append(whose(edge.side))
                inside.add(round(edge.allowance[insert.level] - move, 4))
    said = [
        f"its point moves {words.length(move)} {'in' if move < 0 else 'out'}"
        + (f", {listed(sides)}" if (sides := sorted(set(filter(None, points[move])))) else "")
        for move in points
        if abs(move) > SMALLEST_MM
    ]
    if insert.allowance is not None:
        said += [
            f"its seam has {words.length(width)}, to be trimmed to"
            f" {words.length(insert.allowance)} along it once she has tried it on"
            for width in sorted(inside)
            if width > insert.allowance + SMALLEST_MM
        ]
    if not said:
        return []
    change = max(points, key=abs)
    return [Consequence(insert.id, change, sentence(f"{insert.label}: {listed(said)}"))]


def _zips(plan: LayerPlan, words: Words) -> list[Consequence]:
    """A moved zip seam comes out and goes back in."""
    found = []
    seams = {seam.id: seam for ring in plan.work.layer.rings for seam in ring.seams if seam.zip}
    for name in plan.opened():
        if name in seams:
            moves = [
                amount.move
                for (number, index, _), amount in plan.edges.items()
                if plan.work.rounds[number].edges[index].seam.id == name
            ]
            largest = max(moves, key=abs, default=0.0)  # none where it is pinned between levels
            text = f"Zip in the {seams[name].label.lower()}: comes out and goes back in"
            if moves:
                text += f"; the seam is {moved(largest)} {words.length(largest)} an edge at most"
            found.append(Consequence("zip", largest, sentence(text)))
    return found


def _ease_as_pinned(plan: LayerPlan, words: Words) -> list[Consequence]:
    """After any fitting, after pins - body is offered as this client's ease for next time."""
    said = [
        f"{plan.work.garment.levels[level].label.lower()} {words.signed(ease)}"
        for level, ease in ease_as_pinned(levels_of(plan, words), words).items()
    ]
    if not said:
        return []
    return [Consequence("ease", 0.0, sentence(f"Ease as pinned, for next time: {', '.join(said)}"))]
