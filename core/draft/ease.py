"""The ease of a draft changed at a level: the widths whose rule has ease follow, by their share."""

import re
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from core.draft.before_cutting import finished_girth
from core.draft.document import (
    CannotChange,
    Document,
    Part,
    change,
    find,
    garment_in,
    label_in,
    named,
    pieces_in,
    read_draft,
    unit_of,
)
from core.draft.kinds import kind
from core.draft.marks import divided, marks_of, mm_of, write_marks
from core.draft.printed_sum import SumTerm, read_sum
from core.draft.width_shift import Term, shift_leaning, shift_width, shifted, shifted_sum
from core.errors import NotFound
from core.file.field import Field
from core.file.fitting_file import FittingFile, read_document
from core.file.reading_parts import read_ease
from core.lengths import Unit
from core.records.garment import Ease, Garment, Layer
from core.sewn.compare import body_at, ease_at

_EASE = re.compile(r"ease .+?(?: / (?P<parts>\d+))?")


def set_ease(document: Document, typed: str, *, garment: str, level: str, layer: str = "") -> None:
    """Set the ease at a level, of the whole garment or of one layer; kept as typed.

    A length, or a share of the girth (``4%``); negative is smaller than the body.  Each piece
    whose rule has ease there becomes wider by its share, and what leans on it follows; a piece
    that was set by hand stays as far off its sum as it was.  Where no rule has ease only the
    wanted girth changes.  Raises ``CannotChange`` with nothing changed.
    """
    written, unit = garment_in(document, garment), unit_of(document)
    file = read_document({**document, "garments": [written]})
    at = label_in(find(written, "levels", level), level).lower()

    def edit(after: Part) -> None:
        owner = find(after, "layers", layer) if layer else after
        owner["ease"] = {**(owner.get("ease") or {}), level: typed.strip()}
        wanted = read_ease(Field({level: typed}, "ease", unit))[level]
        for one in _touched(file, layer, level):
            _bring_layer(after, one.id, _change_of(file, one, level, wanted))
        if not layer:
            _bring_bands(after, _change_of(file, file.garments[0].layers[0], level, wanted))
        _bring_as_drafted(after, file, level)

    if not file.garments[0].layers:
        raise CannotChange("There is no layer yet to have ease. The draft is as it was.")
    change(document, garment, edit, f"Ease at the {at}")


@dataclass(frozen=True, slots=True)
class _Change:
    """The ease at a level before and after, in marks of the unit."""

    level: str
    before: int
    after: int
    unit: Unit

    def share_mm(self, parts: int) -> float:
        """Return what one of so many equal shares becomes longer by (mm)."""
        return mm_of(divided(self.after, parts) - divided(self.before, parts), self.unit)

    def term(self, parts: int) -> Term:
        over = "" if parts == 1 else f" / {parts}"
        return Term(_is_ease, f"ease {write_marks(self.after, self.unit)}{over}")


def _touched(file: FittingFile, layer: str, level: str) -> Iterator[Layer]:
    """Yield the layers that this ease counts for: the one, or all without an own."""
    for one in file.garments[0].layers:
        if one.id == layer or (not layer and level not in one.ease):
            yield one


def _change_of(file: FittingFile, layer: Layer, level: str, wanted: Ease) -> _Change:
    garment = file.garments[0]
    before, _ = ease_at(level, layer, garment, file.client, kind(garment.kind), None)
    taken = body_at(file.sittings, None).values.get(garment.levels[level].body)
    sides = [side for side in (taken[0].left, taken[0].right) if side is not None] if taken else []
    body = marks_of(max(sides, default=0.0), file.unit)  # the larger side, as a draft has it
    old, new = (_marks(ease, body, file.unit) for ease in (before, wanted))
    return _Change(level, old, new, file.unit)


def _marks(ease: Ease, body: int, unit: Unit) -> int:
    if ease.share is None:
        return marks_of(ease.mm, unit)
    return divided(round(body * ease.share * 1000), 1000)


def _bring_layer(garment: Part, layer: str, ease: _Change) -> None:
    """Make each piece with ease in its rule wider by its share, then what leans on it."""
    written = find(garment, "layers", layer)
    found = [(ring, name, piece, parts) for ring, name, piece in pieces_in(written)
             if (parts := _parts(garment, layer, name, piece, ease))]  # fmt: skip
    for ring, name, piece, parts in found:
        mm = ease.share_mm(parts)
        shift_width(piece, ease.level, (mm, mm), ease.term(parts), ease.unit)
        shift_leaning(garment, ring, name, ease.level, mm, ease.unit)


def _bring_bands(garment: Part, ease: _Change) -> None:
    """Make a band that is cut to this level's girth and ease longer by as much."""
    for _, part in named(garment, "joined"):
        if part.get("level") == ease.level and "cut" in part and _said_parts(part.get("sum"), ease):
            mm = ease.share_mm(1)
            part["cut"] = shifted(part["cut"], (mm, mm), ease.unit)
            part["sum"] = shifted_sum(part["sum"], mm, ease.term(1), ease.unit)


def _bring_as_drafted(after: Part, file: FittingFile, changed: str) -> None:
    """Where the ease is what the draft came to have, it is what it comes to have now."""
    before, now = file.garments[0], read_draft(after, file.unit)
    usual = kind(before.kind)
    for level in usual.ease_as_drafted if usual else ():
        written = after.get("ease") or {}
        grown = _first_round_mm(now, level) - _first_round_mm(before, level)
        if level != changed and level in written and before.ease[level].share is None:
            written[level] = shifted(written[level], (grown, grown), file.unit)


def _first_round_mm(garment: Garment, level: str) -> float:
    """Return the first layer's finished round at a level (mm); nothing where none is whole."""
    rings = garment.layers[0].rings
    return sum(finished_girth(garment, ring, level, None) for ring in rings
               if level in ring.levels and ring.whole_at(level))  # fmt: skip


def _parts(garment: Part, layer: str, name: str, piece: Part, ease: _Change) -> int:
    """Return by what the ease is divided in a piece's width; 0 where it has no part in it."""
    if ease.level not in (piece.get("width") or {}):
        return 0
    said = _said_parts((piece.get("sum") or {}).get(ease.level), ease)
    return said or _kind_parts(str(garment.get("kind", "")), layer, name, ease.level)


def _said_parts(said: Any, ease: _Change) -> int:
    printed = read_sum(said, ease.unit) if isinstance(said, str) else None
    term = printed.find(_is_ease) if printed else None
    found = _EASE.fullmatch(term.name) if term else None
    return int(found["parts"] or 1) if found else 0


def _kind_parts(kind_id: str, layer: str, piece: str, level: str) -> int:
    """Return it from the kind's rule: an ease of nothing stands in no sum."""
    usual = kind(kind_id)
    try:
        written = find(usual.template, "layers", layer) if usual else {}
    except NotFound:
        return 0
    rules = [entry["rule"] for _, name, entry in pieces_in(written) if name == piece]
    takes = [term if isinstance(term, str) else term["take"]
             for rule in rules for term in rule.get(level, [])]  # fmt: skip
    over = next((take.partition("/")[2] or "1" for take in takes if take.startswith("ease")), "0")
    return int(over)


def _is_ease(term: SumTerm) -> bool:
    return _EASE.fullmatch(term.name) is not None
