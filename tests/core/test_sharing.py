"""What a level needs is shared out as the old books and the turns say.

S1 to S12 are the sharing cases of the published values; beside each stands how it was come
by: [V] read in the source, [C] arithmetic on a rule that was read.  Inches unless cm is
written.  The general rule is judged by a numerical search from outside.
"""

import numpy as np
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from scipy.optimize import minimize

from core.share.pinned import evened
from core.share.sharing import Giver, Shared, share_out
from tests.garments import (
    INCH,
    document,
    gores,
    level,
    moved,
    moves_at,
    pinned,
    planned,
    worked,
)

ROOMY = {"id": "side", "label": "Side seam", "comfort": 10, "most": 10, "allowance": 6}
"""Two side seams alone, with most and comfort raised out of the way."""


# The published cases


@pytest.mark.parametrize(
    ("ease", "waist", "hip"),
    [
        pytest.param({"waist": 0, "hip": 0}, -1.5, -1.0, id="S1 [V totals; C]: 36 - 30, 40 - 36"),
        pytest.param({"waist": 1, "hip": 2}, -1.25, -0.5, id="S2 [C]: 36 - 31, 40 - 38"),
    ],
)
def test_two_side_seams_take_a_quarter_of_what_is_too_much(
    ease: dict[str, float], waist: float, hip: float
) -> None:
    file = gores({"waist": 36, "hip": 40}, {"waist": 30, "hip": 36}, [ROOMY], ease=ease)
    plan = planned(file)
    for side in ("left", "right"):
        assert moved(plan, "side", "waist", side=side) == [waist, waist]
        assert moved(plan, "side", "hip", side=side) == [hip, hip]


def test_eight_too_wide_is_two_an_edge() -> None:
    """S3 [V]: 8 too wide, two side seams: 4 a seam, 2 an edge, far beyond comfort: caution."""
    plan = planned(gores({"waist": 38}, {"waist": 30}, [ROOMY]))
    assert moved(plan, "side", "waist") == [-2, -2]
    assert planned_inches(plan, "waist") == -8
    told = [text for text in plan.warnings if "far beyond comfort" in text]
    assert len(told) == 1
    assert "2 an edge" in told[0]


def test_an_inch_an_edge_is_no_cause_for_caution() -> None:
    plan = planned(gores({"waist": 34}, {"waist": 30}))
    assert moved(plan, "side", "waist") == [-1, -1]
    assert not [text for text in plan.warnings if "far beyond comfort" in text]


def test_eight_too_wide_goes_no_further_than_most_where_it_is_not_raised() -> None:
    """The table's most is 1 an edge: four edges give 4, the other 4 are told."""
    plan = planned(gores({"waist": 38}, {"waist": 30}))
    assert moved(plan, "side", "waist") == [-1, -1]
    assert level(plan, "waist").short == pytest.approx(-4 * INCH)
    assert any("4 short to take in" in text for text in plan.warnings)


def test_a_fold_pinned_a_quarter_deep_takes_a_half_off_the_round() -> None:
    """S4 [V]: pinned 1/4 deep at the waist."""
    file = pinned(gores({"waist": 32}, {"waist": 30}, [ROOMY]),
                  {"seam": "side", "side": "left", "level": "waist", "pinch": "1/4"})  # fmt: skip
    row = level(planned(file), "waist")
    assert row.pinned == pytest.approx(-0.5 * INCH)
    assert row.after_pins == pytest.approx(31.5 * INCH)


def test_a_gored_skirt_lets_a_third_out_at_every_edge_and_marks_it_in_eighths() -> None:
    """S5 [V 4 and 2; C]: waist 30, body 34, hips fit; six edges in each half."""
    seams = [{"id": name} for name in ("front_gore", "side", "back_gore")]
    plan = planned(gores({"waist": 30, "hip": 40}, {"waist": 34, "hip": 40}, seams))
    exact = [move.exact / INCH for move in plan.moves]
    assert exact == pytest.approx([1 / 3] * 12)
    names = ("front_gore", "side", "back_gore")
    half = [amount for name in names for amount in moved(plan, name, "waist", side="left")]
    assert half == [0.375] * 4 + [0.25] * 2, "the larger moves go to the earlier seams"
    assert sum(half) == 2
    assert planned_inches(plan, "waist") == 4


def test_a_half_pattern_of_five_pieces_grows_by_two_fifths_a_piece() -> None:
    """S6 [V; C]: half pattern 11 1/2 to become 13 1/2 over five pieces, 0.4 each.

    Five pieces with a seam at both centres: ten edges in the half, two to a piece.
    """
    names = [f"piece_{number}" for number in range(5)]
    pieces = [{"id": name, "width": {"waist": 11.5 / 5 + 2}} for name in names]
    seams = [{"id": "centre_front", "joins": [names[0]] * 2, "allowance": 1}]
    seams += [{"id": f"seam_{n}", "joins": names[n : n + 2], "allowance": 1} for n in range(4)]
    seams += [{"id": "centre_back", "joins": [names[-1]] * 2, "allowance": 1}]
    file = document(
        {"ease": {"waist": 0}, "levels": [{"id": "waist", "body": "waist_girth"}],
         "layers": [{"id": "outer", "rings": [
             {"id": "body", "kind": "half", "pieces": pieces, "seams": seams}]}]},
        {"waist_girth": 27},
    )  # fmt: skip
    plan = planned(file)
    assert level(plan, "waist").as_sewn == pytest.approx(23 * INCH)
    for name in names:
        exact = [move.exact for move in plan.moves if move.edge == name
                 and move.side in ("left", None)]  # fmt: skip
        assert sum(exact) == pytest.approx(0.4 * INCH)
    assert planned_inches(plan, "waist") == 4, "rounded last, the remainder is given back"


def test_what_the_allowance_cannot_give_is_told_as_short() -> None:
    """S7 [C]: allowance 1, keep 3/8, two side seams, 3 wanted: 5/8 an edge, 1/2 short."""
    seam = {**ROOMY, "allowance": 1, "keep": "3/8"}
    plan = planned(gores({"waist": 30}, {"waist": 33}, [seam]))
    assert moved(plan, "side", "waist") == [0.625, 0.625]
    assert planned_inches(plan, "waist") == 2.5
    assert level(plan, "waist").short == pytest.approx(0.5 * INCH)
    (told,) = [text for text in plan.warnings if "short" in text]
    assert "1/2 short to let out" in told
    assert "1 1/4 wide" in told, "a strip of 1/2 and two allowances of 3/8"


def test_a_princess_line_takes_an_eighth_at_each_of_twelve_edges() -> None:
    """S8 [C]: 12 edges, take in 1 1/2."""
    seams = [{"id": name} for name in ("front_princess", "side", "back_princess")]
    plan = planned(gores({"waist": 31.5}, {"waist": 30}, seams))
    assert len(plan.moves) == 12
    assert {round(move.move / INCH, 6) for move in plan.moves} == {-0.125}


def test_folds_unlike_stay_unlike_and_are_told() -> None:
    """S9 [V rule; C]: folds of 1 1/4 in all on the left, 3/4 on the right."""
    file = pinned(
        gores({"waist": 32}, {"waist": 30}, [ROOMY]),
        {"seam": "side", "side": "left", "level": "waist", "pinch": "5/8"},
        {"seam": "side", "side": "right", "level": "waist", "pinch": "3/8"},
    )
    plan = planned(file)
    assert moved(plan, "side", "waist", side="left") == [-0.625, -0.625]
    assert moved(plan, "side", "waist", side="right") == [-0.375, -0.375]
    told = [text for text in plan.warnings if "stay different" in text]
    assert len(told) == 1
    assert "her left take in 5/8" in told[0]
    assert "her right take in 3/8" in told[0]


def test_evened_folds_are_half_of_the_sum_each() -> None:
    """S9 [V rule; C]: 1 1/4 and 3/4 become 1 a side: 1/2 at each of four edges."""
    left, right = evened(1.25, 0.75)
    assert (left / 2, right / 2) == (0.5, 0.5)


def test_a_side_seam_taken_in_at_the_underarm_makes_armhole_and_sleeve_smaller() -> None:
    """S10 [C]: 1/4 an edge: armhole 1/2 smaller, sleeve seam 1/4 an edge."""
    file = pinned(with_sleeve(), {"seam": "side", "level": "bust", "pinch": "1/4"})
    plan = planned(file)
    (armhole,) = [entry for entry in plan.follows if entry.what == "armhole"]
    assert armhole.change == pytest.approx(-0.5 * INCH)
    assert "17 1/4 sewn, 1/2 shorter = 16 3/4" in armhole.text
    sleeves = [entry for entry in plan.follows if entry.what == "sleeve"]
    assert len(sleeves) == 2
    for sleeve in sleeves:
        assert sleeve.change == pytest.approx(-0.5 * INCH)
        assert "take in the sleeve seam 1/4 an edge" in sleeve.text
        assert "cap's ease stays" in sleeve.text


def with_sleeve_and_neckline() -> dict[str, object]:
    """Return the sleeved bodice with a yoke seam that its neckline, listed first, answers."""
    file = with_sleeve()
    garment = file["garments"][0]  # type: ignore[index]
    ring = garment["layers"][0]["rings"][0]
    ring["pieces"].insert(1, {"id": "side_front", "width": {"bust": 4}})
    ring["seams"][0]["joins"] = ["side_front", "piece_1"]
    ring["seams"].insert(0, {"id": "yoke", "label": "Yoke seam", "joins": ["piece_0", "side_front"],
                             "allowance": 1})  # fmt: skip
    garment["lines"].insert(0, {"id": "neckline", "label": "Neckline", "sewn": 16,
                                "changes": [{"seam": "yoke", "level": "bust", "factor": 1}]})
    return file


def test_a_neckline_listed_before_the_armhole_orders_nothing_at_the_sleeve() -> None:
    """The yoke seam 1/4 an edge: the neckline 2 x 1/4 shorter, armhole and sleeve as they are."""
    file = pinned(with_sleeve_and_neckline(), {"seam": "yoke", "level": "bust", "pinch": "1/4"})
    follows = {entry.what: entry for entry in planned(file).follows}
    assert follows["neckline"].change == pytest.approx(-0.5 * INCH)
    assert "armhole" not in follows
    assert "sleeve" not in follows


@pytest.mark.parametrize("named", [{}, {"id": "scye", "body": "armscye_girth"}])
def test_the_sleeve_follows_the_armhole_wherever_it_is_listed(named: dict[str, str]) -> None:
    """The side seam 1/4 an edge at the underarm: the sleeve seam 1/4 an edge, 2 x 1/4 round."""
    file = with_sleeve_and_neckline()
    file["garments"][0]["lines"][1] |= named  # type: ignore[index]
    follows = planned(
        pinned(file, {"seam": "side", "level": "bust", "pinch": "1/4"})
    ).follows
    sleeves = [entry.change for entry in follows if entry.what == "sleeve"]
    assert sleeves == pytest.approx([-0.5 * INCH, -0.5 * INCH])


def test_a_waist_an_inch_too_small_is_a_quarter_an_edge() -> None:
    """S11 [V]: waist 1 too small, two side seams."""
    plan = planned(gores({"waist": 29}, {"waist": 30}))
    assert moved(plan, "side", "waist") == [0.25, 0.25]


def test_twelve_rounded_edges_give_their_remainder_back() -> None:
    """S12 [C]: 2 1/4 over twelve edges is 3/16 each; each to the eighth would lose 3/4."""
    seams = [{"id": name} for name in ("front_princess", "side", "back_princess")]
    plan = planned(gores({"waist": 32.25}, {"waist": 30}, seams))
    assert {round(move.exact / INCH, 6) for move in plan.moves} == {-0.1875}
    assert abs(planned_inches(plan, "waist") + 2.25) <= 0.25


# Turns, comfort, the one-step rule, limits: sums by hand on two or three givers


def share(need: float, *givers: Giver, band: float = 0.25, step: float = 0.125) -> Shared:
    """Share in inches; an amount has no unit of its own."""
    return share_out(need, givers, band=band, step=step)


def edges(
    place: int, count: int = 4, turn: int = 1, weight: float = 1, comfort: float = 0.5,
    limit: float = 1,
) -> Giver:  # fmt: skip
    return Giver(place, count, turn, weight, comfort, limit)


def test_the_first_turn_gives_up_to_its_comfort_and_the_next_gives_the_rest() -> None:
    """3: four edges at 1/2 are 2; two edges of the next turn give 1/2 each."""
    assert share(-3, edges(0), edges(1, count=2, turn=2)).moves == (-0.5, -0.5)


def test_a_later_turn_rests_while_the_earlier_one_is_in_comfort() -> None:
    assert share(1.5, edges(0), edges(1, turn=2)).moves == (0.375, 0)


def test_beyond_comfort_the_first_turn_is_asked_again_before_the_second() -> None:
    """5: 2 + 2 in comfort; the last 1 is 1/4 more at each edge of turn 1."""
    assert share(5, edges(0), edges(1, turn=2)).moves == (0.75, 0.5)


def test_one_that_reaches_its_comfort_stays_and_its_turn_shares_the_rest() -> None:
    """3 over 4 + 4: 3/8 each; 1/4 is all the first has: 1, and 2 over four is 1/2."""
    assert share(3, edges(0, comfort=0.25), edges(1)).moves == (0.25, 0.5)


def test_weight_says_who_gives_more_in_a_turn() -> None:
    """1 1/2 over weights 2 and 1, four edges each: 1/4 and 1/8."""
    assert share(1.5, edges(0, weight=2), edges(1)).moves == pytest.approx((0.25, 0.125))


def test_weight_nothing_and_turn_nothing_stay_even_where_it_is_short() -> None:
    shared = share(10, edges(0, weight=0), edges(1, turn=0), edges(2))
    assert shared.moves == (0, 0, 1)
    assert shared.short == 6


def test_what_is_short_has_the_sign_of_the_need() -> None:
    """1 is the limit of four edges: 4."""
    assert share(-5, edges(0)).short == -1
    assert share(5, edges(0)).short == 1


def test_what_lies_inside_the_band_at_the_end_is_not_called_short() -> None:
    """The band's edge belongs to it."""
    assert share(4.25, edges(0)).short == 0
    assert share(4.3, edges(0)).short == pytest.approx(0.3)


def test_nobody_is_asked_for_a_need_inside_the_band() -> None:
    assert share(-0.25, edges(0)).moves == (0,)


def test_what_a_turn_leaves_inside_the_band_is_left() -> None:
    """2 1/4: the first turn's comfort is 2, the last 1/4 is the band's."""
    assert share(2.25, edges(0), edges(1, turn=2)).moves == (0.5, 0)


def test_the_last_seam_of_a_turn_is_left_out_while_a_share_is_under_a_step() -> None:
    """3/4 over twelve edges is 1/16; over eight 3/32; over four 3/16."""
    assert share(0.75, edges(0), edges(1), edges(2)).moves == (0.1875, 0, 0)


def test_a_share_of_just_a_step_leaves_nobody_out() -> None:
    """S8's sum: 1 1/2 over twelve edges is 1/8 exactly."""
    assert share(1.5, edges(0), edges(1), edges(2)).moves == (0.125, 0.125, 0.125)


def test_one_is_left_even_where_its_share_is_under_a_step() -> None:
    assert share(0.3, edges(0), edges(1)).moves == pytest.approx((0.075, 0))


def test_the_two_edges_of_a_seam_are_left_out_together() -> None:
    """They share a place: 3/4 over eight edges is under a step, over four it is 3/16."""
    both = [edges(0, count=2), edges(0, count=2), edges(1, count=2), edges(1, count=2)]
    assert share(0.75, *both).moves == (0.1875, 0.1875, 0, 0)


def test_those_left_out_are_asked_before_the_next_turn_the_latest_left_out_first() -> None:
    """0.9: 12 edges 0.075, 8 edges 0.1125, 4 edges 0.225 but comfort is 0.05: 0.2 given.

    0.7 is left: the one left out last is the second, comfort 0.1: 0.4; 0.3 is left, outside
    the band: the third gives 0.075.  Turn 2 rests.
    """
    first, second = edges(0, comfort=0.05), edges(1, comfort=0.1)
    shared = share(0.9, first, second, edges(2), edges(3, turn=2))
    assert shared.moves == pytest.approx((0.05, 0.1, 0.075, 0))


def test_the_next_turn_rests_where_one_left_out_brings_it_inside_the_band() -> None:
    """0.6 over eight is under a step; comfort 0.05 gives 0.2, the second gives the 0.4."""
    shared = share(0.6, edges(0, comfort=0.05), edges(1), edges(2, turn=2))
    assert shared.moves == pytest.approx((0.05, 0.1, 0))


def test_comfort_never_goes_past_the_limit() -> None:
    assert share(4, edges(0, comfort=2, limit=0.5)).moves == (0.5,)


def test_fewest_asks_the_first_turn_there_is_to_its_limit_and_nobody_else() -> None:
    givers = [edges(0, turn=3), edges(1, turn=2)]
    shared = share_out(5, givers, band=0.25, step=0.125, way="fewest")
    assert shared.moves == (0, 1)
    assert shared.short == 1


def test_spread_asks_all_turns_as_one() -> None:
    givers = [edges(0, turn=1), edges(1, turn=4), edges(2, turn=0)]
    assert share_out(2, givers, band=0.25, step=0.125, way="spread").moves == (0.25, 0.25, 0)


def test_nobody_there_leaves_all_of_it_short() -> None:
    assert share(-2) == Shared((), -2)


@st.composite
def one_turn(draw: st.DrawFn) -> list[Giver]:
    amounts = st.floats(0.05, 2)
    limits = draw(st.lists(amounts, min_size=1, max_size=6))
    return [Giver(place, draw(st.sampled_from([1, 2, 4])), 1, draw(st.floats(0.25, 4)), limit,
                  limit) for place, limit in enumerate(limits)]  # fmt: skip


@settings(max_examples=120, deadline=None)
@given(givers=one_turn(), part=st.floats(0.05, 0.98))
def test_one_turn_shares_as_the_least_squares_of_its_weights(
    givers: list[Giver], part: float
) -> None:
    """Judged by a search: least sum of count x move^2 / weight, inside limits, total as needed."""
    count = np.array([giver.count for giver in givers], dtype=float)
    weight = np.array([giver.weight for giver in givers])
    limit = np.array([giver.limit for giver in givers])
    need = part * float(count @ limit)
    found = minimize(
        lambda x: float(count @ (x * x / weight)), limit * part,
        jac=lambda x: 2 * count * x / weight,
        bounds=[(0, top) for top in limit], method="SLSQP",
        constraints={"type": "eq", "fun": lambda x: float(count @ x) - need,
                     "jac": lambda x: count},
        options={"ftol": 1e-14, "maxiter": 500},
    )  # fmt: skip
    assume(found.success)
    shared = share_out(need, givers, band=0, step=0)
    assert shared.moves == pytest.approx(list(found.x), abs=1e-4)
    assert shared.short == 0


@settings(deadline=None)
@given(givers=one_turn(), beyond=st.floats(0.3, 5))
def test_more_than_there_is_takes_every_edge_to_its_limit(
    givers: list[Giver], beyond: float
) -> None:
    room = sum(giver.count * giver.limit for giver in givers)
    shared = share_out(-(room + beyond), givers, band=0.25, step=0.125)
    assert shared.moves == pytest.approx([-giver.limit for giver in givers])
    assert shared.short == pytest.approx(-beyond)


# Darts are settled first and are one wedge


def test_a_dart_that_gives_at_its_widest_gives_its_share_where_it_crosses() -> None:
    """The back dart of 1 1/4 is 5/8 at a level half way to its point: 1/8 a leg is 1/16 there.

    Waist: sides 2, darts 1/2.  Half way the round loses 4 x 1/16 = 1/4, inside the band.
    """
    file = worked()
    garment = file["garments"][0]
    garment["levels"].insert(2, {"id": "below", "down": "18 1/2"})
    front, back = garment["layers"][0]["rings"][0]["pieces"]
    front["width"]["below"], back["width"]["below"] = "11", "12"
    back["darts"][0]["ends"] = {"top": "12", "point": "20 1/2"}
    plan = planned(file)
    assert moved(plan, "back_dart", "waist") == [-0.125]
    assert moved(plan, "back_dart", "below") == [-0.0625]


def test_a_dart_lets_out_no_more_than_half_its_take_up_a_leg() -> None:
    """Turn 1 darts alone, 3 too tight: take-up 1 gives 1/2 a leg, 4 legs, 2; 1 is short."""
    file = gores({"waist": 30}, {"waist": 33}, [{"id": "side", "turn": 0}])
    for piece in file["garments"][0]["layers"][0]["rings"][0]["pieces"][:1]:
        piece["width"]["waist"] += 1
        piece["darts"] = [{"id": "dart", "take_up": {"waist": 1}}]
    plan = planned(file)
    assert level(plan, "waist").as_sewn == pytest.approx(30 * INCH)
    assert moved(plan, "dart", "waist") == [0.5]
    assert level(plan, "waist").short == pytest.approx(1 * INCH)


def test_a_dart_takes_in_to_half_of_what_is_missing_to_deepest() -> None:
    """Deepest 1 1/2, take-up 1: 1/4 a leg, four legs, 1 of the 3 too much."""
    file = gores({"waist": 33}, {"waist": 30}, [{"id": "side", "turn": 0}])
    piece = file["garments"][0]["layers"][0]["rings"][0]["pieces"][0]
    piece["width"]["waist"] += 1
    piece["darts"] = [{"id": "dart", "take_up": {"waist": 1}}]
    plan = planned(file)
    assert moved(plan, "dart", "waist") == [-0.25]
    assert level(plan, "waist").short == pytest.approx(-2 * INCH)


def test_an_edge_with_no_room_stays_while_its_fellow_gives() -> None:
    """The front clipped to nothing by weight 0: the back's two edges give 1/2 each for 1."""
    seam = {"id": "side", "weight": {"piece_0": 0}}
    plan = planned(gores({"bust": 36}, {"bust": 37}, [seam]))
    assert moved(plan, "side", "bust", edge="piece_0") == []
    assert moved(plan, "side", "bust", edge="piece_1") == [0.5]


def test_a_clipped_seam_lets_nothing_out_and_says_so() -> None:
    plan = planned(gores({"bust": 36}, {"bust": 37}, [{"id": "side", "clipped": ["bust"]}]))
    assert moves_at(plan, "side", "bust") == []
    assert level(plan, "bust").short == pytest.approx(1 * INCH)


def test_where_the_sides_differ_the_smaller_room_counts_and_the_freer_side_is_told() -> None:
    """Left trimmed to 1/2 from 1: room 1/8 an edge; four edges give 1/2 of 2."""
    file = pinned(
        gores({"waist": 30}, {"waist": 32}),
        done=[{"on": "2026-01-01", "seam": "side", "side": "left",
               "moves": [{"edge": "piece_0", "level": "waist", "move": 0},
                         {"edge": "piece_1", "level": "waist", "move": 0}],
               "trimmed": {"piece_0": "1/2", "piece_1": "1/2"}}],
    )  # fmt: skip
    plan = planned(pinned(file, lead="tape"))
    for side in ("left", "right"):
        assert moved(plan, "side", "waist", side=side) == [0.125, 0.125]
    assert level(plan, "waist").short == pytest.approx(1.5 * INCH)
    assert any("one side alone could give more" in text for text in plan.warnings)


def test_cloth_that_shows_its_old_line_lets_nothing_out() -> None:
    file = gores({"waist": 30}, {"waist": 31})
    file["garments"][0]["layers"][0]["shows_marks"] = True
    plan = planned(file)
    assert plan.moves == ()
    assert level(plan, "waist").short == pytest.approx(INCH)


def planned_inches(plan: object, name: str) -> float:
    return round(level(plan, name).planned / INCH, 6)  # type: ignore[arg-type]


def with_sleeve() -> dict[str, object]:
    """Return a bodice round 38 at the bust with a sleeve 14 1/2 round the upper arm."""
    file = gores({"bust": 38}, {"bust": 36}, [{"id": "side", "label": "Side seam"}])
    garment = file["garments"][0]
    garment["levels"] += [{"id": "arm", "down": 8, "body": "upper_arm_girth", "from": "shoulder"},
                          {"id": "elbow", "down": 14, "from": "shoulder"}]  # fmt: skip
    garment["layers"][0]["rings"].append({
        "id": "sleeve", "kind": "closed", "copies": 2, "levels": ["arm", "elbow"],
        "pieces": [{"id": "sleeve_piece", "width": {"arm": "15 1/2", "elbow": "13 1/2"}}],
        "seams": [{"id": "sleeve_seam", "joins": ["sleeve_piece"] * 2, "allowance": "1/2"}],
    })  # fmt: skip
    garment["lines"] = [{"id": "armhole", "label": "Armhole", "sewn": "17 1/4",
                         "changes": [{"seam": "side", "level": "bust", "factor": 1}]}]  # fmt: skip
    file["measurements"][0]["values"]["upper_arm_girth"] = 11
    return file


def test_what_is_short_to_let_out_and_to_take_in_is_added_up_never_set_off() -> None:
    """Two gores each side, 1 inside less 3/8 kept: 4 x 5/8 = 2 1/2 out of 7 1/2; in 4 x 1 of 9."""
    plan = planned(gores({"bust": 39, "hip": 43}, {"bust": 46.5, "hip": 34}))
    assert level(plan, "bust").short == pytest.approx(5 * INCH)
    assert level(plan, "hip").short == pytest.approx(-5 * INCH)
    assert [option.short / INCH for option in plan.options] == pytest.approx([10])


def test_what_is_short_to_take_in_alone_keeps_its_sign_in_the_way() -> None:
    plan = planned(gores({"bust": 39, "hip": 43}, {"bust": 39, "hip": 34}))
    assert [option.short / INCH for option in plan.options] == pytest.approx([-5])
