"""One cut width opened: the terms of its sum, ready to be shown."""

from dataclasses import dataclass

from core.draft.marks import MARK_MM
from core.draft.printed_sum import SumTerm, read_sum
from core.file.checking import net_width
from core.lengths import SMALLEST_MM, Unit, write_length
from core.records.answer import Side
from core.records.garment import SIDES, Garment, Layer, Piece, Ring
from core.sewn.shape import allowance_at, take_up_at

BY_HAND = "by hand"


@dataclass(frozen=True, slots=True)
class ShownTerm:
    """One term: its sign (nothing before the first, if it is added), amount and name."""

    sign: str
    amount: str
    name: str


@dataclass(frozen=True, slots=True)
class OpenedSum:
    """A cut width as its sum: ``8 1/4 body ÷ 4 + ... = 11 1/8 from the fold``.

    ``by_hand`` where she set the width: then the last term is what she added to it, and
    ``worked_out`` what it was without.  ``starts`` says from where it is measured on the cloth.
    """

    title: str
    terms: tuple[ShownTerm, ...]
    result: str
    starts: str
    by_hand: bool
    worked_out: str


def said(mm: float, unit: Unit) -> str:
    """Return a length as a draft shows it, to the finest mark.

    >>> said(11.125 * 25.4, "in"), said(282.5, "cm"), said(282.5, "mm")
    ('11 1/8', '28.25', '282.5')
    """
    return write_length(mm, unit, fraction=32, fine=True)


def open_sum(
    garment: Garment, layer: Layer, ring: Ring, piece: Piece, level: str, unit: Unit,
    side: Side | None = None,
) -> OpenedSum:  # fmt: skip
    """Return the sum of a piece's cut width at a level, on one side where the two are unlike.

    Where no sum is printed it is the finished width, the darts and each allowance.
    """
    width = piece.width[level][SIDES.index(side or "left")]
    printed = read_sum(piece.sums.get(level, ""), unit)
    own = printed is not None and abs(width - printed.result_mm) > MARK_MM[unit] / 2
    terms = printed.terms if printed else _from_record(garment, ring, piece, level, side)
    if printed and own:
        terms = (*terms, SumTerm(width - printed.worth_mm, BY_HAND))
    at = garment.levels[level].label.lower()
    return OpenedSum(
        title=f"{piece.label} at the {at}{f', her {side}' if side else ''}",
        terms=shown_terms(terms, unit),
        result=said(width, unit),
        starts="from the fold" if piece.fold else "edge to edge",
        by_hand=printed is None or own,
        worked_out=said(printed.result_mm, unit) if printed and own else "",
    )


def shown_terms(terms: tuple[SumTerm, ...], unit: Unit) -> tuple[ShownTerm, ...]:
    """Return terms with their signs, a share of something as ``waist 30 ÷ 4``."""
    return tuple(
        ShownTerm("-" if term.mm < 0 else "+" if at else "", said(abs(term.mm), unit),
                  term.name.replace(" / ", " ÷ "))
        for at, term in enumerate(terms)
    )  # fmt: skip


def _from_record(
    garment: Garment, ring: Ring, piece: Piece, level: str, side: Side | None
) -> tuple[SumTerm, ...]:
    index = SIDES.index(side or "left")
    terms = [SumTerm(net_width(garment, ring, piece, level, index), "finished")]
    terms += [SumTerm(take_up_at(dart, garment.levels, level)[index], dart.label.lower())
              for dart in piece.darts]  # fmt: skip
    for seam in ring.seams:
        if piece.id in seam.joins and level in ring.levels_of(seam):
            inside = allowance_at(garment, ring, seam, piece.id, level) or 0.0
            edges = 2 if ring.kind == "closed" and seam.joins_itself else 1
            terms += [SumTerm(inside, f"{seam.label.lower()} allowance")] * edges
    return tuple(term for term in terms if abs(term.mm) > SMALLEST_MM)
