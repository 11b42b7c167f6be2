"""The new line passes its points, never overshoots, runs out as its seam says, and warns.

Judged by scipy's monotone cubic and shapely's lengths; the sums by hand in inches.
"""

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.interpolate import PchipInterpolator
from shapely import LineString

from core.changes.seam_line import SeamLine, every, line_through, matching_change, too_quick, waves
from core.records.answer import Plan
from core.records.garment import CARRY, NOTHING
from tests.garments import INCH, Document, gores, level, moved, moves_at, pinned, planned, worked

DOWNS = [0.0, 100.0, 200.0, 300.0, 400.0]


def line(
    *points: tuple[float, float], up: str | float = NOTHING, down: str | float = NOTHING
) -> SeamLine:
    made = line_through(points, DOWNS, up, down)
    assert made is not None
    return made


# The curve


@st.composite
def known_points(draw: st.DrawFn) -> list[tuple[float, float]]:
    downs = sorted(draw(st.sets(st.integers(0, 1000), min_size=2, max_size=7)))
    moves = st.floats(-30, 30).filter(lambda move: abs(move) > 0.01)
    return [(float(down), draw(moves)) for down in downs]


@given(points=known_points())
def test_the_line_is_the_monotone_cubic_at_and_between_its_points(
    points: list[tuple[float, float]],
) -> None:
    made = line(*points)
    judge = PchipInterpolator(*zip(*points, strict=True))
    top, bottom = points[0][0], points[-1][0]
    for number in range(61):
        down = top + (bottom - top) * number / 60
        assert made.at(down) == pytest.approx(float(judge(down)), abs=1e-6)
    for down, move in points:
        assert made.at(down) == pytest.approx(move)


@given(points=known_points(), part=st.floats(0, 1))
def test_between_two_points_the_line_never_leaves_them(
    points: list[tuple[float, float]], part: float
) -> None:
    made = line(*points)
    for (top, first), (bottom, last) in pairwise(points):
        here = made.at(top + (bottom - top) * part)
        assert min(first, last) - 1e-6 <= here <= max(first, last) + 1e-6


def test_a_pin_beyond_the_level_of_its_run_never_grows_below_it() -> None:
    """8 at 300, the run names 200: the line ends by the next level, at 400."""
    made = line((300, -8), down=200.0)
    assert [made.at(down) for down in (300, 350, 400, 450)] == pytest.approx([-8, -4, 0, 0])


def test_where_nothing_moves_there_is_no_line() -> None:
    assert line_through([(0, 0), (100, 0)], DOWNS, NOTHING, CARRY) is None


# Runs


def test_a_run_of_nothing_ends_at_the_next_level_and_is_straight() -> None:
    """8 at 200: half way to the next level at 300 it is 4."""
    made = line((200, -8))
    assert [made.at(down) for down in (100, 150, 200, 250, 275, 300, 350)] == pytest.approx(
        [0, -4, -8, -4, -2, 0, 0]
    )


def test_a_run_of_nothing_ends_at_the_next_judged_level_where_one_stays() -> None:
    """The level at 400 is judged and stays; the one at 300 is passed on the way: 8 to 4."""
    made = line((200, -8), (400, 0))
    assert [made.at(down) for down in (300, 400)] == pytest.approx([-4, 0])


def test_a_carried_line_keeps_its_amount_to_the_seams_end() -> None:
    made = line((200, -8), up=CARRY, down=CARRY)
    assert [made.at(down) for down in DOWNS] == [-8] * 5


def test_nothing_is_carried_past_a_judged_level_that_stays() -> None:
    made = line((200, -8), (300, 0), down=CARRY)
    assert [made.at(down) for down in (250, 300, 400)] == pytest.approx([-4, 0, 0])


def test_a_line_runs_out_at_the_level_its_run_names_and_never_beyond() -> None:
    """8 at 100 to nothing at 400: straight, 16/3 at 200, 8/3 at 300."""
    made = line((100, 8), down=400.0)
    assert [made.at(down) for down in (200, 300, 400, 500)] == pytest.approx([16 / 3, 8 / 3, 0, 0])


def test_beyond_the_seams_last_level_there_is_nothing_to_run_out_to() -> None:
    made = line((400, -8))
    assert made.below is None
    assert too_quick(line((0, -2), (400, -8))) == []


def test_a_strapless_side_carries_its_amount_to_the_top_edge() -> None:
    side = {"id": "side", "run": {"up": "carry"}}
    file = gores({"top": 34, "bust": 38, "waist": 30}, {"bust": 36, "waist": 30}, [side])
    plan = planned(pinned(file, {"seam": "side", "level": "bust", "pinch": "1/2"}))
    assert moved(plan, "side", "top") == [-0.5, -0.5]
    assert moves_at(plan, "side", "waist") == []


def fishtail() -> Plan:
    side = {"id": "side", "run": {"down": "flare"}}
    sewn = {"waist": 30, "hip": 40, "thigh": 38, "flare": 36, "hem": 60}
    file = gores(sewn, {"waist": 30, "hip": 38, "hem": 50}, [side])
    return planned(file)


def test_a_fishtails_side_is_nothing_at_its_flare_and_is_never_shared_below() -> None:
    """Hip 2 too wide, 1/2 an edge, half of it half way to the flare; the hem 10 too wide stays."""
    plan = fishtail()
    assert moved(plan, "side", "hip") == [-0.5, -0.5]
    assert moved(plan, "side", "thigh") == [-0.25, -0.25]
    assert moves_at(plan, "side", "flare") == moves_at(plan, "side", "hem") == []
    assert level(plan, "hem").short == pytest.approx(-10 * INCH)


def test_a_pin_where_the_run_says_nothing_is_sewn_and_told() -> None:
    side = {"id": "side", "run": {"down": "flare"}}
    file = gores({"waist": 30, "flare": 36, "hem": 60}, {"waist": 30}, [side])
    plan = planned(pinned(file, {"seam": "side", "level": "hem", "pinch": "1/2"}))
    assert moved(plan, "side", "hem") == [-0.5, -0.5]
    assert [text for text in plan.warnings if "pinned where its run says nothing" in text]


def test_a_carried_amount_keeps_to_the_room_and_what_is_cut_is_told() -> None:
    """Let out 1/2 at the hip; the hem's allowance of 1/2 less 3/8 gives 1/8."""
    side = {"id": "side", "allowance": 1, "run": {"down": "carry"}}
    file = gores({"hip": 40, "hem": 44}, {"hip": 42}, [side])
    seam = file["garments"][0]["layers"][0]["rings"][0]["seams"][0]
    seam["allowance"] = {"hip": 1, "hem": "1/2"}
    plan = planned(file)
    assert moved(plan, "side", "hip") == [0.5, 0.5]
    assert moved(plan, "side", "hem") == [0.125, 0.125]
    assert [text for text in plan.warnings if "carried 1/2 an edge, the cloth gives 1/8" in text]


def test_a_seam_that_runs_through_two_rings_is_one_line() -> None:
    """Trousers: 1/2 pinned at the hip, 1/4 at the knee of the leg; half way down it is 3/8."""
    seam = {"id": "side", "joins": ["front", "back"], "allowance": 1}
    seat = {"id": "seat", "kind": "half", "levels": ["waist", "hip"], "seams": [seam], "pieces": [
        {"id": name, "fold": True, "width": {"waist": 9, "hip": 11}} for name in ("front", "back")
    ]}  # fmt: skip
    leg = {"id": "leg", "kind": "closed", "copies": 2, "levels": ["thigh", "knee"],
           "pieces": [{"id": f"{name}_leg", "width": {"thigh": 13, "knee": 10}}
                      for name in ("front", "back")],
           "seams": [{**seam, "id": name, "joins": ["front_leg", "back_leg"]}
                     for name in ("side", "inseam")]}  # fmt: skip
    file = gores({"waist": 30}, {"waist": 30})
    garment = file["garments"][0]
    garment["levels"] = [{"id": name, "down": down} for name, down in
                         [("waist", 0), ("hip", 8), ("thigh", 14), ("knee", 20)]]  # fmt: skip
    garment["layers"] = [{"id": "outer", "rings": [seat, leg]}]
    pins = [{"seam": "side", "side": "left", "level": "hip", "pinch": "1/2"},
            {"seam": "side", "side": "left", "level": "knee", "pinch": "1/4"}]  # fmt: skip
    plan = planned(pinned(file, *pins))
    assert moved(plan, "side", "thigh") == [-0.375, -0.375]
    assert moved(plan, "side", "thigh", side="right") == []
    assert level(plan, "thigh", side="left").pinned == pytest.approx(-0.75 * INCH)
    assert level(plan, "thigh", side="right").pinned == 0
    (step,) = [step for step in plan.steps if step.group == "side seams"]
    assert step.side == "left"


# Cautions


@pytest.mark.parametrize(("over", "quick"), [(79, True), (80, False), (81, False)])
def test_a_line_that_runs_out_over_less_than_eight_times_the_move_is_told(
    over: float, quick: bool
) -> None:
    """10 taken: 80 is eight times as much."""
    assert bool(too_quick(line((100, -10), down=100.0 + over, up=CARRY))) is quick


@pytest.mark.parametrize(("over", "quick"), [(79, True), (80, False)])
def test_a_move_that_changes_over_less_than_eight_times_the_change_is_told(
    over: float, quick: bool
) -> None:
    made = line((100, -5), (100 + over, -15), up=CARRY, down=CARRY)
    assert bool(too_quick(made)) is quick


def test_a_carried_end_is_never_too_quick() -> None:
    assert too_quick(line((200, -90), up=CARRY, down=CARRY)) == []


def test_running_out_too_quickly_stands_among_the_warnings() -> None:
    """5/8 at the waist to nothing at the bust 6 above wants only 5; 1 wants 8."""
    quiet = planned(pinned(worked(), {"seam": "side", "level": "waist", "pinch": "5/8"}))
    loud = planned(pinned(worked(), {"seam": "side", "level": "waist", "pinch": 1}))
    assert not [text for text in quiet.warnings if "eight times" in text]
    told = [text for text in loud.warnings if "eight times" in text]
    assert told
    assert all("changes over only 6," in text for text in told)


@pytest.mark.parametrize(
    ("moves", "dips"),
    [
        ((-12, -5, -12), True),  # 7 less than both
        ((-12, -5.65, -12), True),  # 6.35: a quarter of an inch to the hair
        ((-12, -6, -12), False),
        ((-12, -5, -10), False),  # only 5 less than the smaller of the two
        ((12, 2, 12), True),
        ((-12, 3, -12), True),
        ((-5, -12, -5), False),  # fuller in the middle is no dip
        ((-12, -5, 0), False),
        ((-12, 0, 12), False),
    ],
)
def test_a_dip_of_a_quarter_between_two_larger_moves_would_wave(
    moves: tuple[float, float, float], dips: bool
) -> None:
    made = line(*zip((100.0, 200.0, 300.0), moves, strict=True))
    assert bool(waves(made)) is dips


def test_a_judged_level_left_at_nothing_between_two_that_move_would_wave() -> None:
    sewn = {"bust": 38, "waist": 30, "hip": 40}
    plan = planned(gores(sewn, {"bust": 36, "waist": 30, "hip": 38}))
    assert moved(plan, "side", "bust") == moved(plan, "side", "hip") == [-0.5, -0.5]
    told = [text for text in plan.warnings if "would wave" in text]
    assert told
    assert all("waist" in text for text in told)


# Amounts between the levels, and how two edges match


def test_the_line_is_stated_every_two_inches() -> None:
    made = line((100, 0.5), (100 + 8 * 25.4, 8.5))
    stated = every(made, 100, 100 + 8 * 25.4, 50.8)
    assert [down for down, _ in stated] == pytest.approx([100 + n * 50.8 for n in range(5)])
    assert [move for _, move in stated] == pytest.approx([0.5, 2.5, 4.5, 6.5, 8.5])


@given(points=st.lists(st.floats(-40, 40), min_size=2, max_size=12),
       others=st.lists(st.floats(-40, 40), min_size=2, max_size=12))  # fmt: skip
def test_the_change_in_matching_is_the_difference_of_the_two_lines(
    points: list[float], others: list[float]
) -> None:
    first = [(25.4 * number, move) for number, move in enumerate(points)]
    second = [(25.4 * number, move) for number, move in enumerate(others)]
    judge = LineString(second).length - LineString(first).length
    assert matching_change(first, second) == pytest.approx(judge, abs=1e-9)


def matching(file: Document, **edges: str) -> list[str]:
    plan = planned(pinned(file, {"seam": "side", "level": "waist", "edges": edges}))
    return [text for text in plan.warnings if "check the notches" in text]


def test_a_change_in_matching_over_an_eighth_is_told() -> None:
    """Front 3 in over 6 and 8 1/2 of height, back unmoved: lines 6.708 and 9.014, 1.22 longer."""
    told = matching(worked(), front="-3", back="0")
    assert len(told) == 2, "left and right"
    assert all("first edge becomes 1 1/4 longer" in text for text in told)


def test_a_small_change_in_matching_is_not_told() -> None:
    """Front 1/2, back nothing: the lines grow by 0.02 and 0.015."""
    assert matching(worked(), front="-1/2", back="0") == []


def test_edges_that_move_alike_match_as_before() -> None:
    assert matching(worked(), front="-3", back="-3") == []
