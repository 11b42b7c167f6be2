"""A new garment: from a kind, an earlier garment, another client's, or nothing."""

import copy

import pytest

from core.draft.allowances import set_allowance
from core.draft.document import CannotChange
from core.draft.drafting import work_out
from core.draft.edits import set_width
from core.draft.kinds import all_kinds, kind
from core.draft.needs import needs_of
from core.draft.start import begin_empty, begin_from_earlier, begin_from_kind, begin_from_other
from core.errors import CannotDraft, NotFound
from tests.drafts import drafted, garment_of, part, tape_in_mm, worked
from tests.real_drafts import invented_client, worked_drafts

KINDS = [found.id for found in all_kinds()]


def _client(unit="in", **changed):
    """Return a client with the invented client's tape and no garment."""
    return {
        "format": "pins-to-seams/1", "unit": unit, "client": {"id": "two", "name": "Second"},
        "measurements": [{"on": "2026-05-02", "values": tape_in_mm(**changed)}],
    }  # fmt: skip


def _widths(garment):
    return [piece["width"] for layer in garment["layers"] for ring in layer["rings"]
            for piece in ring["pieces"]]  # fmt: skip


# From a kind


@pytest.mark.parametrize("name", KINDS)
def test_a_garment_begun_from_a_kind_is_the_worked_draft(name):
    document = _client()
    begun = begin_from_kind(document, name, id="new", name="Her own")
    garment = document["garments"][0]
    assert _widths(garment) == _widths(worked_drafts()[name]["garments"][0])
    assert (garment["id"], garment["name"], garment["kind"]) == ("new", "Her own", name)
    assert begun.said == ("Worked out from the tape of 2 May 2026.",)
    assert garment_of(document).fittings == ()


def test_the_newest_value_of_each_measurement_counts():
    document = _client()
    document["measurements"].append({"on": "2026-06-01", "values": {"waist_girth": "31"}})
    document["measurements"].append({"on": "2026-01-01", "values": {"waist_girth": "29"}})
    begin_from_kind(document, "pencil_skirt", id="new")
    assert "waist 31 / 4" in part(document, piece="front")["sum"]["waist"]


def test_the_ease_she_likes_beats_the_kinds():
    document = _client()
    document["client"]["ease"] = {"waist": "2"}
    begin_from_kind(document, "sheath_dress", id="new")
    assert document["garments"][0]["ease"]["waist"] == "2"
    assert part(document, piece="front")["width"]["waist"] == "10 1/4"


def test_a_neckline_she_wished_is_the_drop_of_a_gown_that_begins_below_the_shoulder():
    document = _client(neckline_drop="5")
    begin_from_kind(document, "fishtail_gown", id="new")
    assert document["garments"][0]["drop"] == "5"
    begin_from_kind(document, "fishtail_gown", id="typed", drop="3 1/2")
    assert document["garments"][1]["drop"] == "3 1/2"
    begin_from_kind(document, "sheath_dress", id="sheath")
    assert document["garments"][2]["drop"] == "0"


def test_what_is_missing_is_named_with_what_can_be_left_out_and_nothing_changes():
    document = _client()
    for name in ("hip_girth", "waist_to_hip", "under_bust_girth", "bust_front_arc"):
        del document["measurements"][0]["values"][name]
    before = copy.deepcopy(document)
    with pytest.raises(CannotDraft) as refused:
        begin_from_kind(document, "fishtail_gown", id="new")
    assert str(refused.value) == (
        "Off-the-shoulder fishtail gown cannot be worked out yet."
        " Not taken yet: Hip; Waist to hip."
        " Can be left out, and the draft has no under-bust level: Under-bust."
        " Not taped across the front: Bust, front. There the front has its usual part of the round."
    )
    assert document == before


def test_what_was_left_out_is_said():
    document = _client()
    del document["measurements"][0]["values"]["waist_front_arc"]
    begun = begin_from_kind(document, "pencil_skirt", id="new")
    assert begun.said[1] == (
        "Not taped across the front: Waist, front."
        " There the front has its usual part of the round."
    )


@pytest.mark.parametrize("name", KINDS)
def test_exactly_what_is_said_to_be_needed_stops_the_draft(name):
    taken = dict(invented_client().items())
    assert needs_of(kind(name), list(taken)).missing == ()
    stopped = []
    for without in taken:
        rest = {one: value for one, value in taken.items() if one != without}
        needs = needs_of(kind(name), list(rest))
        assert set(needs.missing) <= {without}
        if needs.missing:
            stopped.append(without)
            with pytest.raises(CannotDraft):
                work_out(kind(name), rest)
        else:
            work_out(kind(name), rest)
    assert len(stopped) >= 5


def test_ease_as_a_share_needs_its_girth():
    document = _client()
    document["client"]["ease"] = {"waist": "4%"}
    begin_from_kind(document, "pencil_skirt", id="new")
    assert document["garments"][0]["ease"]["waist"] == "4%"
    assert "ease 1 3/16 / 4" in part(document, piece="front")["sum"]["waist"]


def test_an_unknown_kind_is_named():
    with pytest.raises(NotFound, match="cape"):
        begin_from_kind(_client(), "cape", id="new")


def test_an_id_that_is_taken_is_refused():
    document = _client()
    begin_from_kind(document, "pencil_skirt", id="new")
    with pytest.raises(CannotChange, match="already"):
        begin_from_kind(document, "pencil_skirt", id="new")


# From an earlier garment of hers


def test_a_copy_of_an_earlier_garment_has_its_numbers_and_nothing_of_its_time():
    document, one = worked("sheath_dress")
    garment = document["garments"][0]
    garment |= {"uuid": "u", "revision": 3, "changed": "2026-05-01T10:00:00+00:00",
                "due": "2026-06-01", "fittings": [{"id": "f", "on": "2026-05-01"}]}  # fmt: skip
    set_width(document, "10 1/8", garment=one, layer="outer", piece="front", level="waist")
    begin_from_earlier(document, one, id="again", name="Second sheath")
    first, copied = document["garments"]
    assert _widths(copied) == _widths(first)
    assert (copied["id"], copied["name"], copied["fittings"]) == ("again", "Second sheath", [])
    assert not {"uuid", "revision", "changed", "due"} & set(copied)
    part(document, garment=1, piece="front")["width"]["hip"] = "14"
    assert part(document, piece="front")["width"]["hip"] == "11 7/8"


# From another client's


def test_another_clients_garment_is_worked_out_on_this_ones_tape():
    """Her waist is 32 and its front arc 16 1/2: a quarter 8, ease 1/4, front more 1/4, 1 and 1."""
    other, one = worked("sheath_dress")
    document = _client(waist_girth="32", waist_front_arc="16 1/2")
    begun = begin_from_other(document, other, one, id="new")
    assert begun.said == ("Worked out anew from the tape of 2 May 2026.",)
    assert part(document, piece="front")["width"]["waist"] == "10 1/2"
    assert document["garments"][0]["name"] == "Sheath dress with waist darts"


def test_what_was_changed_there_by_hand_stays_a_term_of_its_own():
    other, one = worked("sheath_dress")
    set_allowance(other, "1 1/2", garment=one, layer="outer", seam="side")
    set_width(other, "12 1/8", garment=one, layer="outer", piece="front", level="hem")
    document = _client()
    begun = begin_from_other(document, other, one, id="new")
    front = part(document, piece="front")
    assert front["width"]["hem"] == "12 1/8"
    assert front["sum"]["hem"].endswith("+ 1/2 (changed by hand) = 12 1/8")
    assert part(document, seam="side")["allowance"] == "1 1/2"
    assert begun.said[1] == "One width keeps what was changed by hand."


@pytest.mark.parametrize("name", KINDS)
def test_a_garment_of_another_unit_is_worked_out_in_this_ones(name):
    document = _client("cm")
    begin_from_other(document, drafted(name), "one", id="one")
    expected = drafted(name, "cm")["garments"][0]
    for mine, theirs in zip(_widths(document["garments"][0]), _widths(expected), strict=True):
        for level, typed in theirs.items():
            assert float(mine[level]) == pytest.approx(float(typed), abs=0.051)


def test_a_garment_of_no_kind_is_copied_with_its_units_and_that_is_said():
    other, one = worked("pencil_skirt")
    other["garments"][0]["kind"] = "cape"
    document = _client("cm")
    begun = begin_from_other(document, other, one, id="new")
    front = part(document, piece="front")
    assert front["width"]["hip"] == "11 7/8 in"
    assert "sum" not in front
    assert part(document, seam="side")["run"] == part(other, seam="side")["run"]
    ring = garment_of(document).layers[0].rings[0]
    assert ring.pieces[0].width["hip"][0] == pytest.approx(301.625)
    assert "another client's" in begun.said[0]


def test_her_tape_must_be_enough_for_another_clients_garment():
    other, one = worked("sheath_dress")
    document = _client()
    del document["measurements"][0]["values"]["bust_girth"]
    with pytest.raises(CannotDraft, match="Not taken yet: Bust"):
        begin_from_other(document, other, one, id="new")
    assert "garments" not in document


# Empty


def test_an_empty_garment_says_what_to_do_first():
    document = _client()
    begun = begin_empty(document, id="new", name=" A cape ")
    assert garment_of(document).name == "A cape"
    assert begun.said == ("Nothing in it yet: add a level and a piece first.",)
    with pytest.raises(CannotChange):
        begin_empty(document, id="other", name=" ")
