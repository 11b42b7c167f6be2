"""The hem hangs as wanted in the shoes of the day, as the published cases say.

Inches, as published; the sums hold in any one unit.  Source: the published hem and length
values, each a sum on the rule ``on the day = floor to hem now + heel of the day - heel worn``.
"""

from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from core.records.fitting import HemLog, HemReading
from core.said.hem import HemChange, hem_changes, on_the_day_mm
from tests.garments import pinned, planned, worked


def one_point(floor: float, wanted: float, holds: float = 3.0) -> HemLog:
    return HemLog(wanted=wanted, holds=holds, points=(HemReading("front", floor),))


def only(changes: tuple[HemChange, ...]) -> HemChange:
    (change,) = changes
    return change


def test_a_lower_heel_on_the_day_hangs_lower_and_is_taken_up() -> None:
    """Measured in 4 for a day in 2 1/2: hangs 1 1/2 lower, take up 1 1/2 to keep the clearance."""
    assert on_the_day_mm(9, 4, 2.5) == 7.5
    assert only(hem_changes(one_point(9, wanted=9), 4, 2.5)).change_mm == -1.5


def test_a_higher_heel_on_the_day_hangs_higher_and_is_let_down() -> None:
    """Measured in 2 1/2 for a day in 4: hangs 1 1/2 higher."""
    assert on_the_day_mm(9, 2.5, 4) == 10.5
    assert only(hem_changes(one_point(9, wanted=9), 2.5, 4)).change_mm == 1.5


def test_eight_points_round_the_hem_each_get_their_own_change() -> None:
    """9 wanted: drop 1/4, 0, raise 1/4, 0, drop 1/4, drop 1/8, 0, 0."""
    floors = [9.25, 9, 8.75, 9, 9.25, 9.125, 9, 9]
    points = tuple(HemReading(f"point {place}", floor) for place, floor in enumerate(floors, 1))
    changes = hem_changes(HemLog(wanted=9, holds=2, points=points), 2.5, 2.5)
    assert [change.change_mm for change in changes] == [0.25, 0, -0.25, 0, 0.25, 0.125, 0, 0]
    assert [change.at for change in changes] == [point.at for point in points]


def test_a_gown_let_down_beyond_what_its_hem_holds_is_told_short() -> None:
    change = only(hem_changes(one_point(4, wanted=1, holds=2), None, None))
    assert (change.change_mm, change.move_mm, change.short_mm) == (3, 2, 1)


def test_the_whole_of_what_the_hem_holds_may_be_let_down() -> None:
    change = only(hem_changes(one_point(3, wanted=1, holds=2), None, None))
    assert (change.move_mm, change.short_mm) == (2, 0)


def test_a_hem_that_holds_nothing_can_still_be_taken_up() -> None:
    change = only(hem_changes(one_point(0.5, wanted=1, holds=0), None, None))
    assert (change.move_mm, change.short_mm) == (-0.5, 0)


def test_the_train_and_what_is_not_measured_yet_are_skipped() -> None:
    points = (
        HemReading("front", 1.0),
        HemReading("left side", None),
        HemReading("back", None, train=True),
        HemReading("left of the train", 4.0, train=True),
    )
    changes = hem_changes(HemLog(wanted=1, holds=2, points=points), 3, 3)
    assert [change.at for change in changes] == ["front"]


@pytest.mark.parametrize(("worn", "of_the_day"), [(None, 3.0), (3.0, None), (None, None)])
def test_where_a_heel_is_not_known_both_are_taken_as_the_same(
    worn: float | None, of_the_day: float | None
) -> None:
    assert on_the_day_mm(9, worn, of_the_day) == 9


@given(
    floor=st.integers(0, 500), wanted=st.integers(0, 500), holds=st.integers(0, 100),
    worn=st.integers(0, 150), day=st.integers(0, 150),
)  # fmt: skip
def test_what_is_moved_and_what_is_short_are_the_whole_change(
    floor: int, wanted: int, holds: int, worn: int, day: int
) -> None:
    change = only(hem_changes(one_point(floor, wanted, holds), worn, day))
    assert change.move_mm + change.short_mm == change.change_mm
    assert change.move_mm <= holds
    assert change.short_mm >= 0
    assert change.on_the_day_mm - change.change_mm == wanted  # as wanted once it is sewn


def hem_told(**hem: Any) -> list[str]:
    """What is told of the hem of the worked dress, in inches, by its points' floors."""
    file = pinned(worked(), {"seam": "side", "side": "both", "level": "waist", "pinch": "1/4"})
    file["garments"][0]["fittings"][0]["hem"] = {"wanted": "9", "holds": "2", **hem}
    return [entry.text for entry in planned(file).follows if entry.what == "hem"]


ROUND = ("front", "left side", "back", "right side")


def floors(**at: str) -> list[dict[str, Any]]:
    return [{"at": name, "floor": floor} for name, floor in at.items()]


def test_a_hem_that_measures_the_same_all_round_is_told_once() -> None:
    told = hem_told(points=floors(**dict.fromkeys(ROUND, "9 1/4")))
    assert told == [
        "Hem: the heel she wears now and the heel of the day are not said; the floor is counted as"
        " it is.",
        "Hem, all round: let down 1/4.",
    ]


@pytest.mark.parametrize("back", ["9", None, "train", "not among them"])
def test_a_hem_that_differs_or_is_not_measured_all_round_is_told_point_by_point(
    back: str | None,
) -> None:
    points = floors(**dict.fromkeys(ROUND, "9 1/4"))
    if back == "train":
        points[2] = {"at": "back", "train": True}
    elif back == "not among them":
        del points[2]
    else:
        points[2] = {"at": "back", **({"floor": back} if back else {})}
    told = hem_told(points=points)
    assert told[1] == "Hem, front: let down 1/4."
    assert not any("all round" in each for each in told)
