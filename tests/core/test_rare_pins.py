"""Pins in rare places: between the levels, on a single closed ring, on stretch, beyond a run."""

from copy import deepcopy

import pytest

from core.changes.plan import room_of_pin
from core.errors import WorkroomError
from core.file.fitting_file import read_document
from core.fit.amounts import give_edges_apart
from core.fit.pinning import Where, pinned_at, place_pin, without_side
from core.said.step_places import step_places
from core.share.pinned import edge_move
from tests.garments import INCH, Document, document, gores, level, moved, pinned, planned, worked
from tests.real_drafts import worked_drafts


def sleeve(copies: int, **layer: object) -> Document:
    """Return a closed ring of one piece: 14 in round the arm sewn, 8 at the wrist."""
    ring = {"id": "sleeve", "kind": "closed", "copies": copies,
            "pieces": [{"id": "sleeve", "width": {"arm": "16", "wrist": "10"}}],
            "seams": [{"id": "under", "joins": ["sleeve", "sleeve"], "allowance": 1}]}  # fmt: skip
    return document(
        {"ease": {"arm": "0", "wrist": "0"},
         "levels": [{"id": "arm", "down": "5", "body": "upper_arm_girth"},
                    {"id": "wrist", "down": "22", "body": "wrist_girth"}],
         "layers": [{"id": "outer", "rings": [ring], **layer}]},
        {"upper_arm_girth": "14", "wrist_girth": "8"},
    )  # fmt: skip


def test_a_fold_on_a_single_closed_ring_takes_twice_its_depth_once() -> None:
    plan = planned(pinned(sleeve(1), {"piece": "sleeve", "level": "arm", "pinch": "1/2"}))
    assert level(plan, "arm").pinned / INCH == pytest.approx(-1)
    assert level(plan, "arm").planned / INCH == pytest.approx(-1)
    assert any("fold at the arm" in step.text for step in plan.steps)


def test_a_fold_on_stretch_counts_by_its_own_sleeve() -> None:
    file = pinned(
        sleeve(2, stretch=True),
        {"seam": "under", "level": "arm", "pinch": "1"},
        sewn_girths={"outer": {"sleeve": {"arm": {"left": "10 1/2", "right": "7"}}}},
    )
    plan = planned(file)  # 10 1/2 / 14 and 7 / 14 of the inch, two edges each
    assert level(plan, "arm", side="left").pinned / INCH == pytest.approx(-1.5)
    assert level(plan, "arm", side="right").pinned / INCH == pytest.approx(-1)


def test_a_pin_between_the_levels_is_in_the_list() -> None:
    plan = planned(pinned(worked(), {"seam": "side", "down": "20", "pinch": "1/2"}))
    (step,) = [step for step in plan.steps if "20 down" in step.text]
    assert "both sides alike" in step.text
    assert "front take in 1/2" in step.text


def test_a_pin_beyond_its_run_never_grows() -> None:
    file = worked({"run": {"down": "waist"}})
    del file["measurements"][0]["values"]["hip_girth"]  # not judged: only the run decides
    plan = planned(pinned(file, {"seam": "side", "down": "24", "pinch": "1/2"}))
    assert moved(plan, "side", "hip") in ([], [0.0])


def test_what_a_pin_lacked_and_others_gave_is_not_short() -> None:
    file = pinned(
        worked({"keep": "7/8"}), {"seam": "side", "level": "hip", "gap": "3"},
        lead="both", ease={"hip": "5 3/4"},
    )  # fmt: skip
    row = level(planned(file), "hip")  # 1/2 by the pins, 3/4 by centre back
    assert row.planned / INCH == pytest.approx(1.25)
    assert row.short == 0


def test_what_nobody_could_give_is_short_once() -> None:
    file = pinned(
        worked({"keep": "7/8"}), {"seam": "side", "level": "hip", "gap": "3"},
        lead="both", ease={"hip": "9"},
    )  # fmt: skip
    row = level(planned(file), "hip")  # 4 1/2 needed; four edges of 1/8, centre back 5/8 each
    assert row.planned / INCH == pytest.approx(1.75)
    assert row.short / INCH == pytest.approx(2.75)


def test_a_fold_on_a_toile_is_a_new_dart_in_the_draft() -> None:
    file = pinned(worked(), {"piece": "back", "level": "waist", "pinch": "1/4"}, stage="toile")
    assert any("New dart at the waist: 1/2" in step.text for step in planned(file).steps)


def test_a_dart_on_a_toile_opens_to_nothing_and_no_further() -> None:
    file = pinned(worked(), {"dart": "front_dart", "level": "waist", "gap": "3"}, stage="toile")
    assert moved(planned(file), "front_dart", "waist") == [0.5]


def test_fittings_without_a_day_follow_each_other_as_logged() -> None:
    moves = [{"edge": edge, "level": "waist", "move": "-1/2"} for edge in ("front", "back")]
    file = pinned(worked(), done=[{"seam": "side", "moves": moves}])
    file = pinned(file, on="")
    assert level(planned(file), "waist").as_sewn / INCH == pytest.approx(30)


def test_a_dart_pinned_where_it_is_narrow_is_told_where_it_is_deepest() -> None:
    file = worked()
    back = file["garments"][0]["layers"][0]["rings"][0]["pieces"][1]
    back["darts"][0]["ends"] = {"top": "12", "point": "27"}  # 5/21 of it is left at the hip
    plan = planned(pinned(file, {"dart": "back_dart", "level": "hip", "pinch": "1/8"}))
    assert moved(plan, "back_dart", "waist") == pytest.approx([-0.65625])  # 1/8 * 10.5 / 2
    assert any("Back dart" in said and "a leg is more than 1/8" in said for said in plan.warnings)


def test_the_draft_after_a_second_toile_keeps_what_the_first_one_taught() -> None:
    moves = [{"edge": edge, "level": "waist", "move": "-1/2"} for edge in ("front", "back")]
    file = pinned(worked(), stage="toile", done=[{"seam": "side", "moves": moves}])
    file = pinned(file, {"seam": "side", "level": "waist", "pinch": "1/4"}, stage="toile")
    (front,) = [step.text for step in planned(file).steps if "front" in step.text.lower()]
    assert "Waist: cut 10 1/4 - 1/2 sewn since - 1/4 = 9 1/2" in front


def test_a_seam_pinned_only_between_levels_is_opened_too() -> None:
    file = pinned(worked(), {"seam": "side", "down": "20", "pinch": "1/4"})
    plan = planned(file)
    assert [option.open for option in plan.options if option.layer == "outer"] == [("side",)]
    assert "side seam" in next(step.text.lower() for step in plan.steps if step.group == "open")


def test_a_pin_between_the_levels_beyond_the_cloth_is_cut_to_it_and_told() -> None:
    """A gap of 3 asks 1 1/2 an edge; 1 inside less 3/8 kept is 5/8: four edges miss 7/8 each."""
    file = pinned(worked(), {"seam": "side", "down": "20", "gap": "3"})
    plan = planned(file)
    (option,) = plan.options
    assert option.short / INCH == pytest.approx(3.5)
    (short,) = [said for said in plan.warnings if "3 1/2 short to let out" in said]
    assert short.startswith("Side seam, 20 down: ")
    assert "a strip or gusset 4 1/4 wide" in short  # 3 1/2 and 3/8 kept on each side
    for side in ("left", "right"):
        assert (f"Side seam, her {side}, 20 down: pinned 1 1/2 an edge, the cloth gives 5/8;"
                " 7/8 an edge is missing.") in plan.warnings  # fmt: skip
    (step,) = [step for step in plan.steps if "20 down" in step.text]
    assert "let out 1 1/2, but the cloth gives 5/8; 7/8 is missing" in step.text
    assert any("7/8 an edge is missing" in said for said in step.cautions)
    line = step_places(plan, read_document(file), "in").of(step).line(0)
    assert line.at(20 * INCH) / INCH == pytest.approx(0.625)


def test_between_two_levels_the_cloth_there_is_is_read_off_straight() -> None:
    """1 inside at the waist (16 1/2 down) and 1/2 at the hip (25): 3/4 half way, 3/8 of it kept."""
    side = {"allowance": {"bust": "1", "waist": "1", "hip": "1/2"}}
    file = pinned(worked(side), {"seam": "side", "down": "20 3/4", "gap": "1"})
    said = [said for said in planned(file).warnings if "pinned 1/2 an edge" in said]
    assert len(said) == 2
    assert all("the cloth gives 3/8; 1/8 an edge is missing" in one for one in said)


def test_a_pin_between_the_levels_of_a_toile_is_not_cut() -> None:
    file = pinned(worked(), {"seam": "side", "down": "20", "gap": "3"}, stage="toile")
    plan = planned(file)
    assert not [said for said in plan.warnings if "missing" in said or "short" in said]
    assert [option.short for option in plan.options] == [0]


# What is drawn anew after a toile


def test_a_pin_between_the_levels_of_a_toile_is_a_line_of_each_piece_it_is_on() -> None:
    pin = {"seam": "side", "side": "left", "down": "20", "pinch": "1/2"}
    front, back = planned(pinned(worked(), pin, stage="toile")).steps
    for step, title in ((front, "front"), (back, "back")):
        assert title in step.title
        assert step.side == "left"
        assert "Side seam, between the levels, 20 down: take in 1/2" in step.text
        assert "the line passes through this point" in step.text


def test_a_piece_whose_edges_move_and_whose_width_stays_has_a_step_on_a_toile() -> None:
    """A gap of 1/4 lets each side edge out 1/8; centre back pinned 1/8 deep takes it in again.

    The front at the waist is cut 10 1/4 and gains 1/8; the back's 11 stay.
    """
    file = pinned(worked(), {"seam": "side", "level": "waist", "gap": "1/4"},
                  {"seam": "centre_back", "level": "waist", "pinch": "1/8"},
                  stage="toile")  # fmt: skip
    front, back = planned(file).steps
    assert "Waist: cut 10 1/4 + 1/8 = 10 3/8. All of this at the side seam." in front.text
    assert "Waist: cut 11 as before." in back.text
    assert "Side seam: waist let out 1/8." in back.text
    assert "Centre back: waist take in 1/8." in back.text


def test_each_edge_of_a_second_toile_says_what_was_sewn_and_what_moves_now() -> None:
    moves = [{"edge": edge, "level": "waist", "move": "-1/2"} for edge in ("front", "back")]
    file = pinned(worked(), stage="toile", done=[{"seam": "side", "moves": moves}])
    file = pinned(file, {"seam": "side", "level": "waist", "gap": "1/2"},
                  {"seam": "centre_back", "level": "waist", "pinch": "1/8"},
                  stage="toile")  # fmt: skip
    front, back = planned(file).steps
    assert "Waist: cut 10 1/4 - 1/2 sewn since + 1/4 = 10. All of this at the" in front.text
    assert "Side seam: waist take in 1/2 sewn since and let out 1/4." in back.text
    assert "Centre back: waist take in 1/8." in back.text


def test_a_sleeve_of_one_piece_says_that_it_moves_on_either_side() -> None:
    """A pinch of 1/4 under the arm takes 1/4 off each edge of the piece: 16 - 1/2."""
    pin = {"seam": "under", "level": "arm", "pinch": "1/4"}
    (step,) = planned(pinned(sleeve(2), pin, stage="toile")).steps
    assert "Arm: cut 16 - 1/2 = 15 1/2. Under, on either side: arm take in 1/4." in step.text


@pytest.mark.parametrize("stage", ["toile", "Toile", " TOILE "])
def test_a_toile_is_a_toile_whatever_the_letters_it_is_typed_in(stage: str) -> None:
    plan = planned(pinned(worked(), {"seam": "side", "level": "waist", "gap": "3"}, stage=stage))
    assert plan.heading == "The draft for the real cloth"
    assert moved(plan, "side", "waist") == [1.5, 1.5]
    assert not [said for said in plan.warnings if "missing" in said]
    assert {step.group for step in plan.steps} == {"draft"}


def test_on_paper_a_pin_has_the_room_the_plan_gives_it() -> None:
    """Most is 1 an edge; no cloth is missing beyond it.  A dart of 1 opens by 1/2 a leg at most."""
    file = pinned(worked(), {"seam": "side", "side": "left", "level": "waist", "gap": "2"},
                  {"seam": "side", "level": "hip", "gap": "3"},
                  {"dart": "front_dart", "level": "waist", "gap": "3"}, stage="toile")  # fmt: skip
    read = read_document(file)
    rooms = [room_of_pin(read, "garment", "fitting_1", at)[0] / INCH for at in range(3)]
    assert rooms == pytest.approx([1, 1.5, 0.5])


def test_the_room_of_a_pin_between_the_levels_is_what_the_plan_cuts_it_to() -> None:
    """3/4 inside half way from the waist's 1 to the hip's 1/2, less 3/8 kept."""
    side = {"allowance": {"bust": "1", "waist": "1", "hip": "1/2"}}
    file = read_document(pinned(worked(side), {"seam": "side", "down": "20 3/4", "gap": "1"}))
    assert room_of_pin(file, "garment", "fitting_1", 0)[0] / INCH == pytest.approx(0.375)


# A lining


def lined(allowance: str = "1/2") -> Document:
    """Return the worked dress with a lining of its pieces, with less inside; she was not taped."""
    file = worked()
    layers = file["garments"][0]["layers"]
    lining = deepcopy(layers[0])
    for seam in lining["rings"][0]["seams"]:
        seam["allowance"] = allowance
    layers.append({**lining, "id": "lining"})
    file["measurements"] = []
    return file


def test_what_a_pin_through_the_lining_lacks_there_is_told_with_its_ways_out() -> None:
    """A gap of 2 1/2 asks 1 1/4 an edge; 1/2 inside less 3/8 gives 1/8: four edges miss 1 1/8."""
    pin = {"seam": "side", "level": "waist", "gap": "2 1/2", "through": True}
    plan = planned(pinned(lined(), pin))
    row = level(plan, "waist", "lining")
    assert row.planned / INCH == pytest.approx(0.5)
    assert row.short / INCH == pytest.approx(4.5)
    assert any(said.startswith("Lining, waist: 4 1/2 short to let out; ") for said in plan.warnings)
    (option,) = [option for option in plan.options if option.layer == "lining"]
    assert option.short / INCH == pytest.approx(4.5)


def test_what_the_lining_follows_elsewhere_leaves_what_its_pin_lacks() -> None:
    """The outer's own seam moves 1/4 an edge, 1 in all, which the lining has no seam for."""
    file = lined()
    outer = file["garments"][0]["layers"][0]["rings"][0]
    outer["seams"][0]["id"] = "outer_side"
    pins = ({"seam": "outer_side", "level": "waist", "pinch": "1/4"},
            {"seam": "side", "level": "waist", "gap": "2 1/2", "layer": "lining"})  # fmt: skip
    row = level(planned(pinned(file, *pins)), "waist", "lining")
    assert row.short / INCH == pytest.approx(4.5)


def test_what_was_set_by_hand_in_the_lining_and_lacks_cloth_is_short_when_shared_again() -> None:
    """Set to let out 1 an edge; the lining gives 1/8: four edges miss 7/8."""
    hers = {"layer": "lining", "seam": "side", "level": "waist", "move": "1"}
    file = pinned(lined(), {"seam": "side", "level": "bust", "pinch": "1/8"},
                  set_by_hand=[hers], shared_again=True)  # fmt: skip
    assert level(planned(file), "waist", "lining").short / INCH == pytest.approx(3.5)


def test_a_lining_whose_darts_push_one_level_after_another_is_shared_at_all_of_them() -> None:
    """The lining is 2 in too wide at the first level; only its darts may give.

    Each dart reaches down to the next level with 3/4 of its take-up.  The first gives 4 x 1/2 =
    2, which takes 1 1/2 in at the second level; that dart gives it back, and so on down.
    """
    names = ["one", "two", "three", "four"]
    file = gores(dict.fromkeys(names, 40), dict.fromkeys(names, 40))
    layers = file["garments"][0]["layers"]
    ring = deepcopy(layers[0]["rings"][0])
    piece = ring["pieces"][0]
    below = [*names[1:], ""]
    piece["darts"] = [
        {"id": f"dart_{name}", "take_up": {name: "1"} | ({after: "3/4"} if after else {}),
         "deepest": "4"} for name, after in zip(names, below, strict=True)]  # fmt: skip
    for name, taken in zip(names, (1 + 1, 1.75, 1.75, 1.75), strict=True):
        piece["width"][name] += taken
    ring["seams"][0]["turn"] = 0
    layers.append({"id": "lining", "rings": [ring]})
    plan = planned(file)
    for name in names:
        row = level(plan, name, "lining")
        assert abs(row.needed - row.planned - row.short) <= INCH / 4 + 1e-6, name
    (told,) = [said for said in plan.warnings if "too tight or too loose" in said]
    assert "at the one, two, three and four" in told


# What is refused, and edges given apart


@pytest.mark.parametrize(
    ("what", "first", "second"),
    [
        ("fold", {"piece": "back", "pinch": "1/4"}, {"piece": "back", "pinch": "1/8"}),
        ("dart", {"dart": "back_dart", "pinch": "1/8"}, {"dart": "back_dart", "gap": "1/8"}),
    ],
)
def test_two_darts_or_folds_at_one_level_are_refused_though_each_says_how_far_down(
    what: str, first: Document, second: Document
) -> None:
    at = {"side": "left", "level": "waist"}
    file = pinned(worked(), {**first, **at, "down": "16"}, {**second, **at, "down": "17"})
    with pytest.raises(WorkroomError, match=r"pins\[1\].*two pins for the same side and place"):
        planned(file)


def test_left_and_right_of_a_ring_that_is_there_once_are_one_place() -> None:
    pins = [{"seam": "under", "side": side, "level": "arm", "pinch": "1/4"}
            for side in ("left", "right")]  # fmt: skip
    with pytest.raises(WorkroomError, match=r"pins\[1\].*no left and no right"):
        planned(pinned(sleeve(1), *pins))
    plan = planned(pinned(sleeve(2), *pins))  # two sleeves have
    for side in ("left", "right"):
        assert level(plan, "arm", side=side).pinned / INCH == pytest.approx(-0.5)


def test_a_pin_placed_on_a_ring_that_is_there_once_is_for_all_of_it() -> None:
    file = pinned(sleeve(1))
    garment = read_document(file).garments[0]
    fitting = file["garments"][0]["fittings"][0]
    where = Where("seam", "under", level="arm")
    place_pin(fitting, garment, "in", where, "left")
    assert "side" not in fitting["pins"][0]
    read = read_document(file).garments[0]
    assert pinned_at(read.fittings[0], read, where, "right") == 0  # and so no second one is placed
    assert without_side(fitting, garment) == ()


def test_of_two_edges_the_one_that_is_not_given_stays_and_counts_in_the_mean() -> None:
    """The front edge taken in 1/4 and the back left: 1/4 off that side, 1/8 an edge as one."""
    pin = {"seam": "side", "side": "right", "level": "waist", "edges": {"front": "-1/4"}}
    file = pinned(worked(), pin)
    garment = read_document(file).garments[0]
    (read,) = garment.fittings[0].pins
    assert edge_move(read) / INCH == pytest.approx(-0.125)
    assert level(planned(file), "waist").pinned / INCH == pytest.approx(-0.25)
    fitting = file["garments"][0]["fittings"][0]
    give_edges_apart(fitting, garment, "in", 0, read, ("front", "back"))  # as one again
    assert fitting["pins"][0]["pinch"] == "1/8"
    assert level(planned(file), "waist").pinned / INCH == pytest.approx(-0.25)


def test_edges_given_apart_on_a_seam_through_two_rings_are_those_of_the_pieces_named() -> None:
    """The side of trousers runs from the seat's pieces into the legs'; the seat's are named."""
    file = deepcopy(worked_drafts()["trousers"])
    legs = file["garments"][0]["layers"][0]["rings"][1]
    legs["seams"][0]["id"] = "side"  # as the seam above it: one seam through both
    pin = {"seam": "side", "side": "left", "down": "4", "edges": {"front": "-1/4", "back": "-1/8"}}
    plan = planned(pinned(file, pin))
    assert moved(plan, "side", "top_hip", edge="front") == [-0.25]
    assert moved(plan, "side", "top_hip", edge="back") == [-0.125]
