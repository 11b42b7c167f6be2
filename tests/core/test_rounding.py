"""Rounded moves are the best there are: every choice there is was tried beside them.

The judge below writes section 6 of the calculation down again in whole sixteenths (or
millimetres) and simply tries everything; nothing of it is shared with the program.
"""

from fractions import Fraction
from itertools import product

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from core.share.rounding import Group, round_level

INCH = 25.4
Two = tuple[Fraction, Fraction]
STEP, FINEST, BAND = Fraction(1, 8), Fraction(1, 16), Fraction(1, 4)


def inches(
    target: float, *groups: Group, band: float = 0.25, step: float = 0.125
) -> list[tuple[float, float]]:
    """Round in inches: the sums are the same in any unit."""
    rounded = round_level(target, groups, step=step, finest=step / 2, band=band)
    return [(round(first, 6), round(second, 6)) for first, second in rounded]


def test_a_move_on_a_mark_stays() -> None:
    assert inches(2.0, Group(0.5, (1, 1), 4)) == [(0.5, 0.5)]


def test_the_nearer_mark_is_taken() -> None:
    """Four edges of 0.3 make 1.2; at 1/4 they make 1, at 3/8 1 1/2."""
    assert inches(1.2, Group(0.3, (1, 1), 4)) == [(0.25, 0.25)]


def test_the_total_counts_before_the_nearest_marks() -> None:
    """S5 per half, arithmetic on the source: six edges of 1/3 must make 2.

    Three seams of two edges: two seams at 3/8 and one at 1/4; the larger to the earlier.
    """
    seams = [Group(1 / 3, (1, 1), 2, pairs=True)] * 3
    assert inches(2.0, *seams) == [(0.375, 0.375), (0.375, 0.375), (0.25, 0.25)]


def test_five_pieces_at_three_eighths_leave_an_eighth_a_half_missing() -> None:
    """S6, arithmetic on the source: 2 over five is 0.4; 5 x 3/8 = 1 7/8, an eighth short."""
    ((each, _),) = inches(2.0, Group(0.4, (1, 1), 5))
    assert each == 0.375
    assert 2.0 - 5 * each == 0.125


def test_twelve_edges_between_two_marks_never_drift_by_three_quarters() -> None:
    """S12, arithmetic on the source: each rounded by itself, 12 x 1/16 = 3/4 is lost."""
    rounded = inches(2.25, *[Group(3 / 16, (1, 1), 4, pairs=True)] * 3)
    total = sum(2 * (first + second) for first, second in rounded)
    assert abs(total - 2.25) <= 0.25


def test_an_edge_at_its_limit_may_stop_on_the_finest_mark_under_it() -> None:
    """A limit of 9/16: 1/2 is the step under it, 9/16 the mark."""
    assert inches(2.25, Group(0.5625, (0.5625, 0.5625), 4)) == [(0.5625, 0.5625)]
    assert inches(2.4, Group(0.6, (0.6, 0.6), 4)) == [(0.5625, 0.5625)]


@pytest.mark.parametrize("under_mm", [0, 5e-7, 1e-6, 1.5e-6, 2e-6, 3.1e-6, 1e-5, 1e-3])
def test_a_limit_a_hair_under_a_step_gives_that_step_or_the_mark_under_it(under_mm: float) -> None:
    """1/2 in less a hair, to be marked in eighths: 1/2, or 7/16; never nothing at all."""
    limit = 12.7 - under_mm
    group = Group(limit, (limit, limit), 4, pairs=True)
    ((first, second),) = round_level(50.8, [group], step=3.175, finest=1.5875, band=6.35)
    assert first == second
    assert first == pytest.approx(12.7) or first == pytest.approx(11.1125)
    assert first <= limit + 1e-6


def test_an_edge_that_is_not_at_its_limit_keeps_to_the_steps() -> None:
    assert inches(2.2, Group(0.55, (0.5625, 0.5625), 4)) == [(0.5, 0.5)]


def test_two_edges_stay_alike_where_the_total_is_inside_the_band() -> None:
    """Four edges of 5/16: 1 or 1 1/2 for 1 1/4, a quarter off: the band's edge belongs to it."""
    ((first, second),) = inches(1.25, Group(0.3125, (1, 1), 4, pairs=True))
    assert first == second


def test_two_edges_go_apart_only_where_the_total_would_miss_by_more() -> None:
    """The same with a band of 1/8: 1/4 and 3/8 make 2 x 5/8 = 1 1/4; the second is larger."""
    assert inches(1.25, Group(0.3125, (1, 1), 4, pairs=True), band=0.125) == [(0.25, 0.375)]


def test_the_first_edge_takes_the_larger_where_only_it_has_room() -> None:
    group = Group(0.3125, (1, 0.33), 4, pairs=True)
    assert inches(1.25, group, band=0.1) == [(0.375, 0.25)]


def test_a_darts_legs_are_never_parted() -> None:
    ((first, second),) = inches(1.25, Group(0.3125, (1, 1), 4), band=0.0)
    assert first == second


def test_in_millimetres_the_step_is_five_and_the_finest_mark_one() -> None:
    """33 over four edges: 8 1/4 each; 5 makes 20 and 10 makes 40."""
    groups = [Group(8.25, (30, 30), 4), Group(7.4, (7.4, 7.4), 2)]
    rounded = round_level(4 * 8.25 + 2 * 7.4, groups, step=5, finest=1, band=6)
    # 47.8 wanted: 10 and 5 make 50, 10 and 7 make 54, 5 and 7 make 34, 5 and 5 make 30
    assert rounded == [(10, 10), (5, 5)]


def _below(value: Fraction, mark: Fraction) -> Fraction:
    return value // mark * mark


def _choices(exact: Fraction, limits: Two, pairs: bool, parted: bool) -> list[Two]:
    low = _below(exact, STEP)
    high = low if low == exact else low + STEP
    found = [one for one in {low, high} if one <= min(limits)]
    if exact >= min(limits):
        found.append(_below(min(limits), FINEST))
    choices = [(one, one) for one in set(found)]
    if parted and pairs and low != high:
        if high <= limits[1]:
            choices.append((low, high))
        elif high <= limits[0]:
            choices.append((high, low))
    return choices


def _tried(
    target: Fraction, groups: list[tuple[Fraction, Two, int, bool]], parted: bool
) -> tuple[Fraction, tuple[Two, ...]]:
    """Return the best of all choices and by how much it misses."""

    def worth(stops: tuple[Two, ...]) -> tuple[Fraction, Fraction, list[Fraction]]:
        total = sum(Fraction(group[2], 2) * (one + two)
                    for group, (one, two) in zip(groups, stops, strict=True))  # fmt: skip
        squares = sum(Fraction(group[2], 2) * ((one - group[0]) ** 2 + (two - group[0]) ** 2)
                      for group, (one, two) in zip(groups, stops, strict=True))  # fmt: skip
        return abs(total - target), Fraction(squares), [-one - two for one, two in stops]

    best = min(product(*(_choices(*group[:2], group[3], parted) for group in groups)), key=worth)
    return worth(best)[0], best


@st.composite
def levels(draw: st.DrawFn) -> tuple[Fraction, list[tuple[Fraction, Two, int, bool]]]:
    thirty_seconds = st.integers(0, 40).map(lambda n: Fraction(n, 32))
    groups = []
    for _ in range(draw(st.integers(1, 5))):
        exact = draw(thirty_seconds)
        rooms = [exact + draw(st.sampled_from([0, 0, 1, 2, 5, 40])) * Fraction(1, 32)
                 for _ in range(2)]  # fmt: skip
        pairs = draw(st.booleans())
        limits = (rooms[0], rooms[1]) if pairs else (rooms[0], rooms[0])
        count = draw(st.sampled_from([2, 4])) if pairs else draw(st.sampled_from([1, 2, 4]))
        groups.append((exact, limits, count, pairs))
    total = sum(exact * count for exact, _, count, _ in groups)
    return total + draw(st.integers(-8, 8)) * Fraction(1, 32), groups


@settings(max_examples=300, deadline=None)
@given(level=levels(), band=st.sampled_from([Fraction(0), Fraction(1, 8), BAND]))
def test_no_other_choice_comes_nearer(
    level: tuple[Fraction, list[tuple[Fraction, Two, int, bool]]], band: Fraction
) -> None:
    target, groups = level
    miss, best = _tried(target, groups, parted=False)
    if miss > band and any(pairs for *_, pairs in groups):
        miss, best = _tried(target, groups, parted=True)
    rounded = round_level(
        float(target) * INCH,
        [Group(float(exact) * INCH, (float(limits[0]) * INCH, float(limits[1]) * INCH), count,
               pairs) for exact, limits, count, pairs in groups],
        step=3.175, finest=1.5875, band=float(band) * INCH,
    )  # fmt: skip
    assert [(one / INCH, two / INCH) for one, two in rounded] == [
        pytest.approx((float(one), float(two))) for one, two in best
    ]


@settings(max_examples=200, deadline=None)
@given(level=levels())
def test_no_edge_is_moved_beyond_its_limit(
    level: tuple[Fraction, list[tuple[Fraction, Two, int, bool]]],
) -> None:
    target, groups = level
    rounded = round_level(
        float(target),
        [Group(float(exact), (float(limits[0]), float(limits[1])), count, pairs)
         for exact, limits, count, pairs in groups],
        step=0.125, finest=0.0625, band=0.1,
    )  # fmt: skip
    for (one, two), (_, limits, _, _) in zip(rounded, groups, strict=True):
        assert one <= float(limits[0]) + 1e-6
        assert two <= float(limits[1]) + 1e-6
