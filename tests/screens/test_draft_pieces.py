"""The pieces beside the table: filled as they are cut, to one scale, their numbers readable."""

import json
from itertools import combinations
from pathlib import Path

import pytest
from shapely.geometry import Polygon

from core.file.fitting_file import read_document
from core.outline.piece_outline import piece_outlines
from screens.parts.piece_fill import triangles
from tests.screens import tablet

DRAFTS = Path(__file__).parents[1] / "data" / "drafts"
NAMES = [path.stem for path in sorted(DRAFTS.glob("*.json"))]


def outlines(name):
    document = json.loads((DRAFTS / f"{name}.json").read_text(encoding="utf-8"))
    file = read_document(document)
    garment = file.garments[-1]
    for layer in garment.layers:
        yield from piece_outlines(garment, document["garments"][-1], layer.id, file.unit)


def areas(outline):
    """The triangles that fill an outline, as shapely has them."""
    vertices, indices = triangles(outline)
    corners = list(zip(vertices[0::4], vertices[1::4], strict=True))
    return [Polygon([corners[at] for at in indices[first : first + 3]])
            for first in range(0, len(indices), 3)]  # fmt: skip


@pytest.mark.parametrize("name", NAMES)
def test_a_piece_is_filled_to_its_cut_edge_and_no_further(name):
    for outline in outlines(name):
        whole = Polygon(outline.cut)
        parts = areas(outline.cut)
        assert sum(part.area for part in parts) == pytest.approx(whole.area, rel=1e-6)
        inside = whole.buffer(0.01)
        assert all(inside.covers(part) for part in parts if part.area > 1e-9)


def test_a_neckline_stays_open():
    vest = ((0, 30), (0, 0), (10, 0), (20, 20), (30, 0), (40, 0), (40, 30))
    assert sum(part.area for part in areas(vest)) == pytest.approx(Polygon(vest).area)


@pytest.fixture(params=["landscape", "portrait"])
def shown(request, start):
    """``shown(name)`` opens a worked draft and returns what is drawn of its first round."""

    def begin(name):
        from screens.parts.piece_sheet import PieceSheet

        document = json.loads((DRAFTS / f"{name}.json").read_text(encoding="utf-8"))
        hand = start(request.param)
        hand.app.room.add_client(document, "draft", document["garments"][-1]["id"])
        hand.settle()
        (sheet,) = hand.all(PieceSheet)
        return sheet

    return begin


def boxes(sheet):
    return [
        (one.x - one.width / 2, one.y - one.height / 2, one.x + one.width / 2,
         one.y + one.height / 2)
        for one in sheet.numbers
    ]  # fmt: skip


@pytest.mark.parametrize("name", NAMES)
def test_pieces_lie_side_by_side_at_one_scale_inside_their_place(shown, name):
    sheet = shown(name)
    assert len({placed.scale for placed in sheet.placed}) == 1
    laid = [Polygon([placed.at(point) for point in placed.piece.cut]) for placed in sheet.placed]
    for one, other in combinations(laid, 2):
        assert one.distance(other) > 4
    for piece in laid:
        left, bottom, right, top = piece.bounds
        assert left >= sheet.x - 1
        assert right <= sheet.right + 1
        assert bottom >= sheet.y - 1
        assert top <= sheet.top + 1


@pytest.mark.parametrize("name", NAMES)
def test_no_number_covers_another(shown, name):
    sheet = shown(name)
    for one, other in combinations(boxes(sheet), 2):
        across = min(one[2], other[2]) - max(one[0], other[0])
        up = min(one[3], other[3]) - max(one[1], other[1])
        assert min(across, up) <= 1


def test_the_numbers_are_those_of_the_table(shown):
    sheet = shown("1_sheath_dress")
    document = json.loads((DRAFTS / "1_sheath_dress.json").read_text(encoding="utf-8"))
    ring = document["garments"][-1]["layers"][0]["rings"][0]
    said = {(one.piece, one.level): one.words for one in sheet.numbers}
    assert said == {
        (piece["id"], level): width
        for piece in ring["pieces"] for level, width in piece["width"].items()
    }  # fmt: skip


__all__ = ["tablet"]
