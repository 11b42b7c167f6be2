"""The tape round trunk, limbs and both legs, on the neutral figure.

Each takes the side it is drawn on: 1 her left, -1 her right.
"""

from math import atan2, hypot, pi

from core.curves import Point
from core.figure import standard_body as her
from core.figure.figure import (
    BENT_ELBOW,
    FOOT_FORWARD,
    SEAT,
    STRIDE_MM,
    in_stride,
    side_profile,
)
from core.figure.tape_path import TILT, TapeOnFigure, along, around, ellipse, side_view


def trunk(name: str, side: int) -> TapeOnFigure:
    """Level round the trunk at one of its sections."""
    one = her.TRUNK[name]
    near, far = ellipse((0.0, one.y), one.half_width, one.half_depth * TILT)
    return around(near, far, side, "front")


def front_arc(name: str, side: int) -> TapeOnFigure:
    """Side line to side line across the front."""
    one = her.TRUNK[name]
    near, _ = ellipse((0.0, one.y), one.half_width, one.half_depth * TILT)
    return along(near, side, "front")


def neck_base(side: int) -> TapeOnFigure:
    """Round the root of the neck, which slopes from the nape down to the hollow in front."""
    half = her.trunk_width().at(her.SIDE_NECK)
    near, _ = ellipse((0.0, her.SIDE_NECK), half, her.HOLLOW - her.SIDE_NECK)
    _, far = ellipse((0.0, her.SIDE_NECK), half, her.SIDE_NECK - her.NAPE + 4)
    return around(near, far, side, "front")


def off_shoulder(side: int) -> TapeOnFigure:
    """Round body and both arms where the neckline will lie."""
    y = her.OFF_SHOULDER
    near, far = ellipse((0.0, y), her.arm_outer().at(y), her.TRUNK["upper_chest"].half_depth * TILT)
    return around(near, far, side, "front")


def both_legs(name: str, side: int) -> TapeOnFigure:
    """Level round both legs, feet together."""
    one = her.LEG[name]
    near, far = ellipse((0.0, one.y), her.LEG_MIDDLE[name] + one.half_width, one.half_depth * TILT)
    return around(near, far, side, "front")


def leg(name: str, side: int) -> TapeOnFigure:
    """Level round one leg."""
    one = her.LEG[name]
    near, far = ellipse((her.LEG_MIDDLE[name], one.y), one.half_width, one.half_depth * TILT)
    return around(near, far, side, "front")


def arm(y: float, side: int) -> TapeOnFigure:
    """Round the hanging arm, square to it, where its middle is so far down."""
    outer, inner = her.arm_outer(), her.arm_inner()
    middle = (outer.at(y) + inner.at(y)) / 2
    below = (outer.at(y + 20) + inner.at(y + 20)) / 2
    lean = atan2(below - middle, 20.0)
    half = (outer.at(y) - inner.at(y)) / 2 * (20.0 / hypot(below - middle, 20.0))
    near, far = ellipse((middle, y), half, half * TILT * 1.3, turned=-lean)
    return around(near, far, side, "front")


def elbow(side: int) -> TapeOnFigure:
    """Round the point of the elbow of a bent arm, from its point to the crook."""
    z, y = BENT_ELBOW
    near, far = ellipse((z + 2, y - 2), 47.0, 13.0, turned=-pi / 4 + 0.1)
    return around(near, far, side, side_view(side), pose="arm bent")


def armscye(side: int) -> TapeOnFigure:
    """Over the shoulder point and under the arm: what the arm hides is broken."""
    near, far = ellipse((-14.0, 370.0), 60.0, 58.0)
    cut = len(near) // 5  # the foot of the loop lies under the arm
    over = [*reversed(near[:cut]), *far[1:-1], *reversed(near[-cut:])]
    return around(over, near[cut - 1 : 1 - cut], side, side_view(side), pose="arm")


def whole_trunk(side: int) -> TapeOnFigure:
    """From a shoulder down the front, between the legs, up the back to where it began."""
    start = (-18.0, 292.0)
    return around([start, *_down_front(345.0), *reversed(_down_back(345.0)), start], (), side,
                  side_view(side))  # fmt: skip


def crotch(side: int, *, whole: bool) -> TapeOnFigure:
    """From the cord in front between the legs, to the cord behind or to the inside leg."""
    behind = list(reversed(_down_back(her.WAIST))) if whole else []
    return along([*_down_front(her.WAIST), *behind], side, side_view(side))


def stride(side: int) -> TapeOnFigure:
    """Round both legs at the height of the flare, standing in one easy step."""
    y = her.FLARE
    front = in_stride(her.leg_front().at(y), y, STRIDE_MM)
    back = in_stride(her.leg_back().at(y), y, -STRIDE_MM)
    near, far = ellipse(((front + back) / 2, y), (front - back) / 2, 26.0)
    return around(near, far, side, side_view(side), pose="step")


def seated_hip(side: int) -> TapeOnFigure:
    """Round the fullest of hip and lap, aslant from behind the seat over the lap."""
    near, far = ellipse((-40.0, SEAT - 106.0), 118.0, 24.0, turned=-0.42)
    return around(near, far, side, side_view(side), pose="sitting")


def _down_front(top: float) -> list[Point]:
    """Return the front from a height down, and between the legs."""
    front = [(z - 8, y) for z, y in side_profile("front", top, her.CROTCH)]
    return [*front, (FOOT_FORWARD, her.CROTCH + 24)]


def _down_back(top: float) -> list[Point]:
    return [(z + 8, y) for z, y in side_profile("back", top, her.CROTCH)]
