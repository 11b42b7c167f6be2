"""A draft inside a client's document: finding its parts by id, and changing it whole or not at all.

A change is tried on a copy of the garment, read as the fitting file is read, and only then
put in its place: what is refused has changed nothing.
"""

from collections.abc import Callable, Iterator, Mapping
from copy import deepcopy
from typing import Any

from core.draft.joined_edges import follow_edges
from core.errors import BadFile, NotFound, WorkroomError
from core.file.checking import check_garment
from core.file.field import Field
from core.file.fitting_file import read_document
from core.file.reading import read_garment
from core.lengths import Unit, read_length
from core.records.garment import Garment

Document = dict[str, Any]
Part = dict[str, Any]
Edit = Callable[[Part], None]

_NOUNS = {
    "layers": "layer", "rings": "ring", "levels": "level", "seams": "seam", "joined": "joined",
    "lines": "line", "inserts": "insert", "openings": "opening", "garments": "garment",
}  # fmt: skip


class CannotChange(WorkroomError):
    """A change that the draft cannot take; says why, and that the draft is as it was."""


def unit_of(document: Mapping[str, Any]) -> Unit:
    """Return the unit that bare lengths of this document are in."""
    unit = document.get("unit")
    return "cm" if unit == "cm" else "mm" if unit == "mm" else "in"


def named(owner: Mapping[str, Any], of: str) -> Iterator[tuple[str, Part]]:
    """Yield the parts in a list with their ids; one without an id has its reader's."""
    for number, entry in enumerate(owner.get(of) or [], 1):
        yield str(entry.get("id") or f"{_NOUNS[of]}_{number}"), entry


def find(owner: Mapping[str, Any], of: str, name: str) -> Part:
    """Return a part by its id; raises ``NotFound`` where it is not there."""
    for found, entry in named(owner, of):
        if found == name:
            return entry
    raise NotFound(f"There is no {_NOUNS[of]} “{name}” in this draft")


def garment_in(document: Document, garment: str) -> Part:
    """Return a garment's own part of the document."""
    return find(document, "garments", garment)


def pieces_in(layer: Mapping[str, Any]) -> Iterator[tuple[Part, str, Part]]:
    """Yield each piece of a layer with its ring before it and its id between them."""
    for _, ring in named(layer, "rings"):
        for number, piece in enumerate(ring.get("pieces") or [], 1):
            yield ring, str(piece.get("id") or f"piece_{number}"), piece


def find_piece(layer: Mapping[str, Any], name: str) -> tuple[Part, Part]:
    """Return a piece of a layer and the ring it is in; raises ``NotFound``."""
    for ring, found, piece in pieces_in(layer):
        if found == name:
            return ring, piece
    raise NotFound(f"There is no piece “{name}” in this layer")


def darts_in(piece_id: str, piece: Mapping[str, Any]) -> Iterator[tuple[str, Part]]:
    """Yield the darts of a piece with their ids."""
    for number, dart in enumerate(piece.get("darts") or [], 1):
        yield str(dart.get("id") or f"dart_{piece_id}_{number}"), dart


def find_dart(layer: Mapping[str, Any], name: str) -> tuple[Part, str, Part, Part]:
    """Return a dart's ring, its piece's id and piece, and the dart; raises ``NotFound``."""
    for ring, piece_id, piece in pieces_in(layer):
        for found, dart in darts_in(piece_id, piece):
            if found == name:
                return ring, piece_id, piece, dart
    raise NotFound(f"There is no dart “{name}” in this layer")


def label_in(entry: Mapping[str, Any], name: str) -> str:
    """Return what a part is called: its label, or its id in words."""
    return str(entry.get("label") or name.replace("_", " ").capitalize())


def levels_of_ring(garment: Mapping[str, Any], ring: Mapping[str, Any]) -> list[str]:
    """Return the levels of a ring, top to bottom, as the reader finds them."""
    if ring.get("levels") is not None:
        return [str(name) for name in ring["levels"]]
    pieces = ring.get("pieces") or []
    return [name for name, _ in named(garment, "levels")
            if any(name in (piece.get("width") or {}) for piece in pieces)]  # fmt: skip


def record_of(garment: Part, unit: Unit) -> Garment:
    """Return the records of a garment; raises ``BadFile`` where it cannot be made."""
    record = read_draft(garment, unit)
    check_garment(record, Field(garment, "", unit))
    return record


def read_draft(garment: Part, unit: Unit) -> Garment:
    """Return the records of a garment in the middle of a change, whether it can be made or not."""
    return read_garment(Field(garment, "", unit), 1)


def length_mm(typed: object, document: Mapping[str, Any], *, least: float = 0.0) -> float:
    """Return a typed length in mm; raises ``CannotChange`` below ``least``, ``BadLength``."""
    mm = read_length(typed, unit_of(document)).mm
    if mm < least:
        raise CannotChange(f"“{typed}” must not be negative. The draft is as it was.")
    return mm


def change(document: Document, garment: str, edit: Edit, what: str = "") -> None:
    """Change one garment of the document, or raise with nothing changed.

    ``what`` names the place in the refusal.  A circular part whose radius was worked out from
    the edge it joins follows that edge.
    """
    before = garment_in(document, garment)
    after = deepcopy(before)
    unit = unit_of(document)
    try:
        edit(after)
        record = read_document({**document, "garments": [after]}).garments[0]
        follow_edges(record_of(before, unit), record, after, unit)
    except BadFile as wrong:
        raise CannotChange(_refused(wrong, what)) from wrong
    document["garments"][document["garments"].index(before)] = after


def _refused(wrong: BadFile, what: str) -> str:
    said = wrong.wrong if not what else f"{what}: {wrong.wrong}"
    return f"{said[:1].upper()}{said[1:]}. The draft is as it was."
