"""The pieces that a step is about, side by side, with its seam or dart drawn thick."""

from kivy.clock import Clock
from kivy.graphics import Color, Line, Mesh, SmoothLine
from kivy.metrics import dp
from kivy.properties import ColorProperty, ListProperty, StringProperty
from kivy.uix.widget import Widget

from core.said.step_drawn import PieceDrawn
from screens import tokens
from screens.parts.piece_fill import triangles

APART_MM = 60.0
THICK = 7


class SewPieces(Widget):
    """Draws ``pieces`` as large as it is; ``way`` is the direction of what has none of its own."""

    pieces = ListProperty()
    way = StringProperty("")
    ink = ColorProperty(tokens.LIGHT["ink"])
    soft = ColorProperty(tokens.LIGHT["soft"])
    cloth = ColorProperty(tokens.LIGHT["cloth"])
    take_in = ColorProperty(tokens.LIGHT["take_in"])
    let_out = ColorProperty(tokens.LIGHT["let_out"])

    def __init__(self, **kwargs: object) -> None:
        super().__init__(**kwargs)
        self._draw_soon = Clock.create_trigger(self._draw, -1)
        for name in ("pieces", "way", "pos", "size", "ink", "cloth"):
            self.fbind(name, self._draw_soon)

    def _draw(self, *_: object) -> None:
        self.canvas.clear()
        if not self.pieces or self.height < dp(80) or self.width < dp(60):
            return
        boxes = [_box(piece) for piece in self.pieces]
        wide = sum(right - left for left, _, right, _ in boxes) + APART_MM * (len(boxes) - 1)
        top, bottom = min(box[1] for box in boxes), max(box[3] for box in boxes)
        room = dp(12)
        scale = min((self.width - room) / wide, (self.height - room) / (bottom - top))
        x = self.center_x - wide * scale / 2
        y = self.center_y + (bottom - top) * scale / 2
        with self.canvas:
            for piece, (left, _, right, _) in zip(self.pieces, boxes, strict=True):
                self._draw_piece(piece, x - left * scale, y + top * scale, scale)
                x += (right - left + APART_MM) * scale

    def _draw_piece(self, piece: PieceDrawn, x: float, y: float, scale: float) -> None:
        def placed(line: tuple[tuple[float, float], ...]) -> list[float]:
            return [where for px, py in line for where in (x + px * scale, y - py * scale)]

        vertices, indices = triangles(piece.stitch)
        moved = list(vertices)
        moved[0::4] = [x + px * scale for px in vertices[0::4]]
        moved[1::4] = [y - py * scale for py in vertices[1::4]]
        Color(*self.cloth)
        Mesh(vertices=moved, indices=indices, mode="triangles")
        Color(*self.ink)
        SmoothLine(points=placed(piece.stitch), width=1.3, close=True)
        Color(*self.soft)
        for dart in piece.darts:
            SmoothLine(points=placed(dart), width=1.2, close=True)
        meant = {"take in": self.take_in, "let out": self.let_out}
        for way, line in piece.thick:
            Color(*meant.get(way or self.way, self.ink))
            Line(points=placed(line), width=dp(THICK) / 2, cap="round", joint="round")


def _box(piece: PieceDrawn) -> tuple[float, float, float, float]:
    points = [*piece.stitch, *(point for _, line in piece.thick for point in line)]
    xs, ys = zip(*points, strict=True)
    return min(xs), min(ys), max(xs), max(ys)
