"""What of a garment lies on the trunk: its outline, its seams and darts, from both faces."""

from collections.abc import Iterator, Mapping

from core.curves import Curve, smooth
from core.figure import standard_body as her
from core.fit.faces import LineOnHer, Spot, read_straight
from core.fit.round_her import Named, RoundOnHer, lines_round
from core.fit.shares import Turns, girths_of
from core.records.garment import SIDES, Dart, Garment, Piece, Ring

TOP = her.SHOULDER + 4
"""No garment is drawn higher than this: necks and collars are none of the pins' business."""

OFF_BODY = 1.06
"""How much wider than the body the garment is drawn, so that it is seen to lie over it."""


def round_of_trunk(
    garment: Garment, ring: Ring, heights: Mapping[str, float], *, over_legs: bool
) -> RoundOnHer:
    """Return how a ring lies on the trunk; ``over_legs``: it goes on into legs at the fork."""
    shown = [level for level in ring.levels if level in heights]
    first = garment.levels[shown[0]]
    top = min(heights[shown[0]], max(heights[shown[0]] - first.down, TOP))
    half = _half_widths(garment, ring, heights, top)
    low = heights[shown[-1]]
    bottom = max(low, her.CROTCH) if over_legs else low
    sides = SIDES if ring.kind == "half" else ("both",)
    return RoundOnHer(half.at, lambda y: -half.at(y), top, bottom, sides)  # type: ignore[arg-type]


def outline(around: RoundOnHer) -> tuple[Spot, ...]:
    """Return the outline of a round of the trunk, closed by its mirror."""
    count = max(2, round((around.bottom - around.top) / 12))
    ys = [around.top + (around.bottom - around.top) * at / count for at in range(count + 1)]
    edge = [(around.outer(y), y) for y in ys]
    return (*edge, *((-x, y) for x, y in reversed(edge)))


def ring_lines(
    garment: Garment, layer: str, ring: Ring, around: RoundOnHer, heights: Mapping[str, float],
    turns: Turns,
) -> Iterator[LineOnHer]:  # fmt: skip
    """Yield the seams and darts of a ring where they lie on its round."""
    for seam in ring.seams:
        is_side = seam.id == ring.side_line and ring.kind == "half"
        reach = max(around.top, her.ARMPIT) if is_side else around.top
        at = turns.of_seam(seam)
        ends = (around.bottom,) if ring.levels[-1] in at else ()
        named = Named("seam", seam.id, layer, seam.label, ends, reach)
        yield from lines_round(named, around, at, heights)
    for piece in ring.pieces:
        for number, dart in enumerate(piece.darts):
            yield from _dart_lines(garment, layer, piece, dart, number, around, heights,
                                   turns.pieces)  # fmt: skip


def _dart_lines(
    garment: Garment, layer: str, piece: Piece, dart: Dart, number: int, around: RoundOnHer,
    heights: Mapping[str, float], turns: Mapping[str, Mapping[str, Spot]],
) -> Iterator[LineOnHer]:  # fmt: skip
    part = (number + 1) / (len(piece.darts) + 1)
    at = {}
    for level in dart.take_up:
        if level in turns and piece.id in turns[level]:
            first, last = turns[level][piece.id]
            at[level] = first + (last - first) * part
    downs = sorted((level.down, heights[name]) for name, level in garment.levels.items())
    ends = tuple(read_straight(end, downs) for end in (dart.top, dart.point) if end is not None)
    named = Named("dart", dart.id, layer, dart.label, ends)
    yield from lines_round(named, around, at, heights)


def _half_widths(
    garment: Garment, ring: Ring, heights: Mapping[str, float], top: float
) -> Curve:  # fmt: skip
    """Return half the garment's width over y: by the body down to the hip, below by its rounds."""
    body, girths = her.trunk_width(), girths_of(garment, ring)
    lowest = her.TRUNK["hip"].half_width
    points: dict[float, float] = {top: body.at(top) * OFF_BODY}
    fullest = girths.get("hip") or max(girths.values(), default=1.0) or 1.0
    for level in ring.levels:
        y = heights[level]
        share = girths.get(level, fullest) / fullest
        points[y] = (body.at(y) if y <= her.HIP else lowest * _hanging(share)) * OFF_BODY
    return smooth(sorted(points.items()))


def _hanging(share: float) -> float:
    """Return how wide a round hangs beside the fullest hip: of what it is wider half shows."""
    return 1 + (share - 1) / 2 if share > 1 else max(share, 0.35)


__all__ = ["OFF_BODY", "outline", "ring_lines", "round_of_trunk"]
