"""Reading a garment's shape between its levels: allowances and dart take-ups."""

from collections.abc import Mapping, Sequence
from itertools import pairwise

from core.records.garment import Dart, Garment, Level, Pair, Ring, Seam


def allowance_at(garment: Garment, ring: Ring, seam: Seam, piece: str, level: str) -> float | None:
    """Return the drafted allowance (mm) of one edge, read off straight between named levels."""
    downs = [(name, garment.levels[name].down) for name in ring.levels]
    return seam.allowance.between(piece, level, downs)


def take_up_at(dart: Dart, levels: Mapping[str, Level], level: str) -> Pair:
    """Return a dart's take-up (mm) at a level for left and right.

    A given value wins; between ends and given levels it is read off straight;
    beyond the ends, or without them, there is none.
    """
    if level in dart.take_up:
        return dart.take_up[level]
    if dart.top is None or dart.point is None:
        return 0.0, 0.0
    here = levels[level].down
    if not dart.top < here < dart.point:
        return 0.0, 0.0
    given = sorted((levels[name].down, pair) for name, pair in dart.take_up.items())
    corners = [(dart.top, (0.0, 0.0))] * (not given or given[0][0] > dart.top)
    corners += given
    corners += [(dart.point, (0.0, 0.0))] * (not given or given[-1][0] < dart.point)
    return (
        _straight([(down, pair[0]) for down, pair in corners], here),
        _straight([(down, pair[1]) for down, pair in corners], here),
    )


def _straight(corners: Sequence[tuple[float, float]], here: float) -> float:
    for (top, first), (bottom, last) in pairwise(corners):
        if top <= here <= bottom:
            return (
                first if top == bottom else first + (last - first) * (here - top) / (bottom - top)
            )
    return 0.0
