"""A step as it fills a screen: what its table says, and what is left of its words."""

import copy

import pytest

from core.changes.plan import make_plan
from core.file.fitting_file import read_document
from core.lengths import SMALLEST_MM
from core.said.step_drawn import pieces_drawn
from core.said.step_places import step_places
from core.said.step_shown import steps_shown
from core.wording import Words
from tests.core.test_ticking import DOCUMENTS
from tests.screens.folders import DEMO


def shown_of(document):
    file = read_document(copy.deepcopy(document))
    plan = make_plan(file)
    found = step_places(plan, file, file.unit)
    return file, plan, found, steps_shown(plan, file, found, file.unit)


def rows(step):
    return [(row.label, *(f"{one.way} {one.text}".strip() for one in row.amounts))
            for row in step.rows]  # fmt: skip


def test_a_side_unlike_its_fellow_has_its_own_rows_with_their_directions():
    step = shown_of(DEMO)[3][3]
    assert (step.whose, step.place, step.way, step.alike) == (
        "Her left", "Side seam", "", "front and back alike")  # fmt: skip
    assert rows(step) == [("Bust", "take in 1/8"), ("Waist", "take in 1/4"),
                          ("Hip", "let out 5/8"), ("Hem", "let out 5/8")]  # fmt: skip
    assert step.kept == ("Leaves 3/8 inside at the hip: do not trim.",)
    assert step.told == ("The same up to the top and down to the end.",)
    assert not step.mirrored


def test_her_right_is_drawn_mirrored():
    file, plan, found, steps = shown_of(DEMO)
    assert steps[4].mirrored
    left, right = (pieces_drawn(found.places[at], plan, file, found.garment, "in")
                   for at in (3, 4))  # fmt: skip
    assert [piece.label for piece in left] == [piece.label for piece in right]
    for one, other in zip(left, right, strict=True):
        assert [-x for x, _ in one.stitch] == [x for x, _ in other.stitch]


def test_where_a_line_runs_out_stands_still_in_the_rows_and_is_not_said_again():
    step = shown_of(DEMO)[3][6]
    assert rows(step) == [("Bust", "0"), ("Waist", "take in 1/8"), ("High hip", "0")]
    assert (step.way, step.alike) == ("take in", "each half")
    assert step.kept == ("Leaves 1 5/8 inside at the waist: do not trim.",
                         "Do not go below the high hip.")  # fmt: skip
    assert step.told == ()


def test_a_dart_says_each_leg_and_what_it_becomes():
    step = shown_of(DEMO)[3][2]
    assert (step.whose, step.way_words, step.alike) == ("Both sides", "deeper", "on each leg")
    assert rows(step) == [("Waist", "take in 1/8")]
    assert step.told == ("1 becomes 1 1/4.", "Same top, same point.")


def test_edges_that_differ_have_columns_of_their_own():
    document = copy.deepcopy(DEMO)
    document["garments"][0]["fittings"][0]["pins"] = [
        {"seam": "side", "side": "left", "level": "waist",
         "edges": {"front": "-1/4", "back": "-5/8"}}]  # fmt: skip
    (step,) = [step for step in shown_of(document)[3] if step.place == "Side seam"]
    assert step.columns == ("front", "back")
    assert step.alike == ""
    assert ("Waist", "take in 1/4", "take in 5/8") in rows(step)


@pytest.mark.parametrize("name", DOCUMENTS)
def test_every_amount_of_the_plan_stands_in_the_rows_of_one_step(name):
    file, plan, found, steps = shown_of(DOCUMENTS[name])
    words = Words(file.unit)
    for step, shown in zip(plan.steps, steps, strict=True):
        place = found.of(step)
        if place is None or place.what != "seam":
            continue
        moves = [move for move in plan.moves if words.shows(move.move)
                 and (move.layer, move.seam, move.side) == (step.layer, place.name, place.side)]
        expected = sorted((move.edge, words.length(move.move)) for move in moves)
        _, seam = place.seam
        edges = seam.joins[:1] if seam.joins_itself else seam.joins
        told = []
        for row in shown.rows:
            amounts = row.amounts * len(edges) if len(row.amounts) < len(edges) else row.amounts
            told += [(edge, amount.text) for edge, amount in zip(edges, amounts, strict=True)
                     if amount.way]  # fmt: skip
        assert sorted(told) == expected
        for line in shown.lines:
            assert all(abs(move) < 100 + SMALLEST_MM for _, move in line.points)
