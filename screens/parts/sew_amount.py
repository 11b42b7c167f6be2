"""The amount of a row at the sewing table: its fraction as tall as its whole, to be read afar."""

from kivy.clock import Clock
from kivy.graphics import Color, Rectangle
from kivy.metrics import dp, sp
from kivy.properties import ColorProperty, NumericProperty, StringProperty
from kivy.uix.widget import Widget

from screens import tokens
from screens.parts.lettering import Hand, letters_of

_CAP = 0.727
"""Height of a digit, as a share of the letter size."""

BAR, GAP = {tokens.GIANT: 7, tokens.KEY: 5}, {tokens.GIANT: 9, tokens.KEY: 6}


class SewAmount(Widget):
    """``1 5/8`` with its fraction stacked; ``digits`` is the size of the fraction's digits.

    A still amount is lettered in the size of the words.
    """

    text = StringProperty("")
    whole = NumericProperty(tokens.GIANT)
    digits = NumericProperty(tokens.GIANT)
    colour = ColorProperty(tokens.LIGHT["ink"])
    needed_width = NumericProperty(0)
    needed_height = NumericProperty(0)

    def __init__(self, **kwargs: object) -> None:
        super().__init__(**kwargs)
        self._draw_soon = Clock.create_trigger(self._draw, -1)
        for name in ("text", "whole", "digits"):
            self.fbind(name, self._measure)
        for name in ("pos", "size", "colour"):
            self.fbind(name, self._draw_soon)
        self._measure()

    def _parts(self) -> tuple[str, str, str]:
        """Return the whole number, and the fraction's two numbers; empty where there is none."""
        whole, _, part = self.text.rpartition(" ")
        if "/" not in part:
            return self.text, "", ""
        over, _, under = part.partition("/")
        return whole, over, under

    def _measure(self, *_: object) -> None:
        whole, over, under = self._parts()
        width = letters_of(whole, self._hand(self.whole)).texture.width if whole else 0
        if over:
            width += self._fraction_width(over, under) + (dp(12) if whole else 0)
        self.needed_width = width
        digits, size = int(self.digits), int(self.whole)
        tall = 2 * sp(digits) * _CAP + dp(BAR[digits] + 2 * GAP[digits]) if over else 0
        self.needed_height = max(tall, sp(size) * _CAP) + dp(12)
        self._draw_soon()

    def _fraction_width(self, over: str, under: str) -> float:
        hand = self._hand(self.digits)
        return max(letters_of(each, hand).texture.width for each in (over, under)) + dp(4)

    def _hand(self, size: float) -> Hand:
        return Hand(int(size), self.whole == tokens.GIANT)

    def _draw(self, *_: object) -> None:
        self.canvas.clear()
        whole, over, under = self._parts()
        x, middle = self.x, self.center_y
        with self.canvas:
            Color(*self.colour)
            if whole:
                x = self._letters(whole, self.whole, x, middle) + dp(12)
            if over:
                self._fraction(over, under, x, middle)

    def _fraction(self, over: str, under: str, x: float, middle: float) -> None:
        digits = int(self.digits)
        bar, gap, width = BAR[digits], GAP[digits], self._fraction_width(over, under)
        away = dp(bar) / 2 + dp(gap) + sp(digits) * _CAP / 2
        for part, side in ((over, 1), (under, -1)):
            letters = letters_of(part, self._hand(digits))
            start = x + (width - letters.texture.width) / 2
            self._letters(part, digits, start, middle + side * away)
        Rectangle(pos=(round(x), round(middle - dp(bar) / 2)), size=(round(width), dp(bar)))

    def _letters(self, text: str, size: float, x: float, middle: float) -> float:
        """Draw on whole pixels; return where it ends."""
        texture = letters_of(text, self._hand(size)).texture
        Rectangle(texture=texture, size=texture.size,
                  pos=(round(x), round(middle - texture.height / 2)))  # fmt: skip
        return float(x + texture.width)
