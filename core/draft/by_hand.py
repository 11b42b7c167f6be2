"""What in a draft she changed by hand: the numbers that their own sums no longer give.

A width or a height is hers where its printed sum, worked again, comes to something else, or
where it has no sum at all (a height of nothing needs none).  A dart's take-up is hers where it
is neither the kind's nor what is read off straight between the kind's and the ends; an end is
hers where the kind's rule, worked from the heights that the draft has now, gives another.
Nothing has to be marked, so a draft that was changed elsewhere is understood as well.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from core.draft.document import darts_in, find, named, pieces_in, record_of
from core.draft.kinds import Kind
from core.draft.marks import MARK_MM, marks_of, mm_of
from core.draft.printed_sum import read_sum
from core.draft.rule_terms import Place, Sheet, terms_of, total
from core.errors import NotFound
from core.lengths import SMALLEST_MM, Unit, read_length
from core.records.garment import Dart, Garment, Level, Ring
from core.sewn.shape import take_up_at


@dataclass(frozen=True, slots=True)
class ByHand:
    """What is hers: widths and take-ups by layer, part and level; ends by layer and dart."""

    widths: frozenset[tuple[str, str, str]]
    heights: frozenset[str]
    take_ups: frozenset[tuple[str, str, str]]
    ends: frozenset[tuple[str, str, str]]


NOTHING_BY_HAND = ByHand(frozenset(), frozenset(), frozenset(), frozenset())


def by_hand(garment: Mapping[str, Any], kind: Kind | None, unit: Unit) -> ByHand:
    """Return what she changed by hand in a garment of the document.

    Without its ``kind`` every dart is hers.  Raises ``BadFile`` where it cannot be read.
    """
    record = record_of(dict(garment), unit)
    return ByHand(
        widths=frozenset(_widths(garment, record, unit)),
        heights=frozenset(_heights(garment, unit)),
        take_ups=frozenset(_take_ups(garment, record, kind, unit)),
        ends=frozenset(_ends(garment, record, kind, unit)),
    )


def is_hers(typed: object, said: object, unit: Unit) -> bool:
    """Tell whether a number is no longer what its printed sum gives.

    >>> is_hers("8 1/2", "7 1/2 (waist 30 / 4) + 1 (dart) = 8 1/2", "in")
    False
    >>> is_hers("8 3/4", "7 1/2 (waist 30 / 4) + 1 (dart) = 8 1/2", "in")
    True
    """
    printed = read_sum(said, unit) if isinstance(said, str) else None
    if printed is None:
        return True
    sides = typed.values() if isinstance(typed, Mapping) else (typed,)
    return any(abs(read_length(side, unit).mm - printed.result_mm) > MARK_MM[unit] / 2
               for side in sides)  # fmt: skip


def _widths(
    garment: Mapping[str, Any], record: Garment, unit: Unit
) -> Iterator[tuple[str, str, str]]:
    for layer in record.layers:
        written = find(garment, "layers", layer.id)
        for _, piece_id, piece in pieces_in(written):
            for level, typed in (piece.get("width") or {}).items():
                if is_hers(typed, (piece.get("sum") or {}).get(level), unit):
                    yield layer.id, piece_id, level


def _heights(garment: Mapping[str, Any], unit: Unit) -> Iterator[str]:
    for name, level in named(garment, "levels"):
        typed, said = level.get("down"), level.get("sum")
        if typed is None or (said is None and _is_nothing(typed, unit)):
            continue
        if isinstance(typed, Mapping) or is_hers(typed, said, unit):
            yield name


def _is_nothing(typed: object, unit: Unit) -> bool:
    return not isinstance(typed, Mapping) and read_length(typed, unit).mm == 0


def _take_ups(
    garment: Mapping[str, Any], record: Garment, kind: Kind | None, unit: Unit
) -> Iterator[tuple[str, str, str]]:
    for layer_id, ring, dart, _ in _darts(garment, record):
        usual = _in_kind(kind, layer_id, dart.id)
        given = {
            level: _mark(mm, unit)
            for level, (mm, _) in kind.darts[layer_id, dart.id].take_up.items()
        } if kind is not None and usual is not None else {}  # fmt: skip
        straight = Dart(dart.id, dart.label, {
            level: (mm, mm) for level, mm in given.items() if level in ring.levels
        }, top=dart.top, point=dart.point)  # fmt: skip
        for level, pair in dart.take_up.items():
            expected = take_up_at(straight, record.levels, level)[0]
            if usual is None or any(abs(mm - expected) > MARK_MM[unit] / 2 for mm in pair):
                yield layer_id, dart.id, level


def _ends(
    garment: Mapping[str, Any], record: Garment, kind: Kind | None, unit: Unit
) -> Iterator[tuple[str, str, str]]:
    for layer_id, _, dart, written in _darts(garment, record):
        for end, down in (("top", dart.top), ("point", dart.point)):
            if end not in (written.get("ends") or {}) or down is None:
                continue
            expected = end_by_rule(kind, layer_id, dart.id, end, record.levels, unit)
            if expected is None or abs(down - expected) > MARK_MM[unit] / 2 + SMALLEST_MM:
                yield layer_id, dart.id, end


def end_by_rule(
    kind: Kind | None, layer: str, dart: str, end: str, levels: Mapping[str, Level], unit: Unit
) -> float | None:
    """Return where the kind's rule has a dart's end at these heights (mm).

    ``None`` where the kind has no such dart, or its rule asks for more than the heights.
    """
    usual = _in_kind(kind, layer, dart)
    if usual is None:
        return None
    sheet = Sheet(
        unit, {}, 0, {}, {},
        levels={name: {"label": level.label} for name, level in levels.items()},
        down={name: marks_of(level.down, unit) for name, level in levels.items()},
    )  # fmt: skip
    try:
        found = total(terms_of(usual["ends"][end], sheet, Place()))
    except KeyError:  # a level that this draft does not have
        return None
    return None if sheet.missing else mm_of(found, unit)


def _darts(
    garment: Mapping[str, Any], record: Garment
) -> Iterator[tuple[str, Ring, Dart, dict[str, Any]]]:
    for layer in record.layers:
        written = {
            name: dart
            for _, piece_id, piece in pieces_in(find(garment, "layers", layer.id))
            for name, dart in darts_in(piece_id, piece)
        }
        for ring in layer.rings:
            for piece in ring.pieces:
                for dart in piece.darts:
                    yield layer.id, ring, dart, written[dart.id]


def _in_kind(kind: Kind | None, layer: str, dart: str) -> dict[str, Any] | None:
    """Return a dart's entry in the kind's template, or ``None``."""
    if kind is None or (layer, dart) not in kind.darts:
        return None
    try:
        template = find(kind.template, "layers", layer)
    except NotFound:
        return None
    return next((entry for _, piece_id, piece in pieces_in(template)
                 for name, entry in darts_in(piece_id, piece) if name == dart), None)  # fmt: skip


def _mark(mm: float, unit: Unit) -> float:
    return mm_of(marks_of(mm, unit), unit)
