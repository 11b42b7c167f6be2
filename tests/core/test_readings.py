"""Two readings that agree are averaged; a pair far apart asks for a third, which settles it.

Expected values are hand sums; 3/8 in is 9.525 mm.
"""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from core.body.readings import NoReading, asks_for_third, kept_mm, own_error_mm

MM = st.floats(100, 2000)


@pytest.mark.parametrize(
    ("first", "second", "third"),
    [(700, 700, False), (700, 709.5, False), (700, 709.525, False), (700, 709.6, True),
     (709.6, 700, True), (711.2, 711.2 + 9.525, False)],
)  # fmt: skip
def test_a_pair_over_three_eighths_apart_asks_for_a_third(
    first: float, second: float, third: bool
) -> None:
    assert asks_for_third(first, second) is third


@pytest.mark.parametrize(
    ("readings", "kept"),
    [
        ([700.0], 700), ([700, 706], 703), ([700, 712, 701], 700.5), ([712, 700, 711], 711.5),
        ([700, 710, 720], 710), ([700, 700, 800], 700), ([725, 700, 699], 699.5),
    ],
)  # fmt: skip
def test_the_value_kept_is_the_mean_of_those_that_agree(readings: list[float], kept: float) -> None:
    assert kept_mm(readings) == pytest.approx(kept)


@given(readings=st.lists(MM, min_size=1, max_size=3), turned=st.permutations([0, 1, 2]))
def test_the_order_of_reading_makes_no_difference_and_it_lies_between(
    readings: list[float], turned: list[int]
) -> None:
    shuffled = [readings[place] for place in turned if place < len(readings)]
    assert kept_mm(shuffled) == pytest.approx(kept_mm(readings))
    assert min(readings) - 1e-9 <= kept_mm(readings) <= max(readings) + 1e-9


@given(true=MM, slip=st.floats(30, 200), small=st.floats(0, 5))
def test_one_slip_of_three_leaves_no_trace(true: float, slip: float, small: float) -> None:
    assert kept_mm([true, true + slip, true + small]) == pytest.approx(true + small / 2)


def test_nothing_read_gives_no_value() -> None:
    with pytest.raises(NoReading):
        kept_mm([])


def test_her_own_error_is_the_technical_error_of_measurement() -> None:
    """sqrt(sum d^2 / 2N): differences 3 and 4: sqrt(25 / 4) = 2.5; 2 alone: sqrt(4 / 2)."""
    assert own_error_mm([(700, 703), (904, 900)]) == pytest.approx(2.5)
    assert own_error_mm([(700, 702)]) == pytest.approx(2**0.5)


def test_readings_that_always_agree_have_no_error() -> None:
    assert own_error_mm([(700, 700), (905, 905)]) == 0


def test_her_own_error_needs_a_pair() -> None:
    with pytest.raises(NoReading):
        own_error_mm([])
