"""The text of a sheet as it runs down the pages: headings, paragraphs, lists and tables."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

from core.sheet.paper import Align, Paper, Style

MARGIN_MM = 15.0
TOP_MM = 21.0
FOOT_MM = 17.0

BODY = Style(11)
STRONG = Style(11, bold=True)
SMALL = Style(9, tone="soft")
CELL = Style(10.5)
CELL_HEAD = Style(8.5, tone="soft")
SECTION = Style(15, bold=True)
PAD_MM = 1.6


@dataclass(frozen=True, slots=True)
class Column:
    """One column of a table: its head, its share of the width, and which way it lies."""

    head: str
    share: float
    align: Align = "left"
    bold: bool = False


class Flow:
    """Where the next thing goes on the paper; begins a page when there is no more room."""

    def __init__(self, paper: Paper, garment: str, client: str) -> None:
        """The garment and the client stand at the head of every page but the first."""
        self.paper = paper
        self.garment, self.client = garment, client
        self.left, self.right = MARGIN_MM, paper.width - MARGIN_MM
        self.y = 0.0
        self.new_page()

    @property
    def width(self) -> float:
        return self.right - self.left

    @property
    def bottom(self) -> float:
        return self.paper.height - FOOT_MM

    @property
    def left_over(self) -> float:
        """Return how much of the page is left, in mm."""
        return self.bottom - self.y

    def new_page(self) -> None:
        """Begin a page with its running head."""
        self.paper.page()
        self.y = MARGIN_MM
        if self.paper.pages > 1:
            self.write_running(self.left, 12.0, self.width)
            self.y = TOP_MM

    def write_running(self, x: float, y: float, width: float) -> None:
        """Write the garment at the left and the client at the right of ``width`` mm."""
        for name, share, align, at in (
            (self.garment, 0.58, "left", x), (self.client, 0.38, "right", x + width)
        ):  # fmt: skip
            text = self.paper.at_most(name, share * width, SMALL, 1)[0]
            self.paper.write(at, y, text, SMALL, "left" if align == "left" else "right")

    def finish(self) -> None:
        """Write at the foot of every page which of how many it is."""
        y = self.paper.height - 9.0
        pages = self.paper.pages
        for page in range(1, pages + 1):
            self.paper.turn_to(page)
            self.paper.write(self.right, y, f"{page} of {pages}", SMALL, "right")
            self.paper.write(self.left, y, "Pins to Seams. Left and right are her own.", SMALL)

    def need(self, height: float) -> None:
        """Begin a page unless ``height`` mm are left on this one."""
        if self.left_over < height:
            self.new_page()

    def gap(self, height: float) -> None:
        self.y += height

    def section(self, title: str, keep_mm: float = 24.0) -> None:
        """Write a heading, with at least ``keep_mm`` of what it heads on the same page."""
        lines = self.paper.wrapped(title, self.width, SECTION)
        self.need(len(lines) * SECTION.line_mm + keep_mm)
        self.gap(3.0)
        self.y = self.paper.write_lines(self.left, self.y, lines, SECTION)
        self.paper.line([(self.left, self.y + 0.6), (self.right, self.y + 0.6)], 0.5)
        self.gap(3.0)

    def paragraph(self, text: str, style: Style = BODY, indent: float = 0.0) -> None:
        """Write a text, over pages where it must be."""
        for line in self.paper.wrapped(text, self.width - indent, style):
            self.need(style.line_mm)
            self.y = self.paper.write_lines(self.left + indent, self.y, [line], style)

    def item(self, text: str, style: Style = BODY, *, urgent: bool = False) -> None:
        """Write one entry of a list; an urgent one has a dark square with ``!``."""
        self.need(style.line_mm)
        middle = self.y + style.line_mm / 2
        if urgent:
            self.mark_urgent(self.left, middle)
        else:
            self.paper.box(self.left + 1.0, middle - 0.6, 1.2, 1.2, 0, fill="ink")
        self.paragraph(text, style, indent=6.5)
        self.gap(1.2)

    def mark_urgent(self, x: float, middle: float) -> None:
        """Draw the dark square that stands for a caution."""
        self.paper.box(x, middle - 2.0, 4.0, 4.0, 0, fill="ink")
        style = Style(10, bold=True, tone="paper")
        self.paper.write(x + 2.0, middle + style.capital_mm / 2, "!", style, "centre")

    def table(self, columns: Sequence[Column], rows: Sequence[Sequence[str]]) -> None:
        """Write a table; every cell wraps, and its head stands again on each page."""
        ends = list(self._ends(columns))
        head = [self.paper.wrapped(column.head, right - left - PAD_MM, CELL_HEAD)
                for column, (left, right) in zip(columns, ends, strict=True)]  # fmt: skip
        head_mm = max(len(lines) for lines in head) * CELL_HEAD.line_mm + 1.2
        self.need(head_mm + 14.0)
        self._table_head(columns, ends, head, head_mm)
        for row in rows:
            cells = [
                self.paper.wrapped(text, right - left - PAD_MM, _cell(column))
                for text, column, (left, right) in zip(row, columns, ends, strict=True)
            ]
            height = max(len(lines) for lines in cells) * CELL.line_mm + 1.6
            if self.left_over < height:
                self.new_page()
                self._table_head(columns, ends, head, head_mm)
            for lines, column, end in zip(cells, columns, ends, strict=True):
                self._cell_lines(lines, column.align, end, _cell(column))
            self.y += height
            self.paper.line([(self.left, self.y), (self.right, self.y)], 0.15, tone="rule")
        self.gap(2.0)

    def _ends(self, columns: Sequence[Column]) -> Iterator[tuple[float, float]]:
        """Yield where each column begins and ends."""
        whole = sum(column.share for column in columns)
        stops = [self.left]
        for column in columns:
            stops.append(stops[-1] + column.share / whole * self.width)
        yield from pairwise(stops)

    def _table_head(
        self, columns: Sequence[Column], ends: Sequence[tuple[float, float]],
        head: Sequence[list[str]], height: float,
    ) -> None:  # fmt: skip
        for lines, column, end in zip(head, columns, ends, strict=True):
            self._cell_lines(lines, column.align, end, CELL_HEAD, pad=0.0)
        self.y += height
        self.paper.line([(self.left, self.y), (self.right, self.y)], 0.3)

    def _cell_lines(
        self, lines: Sequence[str], align: Align, end: tuple[float, float], style: Style,
        pad: float = 0.8,
    ) -> None:  # fmt: skip
        for number, line in enumerate(lines):
            left = end[0] if align == "left" else end[1] - PAD_MM - self.paper.width_of(line, style)
            self.paper.write_lines(left, self.y + pad + number * style.line_mm, [line], style)


def _cell(column: Column) -> Style:
    return CELL._replace(bold=column.bold)
