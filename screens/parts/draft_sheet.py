"""The cutting sheet: every piece of every layer in lines to mark the cloth from."""

from collections.abc import Iterator

from core.draft.document import named
from core.draft.sums import said
from core.outline.piece_outline import PieceOutline, piece_outlines
from core.records.garment import Layer, Ring
from core.sewn.shape import allowance_at
from screens.parts.draft_at import OnTheTable
from screens.parts.draft_rows import SheetRow

Line = tuple[str, str]


def cutting_sheet(on: OnTheTable) -> tuple[SheetRow, ...]:
    """Return the pieces to cut, layer by layer, then the parts joined to them."""
    return (*_pieces(on), *_parts(on))


def _pieces(on: OnTheTable) -> Iterator[SheetRow]:
    for layer in on.garment.layers:
        for outline in piece_outlines(on.garment, on.written, layer.id, on.unit):
            ring = next(ring for ring in layer.rings if ring.id == outline.ring)
            side = f", her {outline.side}" if outline.side else ""
            yield SheetRow(
                f"{outline.label}{side}, {outline.cut_as}", layer.label,
                (*_widths(on, outline), *_darts(on, layer, outline),
                 *_allowances(on, ring, outline)),
            )  # fmt: skip


def _widths(on: OnTheTable, outline: PieceOutline) -> Iterator[Line]:
    for line in outline.levels:
        down = said(on.garment.levels[line.level].down, on.unit)
        yield f"{line.label}, {down} down", said(line.width_mm, on.unit)


def _darts(on: OnTheTable, layer: Layer, outline: PieceOutline) -> Iterator[Line]:
    piece = next(piece for ring in layer.rings for piece in ring.pieces
                 if piece.id == outline.piece)  # fmt: skip
    for dart in piece.darts:
        for level, pair in dart.take_up.items():
            at = on.garment.levels[level].label.lower()
            yield f"{dart.label}, at the {at}", said(max(pair), on.unit)
        if dart.top is not None and dart.point is not None:
            top, point = said(dart.top, on.unit), said(dart.point, on.unit)
            yield f"{dart.label} from {top} to {point} down", ""


def _allowances(on: OnTheTable, ring: Ring, outline: PieceOutline) -> Iterator[Line]:
    for seam in ring.seams:
        if outline.piece not in seam.joins:
            continue
        found = [(level, allowance_at(on.garment, ring, seam, outline.piece, level) or 0.0)
                 for level in ring.levels_of(seam)]  # fmt: skip
        if len({round(mm, 2) for _, mm in found}) == 1:
            yield f"{seam.label}, allowance", said(found[0][1], on.unit)
        elif found:
            each = ", ".join(f"{said(mm, on.unit)} at the {on.garment.levels[level].label.lower()}"
                             for level, mm in found)  # fmt: skip
            yield f"{seam.label}, allowance: {each}", ""


def _parts(on: OnTheTable) -> Iterator[SheetRow]:
    for name, _ in named(on.written, "joined"):
        part = next(one for one in on.garment.joined if one.id == name)
        at = on.garment.levels[part.level].label.lower()
        lines: list[Line] = []
        if part.turns is not None:
            lines.append(("of a full circle", f"{part.turns:g}"))
        if part.inner_radius is not None:
            lines.append(("radius at its upper edge", said(part.inner_radius, on.unit)))
        if part.depth:
            lines.append(("deep", said(part.depth, on.unit)))
        yield SheetRow(part.label, f"joined at the {at}", tuple(lines))
