"""What she pins is what is sewn: each sum by hand, in inches.

The dress of the worked example is 39, 32, 43 1/2 round; its four side edges have 1 inside.
"""

from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.interpolate import PchipInterpolator

from core.changes.plan import room_of_pin
from core.errors import WorkroomError
from core.file.fitting_file import read_document
from core.records.answer import Plan
from core.share.pinned import round_change
from tests.garments import (
    INCH,
    Document,
    gores,
    level,
    moved,
    moves_at,
    pinned,
    planned,
    worked,
)


def pins(*placed: Document, **fitting: Any) -> Plan:
    """Return the worked dress's plan with these pins."""
    return planned(pinned(worked(), *placed, **fitting))


def seam(at: str = "waist", side: str = "both", name: str = "side", **amount: Any) -> Document:
    return {"seam": name, "side": side, "level": at, **amount}


def off_the_round(plan: Plan, name: str = "waist") -> float:
    return round(level(plan, name).pinned / INCH, 6)


# What each pin says


@pytest.mark.parametrize(
    ("side", "takes"), [("left", -1.25), ("right", -1.25), ("both", -2.5)]
)
def test_a_pinch_takes_twice_its_depth_off_on_every_side_it_is_on(side: str, takes: float) -> None:
    plan = pins(seam(side=side, pinch="5/8"))
    assert off_the_round(plan) == takes
    assert level(plan, "waist").planned == pytest.approx(takes * INCH)
    for here in ("left", "right"):
        expected = [-0.625, -0.625] if side in (here, "both") else []
        assert moved(plan, "side", "waist", side=here) == expected


def test_a_gap_opens_half_of_it_at_each_edge() -> None:
    plan = pins(seam(side="left", gap="1/2"))
    assert moved(plan, "side", "waist", side="left") == [0.25, 0.25]
    assert off_the_round(plan) == 0.5


def test_edges_given_apart_move_apart() -> None:
    plan = pins(seam("hip", "right", edges={"front": "-1/4", "back": "-1/2"}))
    assert moved(plan, "side", "hip", side="right", edge="front") == [-0.25]
    assert moved(plan, "side", "hip", side="right", edge="back") == [-0.5]
    assert off_the_round(plan, "hip") == -0.75


def test_a_centre_seam_counts_its_two_edges_and_has_no_side() -> None:
    plan = pins({"seam": "centre_back", "level": "hip", "pinch": "1/2"})
    assert moved(plan, "centre_back", "hip", side=None) == [-0.5]
    assert off_the_round(plan, "hip") == -1
    assert level(plan, "hip").verdict == "still loose"
    with pytest.raises(WorkroomError, match="no side"):
        pins(seam("hip", "left", "centre_back", pinch="1/2"))


def test_a_dart_pinched_deeper_takes_in_both_its_legs() -> None:
    plan = pins({"dart": "front_dart", "level": "waist", "pinch": "1/8"})
    assert moved(plan, "front_dart", "waist", side="left") == [-0.125]
    assert moved(plan, "front_dart", "waist", side="right") == [-0.125]
    assert off_the_round(plan) == -0.5


def test_a_dart_released_lets_half_the_gap_out_at_each_leg() -> None:
    plan = pins({"dart": "back_dart", "side": "left", "level": "waist", "gap": "1/2"})
    assert moved(plan, "back_dart", "waist") == [0.25]
    assert off_the_round(plan) == 0.5


def test_a_fold_away_from_a_seam_becomes_a_new_dart() -> None:
    plan = pins({"piece": "back", "level": "waist", "pinch": "1/4"})
    row = level(plan, "waist")
    assert (row.pinned, row.planned) == (pytest.approx(-INCH), pytest.approx(-INCH))
    (step,) = [step for step in plan.steps if "new dart" in step.title]
    assert step.group == "darts"
    assert "1/4" in step.text


def test_two_folds_a_seam_and_a_dart_add_up() -> None:
    """Sides 4 x 1/4 = 1; darts 4 x 1/8 = 1/2; one fold of 1/8 on her left 1/4: 1 3/4."""
    plan = pins(
        seam(pinch="1/4"), {"dart": "back_dart", "level": "waist", "pinch": "1/8"},
        {"piece": "front", "side": "left", "level": "waist", "pinch": "1/8"},
    )  # fmt: skip
    assert off_the_round(plan) == -1.75
    assert level(plan, "waist").after_pins == pytest.approx(30.25 * INCH)


def test_pinned_moves_are_sewn_as_pinned_and_not_rounded() -> None:
    assert moved(pins(seam(pinch=0.3)), "side", "waist") == [-0.3, -0.3]


def test_a_pin_may_move_a_seam_whose_turn_never_comes() -> None:
    plan = planned(pinned(worked(side={"turn": 0}), seam(pinch="1/4")))
    assert moved(plan, "side", "waist") == [-0.25, -0.25]


def test_a_pin_placed_but_not_read_moves_nothing_and_is_told() -> None:
    plan = pins(seam("bust", "left"))
    assert plan.moves == ()
    assert [text for text in plan.warnings if "not read" in text and "her left" in text]
    assert plan.lead == "pins"


@pytest.mark.parametrize(
    "wrong",
    [
        seam(pinch="1/4", gap="1/4"), seam(pinch="-1/4"), seam(gap="-1/4"),
        seam("nowhere", pinch="1/4"), seam(name="nothing", pinch="1/4"),
        {"seam": "side", "dart": "back_dart", "level": "waist", "pinch": "1/4"},
        {"piece": "back", "level": "waist", "gap": "1/4"},
        {"dart": "back_dart", "level": "waist", "edges": {"back": "1/4"}},
        seam(edges={"sleeve": "1/4"}),
    ],
)  # fmt: skip
def test_a_pin_that_cannot_be_is_refused_in_words(wrong: Document) -> None:
    with pytest.raises(WorkroomError):
        pins(wrong)


# Sides


def test_one_sides_pin_replaces_both_at_the_same_place() -> None:
    for placed in ([seam(pinch="1/2"), seam(side="left", pinch="1/4")],
                   [seam(side="left", pinch="1/4"), seam(pinch="1/2")]):  # fmt: skip
        plan = pins(*placed)
        assert moved(plan, "side", "waist", side="left") == [-0.25, -0.25]
        assert moved(plan, "side", "waist", side="right") == [-0.5, -0.5]
        assert off_the_round(plan) == -1.5


@pytest.mark.parametrize("side", ["left", "right", "both"])
def test_two_pins_for_one_side_and_place_are_refused(side: str) -> None:
    with pytest.raises(WorkroomError, match="two pins"):
        pins(seam(side=side, pinch="1/2"), seam(side=side, pinch="1/4"))


def test_two_pins_at_one_height_are_refused_though_one_says_it_as_a_level() -> None:
    with pytest.raises(WorkroomError, match="two pins"):
        pins(seam(pinch="1/2"), {"seam": "side", "down": "16 1/2", "pinch": "1/4"})


def test_worn_inside_out_every_side_follows() -> None:
    logged = [seam(side="left", pinch="1/4"),
              {"dart": "back_dart", "side": "left", "level": "waist", "pinch": "1/8"},
              {"piece": "front", "side": "right", "level": "waist", "pinch": "1/8"}]  # fmt: skip
    plan = pins(*logged, worn={"inside_out": True})
    assert moved(plan, "side", "waist", side="right") == [-0.25, -0.25]
    assert moved(plan, "back_dart", "waist", side="right") == [-0.125]
    assert moved(plan, None, "waist", side="left") == [-0.125]
    assert {move.side for move in plan.moves if move.seam or move.dart} == {"right"}


AMOUNTS = st.one_of(
    st.sampled_from(["1/8", "1/4", "5/8"]).map(lambda depth: {"pinch": depth}),
    st.sampled_from(["1/8", "1/2"]).map(lambda width: {"gap": width}),
)


@settings(max_examples=30, deadline=None)
@given(
    logged=st.lists(
        st.tuples(st.sampled_from(["bust", "waist", "hip"]),
                  st.sampled_from(["left", "right", "both"]), AMOUNTS),
        min_size=1, max_size=5, unique_by=lambda pin: pin[:2]),
)  # fmt: skip
def test_inside_out_is_the_same_as_logging_the_other_side(
    logged: list[tuple[str, str, Document]],
) -> None:
    other = {"left": "right", "right": "left", "both": "both"}
    worn = pins(*[seam(at, side, **amount) for at, side, amount in logged],
                worn={"inside_out": True})  # fmt: skip
    swapped = pins(*[seam(at, other[side], **amount) for at, side, amount in logged])
    assert worn.moves == swapped.moves
    assert worn.levels == swapped.levels


def test_while_only_one_side_is_pinned_there_is_no_verdict() -> None:
    plan = pins(seam(side="left", pinch="5/8"))
    assert level(plan, "waist").verdict == "one side only"


@pytest.mark.parametrize(
    ("amount", "verdict"),
    [
        ({"pinch": "5/8"}, "agrees"),  # 32 - 2 1/2 = 29 1/2 as wanted
        ({"pinch": "9/16"}, "agrees"),  # 29 3/4: the band's edge belongs to it
        ({"pinch": "1/2"}, "still loose"),  # 30
        ({"pinch": "3/4"}, "would be tight"),  # 29
    ],
)
def test_the_tape_checks_what_was_pinned(amount: Document, verdict: str) -> None:
    assert level(pins(seam(**amount)), "waist").verdict == verdict


# Runs


def test_between_two_pins_the_amount_is_read_off_and_counts_as_pinned() -> None:
    """Two pins make a straight run: bust 10 1/2, waist 16 1/2, hip 25: 6 of 14 1/2 down."""
    plan = pins(seam("bust", pinch="1/4"), seam("hip", pinch="3/4"))
    amount = 0.25 + 0.5 * 6 / 14.5
    assert moved(plan, "side", "waist") == pytest.approx([-amount, -amount])
    assert off_the_round(plan) == pytest.approx(-4 * amount)
    assert {move.source for move in moves_at(plan, "side", "waist")} == {"pins"}


def test_between_three_pins_and_more_the_run_is_smooth_and_never_overshoots() -> None:
    """Judged by scipy's monotone cubic."""
    plan = pins(
        seam("bust", pinch="1/4"), {"seam": "side", "down": "14", "pinch": "5/8"},
        {"seam": "side", "down": "20", "pinch": "3/4"}, seam("hip", pinch="1/8"),
    )  # fmt: skip
    curve = PchipInterpolator([10.5, 14, 20, 25], [-0.25, -0.625, -0.75, -0.125])
    assert moved(plan, "side", "waist") == pytest.approx([float(curve(16.5))] * 2, abs=1e-5)


def test_beyond_the_pins_a_judged_level_is_a_point_of_the_line_at_nothing() -> None:
    plan = pins(seam(pinch="5/8"))
    for name in ("bust", "hip"):
        assert (level(plan, name).pinned, level(plan, name).planned) == (0, 0)


def test_a_carried_amount_is_planned_and_was_not_pinned() -> None:
    """No body at the hem: it is not judged, and the seam carries there."""
    side = {"id": "side", "run": {"down": "carry"}}
    file = gores({"waist": 32, "hip": 42, "hem": 44}, {"waist": 30, "hip": 40}, [side])
    plan = planned(pinned(file, seam(pinch="1/2"), seam("hip", pinch="1/4")))
    hem = level(plan, "hem")
    assert (hem.pinned, hem.planned) == (0, pytest.approx(-INCH))
    assert hem.verdict == "not measured"
    assert {move.source for move in moves_at(plan, "side", "hem")} == {"carried"}


def test_a_pinned_dart_moves_as_a_wedge_elsewhere_and_counts_there_as_planned() -> None:
    """Front dart 1 at 16 1/2 to nothing at 20 1/2: half of it at 18 1/2."""
    file = worked()
    garment = file["garments"][0]
    garment["levels"].insert(2, {"id": "below", "down": "18 1/2"})
    front, back = garment["layers"][0]["rings"][0]["pieces"]
    front["width"]["below"], back["width"]["below"] = "11", "12"
    front["darts"][0]["ends"] = {"top": "12", "point": "20 1/2"}
    plan = planned(pinned(file, {"dart": "front_dart", "level": "waist", "pinch": "1/4"}))
    below = level(plan, "below")
    assert (below.pinned, below.planned) == (0, pytest.approx(-0.5 * INCH))
    assert moved(plan, "front_dart", "below") == [-0.125]


# The cloth's limits


def test_a_pin_let_out_beyond_the_cloth_is_cut_to_it_and_told_with_what_is_missing() -> None:
    """A gap of 2 asks 1 an edge; 1 inside less 3/8 kept is 5/8: 3/8 an edge, 1 1/2 in all."""
    plan = pins(seam(gap=2))
    assert [round(move.exact / INCH, 6) for move in moves_at(plan, "side", "waist")] == [1.0] * 4
    assert moved(plan, "side", "waist") == [0.625, 0.625]
    row = level(plan, "waist")
    assert (row.pinned, row.planned) == (pytest.approx(4 * INCH), pytest.approx(2.5 * INCH))
    assert row.short == pytest.approx(1.5 * INCH)
    assert [text for text in plan.warnings
            if "the cloth gives 5/8" in text and "3/8 an edge is missing" in text]  # fmt: skip
    assert [text for text in plan.warnings if "1 1/2 short to let out" in text]


@pytest.mark.parametrize(
    ("body", "short"),
    [("33 1/8", 1.5), ("33 1/4", 0), ("33 1/2", 0), ("33 3/4", 0), ("33 7/8", 1.5)],
)
def test_a_level_left_inside_the_band_is_not_short_though_its_pin_lacks_cloth(
    body: str, short: float
) -> None:
    """4 pinned, the cloth gives 2 1/2: 32 becomes 34 1/2, body 33 1/2 and 1 of ease; band 1/4."""
    plan = planned(pinned(worked(), seam(gap=2), measurements={"waist_girth": body}))
    assert level(plan, "waist").short / INCH == pytest.approx(short)
    assert any("3/8 an edge is missing" in said for said in plan.warnings)


def test_a_dart_released_beyond_its_take_up_is_cut_to_it() -> None:
    """Take-up 1: a leg has 1/2; a gap of 1 1/2 asks 3/4: four legs miss 1/4 each."""
    plan = pins({"dart": "front_dart", "level": "waist", "gap": "1 1/2"})
    assert moved(plan, "front_dart", "waist") == [0.5]
    assert level(plan, "waist").short == pytest.approx(INCH)


def test_a_pin_taken_in_beyond_what_is_usual_stays_with_a_caution() -> None:
    plan = pins(seam(pinch="1 1/4"))
    assert moved(plan, "side", "waist") == [-1.25, -1.25]
    assert level(plan, "waist").short == 0
    assert [text for text in plan.warnings if "1 1/4 an edge, more than 1;" in text]


def test_a_dart_pinched_beyond_its_deepest_stays_with_a_caution() -> None:
    """Deepest 1 1/2, take-up 1: 1/4 a leg is left."""
    plan = pins({"dart": "front_dart", "level": "waist", "pinch": "1/2"})
    assert moved(plan, "front_dart", "waist") == [-0.5]
    assert [text for text in plan.warnings if "1/2 a leg is more than 1/4" in text]


def test_the_room_of_a_pin_is_what_lies_inside_less_what_is_kept() -> None:
    file = pinned(worked(), seam(pinch="1/4"),
                  {"dart": "back_dart", "level": "waist", "pinch": "1/8"})  # fmt: skip
    read = read_document(file)
    assert room_of_pin(read, "garment", "fitting_1", 0) == pytest.approx((0.625 * INCH, INCH))
    assert room_of_pin(read, "garment", "fitting_1", 1) == pytest.approx(
        (0.625 * INCH, 0.125 * INCH)
    )


def test_a_pin_on_one_side_has_that_sides_room_inside_out_the_others() -> None:
    """Allowance 1, keep 3/8: 5/8 to let out; let out 1/2 on the left before, 1/8 is left there."""
    file = pinned(worked(), seam())
    fittings = file["garments"][0]["fittings"]
    sewn = [{"edge": edge, "level": "waist", "move": "1/2"} for edge in ("front", "back")]
    fittings.insert(0, {"id": "before", "done": [
        {"layer": "outer", "seam": "side", "side": "left", "moves": sewn}]})  # fmt: skip
    for inside_out, rooms in ((False, (0.125, 0.625, 0.125)), (True, (0.625, 0.125, 0.125))):
        fittings[1]["worn"] = {"inside_out": inside_out}
        fittings[1]["pins"] = [seam(side=side) for side in ("left", "right")]
        read = read_document(file)
        found = [room_of_pin(read, "garment", "fitting_1", index)[0] for index in (0, 1)]
        fittings[1]["pins"] = [seam(side="both")]
        found.append(room_of_pin(read_document(file), "garment", "fitting_1", 0)[0])
        assert found == pytest.approx([room * INCH for room in rooms])


# Stretch cloth, and all layers


@pytest.mark.parametrize(
    ("sewn", "factor"), [(30, 30 / 36), (36, 1), (38, 1)], ids=["smaller", "equal", "larger"]
)
def test_a_fold_in_stretch_cloth_counts_by_as_sewn_over_body(sewn: float, factor: float) -> None:
    file = gores({"bust": sewn}, {"bust": 36}, ease={"bust": -7})
    file["garments"][0]["layers"][0]["stretch"] = True
    plan = planned(pinned(file, seam("bust", pinch="1/2")))
    assert moved(plan, "side", "bust") == pytest.approx([-0.5 * factor] * 2)
    assert off_the_round(plan, "bust") == pytest.approx(-2 * factor)


def lined() -> Document:
    """Return the worked dress with a lining cut alike."""
    file = worked()
    outer = file["garments"][0]["layers"][0]
    ring = {**outer["rings"][0], "pieces": [
        {**piece, "darts": [{**dart} for dart in piece["darts"]]}
        for piece in outer["rings"][0]["pieces"]]}  # fmt: skip
    file["garments"][0]["layers"].append({"id": "lining", "rings": [ring]})
    return file


def test_a_pin_through_all_layers_is_pinned_in_each() -> None:
    plan = planned(pinned(lined(), seam(pinch="5/8", through=True)))
    for layer in ("outer", "lining"):
        assert level(plan, "waist", layer).pinned == pytest.approx(-2.5 * INCH)
        assert moved(plan, "side", "waist", layer=layer) == [-0.625, -0.625]


def test_a_pin_through_the_outer_is_not_pinned_in_the_lining_which_follows() -> None:
    plan = planned(pinned(lined(), seam(pinch="5/8")))
    assert level(plan, "waist", "lining").pinned == 0
    assert level(plan, "waist", "lining").planned == pytest.approx(-2.5 * INCH)


def test_a_pin_in_the_lining_alone_leaves_the_outer() -> None:
    plan = planned(pinned(lined(), seam(pinch="1/4", layer="lining")))
    assert level(plan, "waist").planned == 0
    assert level(plan, "waist", "lining").pinned == pytest.approx(-INCH)


# Who leads


def test_where_there_are_pins_they_lead_and_nothing_else_moves() -> None:
    plan = pins(seam(pinch="1/4"))
    assert plan.lead == "pins"
    assert {(move.seam, move.level) for move in plan.moves} == {("side", "waist")}


def test_without_pins_the_tape_leads_and_says_to_try_on_first() -> None:
    plan = pins()
    assert plan.lead == "tape"
    assert "try on first" in plan.heading
    assert level(plan, "waist").planned == pytest.approx(-2.5 * INCH)


def test_where_the_tape_leads_the_pins_are_shown_and_not_sewn() -> None:
    plan = pins(seam(pinch="1/8"), lead="tape")
    assert off_the_round(plan) == -0.5
    assert moved(plan, "side", "waist") == [-0.5, -0.5]


def test_both_shares_what_is_left_over_on_the_side_without_a_pin() -> None:
    """2 too wide; her left 1/4 deep takes 1/2; 1 1/2 over her right's two edges: 3/4 each."""
    file = gores({"waist": 32}, {"waist": 30})
    plan = planned(pinned(file, seam(side="left", pinch="1/4"), lead="both"))
    assert moved(plan, "side", "waist", side="left") == [-0.25, -0.25]
    assert moved(plan, "side", "waist", side="right") == [-0.75, -0.75]
    by_side = {move.side: move.source for move in plan.moves}
    assert by_side == {"left": "pins", "right": "tape"}


def test_both_shares_what_is_left_over_on_the_seams_without_a_pin() -> None:
    """Hip 3 too wide; sides pinned 1/4 an edge are 1; centre back takes 2 over two edges: 1.

    Comfort 1/2, then its limit of 1.  Waist: sides pinned 1/2: 2 of 2 1/2, darts 1/8 a leg.
    """
    plan = pins(seam("hip", pinch="1/4"), seam("waist", pinch="1/2"), lead="both")
    assert moved(plan, "side", "hip") == [-0.25, -0.25]
    assert moved(plan, "centre_back", "hip", side=None) == [-1]
    assert moved(plan, "back_dart", "waist") == [-0.125]
    assert {move.source for move in plan.moves if move.seam == "centre_back"} == {"tape"}


def test_both_leaves_alone_what_the_pins_brought_inside_the_band() -> None:
    plan = pins(seam(pinch="9/16"), lead="both")
    assert {move.seam for move in moves_at(plan, "side", "waist")} == {"side"}
    assert moves_at(plan, "back_dart", "waist") == moves_at(plan, "centre_back", "waist") == []


def test_every_seam_that_both_moves_without_a_pin_is_marked_in_its_step() -> None:
    plan = pins(seam("hip", pinch="1/4"), lead="both")
    (step,) = [step for step in plan.steps if step.title.startswith("Centre back")
               and step.group != "open"]  # fmt: skip
    assert "tape" in step.text + step.sum or "without a pin" in step.text + step.sum


# After a toile, and what is kept for next time


def test_after_a_toile_the_list_is_the_draft_for_the_real_cloth() -> None:
    """Nothing is unpicked: front 10 1/4 and back 11 at the waist lose 5/8 at the side."""
    plan = pins(seam(pinch="5/8"), stage="toile")
    assert plan.heading == "The draft for the real cloth"
    assert moved(plan, "side", "waist") == [-0.625, -0.625]
    assert not [step for step in plan.steps if step.group in ("open", "baste and check", "trim")]
    text = " ".join(step.text for step in plan.steps)
    assert "9 5/8" in text
    assert "10 3/8" in text


def test_on_paper_no_allowance_limits_what_is_let_out() -> None:
    plan = pins(seam(gap=2), stage="toile")
    assert moved(plan, "side", "waist") == [1, 1]
    assert level(plan, "waist").short == 0


def test_the_ease_as_pinned_is_offered_for_next_time() -> None:
    """32 - 2 1/2 - 28 1/2 = 1."""
    (ease,) = [entry for entry in pins(seam(pinch="5/8")).follows if entry.what == "ease"]
    assert "waist 1." in ease.text
    assert "hip" not in ease.text


@pytest.mark.parametrize(
    "pin", [seam(side="left", pinch="1/2"), seam(pinch="0")], ids=["one side", "nothing taken"]
)
def test_a_round_that_was_not_pinned_on_both_sides_offers_no_ease(pin: Document) -> None:
    assert not [entry for entry in pins(pin).follows if entry.what == "ease"]


@pytest.mark.parametrize(
    ("pin", "inches"),
    [
        ({"seam": "side", "level": "waist", "pinch": "1/4"}, -1),  # 1/4 x 2 a fold x 2 sides
        ({"seam": "side", "side": "left", "level": "waist", "pinch": "1/4"}, -0.5),
        ({"seam": "side", "level": "hip", "gap": "1/2"}, 1),
        ({"seam": "centre_back", "level": "waist", "pinch": "1/4"}, -0.5),
        ({"seam": "centre_back", "level": "waist", "edges": {"back": "-1/4"}}, -0.5),
        ({"seam": "side", "level": "hip", "edges": {"front": "-1/4", "back": "-1/2"}}, -1.5),
        ({"dart": "back_dart", "level": "waist", "pinch": "1/8"}, -0.5),
        ({"piece": "back", "side": "right", "level": "waist", "pinch": "1/4"}, -0.5),
        ({"seam": "side", "level": "waist"}, 0),
    ],
)
def test_what_a_pin_makes_of_the_round_is_what_the_level_counts(pin, inches):
    file = pinned(worked(), pin)
    garment = read_document(file).garment()
    change = round_change(garment.fittings[0].pins[0], garment)
    assert change / INCH == pytest.approx(inches)
    assert level(planned(file), pin["level"]).pinned == pytest.approx(change)
