"""Strip pages: how to print and use them, two squares to measure, and the pieces at full size."""

from collections.abc import Callable, Sequence

from core.lengths import Unit
from core.sheet.drawing import OLD_DASH
from core.sheet.flow import SMALL, Flow
from core.sheet.paper import Paper, Point, Style
from core.sheet.strips import LABEL_MM, OVERLAP_MM, Mark, Strip, Tile, laid_out
from core.wording import Words

EDGE_MM = 8.0
SQUARES_MM = (50.0, 50.8)
SQUARES_TOP_MM = 9.0
HEAD_MM = 82.0
"""Where the pieces begin: under the squares and the names of the strips."""

_FOOT_MM = 14.0
_FINE_MM = 4.0
"""A line is drawn through points this far apart."""

TITLE = Style(15, bold=True)
ADVICE = Style(10, bold=True)
HOW = Style(8.5)
NAME = Style(9.5, bold=True)
LEVEL = Style(10, bold=True)
BETWEEN = Style(8)
_NOTE = Style(7, tone="soft")
_ASIDE = Style(7.5)

_ADVICE = ("Print at 100 % (actual size, never fitted to the page). Then measure the squares: if"
           " they are not 50 mm and 2 in, the strips are wrong too.")  # fmt: skip
_HOW = (
    "Cut along the boxes; where a strip goes on, cross on cross.",
    "Dashed: lay it on the old stitching, level on level, the side that says garment towards the"
    " garment; turn the strip over where that lies the other way.",
    "Thick: the new line. ← in, to the garment; → out.",
)


def squares(paper: Paper) -> list[tuple[float, float, float]]:
    """Return where the squares lie: left, top and side (mm), the metric one first."""
    inch_left = paper.width - EDGE_MM - SQUARES_MM[1]
    return [
        (inch_left - 5.0 - SQUARES_MM[0], SQUARES_TOP_MM, SQUARES_MM[0]),
        (inch_left, SQUARES_TOP_MM, SQUARES_MM[1]),
    ]


def strip_pages(paper: Paper, strips: Sequence[Strip]) -> list[list[Tile]]:
    """Return the pieces page by page, as they lie on this paper."""
    area = (EDGE_MM, HEAD_MM, paper.width - EDGE_MM, paper.height - _FOOT_MM)
    return laid_out(strips, area)


def write_strips(
    flow: Flow, pages: Sequence[Sequence[Tile]], unit: Unit, done: Callable[[], None]
) -> None:
    """Write the strip pages."""
    for tiles in pages:
        flow.paper.page()
        _write_head(flow)
        for tile in tiles:
            _write_names(flow.paper, tile)
            _write_tile(flow.paper, tile, Words(unit))
        done()


def _write_head(flow: Flow) -> None:
    paper = flow.paper
    places = squares(paper)
    for (left, top, side), name in zip(places, ("50 mm", "2 in"), strict=True):
        paper.box(left, top, side, side, 0.2)
        paper.write(left + side / 2, top + side / 2 + ADVICE.capital_mm / 2, name, ADVICE, "centre")
    wide = places[0][0] - EDGE_MM - 6.0
    y = paper.write_lines(EDGE_MM, SQUARES_TOP_MM - 2.0, ["Move strips, full size"], TITLE)
    flow.write_running(EDGE_MM, y + SMALL.capital_mm, wide)
    y += SMALL.line_mm
    y = paper.write_lines(EDGE_MM, y + 0.6, paper.wrapped(_ADVICE, wide, ADVICE), ADVICE)
    for said in _HOW:
        y = paper.write_lines(EDGE_MM, y + 0.6, paper.wrapped(said, wide, HOW), HOW)


def _write_names(paper: Paper, tile: Tile) -> None:
    """Write what a piece is above it, where it is cut off: all of its name, in lines."""
    strip, wide = tile.strip, tile.strip.width_mm - 1.0
    lines = [(line, NAME) for line in paper.at_most(strip.title, wide, NAME, 2)]
    told = ", ".join(filter(None, [strip.whose, strip.edges]))
    lines += [(line, BETWEEN) for line in paper.at_most(told, wide, BETWEEN, 2)]
    piece = f", piece {tile.number} of {tile.of}" if tile.of > 1 else ""
    lines.append((f"strip {strip.number}{piece}", BETWEEN))
    y = tile.y - 1.0 - sum(style.line_mm for _, style in lines)
    for line, style in lines:
        y = paper.write_lines(tile.x, y, [line], style)


def _write_tile(paper: Paper, tile: Tile, words: Words) -> None:
    strip = tile.strip
    height = tile.end - tile.start
    paper.box(tile.x, tile.y, strip.width_mm, height, 0.15, dash=(0.8, 0.8))
    paper.line([tile.on_page(tile.start, 0.0), tile.on_page(tile.end, 0.0)], 0.3, dash=OLD_DASH)
    paper.line(_new_line(tile), 0.8)
    marks = [mark for mark in strip.marks if tile.start - 0.01 <= mark.down <= tile.end + 0.01]
    for mark in marks:
        _write_mark(paper, tile, mark)
    _write_labels(paper, tile, marks, words)
    _write_sides(paper, tile)
    _write_joins(paper, tile)


def _new_line(tile: Tile) -> list[Point]:
    count = max(1, round((tile.end - tile.start) / _FINE_MM))
    downs = [tile.start + (tile.end - tile.start) * step / count for step in range(count + 1)]
    downs += [mark.down for mark in tile.strip.marks if tile.start < mark.down < tile.end]
    return [tile.on_page(down, tile.strip.line.at(down)) for down in sorted(downs)]


def _write_mark(paper: Paper, tile: Tile, mark: Mark) -> None:
    """Draw a height: a line from the old stitching to the new, with an arrow at a level."""
    old, new = tile.on_page(mark.down, 0.0), tile.on_page(mark.down, mark.move)
    if mark.level:
        right = tile.x + tile.strip.words_mm - 1.0
        paper.line([(tile.x, old[1]), (right, old[1])], 0.12, tone="rule")
    paper.line([old, new], 0.25)
    paper.line([(old[0] - 1.0, old[1]), (old[0] + 1.0, old[1])], 0.25)
    if mark.level and abs(mark.move) > 3.0:
        paper.arrow(old, new, 0.25, 1.8)


def _write_labels(paper: Paper, tile: Tile, marks: Sequence[Mark], words: Words) -> None:
    """Write each mark's words at its height, further down where there is no room."""
    x = tile.x + tile.strip.words_mm
    blocks = [(_label(paper, mark, words), tile.on_page(mark.down, 0.0)[1]) for mark in marks]
    heights = [sum(style.line_mm for _, style in lines) for lines, _ in blocks]
    wished = [middle - height / 2 for (_, middle), height in zip(blocks, heights, strict=True)]
    tops = _apart(wished, heights, tile.y + 0.5, tile.y + tile.end - tile.start - 0.5)
    for (lines, middle), height, top in zip(blocks, heights, tops, strict=True):
        if abs(top + height / 2 - middle) > 0.6:
            paper.line([(x - 2.0, middle), (x - 0.6, top + height / 2)], 0.12, tone="soft")
        y = top
        for line, style in lines:
            y = paper.write_lines(x, y, [line], style)


def _label(paper: Paper, mark: Mark, words: Words) -> list[tuple[str, Style]]:
    amount = "nothing"
    if words.shows(mark.move):
        length = words.length(mark.move)
        amount = f"in {length} ←" if mark.move < 0 else f"out {length} →"
    if not mark.level:
        return [(amount, BETWEEN)]
    names = paper.at_most(mark.level, LABEL_MM - 6.0, LEVEL, 3)
    return [*((name, LEVEL) for name in names), (amount, LEVEL)]


def _apart(
    tops: Sequence[float], heights: Sequence[float], first: float, last: float
) -> list[float]:
    """Return where blocks begin so that none lies over the next and none leaves the piece."""
    placed: list[float] = []
    free = first
    for top, height in zip(tops, heights, strict=True):
        placed.append(max(top, free))
        free = placed[-1] + height
    limit = last
    for number in range(len(placed) - 1, -1, -1):
        placed[number] = min(placed[number], limit - heights[number])
        limit = placed[number]
    return placed


def _write_sides(paper: Paper, tile: Tile) -> None:
    """Write along the piece which side is the garment, what the lines are, and its name."""
    strip, middle = tile.strip, tile.y + (tile.end - tile.start) / 2
    room = tile.end - tile.start - (2.0 if tile.of == 1 else 4 * OVERLAP_MM)
    for x, text, style in (
        (tile.x + 2.2, "garment", _ASIDE),
        (tile.on_page(0.0, strip.let_out_mm)[0] + 3.4, "allowance", _ASIDE),
        (tile.x + strip.width_mm - 2.0, paper.at_most(_name(tile), room, _NOTE, 1)[0], _NOTE),
    ):
        if paper.width_of(text, style) <= room:
            paper.write_upright(x, middle, text, style, down=False)


def _name(tile: Tile) -> str:
    strip = tile.strip
    piece = f"piece {tile.number} of {tile.of}" if tile.of > 1 else ""
    said = [f"strip {strip.number}", strip.title.lower(), strip.whose, strip.edges, piece]
    return ", ".join(filter(None, said))


def _write_joins(paper: Paper, tile: Tile) -> None:
    """Draw the crosses that lie on those of the piece before and after."""
    joins = []
    if tile.number > 1:
        joins.append((tile.start + OVERLAP_MM / 2, tile.number - 1))
    if tile.number < tile.of:
        joins.append((tile.end - OVERLAP_MM / 2, tile.number))
    for down, join in joins:
        name = f"{tile.strip.number}{chr(ord('A') + (join - 1) % 26)}"
        y = tile.on_page(down, 0.0)[1]
        for x in (tile.x + 4.6, tile.x + tile.strip.width_mm - 7.0):
            paper.line([(x - 2.0, y), (x + 2.0, y)], 0.3)
            paper.line([(x, y - 2.0), (x, y + 2.0)], 0.3)
            paper.write(x + 0.5, y - 0.5, name, _NOTE._replace(tone="ink"))
