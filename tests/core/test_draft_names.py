"""Her own names, and her own habits for kinds."""

import pytest

from core.client.her_defaults import set_setting, set_usual, set_word, with_defaults
from core.draft.document import CannotChange
from core.draft.kinds import all_kinds
from core.draft.names import rename, rename_garment
from core.draft.start import begin_from_kind
from core.errors import BadLength, NotFound
from tests.drafts import drafted, garment_of, part, worked

KINDS = [found.id for found in all_kinds()]


def test_a_seams_name_is_said_in_the_sums():
    document, one = worked("sheath_dress")
    rename(document, "Flank", garment=one, what="seams", id="side", layer="outer")
    assert part(document, seam="side")["label"] == "Flank"
    assert "1 (flank allowance)" in part(document, piece="front")["sum"]["waist"]
    assert part(document, layer="lining", seam="side")["label"] == "Side seam"


def test_a_levels_name_is_said_wherever_its_girth_or_its_width_is():
    document, one = worked("sheath_dress")
    rename(document, "Seat", garment=one, what="levels", id="hip")
    front = part(document, piece="front")
    assert front["sum"]["hip"].startswith("10 1/4 (seat 41 / 4)")
    assert front["sum"]["hem"].startswith("10 7/8 (as at the seat)")


def test_a_pieces_name_is_said_where_another_is_less_it():
    document, one = worked("princess_gown")
    rename(document, "Middle", garment=one, what="pieces", id="centre_front")
    assert "(less the middle)" in part(document, piece="side_front")["sum"]["waist"]


@pytest.mark.parametrize("name", KINDS)
def test_a_name_given_and_taken_back_leaves_the_draft_as_it_was(name):
    document = drafted(name)
    before = drafted(name)
    levels = [level["id"] for level in document["garments"][0]["levels"]]
    for level in levels:
        label = part(document, level=level)["label"]
        rename(document, "Elsewhere", garment="one", what="levels", id=level)
        rename(document, label, garment="one", what="levels", id=level)
    assert document == before


@pytest.mark.parametrize("label", ["", "   ", "x" * 61, "Side (left)", "a = b"])
def test_a_name_that_cannot_stand_in_a_sum_is_refused(label):
    document, one = worked("sheath_dress")
    with pytest.raises(CannotChange):
        rename(document, label, garment=one, what="seams", id="side")
    with pytest.raises(CannotChange):
        rename_garment(document, label, garment=one)


def test_what_is_not_there_has_no_name():
    document, one = worked("sheath_dress")
    with pytest.raises(NotFound):
        rename(document, "X", garment=one, what="seams", id="princess")


def test_a_garment_begun_from_a_kind_takes_on_what_she_likes_for_it():
    defaults = {}
    set_setting(defaults, "step", "1/4", unit="in")
    set_setting(defaults, "band", "6 mm", unit="in", kind="sheath_dress")
    set_usual(defaults, "turn", "3", unit="in", kind="sheath_dress", seam="side")
    set_usual(defaults, "comfort", "3/8", unit="in", kind="sheath_dress", seam="side")
    set_usual(defaults, "minutes", "25", unit="in", kind="sheath_dress", dart="front_waist")
    set_word(defaults, "Flank", kind="sheath_dress", what="seams", id="side")
    document = drafted("sheath_dress")
    document["garments"] = []
    begin_from_kind(document, "sheath_dress", id="one", defaults=defaults)
    begin_from_kind(document, "pencil_skirt", id="two", defaults=defaults)
    first, second = document["garments"]
    assert first["settings"] == {"step": "1/4", "band": "6 mm"}
    assert second["settings"] == {"step": "1/4"}
    side = part(document, seam="side")
    assert (side["turn"], side["comfort"], side["label"]) == (3, "3/8", "Flank")
    assert part(document, dart="front_waist")["minutes"] == 25
    assert "flank allowance" in part(document, piece="front")["sum"]["waist"]
    assert part(document, garment=1, seam="side")["label"] != "Flank"
    assert garment_of(document).settings.step == pytest.approx(6.35)


def test_what_she_likes_serves_a_file_of_another_unit():
    defaults = {}
    set_setting(defaults, "keep", "1/2", unit="in")
    document = drafted("pencil_skirt", "cm")
    liked = with_defaults(document["garments"][0], defaults, "cm")
    assert liked["settings"] == {"keep": "1/2 in"}


@pytest.mark.parametrize(
    ("what", "typed"), [("stitch", "1"), ("step", "0"), ("band", "-1"), ("band", "wide")]
)
def test_a_setting_that_is_none_is_refused(what, typed):
    defaults = {}
    with pytest.raises((CannotChange, BadLength)):
        set_setting(defaults, what, typed, unit="in")
    assert defaults == {}


def test_an_empty_word_takes_hers_back():
    defaults = {}
    set_word(defaults, "Flank", kind="sheath_dress", what="seams", id="side")
    set_word(defaults, " ", kind="sheath_dress", what="seams", id="side")
    assert defaults["kinds"]["sheath_dress"]["words"]["seams"] == {}
