"""Documents with a draft in them, for the tests of what is done to one."""

import copy
import json

from core.draft.drafting import work_out
from core.draft.kinds import kind
from core.file.fitting_file import read_document
from tests.real_drafts import invented_client, worked_drafts


def worked(name):
    """Return a worked draft as a document of its own, and its garment's id."""
    document = copy.deepcopy(worked_drafts()[name])
    return document, document["garments"][0]["id"]


def drafted(name, unit="in", **told):
    """Return a document in this unit with a fresh draft for the invented client."""
    document = copy.deepcopy(worked_drafts()[name])
    document["unit"] = unit
    document["measurements"] = [{"on": "2026-04-11", "values": tape_in_mm()}]
    document["garments"] = [work_out(kind(name), invented_client(), unit=unit, id="one", **told)]
    return document


def tape_in_mm(**changed):
    """Return the invented client's tape, each number with its unit; some of it changed."""
    values = {}
    for name, taken in invented_client().items():
        left, right = (f"{side:.4f} mm" for side in (taken.left, taken.right))
        values[name] = left if left == right else {"left": left, "right": right}
    return {**values, **changed}


def part(document, layer="outer", garment=0, **ids):
    """Return a piece, seam, dart, level or ring of a layer by its id."""
    [(what, name)] = ids.items()
    garment = document["garments"][garment]
    if what == "level":
        return next(one for one in garment["levels"] if one["id"] == name)
    rings = next(one for one in garment["layers"] if one["id"] == layer)["rings"]
    pieces = [piece for ring in rings for piece in ring["pieces"]]
    lists = {
        "piece": pieces,
        "dart": [dart for piece in pieces for dart in piece.get("darts", [])],
        "seam": [seam for ring in rings for seam in ring["seams"]],
        "ring": rings,
    }
    return next(one for one in lists[what] if one["id"] == name)


def garment_of(document, at=0):
    """Return the records of a garment of the document, read as the app reads it."""
    return read_document(json.loads(json.dumps(document))).garments[at]
