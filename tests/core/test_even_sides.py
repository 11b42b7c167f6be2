"""Evening out what was pinned unlike: each side half of the sum, the round as it was."""

import copy

import pytest

from core.changes.even_sides import even_out, uneven_sides
from core.changes.plan import make_plan
from core.file.fitting_file import read_document
from core.share.pinned import edge_move
from tests.screens.folders import DEMO


def demo(**amounts):
    """The demo with other amounts at her left and her right hip."""
    document = copy.deepcopy(DEMO)
    pins = document["garments"][0]["fittings"][0]["pins"]
    for index, side in ((4, "left"), (5, "right")):
        pins[index] = {"seam": "side", "side": side, "level": "hip", **amounts[side]}
    return document


def uneven(document):
    garment = read_document(document).garments[0]
    return uneven_sides(garment, garment.fittings[0], "in")


@pytest.mark.parametrize(
    ("left", "right", "written"),
    [
        ({"gap": "1 1/2"}, {"pinch": "3/8"}, {"gap": "3/8"}),  # 3/4 out and 3/8 in: 3/16 each
        ({"pinch": "1/4"}, {"pinch": "3/4"}, {"pinch": "1/2"}),
        ({"gap": "1/2"}, {"pinch": "1/4"}, {"pinch": "0"}),  # 1/4 out and 1/4 in: nothing
        ({"pinch": "1/8"}, {"pinch": "3/16"}, {"pinch": "3.96875 mm"}),  # 5/32 no tape shows
    ],
)
def test_each_side_has_half_of_the_sum(left, right, written):
    document = demo(left=left, right=right)
    (place,) = uneven(document)
    pins = document["garments"][0]["fittings"][0]["pins"]
    before = sum(edge_move(pin) for pin in read_document(document).garments[0].fittings[0].pins[4:])
    even_out(document["garments"][0]["fittings"][0], place, "in")
    for pin, side in zip(pins[4:], ("left", "right"), strict=True):
        assert pin == {"seam": "side", "side": side, "level": "hip", **written}
    after = sum(edge_move(pin) for pin in read_document(document).garments[0].fittings[0].pins[4:])
    assert after == pytest.approx(before, abs=1e-3)
    assert not uneven(document)


def test_what_is_unlike_says_both_sides_and_what_even_would_be():
    (place,) = uneven(DEMO)
    assert place.words == ("Side seam, hip: her left let out 3/4, her right take in 3/8 an edge."
                           " Even: let out 3/16 each.")  # fmt: skip


def test_worn_inside_out_the_words_have_the_sides_of_the_list():
    document = copy.deepcopy(DEMO)
    document["garments"][0]["fittings"][0]["worn"]["inside_out"] = True
    (place,) = uneven(document)
    assert place.words.startswith("Side seam, hip: her left take in 3/8, her right let out 3/4")
    hips = {move.side: move.move > 0 for move in make_plan(read_document(document)).moves
            if (move.layer, move.seam, move.level) == ("outer", "side", "hip")}  # fmt: skip
    assert hips == {"left": False, "right": True}


def test_the_round_that_is_pinned_stays_the_same():
    document = copy.deepcopy(DEMO)
    before = {row.level: row.pinned for row in make_plan(read_document(document)).levels
              if row.layer == "outer"}  # fmt: skip
    even_out(document["garments"][0]["fittings"][0], uneven(document)[0], "in")
    plan = make_plan(read_document(document))
    after = {row.level: row.pinned for row in plan.levels if row.layer == "outer"}
    assert after["hip"] == pytest.approx(before["hip"], abs=1e-3)
    assert not any("even them" in said for said in plan.warnings)


def test_a_pin_for_both_sides_is_even_already():
    document = copy.deepcopy(DEMO)
    document["garments"][0]["fittings"][0]["pins"] = [
        {"seam": "side", "side": "both", "level": "hip", "pinch": "1/4"},
        {"seam": "side", "side": "left", "level": "waist", "pinch": "1/4"},
        {"seam": "side", "side": "right", "level": "waist"},
    ]
    assert uneven(document) == ()
