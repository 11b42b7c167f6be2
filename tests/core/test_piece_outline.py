"""Pieces to scale, with shapely as the judge of areas, lengths and what lies inside what."""

import copy
from itertools import combinations

import pytest
from shapely.geometry import LineString, Point, Polygon

from core.draft.document import find_piece
from core.draft.edits import set_height, set_width
from core.draft.kinds import all_kinds
from core.errors import NotFound
from core.file.fitting_file import read_document
from core.outline.laid_out import lay_out_pieces
from core.outline.piece_outline import piece_outlines
from core.outline.top_shapes import blocks, cap, underarm_for
from tests.drafts import drafted, worked

INCH = 25.4
KINDS = [found.id for found in all_kinds()]


def _outlines(document, layer="outer"):
    file = read_document(document)
    return piece_outlines(file.garments[0], document["garments"][0], layer, file.unit)


def _one(document, piece, layer="outer", side=None):
    return next(one for one in _outlines(document, layer) if (one.piece, one.side) == (piece, side))


def _width_at(outline, y):
    """Return how wide a closed outline is at a height (mm)."""
    across = LineString([(-2000, y), (2000, y)])
    return Polygon(outline).intersection(across).length


def _layers():
    for name in KINDS:
        for layer in drafted(name)["garments"][0]["layers"]:
            yield name, layer["id"]


def _by_hand(front, levels, **more):
    """Return a garment of one piece on the fold with a side seam of 1 to a back like it."""
    pieces = [{"id": "front", "fold": True, "width": front, **more},
              {"id": "back", "width": dict.fromkeys(front, "11")}]  # fmt: skip
    seams = [{"id": "side", "joins": ["front", "back"], "allowance": "1"}]
    ring = {"id": "body", "kind": "half", "pieces": pieces, "seams": seams}
    return {
        "format": "pins-to-seams/1", "unit": "in", "client": {"id": "c", "name": "C"},
        "garments": [{"id": "g", "levels": levels, "layers": [{"id": "outer", "rings": [ring]}]}],
    }  # fmt: skip


TWO = [{"id": "waist", "down": "0"}, {"id": "hem", "down": "20"}]


# Hand cases


def test_a_straight_piece_is_a_rectangle():
    """10 cut and 20 long, 9 by 20 sewn."""
    front = _one(_by_hand({"waist": "10", "hem": "10"}, TWO), "front")
    assert Polygon(front.cut).area / INCH**2 == pytest.approx(200)
    assert Polygon(front.stitch).area / INCH**2 == pytest.approx(180)
    assert front.bounds == pytest.approx((0, 0, 10 * INCH, 20 * INCH))
    assert front.fold == ((0, 0), (0, 20 * INCH))
    assert front.cut_as == "on fold"


def test_a_flared_piece_is_a_trapezium():
    """From 10 to 14 over 20: (10 + 14) / 2 x 20 = 240."""
    front = _one(_by_hand({"waist": "10", "hem": "14"}, TWO), "front")
    assert Polygon(front.cut).area / INCH**2 == pytest.approx(240)


def test_a_panel_without_fold_or_centre_gives_half_to_each_edge():
    """The side front gore at the waist: 6 7/8 cut, 1 and 3/4 inside, 5 1/8 sewn."""
    gore = _one(drafted("gored_skirt"), "side_front_gore")
    waist = gore.levels[0]
    assert waist.start[0] / INCH == pytest.approx(-5.125 / 2 - 0.75)
    assert waist.end[0] / INCH == pytest.approx(5.125 / 2 + 1)


def test_a_dart_is_a_wedge_about_its_middle():
    """1 wide at the waist, 3 from the fold, to nothing at 4: 2 square inches."""
    dart = {"id": "dart", "take_up": {"waist": "1"}, "ends": {"top": "0", "point": "4"},
            "centre_from": "3 from the fold"}  # fmt: skip
    front = _one(_by_hand({"waist": "10", "hem": "10"}, TWO, darts=[dart]), "front")
    [wedge] = front.darts
    assert Polygon(wedge.outline).area / INCH**2 == pytest.approx(2)
    assert wedge.middle[0] == pytest.approx((3 * INCH, 0))
    assert wedge.outline[0][0] / INCH == pytest.approx(3.5)


def test_two_darts_without_words_share_the_width():
    """9 sewn: at 3 and at 6."""
    darts = [{"id": name, "take_up": {"waist": "1/2"}, "ends": {"top": "0", "point": "4"}}
             for name in ("first", "second")]  # fmt: skip
    front = _one(_by_hand({"waist": "10", "hem": "10"}, TWO, darts=darts), "front")
    assert [wedge.middle[0][0] / INCH for wedge in front.darts] == pytest.approx([3, 6])


def test_a_back_lies_with_its_centre_to_the_right():
    back = _one(worked("sheath_dress")[0], "back")
    waist = next(level for level in back.levels if level.level == "waist")
    assert waist.end[0] / INCH == pytest.approx(1.5)  # the allowance of the centre back
    assert waist.start[0] / INCH == pytest.approx(1.5 - 11)
    assert back.darts[0].middle[0][0] / INCH == pytest.approx(-3.75)


# Every piece of every kind


@pytest.mark.parametrize(("name", "layer"), list(_layers()))
def test_every_piece_is_as_wide_at_its_levels_as_the_table_says(name, layer):
    document = drafted(name)
    garment = read_document(document).garments[0]
    found = _outlines(document, layer)
    assert found
    for outline in found:
        ring = next(one for one in garment.layer(layer).rings if one.id == outline.ring)
        piece = ring.piece(outline.piece)
        assert [level.level for level in outline.levels] == [
            level for level in ring.levels if level in piece.width
        ]
        inside = [level for level in outline.levels
                  if outline.bounds[1] + 1 < level.start[1] < outline.bounds[3] - 1]  # fmt: skip
        for level in outline.levels:
            width = piece.width[level.level][0]
            assert level.end[0] - level.start[0] == pytest.approx(width)
            assert level.width_mm == pytest.approx(width)
        for level in inside:
            assert _width_at(outline.cut, level.start[1]) == pytest.approx(level.width_mm, abs=0.1)


@pytest.mark.parametrize(("name", "layer"), list(_layers()))
def test_stitching_and_darts_lie_inside_the_cut(name, layer):
    for outline in _outlines(drafted(name), layer):
        cut, stitch = Polygon(outline.cut), Polygon(outline.stitch)
        assert cut.is_valid
        assert stitch.is_valid
        assert cut.buffer(0.01).contains(stitch)
        assert stitch.contains(LineString(outline.grain))
        for wedge in outline.darts:
            assert stitch.buffer(0.01).contains(Polygon(wedge.outline))
        if outline.fold:
            assert stitch.exterior.distance(Point(outline.fold[1])) < 0.01


@pytest.mark.parametrize("name", KINDS)
def test_a_dart_takes_up_at_each_level_what_the_draft_says(name):
    document = drafted(name)
    garment = read_document(document).garments[0]
    checked = 0
    for outline in _outlines(document):
        for ring in garment.layers[0].rings:
            for piece in ring.pieces:
                for dart in piece.darts if piece.id == outline.piece else ():
                    wedge = next(one for one in outline.darts if one.dart == dart.id)
                    for level, pair in dart.take_up.items():
                        down = garment.levels[level].down
                        if dart.top < down < dart.point:
                            assert _width_at(wedge.outline, down) == pytest.approx(pair[0])
                            checked += 1
    assert bool(checked) == (name not in ("princess_gown", "gored_skirt"))


@pytest.mark.parametrize("name", KINDS)
def test_pieces_lie_side_by_side_and_none_over_another(name):
    document = drafted(name)
    garment = read_document(document).garments[0]
    for layer in garment.layers:
        table = lay_out_pieces(_outlines(document, layer.id), garment, gap_mm=20)
        shapes = [Polygon([(x + laid.right, y + laid.down) for x, y in laid.outline.cut])
                  for laid in table.laid]  # fmt: skip
        assert all(one.distance(other) > 0 for one, other in combinations(shapes, 2))
        lefts = [shape.bounds for shape in shapes]
        assert min(one[0] for one in lefts) == pytest.approx(0)
        assert max(one[2] for one in lefts) == pytest.approx(table.width)
        assert max(one[3] for one in lefts) == pytest.approx(table.height)


def test_a_leg_lies_under_its_seat():
    document = drafted("trousers")
    garment = read_document(document).garments[0]
    table = lay_out_pieces(_outlines(document), garment)
    at = {laid.outline.piece: laid.bounds for laid in table.laid}
    for seat, leg in (("front", "front_leg"), ("back", "back_leg")):
        assert at[leg][1] > at[seat][3]
        middle = (at[seat][0] + at[seat][2]) / 2
        assert (at[leg][0] + at[leg][2]) / 2 == pytest.approx(middle)
    assert "Goes on from the front" in _one(document, "front_leg").note


# The top above the first level


def test_the_armhole_is_as_long_as_it_is_sewn():
    """17 1/4 in all: the front's and the back's, from the shoulder tip to the underarm."""
    document = worked("sheath_dress")[0]
    long = 0.0
    for piece in ("front", "back"):
        outline = _one(document, piece)
        above = [point for point in outline.stitch if point[1] < 10.75 * INCH - 1]
        side = max(abs(x) for x, _ in above)
        underarm = min(y for x, y in above if abs(abs(x) - side) < 0.01)
        path = [point for point in above if point[1] <= underarm + 0.01]
        path = path if piece == "front" else path[::-1]
        high = min(range(len(path)), key=lambda at: path[at][1])
        long += LineString(path[high + 1 :]).length
        assert "armhole 17 1/4" in outline.note
    assert long / INCH == pytest.approx(17.25, abs=0.05)


def test_an_armhole_longer_than_the_body_allows_is_the_longest_there_is():
    both = blocks(260, 250, 273, None)
    assert underarm_for(both, 2000) == pytest.approx(0.96 * 273)
    assert underarm_for(both, 10) == pytest.approx(both[0].tip[1] + 0.25 * 273)


def test_a_sleeve_cap_is_as_long_as_it_is_sewn():
    """16 1/4 + 1 + 1 1/8 = 18 3/8."""
    sleeve = _one(worked("sleeved_bodice")[0], "sleeve")
    top = sleeve.levels[0].start[1]
    bell = [point for point in sleeve.stitch if point[1] <= top + 0.01]
    assert LineString(bell).length / INCH == pytest.approx(18.375, abs=0.01)
    assert LineString(cap(100, 50, 90)).length == pytest.approx(100)  # no shorter than it is wide


def test_shoulder_seams_of_front_and_back_are_as_long_as_sewn():
    front, back = blocks(260, 250, 273, 120)
    for one in (front, back):
        neck = one.path(200)[16]
        assert LineString([neck, one.tip]).length == pytest.approx(120)


def test_where_the_draft_knows_no_top_a_plain_line_says_so():
    front = _one(worked("fishtail_gown")[0], "front")
    assert front.bounds[1] == 0
    assert front.note == "Above the bust only a plain line: not drafted"
    assert _one(worked("pencil_skirt")[0], "front").note == ""
    band = _one(worked("fishtail_gown")[0], "band")
    assert band.note == "Its depth is not drafted"


# Left and right unlike; heights unlike


def test_a_piece_whose_sides_are_unlike_is_drawn_for_both():
    document, one = worked("sheath_dress")
    set_width(document, "13", garment=one, layer="outer", piece="front", level="hip", side="left")
    found = _outlines(document)
    assert [(outline.piece, outline.side) for outline in found] == [
        ("front", "left"), ("front", "right"), ("back", None),
    ]  # fmt: skip
    hips = [level.width_mm / INCH for outline in found for level in outline.levels
            if level.level == "hip"]  # fmt: skip
    assert hips == pytest.approx([13, 11.875, 12.875])
    assert found[0].fold == ()
    assert found[0].cut_as == "cut one"


def test_a_level_that_is_lower_in_front_runs_aslant():
    document, one = worked("sheath_dress")
    set_height(document, "18 1/4", garment=one, level="waist", place="front")
    set_height(document, "17", garment=one, level="waist", place="back")
    front, back = (next(level for level in _one(document, piece).levels if level.level == "waist")
                   for piece in ("front", "back"))  # fmt: skip
    assert (front.start[1] / INCH, front.end[1] / INCH) == pytest.approx((18.25, 17.75))
    assert (back.start[1] / INCH, back.end[1] / INCH) == pytest.approx((17.75, 17))


def test_a_piece_without_a_width_is_not_drawn_and_an_unknown_layer_is_named():
    document, _ = worked("pencil_skirt")
    empty = copy.deepcopy(document)
    layer = empty["garments"][0]["layers"][0]
    _, front = find_piece(layer, "front")
    layer["rings"][0]["pieces"].append({"id": "pocket", "width": {}})
    assert front["id"] in [outline.piece for outline in _outlines(empty)]
    assert "pocket" not in [outline.piece for outline in _outlines(empty)]
    with pytest.raises(NotFound):
        _outlines(document, "foundation")
