"""Circular parts come out as the old books and the geometry say, slips named.

Sources: BALDT, L. I. Baldt, Clothing for Women: Selection, Design, Construction, 1916;
BENN, E. A. Bennett, 1914.  F1 to F7 are the flare cases; inches unless cm is written.
Functions take any one unit throughout, so the published numbers are used as printed.
"""

from collections.abc import Callable
from math import pi

import pytest
from hypothesis import given
from hypothesis import strategies as st

from core.draft.circles import (
    NoCircle,
    cut_down_mm,
    edge_gain_mm,
    flounce_radius_mm,
    flounce_turns,
    godet_hem_mm,
    gore_widths_mm,
    inner_radius_mm,
    sweep_mm,
    wedge,
)
from core.errors import WorkroomError

PRINTED = 0.006
"""Half of the last figure the sources print, and a hair for their own rounding."""


@pytest.mark.parametrize(
    ("turns", "radius"), [(1, 4.14), (1 / 2, 8.28), (1 / 3, 12.41), (1 / 4, 16.55)]
)
def test_a_waist_of_26_is_cut_at_its_radius(turns: float, radius: float) -> None:
    """F1, read in the source: waist 26, full, half, third and quarter circle."""
    assert inner_radius_mm(26, turns) == pytest.approx(radius, abs=PRINTED)


def test_a_full_circle_skirt_with_two_seams_is_cut_inside_its_waist_line() -> None:
    """F2, cm: waist 110, two seams of 1 an edge, 1 at the waist.

    Slip of the source: 18.15 and 17.15 are 114 / (2 x 3.14); with pi itself
    114 / 2 pi = 18.144, hence a tolerance of 0.01.
    """
    assert inner_radius_mm(110, 1, seams_mm=4) == pytest.approx(18.15, abs=0.01)
    assert inner_radius_mm(110, 1, seams_mm=4, edge_mm=1) == pytest.approx(17.15, abs=0.01)


def test_a_half_circle_skirt_counts_both_edges_of_both_seams() -> None:
    """F2, cm: 36.29.  Slip of the source: its 35.67 is 112 / 3.14, one edge a seam."""
    assert inner_radius_mm(110, 1 / 2, seams_mm=4) == pytest.approx(36.29, abs=PRINTED)
    assert inner_radius_mm(110, 1 / 2, seams_mm=2) == pytest.approx(35.67, abs=0.02)


def test_a_flounce_is_cut_at_the_radius_its_two_edges_ask_for() -> None:
    """F3, BALDT, rule and figures read: depth 12, top 72, bottom 112."""
    assert flounce_radius_mm(12, 72, 112) == pytest.approx(21.6)


def test_a_circle_waist_lowered_a_quarter_is_an_inch_and_a_half_longer() -> None:
    """F4, arithmetic on the rule: 2 pi x 1/4 = 1.57."""
    assert edge_gain_mm(0.25, 1) == pytest.approx(1.57, abs=PRINTED)


def test_a_flounce_on_a_seam_let_out_is_trimmed_along_its_inner_edge() -> None:
    """F5, arithmetic on the rule: the flounce of F3, its seam let out 1: trim 0.30."""
    turns = flounce_turns(12, 72, 112)
    assert turns == pytest.approx(40 / (24 * pi))
    assert cut_down_mm(1, turns) == pytest.approx(0.30, abs=PRINTED)


def test_a_flounce_on_a_seam_taken_in_gives_a_wedge() -> None:
    """F5, arithmetic on the rule: the flounce of F3, taken in 1: 1 at the top, 1.56 below."""
    out = wedge(1, flounce_radius_mm(12, 72, 112), 12)
    assert out.top_mm == 1
    assert out.bottom_mm == pytest.approx(1.56, abs=PRINTED)


def test_five_gores_sum_back_to_the_round() -> None:
    """F6, BENN: waist 25, hip 40, bottom 81 with a front of 10.

    Slip of the book: it prints 17 1/2 for the other four at the bottom; (81 - 10) / 4
    is 17.75, and 17 1/2 would make the bottom 80.
    """
    assert gore_widths_mm(25, 5) == (5, 5, 5, 5, 5)
    assert gore_widths_mm(40, 5) == (8, 8, 8, 8, 8)
    assert gore_widths_mm(81, 5, front_mm=10) == (10, 17.75, 17.75, 17.75, 17.75)


def test_a_godet_adds_its_arc_to_the_hem() -> None:
    """F7, arithmetic on the rule: slit 10, angle 90 degrees: 10 x pi / 2 = 15.71."""
    assert godet_hem_mm(10, 90) == pytest.approx(15.71, abs=PRINTED)


def test_the_hem_of_a_circle_skirt_is_a_circle_round_the_same_middle() -> None:
    """Circle geometry: waist 2 pi x 4 at radius 4, 20 long: the hem is 2 pi x 24."""
    assert sweep_mm(2 * pi * 4, 1, 20) == pytest.approx(2 * pi * 24)


def test_a_part_of_no_depth_keeps_its_round() -> None:
    assert sweep_mm(660, 1 / 2, 0) == 660
    assert wedge(10, 100, 0).bottom_mm == 10


def test_nothing_changed_asks_for_nothing() -> None:
    assert cut_down_mm(0, 1) == 0
    assert (wedge(0, 100, 300).top_mm, wedge(0, 100, 300).bottom_mm) == (0, 0)


SIZES = st.floats(10, 3000)
TURNS = st.floats(0.05, 6)


@given(longer=st.floats(0, 500), turns=TURNS)
def test_trimming_an_edge_gains_exactly_what_was_wanted(longer: float, turns: float) -> None:
    assert edge_gain_mm(cut_down_mm(longer, turns), turns) == pytest.approx(longer)


@given(round_mm=SIZES, turns=TURNS, depth=SIZES)
def test_a_flounce_and_a_circle_skirt_are_one_shape(
    round_mm: float, turns: float, depth: float
) -> None:
    bottom = sweep_mm(round_mm, turns, depth)
    assert flounce_turns(depth, round_mm, bottom) == pytest.approx(turns, rel=1e-6)
    radius = flounce_radius_mm(depth, round_mm, bottom)
    assert radius == pytest.approx(inner_radius_mm(round_mm, turns), rel=1e-6)


@given(round_mm=SIZES, gores=st.integers(2, 24), share=st.floats(0, 0.9))
def test_gores_always_sum_back(round_mm: float, gores: int, share: float) -> None:
    assert sum(gore_widths_mm(round_mm, gores, round_mm * share)) == pytest.approx(round_mm)


@pytest.mark.parametrize(
    "nonsense",
    [
        lambda: inner_radius_mm(660, 0), lambda: inner_radius_mm(660, -1),
        lambda: inner_radius_mm(-660, 1), lambda: inner_radius_mm(60, 1, edge_mm=10),
        lambda: inner_radius_mm(float("nan"), 1), lambda: inner_radius_mm(660, float("inf")),
        lambda: sweep_mm(660, 0, 500), lambda: sweep_mm(660, 1, -1),
        lambda: flounce_radius_mm(12, 72, 72), lambda: flounce_radius_mm(12, 112, 72),
        lambda: flounce_turns(0, 72, 112), lambda: flounce_turns(12, 0, 112),
        lambda: cut_down_mm(-1, 1), lambda: cut_down_mm(1, 0), lambda: edge_gain_mm(-1, 1),
        lambda: wedge(-1, 100, 12), lambda: wedge(1, 0, 12), lambda: wedge(1, 100, -12),
        lambda: godet_hem_mm(0, 90), lambda: godet_hem_mm(10, 0), lambda: godet_hem_mm(10, 400),
        lambda: gore_widths_mm(81, 1), lambda: gore_widths_mm(81, 5, 81),
        lambda: gore_widths_mm(0, 5),
    ],
)  # fmt: skip
def test_nonsense_is_refused_in_words(nonsense: Callable[[], object]) -> None:
    with pytest.raises(NoCircle) as refused:
        nonsense()
    assert isinstance(refused.value, WorkroomError)
    assert len(str(refused.value)) > 20
