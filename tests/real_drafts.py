"""Drafts for the real women of ``bodies.py``, as whole fitting files, for tests.

The file of bodies has girths and the height, no lengths.  So every length that a kind
asks for is the invented client's of ``data/drafts`` times (this woman's height / hers):
proportions for tests, with no source, good enough to put levels in their order.  Girths
are never made up: a level that is optional for the kind and was not measured (under the
bust, elbow) is left out, and front arcs are left to the kind.  The heel of the day is the
invented client's, unscaled.
"""

import json
from collections.abc import Mapping
from functools import cache
from pathlib import Path
from typing import Any

from core.body.measurements import catalogue
from core.draft.drafting import work_out
from core.draft.kinds import kind
from core.errors import CannotDraft
from core.file.fitting_file import read_document
from core.lengths import Unit
from core.records.fitting import Taken

DRAFTS = Path(__file__).parent / "data" / "drafts"
HEEL_MM = 3 * 25.4


@cache
def worked_drafts() -> dict[str, dict[str, Any]]:
    """Return the seven worked drafts, each a whole fitting file, by kind."""
    files = [json.loads(path.read_text(encoding="utf-8")) for path in sorted(DRAFTS.glob("*.json"))]
    return {file["garments"][0]["kind"]: file for file in files}


@cache
def invented_client() -> Mapping[str, Taken]:
    """Return the measurements (mm) of the invented client whom the worked drafts fit."""
    return read_document(worked_drafts()["sheath_dress"]).sittings[-1].values


@cache
def _lengths_per_height() -> Mapping[str, float]:
    height = invented_client()["height"].on(None)
    lengths = ("length", "height", "breadth")
    return {
        name: value.on(None) / height
        for name, value in invented_client().items()
        if catalogue()[name].group in lengths
    }


def measured(woman: Mapping[str, float]) -> dict[str, float]:
    """Return a woman's girths and height with lengths by proportion and a heel (mm)."""
    lengths = {name: share * woman["height"] for name, share in _lengths_per_height().items()}
    return {**lengths, "heel_of_the_day": HEEL_MM, **woman}


def draft_for(
    woman: Mapping[str, float], kind_id: str, unit: Unit = "in"
) -> dict[str, Any] | None:
    """Return a fitting file with her draft of this kind, without fittings.

    ``None`` where her measurements do not allow it.
    """
    values = measured(woman)
    found = kind(kind_id)
    assert found is not None
    try:
        garment = work_out(
            found, {name: Taken(mm, mm) for name, mm in values.items()}, unit=unit, id=kind_id
        )
    except CannotDraft:
        return None
    return {
        "format": "pins-to-seams/1",
        "unit": unit,
        "client": {"id": "real", "name": "A woman of the file"},
        "measurements": [
            {"on": "2026-01-05", "values": {name: f"{mm:.4f} mm" for name, mm in values.items()}}
        ],
        "garments": [garment],
    }
