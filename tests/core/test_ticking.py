"""Ticking a list off step by step: as sewn follows, and taking it back leaves nothing."""

import copy
import random

import pytest

from core.changes.plan import make_plan
from core.file.fitting_file import read_document
from core.fit.beginning import begin
from core.said.step_places import step_places
from core.sewn.rounds import rounds_of
from core.sewn.ticked_girths import checked_girths, keep_girth
from core.sewn.ticked_steps import NotYet, off_the_list, tick, ticks_of, untick
from core.sewn.ticking import sewn_as_planned
from core.sewn.trimming import CannotTrim, keep_trim, refuse_too_much, trims_of
from tests.benchmark import fishtail_with_twelve_pins
from tests.real_drafts import worked_drafts
from tests.screens.folders import DEMO

ON = "2026-05-09"


def pinned_everywhere(document):
    """Every seam pinned at its first and last level, left and right alike on one, unlike on it."""
    document = copy.deepcopy(document)
    garment = read_document(document).garments[0]
    layer, pins = garment.layers[0], []
    for ring in layer.rings:
        for number, seam in enumerate(ring.seams):
            levels = [name for name in ring.levels
                      if all(name in ring.piece(piece).width for piece in seam.joins)]
            sides = [{}] if seam.joins_itself and ring.kind == "half" else (
                [{"side": "both"}] if number % 2 else [{"side": "left"}, {"side": "right"}])
            if any(pin["seam"] == seam.id for pin in pins):
                continue
            for at, side in enumerate(sides):
                pins.append({"seam": seam.id, "level": levels[len(levels) // 2],
                             "pinch": f"{1 + at}/8", **side})
    document["garments"][0]["fittings"] = [
        {"id": "first", "on": "2026-05-02", "stage": "basted", "pins": pins}]
    return document


DOCUMENTS = {
    "demo": DEMO,
    "fishtail, twelve pins": fishtail_with_twelve_pins().data,
    **{f"{kind}, pinned": pinned_everywhere(draft) for kind, draft in worked_drafts().items()},
}


def opened(document):
    file = read_document(document)
    plan = make_plan(file)
    found = step_places(plan, file, file.unit)
    return file, plan, found


def work(document):
    """Return the document to change, its fitting, and what asks how the steps stand."""
    document = read_document(copy.deepcopy(document)).data
    file, plan, found = opened(document)
    fitting = document["garments"][0]["fittings"][-1]
    first = file.garments[0].layers[0].id
    return document, fitting, plan, first, lambda: ticks_of(plan, found, fitting, file.unit)


def in_order(entries):
    return sorted((entry for entry in entries if entry["moves"]), key=str)


@pytest.mark.parametrize("name", DOCUMENTS)
def test_all_steps_ticked_one_at_a_time_are_the_whole_plan_sewn(name):
    _, fitting, plan, first, ticks = work(DOCUMENTS[name])
    assert len(plan.steps) > 5
    for number in range(len(plan.steps)):
        assert not ticks()[number].done
        tick(fitting, ticks()[number], plan, ON, first)
        assert ticks()[number].done
    assert in_order(fitting["done"]) == in_order(sewn_as_planned(plan, ON))
    assert not any(each.otherwise or each.waits_for for each in ticks())


@pytest.mark.parametrize("name", DOCUMENTS)
def test_unticked_in_any_order_the_document_is_as_it_was(name):
    document, fitting, plan, first, ticks = work(DOCUMENTS[name])
    before = copy.deepcopy(document)
    for number in range(len(plan.steps)):
        tick(fitting, ticks()[number], plan, ON, first)
    order = list(range(len(plan.steps)))
    random.Random(len(name)).shuffle(order)
    for number in order:
        assert document != before
        untick(fitting, ticks()[number], first)
        assert not ticks()[number].done
    assert document == before


@pytest.mark.parametrize("name", DOCUMENTS)
def test_the_next_fitting_begins_with_the_draft_and_every_move_that_was_ticked(name):
    document, fitting, plan, first, ticks = work(DOCUMENTS[name])
    file = read_document(document)
    start = {(around.layer.id, around.ring.id, around.side, level): mm
             for layer in file.garments[0].layers
             for around in rounds_of(file.garments[0], layer, file.garments[0].fittings[-1])
             for level, mm in around.sewn.items()}
    for number in range(len(plan.steps)):
        tick(fitting, ticks()[number], plan, ON, first)
    document["garments"][0]["fittings"].append({"id": "second", "on": "2026-06-01"})
    after = make_plan(read_document(document)).levels
    promised = {(row.layer, row.ring, row.side, row.level): row.planned for row in plan.levels}
    folds = [move for move in plan.moves if move.seam is None and move.dart is None]
    assert not folds
    for row in after:
        place = (row.layer, row.ring, row.side, row.level)
        assert row.as_sewn == pytest.approx(start[place] + promised[place], abs=1e-4)


def test_the_hem_waits_for_what_comes_before_and_says_for_what():
    _, fitting, plan, first, ticks = work(DEMO)
    hem = len(plan.steps) - 1
    assert plan.steps[hem].group == "hem"
    before = copy.deepcopy(fitting)
    with pytest.raises(NotYet, match=r"Side seam, her left, .*Hang"):
        tick(fitting, ticks()[hem], plan, ON, first)
    assert fitting == before
    for number, step in enumerate(plan.steps[:-1]):
        if step.group != "trim":
            tick(fitting, ticks()[number], plan, ON, first)
    tick(fitting, ticks()[hem], plan, ON, first)
    assert ticks()[hem].done


def test_one_side_unticked_leaves_the_other_of_what_was_sewn_on_both():
    _, fitting, plan, first, ticks = work(DEMO)
    left = next(n for n, step in enumerate(plan.steps) if step.side == "left")
    move = {"edge": "front", "level": "waist", "move": "-1/4"}
    both = {"on": ON, "seam": "side", "side": "both", "moves": [move], "trimmed": {"front": "3/4"}}
    fitting["done"] = [both]
    assert ticks()[left].done
    untick(fitting, ticks()[left], first)
    assert fitting["done"] == [{**both, "side": "right"}]


def test_what_was_ticked_and_is_pinned_no_more_is_told():
    document, fitting, plan, first, ticks = work(DEMO)
    garment = read_document(document).garments[0]
    for number in range(len(plan.steps)):
        tick(fitting, ticks()[number], plan, ON, first)
    assert off_the_list(ticks(), fitting, garment) == ()
    fitting["pins"] = [pin for pin in fitting["pins"] if pin.get("seam") != "side"]
    file, plan, found = opened(document)
    told = off_the_list(ticks_of(plan, found, fitting, file.unit), fitting, garment)
    assert told == ("side seam, her left", "side seam, her right")


def test_what_was_ticked_with_other_pins_is_told_and_ticked_anew():
    document, fitting, plan, first, ticks = work(DEMO)
    left = next(n for n, step in enumerate(plan.steps) if step.side == "left")
    tick(fitting, ticks()[left], plan, ON, first)
    fitting["pins"][4]["gap"] = "1/2"
    file, plan, found = opened(document)
    now = ticks_of(plan, found, fitting, file.unit)[left]
    assert now.done
    assert now.otherwise
    tick(fitting, now, plan, ON, first)
    now = ticks_of(plan, found, fitting, file.unit)[left]
    assert now.done
    assert not now.otherwise
    assert [entry["side"] for entry in fitting["done"]] == ["left"]


def test_an_entry_for_both_sides_counts_for_each():
    _document, fitting, plan, first, ticks = work(DEMO)
    lining = next(n for n, step in enumerate(plan.steps) if step.layer == "lining")
    tick(fitting, ticks()[lining], plan, ON, first)
    assert [entry["side"] for entry in fitting["done"]] == ["left", "right"]
    one = {**fitting["done"][0], "side": "both"}
    fitting["done"] = [one]
    assert ticks()[lining].done
    assert not ticks()[lining].otherwise


def test_a_girth_taped_after_basting_is_judged_and_kept():
    document, fitting, plan, _, _ = work(DEMO)
    file = read_document(document)
    check = next(step for step in plan.steps if step.group == "baste and check")

    def girths():
        return {girth.level: girth
                for girth in checked_girths(plan, check, file.garments[0], fitting, "in")}

    assert {level: girth.should for level, girth in girths().items()} == {
        "bust": "42", "waist": "33 1/2", "top_hip": "41 3/16", "hip": "46 3/4", "hem": "44"}
    assert girths()["waist"].judged == ""
    keep_girth(fitting, girths()["waist"], "33 5/8", "in")
    assert (girths()["waist"].judged, girths()["waist"].said) == ("agrees",
                                                                  "Agrees, 1/8 too large")
    keep_girth(fitting, girths()["waist"], "34 1/2", "in")
    waist = girths()["waist"]
    assert (waist.judged, waist.said) == ("larger", "1 too large")
    assert waist.look == ("Look at: side seam, centre back and back waist dart."
                          " 10 sewing lines were moved here, about 1/8 on each.")  # fmt: skip
    assert fitting["checked_girths"] == {"outer": {"body": {"waist": "34 1/2"}}}
    assert read_document(document).garments[0].fittings[0].sewn_girths  # her own are untouched
    keep_girth(fitting, girths()["waist"], "", "in")
    assert "checked_girths" not in fitting


def step_of(plan, group):
    return next(n for n, step in enumerate(plan.steps) if step.group == group)


def test_girths_whose_check_was_unticked_do_not_begin_the_next_fitting():
    document, fitting, plan, first, ticks = work(DEMO)
    garment = read_document(document).garments[0]
    check = step_of(plan, "baste and check")

    def girths():
        return {one.level: one
                for one in checked_girths(plan, plan.steps[check], garment, fitting, "in")}

    keep_girth(fitting, girths()["waist"], "33 5/8", "in")
    keep_girth(fitting, girths()["hip"], "47", "in")
    tick(fitting, ticks()[check], plan, ON, first)
    assert begin(copy.deepcopy(document), garment.id, "next", ON)["sewn_girths"]
    untick(fitting, ticks()[check], first)
    assert "sewn_girths" not in begin(copy.deepcopy(document), garment.id, "next", ON)
    assert girths()["waist"].typed == "33 5/8"  # still shown, to be taped again or not
    keep_girth(fitting, girths()["hip"], "46 7/8", "in")
    tick(fitting, ticks()[check], plan, ON, first)
    assert begin(document, garment.id, "next", ON)["sewn_girths"] == {
        "outer": {"body": {"waist": "33 5/8", "hip": "46 7/8"}}}


def inside_at_the_next_fitting(document):
    """The least that is inside at the side seams, her left, at the levels that moved (inches)."""
    after = copy.deepcopy(document)
    after["garments"][0]["fittings"].append({"id": "next", "on": "2026-06-01"})
    garment = read_document(after).garments[0]
    (body,) = rounds_of(garment, garment.layers[0], garment.fittings[-1])
    edge = next(one for one in body.edges if (one.seam.id, one.side) == ("side", "left"))
    return {level: round(mm / 25.4, 4) for level, mm in edge.allowance.items()}


def test_what_was_trimmed_is_what_is_inside_at_the_next_fitting_and_unticked_it_is_not():
    document, fitting, plan, first, ticks = work(DEMO)
    garment, trimming = read_document(document).garments[0], step_of(plan, "trim")
    for number in range(len(plan.steps)):
        if plan.steps[number].group not in ("trim", "hang", "hem"):
            tick(fitting, ticks()[number], plan, ON, first)
    before, inside = copy.deepcopy(fitting), inside_at_the_next_fitting(document)

    def side():
        return next(one for one in trims_of(plan, plan.steps[trimming], garment, fitting, "in")
                    if (one.layer, one.seam) == ("outer", "side"))

    assert side().inside_mm / 25.4 == pytest.approx(min(inside.values()), abs=1e-3)
    keep_trim(fitting, side(), "3/4")
    assert side().too_much
    with pytest.raises(CannotTrim, match=r"Side seam: Only 3/8 is inside at the hip"):
        refuse_too_much([side()])
    keep_trim(fitting, side(), "1/4")
    refuse_too_much([side()])
    kept = copy.deepcopy(fitting)
    tick(fitting, ticks()[trimming], plan, ON, first)
    assert [sorted(entry["trimmed"].items()) for entry in fitting["done"]
            if entry.get("seam") == "side" and entry["layer"] == "outer"
            ] == [[("back", "1/4"), ("front", "1/4")]] * 2
    assert set(inside_at_the_next_fitting(document).values()) == {0.25}
    untick(fitting, ticks()[trimming], first)
    assert fitting == kept
    keep_trim(fitting, side(), "")
    assert fitting == before
    assert inside_at_the_next_fitting(document) == inside


def test_a_trimmed_seam_that_is_sewn_anew_stays_trimmed():
    document, fitting, plan, first, ticks = work(DEMO)
    garment, trimming = read_document(document).garments[0], step_of(plan, "trim")
    left = next(n for n, step in enumerate(plan.steps) if step.side == "left")
    for number in range(len(plan.steps)):
        if plan.steps[number].group not in ("trim", "hang", "hem"):
            tick(fitting, ticks()[number], plan, ON, first)
    (side, *_) = trims_of(plan, plan.steps[trimming], garment, fitting, "in")
    keep_trim(fitting, side, "1/4")
    tick(fitting, ticks()[trimming], plan, ON, first)
    untick(fitting, ticks()[left], first)
    tick(fitting, ticks()[left], plan, ON, first)
    assert set(inside_at_the_next_fitting(document).values()) == {0.25}
    untick(fitting, ticks()[trimming], first)
    assert not any("trimmed" in entry for entry in fitting["done"])


# After a toile


def after_a_toile():
    """The worked example: sides 1/2 deep at the waist, centre back let out, a back dart deeper."""
    from tests.garments import pinned, worked

    return pinned(worked(),
                  {"seam": "side", "level": "waist", "pinch": "1/2"},
                  {"seam": "centre_back", "level": "hip", "gap": "1 1/2"},
                  {"dart": "back_dart", "side": "left", "level": "waist", "pinch": "1/16"},
                  stage="toile", id="first")  # fmt: skip


def test_pieces_ticked_after_a_toile_are_what_the_next_fitting_begins_with():
    document, fitting, plan, first, ticks = work(after_a_toile())
    before = copy.deepcopy(document)
    for number in range(len(plan.steps)):
        assert not ticks()[number].done
        tick(fitting, ticks()[number], plan, ON, first)
        assert ticks()[number].done
        assert not ticks()[number].otherwise
    assert off_the_list(ticks(), fitting, read_document(document).garments[0]) == ()
    body = as_the_next_fitting_begins(document)
    # the waist was 32: four edges of 1/2 and two legs of 1/16 off it; the hip 43 1/2 and 1 1/2
    assert body.as_sewn("waist") / 25.4 == pytest.approx(32 - 2 - 1 / 8)
    assert body.as_sewn("hip") / 25.4 == pytest.approx(43.5 + 1.5)
    for edge in body.edges:  # the real cloth has the allowances of the draft
        for mm in edge.allowance.values():
            assert mm / 25.4 == pytest.approx(1)
    order = list(range(len(plan.steps)))
    random.Random(1).shuffle(order)
    for number in order:
        untick(fitting, ticks()[number], first)
        assert not ticks()[number].done
    assert document == before


def test_a_piece_that_only_a_new_dart_changes_is_ticked_and_unticked_too():
    from tests.garments import pinned, worked

    fold = {"piece": "back", "side": "left", "level": "waist", "pinch": "1/4"}
    document, fitting, plan, first, ticks = work(pinned(worked(), fold, stage="toile", id="first"))
    before = copy.deepcopy(document)
    (step,) = ticks()
    tick(fitting, step, plan, ON, first)
    assert ticks()[0].done
    assert "done" not in fitting  # a new dart is none of the draft's
    untick(fitting, ticks()[0], first)
    assert document == before


def test_a_toile_pinned_otherwise_after_it_was_ticked_says_so():
    document, fitting, plan, first, ticks = work(after_a_toile())
    for number in range(len(plan.steps)):
        tick(fitting, ticks()[number], plan, ON, first)
    fitting["pins"][0]["pinch"] = "5/8"
    _, plan, found = opened(document)
    now = ticks_of(plan, found, fitting, "in")
    assert all(one.done and one.otherwise for one in now)
    tick(fitting, now[0], plan, ON, first)
    assert [one.otherwise for one in ticks_of(plan, found, fitting, "in")] == [
        number > 0 for number in range(len(now))]


# Shared again


def shared_again(way):
    """Pinned 5/8 at centre back and 1/8 a leg of the back darts; centre back set to 1/8 by hand.

    So 2 x 5/8 + 4 x 1/8 = 1 3/4 was pinned off the waist of 32, and 1 of it is shared again.
    """
    from tests.garments import pinned, worked

    return pinned(worked(),
                  {"seam": "centre_back", "level": "waist", "pinch": "5/8"},
                  {"dart": "back_dart", "level": "waist", "pinch": "1/8"},
                  lead="pins", way=way, shared_again=True, id="first",
                  set_by_hand=[{"seam": "centre_back", "level": "waist", "move": "-1/8"}],
                  )  # fmt: skip


def as_the_next_fitting_begins(document):
    """The one round of the first layer, as it is sewn when she comes again."""
    after = copy.deepcopy(document)
    after["garments"][0]["fittings"].append({"id": "next", "on": "2026-06-01", "stage": "basted"})
    garment = read_document(after).garments[0]
    (body,) = rounds_of(garment, garment.layers[0], garment.fittings[-1])
    return body


@pytest.mark.parametrize("way", ["by_turns", "fewest", "spread"])
def test_what_was_shared_again_is_ticked_off_whole_whichever_way_she_chose(way):
    document, fitting, plan, first, ticks = work(shared_again(way))
    assert plan.way == way
    for number in range(len(plan.steps)):
        tick(fitting, ticks()[number], plan, ON, first)
    body = as_the_next_fitting_begins(document)
    assert body.as_sewn("waist") / 25.4 == pytest.approx(32 - 1.75)


def test_a_piece_whose_width_stays_is_ticked_with_its_edges_after_a_toile():
    """32 at the waist; four side edges out 1/8 and two at centre back in 1/8: 32 1/4."""
    from tests.garments import pinned, worked

    document, fitting, plan, first, ticks = work(pinned(
        worked(), {"seam": "side", "level": "waist", "gap": "1/4"},
        {"seam": "centre_back", "level": "waist", "pinch": "1/8"}, stage="toile", id="first",
    ))  # fmt: skip
    for number in range(len(plan.steps)):
        tick(fitting, ticks()[number], plan, ON, first)
    body = as_the_next_fitting_begins(document)
    assert body.as_sewn("waist") / 25.4 == pytest.approx(32.25)
    moved = {(edge.seam.id, edge.piece): edge.moved["waist"] / 25.4 for edge in body.edges}
    assert moved == pytest.approx(
        {("side", "front"): 1 / 8, ("side", "back"): 1 / 8, ("centre_back", "back"): -1 / 8})
