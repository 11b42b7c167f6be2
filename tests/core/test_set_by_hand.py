"""Amounts she sets by hand: they stand, the totals stay honest, and every list agrees."""

import copy
import json

import pytest

from core.changes.plan import make_plan, plan_layers
from core.changes.set_by_hand import SetMove, put_amount, share_again, take_back
from core.command import main as plan_command
from core.file.fitting_file import read_document
from core.said.spoken import spoken_steps
from core.sewn.rounds import rounds_of
from core.sewn.ticking import sewn_as_planned
from tests.garments import INCH, level, moved, pinned, planned, worked
from tests.real_drafts import worked_drafts
from tests.sheet_reading import read, running_text

EIGHTH = 0.125
SIDE = {"seam": "side", "level": "waist", "move": "-3/8"}


def by_tape(*amounts, **fitting):
    """The worked example at a fitting without pins: waist 2 1/2 too loose, bust 1, hip 3."""
    return pinned(worked(), lead="tape", set_by_hand=list(amounts), **fitting)


def by_pins(*amounts, **fitting):
    """The side seams pinned 1/2 deep at the waist: 2 off the round."""
    pin = {"seam": "side", "level": "waist", "pinch": "1/2"}
    return pinned(worked(), pin, lead="pins", set_by_hand=list(amounts), **fitting)


def totals(plan):
    return [total.text for total in plan.hand_totals]


# What she set stands; the rest stays as planned, and what is missing is told


def test_what_she_set_stands_and_the_shortage_is_told_in_plain_words():
    plan = planned(by_tape(SIDE))
    # four edges of 3/8 and four legs of 1/8 are 2; the waist needs 2 1/2
    assert moved(plan, "side", "waist") == [-3 * EIGHTH] * 2
    assert moved(plan, "back_dart", "waist") == [-EIGHTH]
    assert moved(plan, "side", "bust") == [-2 * EIGHTH] * 2
    assert moved(plan, "side", "hip") == [-4 * EIGHTH] * 2
    said = "Outer, waist, set by hand: needed, take in 2 1/2; these moves take in 2: 1/2 short."
    assert totals(plan) == [said]
    assert said in plan.warnings
    assert level(plan, "waist").planned == pytest.approx(-2 * INCH)
    assert not any("rounding" in warning for warning in plan.warnings)


def test_too_much_is_told_too_and_nothing_where_it_agrees():
    assert totals(planned(by_tape({**SIDE, "move": "-5/8"}))) == [  # 4 x 5/8 + 4 x 1/8 = 3
        "Outer, waist, set by hand: needed, take in 2 1/2; these moves take in 3: 1/2 too much."]
    agrees = planned(by_tape({**SIDE, "move": "-7/16"}))  # 4 x 7/16 + 4 x 1/8 = 2 1/4
    assert totals(agrees) == [
        "Outer, waist, set by hand: needed, take in 2 1/2; these moves take in 2 1/4: 1/4 short,"
        " within the 1/4 that is left as it is."]
    assert not any("set by hand" in warning for warning in agrees.warnings)


def test_the_sum_says_it_was_set_by_hand_and_what_was_planned():
    plan = planned(by_tape(SIDE))
    assert level(plan, "waist").sum.endswith(
        "32 as sewn; take in 2: side seams, four edges, 3/8 each, set by hand (planned: in 1/2);"
        " back darts, four legs, 1/8 each")
    step = next(step for step in plan.steps if step.title == "Side seam")
    assert step.text.endswith("Why: the tape; set by hand at the waist.")
    assert "Waist 3/8." in step.text


def test_set_to_nothing_it_does_not_move_and_says_so():
    plan = planned(by_tape({"dart": "back_dart", "level": "waist", "move": "0"}))
    assert moved(plan, "back_dart", "waist") == [0]
    assert "back darts, four legs, nothing each, set by hand (planned: in 1/8)" in (
        level(plan, "waist").sum)
    assert not any(step.title == "Back dart" for step in plan.steps)
    assert totals(plan) == [
        "Outer, waist, set by hand: needed, take in 2 1/2; these moves take in 2: 1/2 short."]


# Shared again over what she did not set


def test_what_is_left_is_shared_again_over_the_seams_she_did_not_set():
    plan = planned(by_tape(SIDE, shared_again=True))
    # 2 1/2 less 1 1/2 is 1: the back darts give 1/8 a leg, all that is left to their deepest
    # (1 1/2 less 1 1/4, halved); the front darts, whose turn is next, the other half inch
    assert moved(plan, "side", "waist") == [-3 * EIGHTH] * 2
    assert moved(plan, "back_dart", "waist") == [-EIGHTH]
    assert moved(plan, "front_dart", "waist") == [-EIGHTH]
    assert totals(plan)[0].endswith("these moves take in 2 1/2: that agrees.")


def test_what_the_pins_asked_for_is_shared_again_where_they_lead():
    plan = planned(by_pins({**SIDE, "move": "-1/4"}, shared_again=True))
    # pinned 2, four edges of 1/4 are 1: the darts give the other 1, 1/8 on each of eight legs
    assert moved(plan, "side", "waist") == [-2 * EIGHTH] * 2
    assert moved(plan, "back_dart", "waist") == moved(plan, "front_dart", "waist") == [-EIGHTH]
    assert totals(plan) == [
        "Outer, waist, set by hand: pinned, take in 2; these moves take in 2: that agrees."]
    dart = next(step for step in plan.steps if step.title == "Back dart")
    assert dart.text.endswith("Why: shared again, no pin was set for it.")


# One side, one edge, one dart; limits


def test_one_side_and_one_edge_alone_are_set():
    left = planned(by_pins({**SIDE, "side": "left"}))
    assert moved(left, "side", "waist", side="left") == [-3 * EIGHTH] * 2
    assert moved(left, "side", "waist", side="right") == [-4 * EIGHTH] * 2
    front = planned(by_pins(SIDE, {**SIDE, "side": "left", "edge": "front", "move": "-1/4"}))
    assert moved(front, "side", "waist", edge="front") == [-2 * EIGHTH]
    assert moved(front, "side", "waist", edge="back") == [-3 * EIGHTH]
    # 1/4 + 3 x 3/8 = 1 3/8, pinned 2
    assert totals(front) == [
        "Outer, waist, set by hand: pinned, take in 2; these moves take in 1 3/8: 5/8 short."]


def test_more_than_the_cloth_gives_is_cut_to_it_and_told_as_a_shortage():
    plan = planned(by_pins({**SIDE, "move": "3/4"}))  # 1 inside, 3/8 kept: 5/8
    assert moved(plan, "side", "waist") == [5 * EIGHTH] * 2
    assert level(plan, "waist").short == pytest.approx(4 * EIGHTH * INCH)
    said = " ".join(plan.warnings)
    assert "set by hand 3/4 an edge, the cloth gives 5/8; 1/8 an edge is missing." in said
    assert "Outer, waist: 1/2 short to let out; " in said


def test_more_than_is_usually_taken_in_stays_as_she_set_it_with_a_caution():
    plan = planned(by_pins({**SIDE, "move": "-1 1/4"}))
    assert moved(plan, "side", "waist") == [-1.25] * 2
    assert "Side seam, her left, waist: taken in 1 1/4 an edge, more than 1; sewn as set by hand," \
        " try it on first." in plan.warnings


# Every list agrees


def test_the_line_the_voice_the_redraft_the_sheet_and_json_have_the_same_amounts(tmp_path, capsys):
    file = read_document(by_tape(SIDE))
    plan = make_plan(file)
    outer = plan_layers(file, file.garments[0], file.garments[0].fittings[0], "tape")[0]
    assert outer.lines["side", "left", 0].at(16.5 * INCH) == pytest.approx(-3 * EIGHTH * INCH)
    assert any("Waist, three eighths." in said for said in spoken_steps(plan, file))
    toile = planned(by_tape(SIDE, stage="toile"))
    assert "Waist: cut 10 1/4 - 3/8 = 9 7/8, set by hand." in toile.steps[0].text
    path = tmp_path / "client.json"
    path.write_text(json.dumps(file.data))
    assert plan_command([str(path)]) == 0
    text = " ".join(capsys.readouterr().out.split())
    assert "SET BY HAND Side seam, waist: take in 3/8 an edge, planned: take in 1/2." in text
    assert plan_command([str(path), "--json"]) == 0
    answer = json.loads(capsys.readouterr().out)
    hers = [move for move in answer["moves"] if move["by_hand"]]
    assert {move["from"] for move in answer["moves"]} <= {"pins", "tape", "carried"}
    assert [(move["move"], move["planned"]) for move in hers] == [(-9.525, -12.7)] * 4
    assert sum(move["move"] * move["edges"] for move in answer["moves"]
               if move["level"] == "waist") == pytest.approx(-2 * INCH)  # fmt: skip


def test_the_sheet_says_it_was_set_by_hand():
    from core.sheet.whole import sheet_pdf

    file = read_document(by_tape(SIDE))
    text = " ".join(running_text(read(sheet_pdf(make_plan(file), file))).split())
    assert "set by hand at the waist" in text
    assert "these moves take in 2: 1/2 short" in text


def test_sewn_it_is_what_she_set():
    document = by_tape(SIDE)
    fitting = document["garments"][0]["fittings"][0]
    fitting["done"] = sewn_as_planned(planned(document), "2026-02-01")
    pinned(document)
    garment = read_document(document).garments[0]
    (body,) = rounds_of(garment, garment.layers[0], garment.fittings[-1])
    assert body.as_sewn("waist") == pytest.approx(30 * INCH)  # 32 less 2


def test_a_lining_follows_what_she_set_on_the_outer_and_is_not_called_set_itself():
    document = copy.deepcopy(worked_drafts()["fishtail_gown"])
    garment = read_document(document).garments[0]
    pin = {"seam": "side", "level": "waist", "pinch": "1/2"}
    pinned(document, pin, lead="pins", set_by_hand=[SIDE])
    plan = planned(document)
    outer, lining = (garment.layers[at].id for at in (0, 1))
    assert set(moved(plan, "side", "waist", layer=outer)) == {-3 * EIGHTH}
    assert set(moved(plan, "side", "waist", layer=lining)) == {-3 * EIGHTH}
    assert {move.layer for move in plan.moves if move.by_hand} == {outer}
    assert all("Lining" not in text for text in totals(plan))


# Kept in the file


def test_set_and_taken_back_the_fitting_is_as_it_was():
    document = by_pins()
    fitting = document["garments"][0]["fittings"][0]
    del fitting["set_by_hand"]
    before = copy.deepcopy(fitting)
    both = SetMove("outer", "seam", "side", "both", "", "waist", -9.525)
    left = SetMove("outer", "seam", "side", "left", "front", "waist", -6.35)
    put_amount(fitting, [both], "in")
    put_amount(fitting, [left], "in")
    share_again(fitting, True)
    assert fitting["set_by_hand"] == [
        {"layer": "outer", "seam": "side", "side": "both", "level": "waist", "move": "-3/8 in"},
        {"layer": "outer", "seam": "side", "side": "left", "edge": "front", "level": "waist",
         "move": "-1/4 in"}]
    take_back(fitting, [left])
    assert len(fitting["set_by_hand"]) == 1
    put_amount(fitting, [left, both], "in")  # both sides take the place of one
    assert len(fitting["set_by_hand"]) == 1
    take_back(fitting, [both])
    assert fitting == before


@pytest.mark.parametrize("odd", [
    "three", [7], [{"seam": "gone", "level": "waist", "move": "1"}], [{**SIDE, "move": "wide"}],
    [{**SIDE, "side": "top"}], [{**SIDE, "edge": "sleeve"}], [{**SIDE, "level": "gone"}],
], ids=["words", "number", "no seam", "no length", "no side", "no edge", "no level"])  # fmt: skip
def test_what_names_nothing_in_the_draft_is_not_counted_and_told(odd):
    document = by_pins()
    document["garments"][0]["fittings"][0]["set_by_hand"] = odd
    plan, without = planned(document), planned(by_pins())
    assert plan.moves == without.moves
    lost = [said for said in plan.warnings if "names nothing in the draft any more" in said]
    assert len(lost) == (0 if odd == "three" else 1)


# The way that was chosen at the fitting


def test_the_command_shares_as_was_chosen_at_the_fitting_unless_told_otherwise(tmp_path, capsys):
    path = tmp_path / "client.json"
    path.write_text(json.dumps(by_tape(way="fewest")))

    def opened(*words):
        assert plan_command([str(path), "--json", *words]) == 0
        options = json.loads(capsys.readouterr().out)["options"]
        return next((one["way"], one["open"]) for one in options if one["chosen"])

    assert opened() == ("fewest", ["side"])
    assert opened("--way", "by_turns") == ("by_turns", ["back_dart", "centre_back", "side"])


# What can be set of a step


def steps_to_set(document):
    from core.said.amounts_to_set import amounts_to_set
    from core.said.step_places import step_places
    from core.wording import Words

    file = read_document(document)
    plan = make_plan(file)
    rows = amounts_to_set(plan, step_places(plan, file, "in"), Words("in"))
    return {step.title: row for step, row in zip(plan.steps, rows, strict=True)}


def test_a_seam_can_be_set_at_every_level_it_is_at_and_a_dart_where_it_is_widest():
    steps = steps_to_set(by_tape(SIDE))
    assert [(row.label, row.way, row.text, row.note) for row in steps["Side seam"]] == [
        ("Bust", "take in", "1/4", ""),
        ("Waist", "take in", "3/8", "set by hand, planned: take in 1/2"),
        ("Hip", "take in", "1/2", "")]
    assert [(row.label, row.text) for row in steps["Back dart"]] == [("Waist, each leg", "1/8")]
    assert [row.text for row in steps["Centre back"]] == ["0", "0", "1/2"]
    assert steps["Mark"] == ()


def test_edges_that_are_not_alike_are_set_each_and_beyond_the_cloth_it_says_what_there_is():
    steps = steps_to_set(by_pins({**SIDE, "edge": "front", "move": "3/4"}))
    waist = [row for row in steps["Side seam"] if row.label.startswith("Waist")]
    assert [(row.label, row.way, row.text) for row in waist] == [
        ("Waist, front", "let out", "3/4"), ("Waist, back", "take in", "1/2")]
    assert waist[0].note == "set by hand, planned: take in 1/2; the cloth gives 5/8"


@pytest.mark.parametrize(("eighths", "steps", "after"),
                         [(-3, -1, -4), (-3, 1, -2), (0, -1, -1), (0, 1, 1), (-2.5, -1, -3),
                          (-2.5, 1, -2), (-1, 1, 0)])  # fmt: skip
def test_a_touch_is_one_step_and_lands_on_a_whole_one(eighths, steps, after):
    (dart,) = steps_to_set(by_tape())["Back dart"]
    from dataclasses import replace

    row = replace(dart, at=replace(dart.at, move=eighths * 3.175))
    assert row.stepped(steps, 3.175).move == pytest.approx(after * 3.175)
