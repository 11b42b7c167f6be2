"""Her own kinds: a garment she made fits the next client, with what she changed in it."""

import json

import pytest

from core.draft.again import work_out_again
from core.draft.allowances import set_allowance
from core.draft.before_cutting import finished_girth
from core.draft.darts import set_take_up
from core.draft.document import unit_of
from core.draft.edits import set_height, set_width
from core.draft.kinds import all_kinds
from core.draft.made_from import template_of
from core.draft.names import rename
from core.draft.own_kinds import kind_of, named_kind, read_own_kind
from core.draft.start import begin_from_kind
from core.errors import BadFile, NotFound
from tests.bodies import women
from tests.drafts import drafted, garment_of, part, tape_in_mm
from tests.real_drafts import draft_for, measured

KINDS = [found.id for found in all_kinds()]
INCH = 25.4


def _own(document):
    """Return the document's garment as a kind of her own, as the workroom's file keeps it."""
    data = template_of(document["garments"][0], id="mine", label="Mine", unit=unit_of(document))
    return json.loads(json.dumps(data))


def _woman(index, unit="in"):
    values = {name: f"{mm:.4f} mm" for name, mm in measured(women()[index]).items()}
    return {
        "format": "pins-to-seams/1", "unit": unit, "client": {"id": "w", "name": "A woman"},
        "measurements": [{"on": "2026-01-05", "values": values}],
    }  # fmt: skip


def _numbers(garment):
    return [
        (piece["width"], piece["sum"], [(dart["take_up"], dart["ends"])
                                        for dart in piece.get("darts", [])])
        for layer in garment["layers"] for ring in layer["rings"] for piece in ring["pieces"]
    ]  # fmt: skip


@pytest.mark.parametrize("unit", ["in", "cm"])
@pytest.mark.parametrize("name", KINDS)
def test_an_unchanged_garment_made_a_kind_drafts_as_its_kind_does(name, unit):
    own = _own(drafted(name, unit))
    for index in (3, 100, 200):
        expected = draft_for(women()[index], name, unit)
        if expected is None:
            continue
        document = _woman(index, unit)
        begin_from_kind(document, "mine", id=name, own_kinds=[own])
        mine, theirs = document["garments"][0], expected["garments"][0]
        assert _numbers(mine) == _numbers(theirs)
        assert [level["down"] for level in mine["levels"]] == [
            level["down"] for level in theirs["levels"]
        ]
        assert mine["ease"] == theirs["ease"]
        assert (mine["kind"], mine["own_kind"]) == (name, "mine")


def test_what_she_changed_by_hand_goes_with_the_kind():
    """Her waist is 32, front arc 16 1/2: front 8 + 1/4 + 1/4 + 1 1/4 + 3/4 + 1/8 = 10 5/8."""
    document = drafted("sheath_dress")
    set_allowance(document, "3/4", garment="one", layer="outer", seam="side")
    set_take_up(document, "1 1/4", garment="one", layer="outer", dart="front_waist", level="waist")
    set_width(document, "10 1/8", garment="one", layer="outer", piece="front", level="waist")
    set_height(document, "18", garment="one", level="waist")
    rename(document, "Flank", garment="one", what="seams", id="side")
    own = _own(document)
    other = _woman(0)
    tape = tape_in_mm(waist_girth="32", waist_front_arc="16 1/2")
    other["measurements"] = [{"on": "2026-01-05", "values": tape}]
    begin_from_kind(other, "mine", id="new", own_kinds=[own])
    front = part(other, piece="front")
    assert front["width"]["waist"] == "10 5/8"
    assert front["sum"]["waist"] == (
        "8 (waist 32 / 4) + 1/4 (ease 1 / 4) + 1/4 (front is more) + 1 1/4 (dart)"
        " + 3/4 (flank allowance) + 1/8 (changed by hand) = 10 5/8"
    )
    assert part(other, level="waist")["down"] == "18"


def test_a_metric_kind_serves_an_inch_file():
    document = drafted("pencil_skirt", "cm")
    set_allowance(document, "2,5", garment="one", layer="outer", seam="side")
    own = _own(document)
    assert own["garment"]["layers"][0]["rings"][0]["seams"][0]["allowance"] == "2,5 cm"
    other = _woman(0)
    other["measurements"] = drafted("pencil_skirt")["measurements"]
    begin_from_kind(other, "mine", id="new", own_kinds=[own])
    # hip 41 / 4 + 2 1/2 / 4 = 10 7/8, and 25 mm of side seam: 31 1/2 marks, 1
    assert part(other, piece="front")["width"]["hip"] == "11 27/32"


def _made_by_hand():
    """A skirt of no kind: front net 10 and 11, back 9 1/2 and 10 1/2, waist dart 1 in front."""
    front = {"id": "front", "fold": True, "width": {"waist": "12", "hip": "12"},
             "darts": [{"id": "tuck", "take_up": {"waist": "1"}, "ends": {"top": "0", "point": "4"},
                        "centre_from": "3 from the fold"}]}  # fmt: skip
    back = {"id": "back", "width": {"waist": "11 1/2", "hip": "12 1/2"}}
    seams = [{"id": "side", "joins": ["front", "back"], "allowance": "1"},
             {"id": "centre_back", "joins": ["back", "back"], "allowance": "1"}]  # fmt: skip
    ring = {"id": "body", "kind": "half", "pieces": [front, back], "seams": seams}
    return {
        "id": "cape", "name": "By hand", "ease": {"waist": "1", "hip": "2"},
        "levels": [{"id": "waist", "down": "0", "body": "waist_girth"},
                   {"id": "hip", "down": "8", "body": "hip_girth"}],
        "layers": [{"id": "outer", "rings": [ring]}],
    }  # fmt: skip


def test_a_garment_of_no_kind_becomes_one_that_fits_body_and_ease():
    """On 30 and 40: 31 and 42 round; the front has half an inch more than the back, 1/4 each."""
    own = _own({"unit": "in", "garments": [_made_by_hand()]})
    other = _woman(0)
    other["measurements"][0]["values"] = {"waist_girth": "30", "hip_girth": "40"}
    begin_from_kind(other, "mine", id="new", own_kinds=[own])
    garment = garment_of(other)
    ring = garment.layers[0].rings[0]
    girths = [finished_girth(garment, ring, level, None) / INCH for level in ("waist", "hip")]
    assert girths == pytest.approx([31, 42])
    front = part(other, piece="front")
    assert front["width"] == {"waist": "10", "hip": "11 3/4"}
    assert "1/4 (front is more)" in front["sum"]["hip"]
    assert part(other, dart="tuck")["centre_from"] == "3 from the fold"
    assert other["garments"][0]["kind"] == ""


def test_a_garment_from_her_own_kind_is_worked_out_again_by_it():
    document = drafted("sheath_dress")
    set_width(document, "10 1/4", garment="one", layer="outer", piece="front", level="waist")
    own = _own(document)
    document["garments"] = []
    begin_from_kind(document, "mine", id="new", own_kinds=[own])
    assert part(document, piece="front")["width"]["waist"] == "10 1/4"
    before = json.loads(json.dumps(document))
    work_out_again(document, garment="new", own_kinds=[own])
    assert document == before


def test_kinds_are_found_by_name_hers_first():
    own = _own(drafted("sheath_dress"))
    assert named_kind("mine", [own])[1] == "mine"
    assert named_kind("sheath_dress", [own])[1] == ""
    with pytest.raises(NotFound, match="cape"):
        named_kind("cape", [own])
    assert kind_of({"kind": "sheath_dress", "own_kind": "mine"}, [own]).label == "Mine"
    assert kind_of({"kind": "sheath_dress", "own_kind": "gone"}, [own]).id == "sheath_dress"
    assert kind_of({}, [own]) is None


@pytest.mark.parametrize("broken", [{}, {"id": "x"}, {"id": "x", "garment": []}])
def test_a_kind_that_is_none_is_refused_by_its_path(broken):
    with pytest.raises(BadFile, match="kinds/"):
        read_own_kind(broken)
