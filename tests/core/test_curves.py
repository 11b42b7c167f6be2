"""The smooth line passes every pin, never overshoots, and agrees with an outside one."""

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.interpolate import PchipInterpolator
from shapely import LineString

from core.curves import NoLine, polyline_length, smooth

Points = list[tuple[float, float]]

PLACES = st.integers(0, 1500)
MOVES = st.floats(-50, 50).map(lambda y: round(y, 3))


@st.composite
def pinned(draw: st.DrawFn, at_least: int = 2) -> Points:
    xs = draw(st.lists(PLACES, min_size=at_least, max_size=9, unique=True))
    return [(float(x), draw(MOVES)) for x in xs]


@given(points=pinned(), part=st.floats(0, 1))
def test_the_line_is_the_one_scipy_draws(points: Points, part: float) -> None:
    xs, ys = zip(*sorted(points), strict=True)
    x = xs[0] + part * (xs[-1] - xs[0])
    assert smooth(points).at(x) == pytest.approx(float(PchipInterpolator(xs, ys)(x)), abs=1e-9)


@given(points=pinned(at_least=1))
def test_the_line_passes_every_pin(points: Points) -> None:
    line = smooth(points)
    assert [line.at(x) for x, _ in points] == [y for _, y in points]


@given(points=pinned(), parts=st.lists(st.floats(0, 1), min_size=2, max_size=8))
def test_between_two_pins_it_only_goes_from_the_one_to_the_other(
    points: Points, parts: list[float]
) -> None:
    line = smooth(points)
    for (x0, y0), (x1, y1) in pairwise(sorted(points)):
        ys = [line.at(x0 + part * (x1 - x0)) for part in sorted(parts)]
        assert all(min(y0, y1) <= y <= max(y0, y1) for y in ys)
        way = 1 if y1 >= y0 else -1
        assert all(way * (after - before) >= -1e-9 for before, after in pairwise(ys))


@given(points=pinned(at_least=1), beyond=st.floats(0, 5000))
def test_beyond_the_last_pin_the_end_value_is_held(points: Points, beyond: float) -> None:
    line, ordered = smooth(points), sorted(points)
    assert line.at(ordered[0][0] - beyond) == ordered[0][1]
    assert line.at(ordered[-1][0] + beyond) == ordered[-1][1]


@given(points=pinned(), turned=st.randoms())
def test_the_order_the_pins_were_logged_in_makes_no_difference(
    points: Points, turned: object
) -> None:
    shuffled = list(points)
    turned.shuffle(shuffled)  # type: ignore[attr-defined]
    assert smooth(shuffled) == smooth(points)


def test_one_pin_alone_is_the_same_everywhere() -> None:
    line = smooth([(420.0, -15.875)])
    assert {line.at(x) for x in (0, 420, 5000)} == {-15.875}


def test_two_pins_are_joined_straight() -> None:
    line = smooth([(100, 0), (200, -8)])
    assert [line.at(x) for x in (100, 125, 150, 200)] == [0, -2, -4, -8]


def test_points_on_a_straight_line_stay_on_it() -> None:
    line = smooth([(0, 0), (10, 1), (40, 4), (100, 10)])
    assert [line.at(x) for x in (5, 25, 70)] == pytest.approx([0.5, 2.5, 7])


def test_equal_pins_are_joined_level() -> None:
    line = smooth([(0, 0), (100, -6), (200, -6), (300, 0)])
    assert [line.at(x) for x in (110, 150, 190)] == [-6, -6, -6]


def test_no_pins_make_no_line() -> None:
    with pytest.raises(NoLine):
        smooth([])


def test_two_pins_at_one_place_are_refused() -> None:
    with pytest.raises(NoLine, match="420"):
        smooth([(420, -5), (500, 0), (420, -8)])


@given(points=st.lists(st.tuples(st.floats(-1e4, 1e4), st.floats(-1e4, 1e4)), min_size=2))
def test_a_broken_line_is_as_long_as_shapely_says(points: Points) -> None:
    assert polyline_length(points) == pytest.approx(LineString(points).length, rel=1e-12)


@pytest.mark.parametrize("points", [[], [(3.0, 4.0)]])
def test_no_line_has_no_length(points: Points) -> None:
    assert polyline_length(points) == 0
