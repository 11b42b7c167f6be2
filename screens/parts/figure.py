"""A neutral figure with the tape drawn where it goes; never the client's own shape."""

from kivy.clock import Clock
from kivy.graphics import Color, Line, Mesh
from kivy.metrics import dp
from kivy.properties import StringProperty
from kivy.uix.widget import Widget

from screens.tokens import colours

_EDGE = ((0, 1.6), (2.6, 1.6), (3.2, 6.4), (5.2, 7.4), (8, 6.6), (12, 6.2), (17, 5), (22, 6.6),
         (25, 7), (31, 6.8), (40, 5.2), (46, 4.8), (57, 3), (58, 4))  # fmt: skip


class Figure(Widget):
    """The figure for one measurement, as large as its place allows."""

    measurement = StringProperty("")
    side = StringProperty("")
    seen_from = StringProperty("from the front")

    def __init__(self, **kwargs: object) -> None:
        super().__init__(**kwargs)
        self._draw_soon = Clock.create_trigger(self._draw, -1)
        for name in ("measurement", "side", "pos", "size"):
            self.fbind(name, self._draw_soon)
        colours.bind(ink=self._draw_soon, cloth=self._draw_soon)  # bound weakly
        self._draw_soon()

    def _draw(self, *_: object) -> None:
        self.canvas.clear()
        scale = min(self.height / 68, self.width / 24)
        if scale <= 0:
            return
        x, top = self.center_x, self.top - 9 * scale
        with self.canvas:
            Color(*colours.cloth)
            points = []
            for down, half in _EDGE:
                points += [x - half * scale, top - down * scale, 0, 0]
                points += [x + half * scale, top - down * scale, 0, 0]
            Mesh(vertices=points, indices=range(len(points) // 4), mode="triangle_strip")
            Color(*colours.ink)
            Line(circle=(x, top + 4 * scale, 3 * scale), width=dp(1.01))
