"""Every pin says where it is, how deep, and what that makes of the round, side by side."""

import json
from pathlib import Path

import pytest

from core.file.fitting_file import read_document
from core.records.fitting import Fitting, Pin
from screens.pin_rows import Room, pin_rows

DRAFTS = Path(__file__).resolve().parents[1] / "data" / "drafts"
INCH = 25.4
ROOM = Room(0.625 * INCH, INCH)


def garment(name):
    (found,) = DRAFTS.glob(f"?_{name}.json")
    return read_document(json.loads(found.read_text(encoding="utf-8"))).garments[0]


def row(pin, name="sheath_dress", room=ROOM):
    (only,) = pin_rows(garment(name), Fitting("f", pins=(pin,)), [room], "in", 0)
    return only


def pin(place="side", side="both", level="waist", what="seam", down=None, **given):
    inches = {key: value * INCH if isinstance(value, float) else value
              for key, value in given.items()}  # fmt: skip
    return Pin(what, place, side, level, down, "outer", False, **inches)


@pytest.mark.parametrize(
    ("given", "depth", "times", "total", "effect"),
    [
        # a fold takes twice its depth, on both sides twice again
        (pin(pinch=0.375), "3/8", "× 2 a fold\n× 2 sides", "1 1/2", "off the round"),
        (pin(side="left", pinch=0.375), "3/8", "× 2 a fold", "3/4", "off the round"),
        # an opened seam gives its width
        (pin(side="left", gap=0.5), "1/2", "", "1/2", "added to the round"),
        (pin(gap=0.5), "1/2", "× 2 sides", "1", "added to the round"),
        # a centre seam is there once
        (pin("centre_back", pinch=0.25), "1/4", "× 2 a fold", "1/2", "off the round"),
        (pin("back_waist", what="dart", pinch=0.125), "1/8", "× 2 a fold\n× 2 sides", "1/2",
         "off the round"),
        (pin("back", what="piece", side="right", pinch=0.25), "1/4", "× 2 a fold", "1/2",
         "off the round"),
        (pin(pinch=0.0), "0", "× 2 a fold\n× 2 sides", "0", "no change"),
        (pin(), "–", "× 2 sides", "–", ""),
    ],
)  # fmt: skip
def test_depth_and_total(given, depth, times, total, effect):
    shown = row(given)
    assert (shown.depth, shown.times, shown.total, shown.effect) == (depth, times, total, effect)


def test_edges_given_apart_add_up():
    shown = row(pin(side="right", edges={"front": -0.25 * INCH, "back": -0.5 * INCH}))
    assert (shown.total, shown.mark, shown.kind) == ("3/4", "take in", "an edge")


def test_two_sleeves_are_two_rounds():
    shown = row(pin("sleeve_seam", level="upper_arm", pinch=0.25), "sleeved_bodice")
    assert (shown.total, shown.effect) == ("1/2", "off each round")
    assert "sides" not in shown.times


@pytest.mark.parametrize(
    ("given", "title", "whose"),
    [
        (pin(side="left", pinch=0.25), "Side seam, waist", "her left"),
        (pin(side="right", pinch=0.25), "Side seam, waist", "her right"),
        (pin("centre_back", pinch=0.25), "Centre back, waist", ""),
        (pin(level="", down=400.0, pinch=0.25), "Side seam", "both sides"),
    ],
)
def test_where_it_is(given, title, whose):
    assert (row(given).title, row(given).whose) == (title, whose)


def test_the_reach_counts_steps_of_one_edge():
    shown = row(pin(pinch=0.375))
    assert (shown.at, shown.let_out, shown.take_in) == pytest.approx((-3, 5, 8))
    assert shown.beyond == ""


def test_beyond_the_cloth_is_told_with_what_is_missing():
    assert row(pin(gap=1.5)).beyond == "The cloth is 1/8 an edge short of what is pinned"
    assert row(pin(gap=1.25)).beyond == ""
    assert "more than is usually taken in" in row(pin(pinch=1.125)).beyond
