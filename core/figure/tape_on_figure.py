"""Where the tape goes for every measurement of the catalogue, on the neutral figure.

Each is drawn from the side where it is seen best: facing her, at her side, behind her.  Her
left is at the right of a picture from the front, and at the left of one from behind.
"""

from collections.abc import Callable, Mapping, Sequence
from functools import cache, partial
from types import MappingProxyType

from core.curves import Point
from core.errors import NotFound
from core.figure import standard_body as her
from core.figure import tape_rounds
from core.figure.figure import (
    BENT_ELBOW,
    BENT_WRIST,
    HEEL_MM,
    SAT_DOWN_MM,
    SEAT,
    Pose,
    View,
    heights,
)
from core.figure.tape_path import TapeOnFigure, along, side_view
from core.records.answer import Side

Draw = Callable[[int], TapeOnFigure]
"""Draws a measurement on a side: 1 her left, -1 her right."""

USUAL_SIDE: Side = "right"
"""The side that is drawn where a measurement of one side tells none."""

BESIDE_MM = 420.0
"""How far beside her the tape stands that goes from the floor to her crown."""


@cache
def tape_on_figure(measurement: str, side: Side | None = None) -> TapeOnFigure:
    """Return where the tape goes; on her left or right where the body has two.

    Raises ``NotFound`` for an id that has no drawing.
    """
    draw = _DRAWINGS.get(measurement)
    if draw is None:
        raise NotFound(f"There is no drawing for “{measurement}”")
    return draw(1 if (side or USUAL_SIDE) == "left" else -1)


def _front(*points: Point, leaders: Sequence[Sequence[Point]] = ()) -> Draw:
    return lambda side: along(points, side, "front", leaders=leaders)


def _back(*points: Point, leaders: Sequence[Sequence[Point]] = ()) -> Draw:
    return lambda side: along(points, side, "back", leaders=leaders)


def _side(
    *points: Point, pose: Pose = "standing", leaders: Sequence[Sequence[Point]] = ()
) -> Draw:  # fmt: skip
    return lambda side: along(points, side, side_view(side), pose=pose, leaders=leaders)


def _level(y: float, start: float, end: float) -> tuple[Point, Point]:
    """Return the thin line of a level."""
    return (start, y), (end, y)


def _floor(half: float) -> tuple[Point, Point]:
    return _level(her.FLOOR, -half, half)


def _across(end: Point, view: View) -> tuple[Draw, Draw]:
    """Return a whole width across her, and one half of it from the middle."""
    x, y = end
    whole, half = ((-x, y), (x, y)), ((0.0, y), (x, y))
    draw = _front if view == "front" else _back
    return draw(*whole), draw(*half)


_NECK, _BUST_POINT = (62.0, her.SIDE_NECK), her.BUST_POINT
_NECK_TO_BUST: tuple[Point, ...] = (_NECK, (73.0, 335.0), (82.0, 410.0), _BUST_POINT)
_UNDER_BUST: tuple[Point, ...] = ((85.0, 520.0), (82.0, her.TRUNK["under_bust"].y))
_SHOULDER: tuple[Point, ...] = ((64.0, 270.0), (92.0, 284.0), (128.0, 298.0), her.SHOULDER_POINT)
_WAIST_SIDE = (her.TRUNK["waist"].lean, her.WAIST)
_HIP_SIDE = (-6.0, her.HIP)
_THIGH = her.LEG["thigh"]
_THIGH_OUT = her.LEG_MIDDLE["thigh"] + _THIGH.half_width
_OVER_HIP: tuple[Point, ...] = (
    *((her.trunk_width().at(y), y) for y in heights(her.WAIST, her.HIP)),
    (_THIGH_OUT, _THIGH.y), (_THIGH_OUT, her.FLOOR),
)  # fmt: skip
_LEG_FRONT: tuple[Point, ...] = ((64.0, her.WAIST), (76.0, her.HIP), (83.0, 1010.0))
_DOWN_ARM: tuple[Point, ...] = tuple(
    (her.arm_outer().at(y) - 11, y) for y in heights(336, her.WRIST)
)
_INSIDE_ARM: tuple[Point, ...] = tuple(
    (her.arm_inner().at(y) + 8, y) for y in heights(440, her.WRIST)
)
_UPPER_BENT: tuple[Point, ...] = (
    (-14.0, her.SHOULDER - 6), (-30.0, 480.0), (BENT_ELBOW[0] - 18, BENT_ELBOW[1] + 14),
)  # fmt: skip
_FORE_BENT: tuple[Point, ...] = (
    (BENT_ELBOW[0] + 20, BENT_ELBOW[1] + 20), (BENT_WRIST[0], BENT_WRIST[1] + 6),
)  # fmt: skip
_OFF_SHOULDER: tuple[Point, ...] = (
    her.SHOULDER_POINT,
    *((her.arm_outer().at(y) - 10, y) for y in heights(330, her.OFF_SHOULDER)),
)
_ARMPIT_SIDE = _level(her.ARMPIT, -100, 105)
_ACROSS_FRONT, _HALF_FRONT = _across(her.FRONT_FOLD, "front")
_ACROSS_BACK, _HALF_BACK = _across(her.BACK_FOLD, "back")

_ROUNDS: Mapping[str, Draw] = {
    "neck_girth": partial(tape_rounds.trunk, "neck"),
    "neck_base_girth": tape_rounds.neck_base,
    "upper_chest_girth": partial(tape_rounds.trunk, "upper_chest"),
    "chest_girth": partial(tape_rounds.trunk, "chest"),
    "bust_girth": partial(tape_rounds.trunk, "bust"),
    "under_bust_girth": partial(tape_rounds.trunk, "under_bust"),
    "waist_girth": partial(tape_rounds.trunk, "waist"),
    "top_hip_girth": partial(tape_rounds.trunk, "top_hip"),
    "hip_girth": partial(tape_rounds.trunk, "hip"),
    "off_shoulder_girth": tape_rounds.off_shoulder,
    "trunk_circumference": tape_rounds.whole_trunk,
    "bust_front_arc": partial(tape_rounds.front_arc, "bust"),
    "under_bust_front_arc": partial(tape_rounds.front_arc, "under_bust"),
    "waist_front_arc": partial(tape_rounds.front_arc, "waist"),
    "top_hip_front_arc": partial(tape_rounds.front_arc, "top_hip"),
    "hip_front_arc": partial(tape_rounds.front_arc, "hip"),
    "armscye_girth": tape_rounds.armscye,
    "upper_arm_girth": partial(tape_rounds.arm, (her.SHOULDER + her.ELBOW) / 2),
    "elbow_girth": tape_rounds.elbow,
    "wrist_girth": partial(tape_rounds.arm, her.WRIST),
    "hand_girth": partial(tape_rounds.arm, her.HAND),
    "thighs_together_girth": partial(tape_rounds.both_legs, "thigh"),
    "knees_together_girth": partial(tape_rounds.both_legs, "knee"),
    "stride_girth": tape_rounds.stride,
    "thigh_girth": partial(tape_rounds.leg, "thigh"),
    "mid_thigh_girth": partial(tape_rounds.leg, "mid_thigh"),
    "knee_girth": partial(tape_rounds.leg, "knee"),
    "calf_girth": partial(tape_rounds.leg, "calf"),
    "ankle_girth": partial(tape_rounds.leg, "ankle"),
    "total_crotch_length": partial(tape_rounds.crotch, whole=True),
    "front_crotch_length": partial(tape_rounds.crotch, whole=False),
    "seated_hip_girth": tape_rounds.seated_hip,
}

_FACING: Mapping[str, Draw] = {
    "height": _front(
        (-BESIDE_MM, her.FLOOR), (-BESIDE_MM, her.CROWN),
        leaders=[_level(her.CROWN, -BESIDE_MM - 20, 0), _level(her.FLOOR, -BESIDE_MM - 20, 0)],
    ),
    "bust_point_to_bust_point": _front((-_BUST_POINT[0], _BUST_POINT[1]), _BUST_POINT),
    "side_neck_to_bust_point": _front(*_NECK_TO_BUST),
    "side_neck_to_under_bust": _front(*_NECK_TO_BUST, *_UNDER_BUST),
    "side_neck_to_waist_front": _front(*_NECK_TO_BUST, *_UNDER_BUST, (76.0, her.WAIST)),
    "front_neck_to_waist": _front((0.0, her.HOLLOW), (0.0, her.WAIST)),
    "across_front_width": _ACROSS_FRONT,
    "half_front_width": _HALF_FRONT,
    "neckline_drop": _front(_NECK, (68.0, 376.0), leaders=[_level(376, -120, 120)]),
    "neckline_depth_front": _front(
        (0.0, her.SIDE_NECK), (0.0, 400.0),
        leaders=[_level(her.SIDE_NECK, -90, 90), _level(400, -60, 60)],
    ),
    "shoulder_length": _front(*_SHOULDER),
    "shoulder_slope": _front(
        (her.SHOULDER_POINT[0], her.SIDE_NECK), her.SHOULDER_POINT,
        leaders=[_level(her.SIDE_NECK, 62, her.SHOULDER_POINT[0] + 30)],
    ),
    "shoulder_to_off_shoulder_line": _front(
        *_OFF_SHOULDER, leaders=[_level(her.OFF_SHOULDER, 140, _OFF_SHOULDER[-1][0] + 30)]
    ),
    "under_arm_length": _front(*_INSIDE_ARM),
    "waist_to_knee": _front(*_LEG_FRONT, (78.0, her.KNEE), leaders=[_level(her.KNEE, 10, 160)]),
    "waist_to_flare": _front(
        *_LEG_FRONT, (80.0, her.FLARE), leaders=[_level(her.FLARE, -170, 170)]
    ),
    "waist_to_floor_front": _front((0.0, her.WAIST), (0.0, her.FLOOR), leaders=[_floor(150)]),
    "waist_to_floor_side": _front(*_OVER_HIP, leaders=[_level(her.FLOOR, 60, _THIGH_OUT + 50)]),
    "outside_leg_length": _front(*_OVER_HIP, leaders=[_level(her.FLOOR, 60, _THIGH_OUT + 50)]),
    "inside_leg_height": _front((0.0, her.CROTCH), (0.0, her.FLOOR), leaders=[_floor(150)]),
}  # fmt: skip

_BEHIND: Mapping[str, Draw] = {
    "back_neck_to_waist": _back((0.0, her.NAPE), (0.0, her.WAIST)),
    "side_neck_to_waist_back": _back(_NECK, (72.0, 340.0), (76.0, her.WAIST)),
    "across_back_shoulder_width": _back(
        (-her.SHOULDER_POINT[0], her.SHOULDER_POINT[1]), (-92.0, 288.0), (0.0, her.NAPE + 6),
        (92.0, 288.0), her.SHOULDER_POINT,
    ),
    "across_back_width": _ACROSS_BACK,
    "half_back_width": _HALF_BACK,
    "scye_depth": _back(
        (0.0, her.NAPE), (0.0, her.ARMPIT), leaders=[_level(her.ARMPIT, -150, 150)]
    ),
    "back_neck_to_back_edge": _back((0.0, her.NAPE), (0.0, 470.0), leaders=[_level(470, -90, 90)]),
    "waist_to_seat_back": _back(
        (0.0, her.WAIST), (0.0, her.HIP), leaders=[_level(her.HIP, -160, 160)]
    ),
    "back_neck_to_wrist_length": _back(
        (0.0, her.NAPE + 6), (92.0, 290.0), (150.0, 313.0), *_DOWN_ARM
    ),
    "waist_to_floor_back": _back((0.0, her.WAIST), (0.0, her.FLOOR), leaders=[_floor(150)]),
    "torso_height": _back(
        (0.0, her.NAPE), (0.0, her.CROTCH),
        leaders=[_level(her.NAPE, -110, 110), _level(her.CROTCH, -200, 200)],
    ),
}  # fmt: skip

_AT_HER_SIDE: Mapping[str, Draw] = {
    "heel_of_the_day": _side(
        (-98.0, her.FLOOR + HEEL_MM), (-98.0, her.FLOOR), pose="heels",
        leaders=[_level(her.FLOOR, -130, -50), _level(her.FLOOR + HEEL_MM, -160, 190)],
    ),
    "armhole_depth": _side(
        (-12.0, her.SHOULDER - 8), (-12.0, her.ARMPIT), pose="arm", leaders=[_ARMPIT_SIDE]
    ),
    "shoulder_to_elbow": _side(*_UPPER_BENT, pose="arm bent"),
    "outer_arm_length": _side(*_UPPER_BENT, *_FORE_BENT, pose="arm bent"),
    "underarm_to_waist": _side((0.0, her.ARMPIT), _WAIST_SIDE, leaders=[_ARMPIT_SIDE]),
    "waist_to_top_hip": _side(_WAIST_SIDE, (0.0, her.TOP_HIP)),
    "waist_to_hip": _side(_WAIST_SIDE, _HIP_SIDE),
    "side_waist_to_hip": _side(_WAIST_SIDE, _HIP_SIDE),
    "waist_to_thighs": _side(
        _WAIST_SIDE, _HIP_SIDE, (-10.0, _THIGH.y), leaders=[_level(_THIGH.y, -130, 120)]
    ),
    "train_behind_heel": _side((-62.0, her.FLOOR - 4), (-430.0, her.FLOOR - 4)),
    "ankle_height": _side(
        (her.LEG["ankle"].lean, her.LEG["ankle"].y), (her.LEG["ankle"].lean, her.FLOOR),
        leaders=[_level(her.FLOOR, -110, 190)],
    ),
    "body_rise": _side(
        (-14.0, her.WAIST + SAT_DOWN_MM), (-14.0, SEAT), pose="sitting",
        leaders=[_level(SEAT, -210, 300)],
    ),
}  # fmt: skip

_DRAWINGS: Mapping[str, Draw] = MappingProxyType({**_ROUNDS, **_FACING, **_BEHIND, **_AT_HER_SIDE})
