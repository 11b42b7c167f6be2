"""The worked example comes out as it was added up by hand.

Every figure is a hand sum in inches.  Half ring: front on the fold, cut 11 / 10 1/4 / 12 at
bust / waist / hip with a dart of 1 at the waist; back cut 11 1/2 / 11 / 12 3/4 with a dart of
1 1/4; all allowances 1.  Front net 10, 8 1/4, 11; back net (two seams) 9 1/2, 7 3/4, 10 3/4.
"""

import pytest

from core.records.answer import Plan
from tests.garments import INCH, level, moved, moves_at, planned, worked

LEVELS = ("bust", "waist", "hip")


@pytest.fixture(scope="module")
def plan() -> Plan:
    return planned(worked())


@pytest.mark.parametrize(
    ("name", "body", "ease", "wanted", "sewn", "needed"),
    [
        ("bust", 36.5, 1.5, 38, 2 * (10 + 9.5), -1),
        ("waist", 28.5, 1, 29.5, 2 * (8.25 + 7.75), -2.5),
        ("hip", 39, 1.5, 40.5, 2 * (11 + 10.75), -3),
    ],
)
def test_each_level_shows_body_ease_wanted_sewn_and_needed(
    plan: Plan, name: str, body: float, ease: float, wanted: float, sewn: float, needed: float
) -> None:
    row = level(plan, name)
    assert (row.body, row.ease) == (pytest.approx(body * INCH), pytest.approx(ease * INCH))
    assert row.wanted == pytest.approx(wanted * INCH)
    assert row.as_sewn == pytest.approx(sewn * INCH)
    assert row.needed == pytest.approx(needed * INCH)
    assert row.verdict == "too loose"
    assert row.ease_from == "the garment"


def test_the_round_is_39_32_and_43_and_a_half(plan: Plan) -> None:
    sewn = [level(plan, name).as_sewn / INCH for name in LEVELS]
    assert sewn == pytest.approx([39, 32, 43.5])


def test_the_sides_give_a_quarter_at_the_bust_and_a_half_below(plan: Plan) -> None:
    for side in ("left", "right"):
        for edge in ("front", "back"):
            found = [moved(plan, "side", name, side=side, edge=edge) for name in LEVELS]
            assert found == [[-0.25], [-0.5], [-0.5]]


def test_the_back_darts_give_an_eighth_a_leg(plan: Plan) -> None:
    assert moved(plan, "back_dart", "waist", side="left") == [-0.125]
    assert moved(plan, "back_dart", "waist", side="right") == [-0.125]
    assert moves_at(plan, "back_dart", "bust") == moves_at(plan, "back_dart", "hip") == []


def test_the_front_darts_keep_their_turn(plan: Plan) -> None:
    assert not [move for move in plan.moves if move.dart == "front_dart"]


def test_the_centre_back_gives_a_half_at_the_hip_alone(plan: Plan) -> None:
    assert moved(plan, "centre_back", "hip", side=None) == [-0.5]
    assert moves_at(plan, "centre_back", "waist") == moves_at(plan, "centre_back", "bust") == []


def test_what_is_taken_in_lies_inside_the_seam_afterwards(plan: Plan) -> None:
    """1 + 1/4, 1 + 1/2, 1 + 1/2."""
    left = [moves_at(plan, "side", name)[0].allowance_left for name in LEVELS]
    assert left == pytest.approx([1.25 * INCH, 1.5 * INCH, 1.5 * INCH])


def test_every_move_adds_up_to_what_is_needed_and_nothing_is_short(plan: Plan) -> None:
    for name, needed in zip(LEVELS, (-1, -2.5, -3), strict=True):
        row = level(plan, name)
        total = sum(move.move * move.edges for move in plan.moves if move.level == name)
        assert total == pytest.approx(needed * INCH)
        assert row.planned == pytest.approx(needed * INCH)
        assert row.short == 0


def test_the_waist_is_told_as_one_sum(plan: Plan) -> None:
    """Word for word as the contract says it."""
    assert level(plan, "waist").sum == (
        "28 1/2 body + 1 ease = 29 1/2 wanted; 32 as sewn; take in 2 1/2: side seams, four edges,"
        " 1/2 each; back darts, four legs, 1/8 each"
    )


def test_the_hip_is_told_with_both_edges_of_the_centre_back(plan: Plan) -> None:
    assert level(plan, "hip").sum == (
        "39 body + 1 1/2 ease = 40 1/2 wanted; 43 1/2 as sewn; take in 3: side seams, four edges,"
        " 1/2 each; centre back, two edges, 1/2 each"
    )


def test_fewest_moves_the_sides_alone() -> None:
    """1 / 4, 2 1/2 / 4 and 3 / 4 an edge: 1/4, 5/8, 3/4."""
    plan = planned(worked(), way="fewest")
    assert {move.seam for move in plan.moves} == {"side"}
    assert [moved(plan, "side", name) for name in LEVELS] == [
        [-0.25, -0.25], [-0.625, -0.625], [-0.75, -0.75],
    ]  # fmt: skip


def test_fewest_is_offered_beside_the_turns(plan: Plan) -> None:
    ways = {option.way: option for option in plan.options}
    assert ways["by_turns"].chosen
    assert not ways["fewest"].chosen
    assert ways["by_turns"].open == ("back_dart", "centre_back", "side")
    assert ways["fewest"].open == ("side",)
    assert ways["by_turns"].largest_move == pytest.approx(0.5 * INCH)
    assert ways["fewest"].largest_move == pytest.approx(0.75 * INCH)


def test_with_a_skirts_comfort_at_the_hip_the_zip_stays_shut() -> None:
    plan = planned(worked(side={"comfort": {"hip": "3/4"}}))
    assert moved(plan, "side", "hip") == [-0.75, -0.75]
    assert "centre_back" not in {move.seam for move in plan.moves}
    assert moved(plan, "back_dart", "waist") == [-0.125]


def test_the_zip_stays_shut_with_the_kinds_own_comfort_too() -> None:
    """The sheath's kind sets 3/8, 1/2, 3/4: at the hip the sides give all of it."""
    plan = planned(worked(kind="sheath_dress"))
    assert moved(plan, "side", "hip") == [-0.75, -0.75]
    assert "centre_back" not in {move.seam for move in plan.moves}


def test_nothing_is_left_outside_the_band(plan: Plan) -> None:
    assert not [text for text in plan.warnings if "short" in text or "rounding leaves" in text]
