"""Worn inside out: the seam allowances and the folds of darts lie outside, as bands beside them.

A band is as wide as the allowance (mm), drawn across the line: at the edge of the round it
stands off her, elsewhere it lies open to both sides.  A dart's fold lies towards the middle.
"""

from collections.abc import Iterator, Mapping

from core.fit.faces import Band, Face, LineOnHer, Spot, read_level
from core.fit.shares import Turns
from core.records.answer import Side
from core.records.garment import Dart, Garment, Piece, Ring, Seam
from core.sewn.shape import allowance_at

_ON_HER: dict[Side, Side] = {"left": "right", "right": "left"}


def garments_side(side: Side, inside_out: bool) -> Side:
    """Return which side of the garment lies on a side of hers."""
    return _ON_HER[side] if inside_out else side


def bands(
    garment: Garment, turns: Turns, lines: tuple[LineOnHer, ...], heights: Mapping[str, float]
) -> Iterator[tuple[Face, Band]]:
    """Yield the bands of a ring's lines, each with the face it is seen on."""
    ring = turns.ring
    for line in lines:
        if line.what == "dart":
            piece, dart = next((piece, dart) for piece in ring.pieces for dart in piece.darts
                               if dart.id == line.place)  # fmt: skip
            yield line.face, _fold(line, _take_ups(piece, dart, heights))
        elif (seam := ring.seam(line.place)) is not None:
            yield from ((line.face, band) for band in _allowances(garment, turns, seam, line,
                                                                  heights))  # fmt: skip


def _allowances(
    garment: Garment, turns: Turns, seam: Seam, line: LineOnHer, heights: Mapping[str, float]
) -> Iterator[Band]:
    before, after = (_widths(garment, turns.ring, seam, piece, heights)
                     for piece in turns.sides_of(seam))  # fmt: skip
    in_front = line.face == "front"
    out = 1.0 if line.side != "right" else -1.0
    if line.edge > 0:
        yield _beside(line, before if in_front else after, out)
    elif line.edge < 0:
        yield _beside(line, after if in_front else before, out)
    else:
        outer, inner = (after, before) if in_front else (before, after)
        yield _beside(line, outer, out)
        yield _beside(line, inner, -out)


def _widths(
    garment: Garment, ring: Ring, seam: Seam, piece: Piece, heights: Mapping[str, float]
) -> list[Spot]:
    """Return how wide an edge's allowance is (mm) over y."""
    return sorted(
        (heights[level], allowance_at(garment, ring, seam, piece.id, level) or 0.0)
        for level in ring.levels_of(seam)
    )


def _take_ups(piece: Piece, dart: Dart, heights: Mapping[str, float]) -> list[Spot]:
    """Return how wide a dart's fold stands (mm) over y: half of what it takes up."""
    return sorted(
        (heights[level], sum(pair) / 4)
        for level, pair in dart.take_up.items()
        if level in heights and level in piece.width
    )


def _fold(line: LineOnHer, widths: list[Spot]) -> Band:
    (_, top), (_, bottom) = line.points[0], line.points[-1]
    ends = [(top, 0.0), *(one for one in widths if top < one[0] < bottom), (bottom, 0.0)]
    return _beside(line, ends, 1.0 if line.side == "right" else -1.0)


def _beside(line: LineOnHer, widths: list[Spot], way: float) -> Band:
    """Return a band beside a line: ``way`` 1 towards her left."""
    moved = tuple((x + way * read_level(y, widths), y) for x, y in line.points)
    return line.points, moved
