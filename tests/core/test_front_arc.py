"""The front alone against its own arc, whichever way round the side seam is written down.

The worked dress: front nets 10 at the bust, so the front is 20 round; arc 25 and half of 1 1/2
ease want 25 3/4, so it is 5 3/4 tight.
"""

import pytest

from core.draft.before_cutting import before_cutting
from core.file.fitting_file import read_document
from core.records.fitting import Taken
from core.records.garment import Ring
from tests.garments import INCH, Document, gores, pinned, planned, worked


def with_an_arc(joins: list[str]) -> Document:
    file = worked({"joins": joins})
    file["garments"][0]["levels"][0]["front_arc"] = "bust_front_arc"
    file["measurements"][0]["values"]["bust_front_arc"] = "25"
    return file


@pytest.mark.parametrize("joins", [["front", "back"], ["back", "front"]])
def test_a_front_too_tight_for_its_arc_is_told(joins: list[str]) -> None:
    plan = planned(pinned(with_an_arc(joins)))
    assert "Bust: the front alone is 5 3/4 tight against its own arc" in " ".join(plan.warnings)


@pytest.mark.parametrize("joins", [["front", "back"], ["back", "front"]])
def test_before_cutting_the_same_front_is_checked(joins: list[str]) -> None:
    garment = read_document(with_an_arc(joins)).garments[0]
    arc = {"bust_front_arc": Taken(25 * INCH, 25 * INCH), "bust_girth": Taken(927.1, 927.1)}
    (check,) = [one for one in before_cutting(garment, arc) if one.what.endswith("bust, front")]
    assert "= 25 3/4 wanted; finished 20" in check.text
    assert not check.ok


def ring_of(side_line: str, joins: list[str] | None = None) -> Ring:
    """Return a half ring of piece_0 to piece_3 with the side line at one of its seams."""
    file = gores({"waist": 30}, {"waist": 30}, [{"id": "one"}, {"id": "two"}, {"id": "three"}])
    ring = file["garments"][0]["layers"][0]["rings"][0]
    ring["side_line"] = side_line
    if joins:
        ring["seams"][1]["joins"] = joins
    return read_document(file).garments[0].layers[0].rings[0]


@pytest.mark.parametrize(
    ("side_line", "joins", "pieces"),
    [
        ("one", None, ["piece_0"]),
        ("two", None, ["piece_0", "piece_1"]),
        ("two", ["piece_2", "piece_1"], ["piece_0", "piece_1"]),
        ("elsewhere", None, []),
    ],
)
def test_the_front_is_the_pieces_before_the_side_line(
    side_line: str, joins: list[str] | None, pieces: list[str]
) -> None:
    assert [piece.id for piece in ring_of(side_line, joins).front_pieces()] == pieces
