"""The hem: a ring of points as she stands, the next one lit, and the numbers for all of them."""

from math import inf
from pathlib import Path
from typing import Any

from kivy.clock import Clock
from kivy.graphics import Color
from kivy.graphics import Line as Stroke
from kivy.lang import Builder
from kivy.metrics import dp, sp
from kivy.properties import ColorProperty, NumericProperty, ObjectProperty, StringProperty
from kivy.uix.floatlayout import FloatLayout

from screens import tokens
from screens.parts import caution, fit_keys, upright
from screens.parts.fit_keys import FitPanel, FitWord
from screens.parts.kept_rows import KeptRows
from screens.parts.lettering import (
    Hand,
    Line,
    draw_word,
    height_of,
    lines_of,
    space,
    width_of_line,
)
from screens.parts.word_key import WordKey

__all__ = ["HemPanel", "HemRing", "caution", "fit_keys", "upright"]


AROUND = ((0, -1), (1, -1), (1, 0), (1, 1), (0, 1), (-1, 1), (-1, 0), (-1, -1))
"""Where each point stands, from the front round by her left: right and up are positive."""


class HemKey(WordKey):
    """One point of the ring: its name, the number large, and what it asks for."""

    row = ObjectProperty(None, allownone=True)
    owner = ObjectProperty(None, allownone=True)

    def on_row(self, _key: object, row: Any) -> None:
        if row is not None:
            said = ", ".join(filter(None, [row.value or "–", row.change]))
            self.text, self.chosen = f"{row.label}\n{said}", row.lit

    def on_release(self) -> None:
        self.owner.take_point(self.row.key)

    def lettered(self, room: float) -> tuple[tuple[Line, Hand], ...]:
        """Return the lines in so much room (pixels), each with its hand."""
        if self.row is None:
            return ()
        small, large = Hand(tokens.SMALL), Hand(tokens.KEY, True)
        parts = ((self.row.label, small), (self.row.value or "–", large),
                 (self.row.change, Hand(tokens.SMALL, True)))  # fmt: skip
        return tuple((line, hand) for text, hand in parts if text
                     for line in lines_of(text, hand, room))  # fmt: skip

    def _measure(self, *_: object) -> None:
        lines = self.lettered(inf)
        self.needed_width = max((width_of_line(*one) for one in lines), default=0.0)
        self.needed_height = sum(height_of(*one) for one in lines)
        self._draw_soon()

    def _draw(self) -> None:
        lines = self.lettered(self.width - dp(tokens.GRID))
        top = self.center_y + sum(height_of(*one) for one in lines) / 2
        self.canvas.clear()
        with self.canvas:
            Color(*self.colour)
            for line, hand in lines:
                x = self.center_x - width_of_line(line, hand) / 2
                for word in line:
                    x = draw_word(word, hand, x, top - height_of(line, hand) / 2) + space(hand)
                top -= height_of(line, hand)


class HemNumberKey(FitWord):
    """A number that counts for all points: wanted, what the hem holds, the heels."""

    verb = "take_point"


class HemRing(KeptRows, FloatLayout):
    """The points round her as seen from above: her front below, her left at the right."""

    shows = StringProperty("HemKey")
    colour = ColorProperty(tokens.LIGHT["edge"])
    least_height = NumericProperty(0)

    def __init__(self, **kwargs: Any) -> None:
        self._lit: object = None
        super().__init__(**kwargs)
        with self.canvas.before:
            self._ink = Color(*self.colour)
            self._line = Stroke(width=1.01)
        self._place_soon = Clock.create_trigger(self._place, -1)
        for name in ("rows", "children", "pos", "size", "colour"):
            self.fbind(name, self._place_soon)

    def _place(self, *_: object) -> None:
        """Stand the points round a hollow square, the front nearest to her who kneels before it."""
        gap = dp(tokens.GRID)
        wide = min((self.width - 2 * gap) / 3, sp(200))
        for key in self.children:
            key.width = wide
        tallest = max((key.needed_height for key in self.children), default=0.0)
        self.least_height = 3 * max(tallest, dp(tokens.CHOICE)) + 2 * gap
        high = min((self.height - 2 * gap) / 3, sp(128))
        across, down = min((self.width - wide) / 2, sp(260)), (self.height - high) / 2
        self._ink.rgba = self.colour
        self._line.rounded_rectangle = (self.center_x - across, self.center_y - down, 2 * across,
                                        2 * down, min(wide, high) / 2)  # fmt: skip
        for key, (x, y) in zip(reversed(self.children), AROUND, strict=False):
            key.size = (wide, high)
            key.center = (self.center_x + across * x, self.center_y + down * y)
        self._show_lit()

    def _show_lit(self) -> None:
        """Bring the point that the keys are on into sight, once it is and stands elsewhere."""
        lit = next((key for key in self.children if key.chosen), None)
        stands = lit and (lit.row.key, *lit.size, self.height)
        if lit is not None and stands != self._lit:
            upright.bring_into_sight(lit)
        self._lit = stands


class HemPanel(FitPanel):
    """The ring, and what counts for all of it."""


Builder.load_file(str(Path(__file__).with_suffix(".kv")))
