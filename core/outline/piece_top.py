"""The top edge of each pattern piece above its first level, and what is to be said of it.

Where the draft says how long the armhole or the cap is sewn, a simple shape of that length is
drawn, as a picture; elsewhere the top is a plain line.
"""

from collections.abc import Sequence
from dataclasses import dataclass

from core.curves import Point
from core.draft.sums import said
from core.lengths import SMALLEST_MM, Unit
from core.outline.piece_edges import PieceEdges, is_before_side
from core.outline.top_shapes import blocks, cap, part_of, underarm_for
from core.records.garment import Garment, Layer, Ring

ALONE_MM = 60.0
"""A piece with a single level is drawn so far above and below it: its depth is not known."""

_TOP_MM = 1.0
_LARGEST_DROP_MM = 25.0
"""A garment that begins further below the neck has no shoulder to draw."""


@dataclass(frozen=True, slots=True)
class Top:
    """The top edge of a piece from its front edge to its back edge, and what is said of it."""

    points: tuple[Point, ...]
    note: str = ""


def tops_of(
    garment: Garment, layer: Layer, ring: Ring, pieces: Sequence[PieceEdges], unit: Unit
) -> list[Top]:
    """Return the top of each piece of a ring, in its order; what is said is in ``unit``."""
    shaped = _shaped(garment, ring, pieces, unit)
    return shaped or [_top(garment, layer, ring, one, unit) for one in pieces]


def ring_above(garment: Garment, layer: Layer, ring: Ring) -> Ring | None:
    """Return the ring that this one goes on from: round the body, ending above where it begins."""
    if not ring.levels:
        return None
    begins = garment.levels[ring.levels[0]].down
    above = [(garment.levels[one.levels[-1]].down, one) for one in layer.rings
             if one is not ring and one.kind == "half" and one.levels
             and garment.levels[one.levels[-1]].down <= begins + SMALLEST_MM]  # fmt: skip
    return max(above, key=lambda found: found[0])[1] if above else None


def piece_above(above: Ring, ring: Ring, piece: str) -> str:
    """Return the id of the piece of the ring above that a piece goes on from, by its place."""
    at = [one.id for one in ring.pieces].index(piece)
    return above.pieces[min(at, len(above.pieces) - 1)].id if above.pieces else ""


def sewn_mm(garment: Garment, word: str) -> float | None:
    """Return how long a line with this word in its id is sewn, the mean of both sides (mm)."""
    found = [line.sewn for line in garment.lines if word in line.id.split("_") and line.sewn]
    return sum(found[0]) / 2 if found else None


def _top(
    garment: Garment, layer: Layer, ring: Ring, edges: PieceEdges, unit: Unit
) -> Top:  # fmt: skip
    first = edges.first
    label = first.level.label.lower().partition(",")[0]
    length = sewn_mm(garment, "cap")
    if ring.kind == "closed" and len(ring.pieces) == 1 and length is not None:
        points = cap(first.back - first.front, first.front_y, length)
        middle = (first.front + first.back) / 2
        return Top(tuple((middle + x, y) for x, y in points),
                   f"Above the {label} only a picture: cap {said(length, unit)}")  # fmt: skip
    if len(edges.crossings) == 1:
        return Top(_plain(edges, first.front_y - ALONE_MM), "Its depth is not drafted")
    above = ring_above(garment, layer, ring)
    if above is not None and above.pieces:
        label = above.piece(piece_above(above, ring, edges.piece.id)).label.lower()
        return Top(_along(edges), f"Goes on from the {label}: what lies between is not drafted")
    if first.level.down <= _TOP_MM:
        return Top(_along(edges))
    return Top(_plain(edges, 0.0), f"Above the {label} only a plain line: not drafted")


def _along(edges: PieceEdges) -> tuple[Point, ...]:
    """Return the first level itself as the top edge."""
    first = edges.first
    return (first.front, first.front_y), (first.back, first.back_y)


def _plain(edges: PieceEdges, y: float) -> tuple[Point, ...]:
    first = edges.first
    return (first.front, y), (first.back, y)


def _shaped(
    garment: Garment, ring: Ring, pieces: Sequence[PieceEdges], unit: Unit
) -> list[Top]:  # fmt: skip
    """Return neck, shoulder and armhole, cut where the panels are; nothing where not known."""
    length = sewn_mm(garment, "armhole")
    halves = ([one for one in pieces if is_before_side(ring, one.piece)],
              [one for one in reversed(pieces) if not is_before_side(ring, one.piece)])  # fmt: skip
    down = pieces[0].first.level.down if pieces else 0.0
    alike = {one.first.level.id for one in pieces}
    if (length is None or ring.kind != "half" or not all(halves) or len(alike) > 1
            or garment.drop > _LARGEST_DROP_MM or down <= _TOP_MM):  # fmt: skip
        return []
    spans = [[one.first.back - one.first.front for one in half] for half in halves]
    both = blocks(sum(spans[0]), sum(spans[1]), down, sewn_mm(garment, "shoulder"))
    underarm = underarm_for(both, length)
    label = pieces[0].first.level.label.lower().partition(",")[0]
    note = f"Above the {label} only a picture: armhole {said(length, unit)}"
    tops = [Top(points, note)
            for block, half, widths in zip(both, halves, spans, strict=True)
            for points in _cut_up(block.path(underarm), half, widths, is_front=block.is_front)]
    fronts = len(halves[0])
    return [*tops[:fronts], *reversed(tops[fronts:])]


def _cut_up(
    path: Sequence[Point], half: Sequence[PieceEdges], widths: Sequence[float], *, is_front: bool
) -> list[tuple[Point, ...]]:
    """Return a half's top edge cut where its panels meet, each in its own piece's x."""
    found = []
    start = 0.0
    for at, (edges, width) in enumerate(zip(half, widths, strict=True)):
        end = None if at == len(half) - 1 else start + width
        points = part_of(path, start, end)
        if is_front:
            found.append(tuple((edges.first.front + x - start, y) for x, y in points))
        else:
            mirrored = ((edges.first.back - (x - start), y) for x, y in reversed(points))
            found.append(tuple(mirrored))
        start += width
    return found
