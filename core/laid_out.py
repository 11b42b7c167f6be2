"""Outlines laid side by side on the table, none over another, at one scale (mm)."""

from collections.abc import Sequence
from dataclasses import dataclass

from core.garment import Layer
from core.part_outline import PartOutline
from core.piece_outline import PieceOutline

GAP_MM = 60.0

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
    outlines: Sequence[PieceOutline], layer: Layer, gap_mm: float = GAP_MM
) -> Table:  # fmt: skip
    """Lay a layer's pieces side by side, from centre front to centre back, ring after ring.

    All keep their heights, so a level runs straight through a ring.  A piece that goes on from
    one of a ring above (by a seam of the same id) lies under it.
    """
    columns: list[list[PieceOutline]] = []
    for outline in outlines:
        above = _column_above(outline, columns, layer)
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
    outline: PieceOutline, columns: Sequence[list[PieceOutline]], layer: Layer
) -> list[PieceOutline] | None:  # fmt: skip
    """Return the column whose piece this one goes on from: a ring above, a seam of one id."""
    ring = next(one for one in layer.rings if one.id == outline.ring)
    here = {seam.id for seam in ring.seams if outline.piece in seam.joins}
    at = [piece.id for piece in ring.pieces].index(outline.piece)
    for column in columns:
        last = column[-1]
        above = next(one for one in layer.rings if one.id == last.ring)
        shared = {seam.id for seam in above.seams if last.piece in seam.joins} & here
        same_place = [piece.id for piece in above.pieces].index(last.piece) == at
        below = last.bounds[3] <= outline.bounds[1] + 1.0
        if above is not ring and shared and same_place and below and last.side == outline.side:
            return column
    return None
