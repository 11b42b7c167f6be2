"""Small garments as documents, written out by hand for the tests: lengths in inches.

Each function returns a fresh document that a test may change before it is read.
"""

from collections.abc import Mapping, Sequence
from typing import Any

from core.changes.plan import make_plan
from core.file.fitting_file import read_document
from core.records.answer import LevelAnswer, Move, Plan

INCH = 25.4
Document = dict[str, Any]


def document(
    garment: Document, body: Mapping[str, Any], *, unit: str = "in", on: str = "2026-01-01"
) -> Document:
    """Return one client's file with one garment and one day's measurements."""
    return {
        "format": "pins-to-seams/1",
        "unit": unit,
        "client": {"id": "invented", "name": "Invented"},
        "measurements": [{"on": on, "values": dict(body)}],
        "garments": [{"id": "garment", "name": "Garment", **garment}],
    }


def worked(
    side: Document | None = None, centre_back: Document | None = None, **garment: Any
) -> Document:
    """Return the worked example of the calculation: a darted dress with a centre back zip."""
    front = {"id": "front", "fold": True,
             "width": {"bust": "11", "waist": "10 1/4", "hip": "12"},
             "darts": [{"id": "front_dart", "label": "Front dart", "take_up": {"waist": "1"},
                        "turn": 3}]}  # fmt: skip
    back = {"id": "back", "width": {"bust": "11 1/2", "waist": "11", "hip": "12 3/4"},
            "darts": [{"id": "back_dart", "label": "Back dart", "take_up": {"waist": "1 1/4"},
                       "turn": 2}]}  # fmt: skip
    seams = [
        {"id": "side", "label": "Side seam", "joins": ["front", "back"], "allowance": "1",
         **(side or {})},
        {"id": "centre_back", "label": "Centre back", "joins": ["back", "back"],
         "allowance": "1", "turn": 4, **(centre_back or {})},
    ]  # fmt: skip
    return document(
        {
            "ease": {"bust": "1 1/2", "waist": "1", "hip": "1 1/2"},
            "levels": [
                {"id": "bust", "down": "10 1/2", "body": "bust_girth"},
                {"id": "waist", "down": "16 1/2", "body": "waist_girth"},
                {"id": "hip", "down": "25", "body": "hip_girth"},
            ],
            "layers": [{"id": "outer", "rings": [
                {"id": "body", "kind": "half", "pieces": [front, back], "seams": seams}]}],
            **garment,
        },
        {"bust_girth": "36 1/2", "waist_girth": "28 1/2", "hip_girth": "39"},
    )  # fmt: skip


def gores(
    sewn: Mapping[str, float],
    body: Mapping[str, float],
    seams: Sequence[Document] = ({"id": "side"},),
    *,
    ease: Mapping[str, float] | None = None,
    downs: Sequence[float] = (0, 20, 40, 60, 80),
    **garment: Any,
) -> Document:
    """Return a half round of equal pieces, both centres on a fold, joined by ``seams``.

    ``sewn`` is the finished girth by level; each edge has 1 in inside unless its seam says
    otherwise.  The levels lie far apart, so that no line runs out too quickly.
    """
    seams = [{"allowance": 1, **seam} for seam in seams]
    count = len(seams) + 1
    pieces = []
    for number in range(count):
        edges = seams[max(0, number - 1) : number + 1]
        width = {level: girth / 2 / count + sum(float(seam["allowance"]) for seam in edges)
                 for level, girth in sewn.items()}  # fmt: skip
        fold = number in (0, count - 1)
        pieces.append({"id": f"piece_{number}", "fold": fold, "width": width})
    joined = [{**seam, "joins": [f"piece_{number}", f"piece_{number + 1}"]}
              for number, seam in enumerate(seams)]  # fmt: skip
    return document(
        {
            "ease": dict(ease) if ease else dict.fromkeys(sewn, 0),
            "levels": [{"id": level, "down": down, "body": f"{level}_girth"}
                       for level, down in zip(sewn, downs, strict=False)],
            "layers": [{"id": "outer", "rings": [
                {"id": "body", "kind": "half", "pieces": pieces, "seams": joined}]}],
            **garment,
        },
        {f"{level}_girth": girth for level, girth in body.items()},
    )  # fmt: skip


def pinned(file: Document, *pins: Document, **fitting: Any) -> Document:
    """Return the document with one more fitting of its garment, with these pins."""
    fittings = file["garments"][0].setdefault("fittings", [])
    number = len(fittings) + 1
    fittings.append({"id": f"fitting_{number}", "on": f"2026-01-{number:02}",
                     "pins": list(pins), **fitting})  # fmt: skip
    return file


def planned(file: Document, **options: Any) -> Plan:
    """Return the plan of a document."""
    return make_plan(read_document(file), **options)


def level(plan: Plan, name: str, layer: str = "outer", side: str | None = None) -> LevelAnswer:
    """Return one level's row."""
    (row,) = [row for row in plan.levels
              if (row.layer, row.level, row.side) == (layer, name, side)]  # fmt: skip
    return row


def moved(
    plan: Plan,
    place: str | None,
    at: str,
    *,
    side: str | None = "left",
    edge: str | None = None,
    layer: str = "outer",
) -> list[float]:
    """Return what a seam's edges, a dart's legs (or, for none, a fold) move, in inches."""
    return [round(move.move / INCH, 6) for move in moves_at(plan, place, at, layer)
            if move.side == side and edge in (None, move.edge)]  # fmt: skip


def moves_at(plan: Plan, place: str | None, at: str, layer: str = "outer") -> list[Move]:
    """Return the records of one seam, dart or fold at one level."""
    return [move for move in plan.moves if (move.level, move.layer) == (at, layer)
            and place == (move.seam or move.dart)]  # fmt: skip
