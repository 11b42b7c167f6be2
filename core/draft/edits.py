"""Numbers of a draft changed by hand: a width, a height, the drop.

Each works on a document that is the caller's own: it is changed, or the edit is refused with a
``WorkroomError`` and nothing is changed.  What was typed is kept as it was typed.
"""

from collections.abc import Mapping
from math import ceil, floor
from typing import Any

from core.draft.by_hand import by_hand
from core.draft.darts import follow_heights
from core.draft.document import (
    CannotChange,
    Document,
    Part,
    change,
    find,
    find_piece,
    garment_in,
    label_in,
    length_mm,
    levels_of_ring,
    named,
    record_of,
    unit_of,
)
from core.draft.kinds import Kind, kind
from core.draft.parts import follow_levels
from core.draft.printed_sum import read_sum
from core.draft.width_shift import between_marks_mm, called, shifted, shifted_sum, sides_of
from core.file.field import Field
from core.file.reading import PLACES, read_settings
from core.lengths import Unit, read_length, write_length
from core.records.answer import Side
from core.records.garment import SIDES

_NEARLY = 1e-6


def set_width(
    document: Document, typed: str, *,
    garment: str, layer: str, piece: str, level: str, side: Side | None = None,
) -> None:  # fmt: skip
    """Set a piece's cut width at a level, on one side or on both; kept as typed.

    Only this number changes; its sum stays, so that it is seen to be hers.  Raises
    ``BadLength`` or ``CannotChange`` (less than its allowances and darts, below nothing).
    """
    length_mm(typed, document)
    written = garment_in(document, garment)
    where = place_words(written, layer, piece, level)

    def edit(after: Part) -> None:
        ring, entry = find_piece(find(after, "layers", layer), piece)
        _reach(after, ring, level)
        width = entry.setdefault("width", {})
        width[level] = with_side(width.get(level), typed.strip(), side)

    change(document, garment, edit, where)


def step_width(
    document: Document, steps: int, *,
    garment: str, layer: str, piece: str, level: str, side: Side | None = None,
) -> None:  # fmt: skip
    """Make a cut width wider or narrower by whole steps of the garment; it lands on a step.

    Raises ``NotFound`` where the piece has no width there, else as ``set_width``.
    """
    written = garment_in(document, garment)
    _, entry = find_piece(find(written, "layers", layer), piece)
    if level not in (entry.get("width") or {}):
        raise CannotChange("There is no width here yet: type one first. The draft is as it was.")
    left, right = sides_of(entry["width"][level])
    typed = stepped(right if side == "right" else left, steps, written, unit_of(document))
    set_width(
        document, typed, garment=garment, layer=layer, piece=piece, level=level, side=side
    )  # fmt: skip


def clear_width(document: Document, *, garment: str, layer: str, piece: str, level: str) -> None:
    """Take a piece's width at a level away, with its sum: the piece does not reach there."""

    def edit(after: Part) -> None:
        _, entry = find_piece(find(after, "layers", layer), piece)
        for numbers in (entry.get("width") or {}, entry.get("sum") or {}):
            numbers.pop(level, None)

    where = place_words(garment_in(document, garment), layer, piece, level)
    change(document, garment, edit, where)


def set_height(
    document: Document, typed: str, *, garment: str, level: str, place: str = ""
) -> None:
    """Set how far down a level lies, all round or at the front, side or back; kept as typed.

    Dart ends that the kind ties to a level go with it, and the widths with the darts.  Raises
    ``BadLength`` or ``CannotChange`` (levels run top to bottom).
    """
    length_mm(typed, document, least=-float("inf"))
    if place and place not in PLACES:
        raise CannotChange(f"“{place}” is not front, side or back. The draft is as it was.")

    def edit(after: Part) -> None:
        entry = find(after, "levels", level)
        entry["down"] = _at_place(entry.get("down"), typed.strip(), place)

    _change_heights(document, garment, edit, level)


def step_height(document: Document, steps: int, *, garment: str, level: str) -> None:
    """Put a level lower or higher by whole steps of the garment."""
    written = garment_in(document, garment)
    entry = find(written, "levels", level)
    if isinstance(entry.get("down", "0"), Mapping):
        raise CannotChange("Front, side and back have heights of their own here: type them.")
    typed = stepped(entry.get("down", "0"), steps, written, unit_of(document), least_mm=None)
    set_height(document, typed, garment=garment, level=level)


def set_drop(document: Document, typed: str, *, garment: str) -> None:
    """Set how far below the side neck point the garment starts; kept as typed.

    Every height that is taken from the side neck goes up by as much as the drop grows, with
    its sum; without a kind to say which, every level does.
    """
    mm = length_mm(typed, document)
    written, unit = garment_in(document, garment), unit_of(document)
    more = between_marks_mm(read_length(written.get("drop", "0"), unit).mm, mm, unit)
    moving = levels_from_neck(written, kind(str(written.get("kind", ""))))

    def edit(after: Part) -> None:
        after["drop"] = typed.strip()
        labels = [label_in(find(after, "levels", name), name).lower() for name in moving]
        for name in moving:
            entry = find(after, "levels", name)
            entry["down"] = _lifted(entry.get("down", "0"), more, unit)
            if "sum" in entry:
                entry["sum"] = _sum_lifted(entry["sum"], more, [*labels, "drop"], unit)

    _change_heights(document, garment, edit, "")


def levels_from_neck(garment: Part, usual: Kind | None) -> list[str]:
    """Return the levels whose heights lean on the drop, by the kind's rules."""
    rules = {level["id"]: level["rule"] for level in usual.template["levels"]} if usual else {}
    found: list[str] = []
    for name, entry in named(garment, "levels"):
        takes = [term if isinstance(term, str) else term["take"] for term in rules.get(name, [])]
        leans = "-drop" in takes or any(f"down:{above}" in takes for above in found)
        if leans or (name not in rules and not entry.get("from")):
            found.append(name)
    return found


def place_words(garment: Part, layer: str, piece: str, level: str) -> str:
    """Return ``Front at the waist``; raises ``NotFound`` where there is no such place."""
    _, entry = find_piece(find(garment, "layers", layer), piece)
    at = label_in(find(garment, "levels", level), level).lower()
    return f"{label_in(entry, piece)} at the {at}"


def with_side(before: Any, typed: str, side: Side | None) -> Any:
    """Return a typed length for both sides, or what there was with one side of it anew."""
    if side is None or before is None:
        return typed
    pair = dict(zip(SIDES, sides_of(before), strict=True)) | {side: typed}
    return typed if pair["left"] == pair["right"] else pair


def stepped(
    typed: object, steps: int, garment: Part, unit: Unit, *, least_mm: float | None = 0.0
) -> str:
    """Return a length so many whole steps of the garment further, landing on a step.

    Raises ``CannotChange`` below ``least_mm``.
    """
    step_mm = step_of(garment, unit)
    share = read_length(typed, unit).mm / step_mm
    whole = (floor(share + _NEARLY) if steps > 0 else ceil(share - _NEARLY)) + steps
    if least_mm is not None and whole * step_mm < least_mm - _NEARLY:
        raise CannotChange("It cannot be less than nothing. The draft is as it was.")
    return write_length(whole * step_mm, unit, fraction=32, fine=True)


def step_of(garment: Part, unit: Unit) -> float:
    """Return the garment's own step in mm."""
    return read_settings(Field(garment.get("settings"), "settings", unit)).step


def _change_heights(document: Document, garment: str, edit: Any, level: str) -> None:
    unit = unit_of(document)
    written = garment_in(document, garment)
    usual = kind(str(written.get("kind", "")))
    hers, before = by_hand(written, usual, unit), record_of(written, unit)

    def whole(after: Part) -> None:
        edit(after)
        follow_heights(after, before, usual, hers, unit)
        follow_levels(after, before, unit)

    what = label_in(find(written, "levels", level), level) if level else "Drop"
    change(document, garment, whole, what)


def _reach(garment: Part, ring: Part, level: str) -> None:
    """Let a ring that lists its levels reach one more, in the garment's order."""
    find(garment, "levels", level)
    if ring.get("levels") is not None and level not in ring["levels"]:
        there = {*levels_of_ring(garment, ring), level}
        ring["levels"] = [name for name, _ in named(garment, "levels") if name in there]


def _at_place(before: Any, typed: str, place: str) -> Any:
    if not place:
        return typed
    if isinstance(before, Mapping):
        return {**before, place: typed}
    alike = typed if before is None else before
    return {**dict.fromkeys(("front", "side", "back"), alike), place: typed}


def _lifted(typed: Any, more_mm: float, unit: Unit) -> Any:
    if isinstance(typed, Mapping):
        return {place: _lifted(one, more_mm, unit) for place, one in typed.items()}
    return shifted(typed, (-more_mm, -more_mm), unit)


def _sum_lifted(said: Any, more_mm: float, names: list[str], unit: Unit) -> Any:
    """Take more drop off a height's sum: off the level it leans on, else off the drop."""
    printed = read_sum(said, unit) if isinstance(said, str) else None
    found = printed.find(lambda term: term.name in names) if printed else None
    name = found.name if found else "drop"
    return shifted_sum(said, -more_mm, called(name), unit)
