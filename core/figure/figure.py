"""The neutral figure for the tape: standing from four sides, stepping, sitting, in a heel.

Closed outlines in millimetres of the picture: y down from the crown, x to the viewer's right.
From the front her left is at the right, from behind at the left; from her left she looks to the
left.  Draw every outline of ``body`` first and every area over them, which leaves one line round
all; then ``over`` (an arm before the body) the same way; ``props`` are plain lines.
"""

from dataclasses import dataclass
from functools import cache
from math import atan2, cos, hypot, pi, sin
from typing import Literal

from core.curves import Point
from core.figure.standard_body import (
    CROTCH,
    FLOOR,
    LEG,
    arm_inner,
    arm_outer,
    leg_back,
    leg_front,
    leg_half_width,
    leg_middle,
    trunk_back,
    trunk_front,
    trunk_width,
)

View = Literal["front", "back", "left", "right"]
Pose = Literal["standing", "arm", "arm bent", "step", "sitting", "heels"]
Polyline = tuple[Point, ...]

STEP_MM = 8.0
HEEL_MM = 80.0
SEAT = FLOOR - 440.0
SAT_DOWN_MM = SEAT - 905.0
"""How much lower everything above the seat is when she sits."""
STRIDE_MM = 210.0
"""How far each foot is from the plumb line in an easy step."""
FOOT_FORWARD = -12.0
BENT_ELBOW, BENT_WRIST = (-34.0, 634.0), (182.0, 590.0)
NECK_TOP = 168.0
HEAD = (112.0, 112.0, 77.0, 92.0, 4.0)
"""The head: its middle's y, half height, half width, half depth, and how far forward it is."""


@dataclass(frozen=True, slots=True)
class Figure:
    """What to draw of her; ``floor`` is where she stands (y)."""

    view: View
    pose: Pose
    body: tuple[Polyline, ...]
    over: tuple[Polyline, ...]
    props: tuple[Polyline, ...]
    floor: float

    @property
    def bounds(self) -> tuple[float, float, float, float]:
        """Return least x and y, greatest x and y of the whole figure."""
        points = [point for shape in (*self.body, *self.over, *self.props) for point in shape]
        xs, ys = zip(*points, strict=True)
        return min(xs), min(ys), max(xs), max(*ys, self.floor)


@cache
def figure(view: View, pose: Pose = "standing") -> Figure:
    """Return the figure from one side; only standing is seen from the front and from behind."""
    if view in ("front", "back"):
        return Figure(view, "standing", _upright(), (), (), FLOOR)
    turned = [_turned(shapes, view) for shapes in _from_right(pose)]
    floor = FLOOR + (HEEL_MM if pose == "heels" else 0.0)
    return Figure(view, pose, turned[0], turned[1], turned[2], floor)


def heights(top: float, bottom: float, step: float = STEP_MM) -> list[float]:
    """Return heights from top to bottom, evenly, about so far apart."""
    count = max(1, round((bottom - top) / step))
    return [top + (bottom - top) * at / count for at in range(count + 1)]


def limb(start: Point, start_half: float, end: Point, end_half: float) -> Polyline:
    """Return a tapering limb: the outline round two circles and all between them."""
    along = atan2(end[1] - start[1], end[0] - start[0])
    length = hypot(end[0] - start[0], end[1] - start[1])
    lean = pi / 2 - (start_half - end_half) / length if length else pi / 2
    return (*_arc(start, start_half, along + lean, along + 2 * pi - lean),
            *_arc(end, end_half, along - lean, along + lean))  # fmt: skip


def side_profile(towards: str, top: float, bottom: float) -> list[Point]:
    """Return the front or the back edge of trunk and leg (z, y), seen from the side."""
    trunk, leg = (trunk_front(), leg_front()) if towards == "front" else (trunk_back(), leg_back())
    return [((trunk if y < CROTCH else leg).at(y), y) for y in heights(top, bottom)]


def _upright() -> tuple[Polyline, ...]:
    """Return head, trunk with legs, and arms: alike from the front and from behind."""
    arm = _arm()
    mirrored = tuple((-x, y) for x, y in arm)
    return _head(HEAD[2], 0.0), _trunk_and_legs(), arm, mirrored


def _head(half: float, forward: float) -> Polyline:
    y, tall = HEAD[:2]
    return tuple((forward + half * cos(step * pi / 36), y + tall * sin(step * pi / 36))
                 for step in range(72))  # fmt: skip


def _trunk_and_legs() -> Polyline:
    middle, half, width = leg_middle(), leg_half_width(), trunk_width()
    right = [(width.at(y), y) for y in heights(NECK_TOP, CROTCH)]
    right += [(middle.at(y) + half.at(y), y) for y in heights(CROTCH, FLOOR)[1:]]
    inside = [(max(middle.at(y) - half.at(y), 2.0), y) for y in heights(CROTCH, FLOOR)]
    leg = [*right, *reversed(inside)]
    return (*leg, *((-x, y) for x, y in reversed(leg)))


def _arm() -> Polyline:
    """Return her left arm hanging, seen from the front."""
    outer, inner = arm_outer(), arm_inner()
    ys = heights(outer.xs[0], outer.xs[-1], 4.0)
    return (*((outer.at(y), y) for y in ys), *((inner.at(y), y) for y in reversed(ys)))


def _turned(shapes: tuple[Polyline, ...], view: View) -> tuple[Polyline, ...]:
    """Return shapes that look to the right as seen from her right, or turned for her left."""
    if view == "right":
        return shapes
    return tuple(tuple((-x, y) for x, y in shape) for shape in shapes)


Shapes = tuple[Polyline, ...]


def _from_right(pose: Pose) -> tuple[Shapes, Shapes, Shapes]:
    """Return body, what is before it, and props, looking to the right."""
    head = _head(HEAD[3], HEAD[4])
    if pose == "sitting":
        return _sitting(head)
    if pose == "step":
        return (head, _trunk_side(CROTCH + 20), _leg_side(-STRIDE_MM), _leg_side(STRIDE_MM)), (), ()
    if pose == "heels":
        return (head, _standing_side(), *_in_heels()), (), ()
    over = {"arm": _arm_side(), "arm bent": _arm_bent()}.get(pose, ())
    return (head, _standing_side(), _foot(0.0)), over, ()


def _trunk_side(bottom: float) -> Polyline:
    return (*side_profile("front", NECK_TOP, bottom),
            *reversed(side_profile("back", NECK_TOP, bottom)))  # fmt: skip


def _standing_side() -> Polyline:
    return _trunk_side(LEG["ankle"].y + 12)


def _foot(forward: float) -> Polyline:
    shape = ((-40, 1585), (30, 1585), (44, 1618), (84, 1643), (140, 1656), (160, 1668),
             (158, FLOOR), (-52, FLOOR), (-60, 1664), (-54, 1630))  # fmt: skip
    return tuple((x + forward, float(y)) for x, y in shape)


def _leg_side(forward: float) -> Polyline:
    """Return one leg and its foot with the foot so far forward of the plumb line."""

    ys = heights(CROTCH - 30, LEG["ankle"].y - 10)
    front, back = ([(in_stride(edge.at(y), y, forward), y) for y in ys]
                   for edge in (leg_front(), leg_back()))  # fmt: skip
    foot = _foot(forward * 0.96)
    return (*front, *foot[2:], *reversed(back))


def in_stride(z: float, y: float, forward: float) -> float:
    """Return z of a leg whose foot is so far forward: it swings from the hip."""
    return z + forward * max(0.0, (y - CROTCH + 40) / (FLOOR - CROTCH + 40))


def _in_heels() -> Shapes:
    """Return the foot on its ball, and the heel under it; the floor is lower by the heel."""
    low = FLOOR + HEEL_MM
    foot = ((-44, 1580), (30, 1580), (46, 1622), (78, 1676), (112, 1718), (150, low - 20),
            (166, low - 8), (164, low), (70, low), (48, low - 8), (20, 1722), (-14, 1694),
            (-50, 1684), (-64, 1668), (-60, 1632))  # fmt: skip
    heel = ((-62, 1672), (-8, 1690), (-38, 1704), (-44, low), (-56, low))
    return tuple((float(x), float(y)) for x, y in foot), tuple((float(x), y) for x, y in heel)


def _arm_side() -> Shapes:
    return (limb((-12, 342), 46, (-22, 632), 37), limb((-22, 632), 38, (14, 856), 25),
            limb((16, 880), 30, (26, 1000), 16))  # fmt: skip


def _arm_bent() -> Shapes:
    return (limb((-12, 342), 46, BENT_ELBOW, 38), limb(BENT_ELBOW, 39, BENT_WRIST, 26),
            limb((206, 586), 29, (300, 572), 15))  # fmt: skip


def _sitting(head: Polyline) -> tuple[Shapes, Shapes, Shapes]:
    down = SAT_DOWN_MM
    trunk = tuple((x, y + down) for x, y in _trunk_side(838))
    body = (
        tuple((x, y + down) for x, y in head),
        trunk,
        limb((-66, SEAT - 92), 92, (20, SEAT - 84), 84),
        limb((0, SEAT - 84), 84, (392, SEAT - 62), 60),
        limb((392, SEAT - 60), 58, (384, 1560), 37),
        tuple((x + 384, y) for x, y in _foot(0.0)),
    )
    chair = (
        ((-210.0, SEAT), (300.0, SEAT)),
        ((-190.0, SEAT), (-190.0, FLOOR)),
        ((270.0, SEAT), (270.0, FLOOR)),
    )
    return body, (), chair


def _arc(middle: Point, radius: float, start: float, end: float) -> list[Point]:
    return [(middle[0] + radius * cos(start + (end - start) * step / 16),
             middle[1] + radius * sin(start + (end - start) * step / 16))
            for step in range(17)]  # fmt: skip
