"""What is taken is written down at every key, and stays as she typed it.

Expected values are hand sums on 1 in = 25.4 mm exactly.
"""

from copy import deepcopy
from typing import Any

import pytest

from core.body.sitting import (
    as_begun,
    both_sides,
    new_sitting,
    readings,
    set_value,
    set_waist_found,
    set_worn,
    sitting_of,
    skip,
    skipped,
    take_away,
    take_both_sides,
    typed,
    value_mm,
)
from core.body.tape_order import Number
from core.errors import BadLength
from core.file.fitting_file import read_document

TODAY = "2026-05-14"
WAIST = Number("waist_girth")
LEFT_ARM, RIGHT_ARM = Number("upper_arm_girth", "left"), Number("upper_arm_girth", "right")


def somebody(*measurements: dict[str, Any], unit: str = "in") -> dict[str, Any]:
    return {
        "format": "pins-to-seams/1",
        "unit": unit,
        "client": {"id": "invented", "name": "Invented"},
        "measurements": list(measurements),
        "garments": [],
    }


MARCH = {"on": "2026-03-02", "worn": {"foundation": "long-line bra", "heel": "2 1/2"},
         "waist_found": "natural", "values": {"waist_girth": "33"}}  # fmt: skip


def values(client: dict[str, Any]) -> Any:
    return sitting_of(client, TODAY).get("values")


def taken(*texts: str, number: Number = WAIST, **file: Any) -> dict[str, Any]:
    client = somebody(**file)
    for reading, text in enumerate(texts):
        set_value(client, TODAY, number, text, reading)
    return client


def test_the_first_value_begins_a_sitting_in_what_she_wore_last() -> None:
    client = somebody(deepcopy(MARCH))
    set_value(client, TODAY, WAIST, "31 1/4")
    assert client["measurements"][0] == MARCH
    assert client["measurements"][1] == {
        "on": TODAY, "worn": {"foundation": "long-line bra", "heel": "2 1/2"},
        "waist_found": "natural", "values": {"waist_girth": "31 1/4"},
        "last_touched": "waist_girth",
    }  # fmt: skip


def test_before_the_first_key_she_sees_what_she_wore_last_and_nothing_is_begun() -> None:
    client = somebody(MARCH)
    kept = deepcopy(client)
    there = as_begun(client, TODAY)
    assert (there["worn"]["heel"], there["waist_found"]) == ("2 1/2", "natural")
    assert there["values"] == {}
    assert client == kept
    set_worn(client, TODAY, foundation="none", heel="3")
    assert as_begun(client, TODAY)["worn"] == {"foundation": "none", "heel": "3"}
    assert as_begun(somebody(), TODAY)["worn"] == {}


def test_what_is_worn_now_does_not_change_what_was_worn_then() -> None:
    client = somebody(deepcopy(MARCH))
    set_worn(client, TODAY, foundation="corset", heel="")
    assert client["measurements"][0] == MARCH
    assert sitting_of(client, TODAY)["worn"] == {"foundation": "corset"}


def test_a_heel_that_is_no_height_changes_nothing() -> None:
    client = somebody()
    for heel in ("high", "-2"):
        with pytest.raises(BadLength):
            set_worn(client, TODAY, foundation="corset", heel=heel)
    assert client == somebody()


def test_the_worn_of_the_latest_day_is_taken_over_however_the_days_stand() -> None:
    earlier = {"on": "2025-09-12", "worn": {"foundation": "cotton"}, "values": {}}
    assert new_sitting(somebody(deepcopy(MARCH), earlier), TODAY)["worn"] == MARCH["worn"]


def test_every_key_is_saved_and_the_last_counts() -> None:
    client = somebody()
    for text in ("3", "31", "31 1/4"):
        set_value(client, TODAY, WAIST, text)
        assert values(client) == {"waist_girth": text}
    assert len(client["measurements"]) == 1
    assert value_mm(client, TODAY, WAIST) == 793.75


@pytest.mark.parametrize("text", ["79,5 cm", "31.25", "0"])
def test_what_was_typed_is_what_is_written(text: str) -> None:
    assert values(taken(text)) == {"waist_girth": text}


@pytest.mark.parametrize("text", ["thirty", "-1", "3 feet", "1000"])
def test_what_is_no_measurement_changes_nothing(text: str) -> None:
    client = taken("31")
    before = deepcopy(client)
    with pytest.raises(BadLength):
        set_value(client, TODAY, WAIST, text)
    assert client == before


def test_left_and_right_are_two_numbers() -> None:
    client = somebody()
    set_value(client, TODAY, LEFT_ARM, "11 1/8")
    assert values(client) == {"upper_arm_girth": {"left": "11 1/8"}}
    set_value(client, TODAY, RIGHT_ARM, "11 1/4")
    assert values(client) == {"upper_arm_girth": {"left": "11 1/8", "right": "11 1/4"}}
    set_value(client, TODAY, LEFT_ARM, "")
    assert values(client) == {"upper_arm_girth": {"right": "11 1/4"}}
    take_away(client, TODAY, RIGHT_ARM)
    assert values(client) == {}


def test_a_single_number_of_a_file_serves_both_sides_until_one_is_typed() -> None:
    client = somebody({"on": TODAY, "values": {"upper_arm_girth": "11"}})
    assert typed(client, TODAY, LEFT_ARM) == typed(client, TODAY, RIGHT_ARM) == "11"
    set_value(client, TODAY, LEFT_ARM, "11 1/4")
    assert values(client) == {"upper_arm_girth": {"left": "11 1/4", "right": "11"}}


def test_taking_both_sides_makes_the_value_her_left_s() -> None:
    client = taken("8", "8 1/8", number=Number("waist_to_hip"))
    take_both_sides(client, TODAY, "waist_to_hip")
    assert values(client) == {"waist_to_hip": {"left": "8 1/16"}}
    assert readings(client, TODAY, Number("waist_to_hip", "left")) == ("8", "8 1/8")
    assert both_sides(sitting_of(client, TODAY)) == ("waist_to_hip",)


def test_an_empty_text_takes_the_number_away() -> None:
    client = taken("31")
    set_value(client, TODAY, WAIST, "")
    assert (values(client), typed(client, TODAY, WAIST)) == ({}, "")


def test_of_two_readings_the_mean_is_kept_and_both_stay() -> None:
    """31 1/4 and 31 1/2: 31 3/8."""
    client = taken("31 1/4", "31 1/2")
    assert values(client) == {"waist_girth": "31 3/8"}
    assert readings(client, TODAY, WAIST) == ("31 1/4", "31 1/2")
    assert sitting_of(client, TODAY)["readings"] == {"waist_girth": ["31 1/4", "31 1/2"]}


def test_of_three_readings_the_two_nearest_are_kept() -> None:
    """33 is the slip: the mean of 31 1/4 and 31 1/2 stays."""
    assert values(taken("31 1/4", "33", "31 1/2")) == {"waist_girth": "31 3/8"}


def test_a_mean_is_written_exactly() -> None:
    """31 1/16 and 31 1/8 are 31 3/32; 79.5 and 79.6 cm are 79.55; 795 and 796 mm are 795.5."""
    assert values(taken("31 1/16", "31 1/8")) == {"waist_girth": "31 3/32"}
    assert values(taken("79.5 cm", "79.6 cm")) == {"waist_girth": "79.55 cm"}
    assert values(taken("795", "796", unit="mm")) == {"waist_girth": "795.5"}
    assert values(taken("79,5", "79,6", unit="cm")) == {"waist_girth": "79.55"}


def test_a_second_reading_that_is_only_begun_does_not_spoil_the_first() -> None:
    client = taken("31 1/4", "3")
    assert value_mm(client, TODAY, WAIST) == 793.75
    set_value(client, TODAY, WAIST, "31 1/2", 1)
    set_value(client, TODAY, WAIST, "3", 0)
    assert values(client) == {"waist_girth": "31 1/2"}


def test_a_small_length_may_differ_by_more_than_half() -> None:
    """A slope of 1/2 and one of 1 1/4: 7/8, and a third is asked for elsewhere."""
    slope = Number("shoulder_slope", "left")
    assert values(taken("1/2", "1 1/4", number=slope)) == {"shoulder_slope": {"left": "7/8"}}
    third = taken("1/2", "1 1/4", "1/2", number=slope)
    assert values(third) == {"shoulder_slope": {"left": "1/2"}}


def test_without_its_second_reading_the_first_is_the_value_again() -> None:
    client = taken("31 1/4", "31 1/2")
    set_value(client, TODAY, WAIST, "", 1)
    assert values(client) == {"waist_girth": "31 1/4"}
    assert "readings" not in sitting_of(client, TODAY)


def test_taking_a_number_away_takes_its_readings_with_it() -> None:
    client = taken("31 1/4", "31 1/2")
    take_away(client, TODAY, WAIST)
    assert (values(client), readings(client, TODAY, WAIST)) == ({}, ())


def test_a_skipped_number_is_remembered_until_it_is_taken() -> None:
    client = somebody()
    skip(client, TODAY, WAIST)
    skip(client, TODAY, WAIST)
    skip(client, TODAY, LEFT_ARM)
    assert skipped(sitting_of(client, TODAY)) == ("waist_girth", "upper_arm_girth:left")
    set_value(client, TODAY, WAIST, "31")
    assert skipped(sitting_of(client, TODAY)) == ("upper_arm_girth:left",)
    skip(client, TODAY, WAIST)
    assert values(client) == {"waist_girth": "31"}
    assert skipped(sitting_of(client, TODAY)) == ("upper_arm_girth:left",)


def test_a_second_sitting_of_a_day_is_one_of_its_own() -> None:
    client = taken("31")
    new_sitting(client, TODAY)
    set_value(client, TODAY, WAIST, "30")
    assert [entry["values"] for entry in client["measurements"]] == [
        {"waist_girth": "31"}, {"waist_girth": "30"},
    ]  # fmt: skip


def test_a_file_with_everything_in_it_is_still_read_by_all_else() -> None:
    client = taken("31 1/4", "31 1/2")
    skip(client, TODAY, LEFT_ARM)
    take_both_sides(client, TODAY, "waist_to_hip")
    set_value(client, TODAY, Number("waist_to_hip", "left"), "8")
    set_waist_found(client, TODAY, "narrowest")
    sitting = read_document(client).sittings[-1]
    assert sitting.values["waist_girth"].left == 31.375 * 25.4
    assert sitting.values["waist_to_hip"].on("right") is None


@pytest.mark.parametrize("field", ["readings", "skipped", "both_sides", "last_touched", "values"])
@pytest.mark.parametrize("odd", [None, [], {}])
def test_an_odd_field_of_ours_is_as_none(field: str, odd: object) -> None:
    client = somebody({"on": TODAY, field: odd})
    set_value(client, TODAY, WAIST, "31")
    assert values(client) == {"waist_girth": "31"}
