"""The table of a draft, its opened sums, and the check before cutting, as they are shown."""

import pytest

from core.draft.check import check_draft
from core.draft.edits import set_width
from core.draft.sums import open_sum
from core.draft.table import draft_table
from core.file.fitting_file import read_document
from tests.drafts import drafted, worked


def _tables(document):
    file = read_document(document)
    return draft_table(file, file.garments[0])


def _row(document, level, layer=0, ring=0, side=None):
    rows = _tables(document)[layer].rings[ring].rows
    return next(row for row in rows if (row.level, row.side) == (level, side))


def _opened(document, piece, level, side=None):
    file = read_document(document)
    garment = file.garments[0]
    layer = garment.layers[0]
    ring = next(ring for ring in layer.rings if any(one.id == piece for one in ring.pieces))
    return open_sum(garment, layer, ring, ring.piece(piece), level, file.unit, side)


def test_a_row_says_body_ease_wanted_cuts_and_finished():
    document, _ = worked("sheath_dress")
    row = _row(document, "waist")
    assert (row.label, row.down, row.body, row.body_on) == ("Waist", "17 3/4", "30", "2026-04-11")
    assert (row.ease_sign, row.ease, row.ease_from, row.wanted) == ("+", "1", "the garment", "31")
    assert [cut.amount for cuts in row.cuts for cut in cuts] == ["10", "11"]
    assert (row.finished, row.verdict, row.off) == ("31", "agrees", "")
    assert _tables(document)[0].rings[0].columns == (("front", "Front"), ("back", "Back"))
    assert [table.label for table in _tables(document)] == ["Outer", "Lining"]


def test_a_level_without_a_body_is_not_judged():
    row = _row(worked("sheath_dress")[0], "hem")
    assert (row.body, row.ease, row.wanted, row.finished, row.verdict) == (
        "", "", "", "40 1/2", "not judged",
    )  # fmt: skip


@pytest.mark.parametrize(
    ("typed", "verdict", "off"), [("10 1/8", "agrees", ""), ("10 3/16", "more", "3/8"),
                                  ("9 3/4", "less", "1/2")],
)  # fmt: skip
def test_a_width_by_hand_is_marked_and_judged_by_the_band(typed, verdict, off):
    """The band is 1/4 over the whole round; a width counts twice."""
    document, one = worked("sheath_dress")
    set_width(document, typed, garment=one, layer="outer", piece="front", level="waist")
    row = _row(document, "waist")
    assert row.cuts[0][0].by_hand
    assert not row.cuts[1][0].by_hand
    assert (row.verdict, row.off) == (verdict, off)


def test_unlike_sides_have_two_cuts():
    document, one = worked("sheath_dress")
    set_width(document, "12", garment=one, layer="outer", piece="front", level="hip", side="left")
    front, back = _row(document, "hip").cuts
    assert [(cut.side, cut.amount) for cut in front] == [("left", "12"), ("right", "11 7/8")]
    assert [cut.side for cut in back] == [None]


def test_two_legs_on_unlike_thighs_have_a_row_each():
    document, _ = worked("trousers")
    left, right = (_row(document, "thigh", ring=1, side=side) for side in ("left", "right"))
    assert (left.body, right.body) == ("23 3/8", "23 1/2")
    assert (left.finished, left.verdict) == ("25 1/2", "agrees")
    assert _row(document, "knee", ring=1).side is None


def test_a_metric_table_is_written_to_the_half_millimetre():
    row = _row(drafted("pencil_skirt", "cm"), "waist")
    assert row.body == "76.2"
    assert row.cuts[0][0].amount == drafted("pencil_skirt", "cm")["garments"][0]["layers"][0][
        "rings"][0]["pieces"][0]["width"]["waist"]  # fmt: skip


def test_a_piece_that_does_not_reach_has_no_cut():
    document, one = worked("fishtail_gown")
    set_width(document, "9", garment=one, layer="lining", piece="front", level="hem")
    row = _row(document, "hem", layer=1)
    assert [len(cuts) for cuts in row.cuts] == [1, 0]
    assert (row.finished, row.verdict) == ("", "not judged")


def test_a_width_opens_to_its_sum_from_the_fold():
    opened = _opened(worked("sheath_dress")[0], "front", "waist")
    assert opened.title == "Front at the waist"
    assert [(term.sign, term.amount, term.name) for term in opened.terms] == [
        ("", "7 1/2", "waist 30 ÷ 4"), ("+", "1/4", "ease 1 ÷ 4"), ("+", "1/4", "front is more"),
        ("+", "1", "dart"), ("+", "1", "side seam allowance"),
    ]  # fmt: skip
    assert (opened.result, opened.starts, opened.by_hand) == ("10", "from the fold", False)


def test_what_is_taken_off_has_its_minus():
    opened = _opened(worked("sheath_dress")[0], "back", "bust")
    terms = [(term.sign, term.amount, term.name) for term in opened.terms]
    assert ("-", "3/8", "back is less") in terms
    assert opened.starts == "edge to edge"


def test_a_width_by_hand_opens_with_what_she_added():
    document, one = worked("sheath_dress")
    set_width(document, "9 7/8", garment=one, layer="outer", piece="front", level="waist")
    opened = _opened(document, "front", "waist")
    assert (opened.terms[-1].sign, opened.terms[-1].amount, opened.terms[-1].name) == (
        "-", "1/8", "by hand",
    )  # fmt: skip
    assert (opened.result, opened.worked_out, opened.by_hand) == ("9 7/8", "10", True)


def test_a_width_without_a_sum_opens_to_what_is_sewn_away():
    document, _ = worked("sheath_dress")
    del document["garments"][0]["layers"][0]["rings"][0]["pieces"][0]["sum"]
    opened = _opened(document, "front", "waist")
    assert [(term.amount, term.name) for term in opened.terms] == [
        ("8", "finished"), ("1", "front waist dart"), ("1", "side seam allowance"),
    ]  # fmt: skip


def test_a_draft_as_worked_out_agrees():
    document, _ = worked("sheath_dress")
    file = read_document(document)
    check = check_draft(file, file.garments[0])
    assert check.agrees
    assert check.headline == "Agrees with the tape at bust, waist, high hip and hip"
    whats = [line.what for line in check.lines]
    assert "Outer, body, hip, to sit" in whats
    assert "Outer, body, hem, to walk" in whats
    assert "Waist, height" in whats
    assert "Outer, body, bust, front" in whats
    assert not [line for line in check.lines if line.text.startswith("width ")]


def test_what_to_look_at_stands_first_and_by_hand_is_told():
    document, one = worked("sheath_dress")
    set_width(document, "10 1/2", garment=one, layer="outer", piece="front", level="waist")
    file = read_document(document)
    check = check_draft(file, file.garments[0])
    assert (check.agrees, check.headline) == (False, "2 things to look at before cutting")
    first, second = check.lines[:2]
    assert (first.told, first.what) == ("caution", "Outer, body, waist")
    assert first.text.endswith("= 31 wanted; finished 32")
    assert (second.told, second.what) == ("caution", "Outer, body, waist, front")
    assert ("note", "10 1/2 set by hand; worked out it is 10") in [
        (line.told, line.text) for line in check.lines
    ]


def test_what_was_not_taken_is_named():
    document, _ = worked("sheath_dress")
    del document["measurements"][0]["values"]["hip_girth"]
    file = read_document(document)
    check = check_draft(file, file.garments[0])
    assert ("note", "Hip", "not measured, so not judged") in [
        (line.told, line.what, line.text) for line in check.lines
    ]


def test_an_empty_draft_has_nothing_to_check():
    document = {"format": "pins-to-seams/1", "unit": "in", "client": {"id": "c", "name": "C"},
                "garments": [{"id": "g"}]}  # fmt: skip
    file = read_document(document)
    assert draft_table(file, file.garments[0]) == ()
    assert check_draft(file, file.garments[0]).headline.startswith("Nothing to check yet")
