"""The tape as lines of a picture: round a section, along the body, down to the floor.

Millimetres of the picture, as in ``core.figure.figure``.  A line is told for her left, as seen from
the front (x towards her left) or from the side (z forward); ``seen`` turns it for a view.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from math import cos, dist, hypot, pi, sin

from core.curves import Point
from core.figure.figure import Pose, View

Polyline = tuple[Point, ...]

TAPE_MM = 20.0
"""How wide the tape is drawn."""
TICK_MM = 22.0
"""How far apart its ticks are."""
TILT = 0.2
"""How much lower the near half of a round is drawn: she is seen a little from above."""
_POINTS = 48


@dataclass(frozen=True, slots=True)
class TapeOnFigure:
    """Where the tape goes, on the figure seen from ``view`` in ``pose``.

    ``near`` is the tape before the body: a solid band ``TAPE_MM`` wide, with ``ticks`` across
    it; ``far`` is behind the body, a broken line.  ``ends`` are where a measurement begins and
    ends (a whole round has none).  ``leaders`` are thin lines to what it is taken from or to: a
    level, the floor, the top of the head.
    """

    view: View
    pose: Pose
    near: tuple[Polyline, ...]
    far: tuple[Polyline, ...] = ()
    ticks: tuple[tuple[Point, Point], ...] = ()
    ends: tuple[Point, ...] = ()
    leaders: tuple[Polyline, ...] = ()


def side_view(side: int) -> View:
    """Return the view of one side: 1 her left, -1 her right."""
    return "left" if side > 0 else "right"


def seen(points: Sequence[Point], view: View, side: int) -> Polyline:
    """Return points told for her left as they are seen on a side.

    From behind her left is at the left; from her left she looks to the left.
    """
    turn = side if view == "front" else -side
    return tuple((turn * x, y) for x, y in points)


def along(
    points: Sequence[Point], side: int, view: View, *,
    pose: Pose = "standing", leaders: Sequence[Sequence[Point]] = (),
) -> TapeOnFigure:  # fmt: skip
    """Return the tape laid along a line, with both its ends."""
    line = seen(points, view, side)
    thin = tuple(seen(one, view, side) for one in leaders)
    return TapeOnFigure(view, pose, (line,), (), ticks_along(line), (line[0], line[-1]), thin)


def around(
    near: Sequence[Point], far: Sequence[Point], side: int, view: View, *, pose: Pose = "standing"
) -> TapeOnFigure:
    """Return the tape laid round: the near half a band, the far half broken."""
    line = seen(near, view, side)
    behind = (seen(far, view, side),) if far else ()
    return TapeOnFigure(view, pose, (line,), behind, ticks_along(line))


def ellipse(
    middle: Point, half: float, deep: float, turned: float = 0.0
) -> tuple[Polyline, Polyline]:  # fmt: skip
    """Return the near and the far half of a round: an ellipse ``turned`` by an angle (radians).

    Both go from left to right; ``deep`` is how far the near half hangs below the middle.
    """

    def point(angle: float) -> Point:
        x, y = -half * cos(angle), deep * sin(angle)
        return (middle[0] + x * cos(turned) - y * sin(turned),
                middle[1] + x * sin(turned) + y * cos(turned))  # fmt: skip

    near = tuple(point(pi * step / _POINTS) for step in range(_POINTS + 1))
    far = tuple(point(-pi * step / _POINTS) for step in range(_POINTS + 1))
    return near, far


def ticks_along(line: Sequence[Point]) -> tuple[tuple[Point, Point], ...]:
    """Return short lines across the tape, evenly along it, none at its very ends."""
    whole = sum(dist(a, b) for a, b in pairwise(line))
    count = max(1, round(whole / TICK_MM))
    wanted = [whole * at / count for at in range(1, count)]
    found: list[tuple[Point, Point]] = []
    gone = 0.0
    for start, end in pairwise(line):
        step = dist(start, end)
        while wanted and step > 0 and gone + step >= wanted[0]:
            found.append(_across(start, end, (wanted.pop(0) - gone) / step))
        gone += step
    return tuple(found)


def _across(start: Point, end: Point, share: float) -> tuple[Point, Point]:
    """Return a line across the tape, at a share of the way from start to end."""
    (x0, y0), (x1, y1) = start, end
    long = hypot(x1 - x0, y1 - y0)
    x, y = x0 + (x1 - x0) * share, y0 + (y1 - y0) * share
    right, down = -(y1 - y0) / long * TAPE_MM / 2, (x1 - x0) / long * TAPE_MM / 2
    return (x - right, y - down), (x + right, y + down)
