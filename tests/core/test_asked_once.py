"""An odd figure is asked about quietly, once, and never again once she has said it is right.

Expected values are hand sums on 1 in = 25.4 mm exactly; what is asked is a matter of
core.body.questions.
"""

from typing import Any

import pytest

from core.body.asked_once import asked, it_is_right, last_time
from core.body.sitting import set_value, set_waist_found
from core.body.tape_order import Number

TODAY = "2026-05-14"
WAIST, HIP = Number("waist_girth"), Number("hip_girth")
LEFT_ARM, RIGHT_ARM = Number("upper_arm_girth", "left"), Number("upper_arm_girth", "right")
MARCH = {"on": "2026-03-02", "values": {"waist_girth": "33", "hip_girth": "42",
         "upper_arm_girth": {"left": "12", "right": "12 1/4"}}}  # fmt: skip


def somebody(*measurements: dict[str, Any]) -> dict[str, Any]:
    return {
        "format": "pins-to-seams/1",
        "unit": "in",
        "client": {"id": "invented", "name": "Invented"},
        "measurements": list(measurements),
        "garments": [],
    }


def with_waist(text: str, *measurements: dict[str, Any]) -> dict[str, Any]:
    client = somebody(*measurements)
    set_value(client, TODAY, WAIST, text)
    return client


def keys(client: dict[str, Any], number: Number = WAIST) -> list[str]:
    return [question.key for question in asked(client, TODAY, number, "in")]


def test_a_waist_far_from_last_time_is_asked_about_in_a_few_words() -> None:
    """33 - 31 1/4 = 1 3/4, over a twentieth of 33."""
    (question,) = asked(with_waist("31 1/4", MARCH), TODAY, WAIST, "in")
    assert question.words == "1 3/4 less than last time"
    assert question.text == "Waist 31 1/4: last time 33. Is that so?"
    (question,) = asked(with_waist("31 1/4", MARCH), TODAY, WAIST, "cm")
    assert question.words == "4.4 less than last time"


def test_a_waist_near_last_time_and_one_never_taken_before_are_asked_nothing() -> None:
    assert keys(with_waist("32 1/2", MARCH)) == []
    assert keys(with_waist("31 1/4")) == []
    assert keys(somebody(MARCH)) == []


def test_what_she_said_is_right_is_not_asked_again() -> None:
    client = with_waist("31 1/4", MARCH)
    it_is_right(client, TODAY, WAIST)
    assert keys(client) == []
    set_value(client, TODAY, WAIST, "31")
    assert keys(client) == ["last_time:waist_girth"]
    set_value(client, TODAY, WAIST, "31 1/4")
    assert keys(client) == []


def test_it_is_remembered_once_and_in_her_own_words() -> None:
    client = with_waist("31 1/4", MARCH)
    it_is_right(client, TODAY, WAIST)
    it_is_right(client, TODAY, WAIST)
    assert client["measurements"][-1]["said_right"] == [
        {"about": "last_time:waist_girth", "values": {"waist_girth": "31 1/4"}}
    ]


def test_one_question_of_two_is_answered_alone() -> None:
    """85 in is over the usual range too (74 3/4 at most)."""
    client = with_waist("85", MARCH)
    assert keys(client) == ["range:waist_girth", "last_time:waist_girth"]
    it_is_right(client, TODAY, WAIST, "range:waist_girth")
    assert keys(client) == ["last_time:waist_girth"]


def test_a_waist_over_the_hip_is_asked_with_whichever_was_taken_last() -> None:
    """44 - 40 = 4, more than 50 mm."""
    client = with_waist("44")
    assert keys(client) == []
    set_value(client, TODAY, HIP, "40")
    assert keys(client, HIP) == ["against:waist_girth:hip_girth"]
    it_is_right(client, TODAY, HIP)
    assert keys(client, HIP) == keys(client, WAIST) == []
    set_value(client, TODAY, HIP, "39")
    assert keys(client, HIP) == ["against:waist_girth:hip_girth"]


def test_each_side_is_asked_about_by_itself() -> None:
    """Left 5 in and right 5 1/8 are both under the usual 6 3/4, and far under last time's."""
    client = somebody(MARCH)
    set_value(client, TODAY, LEFT_ARM, "5")
    both = ["range:upper_arm_girth", "last_time:upper_arm_girth"]
    assert keys(client, LEFT_ARM) == both
    it_is_right(client, TODAY, LEFT_ARM)
    set_value(client, TODAY, RIGHT_ARM, "5 1/8")
    assert keys(client, LEFT_ARM) == []
    assert keys(client, RIGHT_ARM) == both
    assert "right 5 1/8" in asked(client, TODAY, RIGHT_ARM, "in")[0].text


def test_left_and_right_far_apart_are_asked_about_when_both_are_there() -> None:
    client = somebody()
    set_value(client, TODAY, LEFT_ARM, "11")
    assert keys(client, LEFT_ARM) == []
    set_value(client, TODAY, RIGHT_ARM, "11 1/2")
    assert keys(client, RIGHT_ARM) == ["sides:upper_arm_girth"]
    it_is_right(client, TODAY, RIGHT_ARM)
    assert keys(client, LEFT_ARM) == keys(client, RIGHT_ARM) == []
    set_value(client, TODAY, LEFT_ARM, "10 7/8")
    assert keys(client, LEFT_ARM) == ["sides:upper_arm_girth"]


def test_last_time_is_the_last_earlier_day_at_a_fitting_too() -> None:
    client = with_waist("31", MARCH, {"on": "2025-09-12", "values": {"waist_girth": "34"}})
    client["garments"] = [
        {"fittings": [{"on": "2026-04-20", "measurements": {"waist_girth": "32"}},
                      {"on": TODAY, "measurements": {"waist_girth": "30"}}]}
    ]  # fmt: skip
    before = last_time(client, TODAY, WAIST)
    assert before is not None
    assert (before.on, before.mm) == ("2026-04-20", 32 * 25.4)


def test_a_waist_found_otherwise_is_not_compared() -> None:
    narrow = {"on": "2026-04-20", "waist_found": "narrowest", "values": {"waist_girth": "30"}}
    client = with_waist("33", {**MARCH, "waist_found": "natural"}, narrow)
    set_waist_found(client, TODAY, "natural")
    before = last_time(client, TODAY, WAIST)
    assert before is not None
    assert before.on == "2026-03-02"
    set_waist_found(client, TODAY, "midway")
    assert last_time(client, TODAY, WAIST) is None
    assert last_time(client, TODAY, HIP) is not None


@pytest.mark.parametrize("said", [None, {}, "yes", [1, "waist"], [{"about": 3}]])
def test_nonsense_in_the_file_answers_nothing(said: object) -> None:
    client = with_waist("31 1/4", MARCH)
    client["measurements"][-1]["said_right"] = said
    assert keys(client) == ["last_time:waist_girth"]
