"""A small line of one measurement over time; its last point is the number that stands beside it."""

from kivy.clock import Clock
from kivy.graphics import Color, Ellipse, Line
from kivy.metrics import dp
from kivy.properties import ColorProperty, ListProperty, NumericProperty
from kivy.uix.widget import Widget

from screens import tokens

SCALE = 0.42
"""dp a millimetre: 2 1/4 inches are 24 dp high, so that a small change looks small."""


class OverTime(Widget):
    """``points`` are (days since the first day, mm); ``span`` is how many days all lines have."""

    points = ListProperty()
    span = NumericProperty(0)
    colour = ColorProperty(tokens.LIGHT["ink"])
    line_colour = ColorProperty(tokens.LIGHT["soft"])

    def __init__(self, **kwargs: object) -> None:
        super().__init__(**kwargs)
        self._draw_soon = Clock.create_trigger(self._draw, -1)  # once, before the next frame
        for name in ("points", "span", "colour", "line_colour", "pos", "size"):
            self.fbind(name, self._draw_soon)
        self._draw_soon()

    def places(self) -> list[tuple[float, float]]:
        """Return where the points stand, the first span's at the left and today's at the right."""
        if not self.points:
            return []
        lengths = [mm for _, mm in self.points]
        low, high = min(lengths), max(lengths)
        room = max(self.height - dp(20), dp(4))
        scale = min(dp(SCALE), room / (high - low)) if high > low else 0.0
        left, wide = self.x + dp(6), max(self.width - dp(12), dp(1))
        return [
            (left + wide * (days / self.span if self.span else 1.0),
             self.center_y + (mm - (low + high) / 2) * scale)
            for days, mm in self.points
        ]  # fmt: skip

    def _draw(self, *_: object) -> None:
        self.canvas.clear()
        places = self.places()
        if not places or self.width < dp(24):
            return
        with self.canvas:
            if len(places) > 1:
                Color(*self.line_colour)
                Line(points=[part for place in places for part in place], width=dp(1),
                     joint="round", cap="round")  # fmt: skip
            Color(*self.colour)
            x, y = places[-1]
            Ellipse(pos=(x - dp(5), y - dp(5)), size=(dp(10), dp(10)))
