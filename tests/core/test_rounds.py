"""What a garment measures round is what its pieces measure laid end to end.

Judged by shapely: the net pieces of a level are laid edge to edge, bent into a closed ring,
and the ring is measured.  The state as sewn is added up by hand, in inches.
"""

from math import cos, pi, sin
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import LineString
from shapely.ops import linemerge

from core.errors import BadFile
from core.file.fitting_file import read_document
from tests.garments import (
    INCH,
    Document,
    document,
    gores,
    level,
    moved,
    moves_at,
    pinned,
    planned,
    worked,
)


def sewn(file: Document, name: str, side: str | None = None) -> float:
    """Return the girth as sewn in inches at the last fitting (as drafted without one)."""
    return level(planned(file), name, side=side).as_sewn / INCH


# Against a ring of cloth


def laid_end_to_end(nets: list[float]) -> float:
    """Lay strips of these widths round a corner-by-corner ring and measure it."""
    edges, x, y, turn = [], 0.0, 0.0, 0.0
    for net in nets:
        end = (x + net * cos(turn), y + net * sin(turn))
        edges.append(LineString([(x, y), end]))
        (x, y), turn = end, turn + 2 * pi / len(nets)
    ring = linemerge(edges)
    assert ring.geom_type == "LineString", "every strip meets the next one"
    return float(ring.length)


def cut_away(width: float, *lost: float) -> float:
    """Cut a strip to its net width: what is folded away at its ends is no longer there."""
    strip = LineString([(0, 0), (width, 0)])
    for amount in lost:
        kept = strip.intersection(LineString([(amount, 0), (10_000, 0)]))
        strip = LineString([(x - amount, 0) for x, _ in kept.coords])
    return float(strip.length)


def sixteenths(low: int, high: int) -> st.SearchStrategy[float]:
    return st.integers(low * 16, high * 16).map(lambda n: n / 16)


@st.composite
def half_rounds(draw: st.DrawFn) -> tuple[Document, list[float]]:
    """Return a half round, and the net strips of its left half and its right."""
    count = draw(st.integers(2, 5))
    inside = [draw(sixteenths(0, 1)) for _ in range(count - 1)]
    folds = draw(st.booleans()), draw(st.booleans())
    centres = [draw(sixteenths(0, 1)) for _ in range(2)]
    pieces, seams, nets = [], [], []
    for number in range(count):
        name = f"piece_{number}"
        width, take_up = draw(sixteenths(5, 12)), draw(sixteenths(0, 1))
        edges = inside[max(0, number - 1) : number + 1]
        for end, fold, centre, label in zip((0, count - 1), folds, centres, "fb", strict=True):
            if number == end and not fold:
                edges = [*edges, centre]
                seams.append({"id": f"centre_{label}", "joins": [name, name],
                              "allowance": centre})  # fmt: skip
        pieces.append({"id": name, "width": {"waist": width},
                       "fold": (number == 0 and folds[0]) or (number == count - 1 and folds[1]),
                       "darts": [{"id": f"dart_{number}",
                                  "take_up": {"waist": take_up}}]})  # fmt: skip
        nets.append(cut_away(width, *edges, take_up))
    seams += [{"id": f"seam_{number}", "joins": [f"piece_{number}", f"piece_{number + 1}"],
               "allowance": allowance} for number, allowance in enumerate(inside)]  # fmt: skip
    return _waist("half", pieces, seams), nets + nets[::-1]


def _waist(kind: str, pieces: list[Any], seams: list[Any], **ring: Any) -> Document:
    return document(
        {"levels": [{"id": "waist", "body": "waist_girth"}], "ease": {"waist": 0},
         "layers": [{"id": "outer", "rings": [
             {"id": "body", "kind": kind, "pieces": pieces, "seams": seams, **ring}]}]},
        {"waist_girth": 30},
    )  # fmt: skip


@settings(max_examples=60, deadline=None)
@given(made=half_rounds())
def test_a_half_rounds_girth_is_both_halves_laid_end_to_end(
    made: tuple[Document, list[float]],
) -> None:
    file, nets = made
    assert sewn(file, "waist") == pytest.approx(laid_end_to_end(nets))


@settings(max_examples=40, deadline=None)
@given(
    widths=st.lists(sixteenths(5, 12), min_size=3, max_size=6),
    allowances=st.lists(sixteenths(0, 1), min_size=6, max_size=6),
)
def test_a_closed_rounds_girth_is_its_pieces_laid_end_to_end(
    widths: list[float], allowances: list[float]
) -> None:
    names = [f"piece_{number}" for number in range(len(widths))]
    pieces = [{"id": name, "width": {"waist": width}}
              for name, width in zip(names, widths, strict=True)]  # fmt: skip
    inside = allowances[: len(names)]
    seams = [{"id": f"seam_{n}", "joins": [name, names[(n + 1) % len(names)]],
              "allowance": inside[n]} for n, name in enumerate(names)]  # fmt: skip
    nets = [cut_away(width, inside[n], inside[n - 1]) for n, width in enumerate(widths)]
    assert sewn(_waist("closed", pieces, seams), "waist") == pytest.approx(laid_end_to_end(nets))


def sleeves() -> Document:
    """Return two sleeves of one piece each, cut 15 1/2."""
    seam = {"id": "seam", "joins": ["sleeve"] * 2, "allowance": "1/2"}
    return _waist("closed", [{"id": "sleeve", "width": {"waist": "15 1/2"}}], [seam], copies=2)


def test_a_sleeve_of_one_piece_loses_its_allowance_at_both_edges() -> None:
    """15 1/2 less 1/2 and 1/2."""
    file = sleeves()
    for side in ("left", "right"):
        assert sewn(file, "waist", side) == pytest.approx(14.5)


def test_two_sleeves_cut_unlike_measure_each_its_own() -> None:
    """15 1/2 and 16, each less 1/2 and 1/2."""
    file = sleeves()
    piece = file["garments"][0]["layers"][0]["rings"][0]["pieces"][0]
    piece["width"]["waist"] = {"left": "15 1/2", "right": 16}
    assert [sewn(file, "waist", side) for side in ("left", "right")] == pytest.approx([14.5, 15])


def test_left_and_right_widths_that_differ_are_each_counted() -> None:
    """Front 11 on her left, 10 on her right; back 9 both: nets 10, 9, 8, 8 are 35."""
    file = gores({"waist": 36}, {"waist": 30})
    front, back = file["garments"][0]["layers"][0]["rings"][0]["pieces"]
    front["width"]["waist"] = {"left": 11, "right": 10}
    back["width"]["waist"] = 9
    assert sewn(file, "waist") == pytest.approx(35)


def test_a_girth_is_known_only_where_every_piece_has_a_width() -> None:
    file = gores({"waist": 32, "hip": 40}, {"waist": 30, "hip": 38})
    del file["garments"][0]["layers"][0]["rings"][0]["pieces"][0]["width"]["hip"]
    assert [row.level for row in planned(file).levels] == ["waist"]


def test_a_width_smaller_than_what_is_folded_away_is_refused() -> None:
    file = gores({"waist": 32}, {"waist": 30})
    file["garments"][0]["layers"][0]["rings"][0]["pieces"][0]["width"]["waist"] = "3/4"
    with pytest.raises(BadFile, match="less than"):
        read_document(file)


# Darts are wedges


@pytest.mark.parametrize(
    ("down", "take_up"),
    [(11, 0), (12, 0), (14.25, 0.5), (16.5, 1), (18.5, 0.5), (19.5, 0.25), (20.5, 0), (22, 0)],
)
def test_a_darts_take_up_between_its_ends_is_read_off_straight(down: float, take_up: float) -> None:
    """1 at 16 1/2, nothing at 12 and 20 1/2; two darts in the round take twice as much."""
    file = gores({"waist": 32}, {"waist": 30})
    garment = file["garments"][0]
    garment["levels"] = [{"id": name, "down": at} for name, at in
                         sorted([("waist", 16.5)] * (down != 16.5) + [("here", down)],
                                key=lambda entry: entry[1])]  # fmt: skip
    front, back = garment["layers"][0]["rings"][0]["pieces"]
    front["width"] = back["width"] = {entry["id"]: 11 for entry in garment["levels"]}
    given_at = "waist" if down != 16.5 else "here"
    front["darts"] = [{"id": "dart", "take_up": {given_at: 1},
                       "ends": {"top": 12, "point": "20 1/2"}}]  # fmt: skip
    assert sewn(file, "here") == pytest.approx(2 * (10 + 10 - take_up))


def test_a_dart_without_ends_counts_only_where_it_is_given() -> None:
    """The worked dress has no ends: bust 39 and hip 43 1/2 lose nothing."""
    assert [sewn(worked(), name) for name in ("bust", "waist", "hip")] == pytest.approx(
        [39, 32, 43.5]
    )


# As sewn


def done(
    file: Document, *moves: tuple[str, str, str], seam: str = "side", side: str = "both",
    **more: Any,
) -> Document:  # fmt: skip
    """Return the document with a fitting whose seam was sewn, and a later fitting."""
    entry = {"on": "2026-01-01", "seam": seam, "side": side,
             "moves": [{"edge": edge, "level": at, "move": move} for edge, at, move in moves],
             **more}  # fmt: skip
    return pinned(pinned(file, done=[entry]), lead="tape")


TAKEN_IN = (("front", "waist", "-5/8"), ("back", "waist", "-5/8"))


@pytest.mark.parametrize(
    ("side", "girth"), [("left", 30.75), ("right", 30.75), ("both", 29.5)]
)
def test_what_was_sewn_on_one_side_changes_that_side_alone(side: str, girth: float) -> None:
    """32 less two edges of 5/8 a side."""
    file = done(worked(), *TAKEN_IN, side=side)
    assert sewn(file, "waist") == pytest.approx(girth)
    assert sewn(file, "hip") == pytest.approx(43.5)


def test_the_fitting_it_was_sewn_after_still_shows_the_draft() -> None:
    file = done(worked(), *TAKEN_IN)
    first = planned(file, fitting_id="fitting_1")
    assert level(first, "waist").as_sewn == pytest.approx(32 * INCH)


def test_everything_sewn_since_the_draft_adds_up() -> None:
    """32 - 2 1/2 + 4 x 1/8 = 30."""
    file = done(worked(), *TAKEN_IN)
    later = {"on": "2026-01-02", "seam": "side",
             "moves": [{"edge": edge, "level": "waist", "move": "1/8"}
                       for edge in ("front", "back")]}  # fmt: skip
    file["garments"][0]["fittings"][1]["done"] = [later]
    assert sewn(pinned(file), "waist") == pytest.approx(30)


def test_a_centre_seams_edge_stands_for_both_halves() -> None:
    file = done(worked(), ("back", "hip", "-1/2"), seam="centre_back")
    assert sewn(file, "hip") == pytest.approx(42.5)


def test_a_darts_take_up_changes_by_minus_twice_its_leg() -> None:
    """Leg -1/8 on her left: take-up 1 1/4, the round 1/4 smaller; releasable 5/8 a leg."""
    file = pinned(worked(), done=[{
        "on": "2026-01-01", "dart": "front_dart", "side": "left",
        "moves": [{"edge": "front", "level": "waist", "move": "-1/8"}]}])  # fmt: skip
    assert sewn(pinned(file), "waist") == pytest.approx(31.75)
    release = {"dart": "front_dart", "level": "waist", "gap": 2}
    plan = planned(pinned(file, release))
    assert moved(plan, "front_dart", "waist", side="left") == [0.625]
    assert moved(plan, "front_dart", "waist", side="right") == [0.5]


def opened_wide(file: Document) -> dict[str | None, list[float]]:
    """Pin the sides open by 4 and return how far each edge lets itself out, by side."""
    file["garments"][0]["fittings"][-1] |= {
        "lead": "pins", "pins": [{"seam": "side", "level": "waist", "gap": 4}]}  # fmt: skip
    plan = planned(file)
    return {side: moved(plan, "side", "waist", side=side) for side in ("left", "right")}


def test_what_was_taken_in_can_be_let_out_again_with_what_was_inside() -> None:
    """1 + 5/8 inside on her left less 3/8 kept is 1 1/4; her right has 5/8."""
    rooms = opened_wide(done(worked(), *TAKEN_IN, side="left"))
    assert rooms == {"left": [1.25, 1.25], "right": [0.625, 0.625]}


def test_what_was_let_out_is_no_longer_inside() -> None:
    """1 - 1/4 less 3/8 is 3/8."""
    rooms = opened_wide(done(worked(), ("front", "waist", "1/4"), ("back", "waist", "1/4")))
    assert rooms == {"left": [0.375, 0.375], "right": [0.375, 0.375]}


def test_a_trimmed_edge_has_only_what_it_was_trimmed_to() -> None:
    """Front trimmed to 3/4 leaves 3/8; the back keeps 1 5/8 and gives 1 1/4."""
    rooms = opened_wide(done(worked(), *TAKEN_IN, trimmed={"front": "3/4"}))
    assert rooms == {"left": [0.375, 1.25], "right": [0.375, 1.25]}


def test_a_trimmed_edge_that_was_sewn_again_since_has_changed_by_its_move() -> None:
    """Trimmed to 3/4, then taken in 1/8 more: 7/8 less 3/8 is 1/2."""
    file = done(worked(), *TAKEN_IN, trimmed={"front": "3/4", "back": "3/4"})
    file["garments"][0]["fittings"][1]["done"] = [
        {"on": "2026-01-02", "seam": "side",
         "moves": [{"edge": edge, "level": "waist", "move": "-1/8"}
                   for edge in ("front", "back")]}]  # fmt: skip
    assert opened_wide(pinned(file)) == {"left": [0.5, 0.5], "right": [0.5, 0.5]}


def test_a_clipped_edge_lets_nothing_out() -> None:
    file = pinned(worked(side={"clipped": ["waist"]}))
    assert opened_wide(file) == {"left": [0, 0], "right": [0, 0]}


def test_a_slashed_dart_lets_nothing_out_and_may_still_be_deepened() -> None:
    file = worked()
    file["garments"][0]["layers"][0]["rings"][0]["pieces"][0]["darts"][0]["slashed"] = True
    release = planned(pinned(file, {"dart": "front_dart", "level": "waist", "gap": "1/2"}))
    assert moved(release, "front_dart", "waist") == [0]
    file["garments"][0]["fittings"] = []
    deepen = planned(pinned(file, {"dart": "front_dart", "level": "waist", "pinch": "1/8"}))
    assert moved(deepen, "front_dart", "waist") == [-0.125]


# The tape inside the garment


def test_a_girth_taped_inside_beats_the_sum_and_the_difference_is_told() -> None:
    """The widths add up to 32; 31 3/4 was taped; 29 1/2 wanted: 2 1/4 to take in."""
    file = pinned(worked(), sewn_girths={"outer": {"body": {"waist": "31 3/4"}}})
    plan = planned(file)
    row = level(plan, "waist")
    assert row.as_sewn == pytest.approx(31.75 * INCH)
    assert row.needed == pytest.approx(-2.25 * INCH)
    assert [text for text in plan.warnings if "taped 31 3/4" in text and "32" in text]
    assert level(plan, "hip").as_sewn == pytest.approx(43.5 * INCH)


def test_the_tape_beats_the_draft_and_everything_sewn_since() -> None:
    file = done(worked(), *TAKEN_IN)
    file["garments"][0]["fittings"][1]["sewn_girths"] = {"outer": {"body": {"waist": 30}}}
    assert sewn(file, "waist") == pytest.approx(30)


def test_an_earlier_fittings_tape_does_not_speak_for_a_later_one() -> None:
    file = pinned(worked(), sewn_girths={"outer": {"body": {"waist": 30}}})
    assert sewn(pinned(file), "waist") == pytest.approx(32)


def test_the_two_sleeves_are_taped_each_by_itself() -> None:
    file = sleeves()
    pinned(file, sewn_girths={"outer": {"body": {"waist": {"left": 14, "right": "14 1/4"}}}})
    assert (sewn(file, "waist", "left"), sewn(file, "waist", "right")) == (14, 14.25)


def test_each_copy_of_a_closed_round_is_shared_out_by_itself() -> None:
    """Body 30 on both; 31 taped left, 30 right: the left alone takes in 1/2 an edge."""
    file = _waist("closed", [{"id": "leg", "width": {"waist": 32}}],
                  [{"id": "seam", "joins": ["leg"] * 2, "allowance": 1}], copies=2)  # fmt: skip
    pinned(file, sewn_girths={"outer": {"body": {"waist": {"left": 31, "right": 30}}}})
    plan = planned(file)
    assert moved(plan, "seam", "waist", side="left") == [-0.5]
    assert moved(plan, "seam", "waist", side="right") == []
    assert moves_at(plan, "seam", "waist")[0].edges == 2


def test_a_side_sewn_alone_makes_the_halves_differ_and_both_are_shared_alike() -> None:
    """30 3/4 as sewn, 29 1/2 wanted: 1 1/4 over four edges is 5/16: 1/4 makes 1, the rest fits."""
    plan = planned(done(worked(), *TAKEN_IN, side="left"))
    assert level(plan, "waist").needed == pytest.approx(-1.25 * INCH)
    left, right = (moved(plan, "side", "waist", side=side) for side in ("left", "right"))
    assert left == right
    assert abs(level(plan, "waist").planned / INCH + 1.25) <= 0.25
