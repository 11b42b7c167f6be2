"""What the core says becomes the words she reads: signs, sides, verdicts, dates."""

import pytest

from core.records.answer import LevelAnswer, Step
from screens.rows import amount, day, direction, level_rows, step_rows, with_side

INCH = 25.4


def level(**given):
    """A level of a made-up waist, in inches."""
    inches = {
        "body": 32.0, "ease": 1.0, "wanted": 33.0, "as_sewn": 35.25, "needed": -2.25,
        "pinned": -1.75, "after_pins": 33.5, "left_over": -0.5, "planned": -1.25, "short": 0.0,
    }  # fmt: skip
    known = {key: given.pop(key) for key in list(given) if key in inches}
    lengths = {key: None if value is None else value * INCH
               for key, value in (inches | known).items()}  # fmt: skip
    words = {
        "layer": "outer", "ring": "body", "side": None, "level": "waist", "label": "Waist",
        "body_on": "2026-03-02", "ease_from": "garment", "verdict": "still loose", "sum": "…",
    }  # fmt: skip
    return LevelAnswer(**(words | given), **lengths)


def only(answer, unit="in"):
    (row,) = level_rows([answer], "outer", unit)
    return row


def test_a_level_reads_from_the_body_to_what_is_left_over():
    row = only(level())
    assert (row.body, row.ease, row.wanted) == ("32", "+ 1", "= 33")
    assert (row.as_sewn, row.moved, row.moved_mark) == ("35 1/4", "1 3/4", "take in")
    assert (row.verdict, row.mark) == ("still loose by 1/2", "take in")


def test_less_than_the_body_is_shown_with_a_minus():
    assert only(level(ease=-1.5)).ease == "− 1 1/2"


def test_too_tight_is_let_out_and_agreeing_is_ticked():
    assert only(level(verdict="would be tight", left_over=0.5)).mark == "let out"
    agreeing = only(level(verdict="agrees", left_over=0.0))
    assert (agreeing.verdict, agreeing.mark) == ("agrees", "agrees")


def test_nothing_pinned_is_a_dash_without_a_mark():
    row = only(level(pinned=0.0))
    assert (row.moved, row.moved_mark) == ("–", "")


def test_a_level_without_a_body_measurement_is_not_judged():
    row = only(level(body=None, wanted=None, needed=None, left_over=None, verdict="not measured"))
    assert (row.body, row.ease, row.wanted) == ("not measured", "", "")
    assert (row.verdict, row.mark, row.as_sewn) == ("not judged", "", "35 1/4")


def test_where_the_tape_leads_the_plan_is_shown_and_what_it_leaves_over():
    (row,) = level_rows([level(planned=-2.125)], "outer", "in", planned_within=INCH / 4)
    assert (row.moved, row.moved_mark, row.verdict) == ("2 1/8", "take in", "agrees")
    (row,) = level_rows([level(planned=-1.25)], "outer", "in", planned_within=INCH / 4)
    assert (row.verdict, row.mark) == ("still loose by 1", "take in")


def test_the_edge_of_the_band_belongs_to_it():
    (row,) = level_rows([level(planned=-2.0)], "outer", "in", planned_within=INCH / 4)
    assert row.verdict == "agrees"


def test_a_shortage_stands_beside_the_verdict():
    row = only(level(verdict="agrees", left_over=0.0, short=0.25))
    assert (row.verdict, row.mark, row.short) == ("agrees, 1/4 short", "caution", True)


def test_only_the_layer_that_is_looked_at_is_shown():
    assert level_rows([level(layer="lining")], "outer", "in") == []


def test_centimetres_are_shown_as_centimetres():
    assert only(level(), "cm").as_sewn == "89.5"


@pytest.mark.parametrize(("mm", "meaning"), [(-1, "take in"), (1, "let out"), (0, ""), (1e-9, "")])
def test_negative_takes_in_and_positive_lets_out(mm, meaning):
    assert direction(mm) == meaning


def test_an_amount_has_no_sign():
    assert amount(-12.7, "in") == "1/2"


def test_sides_are_hers():
    assert with_side("Side seam", "left") == "Side seam, her left"
    assert with_side("Side seam", "right") == "Side seam, her right"
    assert with_side("Centre back", None) == "Centre back"


def test_steps_keep_their_number_and_their_side():
    (row,) = step_rows([Step(3, "side", "outer", "Side seam", "left", "Take in.", "why")])
    assert (row.number, row.title, row.text, row.sum) == (
        "3", "Side seam, her left", "Take in.", "why"
    )  # fmt: skip


def test_a_day_is_said_as_she_says_it():
    assert day("2026-03-02") == "2 March 2026"
    assert day("") == ""
