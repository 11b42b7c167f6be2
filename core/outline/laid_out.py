"""Outlines laid side by side on the table, none over another, at one scale (mm)."""

from collections.abc import Sequence
from dataclasses import dataclass

from core.outline.part_outline import PartOutline
from core.outline.piece_outline import PieceOutline
from core.outline.piece_top import piece_above, ring_above
from core.records.garment import Garment

GAP_MM = 150.0
"""Room for a cut width on either side, at a scale at which a piece fills a tablet."""

Outline = PieceOutline | PartOutline


@dataclass(frozen=True, slots=True)
class Laid:
    """An outline and how far it is moved: add ``right`` to its x and ``down`` to its y."""

    outline: Outline
    right: float
    down: float

    @property
    def bounds(self) -> tuple[float, float, float, float]:
        """Return where it lies: least x and y, greatest x and y."""
        left, top, right, bottom = self.outline.bounds
        return left + self.right, top + self.down, right + self.right, bottom + self.down


@dataclass(frozen=True, slots=True)
class Table:
    """Outlines laid out; ``width`` and ``height`` hold them all, from (0, 0)."""

    laid: tuple[Laid, ...]
    width: float
    height: float


def lay_out_pieces(
    outlines: Sequence[PieceOutline], garment: Garment, gap_mm: float = GAP_MM
) -> Table:  # fmt: skip
    """Lay a layer's pieces side by side, from centre front to centre back, ring after ring.

    All keep their heights, so a level runs straight through a ring.  A piece that goes on from
    one of a ring above lies under it.
    """
    columns: list[list[PieceOutline]] = []
    for outline in outlines:
        above = _column_above(outline, columns, garment)
        if above is None:
            columns.append([outline])
        else:
            above.append(outline)
    laid: list[Laid] = []
    x = 0.0
    for column in columns:
        bounds = [one.bounds for one in column]
        wide = max(right - left for left, _, right, _ in bounds)
        for one, (left, _, right, _) in zip(column, bounds, strict=True):
            laid.append(Laid(one, x + (wide - (right - left)) / 2 - left, 0.0))
        x += wide + gap_mm
    return _table(laid)


def lay_out_parts(outlines: Sequence[PartOutline], gap_mm: float = GAP_MM) -> Table:
    """Lay joined parts side by side, their tops on one line."""
    laid: list[Laid] = []
    x = 0.0
    for one in outlines:
        left, top, right, _ = one.bounds
        laid.append(Laid(one, x - left, -top))
        x += right - left + gap_mm
    return _table(laid)


def _table(laid: Sequence[Laid]) -> Table:
    """Return the outlines moved so that the whole begins at (0, 0)."""
    if not laid:
        return Table((), 0.0, 0.0)
    lefts, tops, rights, bottoms = zip(*(one.bounds for one in laid), strict=True)
    x, y = min(lefts), min(tops)
    moved = tuple(Laid(one.outline, one.right - x, one.down - y) for one in laid)
    return Table(moved, max(rights) - x, max(bottoms) - y)


def _column_above(
    outline: PieceOutline, columns: Sequence[list[PieceOutline]], garment: Garment
) -> list[PieceOutline] | None:  # fmt: skip
    """Return the column whose piece this one goes on from, if it lies above."""
    layer = garment.layer(outline.layer)
    ring = next((one for one in layer.rings if one.id == outline.ring), None) if layer else None
    above = ring_above(garment, layer, ring) if layer and ring else None
    if above is None or ring is None:
        return None
    wanted = piece_above(above, ring, outline.piece)
    for column in columns:
        last = column[-1]
        if (last.piece, last.ring) == (wanted, above.id) and last.side in (None, outline.side):
            return column
    return None
