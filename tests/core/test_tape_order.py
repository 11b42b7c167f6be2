"""She is asked in the order the client stands, or in her own order, and for nothing twice."""

from itertools import combinations
from typing import Any

import pytest

from core.body.measurements import kinds, needed_for, numbers_to_take
from core.body.tape_order import (
    Number,
    add_to_order,
    kinds_of,
    measurements_for,
    moved,
    number_of,
    put_order,
    sided_for,
    usual_order,
)

SKIRT = ["heel_of_the_day", "waist_girth", "top_hip_girth", "hip_girth", "waist_front_arc",
         "hip_front_arc", "waist_to_top_hip", "waist_to_hip", "waist_to_floor_front",
         "waist_to_floor_side", "waist_to_floor_back"]  # fmt: skip
"""Column G of the workroom's table of what to take: twelve numbers, the side's floor being two."""


def somebody(**client: Any) -> dict[str, Any]:
    return {
        "format": "pins-to-seams/1",
        "unit": "in",
        "client": {"id": "invented", "name": "Invented", **client},
        "measurements": [],
        "garments": [],
    }


def test_a_skirt_asks_in_the_order_she_stands() -> None:
    assert list(measurements_for(somebody(), ["gored_skirt"])) == SKIRT
    assert sided_for(["gored_skirt"]) == {"waist_to_floor_side"}


@pytest.mark.parametrize("pair", list(combinations(kinds(), 2)))
def test_two_kinds_together_ask_for_each_measurement_once_in_the_same_order(
    pair: tuple[str, str],
) -> None:
    order = measurements_for(somebody(), pair)
    assert order == measurements_for(somebody(), reversed(pair))
    assert len(set(order)) == len(order)
    for kind in pair:
        asked = [request.measurement.id for request in needed_for(kind)]
        assert [name for name in order if name in asked] == asked


def test_her_own_order_is_kept_for_its_kind_alone() -> None:
    client = somebody()
    own = ["hip_girth", *(name for name in SKIRT if name != "hip_girth")]
    put_order(client, ["gored_skirt"], own)
    assert client["client"]["order"] == {"gored_skirt": own}
    assert list(measurements_for(client, ["gored_skirt"])) == own
    assert measurements_for(client, ["pencil_skirt"])[0] == "heel_of_the_day"


def test_an_order_that_names_only_some_leaves_the_others_in_their_usual_place() -> None:
    client = somebody(order={"gored_skirt": ["waist_to_hip", "waist_girth"]})
    order = measurements_for(client, ["gored_skirt"])
    assert order.index("waist_to_hip") < order.index("waist_girth")
    assert order[order.index("waist_girth") + 1] == "top_hip_girth"
    assert sorted(order) == sorted(SKIRT)


def test_the_usual_order_is_not_written_down() -> None:
    client = somebody(order={"gored_skirt": ["hip_girth"]})
    put_order(client, ["gored_skirt"], SKIRT)
    assert "order" not in client["client"]


def test_going_back_to_the_usual_order_forgets_hers() -> None:
    client = somebody(order={"gored_skirt": ["hip_girth"], "trousers": ["body_rise"]})
    usual_order(client, ["gored_skirt"])
    assert client["client"]["order"] == {"trousers": ["body_rise"]}
    assert list(measurements_for(client, ["gored_skirt"])) == SKIRT


def test_an_order_for_two_kinds_gives_each_its_own_part() -> None:
    client = somebody()
    both = list(measurements_for(client, ["gored_skirt", "trousers"]))
    put_order(client, ["gored_skirt", "trousers"], ["body_rise", *both])
    assert list(client["client"]["order"]) == ["trousers"]
    assert measurements_for(client, ["gored_skirt", "trousers"])[0] == "body_rise"


def test_one_more_measurement_is_taken_at_its_usual_place() -> None:
    client = somebody()
    add_to_order(client, "gored_skirt", "seated_hip_girth")
    add_to_order(client, "gored_skirt", "seated_hip_girth")
    assert list(measurements_for(client, ["gored_skirt"])) == [*SKIRT, "seated_hip_girth"]
    add_to_order(client, "gored_skirt", "height")
    assert list(measurements_for(client, ["gored_skirt"]))[:2] == ["heel_of_the_day", "height"]


@pytest.mark.parametrize(
    "order", [None, [], "hip_girth", {"gored_skirt": "hip_girth"}, {"gored_skirt": ["tail", 3]}]
)
def test_nonsense_in_the_file_leaves_the_usual_order(order: object) -> None:
    assert list(measurements_for(somebody(order=order), ["gored_skirt"])) == SKIRT


def test_without_a_known_kind_it_is_what_was_ever_taken_of_her() -> None:
    client = somebody()
    assert measurements_for(client, []) == ()
    taped = {"hip_girth": "42", "bust_girth": "38"}
    fitting = {"on": "2026-03-20", "measurements": {"waist_girth": "31"}}
    client["measurements"] = [{"on": "2026-03-02", "values": taped}]
    client["garments"] = [{"fittings": [fitting]}]
    assert measurements_for(client, ["cloak"]) == ("bust_girth", "waist_girth", "hip_girth")


def test_the_kinds_are_those_of_what_is_in_the_making() -> None:
    client = somebody()
    client["garments"] = [
        {"kind": "trousers"}, {"kind": "cloak"}, {}, {"kind": "trousers"},
        {"kind": "sheath_dress", "collected": "2026-04-02"}, {"kind": "gored_skirt"},
    ]  # fmt: skip
    assert kinds_of(client) == ("trousers", "gored_skirt")


def test_a_measurement_is_moved_to_another_place() -> None:
    assert moved(["a", "b", "c"], "c", 0) == ("c", "a", "b")
    assert moved(["a", "b", "c"], "a", 9) == ("b", "c", "a")
    assert moved(["a", "b", "c"], "b", -4) == ("b", "a", "c")


@pytest.mark.parametrize(
    ("number", "key", "label"),
    [
        (Number("waist_girth"), "waist_girth", "Waist"),
        (Number("upper_arm_girth", "left"), "upper_arm_girth:left", "Upper arm, left"),
        (Number("tail_length"), "tail_length", "Tail length"),
    ],
)
def test_a_number_is_named_in_the_file_and_in_words(number: Number, key: str, label: str) -> None:
    assert (number.key, number.label) == (key, label)
    assert number_of(key) == number


@pytest.mark.parametrize("kind", kinds())
def test_every_number_of_the_table_is_asked_for(kind: str) -> None:
    sided = sided_for([kind])
    asked = measurements_for(somebody(), [kind])
    assert sum(2 if name in sided else 1 for name in asked) == numbers_to_take(kind)
