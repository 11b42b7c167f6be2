"""What the parts of a garment are called: by kind, in their layer, and a level by its own name."""

import copy

import pytest

from core.file.fitting_file import read_document
from core.records.garment import Garment
from tests.garments import worked


def garment() -> Garment:
    """Return the worked dress with a lining; the front and its dart share an id."""
    file = worked()
    made = file["garments"][0]
    outer = made["layers"][0]
    outer["rings"][0]["pieces"][0] |= {"label": "Front panel"}
    outer["rings"][0]["pieces"][0]["darts"][0] |= {"id": "front", "label": "Front dart"}
    lining = {**copy.deepcopy(outer), "id": "lining", "label": "Lining"}
    lining["rings"][0]["seams"][0]["label"] = "Lining side"
    lining["rings"][0]["seams"][1] |= {"id": "pleat", "label": "Pleat"}
    made["layers"].append(lining)
    for at, label in enumerate(("Bust, full", "Hip, high", "Hip, full")):
        made["levels"][at]["label"] = label
    return read_document(file).garments[0]


@pytest.mark.parametrize(
    ("what", "name", "layer", "label"),
    [
        ("seam", "side", "", "Side seam"),
        ("seam", "side", "lining", "Lining side"),
        ("seam", "pleat", "", "Pleat"),
        ("piece", "front", "", "Front panel"),
        ("dart", "front", "lining", "Front dart"),
        ("seam", "front", "", "front"),
        ("seam", "pleat", "outer", "pleat"),
        ("seam", "side", "nowhere", "side"),
    ],
)
def test_a_part_is_called_by_its_kind_and_layer_and_else_by_its_id(
    what: str, name: str, layer: str, label: str
) -> None:
    assert garment().label_of(what, name, layer) == label


def test_a_level_is_called_shortly_only_where_that_is_its_own_name() -> None:
    called = [garment().level_called(name) for name in ("bust", "waist", "hip")]
    assert called == ["Bust", "Hip, high", "Hip, full"]
