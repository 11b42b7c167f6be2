"""One number at a time: she sees where she is, what it was last time, and goes on where she left.

Expected values are hand sums on 1 in = 25.4 mm exactly.
"""

import re
from copy import deepcopy
from typing import Any

import pytest

from core.body.measurements import catalogue, kinds, numbers_to_take
from core.body.sitting import (
    new_sitting,
    put_in_hand,
    set_value,
    sitting_of,
    skip,
    take_away,
    take_both_sides,
)
from core.body.taking import after, before, come_back, go_on, numbers_of, page_of, spoken, taking_of
from core.body.tape_order import Number, measurements_for, moved, put_order
from core.file.fitting_file import dump, parse, read_document
from core.lengths import Unit

TODAY = "2026-05-14"
WAIST, HIP = Number("waist_girth"), Number("hip_girth")
SIDE_LEFT, SIDE_RIGHT = (Number("waist_to_floor_side", side) for side in ("left", "right"))  # type: ignore[arg-type]
SKIRT = ["gored_skirt"]
KEYS = ["heel_of_the_day", "waist_girth", "top_hip_girth", "hip_girth", "waist_front_arc",
        "hip_front_arc", "waist_to_top_hip", "waist_to_hip", "waist_to_floor_front",
        "waist_to_floor_side:left", "waist_to_floor_side:right", "waist_to_floor_back"]  # fmt: skip
"""The twelve numbers of column G of the workroom's table, in the order she stands."""


def somebody(*measurements: dict[str, Any], unit: Unit = "in") -> dict[str, Any]:
    return {
        "format": "pins-to-seams/1",
        "unit": unit,
        "client": {"id": "invented", "name": "Invented"},
        "measurements": list(measurements),
        "garments": [],
    }


MARCH = {"on": "2026-03-02", "values": {"waist_girth": "33", "hip_girth": "42"}}


def with_taken(client: dict[str, Any], *numbers: Number) -> dict[str, Any]:
    for number in numbers:
        set_value(client, TODAY, number, "31 1/4")
    return client


def going_on(client: dict[str, Any]) -> Number | None:
    """Where to go on, as it is read from the file after the battery died."""
    again = read_document(parse(dump(client).encode(), "client")).data
    return go_on(again, TODAY, numbers_of(again, TODAY, SKIRT))


def test_a_skirt_asks_for_twelve_numbers_left_before_right() -> None:
    assert [number.key for number in numbers_of(somebody(), TODAY, SKIRT)] == KEYS


@pytest.mark.parametrize("kind", kinds())
def test_each_kind_asks_for_as_many_as_its_table_says(kind: str) -> None:
    assert taking_of(somebody(), TODAY, [kind], "in").total == numbers_to_take(kind)


def test_progress_counts_numbers_and_not_what_is_skipped() -> None:
    client = with_taken(somebody(), WAIST, HIP, SIDE_LEFT)
    skip(client, TODAY, SIDE_RIGHT)
    taking = taking_of(client, TODAY, SKIRT, "in")
    assert (taking.progress, taking.skipped) == ("3 of 12 taken", 1)


def test_the_list_says_where_she_stands_once_for_each_place() -> None:
    rows = taking_of(somebody(), TODAY, SKIRT, "in").rows
    headings = [(row.number.key, row.heading) for row in rows if row.heading]
    assert headings == [
        ("heel_of_the_day", "Before she starts"), ("waist_girth", "Facing her"),
        ("waist_to_top_hip", "At her side"), ("waist_to_floor_front", "Kneeling"),
    ]  # fmt: skip


def test_the_list_shows_what_is_taken_skipped_and_still_to_take() -> None:
    client = with_taken(somebody(), WAIST)
    skip(client, TODAY, HIP)
    said = {row.label: (row.state, row.words) for row in taking_of(client, TODAY, SKIRT, "cm").rows}
    assert said["Waist"] == ("taken", "79.4")
    assert said["Hip"] == ("skipped", "skipped")
    assert said["Waist to floor, side, left"] == ("to take", "to take")


def test_last_times_values_are_not_taken_for_todays() -> None:
    assert taking_of(somebody(MARCH), TODAY, SKIRT, "in").taken == 0


def test_a_second_sitting_of_the_day_begins_with_nothing_taken() -> None:
    client = with_taken(somebody(), WAIST)
    new_sitting(client, TODAY)
    assert taking_of(client, TODAY, SKIRT, "in").taken == 0


def test_what_else_was_taken_today_is_not_hidden() -> None:
    client = with_taken(somebody(), WAIST, Number("upper_arm_girth", "left"), Number("tail_length"))
    numbers = [number.key for number in numbers_of(client, TODAY, SKIRT)]
    assert numbers[len(KEYS):] == [
        "upper_arm_girth:left", "upper_arm_girth:right", "tail_length"]  # fmt: skip
    assert taking_of(client, TODAY, SKIRT, "in").rows[-1].heading == "Others"


def test_next_goes_past_what_is_taken_or_skipped_and_begins_again_at_the_end() -> None:
    client = with_taken(somebody(), Number("top_hip_girth"))
    skip(client, TODAY, HIP)
    numbers = numbers_of(client, TODAY, SKIRT)
    assert after(client, TODAY, numbers, WAIST) == Number("waist_front_arc")
    assert after(client, TODAY, numbers, numbers[-1]) == Number("heel_of_the_day")
    assert before(numbers, HIP) == Number("top_hip_girth")
    assert before(numbers, numbers[0]) is None


def test_after_the_last_one_there_is_no_next() -> None:
    numbers = numbers_of(somebody(), TODAY, SKIRT)
    client = with_taken(somebody(), *numbers[:-1])
    assert after(client, TODAY, numbers, numbers[0]) == numbers[-1]
    assert after(client, TODAY, numbers, numbers[-1]) is None
    assert going_on(with_taken(client, numbers[-1])) is None


def test_a_new_sitting_begins_at_the_first_number() -> None:
    assert going_on(somebody(MARCH)) == Number("heel_of_the_day")


def test_after_a_battery_died_she_goes_on_after_the_number_touched_last() -> None:
    client = with_taken(somebody(MARCH), HIP)
    assert going_on(client) == Number("waist_front_arc")
    skip(client, TODAY, Number("waist_front_arc"))
    assert going_on(client) == Number("hip_front_arc")
    with_taken(client, SIDE_LEFT)
    assert going_on(client) == SIDE_RIGHT
    with_taken(client, Number("waist_to_floor_back"))
    assert going_on(client) == Number("heel_of_the_day")


def test_a_number_taken_away_is_where_she_goes_on() -> None:
    client = with_taken(somebody(), WAIST, HIP)
    take_away(client, TODAY, WAIST)
    assert going_on(client) == WAIST


def test_her_own_order_is_the_order_of_going_on() -> None:
    client = somebody()
    usual = measurements_for(client, SKIRT)
    put_order(client, SKIRT, moved(usual, "hip_girth", usual.index("waist_to_hip")))
    with_taken(client, Number("waist_to_hip"))
    assert going_on(client) == HIP


def coming_back(client: dict[str, Any]) -> Number | None:
    again = read_document(parse(dump(client).encode(), "client")).data
    return come_back(again, TODAY, numbers_of(again, TODAY, SKIRT))


def test_she_comes_back_to_the_number_she_left_even_when_it_is_half_typed() -> None:
    client = somebody(MARCH)
    assert coming_back(client) == Number("heel_of_the_day")
    set_value(client, TODAY, HIP, "4")
    assert coming_back(client) == HIP
    put_in_hand(client, TODAY, SIDE_LEFT)
    assert coming_back(client) == SIDE_LEFT
    skip(client, TODAY, SIDE_LEFT)
    assert coming_back(client) == SIDE_RIGHT
    put_in_hand(client, TODAY, Number("bust_girth"))
    assert coming_back(client) == Number("heel_of_the_day")


def test_she_comes_back_to_something_even_when_all_is_taken() -> None:
    numbers = numbers_of(somebody(), TODAY, SKIRT)
    client = with_taken(somebody(), *numbers)
    put_in_hand(client, TODAY, Number("bust_girth"))
    assert coming_back(client) == numbers[0]
    assert come_back(somebody(), TODAY, ()) is None


def test_being_at_a_number_begins_no_sitting() -> None:
    client = somebody(MARCH)
    put_in_hand(client, TODAY, HIP)
    assert not sitting_of(client, TODAY)


def test_a_page_shows_last_time_and_the_change_in_the_unit_wanted() -> None:
    client = somebody(MARCH)
    said = page_of(client, TODAY, WAIST, "in").last_time
    assert said is not None
    assert (said.value, said.day, said.change) == ("33", "2 March", "")
    with_taken(client, WAIST)
    said = page_of(client, TODAY, WAIST, "in").last_time
    assert said is not None
    assert said.change == "1 3/4 less than last time"
    said = page_of(client, TODAY, WAIST, "mm").last_time
    assert said is not None
    assert (said.value, said.change) == ("838", "44 less than last time")
    set_value(client, TODAY, WAIST, "33")
    said = page_of(client, TODAY, WAIST, "in").last_time
    assert said is not None
    assert said.change == "the same"


def test_last_time_of_another_year_says_the_year() -> None:
    client = somebody({"on": "2025-11-11", "values": {"waist_girth": "34"}})
    said = page_of(client, TODAY, WAIST, "in").last_time
    assert said is not None
    assert said.day == "11 November 2025"


def test_a_first_time_has_no_last_time() -> None:
    assert page_of(somebody(), TODAY, WAIST, "in").last_time is None


def test_a_page_has_the_words_and_the_keys_of_its_number() -> None:
    client = with_taken(somebody(), SIDE_LEFT)
    page = page_of(client, TODAY, SIDE_LEFT, "in")
    assert (page.title, page.side, page.place) == ("Waist to floor, side", "left", "Kneeling")
    assert page.keypad.shown == page.kept == "31 1/4"
    assert page.keypad.press("9").as_typed == "9"
    assert page_of(client, TODAY, SIDE_RIGHT, "in").keypad.is_empty


def test_two_readings_far_apart_ask_for_a_third() -> None:
    """31 1/4 and 31 5/8 are 3/8 apart, which is not over it; and 31 3/4 is 1/2."""
    client = with_taken(somebody(), WAIST)
    assert page_of(client, TODAY, WAIST, "in").offers_second
    set_value(client, TODAY, WAIST, "31 5/8", 1)
    assert page_of(client, TODAY, WAIST, "in").third == ""
    set_value(client, TODAY, WAIST, "31 3/4", 1)
    page = page_of(client, TODAY, WAIST, "in", reading=1)
    assert page.third == "The two readings are 1/2 apart: read it a third time"
    assert (page.readings, page.kept) == (("31 1/4", "31 3/4"), "31 1/2")
    assert page.keypad.shown == "31 3/4"
    assert not page.offers_second
    set_value(client, TODAY, WAIST, "31 1/4", 2)
    page = page_of(client, TODAY, WAIST, "in", reading=2)
    assert (page.third, page.kept, page.keypad.shown) == ("", "31 1/4", "31 1/4")


def test_a_second_reading_is_offered_where_it_matters_most() -> None:
    client = with_taken(somebody(), Number("waist_to_hip"))
    assert not page_of(client, TODAY, Number("waist_to_hip"), "in").offers_second


def test_left_and_right_can_be_taken_where_the_body_has_both() -> None:
    client, hip = somebody(), Number("waist_to_hip")
    assert page_of(client, TODAY, hip, "in").can_have_sides
    assert not page_of(client, TODAY, WAIST, "in").can_have_sides
    take_both_sides(client, TODAY, "waist_to_hip")
    assert taking_of(client, TODAY, SKIRT, "in").total == len(KEYS) + 1
    assert not page_of(client, TODAY, Number("waist_to_hip", "left"), "in").can_have_sides


def test_the_next_number_is_spoken_with_last_times_value() -> None:
    client = somebody(MARCH)
    said = "Waist. Level round over the cord. Last time thirty-three."
    assert spoken(client, TODAY, WAIST, "in") == said
    assert spoken(client, TODAY, WAIST, "cm").endswith("Last time eighty-three point eight.")
    assert spoken(client, TODAY, SIDE_LEFT, "in").startswith("Waist to floor, side, left. From the")


def test_lengths_in_the_help_are_in_her_unit() -> None:
    top_hip = Number("top_hip_girth")
    assert page_of(somebody(), TODAY, top_hip, "in").how == "Level round, 4 in below the cord."
    assert page_of(somebody(), TODAY, top_hip, "mm").how == "Level round, 10 cm below the cord."
    assert "four inches below" in spoken(somebody(), TODAY, top_hip, "in")
    assert "ten centimetres below" in spoken(somebody(), TODAY, top_hip, "cm")


@pytest.mark.parametrize("name", [*catalogue(), "tail_length"])
def test_nothing_is_spoken_in_figures(name: str) -> None:
    client = somebody({"on": "2026-03-02", "values": {name: "14 3/8"}})
    for unit, value in (("in", "fourteen and three eighths"), ("cm", "thirty-six point five")):
        said = spoken(client, TODAY, Number(name), unit)  # type: ignore[arg-type]
        assert not re.search(r"\d", said)
        assert said.endswith(f". Last time {value}.")


def test_looking_changes_nothing() -> None:
    client = with_taken(somebody(MARCH), WAIST)
    kept = deepcopy(client)
    taking_of(client, TODAY, SKIRT, "cm")
    page_of(client, TODAY, WAIST, "cm")
    assert client == kept
