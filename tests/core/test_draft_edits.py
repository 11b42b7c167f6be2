"""Numbers of a draft changed by hand: what was typed stays, and what leans on it follows."""

import copy

import pytest

from core.draft.allowances import set_allowance, set_behaviour
from core.draft.before_cutting import finished_girth
from core.draft.by_hand import by_hand
from core.draft.darts import set_end, set_take_up
from core.draft.document import CannotChange
from core.draft.ease import set_ease
from core.draft.edits import (
    clear_width,
    set_drop,
    set_height,
    set_width,
    step_height,
    step_width,
)
from core.draft.kinds import all_kinds, kind
from core.errors import BadLength, NotFound
from core.records.garment import Ease
from tests.drafts import drafted, garment_of, part, worked

INCH = 25.4
KINDS = [found.id for found in all_kinds()]
FRONT = {"layer": "outer", "piece": "front"}


def _finished(document, level, layer=0, side=None):
    garment = garment_of(document)
    for ring in garment.layers[layer].rings:
        if level in ring.levels:
            return round(finished_girth(garment, ring, level, side) / INCH, 9)
    raise AssertionError(level)


# A width


def test_a_typed_width_stays_as_typed_and_its_sum_shows_what_it_was():
    document, one = worked("sheath_dress")
    set_width(document, " 12.0 ", garment=one, level="hip", **FRONT)
    front = part(document, piece="front")
    assert front["width"]["hip"] == "12.0"
    assert front["sum"]["hip"].endswith("= 11 7/8")
    assert front["width"]["hem"] == "11 1/8"
    garment = document["garments"][0]
    assert by_hand(garment, kind("sheath_dress"), "in").widths == {("outer", "front", "hip")}


def test_one_side_alone_is_set_and_the_other_stays():
    document, one = worked("sheath_dress")
    set_width(document, "12", garment=one, level="hip", side="left", **FRONT)
    assert part(document, piece="front")["width"]["hip"] == {"left": "12", "right": "11 7/8"}
    assert _finished(document, "hip") == 43.5 + 0.125
    set_width(document, "12", garment=one, level="hip", side="right", **FRONT)
    assert part(document, piece="front")["width"]["hip"] == "12"


@pytest.mark.parametrize(
    ("before", "steps", "after"),
    [("11 3/8", 1, "11 1/2"), ("11 3/8", -2, "11 1/8"), ("11 13/32", 1, "11 1/2"),
     ("11 13/32", -1, "11 3/8")],
)  # fmt: skip
def test_a_stepped_width_lands_on_a_step(before, steps, after):
    document, one = worked("sheath_dress")
    set_width(document, before, garment=one, level="bust", **FRONT)
    step_width(document, steps, garment=one, level="bust", **FRONT)
    assert part(document, piece="front")["width"]["bust"] == after


def test_a_metric_width_steps_by_half_a_centimetre():
    document = drafted("pencil_skirt", "cm")
    front = part(document, piece="front")
    set_width(document, "30.2", garment="one", level="hip", **FRONT)
    step_width(document, 1, garment="one", level="hip", **FRONT)
    assert part(document, piece="front")["width"]["hip"] == "30.5"
    assert front["width"]["hip"] != "30.5"


def test_a_width_at_a_level_of_its_own_lets_the_ring_reach_there():
    document, one = worked("fishtail_gown")
    set_width(document, "9", garment=one, layer="lining", piece="front", level="hem")
    assert part(document, layer="lining", ring="body")["levels"][-1] == "hem"


def test_a_width_taken_away_takes_its_sum_with_it():
    document, one = worked("sheath_dress")
    clear_width(document, garment=one, level="top_hip", **FRONT)
    front = part(document, piece="front")
    assert "top_hip" not in front["width"]
    assert "top_hip" not in front["sum"]


@pytest.mark.parametrize(
    ("typed", "words"),
    [("ten", "“ten” is not a length"), ("-3", "must not be negative"),
     ("1 1/2", "less than its allowances and darts"), ("", "is not a length")],
)  # fmt: skip
def test_a_width_that_cannot_be_is_refused_in_words_and_nothing_changes(typed, words):
    document, one = worked("sheath_dress")
    before = copy.deepcopy(document)
    with pytest.raises((CannotChange, BadLength), match=words):
        set_width(document, typed, garment=one, level="waist", **FRONT)
    assert document == before


def test_what_is_not_there_is_named():
    document, one = worked("sheath_dress")
    with pytest.raises(NotFound, match="no piece “sleeve”"):
        set_width(document, "9", garment=one, layer="outer", piece="sleeve", level="waist")
    with pytest.raises(NotFound, match="no level “ankle”"):
        set_width(document, "9", garment=one, level="ankle", **FRONT)
    with pytest.raises(NotFound, match="no garment “two”"):
        set_width(document, "9", garment="two", level="waist", **FRONT)


def test_fields_nobody_knows_stay():
    document, one = worked("sheath_dress")
    garment = document["garments"][0]
    garment["cloth"] = {"from": "the attic"}
    part(document, piece="front")["seen"] = [1, 2]
    set_ease(document, "2", garment=one, level="waist")
    set_allowance(document, "3/4", garment=one, layer="outer", seam="side")
    set_take_up(document, "3/4", garment=one, layer="outer", dart="front_waist", level="waist")
    assert document["garments"][0]["cloth"] == {"from": "the attic"}
    assert part(document, piece="front")["seen"] == [1, 2]
    assert garment["notes_for_the_kind"] == document["garments"][0]["notes_for_the_kind"]


# Ease: 1 at the waist becomes 2, a quarter more on each of four quarters


def test_more_ease_at_a_level_makes_every_piece_with_ease_wider_by_its_share():
    document, one = worked("sheath_dress")
    set_ease(document, "2", garment=one, level="waist")
    front, back = part(document, piece="front"), part(document, piece="back")
    assert (front["width"]["waist"], back["width"]["waist"]) == ("10 1/4", "11 1/4")
    assert "1/2 (ease 2 / 4)" in front["sum"]["waist"]
    assert part(document, layer="lining", piece="front")["width"]["waist"] == "10"
    assert document["garments"][0]["ease"]["waist"] == "2"
    assert _finished(document, "waist") == 32


def test_what_leans_on_the_hip_follows_its_ease():
    document, one = worked("sheath_dress")
    set_ease(document, "3 1/2", garment=one, level="hip")
    front = part(document, piece="front")
    assert front["width"]["hip"] == "12 1/8"
    assert front["sum"]["hem"] == (
        "11 1/8 (as at the hip) - 3/4 (in at the knee) + 1 (side seam allowance) = 11 3/8"
    )


def test_the_ease_of_one_layer_leaves_the_others():
    document, one = worked("sheath_dress")
    set_ease(document, "2", garment=one, level="waist", layer="lining")
    assert part(document, piece="front")["width"]["waist"] == "10"
    assert part(document, layer="lining", piece="front")["width"]["waist"] == "10"
    assert (_finished(document, "waist"), _finished(document, "waist", layer=1)) == (31, 32)


def test_ease_as_a_share_of_the_girth():
    """10% of a waist of 30 is 3: 3/4 a quarter where 1/4 was."""
    document, one = worked("sheath_dress")
    set_ease(document, "10%", garment=one, level="waist")
    assert part(document, piece="front")["width"]["waist"] == "10 1/2"
    assert document["garments"][0]["ease"]["waist"] == "10%"


def test_a_width_set_by_hand_stays_as_far_off_its_sum():
    document, one = worked("sheath_dress")
    set_width(document, "10 1/8", garment=one, level="waist", **FRONT)
    set_ease(document, "2", garment=one, level="waist")
    front = part(document, piece="front")
    assert front["width"]["waist"] == "10 3/8"
    assert front["sum"]["waist"].endswith("= 10 1/4")


def test_less_ease_than_none_for_a_boned_bodice():
    document, one = worked("fishtail_gown")
    set_ease(document, "-1", garment=one, level="bust")
    assert _finished(document, "bust") == 37


@pytest.mark.parametrize("unit", ["in", "cm"])
@pytest.mark.parametrize("name", KINDS)
def test_changing_the_ease_is_the_same_as_having_drafted_with_it(name, unit):
    typed, mm = {"in": ("2 7/8", 2.875 * INCH), "cm": ("7.3", 73.0)}[unit]
    levels = [level["id"] for level in kind(name).template["levels"] if level.get("body")]
    for level in [level for level in levels if level not in kind(name).ease_as_drafted]:
        document = drafted(name, unit)
        set_ease(document, typed, garment="one", level=level)
        expected = drafted(name, unit, ease={level: Ease(mm)})
        if level == "hip" and kind(name).ease_as_drafted:
            assert document["garments"][0]["layers"] == expected["garments"][0]["layers"]
        assert document == expected


# Allowances: the cut follows, the finished garment stays


def test_a_narrower_side_seam_makes_the_cut_narrower_and_leaves_the_finished_width():
    document, one = worked("sheath_dress")
    set_allowance(document, "3/4", garment=one, layer="outer", seam="side")
    front, back = part(document, piece="front"), part(document, piece="back")
    assert (front["width"]["waist"], back["width"]["waist"]) == ("9 3/4", "10 3/4")
    assert front["sum"]["waist"].endswith("+ 3/4 (side seam allowance) = 9 3/4")
    assert part(document, seam="side")["allowance"] == "3/4"
    assert _finished(document, "waist") == 31
    assert part(document, layer="lining", piece="front")["width"]["waist"] == "9 3/4"


def test_an_allowance_at_one_level_leaves_the_others():
    document, one = worked("sheath_dress")
    set_allowance(document, "1 1/4", garment=one, layer="outer", seam="centre_back", level="waist")
    back = part(document, piece="back")
    assert (back["width"]["waist"], back["width"]["bust"]) == ("10 3/4", "11 5/8")
    assert part(document, seam="centre_back")["allowance"] == {
        "bust": "1", "waist": "1 1/4", "top_hip": "1 1/4", "hip": "1", "hem": "1",
    }  # fmt: skip


def test_one_edge_of_a_seam_alone():
    document, one = worked("sheath_dress")
    set_allowance(document, "1 1/2", garment=one, layer="outer", seam="side", piece="back")
    assert part(document, piece="front")["width"]["hip"] == "11 7/8"
    assert part(document, piece="back")["width"]["hip"] == "13 3/8"
    assert _finished(document, "hip") == 43.5


def test_a_seam_through_two_rings_changes_in_the_ring_of_its_level():
    document = drafted("trousers")
    set_allowance(document, "3/4", garment="one", layer="outer", seam="side", level="knee")
    assert part(document, piece="front_leg")["width"]["knee"] == "9 3/4"
    assert part(document, piece="front")["width"]["hip"] == "12 1/8"


def test_a_single_piece_loses_the_allowance_at_both_its_edges():
    """The sleeve: upper arm 12 + 2 + two of 1 = 16; with two of 1/2 it is 15."""
    document, one = worked("sleeved_bodice")
    set_allowance(document, "1/2", garment=one, layer="outer", seam="sleeve_seam")
    sleeve = part(document, piece="sleeve")
    assert sleeve["width"]["upper_arm"] == "15"
    assert sleeve["sum"]["upper_arm"].count("1/2 (sleeve seam allowance)") == 2


def test_an_allowance_where_the_seam_does_not_reach_is_refused():
    document, one = worked("fishtail_gown")
    with pytest.raises(CannotChange, match="does not reach"):
        set_allowance(document, "1", garment=one, layer="lining", seam="side", level="hem")


def test_turn_and_minutes_are_kept_as_numbers_and_comfort_as_typed():
    document, one = worked("sheath_dress")
    where = {"garment": one, "layer": "outer"}
    set_behaviour(document, "turn", "2", seam="side", **where)
    set_behaviour(document, "minutes", "17,5", seam="side", **where)
    set_behaviour(document, "comfort", "3/8", seam="side", **where)
    set_behaviour(document, "turn", "0", dart="front_waist", **where)
    side = part(document, seam="side")
    assert (side["turn"], side["minutes"], side["comfort"]) == (2, 17.5, "3/8")
    assert part(document, dart="front_waist")["turn"] == 0
    for what, typed in (("turn", "first"), ("turn", "1.5"), ("colour", "1"), ("keep", "-1")):
        with pytest.raises(CannotChange):
            set_behaviour(document, what, typed, seam="side", **where)


# Darts: 1 at the waist


def test_a_deeper_dart_makes_the_cut_wider_and_leaves_the_finished_width():
    document, one = worked("sheath_dress")
    set_take_up(document, "1 1/4", garment=one, layer="outer", dart="front_waist", level="waist")
    front = part(document, piece="front")
    assert front["width"]["waist"] == "10 1/4"
    assert "1 1/4 (dart)" in front["sum"]["waist"]
    assert _finished(document, "waist") == 31


def test_a_dart_that_ends_at_a_level_takes_nothing_up_there():
    """The point at the high hip line: its 1/8 there was read off, and is nothing now."""
    document, one = worked("sheath_dress")
    set_end(document, "21 3/4", garment=one, layer="outer", dart="front_waist", end="point")
    dart = part(document, dart="front_waist")
    assert dart["take_up"] == {"waist": "1"}
    assert dart["ends"]["point"] == "21 3/4"
    assert part(document, piece="front")["width"]["top_hip"] == "10 3/4"
    assert _finished(document, "top_hip") == 39


def test_a_longer_dart_is_read_off_straight_at_the_level_it_comes_to_cross():
    """From 1 at 17 3/4 to nothing at 28 3/4: at the hip, 26 1/4, it is 2 1/2 / 11 of 1, 7/32."""
    document, one = worked("sheath_dress")
    set_end(document, "28 3/4", garment=one, layer="outer", dart="front_waist", end="point")
    dart = part(document, dart="front_waist")
    assert dart["take_up"] == {"waist": "1", "top_hip": "5/8", "hip": "7/32"}
    assert _finished(document, "hip") == 43.5


def test_a_dart_upside_down_is_refused():
    document, one = worked("sheath_dress")
    with pytest.raises(CannotChange, match="point must lie below the top"):
        set_end(document, "10", garment=one, layer="outer", dart="front_waist", end="point")


# Heights and the drop


def test_a_height_is_kept_as_typed_and_dart_ends_go_with_their_level():
    """The bust line an inch lower: the front dart's top is an inch under it, 12 3/4."""
    document, one = worked("sheath_dress")
    set_height(document, "11.75", garment=one, level="bust")
    assert part(document, level="bust")["down"] == "11.75"
    assert part(document, dart="front_waist")["ends"]["top"] == "12 3/4"
    assert _finished(document, "waist") == 31


def test_front_and_back_may_have_heights_of_their_own():
    document, one = worked("sheath_dress")
    set_height(document, "18", garment=one, level="waist", place="front")
    assert part(document, level="waist")["down"] == {
        "front": "18", "side": "17 3/4", "back": "17 3/4",
    }  # fmt: skip
    with pytest.raises(CannotChange, match="heights of their own"):
        step_height(document, 1, garment=one, level="waist")


def test_levels_run_top_to_bottom():
    document, one = worked("sheath_dress")
    with pytest.raises(CannotChange, match="Hip must lie below High hip"):
        set_height(document, "20", garment=one, level="hip")


def test_a_stepped_height_lands_on_a_step():
    document, one = worked("sheath_dress")
    step_height(document, 2, garment=one, level="waist")
    assert part(document, level="waist")["down"] == "18"


def test_a_smaller_drop_lowers_every_level_that_hangs_from_the_neck():
    document, one = worked("fishtail_gown")
    set_drop(document, "3", garment=one)
    downs = {level["id"]: level["down"] for level in document["garments"][0]["levels"]}
    assert downs["bust"] == "7 3/4"
    assert downs["hem"] == "57 3/4"
    assert downs["upper_arm"] == "2 1/2"
    assert part(document, dart="front_waist")["ends"]["top"] == "8 3/4"


@pytest.mark.parametrize("name", KINDS)
def test_changing_the_drop_is_the_same_as_having_drafted_with_it(name):
    document = drafted(name)
    set_drop(document, "1 1/2", garment="one")
    assert document == drafted(name, drop_mm=1.5 * INCH)


def test_a_lower_hem_makes_flounce_and_godets_longer():
    document = drafted("fishtail_gown")
    garment = document["garments"][0]
    before = garment["joined"][0]["depth"], garment["inserts"][0]["length"]
    set_height(document, "57 3/4", garment="one", level="hem")
    garment = document["garments"][0]
    assert before == ("21 1/2", "22 1/2")
    assert (garment["joined"][0]["depth"], garment["inserts"][0]["length"]) == ("22 1/2", "23 1/2")


def test_a_fitted_garment_may_still_be_put_right():
    """Its pins name seams and layers: they stay, whatever number is changed."""
    document = drafted("fishtail_gown")
    pins = [{"seam": "side", "level": "hip", "pinch": "1/4"},
            {"layer": "lining", "dart": "front_waist", "level": "waist", "gap": "1/8"}]  # fmt: skip
    document["garments"][0]["fittings"] = [{"id": "f", "on": "2026-06-01", "pins": pins}]
    where = {"garment": "one"}
    set_height(document, "57 3/4", level="hem", **where)
    set_drop(document, "3", **where)
    set_ease(document, "2", level="bust", **where)
    set_allowance(document, "3/4", layer="outer", seam="side", **where)
    set_take_up(document, "3/4", layer="outer", dart="front_waist", level="waist", **where)
    assert part(document, level="hem")["down"] == "58 3/4"
    assert document["garments"][0]["fittings"][0]["pins"] == pins
