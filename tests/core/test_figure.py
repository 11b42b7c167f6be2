"""The neutral figure: whole outlines, alike on both sides, of standard girths."""

from math import pi, sqrt

import pytest
from scipy.special import ellipe
from shapely.geometry import LineString, Polygon
from shapely.ops import unary_union

from core.figure import standard_body as her
from core.figure.figure import HEEL_MM, SEAT, figure, limb

VIEWS = [
    ("front", "standing"), ("back", "standing"), ("left", "standing"), ("right", "standing"),
    ("left", "arm"), ("right", "arm bent"), ("right", "step"), ("left", "sitting"),
    ("right", "heels"),
]  # fmt: skip


def _whole(view, pose="standing"):
    drawn = figure(view, pose)
    return unary_union([Polygon(shape).buffer(0) for shape in (*drawn.body, *drawn.over)])


def _true_girth(half_width, half_depth):
    """Return an ellipse's circumference by scipy's elliptic integral."""
    long, short = max(half_width, half_depth), min(half_width, half_depth)
    return 4 * long * ellipe(1 - (short / long) ** 2)


@pytest.mark.parametrize("girth", [150, 355, 700, 970])
@pytest.mark.parametrize("flat", [0.6, 0.74, 0.8, 1.0, 1.2])
def test_half_axes_have_the_girth(girth, flat):
    half_width, half_depth = her.half_axes(girth, flat)
    assert half_depth == pytest.approx(flat * half_width)
    assert _true_girth(half_width, half_depth) == pytest.approx(girth, rel=1e-4)


def test_a_limb_as_wide_all_along_is_a_bar_with_round_ends():
    """100 long, 20 to each side: 100 x 40 and a circle of 20."""
    assert Polygon(limb((0, 0), 20, (100, 0), 20)).area == pytest.approx(
        4000 + pi * 400, rel=5e-3
    )  # fmt: skip


def test_a_tapering_limb_is_the_hull_of_its_circles():
    """Between 30 and 10, 80 apart: straight sides of sqrt(80^2 - 20^2)."""
    shape = Polygon(limb((0, 0), 30, (0, 80), 10))
    assert shape.is_valid
    assert shape.equals(shape.convex_hull) or shape.convex_hull.area == pytest.approx(
        shape.area, rel=1e-3
    )
    straight = sqrt(80**2 - 20**2)
    assert shape.length == pytest.approx(
        2 * straight + 2 * pi * 30 - 2 * 30 * 1.3181 + 2 * 10 * 1.3181, rel=5e-3
    )  # the angle is acos(20 / 80) = 1.3181


@pytest.mark.parametrize(("view", "pose"), VIEWS)
def test_every_outline_is_whole_and_the_figure_in_one_piece(view, pose):
    drawn = figure(view, pose)
    for shape in (*drawn.body, *drawn.over):
        assert Polygon(shape).is_valid, shape[:3]
    assert _whole(view, pose).geom_type == "Polygon"
    left, top, right, bottom = drawn.bounds
    assert bottom == drawn.floor
    assert left < 0 < right
    assert top >= 0


def test_from_the_front_she_is_alike_on_both_sides():
    front = _whole("front")
    mirrored = Polygon([(-x, y) for x, y in front.exterior.coords])
    assert front.symmetric_difference(mirrored).area < 1
    assert figure("front").body == figure("back").body


def test_from_her_left_she_looks_to_the_left():
    """Her toes: furthest to the left from her left, to the right from her right."""
    for view, way in (("left", -1), ("right", 1)):
        feet = [(x, y) for shape in figure(view).body for x, y in shape if y > her.FLOOR - 30]
        assert max(feet, key=lambda point: abs(point[0]))[0] * way > 0


@pytest.mark.parametrize("name", ["upper_chest", "bust", "waist", "hip"])
def test_the_outline_is_as_wide_and_as_deep_as_its_section(name):
    section = her.TRUNK[name]
    across = LineString([(-600, section.y), (600, section.y)])
    trunk = Polygon(figure("front").body[1]).intersection(across)
    assert trunk.length == pytest.approx(2 * section.half_width, abs=1)
    side = _whole("right").intersection(across)
    assert side.length == pytest.approx(2 * section.half_depth, abs=1)


def test_she_stands_on_the_floor_in_a_heel_and_sits_on_the_seat():
    assert figure("right", "heels").floor == her.FLOOR + HEEL_MM
    shapes = figure("right", "sitting").body
    low = max(y for shape in shapes for x, y in shape if x < 200)
    assert low == pytest.approx(SEAT, abs=2)
