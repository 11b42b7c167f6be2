"""A neutral standing body, from sections of standard girths: never the client's own.

Each section is taken for an ellipse with its girth; its depth is a share of its width, and it
leans so far forward of the plumb line.  Millimetres: y down from the crown, x towards her left,
z forward.  Girths and heights are of nobody: round numbers of a middling figure, from memory.
"""

from dataclasses import dataclass
from functools import cache
from math import pi, sqrt

from core.curves import Curve, smooth

CROWN, NAPE, SIDE_NECK, HOLLOW, SHOULDER, ARMPIT = 0.0, 262.0, 268.0, 304.0, 322.0, 420.0
BUST, WAIST, TOP_HIP, HIP, CROTCH, KNEE, FLOOR = 478.0, 635.0, 735.0, 850.0, 912.0, 1222.0, 1680.0
ELBOW, WRIST, HAND = 634.0, 852.0, 920.0
OFF_SHOULDER, FLARE = 404.0, 1140.0
"""Heights of landmarks, y down from the crown; the last two are where a maker may wish them."""


@dataclass(frozen=True, slots=True)
class Section:
    """One level of the trunk or of a leg: its ellipse and how far forward its middle lies."""

    y: float
    half_width: float
    half_depth: float
    lean: float

    @property
    def front(self) -> float:
        return self.lean + self.half_depth

    @property
    def back(self) -> float:
        return self.lean - self.half_depth


def half_axes(girth: float, flat: float) -> tuple[float, float]:
    """Return half width and half depth of the ellipse with this girth, depth = flat x width.

    Ramanujan's first formula turned about; off by less than a thousandth for flat over 1/3.
    """
    h = ((1 - flat) / (1 + flat)) ** 2
    half_width = girth / (pi * (1 + flat) * (1 + 3 * h / (10 + sqrt(4 - 3 * h))))
    return half_width, flat * half_width


def _section(y: float, girth: float, flat: float, lean: float) -> Section:
    return Section(y, *half_axes(girth, flat), lean)


TRUNK: dict[str, Section] = {
    "neck": _section(236, 330, 0.96, -6),
    "upper_chest": _section(412, 860, 0.74, 2),
    "chest": _section(446, 880, 0.76, 8),
    "bust": _section(BUST, 900, 0.80, 18),
    "under_bust": _section(556, 768, 0.78, 7),
    "waist": _section(WAIST, 700, 0.76, 8),
    "top_hip": _section(TOP_HIP, 868, 0.75, -5),
    "hip": _section(HIP, 970, 0.78, -24),
}
"""The levels of the trunk that the tape goes round."""

_SHAPING = ("upper_chest", "bust", "under_bust", "waist", "top_hip", "hip")
"""The levels that the outline goes through; the others lie between."""

LEG: dict[str, Section] = {
    "thigh": _section(968, 545, 0.98, -8),
    "mid_thigh": _section(1068, 480, 0.98, -3),
    "knee": _section(KNEE, 365, 1.0, 5),
    "calf": _section(1345, 355, 1.0, -16),
    "ankle": _section(1598, 225, 1.0, -6),
}
"""The levels of one leg."""

LEG_MIDDLE = {"thigh": 89.0, "mid_thigh": 84.0, "knee": 78.0, "calf": 76.0, "ankle": 72.0}
"""How far each leg's middle stands from the plumb line."""


@cache
def trunk_width() -> Curve:
    """Return the half width of head's foot, neck, shoulders and trunk over y, without the arms."""
    levels = [(TRUNK[name].y, TRUNK[name].half_width) for name in _SHAPING]
    neck = TRUNK["neck"].half_width
    shoulders = [(168, neck), (232, neck), (252, neck + 4), (268, 66), (282, 92), (296, 128),
                 (306, 154), (316, 168), (340, 174), (372, 170)]  # fmt: skip
    thigh = LEG["thigh"]
    return smooth([*shoulders, *levels, (CROTCH, LEG_MIDDLE["thigh"] + thigh.half_width)])


@cache
def trunk_front() -> Curve:
    """Return how far forward the trunk reaches over y."""
    levels = [(TRUNK[name].y, TRUNK[name].front) for name in _SHAPING]
    neck = TRUNK["neck"].front
    return smooth([(168, neck), (236, neck), (272, neck - 2), (HOLLOW, 48), (350, 86), *levels,
                   (885, 100), (CROTCH, 92)])  # fmt: skip


@cache
def trunk_back() -> Curve:
    """Return how far back the trunk reaches over y (negative)."""
    levels = [(TRUNK[name].y, TRUNK[name].back) for name in _SHAPING]
    neck = TRUNK["neck"].back
    return smooth([(168, neck), (226, neck), (NAPE, -74), (330, -106), *levels,
                   (888, -151), (CROTCH, -136)])  # fmt: skip


@cache
def leg_middle() -> Curve:
    """Return how far a leg's middle stands from the plumb line over y."""
    levels = [(LEG[name].y, middle) for name, middle in LEG_MIDDLE.items()]
    return smooth([(CROTCH, 89.0), *levels, (1650, 76), (FLOOR, 82)])


@cache
def leg_half_width() -> Curve:
    """Return half the width of a leg, seen from the front, over y; the foot below the ankle."""
    thigh = LEG["thigh"].half_width
    levels = [(one.y, one.half_width) for one in LEG.values()]
    return smooth([(CROTCH, thigh), *levels, (1640, 37), (1662, 43), (FLOOR, 47)])


@cache
def leg_front() -> Curve:
    """Return how far forward a leg reaches over y, down to the ankle."""
    return smooth([(885, 100), (CROTCH, 92), *((one.y, one.front) for one in LEG.values())])


@cache
def leg_back() -> Curve:
    """Return how far back a leg reaches over y, down to the ankle."""
    return smooth([(888, -151), (CROTCH, -136), (936, -116),
                   *((one.y, one.back) for one in LEG.values())])  # fmt: skip


@cache
def arm_outer() -> Curve:
    """Return the outer edge of her left arm, hanging, over y."""
    return smooth([(308, 158), (314, 174), (326, 190), (348, 206), (392, 228), (460, 254),
                   (545, 281), (ELBOW, 305), (730, 328), (WRIST, 346), (915, 364), (980, 370),
                   (1016, 364), (1030, 352)])  # fmt: skip


@cache
def arm_inner() -> Curve:
    """Return the inner edge of her left arm, hanging, over y."""
    return smooth([(308, 140), (352, 132), (392, 141), (460, 166), (545, 197), (ELBOW, 229),
                   (730, 256), (WRIST, 296), (915, 304), (980, 318), (1016, 334), (1030, 346)])


BUST_POINT = (86.0, BUST)
FRONT_FOLD = (134.0, 372.0)
BACK_FOLD = (140.0, 372.0)
SHOULDER_POINT = (170.0, 321.0)
"""Landmarks of her left, as seen from the front (x, y)."""
