"""Pieces and their moves on the page, side by side at one scale."""

from collections.abc import Callable, Sequence

from core.said.piece_moves import LARGER, MovedPiece, bounds, widest_mm
from core.sheet.drawing import NEW_MM, OLD_DASH, OLD_MM
from core.sheet.flow import SMALL, STRONG, Flow
from core.sheet.paper import Point, Style

ROOM_MM = 19.0
"""What a piece has beside it for its amounts, on either side."""

TALLEST_MM = 104.0
_CENTRE_MM = 45.0
"""A piece whose cut edge is no further than this from its 0 has its fold or centre there."""

_SCALES = (2, 3, 4, 5, 6, 8, 10, 12, 15, 20, 25, 30, 40, 50)
_AMOUNT = Style(10.5, bold=True)
_LEVEL = Style(7.5, tone="soft")


def write_pieces(flow: Flow, title: str, pieces: Sequence[MovedPiece]) -> None:
    """Write the pieces of a layer, as many beside each other as there is room for."""
    if not pieces:
        return
    scale = _scale(flow, pieces)
    rows = _rows(flow, pieces, scale)
    flow.section(title, _row_mm(flow, rows[0], scale) + 12.0)
    flow.paragraph(
        f"Drawn 1 to {scale}; the moves {LARGER:.0f} times over. Dashed: the stitching as sewn."
        " Thick: the new line. Thin: the cut edge.",
        SMALL,
    )
    for row in rows:
        _write_row(flow, row, scale)


def _rows(flow: Flow, pieces: Sequence[MovedPiece], scale: int) -> list[list[MovedPiece]]:
    """Return the pieces row by row, as many beside each other as there is room for."""
    rows: list[list[MovedPiece]] = [[]]
    for piece in pieces:
        if rows[-1] and sum(_wide(one, scale) for one in [*rows[-1], piece]) > flow.width:
            rows.append([])
        rows[-1].append(piece)
    return rows


def _scale(flow: Flow, pieces: Sequence[MovedPiece]) -> int:
    """Return the largest scale at which two pieces lie beside each other."""
    tall = max(below - above for _, above, _, below in map(bounds, pieces))
    wide, beside = widest_mm(pieces), min(len(pieces), 2)
    return next(
        (scale for scale in _SCALES
         if tall / scale <= TALLEST_MM and beside * (wide / scale + 2 * ROOM_MM) <= flow.width),
        _SCALES[-1],
    )  # fmt: skip


def _wide(piece: MovedPiece, scale: int) -> float:
    left, _, right, _ = bounds(piece)
    return (right - left) / scale + 2 * ROOM_MM


def _heads(flow: Flow, row: Sequence[MovedPiece], scale: int) -> list[list[str]]:
    return [flow.paper.wrapped(_name(piece), _wide(piece, scale) - 2.0, STRONG) for piece in row]


def _row_mm(flow: Flow, row: Sequence[MovedPiece], scale: int) -> float:
    """Return how high a row is, its names included."""
    tall = max(bounds(piece)[3] for piece in row) - min(bounds(piece)[1] for piece in row)
    heads_mm = max(map(len, _heads(flow, row, scale))) * STRONG.line_mm
    return heads_mm + tall / scale + 7.0


def _write_row(flow: Flow, row: Sequence[MovedPiece], scale: int) -> None:
    height = _row_mm(flow, row, scale)
    flow.need(height)
    heads = _heads(flow, row, scale)
    below = flow.y + max(map(len, heads)) * STRONG.line_mm + 2.0
    top = min(bounds(piece)[1] for piece in row)
    x = flow.left
    for piece, lines in zip(row, heads, strict=True):
        flow.paper.write_lines(x + 2.0, flow.y, lines, STRONG)
        _draw(flow, piece, (x, below), top, scale)
        x += _wide(piece, scale)
    flow.y += height


def _name(piece: MovedPiece) -> str:
    return piece.outline.label + (f", her {piece.side}" if piece.side else "")


def _draw(flow: Flow, piece: MovedPiece, corner: Point, top: float, scale: int) -> None:
    """Draw one piece; her right is the mirror of her left, as it lies on her."""
    paper = flow.paper
    left, _, right, _ = bounds(piece)
    mirrored = piece.side == "right"

    def on_page(point: Point) -> Point:
        across = right - point[0] if mirrored else point[0] - left
        return corner[0] + ROOM_MM + across / scale, corner[1] + (point[1] - top) / scale

    outline = piece.outline
    for level in outline.levels:
        paper.line([on_page(level.start), on_page(level.end)], 0.15, tone="rule")
    paper.line([on_page(point) for point in (*outline.cut, outline.cut[0])], 0.2, tone="soft")
    for wedge in outline.darts:
        paper.line([on_page(point) for point in (*wedge.outline, wedge.outline[0])], 0.2,
                   tone="soft")  # fmt: skip
    paper.line([on_page(point) for point in (*outline.stitch, outline.stitch[0])], OLD_MM,
               dash=OLD_DASH)  # fmt: skip
    for line in piece.new:
        paper.line([on_page(point) for point in line], NEW_MM)
    for amount in piece.amounts:
        out = -amount.outwards if mirrored else amount.outwards
        edge = on_page((left if amount.outwards < 0 else right, amount.at[1]))
        paper.write(edge[0] + out * 1.5, edge[1] + _AMOUNT.capital_mm / 2, amount.text, _AMOUNT,
                    "left" if out > 0 else "right")  # fmt: skip
    _name_levels(flow, piece, on_page, scale)


def _name_levels(
    flow: Flow, piece: MovedPiece, on_page: Callable[[Point], Point], scale: int
) -> None:
    """Write each level's name on its line: from the centre, or in the middle of a panel."""
    paper = flow.paper
    for level in piece.outline.levels:
        y = level.start[1]
        room = (level.end[0] - level.start[0]) / scale - 3.0
        name = paper.clean(level.label.partition(",")[0])
        if paper.width_of(name, _LEVEL) > room:
            continue
        middle = (level.start[0] + level.end[0]) / 2
        from_centre = min(abs(level.start[0]), abs(level.end[0])) < _CENTRE_MM
        x, base = on_page((0.0 if from_centre else middle, y))
        to_right = on_page((middle, y))[0] > x
        if not from_centre:
            paper.write(x, base - 0.7, name, _LEVEL, "centre")
        elif to_right:
            paper.write(x + 1.6, base - 0.7, name, _LEVEL)
        else:
            paper.write(x - 1.6, base - 0.7, name, _LEVEL, "right")
