"""Pins placed and read off: written down as they were typed, in the order of the seams."""

import copy
import json
from dataclasses import replace
from pathlib import Path

import pytest

from core.errors import BadLength, NotFound
from core.file.fitting_file import read_document
from core.fit.amounts import (
    NothingLess,
    give_edges_apart,
    kind_of,
    set_amount,
    set_edge,
    step_amount,
    turn_kind,
)
from core.fit.pinning import (
    Where,
    at_a_level,
    pinned_at,
    place_pin,
    remove_pin,
    set_note,
    set_through,
    split_sides,
    take_side,
    without_side,
)
from core.fit.reading_off import count, edges_of, nearest_level, next_unread, order
from core.fit.written import At, CannotLog
from core.lengths import read_length
from core.share.pinned import round_change

DRAFTS = Path(__file__).parents[1] / "data" / "drafts"
INCH = 25.4


class Bench:
    """A document on the bench, with its garment and its last fitting read anew each time."""

    def __init__(self, document):
        self.document = document

    @property
    def file(self):
        return read_document(self.document)

    @property
    def garment(self):
        return self.file.garments[0]

    @property
    def fitting(self):
        return self.garment.fittings[-1]

    @property
    def written(self):
        return self.document["garments"][0]["fittings"][-1]

    @property
    def pins(self):
        return self.written["pins"]

    def place(self, what, place, level="", side="both", **where):
        where = Where(what, place, level=level, **where)
        return place_pin(self.written, self.garment, "in", where, side)

    def total_in(self, index=-1):
        return round_change(self.fitting.pins[index], self.garment) / INCH


@pytest.fixture
def bench():
    document = json.loads((DRAFTS / "1_sheath_dress.json").read_text(encoding="utf-8"))
    document["garments"] = document["garments"][:1]
    document["garments"][0]["fittings"] = [{"id": "f", "on": "2026-05-14", "pins": [], "mine": 7}]
    return Bench(document)


def test_a_pin_is_placed_on_a_seam_at_a_level_and_is_not_read(bench):
    at = bench.place("seam", "side", "waist", "left")
    assert at == 0
    assert bench.pins == [{"seam": "side", "side": "left", "level": "waist", "id": "pin_1"}]
    assert not bench.fitting.pins[0].read
    assert bench.written["mine"] == 7


def test_between_two_levels_the_pin_says_how_far_down(bench):
    bench.place("seam", "side", side="right", down_mm=20.5 * INCH)
    assert bench.pins[0]["down"] == "20 1/2"
    assert "level" not in bench.pins[0]


def test_a_pin_on_the_centre_back_has_no_side(bench):
    bench.place("seam", "centre_back", "waist", "left")
    assert "side" not in bench.pins[0]


def test_a_dart_is_pinned_at_a_level_only(bench):
    bench.place("dart", "back_waist", "waist")
    with pytest.raises(CannotLog, match="A dart is pinned at a level"):
        bench.place("dart", "back_waist", down_mm=400.0)
    assert len(bench.pins) == 1


@pytest.mark.parametrize(
    ("what", "place", "level"),
    [("seam", "nowhere", "waist"), ("dart", "side", "waist"), ("piece", "front", "knee_cap")],
)
def test_what_is_not_on_the_garment_is_not_pinned(bench, what, place, level):
    before = copy.deepcopy(bench.document)
    with pytest.raises(CannotLog, match="The fitting is as it was"):
        bench.place(what, place, level)
    assert bench.document == before


def test_the_same_place_and_side_is_pinned_once(bench):
    bench.place("seam", "side", "waist", "left")
    with pytest.raises(CannotLog, match="Two pins"):
        bench.place("seam", "side", "waist", "left")
    bench.place("seam", "side", "waist", "right")
    assert len(bench.pins) == 2


def test_a_pin_that_is_there_is_found_by_its_place_whichever_way_it_was_said(bench):
    bench.place("seam", "side", "waist", "left")
    waist = bench.garment.levels["waist"].down
    here = Where("seam", "side", down_mm=waist)
    assert pinned_at(bench.fitting, bench.garment, here, "left") == 0
    assert pinned_at(bench.fitting, bench.garment, here, "both") == 0
    assert pinned_at(bench.fitting, bench.garment, here, "right") is None
    take_side(bench.written, bench.garment, "in", 0, "both")
    assert pinned_at(bench.fitting, bench.garment, here, "right") == 0


def test_both_sides_stand_for_the_pins_of_each(bench):
    bench.place("seam", "side", "waist", "left")
    bench.place("seam", "side", "waist", "right")
    bench.place("seam", "side", "hip", "right")
    take_side(bench.written, bench.garment, "in", 0, "both")
    assert [(pin["level"], pin["side"]) for pin in bench.pins] == [
        ("waist", "both"),
        ("hip", "right"),
    ]


def test_one_pin_for_both_sides_is_parted_into_one_for_each_with_its_amount_and_marks(bench):
    bench.place("seam", "side", "waist", "both")
    set_amount(bench.written, bench.garment, "in", 0, "3/8")
    bench.place("seam", "side", "hip", "both")
    bench.written["photos"] = [{"file": "a.jpg", "marks": [{"x": 0.1, "y": 0.1, "pin": "pin_1"}]}]
    assert split_sides(bench.written, bench.garment, "in", 0) == 2
    assert [(pin["id"], pin["level"], pin["side"], pin.get("pinch")) for pin in bench.pins] == [
        ("pin_1", "waist", "left", "3/8"), ("pin_2", "hip", "both", None),
        ("pin_3", "waist", "right", "3/8")]  # fmt: skip
    assert bench.written["photos"][0]["marks"][0]["pin"] == "pin_1"
    # 3/8 deep is 3/4 off the round on each side, as 1 1/2 was for both
    assert [bench.total_in(0), bench.total_in(2)] == [pytest.approx(-0.75)] * 2
    for one_side in (0, 2):
        with pytest.raises(CannotLog, match="not on both sides"):
            split_sides(bench.written, bench.garment, "in", one_side)


def test_where_her_right_has_a_pin_of_its_own_parting_leaves_it(bench):
    bench.written["pins"] = [
        {"id": "a", "seam": "side", "side": "both", "level": "waist", "pinch": "3/8"},
        {"id": "b", "seam": "side", "side": "right", "level": "waist", "pinch": "1/4"}]  # fmt: skip
    assert split_sides(bench.written, bench.garment, "in", 0) == 1
    assert [(pin["side"], pin["pinch"]) for pin in bench.pins] == [("left", "3/8"),
                                                                   ("right", "1/4")]  # fmt: skip


def test_a_pin_through_all_layers_is_found_in_each_and_one_of_the_lining_only_there(bench):
    lining = Where("seam", "side", "lining", level="waist")
    place_pin(bench.written, bench.garment, "in", lining, "left")
    outer = Where("seam", "side", level="waist")
    assert pinned_at(bench.fitting, bench.garment, lining, "left") == 0
    assert pinned_at(bench.fitting, bench.garment, outer, "left") is None
    place_pin(bench.written, bench.garment, "in", Where("seam", "side", level="hip"), "left",
              through=True)  # fmt: skip
    assert bench.pins[1]["through"] is True
    hip = Where("seam", "side", "lining", level="hip")
    assert pinned_at(bench.fitting, bench.garment, hip, "left") == 1


def test_what_is_said_of_a_pin_is_kept_with_it(bench):
    bench.place("seam", "side", "waist", "left")
    set_note(bench.written, 0, " the cloth slips ")
    assert bench.fitting.pins[0].note == "the cloth slips"
    set_note(bench.written, 0, "")
    assert "note" not in bench.pins[0]
    with pytest.raises(NotFound):
        set_note(bench.written, 4, "none")


def test_a_mark_of_the_side_that_both_stands_for_goes_to_both_and_to_no_later_pin(bench):
    bench.place("seam", "side", "waist", "left")
    bench.place("seam", "side", "waist", "right")
    gone = bench.pins[1]["id"]
    tied = {"x": 0.5, "y": 0.5, "pin": gone}
    bench.written["photos"] = [{"file": "photos/1.jpg", "marks": [tied]}]
    take_side(bench.written, bench.garment, "in", 0, "both")
    bench.place("seam", "side", "hip", "right")
    (mark,) = bench.written["photos"][0]["marks"]
    assert [pin["level"] for pin in bench.pins if pin["id"] == mark["pin"]] == ["waist"]


def test_a_centre_seam_is_not_put_on_a_side(bench):
    bench.place("seam", "centre_back", "waist")
    with pytest.raises(CannotLog, match="has no side"):
        take_side(bench.written, bench.garment, "in", 0, "left")
    assert "side" not in bench.pins[0]


def test_a_pin_taken_out_leaves_its_marks_on_photos_tied_to_nothing(bench):
    bench.place("seam", "side", "waist", "left")
    bench.place("seam", "side", "hip", "left")
    bench.written["photos"] = [
        {"file": "a.jpg", "marks": [{"x": 0.1, "pin": "pin_1"}, {"x": 0.2, "pin": "pin_2"}]}
    ]
    remove_pin(bench.written, 0)
    assert [pin["id"] for pin in bench.pins] == ["pin_2"]
    assert bench.written["photos"][0]["marks"] == [{"x": 0.1}, {"x": 0.2, "pin": "pin_2"}]
    bench.place("seam", "side", "bust", "left")
    assert [pin["id"] for pin in bench.pins] == ["pin_2", "pin_3"]
    with pytest.raises(NotFound):
        remove_pin(bench.written, 9)


def test_a_pin_without_a_side_is_told_unless_it_has_none(bench):
    bench.written["pins"] = [
        {"seam": "side", "level": "waist"},
        {"seam": "centre_back", "level": "waist"},
        {"seam": "side", "level": "hip", "side": "both"},
    ]
    assert without_side(bench.written, bench.garment) == (0,)


def test_through_every_layer_is_said_and_taken_back(bench):
    bench.place("seam", "side", "waist")
    set_through(bench.written, 0, True)
    assert bench.fitting.pins[0].through
    set_through(bench.written, 0, False)
    assert "through" not in bench.pins[0]


# depth and total by hand: a fold of d takes 2d off a side, both sides twice that; a gap adds g
@pytest.mark.parametrize(
    ("side", "kind", "typed", "total"),
    [("left", "pinch", "3/8", -0.75), ("both", "pinch", "3/8", -1.5), ("right", "gap", "1/2", 0.5),
     ("both", "gap", "3/4", 1.5)],
)  # fmt: skip
def test_the_amount_is_kept_as_typed_and_makes_this_of_the_round(bench, side, kind, typed, total):
    bench.place("seam", "side", "waist", side)
    set_amount(bench.written, bench.garment, "in", 0, typed, kind)
    assert bench.pins[0][kind] == typed
    assert bench.total_in() == pytest.approx(total)


def test_edges_given_apart_take_their_sum(bench):
    bench.place("seam", "side", "hip", "right")
    set_edge(bench.written, bench.garment, "in", 0, "front", "1/4")
    set_edge(bench.written, bench.garment, "in", 0, "back", "1/2")
    assert bench.pins[0]["edges"] == {"front": "-1/4", "back": "-1/2"}
    assert bench.total_in() == pytest.approx(-0.75)
    with pytest.raises(CannotLog, match="does not join"):
        set_edge(bench.written, bench.garment, "in", 0, "sleeve", "1/2")
    set_edge(bench.written, bench.garment, "in", 0, "back", "1/8", "gap")
    assert bench.total_in() == pytest.approx(-0.125)


def test_a_pinch_given_apart_begins_with_the_same_on_both_edges_and_goes_back(bench):
    bench.place("seam", "side", "hip", "right")
    set_amount(bench.written, bench.garment, "in", 0, "3/8")
    pin = bench.fitting.pins[0]
    pieces = edges_of(bench.garment, pin)
    assert pieces == ("front", "back")
    give_edges_apart(bench.written, bench.garment, "in", 0, pin, pieces)
    assert bench.pins[0]["edges"] == {"front": "-3/8", "back": "-3/8"}
    step_amount(bench.written, bench.garment, "in", 0, bench.fitting.pins[0], 2, piece="back")
    assert bench.pins[0]["edges"]["back"] == "-5/8"
    give_edges_apart(bench.written, bench.garment, "in", 0, bench.fitting.pins[0], pieces)
    assert bench.pins[0]["pinch"] == "1/2"
    assert bench.total_in() == pytest.approx(-1)


def test_a_dart_is_pinched_deeper_or_released_and_never_given_apart(bench):
    bench.place("dart", "back_waist", "waist", "left")
    set_amount(bench.written, bench.garment, "in", 0, "1/4", "gap")
    assert bench.total_in() == pytest.approx(0.25)
    turn_kind(bench.written, bench.garment, "in", 0, "pinch")
    assert bench.pins[0]["pinch"] == "1/4"
    assert bench.total_in() == pytest.approx(-0.5)
    assert edges_of(bench.garment, bench.fitting.pins[0]) is None


def test_a_fold_off_a_seam_is_pinched_and_has_no_gap(bench):
    bench.place("piece", "back", "waist", "both")
    with pytest.raises(CannotLog, match="it has no gap"):
        set_amount(bench.written, bench.garment, "in", 0, "1/4", "gap")
    set_amount(bench.written, bench.garment, "in", 0, "1/4")
    assert bench.total_in() == pytest.approx(-1)


def test_an_amount_that_is_none_is_refused_and_what_was_there_stays(bench):
    bench.place("seam", "side", "waist")
    set_amount(bench.written, bench.garment, "in", 0, "3/8")
    for typed, wrong in (("a lot", BadLength), ("-1", CannotLog)):
        with pytest.raises(wrong):
            set_amount(bench.written, bench.garment, "in", 0, typed)
    assert bench.pins[0]["pinch"] == "3/8"
    set_amount(bench.written, bench.garment, "in", 0, "")
    assert kind_of(bench.fitting.pins[0]) is None


def test_steps_land_on_the_garments_steps_and_stop_at_nothing(bench):
    bench.place("seam", "side", "waist")
    for expected in ("1/8", "1/4"):
        step_amount(bench.written, bench.garment, "in", 0, bench.fitting.pins[0], 1)
        assert bench.pins[0]["pinch"] == expected
    set_amount(bench.written, bench.garment, "in", 0, "3/16")
    step_amount(bench.written, bench.garment, "in", 0, bench.fitting.pins[0], -1)
    assert bench.pins[0]["pinch"] == "1/8"
    step_amount(bench.written, bench.garment, "in", 0, bench.fitting.pins[0], -1)
    with pytest.raises(NothingLess):
        step_amount(bench.written, bench.garment, "in", 0, bench.fitting.pins[0], -1)
    assert bench.pins[0]["pinch"] == "0"


@pytest.mark.parametrize(
    ("kind", "typed", "steps", "written"),
    [("pinch", "7.62 mm", 1, "3/8"), ("pinch", "7.62 mm", -1, "1/4"), ("gap", "1/2", 1, "5/8"),
     ("pinch", "7/8", 1, "1"), ("pinch", "1/8", -1, "0")],
)  # 0.3 in is 7.62 mm, between 1/4 and 3/8
def test_a_step_goes_to_the_next_eighth_and_a_gap_stays_a_gap(bench, kind, typed, steps, written):
    bench.place("seam", "side", "waist")
    set_amount(bench.written, bench.garment, "in", 0, typed, kind)
    step_amount(bench.written, bench.garment, "in", 0, bench.fitting.pins[0], steps)
    assert {name: bench.pins[0].get(name) for name in ("pinch", "gap")} == {
        "pinch": None, "gap": None, kind: written}  # fmt: skip


def test_a_step_of_half_a_centimetre_lands_on_it(bench):
    bench.place("seam", "side", "waist")
    set_amount(bench.written, bench.garment, "in", 0, "17 mm")
    garment = with_step(bench.garment, 5.0)
    step_amount(bench.written, garment, "cm", 0, bench.fitting.pins[0], 1)
    assert bench.pins[0]["pinch"] == "2"


def with_step(garment, step_mm):
    return replace(garment, settings=replace(garment.settings, step=step_mm))


@pytest.mark.parametrize(
    ("unit", "step_mm", "written"),
    [("mm", 2.5, "2.5"), ("cm", 2.5, "0.25"), ("in", INCH / 32, "1/32"), ("in", 2.54, "0.1")],
)  # fmt: skip
def test_a_fine_step_is_written_whole(bench, unit, step_mm, written):
    bench.place("seam", "side", "waist")
    garment = with_step(bench.garment, step_mm)
    step_amount(bench.written, garment, unit, 0, bench.fitting.pins[0], 1)
    assert bench.pins[0]["pinch"] == written


@pytest.mark.parametrize(
    ("unit", "step_mm", "before", "after"),
    [
        ("mm", 5.0, {"front": "-7.5", "back": "-2.5"}, {"front": "-12.5", "back": "-7.5"}),
        ("in", INCH / 8, {"front": "-3/32", "back": "-1/32"}, {"front": "-7/32", "back": "-5/32"}),
        ("in", INCH / 8, {"front": "-1/4", "back": "1/2"}, {"front": "-1/8", "back": "5/8"}),
        ("in", INCH / 8, {"front": "1 mm", "back": "2 mm"},
         {"front": "0.16437", "back": "0.20374"}),  # 4.175 and 5.175 mm
    ],
)  # fmt: skip
def test_both_edges_given_apart_go_one_step_on_and_their_difference_stays(
    bench, unit, step_mm, before, after
):
    bench.document["unit"] = unit
    bench.written["pins"] = [{"seam": "side", "side": "left", "level": "waist", "edges": before}]
    garment = with_step(bench.garment, step_mm)
    step_amount(bench.written, garment, unit, 0, bench.fitting.pins[0], 1)
    assert bench.pins[0]["edges"] == after
    step_amount(bench.written, garment, unit, 0, bench.fitting.pins[0], -1)
    for piece, typed in before.items():
        assert read_length(bench.pins[0]["edges"][piece], unit).mm == pytest.approx(
            read_length(typed, unit).mm, abs=1e-3
        )


def test_both_edges_given_apart_stop_at_nothing(bench):
    """Their mean is 1/16: a step of 1/8 less is below nothing."""
    edges = {"front": "-1/8", "back": "0"}
    bench.written["pins"] = [{"seam": "side", "level": "waist", "edges": edges}]
    with pytest.raises(NothingLess):
        step_amount(bench.written, bench.garment, "in", 0, bench.fitting.pins[0], -1)
    assert bench.pins[0]["edges"] == edges


@pytest.mark.parametrize(
    ("gap", "each"), [("1/16", "1/32"), ("3/16", "3/32"), ("1/8", "1/16"), ("1/32", "0.01562")]
)
def test_a_small_gap_given_apart_is_half_of_it_at_each_edge(bench, gap, each):
    bench.place("seam", "side", "hip", "right")
    set_amount(bench.written, bench.garment, "in", 0, gap, "gap")
    give_edges_apart(
        bench.written, bench.garment, "in", 0, bench.fitting.pins[0], ("front", "back")
    )
    assert bench.pins[0]["edges"] == {"front": each, "back": each}


def test_pins_are_read_off_seam_by_seam_round_her_and_from_top_to_bottom(bench):
    bench.place("seam", "centre_back", "waist")  # 0
    bench.place("seam", "side", "hip", "left")  # 1
    bench.place("dart", "back_waist", "waist")  # 2
    bench.place("seam", "side", "waist", "left")  # 3
    bench.place("seam", "side", "bust", "right")  # 4
    bench.place("dart", "front_waist", "waist")  # 5
    bench.place("piece", "back", "waist")  # 6
    bench.place("seam", "side", side="left", down_mm=200.0)  # 7, above the waist
    assert order(bench.garment, bench.fitting) == (5, 7, 3, 1, 4, 2, 6, 0)


def test_the_next_to_read_is_the_next_in_that_order_and_then_there_is_none(bench):
    for level in ("hip", "waist", "bust"):
        bench.place("seam", "side", level, "left")
    assert next_unread(bench.garment, bench.fitting) == 2
    set_amount(bench.written, bench.garment, "in", 1, "1/8")
    assert next_unread(bench.garment, bench.fitting, 2) == 0
    assert (count(bench.fitting).read, count(bench.fitting).pins) == (1, 3)
    set_amount(bench.written, bench.garment, "in", 0, "1/8")
    assert next_unread(bench.garment, bench.fitting, 0) == 2
    set_amount(bench.written, bench.garment, "in", 2, "1/8")
    assert next_unread(bench.garment, bench.fitting, 2) is None
    assert count(bench.fitting).all_read


def test_a_fitting_that_is_gone_says_so(bench):
    with pytest.raises(NotFound):
        At(bench.garment.id, "another").fitting_in(bench.document)
    with pytest.raises(NotFound):
        At("another", "f").fitting_in(bench.document)


def test_a_pin_between_levels_is_told_from_the_nearest_one(bench):
    downs = {name: level.down for name, level in bench.garment.levels.items()}
    bench.place("seam", "side", down_mm=downs["waist"] + INCH)
    bench.place("seam", "side", down_mm=downs["hip"] - INCH)
    bench.place("seam", "side", "hip")
    told = [nearest_level(bench.garment, pin) for pin in bench.fitting.pins]
    assert [level for level, _ in told] == ["waist", "hip", "hip"]
    assert [round(below / INCH, 3) for _, below in told] == [1, -1, 0]


def test_a_zips_seam_is_pinned_at_its_nearest_level_and_no_other_seam_is(bench):
    waist = bench.garment.levels["waist"].down
    zipped = Where("seam", "centre_back", down_mm=waist + INCH)
    assert at_a_level(bench.garment, zipped) == Where("seam", "centre_back", level="waist")
    plain = Where("seam", "side", down_mm=waist + INCH)
    assert at_a_level(bench.garment, plain) == plain


@pytest.mark.parametrize(
    ("kind", "front", "back"), [("gap", 3 / 8, -1 / 8), ("pinch", 1 / 8, -3 / 8)]
)
def test_edges_that_cancel_go_on_as_she_says(bench, kind, front, back):
    """1/4 out at the front and 1/4 in at the back: one step of 1/8 further out, or in, for both."""
    bench.place("seam", "side", "waist", "left")
    bench.pins[0]["edges"] = {"front": "1/4", "back": "-1/4"}
    step_amount(bench.written, bench.garment, "in", 0, bench.fitting.pins[0], 1, kind=kind)
    read = bench.fitting.pins[0].edges
    assert {piece: move / INCH for piece, move in read.items()} == pytest.approx(
        {"front": front, "back": back}
    )
