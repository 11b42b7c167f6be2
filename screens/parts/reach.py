"""How far a pin may go: a scale from the most let out to the most taken in."""

from math import floor

from kivy.clock import Clock
from kivy.graphics import Color, Ellipse, Line, Rectangle
from kivy.metrics import dp
from kivy.properties import ColorProperty, NumericProperty
from kivy.uix.widget import Widget

from screens import tokens

MOST_TICKS = 60


class Reach(Widget):
    """A line with a tick a step; letting out lies left of nothing, taking in right.

    ``at`` is the move of an edge in steps (negative takes in, as everywhere), and
    ``let_out`` and ``take_in`` how many steps there are each way, never negative.
    """

    at = NumericProperty(0)
    let_out = NumericProperty(0)
    take_in = NumericProperty(0)
    colour = ColorProperty(tokens.LIGHT["ink"])
    scale_colour = ColorProperty(tokens.LIGHT["edge"])

    def __init__(self, **kwargs: object) -> None:
        super().__init__(**kwargs)
        self._draw_soon = Clock.create_trigger(self._draw, -1)  # once, before the next frame
        for name in ("at", "let_out", "take_in", "colour", "scale_colour", "pos", "size"):
            self.fbind(name, self._draw_soon)
        self._draw_soon()

    def place(self, move: float) -> float:
        """Return the x of a move, held inside the scale."""
        whole = self.let_out + self.take_in
        share = (self.let_out - move) / whole if whole > 0 else 0.5
        edge = dp(10)
        return self.x + edge + min(1.0, max(0.0, share)) * (self.width - 2 * edge)

    def _draw(self, *_: object) -> None:
        y = self.center_y
        self.canvas.clear()
        with self.canvas:
            Color(*self.scale_colour)
            Line(points=[self.place(self.let_out), y, self.place(-self.take_in), y], width=1.01)
            for step in self._ticks():
                self._tick(self.place(step), dp(6))
            Color(*self.colour)
            self._tick(self.place(0), dp(11))
            self._bar(self.place(0), self.place(self.at))

    def _ticks(self) -> range:
        """Return the whole steps of the scale; none where they would run together."""
        if self.let_out + self.take_in > MOST_TICKS:
            return range(0)
        return range(-floor(self.take_in), floor(self.let_out) + 1)

    def _tick(self, x: float, half: float) -> None:
        Line(points=[x, self.center_y - half, x, self.center_y + half], width=1.01)

    def _bar(self, sewn: float, at: float) -> None:
        left, right = sorted((sewn, at))
        Rectangle(pos=(left, self.center_y - dp(3.5)), size=(right - left, dp(7)))
        Ellipse(pos=(at - dp(9), self.center_y - dp(9)), size=(dp(18), dp(18)))
