"""The rest of a fitting: begun, girths, tucks, hem, marks, movements, last time, stepping out."""

import copy
import json
from pathlib import Path

import pytest

from core.errors import BadLength, NotFound
from core.file.fitting_file import read_document
from core.fit.beginning import (
    CannotBegin,
    begin,
    fitting_of_day,
    set_foundation,
    set_heel,
    set_inside_out,
    set_stage,
)
from core.fit.drag_lines import DIRECTIONS, MEANINGS, usual_meanings
from core.fit.girths import girths_to_tape, set_girth
from core.fit.hemming import (
    POINTS,
    floor_typed,
    is_train,
    names,
    next_point,
    set_floor,
    set_heel_of_the_day,
    set_holds,
    set_train,
    set_wanted,
)
from core.fit.last_time import asked_last_time
from core.fit.marks import add_mark, marks_of, remove_mark, set_direction, set_mark_note
from core.fit.moving import add_pull, done, tick
from core.fit.pinning import Where
from core.fit.stepping_out import missing_views, stepping_out
from core.fit.tucks import set_into, set_tuck, usual_into
from core.fit.written import CannotLog
from core.said.hem import hem_changes

DRAFTS = Path(__file__).parents[1] / "data" / "drafts"
INCH = 25.4


@pytest.fixture
def document():
    document = json.loads((DRAFTS / "1_sheath_dress.json").read_text(encoding="utf-8"))
    document["garments"] = document["garments"][:1]
    document["garments"][0]["fittings"] = []
    return document


@pytest.fixture
def garment_id(document):
    return read_document(document).garments[0].id


@pytest.fixture
def fitting(document, garment_id):
    return begin(document, garment_id, "f1", "2026-05-14")


def read(document):
    file = read_document(document)
    return file, file.garments[0], file.garments[0].fittings[-1]


# -- begun ----------------------------------------------------------------------------


def test_the_first_fitting_wears_what_she_was_measured_in_right_side_out(document, fitting):
    document["measurements"][-1]["worn"] = {"foundation": "long-line bra", "heel": "2 1/2"}
    again = begin(document, read(document)[1].id, "f2", "2026-05-15")
    assert again["worn"] == fitting["worn"]  # from the fitting before, not from the tape
    assert fitting["stage"] == "basted"
    assert fitting["worn"]["inside_out"] is False
    assert read(document)[2].on == "2026-05-15"


def test_the_next_fitting_goes_on_from_the_last_one(document, garment_id, fitting):
    set_foundation(fitting, " long-line bra ")
    set_heel(document, fitting, "2 1/2")
    set_inside_out(fitting, True)
    fitting["from_elsewhere"] = {"kept": 1}
    second = begin(document, garment_id, "f2", "2026-06-01")
    assert second["worn"] == {"foundation": "long-line bra", "heel": "2 1/2", "inside_out": False}
    assert second["stage"] == "second"
    assert begin(document, garment_id, "f3", "2026-06-20")["stage"] == "final"
    assert document["garments"][0]["fittings"][0]["from_elsewhere"] == {"kept": 1}


def test_what_was_taped_after_sewing_is_what_the_next_fitting_begins_with(document, garment_id):
    first = begin(document, garment_id, "f1", "2026-05-14")
    first["checked_girths"] = {"outer": {"body": {"waist": "35 3/8"}}}
    second = begin(document, garment_id, "f2", "2026-06-01")
    assert second["sewn_girths"] == {"outer": {"body": {"waist": "35 3/8"}}}
    second["sewn_girths"]["outer"]["body"]["waist"] = "35"
    assert first["checked_girths"]["outer"]["body"]["waist"] == "35 3/8"


def test_what_she_calls_the_stage_is_hers(document, fitting):
    set_stage(fitting, "  over   the corset ")
    assert read(document)[2].stage == "over the corset"
    set_stage(fitting, "")
    assert "stage" not in fitting


def test_a_stage_that_is_known_is_written_as_it_is_known(document, garment_id, fitting):
    set_stage(fitting, " Toile")
    assert fitting["stage"] == "toile"
    fitting["stage"] = "Toile"  # as it came in a file
    assert begin(document, garment_id, "f2", "2026-06-01")["stage"] == "basted"


def test_no_fitting_is_begun_before_the_last_one_or_without_a_draft(document, garment_id, fitting):
    before = copy.deepcopy(document)
    with pytest.raises(CannotBegin, match="later day"):
        begin(document, garment_id, "f2", "2026-05-13")
    with pytest.raises(NotFound):
        begin(document, "another", "f2", "2026-05-14")
    assert document == before
    document["garments"][0]["layers"] = []
    with pytest.raises(CannotBegin, match="no draft"):
        begin(document, garment_id, "f2", "2026-05-14")


def test_the_fitting_of_the_day_is_found(document, garment_id, fitting):
    assert fitting_of_day(document, garment_id, "2026-05-14") == "f1"
    assert fitting_of_day(document, garment_id, "2026-05-15") == ""


def test_a_heel_that_is_no_height_is_refused(document, fitting):
    set_heel(document, fitting, "3")
    with pytest.raises(BadLength):
        set_heel(document, fitting, "high")
    with pytest.raises(CannotLog):
        set_heel(document, fitting, "-1")
    assert fitting["worn"]["heel"] == "3"
    set_heel(document, fitting, "")
    assert read(document)[2].heel_worn is None


# -- girths ---------------------------------------------------------------------------


def test_the_girths_worth_taping_are_those_nearest_her_and_beat_the_sum(document, fitting):
    file, garment, now = read(document)
    girths = girths_to_tape(garment, file.client, file.sittings, now)
    assert 1 <= len(girths) <= 3
    first = girths[0]
    assert first.taped_mm is None
    assert first.apart_mm == 0
    downs = [garment.levels[girth.level].down for girth in girths]
    assert downs == sorted(downs)
    where = {"layer": first.layer, "ring": first.ring, "level": first.level, "side": None}
    set_girth(fitting, "in", **where, typed="40 1/4")
    file, garment, now = read(document)
    girth = girths_to_tape(garment, file.client, file.sittings, now)[0]
    assert girth.taped_mm == pytest.approx(40.25 * INCH)
    assert girth.apart_mm == pytest.approx(40.25 * INCH - first.sum_mm)
    with pytest.raises(BadLength):
        set_girth(fitting, "in", **where, typed="forty")
    set_girth(fitting, "in", **where, typed="")
    assert "sewn_girths" not in fitting


def test_of_two_sleeves_each_has_its_own_girth():
    fitting = {"sewn_girths": {"outer": {"sleeve": {"upper_arm": "13"}}, "lining": {"x": {"y": 1}}}}
    where = {"layer": "outer", "ring": "sleeve", "level": "upper_arm"}
    set_girth(fitting, "in", **where, side="left", typed="13 1/4")
    assert fitting["sewn_girths"]["outer"]["sleeve"]["upper_arm"] == {
        "left": "13 1/4",
        "right": "13",
    }
    for side in ("left", "right"):
        set_girth(fitting, "in", **where, side=side, typed="")
    assert fitting["sewn_girths"] == {"lining": {"x": {"y": 1}}}


# -- tucks ----------------------------------------------------------------------------


def test_a_tuck_has_a_depth_at_each_place_and_goes_somewhere(document, fitting):
    garment = read(document)[1]
    set_tuck(fitting, garment, "in", "waist", "centre_back", "3/8")
    set_tuck(fitting, garment, "in", "waist", "left", "1/8")
    set_into(fitting, "waist", "waist_seam")
    (tuck,) = read(document)[2].tucks
    assert tuck.depth == {"centre_back": pytest.approx(9.525), "left": pytest.approx(3.175)}
    assert tuck.into == "waist_seam"
    with pytest.raises(BadLength):
        set_tuck(fitting, garment, "in", "waist", "left", "some")
    with pytest.raises(CannotLog):
        set_tuck(fitting, garment, "in", "ankle", "left", "1/8")
    for place in ("centre_back", "left"):
        set_tuck(fitting, garment, "in", "waist", place, "")
    assert "tucks" not in fitting
    with pytest.raises(CannotLog, match="no tuck"):
        set_into(fitting, "waist", "shoulder")


def test_a_dress_in_one_takes_its_tuck_in_the_pattern_below_the_waist(document):
    document["garments"][0]["joined"] = []
    assert usual_into(read_document(document).garments[0], "hip") == "pattern"
    document["garments"][0]["joined"] = [
        {"id": "band", "layer": "outer", "ring": "body", "level": "waist"}
    ]
    assert usual_into(read_document(document).garments[0], "hip") == "waist_seam"


# -- hem ------------------------------------------------------------------------------


def test_eight_points_go_round_and_the_next_one_is_lit_until_all_are_done(fitting):
    at, seen = next_point(fitting, "in"), []
    while at is not None:
        seen.append(at)
        set_floor(fitting, "in", at, "9")
        at = next_point(fitting, "in", at)
    assert tuple(seen) == POINTS
    set_floor(fitting, "in", "left side", "")
    assert next_point(fitting, "in", "back") == "left side"


# published case: measured in a heel of 2 1/2 for a day with 4 it hangs 1 1/2 higher
def test_each_point_is_counted_in_the_shoes_of_the_day(document, fitting):
    set_heel(document, fitting, "2 1/2")
    set_heel_of_the_day(document["garments"][0], "in", "4")
    set_wanted(fitting, "in", "1")
    set_holds(fitting, "in", "2")
    set_floor(fitting, "in", "back", "1 1/4")
    set_floor(fitting, "in", "front", "1")
    _, garment, now = read(document)
    assert [point.at for point in now.hem.points] == ["front", "back"]
    front, back = hem_changes(now.hem, now.heel_worn, garment.heel_of_the_day)
    assert front.on_the_day_mm == pytest.approx(2.5 * INCH)
    assert back.change_mm == pytest.approx(1.75 * INCH)


def test_a_train_point_is_skipped(document, fitting):
    set_floor(fitting, "in", "back", "1")
    set_train(fitting, "in", "back", True)
    assert is_train(fitting, "back")
    assert floor_typed(fitting, "back") == ""
    assert "back" not in [next_point(fitting, "in", point) for point in POINTS]
    set_train(fitting, "in", "back", False)
    assert "hem" not in fitting


def test_a_point_of_her_own_is_kept_and_comes_last(fitting):
    fitting["hem"] = {"wanted": "1", "points": [{"at": "over the godet", "floor": "2", "own": 1}]}
    set_floor(fitting, "in", "front", "1")
    assert names(fitting) == (*POINTS, "over the godet")
    assert fitting["hem"]["points"][1] == {"at": "over the godet", "floor": "2", "own": 1}
    with pytest.raises(BadLength):
        set_floor(fitting, "in", "back", "low")
    with pytest.raises(CannotLog):
        set_floor(fitting, "in", " ", "1")
    assert len(fitting["hem"]["points"]) == 2


# -- marks, movements, drag lines -------------------------------------------------------


def test_marks_are_kept_with_their_place_and_what_is_said(document, fitting):
    front = Where("piece", "front", level="bust")
    add_mark(fitting, "in", "tight", front, "left")
    at = add_mark(fitting, "in", "clip", Where("seam", "side", down_mm=12 * INCH), "right", "here")
    set_mark_note(fitting, 0, "when she sits")
    assert fitting["marks"][1] == {
        "what": "clip",
        "seam": "side",
        "side": "right",
        "down": "12",
        "note": "here",
    }
    first, second = marks_of(fitting, "in")
    assert (first.label, first.place, first.side, first.note) == (
        "Tight",
        "front",
        "left",
        "when she sits",
    )
    assert second.down_mm == pytest.approx(12 * INCH)
    read(document)
    remove_mark(fitting, at)
    assert len(fitting["marks"]) == 1
    with pytest.raises(CannotLog):
        add_mark(fitting, "in", "spots", front, "left")


def test_a_movement_is_ticked_and_where_it_pulled_goes_with_it(fitting):
    hip = Where("seam", "side", level="hip")
    tick(fitting, "walk", True)
    add_pull(fitting, "in", "sit", hip, "left")
    assert done(fitting) == {
        "walk": [],
        "sit": [{"seam": "side", "side": "left", "level": "hip"}],
    }
    add_pull(fitting, "in", "sit", hip, "left")
    assert done(fitting)["sit"] == []
    add_pull(fitting, "in", "sit", Where("seam", "side", down_mm=21.25 * INCH), "right")
    assert done(fitting)["sit"] == [{"seam": "side", "side": "right", "down": "21 1/4"}]
    for what in ("walk", "sit"):
        tick(fitting, what, False)
    assert "movements" not in fitting
    with pytest.raises(CannotLog):
        tick(fitting, "fly", True)


def test_a_drag_line_has_its_usual_meaning_with_its_source(fitting):
    (meaning,) = usual_meanings("hip", "back", "across")
    assert (meaning.usually, meaning.do) == ("the hip is too small", "let out the sides")
    assert "1946" in meaning.source
    sway, long = usual_meanings("waist", "back", "across")
    assert (sway.usually, long.usually) == ("a sway back", "waist too long or hip tight")
    assert usual_meanings("ankle", "back", "across") == ()
    assert len(MEANINGS) == 14
    assert all(meaning.source for meaning in MEANINGS)
    assert {way for meaning in MEANINGS for way in meaning.directions} == set(DIRECTIONS)
    at = add_mark(fitting, "in", "drag", Where("piece", "back", level="hip"), "both")
    set_direction(fitting, at, "across")
    assert marks_of(fitting, "in")[0].direction == "across"


# -- last time, and stepping out --------------------------------------------------------


def test_the_second_fitting_begins_with_what_was_asked_done_and_came_back(document, garment_id):
    first = begin(document, garment_id, "f1", "2026-05-14")
    first["pins"] = [
        {"seam": "side", "side": "both", "level": "waist", "pinch": "1/4"},
        {"seam": "side", "side": "left", "level": "hip", "gap": "1/2"},
        {"dart": "back_waist", "side": "both", "level": "waist", "pinch": "1/8"},
    ]
    first["done"] = [
        {"layer": "outer", "seam": "side", "side": "both",
         "moves": [{"edge": "front", "level": "waist", "move": "-1/4"},
                   {"edge": "back", "level": "waist", "move": "-1/4"}]},
    ]  # fmt: skip
    second = begin(document, garment_id, "f2", "2026-06-01")
    second["pins"] = [{"seam": "side", "side": "left", "level": "waist"}]
    _, garment, now = read(document)
    asked = asked_last_time(garment, now)
    assert [(one.done, one.came_back, one.open) for one in asked] == [
        (True, True, True),
        (False, False, True),
        (False, False, True),
    ]
    assert asked_last_time(garment, garment.fittings[0]) == ()


def test_what_was_pinned_inside_out_is_asked_on_the_side_where_it_is_today(document, garment_id):
    first = begin(document, garment_id, "f1", "2026-05-14")
    set_inside_out(first, True)
    first["pins"] = [
        {"seam": "side", "side": "left", "level": "waist", "pinch": "1/4"},
        {"seam": "side", "side": "left", "level": "hip", "pinch": "1/4"},
    ]
    first["done"] = [  # inside out the garment's right was on her left
        {"layer": "outer", "seam": "side", "side": "right",
         "moves": [{"edge": "front", "level": "waist", "move": "-1/4"}]},
    ]  # fmt: skip
    second = begin(document, garment_id, "f2", "2026-06-01")
    second["pins"] = [{"seam": "side", "side": "right", "level": "waist"}]
    for inside_out, side, came_back in ((False, "right", True), (True, "left", False)):
        set_inside_out(second, inside_out)
        _, garment, now = read(document)
        asked = asked_last_time(garment, now)
        assert [one.pin.side for one in asked] == [side, side]
        assert [one.done for one in asked] == [True, False]
        assert [one.came_back for one in asked] == [came_back, False]


def test_before_she_steps_out_three_lines_say_what_is_missing_and_what_to_tell(document, fitting):
    fitting["pins"] = [{"seam": "side", "level": "waist"}, {"seam": "side", "level": "hip"}]
    fitting["photos"] = [{"file": "a.jpg", "view": "front"}, {"file": "b.jpg", "view": "back"}]
    set_wanted(fitting, "in", "1/2")
    set_floor(fitting, "in", "front", "1/2")
    file, garment, now = read(document)

    def said(agreed):
        return stepping_out(fitting, garment, now, file.client, file.sittings, "in", agreed=agreed)

    assert said(True).sides == "Pins 1 and 2 without a side: counted as both"
    assert said(True).photos == "Photos missing: her left and her right"
    assert said(False).photos == ""
    assert said(True).tell_her[0].startswith("Two pins in")
    assert any("1/2 in off the floor: she may trip" in line for line in said(True).tell_her)
    assert missing_views({}) == ("front", "her left", "back", "her right")


def test_with_nothing_missing_the_lines_are_empty(document, fitting):
    set_heel(document, fitting, "2")
    file, garment, now = read(document)
    said = stepping_out(fitting, garment, now, file.client, file.sittings, "in", agreed=False)
    assert (said.sides, said.photos, said.tell_her) == ("", "", ())


def test_a_garment_smaller_than_her_has_its_caution(document, fitting):
    document["garments"][0]["ease"]["waist"] = "-1"
    file, garment, now = read(document)
    said = stepping_out(fitting, garment, now, file.client, file.sittings, "in", agreed=False)
    assert any("able to breathe" in line for line in said.tell_her)
