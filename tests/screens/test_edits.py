"""A step on a pin changes that pin and nothing else, and lands on a whole step."""

import copy

import pytest

from core.records.fitting import Pin
from screens.edits import NothingLess, Place, choose_lead, step_pin

EIGHTH = 3.175
PLACE = Place(0, 0)


def pin(**given):
    lengths = {key: value * 25.4 for key, value in given.items() if isinstance(value, float)}
    return Pin("seam", "side", "both", "waist", None, "outer", False, **(given | lengths))


def document(written):
    return {"garments": [{"fittings": [{"pins": [{"seam": "side", **written}]}]}]}


def stepped(written, record, steps, unit="in", step_mm=EIGHTH):
    before = document(written)
    step_pin(before, PLACE, 0, record, unit=unit, step_mm=step_mm, steps=steps)
    return before["garments"][0]["fittings"][0]["pins"][0]


@pytest.mark.parametrize(
    ("pinch", "steps", "written"),
    [(0.25, 1, "3/8"), (0.25, -1, "1/8"), (0.125, -1, "0"), (0.3, 1, "3/8"), (0.3, -1, "1/4"),
     (0.875, 1, "1")],
)  # fmt: skip
def test_a_pinch_goes_to_the_next_whole_step(pinch, steps, written):
    assert stepped({"pinch": "x"}, pin(pinch=pinch), steps)["pinch"] == written


def test_a_gap_stays_a_gap():
    assert stepped({"gap": "1/2"}, pin(gap=0.5), 1) == {"seam": "side", "gap": "5/8"}


def test_centimetres_step_by_their_own_step():
    assert stepped({"pinch": "1.5"}, pin(pinch=15 / 25.4), 1, "cm", 5.0)["pinch"] == "2"


def test_a_pin_not_read_yet_becomes_a_pinch():
    assert stepped({}, pin(), 1)["pinch"] == "1/8"


def test_edges_given_apart_keep_their_difference():
    record = pin(edges={"front": -6.35, "back": -12.7})
    assert stepped({"edges": {}}, record, 1)["edges"] == {"front": "-3/8", "back": "-5/8"}
    assert stepped({"edges": {}}, record, -1)["edges"] == {"front": "-1/8", "back": "-3/8"}


@pytest.mark.parametrize("record", [pin(pinch=0.0), pin(gap=0.0), pin(), pin(edges={"front": 0.0})])
def test_nothing_cannot_become_less(record):
    before = document({})
    kept = copy.deepcopy(before)
    with pytest.raises(NothingLess, match="cannot be less"):
        step_pin(before, PLACE, 0, record, unit="in", step_mm=EIGHTH, steps=-1)
    assert before == kept


def test_who_leads_is_written_into_the_fitting():
    before = document({})
    choose_lead(before, PLACE, "tape")
    assert before["garments"][0]["fittings"][0]["lead"] == "tape"
