"""The garment on the neutral figure: seams at their share of the round, her left and right."""

import copy
import json
from math import sqrt
from pathlib import Path

import pytest

from core.figure import standard_body as her
from core.file.fitting_file import read_document
from core.fit.laid_flat import laid_flat
from core.fit.on_her import OFF_BODY, on_her

DRAFTS = sorted((Path(__file__).parents[1] / "data" / "drafts").glob("*.json"))

SKIRT = {
    "format": "pins-to-seams/1",
    "unit": "mm",
    "client": {"id": "c", "name": "Nobody"},
    "garments": [{
        "id": "skirt",
        "levels": [{"id": "waist", "label": "Waist", "down": 0},
                   {"id": "hip", "label": "Hip", "down": 200},
                   {"id": "low", "label": "Low", "down": 500}],
        "layers": [{"id": "outer", "rings": [{
            "id": "body", "kind": "half",
            "pieces": [{"id": name, "fold": name == "one",
                        "width": {"waist": wide, "hip": wide + 30, "low": wide + 30}}
                       for name, wide in (("one", 110), ("two", 110), ("three", 110),
                                          ("four", 110))],
            "seams": [{"id": "first", "joins": ["one", "two"], "allowance": 10},
                      {"id": "side", "joins": ["two", "three"], "allowance": 0},
                      {"id": "third", "joins": ["three", "four"], "allowance": 10},
                      {"id": "back", "joins": ["four", "four"], "allowance": 0}],
        }]}],
    }],
}  # fmt: skip
"""Four gores of 100 each, net, at the waist."""


@pytest.fixture
def skirt():
    return on_her(read_document(copy.deepcopy(SKIRT)).garments[0])


def line(worn, place, side, face):
    return next((one for one in worn.lines
                 if (one.place, one.side, one.face) == (place, side, face)), None)  # fmt: skip


def test_four_equal_gores_lie_at_a_quarter_a_half_and_three_quarters_of_the_round(skirt):
    half = her.TRUNK["waist"].half_width * OFF_BODY
    x, y = line(skirt, "first", "left", "front").at["waist"]
    assert y == her.WAIST
    assert x == pytest.approx(half * sqrt(2) / 2)  # an eighth of a turn from the centre front
    assert line(skirt, "side", "left", "front").at["waist"][0] == pytest.approx(half)
    assert line(skirt, "third", "left", "back").at["waist"][0] == pytest.approx(half * sqrt(2) / 2)
    assert line(skirt, "back", "both", "back").at["waist"][0] == 0


def test_a_seam_is_seen_from_its_own_face_and_the_side_from_both(skirt):
    assert line(skirt, "first", "left", "back") is None
    assert line(skirt, "third", "left", "front") is None
    assert line(skirt, "back", "both", "front") is None
    assert line(skirt, "side", "right", "back") is not None


def test_her_left_and_her_right_are_mirrored(skirt):
    left, right = (line(skirt, "first", side, "front") for side in ("left", "right"))
    assert [(-x, y) for x, y in left.points] == list(right.points)
    assert left.points[0][0] > 0


def test_levels_without_a_place_of_their_own_lie_between_by_how_far_down_they_are(skirt):
    assert skirt.levels["hip"] == her.HIP
    assert skirt.levels["low"] == her.HIP + 300
    assert skirt.y_of(100) == pytest.approx((her.WAIST + her.HIP) / 2)
    assert skirt.down_of(skirt.y_of(321.0)) == pytest.approx(321.0)


def test_a_touch_beside_the_seams_lies_on_a_piece(skirt):
    assert skirt.cut_at("front", 10, her.WAIST + 20).place == "one"
    assert skirt.cut_at("back", -10, her.WAIST + 20).place == "four"
    assert skirt.cut_at("back", -10, her.WAIST + 20).side == "right"
    assert skirt.cut_at("front", 900, her.WAIST) is None


@pytest.mark.parametrize("path", DRAFTS, ids=lambda path: path.stem)
def test_every_seam_and_dart_of_the_worked_drafts_can_be_touched(path):
    garment = read_document(json.loads(path.read_text(encoding="utf-8"))).garments[0]
    for layer in garment.layers:
        worn = on_her(garment, layer.id)
        there = {(one.what, one.place) for one in worn.lines}
        for ring in layer.rings:
            assert {("seam", seam.id) for seam in ring.seams if ring.levels_of(seam)} <= there
            assert {("dart", dart.id) for piece in ring.pieces for dart in piece.darts} <= there
        for one in worn.lines:
            assert all(her.NAPE < y <= her.FLOOR for _, y in one.at.values())
            for x, y in one.at.values():
                assert one.x(y) == pytest.approx(x, abs=6)


@pytest.fixture
def flat():
    document = copy.deepcopy(SKIRT)
    garment = read_document(document).garments[0]
    return laid_flat(garment, document["garments"][0], "mm")


def test_laid_flat_each_half_has_its_pieces_with_the_seams_at_their_edges(flat):
    assert [(one.cut.place, one.cut.side) for one in flat.pieces] == [
        *((name, "right") for name in ("one", "two", "three", "four")),
        *((name, "left") for name in ("one", "two", "three", "four")),
    ]
    edges = [one for one in flat.lines if (one.place, one.face) == ("first", "back")]
    assert len(edges) == 2  # the back edge of the first gore, and the front edge of the second
    across = [one.at["waist"][0] for one in edges]
    widths = [one.at["hip"][0] - one.at["waist"][0] for one in edges]
    assert across[1] > across[0]
    # 30 wider at the hip: all of it on the far edge of a gore on the fold, else half on each
    assert widths == [pytest.approx(30), pytest.approx(-15)]


def test_laid_flat_her_right_half_is_the_left_one_mirrored(flat):
    left, right = (sorted(x for one in flat.lines if one.face == face for x, _ in one.points)
                   for face in ("back", "front"))  # fmt: skip
    assert left == pytest.approx([-x for x in reversed(right)])


def test_laid_flat_a_touch_on_a_piece_finds_it_and_heights_go_both_ways(flat):
    for one in flat.pieces:
        face, (x, y) = flat.middle(one.cut.place, one.cut.side, flat.levels["hip"])
        assert face == one.cut.face
        assert flat.cut_at(one.cut.face, x, y) == one.cut
    assert flat.down_of(flat.y_of(123.0)) == pytest.approx(123.0)
    assert flat.cut_at("front", 0.0, -900.0) is None


@pytest.mark.parametrize("path", DRAFTS, ids=lambda path: path.stem)
def test_every_seam_and_dart_of_the_worked_drafts_lies_on_a_piece(path):
    document = json.loads(path.read_text(encoding="utf-8"))
    garment = read_document(document).garments[0]
    for layer in garment.layers:
        laid = laid_flat(garment, document["garments"][0], "in", layer.id)
        there = {(one.what, one.place, one.face) for one in laid.lines}
        for ring in layer.rings:
            names = [("seam", seam.id) for seam in ring.seams if ring.levels_of(seam)]
            names += [("dart", dart.id) for piece in ring.pieces for dart in piece.darts]
            assert {(*name, face) for name in names for face in ("front", "back")} <= there
