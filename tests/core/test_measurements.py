"""She is asked for what the garment needs, in the order the client stands, and for no more.

The numbers and minutes are the last rows of the workroom's own table of what to take (bench
practice without a published source).  Every column of that table was added up by hand and
agrees with its last rows, with the heel of the day counted as one number; no column slips.
"""

import re

import pytest

from core.body.measurements import (
    catalogue,
    kinds,
    label_of,
    minutes,
    needed_for,
    numbers_to_take,
    places,
    tape_error_mm,
)
from core.errors import NotFound

LAST_ROWS = {
    "sheath_dress": (32, 15, 10),
    "princess_gown": (37, 17, 11),
    "fishtail_gown": (40, 19, 12),
    "pencil_skirt": (15, 8, 6),
    "gored_skirt": (12, 7, 5),
    "sleeved_bodice": (38, 18, 12),
    "trousers": (22, 11, 8),
}
"""Kind: numbers to take, minutes alone, minutes with someone writing."""

LEVELS = {
    "sheath_dress": "bust_girth bust_front_arc side_neck_to_bust_point waist_girth waist_front_arc"
    " side_neck_to_waist_front top_hip_girth hip_girth hip_front_arc armscye_girth",
    "princess_gown": "bust_girth bust_front_arc side_neck_to_bust_point under_bust_girth"
    " side_neck_to_under_bust waist_girth waist_front_arc side_neck_to_waist_front top_hip_girth"
    " hip_girth hip_front_arc armscye_girth",
    "fishtail_gown": "upper_arm_girth bust_girth bust_front_arc side_neck_to_bust_point"
    " under_bust_girth side_neck_to_under_bust waist_girth waist_front_arc hip_girth hip_front_arc"
    " side_neck_to_waist_front top_hip_girth thighs_together_girth stride_girth off_shoulder_girth",
    "pencil_skirt": "waist_girth waist_front_arc top_hip_girth waist_to_top_hip hip_girth"
    " hip_front_arc waist_to_hip",
    "gored_skirt": "waist_girth waist_front_arc top_hip_girth waist_to_top_hip hip_girth"
    " hip_front_arc waist_to_hip",
    "sleeved_bodice": "upper_arm_girth bust_girth bust_front_arc side_neck_to_bust_point"
    " under_bust_girth side_neck_to_under_bust elbow_girth waist_girth waist_front_arc"
    " side_neck_to_waist_front wrist_girth armscye_girth shoulder_length",
    "trousers": "waist_girth waist_front_arc top_hip_girth waist_to_top_hip hip_girth hip_front_arc"
    " waist_to_hip thigh_girth knee_girth waist_to_knee total_crotch_length body_rise",
}
"""What the worked drafts of each kind are set against.

Their ``top_hip_front_arc`` and ``under_bust_front_arc`` are left out: the table of what to
take does not ask for them.
"""

RARE = """neck_girth chest_girth mid_thigh_girth across_back_shoulder_width front_neck_to_waist
    side_waist_to_hip back_neck_to_wrist_length torso_height trunk_circumference ankle_height height
    top_hip_front_arc under_bust_front_arc armhole_depth half_front_width half_back_width
    shoulder_to_off_shoulder_line"""
"""Measurements no kind asks for, which she may still want."""

CLAUSES = {
    "height": "5.1.1", "neck_girth": "5.3.2", "neck_base_girth": "5.3.3", "bust_girth": "5.3.4",
    "under_bust_girth": "5.3.8", "waist_girth": "5.3.10", "top_hip_girth": "5.3.12",
    "hip_girth": "5.3.13", "upper_arm_girth": "5.3.16", "wrist_girth": "5.3.19",
    "thigh_girth": "5.3.20", "mid_thigh_girth": "5.3.21", "knee_girth": "5.3.22",
    "calf_girth": "5.3.24", "across_back_shoulder_width": "5.4.3", "back_neck_to_waist": "5.4.5",
    "back_neck_to_wrist_length": "5.4.17", "outer_arm_length": "5.7.8",
}  # fmt: skip
"""ISO 8559-1:2017, as listings that quote the standard number them; not from its own text."""


def asked(kind: str) -> list[str]:
    return [request.measurement.id for request in needed_for(kind)]


@pytest.mark.parametrize("kind", LAST_ROWS)
def test_a_kind_asks_for_as_many_numbers_as_the_table_says(kind: str) -> None:
    assert numbers_to_take(kind) == LAST_ROWS[kind][0]


@pytest.mark.parametrize("kind", LAST_ROWS)
def test_measuring_takes_the_minutes_the_table_says(kind: str) -> None:
    assert (minutes(kind, helper=False), minutes(kind, helper=True)) == LAST_ROWS[kind][1:]


def test_every_kind_has_its_list() -> None:
    assert set(kinds()) == set(LAST_ROWS)


@pytest.mark.parametrize("kind", LAST_ROWS)
def test_she_goes_from_place_to_place_once(kind: str) -> None:
    order = list(places())
    stood = [order.index(request.measurement.place) for request in needed_for(kind)]
    assert stood == sorted(stood)


@pytest.mark.parametrize("kind", LAST_ROWS)
def test_nothing_is_asked_twice(kind: str) -> None:
    assert len(asked(kind)) == len(set(asked(kind)))


@pytest.mark.parametrize("kind", LAST_ROWS)
def test_only_what_the_body_has_two_of_is_asked_left_and_right(kind: str) -> None:
    for request in needed_for(kind):
        assert request.sides in ((None,), ("left", "right"))
        assert request.numbers == 1 or request.measurement.both_sides


@pytest.mark.parametrize("kind", LEVELS)
def test_what_the_garment_is_set_against_is_asked_for(kind: str) -> None:
    assert set(LEVELS[kind].split()) <= set(asked(kind))


@pytest.mark.parametrize(
    ("kind", "foreign"),
    [
        ("trousers", "bust_girth"), ("gored_skirt", "seated_hip_girth"),
        ("pencil_skirt", "body_rise"),
        ("sleeved_bodice", "hip_girth"), ("fishtail_gown", "armscye_girth"),
        ("sheath_dress", "under_bust_girth"), ("princess_gown", "seated_hip_girth"),
    ],
)  # fmt: skip
def test_what_only_another_kind_needs_is_not_asked_for(kind: str, foreign: str) -> None:
    assert foreign not in asked(kind)


def test_the_gored_skirt_is_taken_in_this_order() -> None:
    """Its column read down the table; 12 numbers with both sides at the floor."""
    assert asked("gored_skirt") == [
        "heel_of_the_day", "waist_girth", "top_hip_girth", "hip_girth", "waist_front_arc",
        "hip_front_arc", "waist_to_top_hip", "waist_to_hip", "waist_to_floor_front",
        "waist_to_floor_side", "waist_to_floor_back",
    ]  # fmt: skip


def test_the_pencil_skirt_is_taken_in_this_order() -> None:
    """Its column read down the table; 15 numbers."""
    assert asked("pencil_skirt") == [
        "heel_of_the_day", "waist_girth", "top_hip_girth", "hip_girth", "waist_front_arc",
        "hip_front_arc", "waist_to_top_hip", "waist_to_hip", "waist_to_seat_back",
        "thighs_together_girth", "waist_to_thighs", "knees_together_girth", "stride_girth",
        "waist_to_knee", "seated_hip_girth",
    ]  # fmt: skip


def test_an_unknown_kind_is_named() -> None:
    with pytest.raises(NotFound, match="cape"):
        needed_for("cape")


def test_the_rare_measurements_are_there_and_never_asked_unwanted() -> None:
    wanted_by_some = {name for kind in kinds() for name in asked(kind)}
    assert set(RARE.split()) == set(catalogue()) - wanted_by_some


def test_a_measurement_says_how_it_is_taken_in_one_line() -> None:
    for measurement in catalogue().values():
        assert re.fullmatch(r"[A-Z][^\n]{15,120}\.", measurement.how), measurement.id
        assert measurement.place in places()
        assert measurement.label


def test_labels_are_told_apart() -> None:
    labels = [measurement.label for measurement in catalogue().values()]
    assert len(labels) == len(set(labels))


def test_clauses_stand_only_where_a_listing_gave_them() -> None:
    found = {name: entry.clause for name, entry in catalogue().items() if entry.clause}
    assert found == CLAUSES


def test_every_range_is_wide_and_the_right_way_round() -> None:
    for measurement in catalogue().values():
        least, most = measurement.range_mm
        assert least >= 0, measurement.id
        assert most >= 1.5 * least, measurement.id


@pytest.mark.parametrize(
    ("name", "mm"),
    [
        ("bust_girth", 10), ("waist_girth", 10), ("hip_girth", 10), ("thighs_together_girth", 10),
        ("upper_arm_girth", 5), ("wrist_girth", 5), ("back_neck_to_waist", 5),
        ("shoulder_length", 5), ("height", 5), ("bust_front_arc", 5),
        ("cape_hem_girth", 10), ("cape_length", 5),
    ],
)  # fmt: skip
def test_the_tape_is_trusted_to_its_group(name: str, mm: float) -> None:
    """10 mm on large girths, 5 mm on the rest: a working default, no source."""
    assert tape_error_mm(name) == mm


def test_a_measurement_of_her_own_is_still_called_something() -> None:
    assert label_of("cape_hem_girth") == "Cape hem girth"
    assert label_of("under_bust_girth") == "Under-bust"


def test_the_catalogue_cannot_be_changed_by_who_reads_it() -> None:
    with pytest.raises(TypeError):
        catalogue()["waist_girth"] = catalogue()["hip_girth"]  # type: ignore[index]
