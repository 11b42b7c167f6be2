"""A draft worked out again: from the tape of now, with what she changed by hand or without it."""

import copy

import pytest

from core.draft.again import work_out_afresh, work_out_again
from core.draft.allowances import set_allowance
from core.draft.darts import set_end, set_take_up
from core.draft.document import CannotChange
from core.draft.ease import set_ease
from core.draft.edits import set_drop, set_height, set_width
from core.draft.kinds import all_kinds
from core.draft.names import rename
from core.draft.start import begin_from_kind
from core.errors import CannotDraft
from tests.drafts import drafted, garment_of, part

KINDS = [found.id for found in all_kinds()]
NEW_WAIST = {"waist_girth": "31", "waist_front_arc": "16"}
"""A quarter is 7 3/4, ease 1/4, front more 1/4: the sheath's front is 10 1/4 with dart and seam,
its back 7 3/4 + 1/4 - 1/4 + 1 + 1 + 1 1/2 = 11 1/4."""


def _grown(document):
    document["measurements"].append({"on": "2026-07-01", "values": NEW_WAIST})
    return document


@pytest.mark.parametrize("unit", ["in", "cm"])
@pytest.mark.parametrize("name", KINDS)
@pytest.mark.parametrize("again", [work_out_again, work_out_afresh])
def test_on_the_same_tape_nothing_changes(again, name, unit):
    document = drafted(name, unit)
    before = copy.deepcopy(document)
    again(document, garment="one")
    assert document == before


def test_a_new_tape_brings_new_widths():
    document = _grown(drafted("sheath_dress"))
    work_out_again(document, garment="one")
    front, back = part(document, piece="front"), part(document, piece="back")
    assert (front["width"]["waist"], back["width"]["waist"]) == ("10 1/4", "11 1/4")
    assert "waist 31 / 4" in front["sum"]["waist"]


def test_a_width_of_hers_stays_as_typed_above_the_sum_of_now():
    document = _grown(drafted("sheath_dress"))
    set_width(document, "10 1/8", garment="one", layer="outer", piece="front", level="waist")
    work_out_again(document, garment="one")
    front = part(document, piece="front")
    assert front["width"]["waist"] == "10 1/8"
    assert front["sum"]["waist"].endswith("= 10 1/4")
    work_out_afresh(document, garment="one")
    assert part(document, piece="front")["width"]["waist"] == "10 1/4"


def test_her_ease_allowances_and_drop_stay_or_are_the_kinds_again():
    document = drafted("fishtail_gown")
    fresh = copy.deepcopy(document)
    set_ease(document, "2", garment="one", level="bust")
    set_allowance(document, "1 1/2", garment="one", layer="outer", seam="side", level="bust")
    set_drop(document, "3", garment="one")
    changed = copy.deepcopy(document)
    work_out_again(document, garment="one")
    assert document == changed
    work_out_afresh(document, garment="one")
    assert document == fresh


def test_her_heights_stay_and_the_darts_with_them():
    document = _grown(drafted("sheath_dress"))
    set_height(document, "18", garment="one", level="waist")
    set_height(document, "11 3/4", garment="one", level="bust")
    work_out_again(document, garment="one")
    assert part(document, level="waist")["down"] == "18"
    assert part(document, dart="front_waist")["ends"]["top"] == "12 3/4"
    work_out_afresh(document, garment="one")
    assert part(document, level="waist")["down"] == "17 3/4"
    assert part(document, dart="front_waist")["ends"]["top"] == "11 3/4"


def test_her_take_ups_and_ends_stay_and_the_widths_count_them():
    document = _grown(drafted("sheath_dress"))
    where = {"garment": "one", "layer": "outer", "dart": "front_waist"}
    set_take_up(document, "1 1/2", level="waist", **where)
    set_end(document, "24 1/4", end="point", **where)
    work_out_again(document, garment="one")
    dart = part(document, dart="front_waist")
    assert (dart["take_up"]["waist"], dart["ends"]["point"]) == ("1 1/2", "24 1/4")
    assert part(document, piece="front")["width"]["waist"] == "10 3/4"


def test_a_dart_she_made_shorter_stays_shorter():
    document = drafted("sheath_dress")
    where = {"garment": "one", "layer": "outer", "dart": "front_waist"}
    set_end(document, "21 3/4", end="point", **where)
    changed = copy.deepcopy(document)
    work_out_again(document, garment="one")
    assert document == changed
    assert part(document, dart="front_waist")["take_up"] == {"waist": "1"}


def test_names_of_her_own_are_said_in_the_new_sums():
    document = _grown(drafted("trousers"))
    rename(document, "Outseam", garment="one", what="seams", id="side")
    for again in (work_out_again, work_out_afresh):
        again(document, garment="one")
        assert "(outseam allowance)" in part(document, piece="front")["sum"]["waist"]
        assert part(document, seam="side")["label"] == "Outseam"


def test_a_level_that_can_be_left_out_comes_in_when_its_girth_is_taken():
    document = drafted("fishtail_gown")
    without = copy.deepcopy(document)
    for name in ("under_bust_girth", "side_neck_to_under_bust"):
        del without["measurements"][0]["values"][name]
    without["garments"] = []
    begin_from_kind(without, "fishtail_gown", id="one")
    assert "under_bust" not in part(without, piece="front")["width"]
    without["measurements"] = document["measurements"]
    work_out_again(without, garment="one")
    assert without["garments"][0]["layers"] == document["garments"][0]["layers"]
    assert [level["id"] for level in without["garments"][0]["levels"]] == [
        level["id"] for level in document["garments"][0]["levels"]
    ]


def test_pieces_and_fields_of_her_own_stay():
    document = _grown(drafted("sheath_dress"))
    garment = document["garments"][0]
    part(document, ring="body")["pieces"][0]["cloth"] = "crêpe"
    garment |= {"due": "2026-09-01", "notes": "hem last",
                "fittings": [{"id": "f", "on": "2026-07-02"}]}  # fmt: skip
    work_out_again(document, garment="one")
    garment = document["garments"][0]
    assert (garment["due"], garment["notes"]) == ("2026-09-01", "hem last")
    assert garment["fittings"] == [{"id": "f", "on": "2026-07-02"}]
    assert part(document, piece="front")["cloth"] == "crêpe"


def test_a_garment_that_was_fitted_keeps_its_draft():
    document = _grown(drafted("sheath_dress"))
    pin = {"seam": "side", "level": "waist", "pinch": "1/4"}
    document["garments"][0]["fittings"] = [{"id": "f", "on": "2026-07-02", "pins": [pin]}]
    before = copy.deepcopy(document)
    for again in (work_out_again, work_out_afresh):
        with pytest.raises(CannotChange, match="has been fitted"):
            again(document, garment="one")
    assert document == before


def test_without_a_kind_or_a_tape_it_says_why_and_changes_nothing():
    document = drafted("sheath_dress")
    document["garments"][0]["kind"] = "cape"
    with pytest.raises(CannotChange, match="came from no kind"):
        work_out_again(document, garment="one")
    document["garments"][0]["kind"] = "sheath_dress"
    document["measurements"] = []
    before = copy.deepcopy(document)
    with pytest.raises(CannotDraft, match="Not taken yet"):
        work_out_again(document, garment="one")
    assert document == before


def test_the_flounce_is_cut_to_the_flare_of_now():
    """One easy step 36: nothing in the rules asks for it, but a hip of 42 makes the flare wider
    by an inch: 38 1/2 round, half a turn: r = 38 1/2 / pi = 12.25."""
    document = drafted("fishtail_gown")
    document["measurements"].append({"on": "2026-07-01", "values": {"hip_girth": "42",
                                                                    "hip_front_arc": "21"}})
    work_out_again(document, garment="one")
    garment = garment_of(document)
    assert garment.joined[0].inner_radius / 25.4 == pytest.approx(38.5 / 3.14159265, abs=0.006)
