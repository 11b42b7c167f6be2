"""A dart's take-up and ends changed by hand; the cut widths follow, the finished ones stay.

Where a dart takes up what is read off straight between its ends and its other levels, that
level follows the ends and the heights; where it does not, it stays as it was given.
"""

from collections.abc import Mapping
from dataclasses import replace
from typing import Any

from core.draft.by_hand import ByHand, end_by_rule
from core.draft.document import (
    Document,
    Part,
    change,
    darts_in,
    find,
    find_dart,
    garment_in,
    label_in,
    length_mm,
    named,
    pieces_in,
    record_of,
    unit_of,
)
from core.draft.kinds import Kind
from core.draft.marks import MARK_MM, marks_of, mm_of
from core.draft.printed_sum import write_exactly
from core.draft.width_shift import called, shift_width
from core.file.field import Field
from core.file.reading_parts import read_pair
from core.lengths import SMALLEST_MM, Unit, read_length
from core.records.garment import Dart, Garment, Level, Pair
from core.sewn.shape import take_up_at

_NO_PAIR = (0.0, 0.0)


def set_take_up(
    document: Document, typed: str, *, garment: str, layer: str, dart: str, level: str
) -> None:
    """Set how much a dart takes up at a level, on left and right alike; kept as typed.

    The cut width grows or shrinks with it, so that the finished one stays; levels that are
    read off straight follow.  Raises ``BadLength`` or ``CannotChange`` with nothing changed.
    """
    length_mm(typed, document)
    _change_dart(document, garment, layer, dart, {level: typed.strip()}, {})


def set_end(
    document: Document, typed: str, *, garment: str, layer: str, dart: str, end: str
) -> None:
    """Set how far down a dart begins (``top``) or ends (``point``); kept as typed.

    A level that comes to lie outside has no take-up any more.  Raises ``BadLength`` or
    ``CannotChange`` with nothing changed.
    """
    length_mm(typed, document, least=-float("inf"))
    _change_dart(document, garment, layer, dart, {}, {end: typed.strip()})


def _change_dart(
    document: Document, garment: str, layer: str, dart: str,
    take_up: Mapping[str, str], ends: Mapping[str, str],
) -> None:  # fmt: skip
    unit = unit_of(document)

    def edit(after: Part) -> None:
        before = record_of(after, unit)
        _, _, piece, entry = find_dart(find(after, "layers", layer), dart)
        was = dart_of(before, layer, dart)
        given = {**_given(entry, was, before.levels, unit), **take_up}
        entry["ends"] = {**(entry.get("ends") or {}), **ends}
        _write_take_up(entry, piece, given, before.levels, unit)
        _bring_widths(piece, entry, was, before.levels, before.levels, unit)

    written = find(garment_in(document, garment), "layers", layer)
    change(document, garment, edit, label_in(find_dart(written, dart)[3], dart))


def follow_heights(
    after: Part, before: Garment, kind: Kind | None, hers: ByHand, unit: Unit
) -> None:
    """Bring every dart after heights that have changed, and the cut widths after the darts.

    ``before`` is the garment as it was, ``hers`` what was hers then: those ends stay.  The
    others go where the kind's rule has them now.
    """
    levels = record_of({**after, "layers": [], "fittings": []}, unit).levels
    for layer, written in named(after, "layers"):
        for _, piece_id, piece in pieces_in(written):
            for name, entry in darts_in(piece_id, piece):
                was = dart_of(before, layer, name)
                given = _given(entry, was, before.levels, unit)
                for end in entry.get("ends") or {}:
                    down = end_by_rule(kind, layer, name, end, levels, unit)
                    if (layer, name, end) not in hers.ends and down is not None:
                        entry["ends"][end] = write_exactly(down, unit)
                _write_take_up(entry, piece, given, levels, unit)
                _bring_widths(piece, entry, was, before.levels, levels, unit)


def dart_of(garment: Garment, layer: str, name: str) -> Dart:
    """Return the record of a dart; the layer must have one of this name."""
    found = garment.layer(layer)
    rings = found.rings if found else ()
    return next(dart for ring in rings for piece in ring.pieces for dart in piece.darts
                if dart.id == name)  # fmt: skip


def _given(
    entry: Part, dart: Dart, levels: Mapping[str, Level], unit: Unit
) -> dict[str, Any]:
    """Return the take-ups, as typed, that are not read off straight from the others."""
    kept = dict(dart.take_up)
    widest = max(kept, key=lambda level: sum(kept[level]), default="")
    for level in [name for name in dart.take_up if name != widest]:
        rest = replace(dart, take_up={name: kept[name] for name in kept if name != level})
        straight = take_up_at(rest, levels, level)
        if _alike(straight, dart.take_up[level], unit):
            del kept[level]
    return {level: entry["take_up"][level] for level in kept}


def _alike(first: Pair, second: Pair, unit: Unit) -> bool:
    return all(abs(a - b) <= MARK_MM[unit] / 2 + SMALLEST_MM
               for a, b in zip(first, second, strict=True))  # fmt: skip


def _write_take_up(
    entry: Part, piece: Part, given: Mapping[str, Any], levels: Mapping[str, Level], unit: Unit
) -> None:
    """Write what is given inside the dart's ends, and read off every other level it crosses."""
    dart = _read_dart({**entry, "take_up": dict(given)}, unit)
    top, point = dart.top, dart.point
    inside = {level: pair for level, pair in dart.take_up.items()
              if top is None or point is None
              or top - SMALLEST_MM <= levels[level].down <= point + SMALLEST_MM}  # fmt: skip
    dart = replace(dart, take_up=inside)
    read = {level: _mark(take_up_at(dart, levels, level), unit)
            for level in piece.get("width") or {}}  # fmt: skip
    entry["take_up"] = {
        level: given[level] if level in inside else _typed(read[level], unit)
        for level in sorted({*inside, *read}, key=lambda level: levels[level].down)
        if level in inside or read[level] != _NO_PAIR
    }


def _bring_widths(
    piece: Part, entry: Part, was: Dart,
    before: Mapping[str, Level], after: Mapping[str, Level], unit: Unit,
) -> None:  # fmt: skip
    """Make the piece wider by what the dart takes up more, as it is marked on the cloth."""
    dart = _read_dart(entry, unit)
    label = label_in(entry, was.id).lower()
    term = called("darts" if len(piece["darts"]) > 1 else "dart", "dart", "darts", label)
    for level in piece.get("width") or {}:
        old, new = (_mark(take_up_at(one, levels, level), unit)
                    for one, levels in ((was, before), (dart, after)))  # fmt: skip
        shift_width(piece, level, _more(old, new), term, unit)


def _more(old: Pair, new: Pair) -> Pair:
    return new[0] - old[0], new[1] - old[1]


def _mark(pair: Pair, unit: Unit) -> Pair:
    left, right = (mm_of(marks_of(mm, unit), unit) for mm in pair)
    return left, right


def _typed(pair: Pair, unit: Unit) -> Any:
    left, right = (write_exactly(mm, unit) for mm in pair)
    return left if left == right else {"left": left, "right": right}


def _read_dart(entry: Part, unit: Unit) -> Dart:
    """Return the record of a dart as it is written; raises ``BadFile`` or ``BadLength``."""
    ends = entry.get("ends") or {}
    top, point = (read_length(ends[end], unit).mm if end in ends else None
                  for end in ("top", "point"))  # fmt: skip
    take_up = Field(entry.get("take_up"), "take_up", unit)
    return Dart("", "", {level: read_pair(typed) for level, typed in take_up.items()},
                top=top, point=point)  # fmt: skip
