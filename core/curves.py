"""The smooth line through a few points that never overshoots them.

A seam's move between its pins, and between its levels, follows this line: a
piecewise cubic that rises only where the points rise and falls only where they fall.
"""

from bisect import bisect_right
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import pairwise
from math import dist

from core.errors import WorkroomError

Point = tuple[float, float]


class NoLine(WorkroomError):
    """No line goes through these points: there is none, or two share a place."""


@dataclass(frozen=True, slots=True)
class Curve:
    """A smooth line through points, its slopes worked out once.

    ``xs`` rise strictly; ``ys`` and ``slopes`` go with them.  Any unit will do as
    long as x and y are in the same one; the core uses millimetres.
    """

    xs: tuple[float, ...]
    ys: tuple[float, ...]
    slopes: tuple[float, ...]

    def at(self, x: float) -> float:
        """Return y at ``x``; before the first and beyond the last point, that point's y.

        Holding the end value is the least that can be said there.  Where a seam
        runs out or carries on, its ``run`` decides, and the caller asks no
        further than the last point.
        """
        xs, ys = self.xs, self.ys
        if x <= xs[0]:
            return ys[0]
        if x >= xs[-1]:
            return ys[-1]
        i = bisect_right(xs, x) - 1
        return _between(x - xs[i], xs[i + 1] - xs[i], ys[i : i + 2], self.slopes[i : i + 2])


def smooth(points: Sequence[Point]) -> Curve:
    """Return the smooth line through ``points`` (x, y), given in any order.

    Slopes inside are the weighted harmonic mean of the two neighbouring chords, and
    nothing at a peak or a dip (Fritsch and Butland 1984, Brodlie's weights); end slopes
    are the three-point formula kept monotone.  One point gives its own y everywhere,
    two a straight line.  Raises ``NoLine`` for no points or two at the same x.

    >>> smooth([(0, 0), (10, 4)]).at(5)
    2.0
    """
    if not points:
        raise NoLine("A line needs at least one point")
    xs, ys = zip(*sorted(points), strict=True)
    for before, after in pairwise(xs):
        if before == after:
            raise NoLine(f"Two points share the place {before:g}: a line can pass one only")
    return Curve(xs, ys, _slopes(xs, ys))


def polyline_length(points: Iterable[Point]) -> float:
    """Return the length of the broken line through ``points``, in their unit.

    None or one point has no length.

    >>> polyline_length([(0, 0), (3, 4), (3, 10)])
    11.0
    """
    return sum((dist(start, end) for start, end in pairwise(points)), 0.0)


def _slopes(xs: tuple[float, ...], ys: tuple[float, ...]) -> tuple[float, ...]:
    if len(xs) == 1:
        return (0.0,)
    steps = [after - before for before, after in pairwise(xs)]
    chords = [(after - before) / h for (before, after), h in zip(pairwise(ys), steps, strict=True)]
    if len(chords) == 1:
        return (chords[0], chords[0])
    inside = [
        _inside(h0, h1, m0, m1)
        for (h0, h1), (m0, m1) in zip(pairwise(steps), pairwise(chords), strict=True)
    ]
    first = _end(steps[0], steps[1], chords[0], chords[1])
    last = _end(steps[-1], steps[-2], chords[-1], chords[-2])
    return (first, *inside, last)


def _inside(h0: float, h1: float, m0: float, m1: float) -> float:
    if not _same_way(m0, m1):
        return 0.0
    w0, w1 = h0 + 2 * h1, 2 * h0 + h1
    return (w0 + w1) / (w0 / m0 + w1 / m1)


def _end(h0: float, h1: float, m0: float, m1: float) -> float:
    slope = ((2 * h0 + h1) * m0 - h0 * m1) / (h0 + h1)
    if not _same_way(slope, m0):
        return 0.0
    if not _same_way(m0, m1) and abs(slope) > 3 * abs(m0):
        return 3 * m0
    return slope


def _same_way(a: float, b: float) -> bool:
    return (a > 0 and b > 0) or (a < 0 and b < 0)


def _between(along: float, step: float, ys: Sequence[float], slopes: Sequence[float]) -> float:
    t = along / step
    rest = 1 - t
    y = (
        ys[0] * (1 + 2 * t) * rest * rest
        + slopes[0] * step * t * rest * rest
        + ys[1] * t * t * (3 - 2 * t)
        - slopes[1] * step * t * t * rest
    )
    low, high = min(ys), max(ys)
    return min(max(y, low), high)  # the machine's rounding must not overshoot either
