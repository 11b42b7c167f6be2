"""Layers put on and taken off."""

import copy

import pytest

from core.draft.document import CannotChange
from core.draft.ease import set_ease
from core.draft.edits import set_width
from core.draft.layers import layers_to_put_on, put_layer_on, take_layer_off
from tests.drafts import drafted, part

LINED = ["sheath_dress", "princess_gown", "fishtail_gown", "pencil_skirt", "gored_skirt",
         "sleeved_bodice"]  # fmt: skip


@pytest.mark.parametrize("name", LINED)
def test_a_layer_put_on_again_is_as_it_was(name):
    document = drafted(name)
    set_width(document, "20", garment="one", layer="lining", level="hip" if "hip" in part(
        document, layer="lining", ring="body").get("levels", ["hip"]) else "waist",
        piece=part(document, layer="lining", ring="body")["pieces"][0]["id"])  # fmt: skip
    before = copy.deepcopy(document)
    take_layer_off(document, garment="one", layer="lining")
    garment = document["garments"][0]
    assert [layer["id"] for layer in garment["layers"]] == ["outer"]
    assert all(part.get("layer") != "lining" for part in garment["joined"])
    assert layers_to_put_on(garment) == (("lining", "Lining"),)
    put_layer_on(document, garment="one", layer="lining")
    assert document == before


@pytest.mark.parametrize("name", LINED)
def test_a_lining_comes_from_the_kind(name):
    document = drafted(name)
    before = copy.deepcopy(document)
    garment = document["garments"][0]
    garment["layers"] = garment["layers"][:1]
    garment["joined"] = [one for one in garment["joined"] if one["layer"] == "outer"]
    put_layer_on(document, garment="one", layer="lining")
    assert document == before


def test_a_new_lining_has_the_ease_of_this_garment():
    """2 of ease at the waist where 1 was: 1/4 more on the lining's front, 9 3/4."""
    document = drafted("sheath_dress")
    document["garments"][0]["layers"] = document["garments"][0]["layers"][:1]
    set_ease(document, "2", garment="one", level="waist")
    put_layer_on(document, garment="one", layer="lining")
    assert part(document, layer="lining", piece="front")["width"]["waist"] == "10"


def test_the_garment_itself_stays_on_and_nothing_is_put_on_twice():
    document = drafted("sheath_dress")
    with pytest.raises(CannotChange, match="the garment itself"):
        take_layer_off(document, garment="one", layer="outer")
    with pytest.raises(CannotChange, match="on already"):
        put_layer_on(document, garment="one", layer="lining")
    with pytest.raises(CannotChange, match="no such layer"):
        put_layer_on(document, garment="one", layer="foundation")
    assert layers_to_put_on(document["garments"][0]) == ()


@pytest.mark.parametrize(
    "noted",
    [{"pins": [{"layer": "lining", "seam": "side", "level": "waist"}]},
     {"sewn_girths": {"lining": {"body": {"waist": "31"}}}}],
)  # fmt: skip
def test_a_layer_that_a_fitting_speaks_of_stays(noted):
    document = drafted("sheath_dress")
    document["garments"][0]["fittings"] = [{"id": "f", "on": "2026-06-01", **noted}]
    before = copy.deepcopy(document)
    with pytest.raises(CannotChange, match="noted of the lining"):
        take_layer_off(document, garment="one", layer="lining")
    assert document == before
