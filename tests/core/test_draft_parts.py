"""Parts joined to a draft: their turns, depths and radii, and godets."""

from math import pi

import pytest

from core.draft.circles import NoCircle
from core.draft.document import CannotChange
from core.draft.ease import set_ease
from core.draft.edits import set_width
from core.draft.parts import (
    add_band,
    add_circular_part,
    add_godet,
    remove_part,
    set_part,
    work_out_radius,
)
from core.errors import BadLength, NotFound
from tests.drafts import drafted, garment_of, worked

WHERE = {"garment": "one", "part": "flounce"}


def _flounce(document):
    return document["garments"][0]["joined"][0]


def test_half_as_many_turns_need_twice_the_radius():
    """The flare is 37 1/2 round: 37 1/2 / pi = 11.94 for half a turn, 23.87 for a quarter."""
    document = drafted("fishtail_gown")
    assert _flounce(document)["inner_radius"] == pytest.approx(37.5 / pi, abs=0.005)
    set_part(document, "turns", "1/4", **WHERE)
    assert _flounce(document)["turns"] == "1/4"
    assert _flounce(document)["inner_radius"] == pytest.approx(2 * 37.5 / pi, abs=0.005)


def test_gathered_twice_it_is_cut_to_twice_the_edge():
    document = drafted("fishtail_gown")
    set_part(document, "fullness", "2", **WHERE)
    assert _flounce(document)["inner_radius"] == pytest.approx(2 * 37.5 / pi, abs=0.005)


def test_the_radius_follows_the_edge_it_joins():
    """A front hip set half an inch wider by hand does not move the flare; a wider flare does."""
    document = drafted("fishtail_gown")
    lining = {"garment": "one", "layer": "lining", "piece": "front"}
    set_width(document, "10 5/8", level="flare", **lining)
    assert _flounce(document)["inner_radius"] == pytest.approx(38.5 / pi, abs=0.005)
    set_ease(document, "3 1/2", garment="one", level="hip")
    assert _flounce(document)["inner_radius"] == pytest.approx(39.5 / pi, abs=0.005)


def test_a_radius_of_hers_stays_until_she_asks_for_the_edges():
    document = drafted("fishtail_gown")
    set_part(document, "inner_radius", "12 1/2", **WHERE)
    set_ease(document, "3 1/2", garment="one", level="hip")
    assert _flounce(document)["inner_radius"] == "12 1/2"
    work_out_radius(document, **WHERE)
    assert _flounce(document)["inner_radius"] == pytest.approx(38.5 / pi, abs=0.005)


def test_a_flounce_of_her_own_is_cut_to_the_hem():
    """The sheath's hem is 40 1/2 round: one turn, r = 40 1/2 / (2 pi) = 6.45."""
    document, one = worked("sheath_dress")
    where = {"garment": one, "layer": "outer", "ring": "body", "level": "hem"}
    name = add_circular_part(document, "Hem flounce", turns="1", depth="9 1/2", **where)
    found = document["garments"][0]["joined"][0]
    assert (name, found["depth"]) == ("hem_flounce", "9 1/2")
    assert found["inner_radius"] == pytest.approx(40.5 / (2 * pi), abs=0.005)
    remove_part(document, garment=one, part=name)
    assert document["garments"][0]["joined"] == []


def test_a_band_grows_with_the_ease_at_its_level():
    document = drafted("trousers")
    set_ease(document, "1 1/2", garment="one", level="waist")
    band = document["garments"][0]["joined"][0]
    assert band["cut"] == "34 1/2"
    assert "1 1/2 (ease 1 1/2)" in band["sum"]


def test_bands_and_godets_of_her_own():
    document, one = worked("sheath_dress")
    add_band(document, "Belt", garment=one, layer="outer", ring="body", level="waist",
             cut="32 1/2", depth="2")  # fmt: skip
    add_godet(document, "Back godet", garment=one, layer="outer", seam="centre_back",
              start="hip", end="hem", length="14", foot="12", allowance="1/2")  # fmt: skip
    garment = garment_of(document)
    assert garment.joined[0].depth == pytest.approx(2 * 25.4)
    assert (garment.inserts[0].level, garment.inserts[0].seam) == ("hip", "centre_back")
    set_part(document, "count", "2", garment=one, part="back_godet", of="inserts")
    assert document["garments"][0]["inserts"][0]["count"] == 2


@pytest.mark.parametrize(
    ("what", "typed", "error"),
    [("turns", "0", CannotChange), ("turns", "half", BadLength), ("depth", "-3", CannotChange),
     ("level", "ankle", NotFound), ("colour", "red", CannotChange),
     ("fullness", "0", CannotChange)],
)  # fmt: skip
def test_nonsense_is_refused(what, typed, error):
    document = drafted("fishtail_gown")
    before = dict(_flounce(document))
    with pytest.raises(error):
        set_part(document, what, typed, **WHERE)
    assert _flounce(document) == before


def test_a_radius_needs_an_edge_that_is_known():
    document = drafted("fishtail_gown")
    set_part(document, "level", "hem", **WHERE)  # the lining ends at the flare
    with pytest.raises(CannotChange, match="not known yet"):
        work_out_radius(document, **WHERE)
    assert issubclass(NoCircle, Exception)
