"""One width made wider or narrower, with the term of its sum that it comes from.

A change of an allowance, a dart or the ease is a change of one term: the width and the sum's
result go with it, so a number that was hers stays off its sum by what it was, and a sum that
gave its width still does.  Where a net width changes, the widths that lean on it follow
(*as at the hip*, *less the centre front*).
"""

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from core.draft.document import Part, find, label_in
from core.draft.marks import marks_of, mm_of
from core.draft.printed_sum import SumTerm, read_sum, write_exactly, write_sum
from core.lengths import SMALLEST_MM, Unit, read_length
from core.records.garment import Pair


@dataclass(frozen=True, slots=True)
class Term:
    """Which term of a sum changes: how it is known, and what it is called from now on."""

    matches: Callable[[SumTerm], bool]
    name: str


def called(*names: str) -> Term:
    """Return the term that has one of these names; a new one gets the first."""
    return Term(lambda term: term.name in names, names[0])


def worth(mm: float, name: str) -> Term:
    """Return the term of this name that is worth so much: two edges may have one name."""
    return Term(lambda term: term.name == name and abs(term.mm - mm) < SMALLEST_MM, name)


def shift_width(piece: Part, level: str, by: Pair, term: Term, unit: Unit) -> None:
    """Change a piece's width at a level by so much on left and right (mm), and its sum's term.

    A sum has one number: where the sides change unlike, it takes the larger change.
    """
    width = piece.get("width") or {}
    if level not in width or max(map(abs, by)) < SMALLEST_MM:
        return
    width[level] = shifted(width[level], by, unit)
    said = piece.get("sum") or {}
    if level in said:
        said[level] = shifted_sum(said[level], max(by, key=abs), term, unit)


def shifted(typed: Any, by: Pair, unit: Unit) -> Any:
    """Return a typed length, or one for left and right, made longer by so much each (mm)."""
    left, right = (
        write_exactly(read_length(one, unit).mm + mm, unit)
        for one, mm in zip(sides_of(typed), by, strict=True)
    )
    return left if left == right else {"left": left, "right": right}


def sides_of(typed: Any) -> tuple[Any, Any]:
    """Return what was typed for left and for right."""
    return (typed["left"], typed["right"]) if isinstance(typed, Mapping) else (typed, typed)


def shifted_sum(said: Any, mm: float, term: Term, unit: Unit) -> Any:
    """Return a printed sum with a term worth ``mm`` more; one that cannot be read stays."""
    printed = read_sum(said, unit) if isinstance(said, str) else None
    if printed is None:
        return said
    return write_sum(printed.changed(printed.find(term.matches), mm, term.name), unit)


def between_marks_mm(before_mm: float, after_mm: float, unit: Unit) -> float:
    """Return how much longer a length became as it is marked on the cloth (mm)."""
    return mm_of(marks_of(after_mm, unit) - marks_of(before_mm, unit), unit)


def shift_leaning(
    garment: Part, ring: Part, piece_id: str, level: str, mm: float, unit: Unit
) -> None:
    """Change every width of the ring that leans on this piece's net width at this level."""
    for other_id, other, at, name, sign in list(_leaning(garment, ring, piece_id, level, unit)):
        shift_width(other, at, (sign * mm, sign * mm), called(name), unit)
        shift_leaning(garment, ring, other_id, at, sign * mm, unit)


def _leaning(
    garment: Part, ring: Part, piece_id: str, level: str, unit: Unit
) -> Iterator[tuple[str, Part, str, str, int]]:
    """Yield who leans on a net width: piece, level, the term's name, and which way it goes."""
    own = next(piece for piece in ring["pieces"] if piece.get("id") == piece_id)
    as_here = f"as at the {label_in(find(garment, 'levels', level), level).lower()}"
    less = f"less the {label_in(own, piece_id).lower()}"
    for at, said in (own.get("sum") or {}).items():
        if at != level and _has(said, as_here, unit):
            yield piece_id, own, at, as_here, 1
    for other in ring["pieces"]:
        if other is not own and _has((other.get("sum") or {}).get(level), less, unit):
            yield str(other.get("id")), other, level, less, -1


def _has(said: object, name: str, unit: Unit) -> bool:
    printed = read_sum(said, unit) if isinstance(said, str) else None
    return printed is not None and printed.find(lambda term: term.name == name) is not None
