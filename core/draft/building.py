"""A draft put together by hand: levels, pieces, seams and darts added and taken away."""

from typing import Any

from core.body.measurements import catalogue
from core.draft.document import (
    CannotChange,
    Document,
    Part,
    change,
    darts_in,
    find,
    find_dart,
    find_piece,
    garment_in,
    label_in,
    length_mm,
    named,
    pieces_in,
    record_of,
    unit_of,
)
from core.draft.names import good_name
from core.draft.parts import new_id

SHAPED = ("allowance", "keep", "most", "comfort", "weight", "turn")
"""What a seam may have by level, by piece, or by both."""


def add_level(
    document: Document, label: str, *, garment: str, down: str, body: str = ""
) -> str:  # fmt: skip
    """Add a level so far below the top edge, and the girth it is judged by; returns its id.

    It takes its place by its height.  Raises ``BadLength`` or ``CannotChange``.
    """
    label, mm = good_name(label), length_mm(down, document, least=-float("inf"))
    if body and body not in catalogue():
        raise CannotChange(f"“{body}” is not a measurement. The draft is as it was.")
    written, unit = garment_in(document, garment), unit_of(document)
    taken = [name for name, _ in named(written, "levels")]
    name = new_id(label, taken + _piece_ids(written))
    above = [level for level in record_of(written, unit).levels.values() if level.down < mm]

    def edit(after: Part) -> None:
        level = {"id": name, "label": label, "down": down.strip()}
        level |= {"body": body} if body else {}
        after.setdefault("levels", []).insert(len(above), level)

    change(document, garment, edit, label)
    return name


def add_piece(
    document: Document, label: str, *, garment: str, layer: str, ring: str, fold: bool = False
) -> str:  # fmt: skip
    """Add a piece at the end of a round (from centre front to centre back); returns its id."""
    label, written = good_name(label), garment_in(document, garment)
    levels = [name for name, _ in named(written, "levels")]
    pieces = [name for _, name, _ in pieces_in(find(written, "layers", layer))]
    name = new_id(label, pieces + levels)

    def edit(after: Part) -> None:
        entry = find(find(after, "layers", layer), "rings", ring)
        piece: Part = {"id": name, "label": label, "width": {}, **({"fold": True} if fold else {})}
        entry["pieces"] = [*(entry.get("pieces") or []), piece]

    change(document, garment, edit, label)
    return name


def add_seam(
    document: Document, label: str, *,
    garment: str, layer: str, ring: str, joins: tuple[str, str], allowance: str,
    parts_front_from_back: bool = False,
) -> str:  # fmt: skip
    """Add a seam between two pieces of a round; a piece and itself is its centre seam.

    Returns its id.  The cut widths stay: what is seam now was net before.  The side seam
    ``parts_front_from_back``: by it the front is judged alone.
    """
    label = good_name(label)
    length_mm(allowance, document)
    entry = find(find(garment_in(document, garment), "layers", layer), "rings", ring)
    name = new_id(label, [found for found, _ in named(entry, "seams")])

    def edit(after: Part) -> None:
        owner = find(find(after, "layers", layer), "rings", ring)
        seam = {"id": name, "label": label, "joins": list(joins), "allowance": allowance.strip()}
        owner["seams"] = [*(owner.get("seams") or []), seam]
        owner |= {"side_line": name} if parts_front_from_back else {}

    change(document, garment, edit, label)
    return name


def add_dart(
    document: Document, label: str, *,
    garment: str, layer: str, piece: str, level: str, take_up: str, top: str, point: str,
) -> str:  # fmt: skip
    """Add a dart that takes up so much at a level and ends so far down; returns its id.

    The cut widths stay: what the dart takes up now was net before.
    """
    label = good_name(label)
    for typed in (take_up, top, point):
        length_mm(typed, document, least=0.0 if typed is take_up else -float("inf"))
    written = find(garment_in(document, garment), "layers", layer)
    name = new_id(label, [found for _, piece_id, entry in pieces_in(written)
                          for found, _ in darts_in(piece_id, entry)])  # fmt: skip

    def edit(after: Part) -> None:
        find(after, "levels", level)
        _, owner = find_piece(find(after, "layers", layer), piece)
        dart = {"id": name, "label": label, "take_up": {level: take_up.strip()},
                "ends": {"top": top.strip(), "point": point.strip()}}  # fmt: skip
        owner["darts"] = [*(owner.get("darts") or []), dart]

    change(document, garment, edit, label)
    return name


def remove_level(document: Document, *, garment: str, level: str) -> None:
    """Take a level away, with every width and allowance given at it.

    Raises ``CannotChange`` where it is pinned, or where a part is joined.
    """
    written = garment_in(document, garment)
    for of in ("joined", "inserts"):
        for name, part in named(written, of):
            if level in (part.get("level"), part.get("from"), part.get("to")):
                label = label_in(part, name)
                raise CannotChange(f"{label} is joined here: take that off first.")

    def edit(after: Part) -> None:
        after["levels"] = [entry for name, entry in named(after, "levels") if name != level]
        after["ease"] = {name: one for name, one in (after.get("ease") or {}).items()
                         if name != level}  # fmt: skip
        for _, layer in named(after, "layers"):
            _without_level(layer, level)

    find(written, "levels", level)
    change(document, garment, edit)


def remove_piece(document: Document, *, garment: str, layer: str, piece: str) -> None:
    """Take a piece away, with the seams that join it; refused where something is pinned there."""

    def edit(after: Part) -> None:
        ring, entry = find_piece(find(after, "layers", layer), piece)
        ring["pieces"] = [one for one in ring["pieces"] if one is not entry]
        ring["seams"] = [seam for seam in ring.get("seams") or [] if piece not in seam["joins"]]

    change(document, garment, edit)


def remove_seam(document: Document, *, garment: str, layer: str, ring: str, seam: str) -> None:
    """Take a seam away; the cut widths stay, what was inside it is net now."""

    def edit(after: Part) -> None:
        owner = find(find(after, "layers", layer), "rings", ring)
        owner["seams"] = [entry for name, entry in named(owner, "seams") if name != seam]

    find(find(find(garment_in(document, garment), "layers", layer), "rings", ring), "seams", seam)
    change(document, garment, edit)


def remove_dart(document: Document, *, garment: str, layer: str, dart: str) -> None:
    """Take a dart away; the cut widths stay, what it took up is net now."""

    def edit(after: Part) -> None:
        _, _, piece, entry = find_dart(find(after, "layers", layer), dart)
        piece["darts"] = [one for one in piece["darts"] if one is not entry]

    change(document, garment, edit)


def _piece_ids(garment: Part) -> list[str]:
    return [name for _, layer in named(garment, "layers") for _, name, _ in pieces_in(layer)]


def _without_level(layer: Part, level: str) -> None:
    """Take a level out of every list and every value by level of a layer."""
    for _, ring in named(layer, "rings"):
        for part in (ring, *(ring.get("seams") or [])):
            for what in ("levels", "clipped"):
                if part.get(what) is not None:
                    part[what] = [one for one in part[what] if one != level]
        for seam in ring.get("seams") or []:
            for what in SHAPED:
                _forget(seam.get(what), level)
            seam["run"] = {way: to for way, to in (seam.get("run") or {}).items() if to != level}
    for _, piece_id, piece in pieces_in(layer):
        for what in ("width", "sum"):
            _forget(piece.get(what), level)
        for _, dart in darts_in(piece_id, piece):
            _forget(dart.get("take_up"), level)


def _forget(given: Any, level: str) -> None:
    if isinstance(given, dict):
        given.pop(level, None)
        for one in given.values():
            _forget(one, level)
