"""A step's amounts in large figures: levels down, edges across, a drawing on the same lines."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import NamedTuple

from core.sheet.flow import CELL_HEAD, Flow
from core.sheet.paper import Style

LABEL = Style(12, bold=True)
WORD = Style(12)
AMOUNT = Style(18, bold=True)
QUIET = Style(12, tone="soft")
ROW_MM = 10.0
INDENT_MM = 9.0

Draw = Callable[[Sequence[tuple[int, float]]], None]
"""Draws beside some rows: the number of each, and the height of its middle on the page."""


class Cell(NamedTuple):
    """What stands in one place, and how it looks."""

    text: str
    style: Style = WORD


@dataclass(frozen=True, slots=True)
class Columns:
    """The heads and widths (mm) of an amounts table."""

    heads: tuple[str, ...]
    widths: tuple[float, ...]


def write_amounts(
    flow: Flow, columns: Columns, rows: Sequence[Sequence[Cell]], draw: Draw,
    row_mm: float = ROW_MM,
) -> None:  # fmt: skip
    """Write the rows; where a page ends between them, the head and the drawing go on."""
    heights = [_height(flow, columns, row, row_mm) for row in rows]
    _write_heads(flow, columns, heights[0] if heights else row_mm)
    placed: list[tuple[int, float]] = []
    for number, (row, height) in enumerate(zip(rows, heights, strict=True)):
        if flow.left_over < height:
            draw(placed)
            placed = []
            flow.new_page()
            _write_heads(flow, columns, height)
        middle = flow.y + height / 2
        _write_row(flow, columns, row, middle)
        placed.append((number, middle))
        flow.y += height
        flow.paper.line([(flow.left + INDENT_MM, flow.y), (flow.right, flow.y)], 0.15, tone="rule")
    draw(placed)
    flow.gap(1.5)


def amounts_mm(flow: Flow, columns: Columns, rows: Sequence[Sequence[Cell]],
               row_mm: float = ROW_MM) -> float:  # fmt: skip
    """Return how high the whole table is, so that it can be kept on one page."""
    return _heads_mm(flow, columns) + sum(_height(flow, columns, row, row_mm) for row in rows) + 2


def _height(flow: Flow, columns: Columns, row: Sequence[Cell], least: float) -> float:
    needed = least
    for cell, width in zip(row, columns.widths, strict=True):
        lines = len(flow.paper.wrapped(cell.text, width - 2.0, cell.style))
        needed = max(needed, lines * cell.style.line_mm + 2.0)
    return needed


def _heads_mm(flow: Flow, columns: Columns) -> float:
    lines = [flow.paper.wrapped(head, width - 2.0, CELL_HEAD)
             for head, width in zip(columns.heads, columns.widths, strict=True)]  # fmt: skip
    return max(map(len, lines)) * CELL_HEAD.line_mm + 1.0


def _write_heads(flow: Flow, columns: Columns, with_row_mm: float) -> None:
    height = _heads_mm(flow, columns)
    flow.need(height + with_row_mm)
    x = flow.left + INDENT_MM
    for head, width in zip(columns.heads, columns.widths, strict=True):
        lines = flow.paper.wrapped(head, width - 2.0, CELL_HEAD)
        above = height - 1.0 - len(lines) * CELL_HEAD.line_mm
        flow.paper.write_lines(x, flow.y + above, lines, CELL_HEAD)
        x += width
    flow.y += height
    flow.paper.line([(flow.left + INDENT_MM, flow.y), (flow.right, flow.y)], 0.3)


def _write_row(flow: Flow, columns: Columns, row: Sequence[Cell], middle: float) -> None:
    x = flow.left + INDENT_MM
    for cell, width in zip(row, columns.widths, strict=True):
        lines = flow.paper.wrapped(cell.text, width - 2.0, cell.style)
        top = middle - len(lines) * cell.style.line_mm / 2
        flow.paper.write_lines(x, top, lines, cell.style)
        x += width
