"""The pieces with their moves along the edges: dashed as sewn, thick the new line, to be zoomed."""

from collections.abc import Iterator, Sequence
from math import ceil, hypot
from pathlib import Path
from typing import Any

from kivy.clock import Clock
from kivy.graphics import Color, Line, Mesh, SmoothLine
from kivy.lang import Builder
from kivy.metrics import dp, sp
from kivy.properties import ColorProperty, ListProperty, NumericProperty, ObjectProperty
from kivy.uix.boxlayout import BoxLayout
from kivy.uix.stencilview import StencilView

from core.said.piece_moves import bounds
from screens import looks, tokens
from screens.changes_shown import DrawnPiece
from screens.parts import press
from screens.parts.lettering import Hand, draw_word, lines_of, space, width_of_line
from screens.parts.piece_fill import triangles

__all__ = ["MovesPanel", "MovesSheet", "looks", "press"]

Box = tuple[float, float, float, float]
"""Least x and y, greatest x and y (mm)."""

BESIDE = 84
"""Room for an amount at each side of a piece (dp)."""

APART = 40
"""How far two amounts stand from each other at least (sp)."""

MOST = 6.0
STEP = 1.5
NEAR_MM = 12.0
THICK = 5

AMOUNT, NAME, SMALL = Hand(tokens.TEXT, True), Hand(tokens.TEXT), Hand(tokens.SMALL)


class MovesSheet(StencilView):
    """The pieces side by side; ``zoom`` 1 shows them whole, a finger moves them, two zoom."""

    pieces = ListProperty()
    zoom = NumericProperty(1.0)
    ink = ColorProperty(tokens.LIGHT["ink"])
    soft = ColorProperty(tokens.LIGHT["soft"])
    rule = ColorProperty(tokens.LIGHT["rule"])
    sheet = ColorProperty(tokens.LIGHT["sheet"])
    take_in = ColorProperty(tokens.LIGHT["take_in"])
    let_out = ColorProperty(tokens.LIGHT["let_out"])

    def __init__(self, **kwargs: Any) -> None:
        super().__init__(**kwargs)
        self._shift = (0.0, 0.0)
        self._held: dict[Any, tuple[float, float]] = {}
        self._draw_soon = Clock.create_trigger(self._draw, -1)
        for name in ("pieces", "zoom", "pos", "size", "ink", "sheet"):
            self.fbind(name, self._draw_soon)
        self._draw_soon()

    # -- looking closer -------------------------------------------------------

    def closer(self, times: float) -> None:
        """Look closer, or from further away."""
        self.zoom = min(max(self.zoom * times, 1.0), MOST)
        if self.zoom == 1.0:
            self._shift = (0.0, 0.0)
        self._draw_soon()

    def on_touch_down(self, touch: Any) -> bool:
        if not self.collide_point(*touch.pos):
            return False
        if getattr(touch, "is_mouse_scrolling", False):
            self.closer(STEP if touch.button == "scrolldown" else 1 / STEP)
            return True
        touch.grab(self)
        self._held[touch.uid] = touch.pos
        return True

    def on_touch_move(self, touch: Any) -> bool:
        if touch.grab_current is not self or touch.uid not in self._held:
            return False
        before = dict(self._held)
        self._held[touch.uid] = touch.pos
        if len(self._held) == 2:
            one, other = before.values()
            now, then = list(self._held.values()), hypot(one[0] - other[0], one[1] - other[1])
            apart = hypot(now[0][0] - now[1][0], now[0][1] - now[1][1])
            self.closer(apart / max(then, 1.0))
        elif self.zoom > 1:
            x, y = before[touch.uid]
            self._shift = (self._shift[0] + touch.x - x, self._shift[1] + touch.y - y)
            self._draw_soon()
        return True

    def on_touch_up(self, touch: Any) -> bool:
        if touch.grab_current is not self:
            return False
        touch.ungrab(self)
        self.let_go(touch)
        return True

    def let_go(self, touch: Any) -> None:
        """The finger is lifted, or means nothing here any more."""
        self._held.pop(touch.uid, None)

    # -- drawing --------------------------------------------------------------

    def _draw(self, *_: object) -> None:
        self.canvas.clear()
        if not self.pieces or self.width < dp(120) or self.height < dp(120):
            return
        boxes = [bounds(one.piece) for one in self.pieces]
        rows, scale = self._rows(boxes)
        scale *= self.zoom
        tall = max(box[3] for box in boxes) - min(box[1] for box in boxes)
        names, count = 2 * dp(tokens.LINE[tokens.SMALL]), len(rows)
        y = self.center_y + (tall * scale + names) * count / 2 + self._shift[1]
        with self.canvas:
            for row in rows:
                self._draw_row(row, boxes, y, scale)
                y -= tall * scale + names

    def _rows(self, boxes: Sequence[Box]) -> tuple[list[range], float]:
        """Return which pieces stand in which row, and the largest scale at which all are whole."""
        tall = max(box[3] for box in boxes) - min(box[1] for box in boxes)
        best: tuple[list[range], float] = ([range(len(boxes))], 0.0)
        for count in range(1, min(len(boxes), 3) + 1):
            each = ceil(len(boxes) / count)
            rows = [range(first, min(first + each, len(boxes)))
                    for first in range(0, len(boxes), each)]  # fmt: skip
            widest = max(sum(boxes[at][2] - boxes[at][0] for at in row) for row in rows)
            across = (self.width - 2 * dp(BESIDE) * each) / widest
            up = (self.height / len(rows) - 2 * dp(tokens.LINE[tokens.SMALL])) / tall
            if min(across, up) > best[1]:
                best = rows, min(across, up)
        return best[0], max(best[1], 0.02)

    def _draw_row(self, row: range, boxes: Sequence[Box], y: float, scale: float) -> None:
        top = min(box[1] for box in boxes)
        wide = sum(boxes[at][2] - boxes[at][0] for at in row) * scale
        x = self.center_x - wide / 2 - dp(BESIDE) * len(row) + self._shift[0]
        for at in row:
            left, _, right, low = boxes[at]
            x += dp(BESIDE)
            one = self.pieces[at]
            self._draw_piece(one, _Placed(x - left * scale, y + top * scale, scale))
            self._letter(one, x + (right - left) * scale / 2, y - (low - top) * scale)
            x += (right - left) * scale + dp(BESIDE)

    def _draw_piece(self, one: DrawnPiece, placed: "_Placed") -> None:
        outline = one.piece.outline
        Color(*self.sheet)
        vertices, indices = triangles(outline.cut)
        moved = list(vertices)
        moved[0::4] = [placed.x + px * placed.scale for px in vertices[0::4]]
        moved[1::4] = [placed.y - py * placed.scale for py in vertices[1::4]]
        Mesh(vertices=moved, indices=indices, mode="triangles")
        Color(*self.soft)
        SmoothLine(points=placed.line(outline.cut), close=True, width=1.2)
        Color(*self.rule)
        for level in outline.levels:
            Line(points=placed.line((level.start, level.end)), width=1.01)
        Color(*self.ink)
        _dash(placed.line((*outline.stitch, outline.stitch[0])))
        for dart in outline.darts:
            SmoothLine(points=placed.line(dart.outline), close=True, width=1.2)
        meant = {"take in": self.take_in, "let out": self.let_out}
        for way, line in one.parts:
            Color(*meant.get(way, self.ink))
            Line(points=placed.line(line), width=dp(THICK) / 2, cap="round", joint="round")
        self._amounts(one, placed)

    def _amounts(self, one: DrawnPiece, placed: "_Placed") -> None:
        last: dict[int, float] = {}
        for amount in one.piece.amounts:
            (line,) = lines_of(amount.text, AMOUNT, float("inf"))
            x, y = placed.at((_outermost(one, amount.at, amount.outwards), amount.at[1]))
            if amount.outwards in last:
                y = min(y, last[amount.outwards] - sp(APART))
            last[amount.outwards] = y
            x += amount.outwards * dp(12)
            x -= width_of_line(line, AMOUNT) if amount.outwards < 0 else 0
            Color(*(self.take_in if amount.text.startswith("in") else self.let_out))
            for word in line:
                x = draw_word(word, AMOUNT, x, y) + space(AMOUNT)

    def _letter(self, one: DrawnPiece, middle: float, y: float) -> None:
        """Write a piece's name under it, and whose side it is."""
        whose = {"left": "her left", "right": "her right"}.get(one.piece.side or "", "")
        Color(*self.ink)
        for number, text in enumerate(filter(None, (one.piece.outline.label, whose))):
            (line,) = lines_of(text, SMALL, float("inf"))
            x = middle - width_of_line(line, SMALL) / 2
            for word in line:
                height = dp(14) + number * dp(tokens.LINE[tokens.SMALL])
                x = draw_word(word, SMALL, x, y - height) + space(SMALL)


class MovesPanel(BoxLayout):
    """The pieces under what they show, with keys to look closer."""

    view = ObjectProperty(None, rebind=True, allownone=True)


class _Placed:
    """Where a piece lies: pixels of its origin, and pixels for a millimetre; y down."""

    def __init__(self, x: float, y: float, scale: float) -> None:
        self.x, self.y, self.scale = x, y, scale

    def at(self, point: tuple[float, float]) -> tuple[float, float]:
        return self.x + point[0] * self.scale, self.y - point[1] * self.scale

    def line(self, points: Sequence[tuple[float, float]]) -> list[float]:
        return [where for point in points for where in self.at(point)]


def _outermost(one: DrawnPiece, at: tuple[float, float], outwards: int) -> float:
    """Return how far out a piece is at a height, its cut edge or its new line (mm)."""
    lines = [one.piece.outline.cut, *(line for _, line in one.parts)]
    near = [x for line in lines for x, y in line
            if abs(y - at[1]) < NEAR_MM and abs(x - at[0]) < 120]  # fmt: skip
    return outwards * max(outwards * x for x in (*near, at[0]))


def _dash(points: Sequence[float]) -> None:
    """Draw a dashed line as one mesh of quads: Kivy's own dashes are one pixel only."""
    vertices: list[float] = []
    indices: list[int] = []
    for x, y, end_x, end_y in _dashes(points):
        length = hypot(end_x - x, end_y - y) or 1.0
        dx, dy = -(end_y - y) / length * dp(0.8), (end_x - x) / length * dp(0.8)
        first = len(vertices) // 4
        for px, py in ((x + dx, y + dy), (x - dx, y - dy), (end_x + dx, end_y + dy),
                       (end_x - dx, end_y - dy)):  # fmt: skip
            vertices += (px, py, 0.0, 0.0)
        indices += (first, first + 1, first + 2, first + 1, first + 3, first + 2)
        if len(indices) > 60_000:  # a mesh counts its corners in sixteen bits
            break
    Mesh(vertices=vertices, indices=indices, mode="triangles")


def _dashes(points: Sequence[float]) -> Iterator[tuple[float, float, float, float]]:
    """Yield the strokes of a broken line, seven dp each with five between."""
    on, left = True, dp(7)
    x, y = points[0], points[1]
    for end_x, end_y in zip(points[2::2], points[3::2], strict=True):
        length = hypot(end_x - x, end_y - y)
        while length > 1e-6:
            part = min(left, length)
            next_x, next_y = x + (end_x - x) * part / length, y + (end_y - y) * part / length
            if on:
                yield x, y, next_x, next_y
            x, y, length, left = next_x, next_y, length - part, left - part
            if left <= 1e-6:
                on, left = not on, dp(5 if on else 7)


Builder.load_file(str(Path(__file__).with_suffix(".kv")))
