"""The four meanings as shapes: take in, let out, agrees, caution; and the signs of keys.

They are drawn, not lettered, so that no typeface can lack one.
"""

from collections.abc import Iterable
from typing import Any

from kivy.graphics import Color, Line, RoundedRectangle, Triangle
from kivy.metrics import dp
from kivy.properties import ColorProperty, OptionProperty
from kivy.uix.widget import Widget

from screens import tokens
from screens.parts.at_rest import draw_at_rest

Place = tuple[float, float]

KINDS = ["", "take in", "let out", "agrees", "caution", "undo", "redo", "minus", "plus", "more",
         "less", "back", "go on", "find", "settings", "photo", "send", "delete"]  # fmt: skip


def stroke(middle: Place, *points: tuple[float, float], width: float = 2.2) -> None:
    """Draw a broken line; points are dp from the middle, ``width`` is the whole stroke."""
    Line(points=_placed(middle, points), width=dp(width) / 2, cap="round", joint="round")


def draw_caution(middle: Place, ground: Any) -> None:
    """Draw the caution's shape in the colour at hand, its sign in that of the ground."""
    x, y = middle
    RoundedRectangle(pos=(x - dp(11), y - dp(11)), size=(dp(22), dp(22)), radius=[dp(5)])
    Color(*ground)
    stroke(middle, (0, 6), (0, -1), width=3)
    stroke(middle, (0, -6), (0, -6.1), width=3)


def _placed(middle: Place, points: Iterable[tuple[float, float]]) -> list[float]:
    x, y = middle
    return [where for dx, dy in points for where in (x + dp(dx), y + dp(dy))]


class Mark(Widget):
    """One shape, centred in its widget, in the colour it is told."""

    kind = OptionProperty("", options=KINDS)
    colour = ColorProperty(tokens.LIGHT["ink"])
    ground = ColorProperty(tokens.LIGHT["caution"])

    def __init__(self, **kwargs: object) -> None:
        super().__init__(**kwargs)
        for name in ("kind", "colour", "ground", "pos", "size"):
            self.fbind(name, self._draw_soon)
        self._draw_soon()

    def _draw_soon(self, *_: object) -> None:
        draw_at_rest(self._draw)

    def _draw(self) -> None:
        self.canvas.clear()
        if not self.kind:
            return
        with self.canvas:
            Color(*self.colour)
            getattr(self, "_" + self.kind.replace(" ", "_"))()

    def _stroke(self, *points: tuple[float, float], width: float = 2.2) -> None:
        stroke(self.center, *points, width=width)

    def _placed(self, points: Iterable[tuple[float, float]]) -> list[float]:
        return _placed(self.center, points)

    def _arrow(self, tail: float, tip: float) -> None:
        back = tip - 6 if tip > tail else tip + 6
        self._stroke((tail, 0), (back, 0))
        Triangle(points=self._placed(((tip, 0), (back, 4.5), (back, -4.5))))

    def _take_in(self) -> None:
        self._stroke((0, -8), (0, 8))
        self._arrow(-15, -3)
        self._arrow(15, 3)

    def _let_out(self) -> None:
        self._stroke((0, -8), (0, 8))
        self._arrow(-4, -16)
        self._arrow(4, 16)

    def _agrees(self) -> None:
        self._stroke((-9, -1), (-3, -7), (9, 7), width=3)

    def _caution(self) -> None:
        draw_caution(self.center, self.ground)

    def _undo(self) -> None:
        self._stroke((-4, 9), (-9, 4), (-4, -1))
        self._stroke((-9, 4), (4, 4), (8, 2), (9, -2), (8, -6), (4, -8), (-3, -8))

    def _redo(self) -> None:
        self._stroke((4, 9), (9, 4), (4, -1))
        self._stroke((9, 4), (-4, 4), (-8, 2), (-9, -2), (-8, -6), (-4, -8), (3, -8))

    def _minus(self) -> None:
        self._stroke((-13, 0), (13, 0), width=4)

    def _plus(self) -> None:
        self._minus()
        self._stroke((0, -13), (0, 13), width=4)

    def _more(self) -> None:
        self._stroke((-6, 3), (0, -3), (6, 3))

    def _less(self) -> None:
        self._stroke((-6, -3), (0, 3), (6, -3))

    def _back(self) -> None:
        self._stroke((5, 10), (-5, 0), (5, -10), width=2.6)

    def _go_on(self) -> None:
        self._stroke((-4, 8), (4, 0), (-4, -8), width=2.6)

    def _find(self) -> None:
        x, y = self.center
        Line(circle=(x - dp(2), y + dp(2), dp(7)), width=dp(1.3))
        self._stroke((3, -3), (10, -10), width=2.6)

    def _settings(self) -> None:
        for side, knob in ((5, -4), (-5, 4)):
            self._stroke((-11, side), (knob - 3.5, side))
            self._stroke((knob + 3.5, side), (11, side))
            x, y = self._placed(((knob, side),))
            Line(circle=(x, y, dp(3.5)), width=dp(1.1))

    def _photo(self) -> None:
        self._stroke((-12, -8), (-12, 6), (-6, 6), (-4, 9), (4, 9), (6, 6), (12, 6), (12, -8),
                     (-12, -8))  # fmt: skip
        Line(circle=(self.center_x, self.center_y - dp(1), dp(4.5)), width=dp(1.1))

    def _send(self) -> None:
        self._stroke((0, -3), (0, 9))
        self._stroke((-5, 4), (0, 9), (5, 4))
        self._stroke((-9, -1), (-9, -9), (9, -9), (9, -1))

    def _delete(self) -> None:
        self._stroke((-10, 6), (10, 6))
        self._stroke((-3, 6), (-3, 9), (3, 9), (3, 6))
        self._stroke((-7, 6), (-6, -9), (6, -9), (7, 6))


class Meant(Mark):
    """A meaning in its own colour; without one it takes no room and is ``otherwise``."""

    otherwise = ColorProperty(tokens.LIGHT["soft"])

    def __init__(self, **kwargs: object) -> None:
        kwargs.setdefault("size_hint_x", None)
        super().__init__(**kwargs)
        self.fbind("kind", self._mean)
        self.fbind("otherwise", self._mean)
        tokens.colours.follow(self._mean)
        self._mean()

    def _mean(self, *_: object) -> None:
        colours = tokens.colours
        self.colour = {
            "take in": colours.take_in, "let out": colours.let_out, "agrees": colours.agrees,
            "caution": colours.caution_ink,
        }.get(self.kind, self.otherwise)  # fmt: skip
        self.width = dp(36) if self.kind else 0
