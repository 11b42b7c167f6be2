"""The hem: a ring of points as she stands, the next one lit, and the numbers for all of them."""

from math import cos, pi, sin
from pathlib import Path
from typing import Any

from kivy.clock import Clock
from kivy.graphics import Color, Line
from kivy.lang import Builder
from kivy.metrics import dp, sp
from kivy.properties import ColorProperty, ListProperty, ObjectProperty
from kivy.uix.floatlayout import FloatLayout

from screens import tokens
from screens.parts import caution, fit_keys
from screens.parts.fit_keys import FitPanel, FitWord
from screens.parts.word_key import WordKey

__all__ = ["HemPanel", "HemRing", "caution", "fit_keys"]


class HemKey(WordKey):
    """One point of the ring."""

    row = ObjectProperty(None, allownone=True)
    owner = ObjectProperty(None, allownone=True)

    def on_row(self, _key: object, row: Any) -> None:
        if row is not None:
            said = [row.label, row.value or "–", row.change]
            self.text, self.chosen = "\n".join(filter(None, said)), row.lit

    def on_release(self) -> None:
        self.owner.take_point(self.row.key)


class HemNumberKey(FitWord):
    """A number that counts for all points: wanted, what the hem holds, the heels."""

    verb = "take_point"


class HemRing(FloatLayout):
    """The points round her as seen from above: her front below, her left at the right."""

    rows = ListProperty()
    owner = ObjectProperty(None, allownone=True)
    colour = ColorProperty(tokens.LIGHT["edge"])

    def __init__(self, **kwargs: Any) -> None:
        super().__init__(**kwargs)
        with self.canvas.before:
            self._ink = Color(*self.colour)
            self._line = Line(width=1.01)
        self._place_soon = Clock.create_trigger(self._place, -1)
        for name in ("rows", "owner"):
            self.fbind(name, self._refill)
        for name in ("pos", "size", "colour"):
            self.fbind(name, self._place_soon)
        self._refill()

    def _refill(self, *_: object) -> None:
        keys = list(reversed(self.children))
        for spare in keys[len(self.rows) :]:
            self.remove_widget(spare)
        for index, row in enumerate(self.rows):
            if index < len(keys):
                keys[index].owner, keys[index].row = self.owner, row
            else:
                self.add_widget(HemKey(row=row, owner=self.owner, size_hint=(None, None)))
        self._place_soon()

    def _place(self, *_: object) -> None:
        """Stand the points on an ellipse, the front nearest to her who kneels before it."""
        keys = list(reversed(self.children))
        wide = min(max(sp(124), dp(112)), (self.width - dp(24)) / 3)
        high = max(sp(100), dp(88))
        across, down = (self.width - wide) / 2, (self.height - high) / 2
        self._ink.rgba = self.colour
        self._line.ellipse = (self.center_x - across, self.center_y - down, 2 * across, 2 * down)
        for index, key in enumerate(keys):
            angle = -pi / 2 + 2 * pi * index / max(len(keys), 1)
            key.size = (wide, high)
            key.center = (self.center_x + across * cos(angle), self.center_y + down * sin(angle))


class HemPanel(FitPanel):
    """The ring, and what counts for all of it."""


Builder.load_file(str(Path(__file__).with_suffix(".kv")))
