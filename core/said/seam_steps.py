"""Seam steps: place, whose side, direction, each level's amount, where it ends."""

from collections.abc import Collection, Sequence
from typing import NamedTuple

from core.changes.layer_plan import Amount, LayerPlan
from core.changes.seam_line import SeamLine
from core.lengths import SMALLEST_MM
from core.records.answer import Side, Source, Step
from core.records.garment import SIDES, Ring, Seam
from core.said.sums import level_sum, told_apart
from core.sewn.rounds import Edge
from core.share.pinned import LineKey
from core.wording import Words, direction, listed, sentences

_STATED_MM = {"in": 50.8, "cm": 50.0, "mm": 50.0}
AGAIN = "shared again, no pin was set for it"
"""Why an amount is what it is where she set others by hand and had the rest shared again."""
_UPPER_ARM = "upper_arm_girth"


class _Spot(NamedTuple):
    """One edge of a seam at one level, with what it does there."""

    number: int
    edge: Edge
    level: str
    amount: Amount


def seam_steps(plan: LayerPlan, words: Words) -> list[Step]:
    """Return a step for each seam that moves; one for each side where they are unlike."""
    steps: list[Step] = []
    found = _spots(plan, words)
    for name in dict.fromkeys(seam.id for ring in plan.work.layer.rings for seam in ring.seams):
        by_side = {side: found[name, side] for side in (None, *SIDES) if (name, side) in found}
        if not by_side:
            continue
        left, right = by_side.get("left", []), by_side.get("right", [])
        if None in by_side:
            steps.append(_seam_step(plan, by_side[None], None, "", words))
        elif left and _shape(left) == _shape(right):
            steps.append(_seam_step(plan, left, None, "both sides alike", words))
        else:
            for side in SIDES:
                if side in by_side:
                    other = "left" if side == "right" else "right"
                    unlike = f"her {side}, and the {side} is not like the {other}"
                    steps.append(_seam_step(plan, by_side[side], side, unlike, words))
    return steps


def _spots(plan: LayerPlan, words: Words) -> dict[tuple[str, Side | None], list[_Spot]]:
    """Return every edge that moves, by seam and side, from top to bottom."""
    found: dict[tuple[str, Side | None], list[_Spot]] = {}
    rounds, levels = plan.work.rounds, plan.work.garment.levels
    for (number, index, level), amount in plan.edges.items():
        if words.shows(amount.move):
            edge = rounds[number].edges[index]
            spot = _Spot(number, edge, level, amount)
            found.setdefault((edge.seam.id, edge.side), []).append(spot)
    for spots in found.values():
        spots.sort(key=lambda spot: (levels[spot.level].down, spot.edge.position))
    return found


def _shape(spots: Sequence[_Spot]) -> list[tuple[str, int, float]]:
    return [(spot.level, spot.edge.position, told_apart(spot.amount.move)) for spot in spots]


def group_of(plan: LayerPlan, ring: Ring, seam: Seam) -> str:
    """Return the moment of the work a seam belongs to."""
    bodies = {plan.work.garment.levels[level].body for level in ring.levels}
    if ring.kind == "closed" and _UPPER_ARM in bodies:
        return "sleeves"
    if ring.kind == "half" and seam.joins_itself:
        return "centre seams and zip"
    if seam.id == ring.side_line:
        return "side seams"
    if "shoulder" in seam.id:
        return "shoulders"
    return "waist seam" if "waist" in seam.id else "princess and gore seams"


def _seam_step(
    plan: LayerPlan, spots: Sequence[_Spot], side: Side | None, sides: str, words: Words
) -> Step:
    seam = spots[0].edge.seam
    ring = plan.work.rounds[spots[0].number].ring
    ways = list(dict.fromkeys(direction(spot.amount.move) for spot in spots))
    alike = _edges_alike(spots)
    edges = "" if seam.joins_itself else _alike_words(plan, ring, spots) if alike else "edges apart"
    how = ", ".join(
        filter(
            None,
            [
                listed([*ways]) if len(ways) == 1 else "",
                edges,
                f"level {_across(ways)} from the old stitching",
            ],
        )
    )
    said = [", ".join(filter(None, [_title(plan, seam), sides])), how]
    said += _amounts(plan, spots, alike, len(ways) > 1, words)
    said += _ends(plan, spots, words)
    basted = baste_only(plan, seam.id, spots[0].edge.side, words)
    said += ["baste only" if basted else "", _inside(plan, spots, words)]
    said.append(f"Why: {_why(plan, spots)}")
    return Step(
        0,
        group_of(plan, ring, seam),
        plan.work.layer.id,
        _title(plan, seam),
        side,
        sentences(said),
        _sums(plan, spots, words),
        line=_between(plan, spots, words),
    )


def baste_only(plan: LayerPlan, seam: str, side: Side | None, words: Words) -> bool:
    """Tell whether a seam waits to be tried on: the tape has a say, or moves it without a pin."""
    if plan.work.lead != "pins":
        return True
    return any(
        amount.source == "tape" and words.shows(amount.move)
        for (number, index, _), amount in plan.edges.items()
        if (edge := plan.work.rounds[number].edges[index]).seam.id == seam and edge.side == side
    )


def _across(ways: Sequence[str]) -> str:
    return "across" if len(ways) > 1 else "in" if ways[0] == "take in" else "out"


def _title(plan: LayerPlan, seam: Seam) -> str:
    first = plan.work.garment.layers[0].id == plan.work.layer.id
    if first or seam.label.lower().startswith(plan.work.layer.label.lower()):
        return seam.label
    return f"{plan.work.layer.label}, {seam.label.lower()}"


def _edges_alike(spots: Sequence[_Spot]) -> bool:
    """Tell whether both edges of the seam move, and move alike, at every level."""
    by_level: dict[tuple[int, str], list[float]] = {}
    for spot in spots:
        by_level.setdefault((spot.number, spot.level), []).append(told_apart(spot.amount.move))
    both = 1 if spots[0].edge.seam.joins_itself else 2
    return all(len(moves) == both and moves[0] == moves[-1] for moves in by_level.values())


def _alike_words(plan: LayerPlan, ring: Ring, spots: Sequence[_Spot]) -> str:
    if spots[0].edge.seam.id == ring.side_line:
        return "front and back alike"
    labels = [ring.piece(name).label.lower() for name in spots[0].edge.seam.joins]
    return f"{listed(labels)} alike"


def _amounts(
    plan: LayerPlan, spots: Sequence[_Spot], alike: bool, mixed: bool, words: Words
) -> list[str]:
    """Return ``Waist 5/8`` for each level, each edge named where they differ."""
    said = []
    by_level: dict[str, list[_Spot]] = {}
    for spot in spots:
        by_level.setdefault(spot.level, []).append(spot)
    for level, here in by_level.items():
        label = plan.work.garment.levels[level].label
        if alike:
            way = f" {direction(here[0].amount.move)}" if mixed else ""
            said.append(f"{label}{way} {words.length(here[0].amount.move)}")
            continue
        ring = plan.work.rounds[here[0].number].ring
        parts = [
            f"{ring.piece(spot.edge.piece).label.lower()}"
            f"{' ' + direction(spot.amount.move) if mixed else ''}"
            f" {words.length(spot.amount.move)}"
            for spot in here
        ]
        said.append(f"{label}, {', '.join(parts)}")
    return said


def _line_of(plan: LayerPlan, spots: Sequence[_Spot]) -> SeamLine | None:
    edge = max(spots, key=lambda spot: abs(spot.amount.move)).edge
    key: LineKey = (edge.seam.id, edge.side, edge.position)
    return plan.lines.get(key)


def _ends(plan: LayerPlan, spots: Sequence[_Spot], words: Words) -> list[str]:
    """Return where the line ends: run out to nothing, or carried to the seam's end."""
    line = _line_of(plan, spots)
    if line is None:
        return []
    said = []
    if line.above is not None:
        said.append(f"run out to nothing at the {_height(plan, line.above, words)}")
    elif line.carries_up:
        said.append(f"the same {words.length(line.points[0][1])} up to the seam's top")
    if line.below is not None:
        name = _height(plan, line.below, words)
        said.append(f"run out to nothing at the {name}; do not go below it")
    elif line.carries_down:
        said.append(f"the same {words.length(line.points[-1][1])} down to the seam's end")
    return said


def _height(plan: LayerPlan, down: float, words: Words) -> str:
    for level in plan.work.garment.levels.values():
        if abs(level.down - down) <= SMALLEST_MM:
            return level.label.lower().partition(",")[0]
    return f"height {words.length(down)} down"


def _inside(plan: LayerPlan, spots: Sequence[_Spot], words: Words) -> str:
    """Return what is left inside where most is moved, and that it is not to be trimmed."""
    most = max(abs(spot.amount.move) for spot in spots)
    spot = min(
        (spot for spot in spots if abs(spot.amount.move) > most - SMALLEST_MM),
        key=lambda spot: spot.edge.allowance[spot.level] - spot.amount.move,
    )
    left = spot.edge.allowance[spot.level] - spot.amount.move
    label = plan.work.garment.levels[spot.level].label.lower()
    return f"leaves {words.length(max(left, 0.0))} inside at the {label}: do not trim"


def _why(plan: LayerPlan, spots: Sequence[_Spot]) -> str:
    """Return who asked for these moves; where she set some by hand, at which levels."""
    hers = [spot.level for spot in spots if spot.amount.source == "hand"]
    rest = {spot.amount.source for spot in spots if spot.amount.source != "hand"}
    labels = [plan.work.garment.levels[level].label.lower() for level in dict.fromkeys(hers)]
    asked = _asked_by(rest, again=plan.before is not None and plan.work.lead == "pins")
    if not hers:
        return asked
    by_hand = f"set by hand at the {listed(labels)}"
    return f"{asked}; {by_hand}" if rest else by_hand


def _asked_by(sources: Collection[Source], *, again: bool) -> str:
    pinned, shared = "pins" in sources, "tape" in sources
    if shared and again:
        return f"{'the pins; ' if pinned else ''}{AGAIN}"
    if pinned and shared:
        return "the pins, and what they left over (no pin was set for that)"
    return "the pins" if pinned else "the tape" if shared else "carried on"


def _sums(plan: LayerPlan, spots: Sequence[_Spot], words: Words) -> str:
    """Return the sum of each level this seam moves at."""
    seen = dict.fromkeys((spot.number, spot.level) for spot in spots)
    sums = (level_sum(plan, number, level, words) for number, level in seen)
    return " | ".join(filter(None, sums))


def _between(plan: LayerPlan, spots: Sequence[_Spot], words: Words) -> str:
    """Return the amounts between the levels, every 2 in or 50 mm down."""
    line = _line_of(plan, spots)
    if line is None:
        return ""
    top = line.points[0][0] if line.above is None else line.above
    bottom = line.points[-1][0] if line.below is None else line.below
    apart, said = _STATED_MM[words.unit], []
    down = top + apart
    while down < bottom - SMALLEST_MM:
        move = line.at(down)
        if words.shows(move):
            way = "in" if move < 0 else "out"
            said.append(f"{way} {words.length(move)} at {words.length(down)} down")
        down += apart
    return "; ".join(said)
