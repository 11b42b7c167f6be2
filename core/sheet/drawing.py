"""Drawings beside a step: a seam's old line dashed and its new one, a dart's old and new legs."""

from collections.abc import Sequence
from itertools import pairwise

from core.changes.seam_line import SeamLine
from core.sheet.flow import CELL_HEAD
from core.sheet.paper import Paper, Point, Style

OLD_DASH = (1.6, 1.2)
OTHER_DASH = (3.4, 1.3)
NEW_MM, OLD_MM = 1.1, 0.3
_REACH = 0.80
_PIECES = 12
"""Between two levels a line is drawn in so many pieces."""

_NOTE = Style(7.5, tone="soft")


class SeamDrawing:
    """The new lines of one seam, drawn over its old one; not to scale."""

    def __init__(
        self, paper: Paper, lines: Sequence[SeamLine | None], downs: Sequence[float],
        left: float, right: float, *, mirrored: bool,
    ) -> None:  # fmt: skip
        """``downs`` are the heights of the rows (mm down); ``mirrored``: the garment at the right.

        Taking in goes towards the garment, letting out away from it.
        """
        self.paper, self.lines, self.downs = paper, lines, downs
        self.left, self.right, self.mirrored = left, right, mirrored
        way = -1 if mirrored else 1
        moves = [way * line.at(down) for line in lines if line for down in self._heights()]
        least, most = min([0.0, *moves]), max([0.0, *moves])
        self.scale = _REACH * (right - left) / max(most - least, 1e-6)
        self.middle = (left + right) / 2 - (least + most) / 2 * self.scale

    def _heights(self) -> list[float]:
        extra = [down for line in self.lines if line for down, _ in line.points]
        return [*self.downs, *extra]

    def x(self, move: float) -> float:
        """Return where a move lies: taken in towards the garment."""
        return self.middle + (-move if self.mirrored else move) * self.scale

    def draw(self, placed: Sequence[tuple[int, float]]) -> None:
        """Draw beside rows: the number of each and the height of its middle on the page."""
        if not placed:
            return
        self._heads(placed[0][1])
        top, bottom = placed[0][1] - 4.2, placed[-1][1] + 4.2
        self.paper.line([(self.middle, top), (self.middle, bottom)], OLD_MM, dash=OLD_DASH)
        for number, line in enumerate(self.lines):
            if line is not None:
                dash = OTHER_DASH if number else ()
                self.paper.line(self._through(line, placed), NEW_MM, dash=dash)
                self._arrows(line, placed)

    def _heads(self, first: float) -> None:
        sides = ("allowance", "garment") if self.mirrored else ("garment", "allowance")
        y = first - 5.0 - CELL_HEAD.line_mm / 2 - 0.4
        self.paper.write(self.left + 1.0, y, sides[0], _NOTE)
        self.paper.write(self.right - 1.0, y, sides[1], _NOTE, "right")

    def _through(self, line: SeamLine, placed: Sequence[tuple[int, float]]) -> list[Point]:
        """Return the new line over these rows; carried amounts go on above and below them."""
        found: list[Point] = []
        first, last = placed[0], placed[-1]
        if first[0] > 0 or line.carries_up:
            found.append((self.x(line.at(self.downs[first[0]])), first[1] - 4.2))
        for (number, y), (_, below) in pairwise(placed):
            here, there = self.downs[number], self.downs[number + 1]
            for piece in range(_PIECES):
                share = piece / _PIECES
                found.append((self.x(line.at(here + share * (there - here))),
                              y + share * (below - y)))  # fmt: skip
        found.append((self.x(line.at(self.downs[last[0]])), last[1]))
        if last[0] < len(self.downs) - 1 or line.carries_down:
            found.append((self.x(line.at(self.downs[last[0]])), last[1] + 4.2))
        return found if len(found) > 1 else [found[0], (found[0][0], found[0][1] + 0.1)]

    def _arrows(self, line: SeamLine, placed: Sequence[tuple[int, float]]) -> None:
        for number, y in placed:
            end = self.x(line.at(self.downs[number]))
            stop = NEW_MM / 2 if end > self.middle else -NEW_MM / 2
            if abs(end - self.middle) > 2.0:
                self.paper.arrow((self.middle, y), (end - stop, y), 0.5)


def draw_dart(
    paper: Paper, middle: Point, half_height: float, before: float, after: float, where: float
) -> None:
    """Draw a dart's old legs dashed and its new ones; ``where`` is its widest place (0 top, 1)."""
    x, y = middle
    most = max(before, after, 1e-6)
    widest = y - half_height + 2 * half_height * where
    for take_up, wide, dash in ((before, OLD_MM, OLD_DASH), (after, NEW_MM, ())):
        half = 9.0 * take_up / most
        for side in (-1, 1):
            legs = [(x, y - half_height), (x + side * half, widest), (x, y + half_height)]
            paper.line(legs, wide, dash=dash)
    for side in (-1, 1):
        start, end = x + side * 9.0 * before / most, x + side * 9.0 * after / most
        shift = side * 5.0
        if abs(end - start) > 0.05:
            deeper = after > before
            tail = end + shift if not deeper else start - shift
            paper.arrow((tail, widest), (tail + (shift if deeper else -shift) * 0.8, widest), 0.4)
