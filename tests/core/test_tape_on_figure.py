"""Where the tape goes: every measurement, from the side she is measured from, on the figure."""

from math import dist

import pytest
from shapely.geometry import LineString, MultiLineString, Polygon
from shapely.ops import unary_union

from core.body.measurements import catalogue
from core.errors import NotFound
from core.figure import standard_body as her
from core.figure.figure import figure
from core.figure.tape_on_figure import tape_on_figure
from core.figure.tape_path import TAPE_MM, TICK_MM, ticks_along

ALL = [(name, side) for name, entry in catalogue().items()
       for side in (("left", "right") if entry.both_sides else (None,))]  # fmt: skip

OFF_HER = {
    "height", "heel_of_the_day", "train_behind_heel", "shoulder_slope", "waist_to_floor_front",
    "waist_to_floor_side", "waist_to_floor_back", "outside_leg_length", "inside_leg_height",
}  # fmt: skip
"""Beside her, or through the air between her legs."""

ROUND_BOTH = {"knees_together_girth", "stride_girth"}
"""The tape spans the gap between her legs."""

FACING = "front"
BEHIND = "back"
PLACES = {
    "bust_girth": FACING, "bust_front_arc": FACING, "bust_point_to_bust_point": FACING,
    "side_neck_to_waist_front": FACING, "across_front_width": FACING, "thigh_girth": FACING,
    "upper_arm_girth": FACING, "inside_leg_height": FACING, "waist_to_floor_front": FACING,
    "back_neck_to_waist": BEHIND, "side_neck_to_waist_back": BEHIND, "across_back_width": BEHIND,
    "scye_depth": BEHIND, "waist_to_seat_back": BEHIND, "waist_to_floor_back": BEHIND,
    "back_neck_to_wrist_length": BEHIND,
}  # fmt: skip
AT_HER_SIDE = {"armscye_girth": "arm", "elbow_girth": "arm bent", "outer_arm_length": "arm bent",
               "waist_to_hip": "standing", "underarm_to_waist": "standing",
               "ankle_height": "standing"}  # fmt: skip


def _her(tape):
    drawn = figure(tape.view, tape.pose)
    return unary_union([Polygon(shape).buffer(0) for shape in (*drawn.body, *drawn.over)])


@pytest.mark.parametrize(("name", "side"), ALL)
def test_every_measurement_has_a_drawing_with_a_tape_and_its_ticks(name, side):
    tape = tape_on_figure(name, side)
    assert tape.near
    assert all(len(line) >= 2 for line in tape.near)
    long = sum(LineString(line).length for line in tape.near)
    assert len(tape.ticks) == pytest.approx(long / TICK_MM, abs=2)
    assert all(dist(*tick) == pytest.approx(TAPE_MM) for tick in tape.ticks)
    group = catalogue()[name].group
    whole = name.endswith("_girth") or name == "trunk_circumference"
    assert (tape.ends == ()) == whole, group


@pytest.mark.parametrize(("name", "side"), [one for one in ALL if one[0] not in OFF_HER])
def test_the_tape_lies_on_her(name, side):
    tape = tape_on_figure(name, side)
    whole = _her(tape)
    whole = whole.convex_hull if name in ROUND_BOTH else whole
    lines = MultiLineString([*tape.near, *tape.far])
    assert whole.buffer(TAPE_MM / 2).covers(lines)


@pytest.mark.parametrize("name", ["upper_chest_girth", "bust_girth", "waist_girth", "hip_girth",
                                  "hip_front_arc", "waist_front_arc"])  # fmt: skip
def test_a_round_reaches_from_side_line_to_side_line(name):
    tape = tape_on_figure(name)
    trunk = Polygon(figure("front").body[1])
    for x, y in (tape.near[0][0], tape.near[0][-1]):
        assert trunk.exterior.distance(LineString([(x, y), (x, y + 0.1)])) < 3
    assert max(y for _, y in tape.near[0]) > tape.near[0][0][1]  # it hangs in front
    assert (tape.far == ()) == name.endswith("arc")


def test_the_far_half_of_a_round_is_above_the_near_one_and_meets_it():
    tape = tape_on_figure("waist_girth")
    [near], [far] = tape.near, tape.far
    assert near[0] == pytest.approx(far[0])
    assert near[-1] == pytest.approx(far[-1])
    assert max(y for _, y in far) <= min(y for _, y in near) + 1e-6


@pytest.mark.parametrize(("name", "view"), sorted(PLACES.items()))
def test_it_is_seen_from_where_she_is_measured(name, view):
    assert tape_on_figure(name, "left").view == view


@pytest.mark.parametrize(("name", "pose"), sorted(AT_HER_SIDE.items()))
def test_at_her_side_it_is_the_side_that_is_asked(name, pose):
    for side in ("left", "right"):
        tape = tape_on_figure(name, side)
        assert (tape.view, tape.pose) == (side, pose)


@pytest.mark.parametrize("name", [name for name, side in ALL if side == "left"])
def test_her_left_is_at_the_right_of_a_picture_from_the_front(name):
    left, right = (tape_on_figure(name, side) for side in ("left", "right"))
    points = [point for line in left.near for point in line]
    middle = sum(x for x, _ in points) / len(points)
    if left.view == "front":
        assert middle > 0
    elif left.view == "back":
        assert middle < 0
    [other] = right.near
    assert [(-x, y) for x, y in points] == [pytest.approx(point) for point in other]


@pytest.mark.parametrize(
    "name", ["height", "waist_to_floor_front", "waist_to_floor_side", "waist_to_floor_back",
             "outside_leg_length", "inside_leg_height", "ankle_height"],
)  # fmt: skip
def test_a_height_ends_at_the_floor(name):
    tape = tape_on_figure(name, "left")
    assert her.FLOOR in [y for _, y in tape.ends]
    assert any(line[0][1] == line[-1][1] == her.FLOOR for line in tape.leaders)


def test_lengths_begin_and_end_at_their_levels():
    ends = {name: [y for _, y in tape_on_figure(name, "left").ends] for name in (
        "front_neck_to_waist", "waist_to_hip", "side_neck_to_bust_point", "back_neck_to_waist",
        "waist_to_knee", "scye_depth")}  # fmt: skip
    assert ends == {
        "front_neck_to_waist": [her.HOLLOW, her.WAIST], "waist_to_hip": [her.WAIST, her.HIP],
        "side_neck_to_bust_point": [her.SIDE_NECK, her.BUST],
        "back_neck_to_waist": [her.NAPE, her.WAIST], "waist_to_knee": [her.WAIST, her.KNEE],
        "scye_depth": [her.NAPE, her.ARMPIT],
    }  # fmt: skip


def test_she_sits_steps_and_wears_her_heels_where_it_is_measured_so():
    assert tape_on_figure("seated_hip_girth").pose == "sitting"
    assert tape_on_figure("body_rise").pose == "sitting"
    assert tape_on_figure("stride_girth").pose == "step"
    assert tape_on_figure("heel_of_the_day").pose == "heels"


def test_ticks_stand_evenly_across_the_tape():
    """100 mm: five stretches of 20, four ticks, upright across a level tape."""
    ticks = ticks_along([(0.0, 0.0), (60.0, 0.0), (100.0, 0.0)])
    assert [start[0] for start, _ in ticks] == pytest.approx([20, 40, 60, 80])
    assert ticks[0] == ((20, -TAPE_MM / 2), (20, TAPE_MM / 2))


def test_an_unknown_measurement_is_named():
    with pytest.raises(NotFound, match="ear_girth"):
        tape_on_figure("ear_girth")
