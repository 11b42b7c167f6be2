"""A number of the draft that a finger opens: one widget, because a table has many."""

from kivy.graphics import Color, Ellipse, Line, RoundedRectangle
from kivy.metrics import dp
from kivy.properties import BooleanProperty, ObjectProperty
from kivy.uix.behaviors import ButtonBehavior

from screens import tokens
from screens.parts.words import Words
from screens.tokens import colours


class NumberCell(ButtonBehavior, Words):
    """A number on a sheet, or ``plain`` with a line under it; ``row`` is its ``CellRow``.

    A dot at its corner says that she changed it by hand.
    """

    row = ObjectProperty(None, allownone=True)
    owner = ObjectProperty(None, allownone=True)
    plain = BooleanProperty(False)

    def __init__(self, **kwargs: object) -> None:
        kwargs.setdefault("wraps", False)
        super().__init__(**kwargs)
        for name in ("row", "plain", "state", "disabled", "pos", "size"):
            self.fbind(name, self._dress)
        colours.follow(self._dress)
        self._dress()

    def on_row(self, _cell: object, row: object) -> None:
        self.text = row.words if row else ""
        self.disabled = not (row and row.opened.what)

    def on_release(self) -> None:
        self.owner.open(self.row.opened)

    @property
    def lit(self) -> bool:
        return bool(self.row and self.row.lit) or self.state == "down"

    def _dress(self, *_: object) -> None:
        self.colour = colours.paper if self.lit else colours.ink
        self.canvas.before.clear()
        if self.row is None or (self.disabled and not self.lit):
            return
        with self.canvas.before:
            if self.lit or not self.plain:
                self._draw_ground()
            else:
                self._underline()
            if self.row.hers:
                Color(*self.colour)
                Ellipse(pos=(self.right - dp(13), self.top - dp(13)), size=(dp(7), dp(7)))

    def _draw_ground(self) -> None:
        Color(*(colours.ink if self.lit else colours.sheet))
        RoundedRectangle(pos=self.pos, size=self.size, radius=[dp(tokens.CORNER)])
        if not self.lit:
            Color(*colours.edge)
            Line(rounded_rectangle=[*self.pos, *self.size, dp(tokens.CORNER)], width=1.01)

    def _underline(self) -> None:
        """Draw the line under a plain number, as wide as its words."""
        start = {"left": 0.0, "center": 0.5, "right": 1.0}[self.halign]
        indent = dp(self.indent)
        wide = min(self.needed_width, self.width) - 2 * indent
        x = self.x + indent + (self.width - 2 * indent - wide) * start
        y = self.center_y - self.needed_height / 2 - dp(2)
        Color(*colours.edge)
        Line(points=[x, y, x + wide, y], width=1.01)
