"""A draft put together by hand, part by part, and taken apart again."""

import copy

import pytest

from core.draft.allowances import set_allowance
from core.draft.before_cutting import finished_girth
from core.draft.building import (
    add_dart,
    add_level,
    add_piece,
    add_seam,
    remove_dart,
    remove_level,
    remove_piece,
    remove_seam,
)
from core.draft.darts import set_take_up
from core.draft.document import CannotChange
from core.draft.edits import set_width
from core.draft.start import begin_empty
from tests.drafts import drafted, garment_of, part

OUTER = {"garment": "new", "layer": "outer"}
BODY = {**OUTER, "ring": "body"}


def _skirt():
    """A skirt by hand: waist 9 and 10, hip 12 and 13 cut, seams of 1, a dart of 1 in front."""
    document = {"format": "pins-to-seams/1", "unit": "in", "client": {"id": "c", "name": "C"}}
    begin_empty(document, id="new", name="Skirt")
    add_level(document, "Hip", garment="new", down="8", body="hip_girth")
    add_level(document, "Waist", garment="new", down="0", body="waist_girth")
    add_piece(document, "Front", fold=True, **BODY)
    add_piece(document, "Back", **BODY)
    add_seam(document, "Side seam", joins=("front", "back"), allowance="1",
             parts_front_from_back=True, **BODY)  # fmt: skip
    add_seam(document, "Centre back", joins=("back", "back"), allowance="1", **BODY)
    for level, widths in (("waist", ("9", "10")), ("hip", ("12", "13"))):
        for piece, typed in zip(("front", "back"), widths, strict=True):
            set_width(document, typed, piece=piece, level=level, **OUTER)
    add_dart(document, "Front dart", piece="front", level="waist", take_up="1", top="0",
             point="4", **OUTER)  # fmt: skip
    return document


def _round(document, level):
    garment = garment_of(document)
    ring = garment.layers[0].rings[0]
    return round(finished_girth(garment, ring, level, None) / 25.4, 9)


def test_a_skirt_put_together_by_hand_measures_what_its_numbers_say():
    """Waist 9 - 1 - 1 and 10 - 2, twice: 30; hip 12 - 1 and 13 - 2, twice: 44."""
    document = _skirt()
    assert (_round(document, "waist"), _round(document, "hip")) == (30, 44)
    assert [level["id"] for level in document["garments"][0]["levels"]] == ["waist", "hip"]
    assert garment_of(document).layers[0].rings[0].side_line == "side_seam"


def test_its_allowances_and_darts_are_changed_as_in_any_draft():
    document = _skirt()
    set_allowance(document, "3/4", seam="side_seam", **OUTER)
    set_take_up(document, "1 1/2", dart="front_dart", level="waist", **OUTER)
    assert part(document, piece="front")["width"] == {"waist": "9 1/4", "hip": "11 3/4"}
    assert (_round(document, "waist"), _round(document, "hip")) == (30, 44)


def test_two_of_one_name_have_ids_of_their_own():
    document = _skirt()
    assert add_piece(document, "Front", **BODY) == "front_2"
    assert add_level(document, "Front", garment="new", down="20") == "front_3"


@pytest.mark.parametrize(
    ("add", "told", "words"),
    [
        (add_level, {"label": "Knee", "down": "low"}, "not a length"),
        (add_level, {"label": " ", "down": "1"}, "at least one letter"),
        (add_level, {"label": "Knee", "down": "20", "body": "knee"}, "not a measurement"),
        (add_level, {"label": "Waist too", "down": "8"}, "must lie below"),
    ],
)
def test_what_cannot_be_added_is_refused_and_nothing_changes(add, told, words):
    document = _skirt()
    set_width(document, "9", piece="front", level="waist", **OUTER)
    before = copy.deepcopy(document)
    label = told.pop("label")
    if "Waist too" in label:
        name = add(document, label, garment="new", **told)
        with pytest.raises(CannotChange, match=words):
            set_width(document, "9", piece="front", level=name, **OUTER)
        return
    with pytest.raises(Exception, match=words):
        add(document, label, garment="new", **told)
    assert document == before


def test_a_piece_has_two_edges_and_no_more():
    document = _skirt()
    with pytest.raises(CannotChange, match="Front has 2 seamed edges"):
        add_seam(document, "Front seam", joins=("front", "front"), allowance="1", **BODY)


def test_taking_apart_leaves_the_cut_widths():
    document = _skirt()
    remove_dart(document, dart="front_dart", **OUTER)
    assert _round(document, "waist") == 32
    remove_seam(document, seam="centre_back", **BODY)
    assert _round(document, "waist") == 34
    remove_piece(document, piece="back", **OUTER)
    ring = part(document, ring="body")
    assert [piece["id"] for piece in ring["pieces"]] == ["front"]
    assert ring["seams"] == []


def test_a_level_goes_with_everything_given_at_it():
    document = drafted("sheath_dress")
    remove_level(document, garment="one", level="top_hip")
    garment = document["garments"][0]
    assert "top_hip" not in [level["id"] for level in garment["levels"]]
    assert "top_hip" not in garment["ease"]
    assert "top_hip" not in part(document, seam="centre_back")["allowance"]
    assert "top_hip" not in part(document, dart="back_waist")["take_up"]
    assert part(document, piece="front")["width"]["waist"] == "10"


def test_a_level_where_a_part_is_joined_stays():
    document = drafted("gored_skirt")
    with pytest.raises(CannotChange, match="Waistband is joined here"):
        remove_level(document, garment="one", level="waist")


def test_what_is_pinned_stays():
    document = drafted("sheath_dress")
    pins = [{"seam": "side", "level": "waist", "pinch": "1/4"},
            {"dart": "front_waist", "level": "waist", "pinch": "1/8"}]  # fmt: skip
    document["garments"][0]["fittings"] = [{"id": "f", "on": "2026-06-01", "pins": pins}]
    before = copy.deepcopy(document)
    for remove in (
        lambda: remove_seam(document, garment="one", layer="outer", ring="body", seam="side"),
        lambda: remove_level(document, garment="one", level="waist"),
        lambda: remove_dart(document, garment="one", layer="outer", dart="front_waist"),
        lambda: remove_piece(document, garment="one", layer="outer", piece="front"),
    ):
        with pytest.raises(CannotChange):
            remove()
    assert document == before
