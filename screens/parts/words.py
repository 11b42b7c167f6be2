"""Words: the one widget that shows text, with amounts in it, wrapped to its width."""

from math import inf

from kivy.graphics import Color
from kivy.metrics import dp
from kivy.properties import (
    BooleanProperty,
    BoundedNumericProperty,
    ColorProperty,
    NumericProperty,
    OptionProperty,
    StringProperty,
)
from kivy.uix.widget import Widget

from screens import tokens
from screens.parts.at_rest import draw_at_rest
from screens.parts.lettering import (
    Hand,
    Line,
    draw_word,
    height_of,
    lines_of,
    shortened,
    space,
    width_of_line,
    width_of_word,
    words_of,
)

UNTOLD = 10_000
"""How wide words are that nobody has given a place yet: breaking them would be for nothing."""


class Words(Widget):
    """Text in one of the four sizes.

    ``needed_width`` is that of the text on one line, ``needed_height`` that of its
    lines at the width it has: a rule binds its size to them where the text decides.
    One that ``shrinks`` takes the smallest size where a word would be wider than it; one that
    ``shortens`` stays on one line and ends in … where there is no room for all of it; one that
    ``fits`` takes the next smaller size, down to that of the text, until it is one line.
    """

    text = StringProperty("")
    letter = NumericProperty(tokens.TEXT)
    bold = BooleanProperty(False)
    colour = ColorProperty(tokens.LIGHT["ink"])
    halign = OptionProperty("left", options=["left", "center", "right"])
    valign = OptionProperty("middle", options=["middle", "top"])
    wraps = BooleanProperty(True)
    shrinks = BooleanProperty(False)
    shortens = BooleanProperty(False)
    fits = BooleanProperty(False)
    indent = BoundedNumericProperty(0, min=0)
    needed_width = NumericProperty(0)
    needed_height = NumericProperty(0)

    def __init__(self, **kwargs: object) -> None:
        self._is_ready = False  # measured once, when the rules have said everything
        self._is_broken = False
        if "size" not in kwargs:
            kwargs.setdefault("width", UNTOLD)
        super().__init__(**kwargs)
        for name in ("text", "letter", "bold", "wraps", "shrinks", "shortens", "fits", "indent"):
            self.fbind(name, self._measure)
        self.fbind("width", self._measure_again)
        for name in ("pos", "size", "colour", "halign", "valign"):
            self.fbind(name, self._draw_soon)
        self._measure()

    def on_kv_post(self, _base: Widget) -> None:
        self._is_ready = True
        self._measure()

    @property
    def hand(self) -> Hand:
        hand = Hand(int(self.letter), self.bold)
        if self.fits:
            return self._fitting()
        if self.shrinks and self._widest_word(hand) > self.width - 2 * dp(self.indent):
            return Hand(tokens.SMALL, self.bold)
        return hand

    def _fitting(self) -> Hand:
        room = self.width - 2 * dp(self.indent)
        sizes = sorted(size for size in tokens.LINE if tokens.TEXT <= size <= self.letter)
        for size in reversed(sizes[1:]):
            hand = Hand(size, self.bold)
            if all(width_of_line(line, hand) <= room for line in lines_of(self.text, hand, inf)):
                return hand
        return Hand(tokens.TEXT, self.bold)

    def lines(self) -> tuple[Line, ...]:
        """Return the words of each line, as wide as the widget allows."""
        room = self.width - 2 * dp(self.indent)
        if not self.text:
            return ()
        if self.shortens:
            return (shortened(self.text, self.hand, room),)
        return self._lines_in(room if self.wraps else inf)

    def _lines_in(self, room: float) -> tuple[Line, ...]:
        return lines_of(self.text, self.hand, room) if self.text else ()

    def _widest_word(self, hand: Hand) -> float:
        return max((width_of_word(word, hand) for word in words_of(self.text)), default=0.0)

    def _measure(self, *_: object) -> None:
        if not self._is_ready:
            return
        hand = self.hand
        unbroken = self._lines_in(inf)
        widest = max((width_of_line(line, hand) for line in unbroken), default=0.0)
        self.needed_width = widest + 2 * dp(self.indent)
        lines = self.lines()
        self._is_broken = len(lines) > len(unbroken)
        self.needed_height = sum(height_of(line, hand) for line in lines)
        self._draw_soon()

    def _measure_again(self, *_: object) -> None:
        """Measure words that stand otherwise in another width."""
        has_room = self.width > 2 * dp(self.indent) + 1  # else its place is still on its way
        breaks = self.wraps and (self._is_broken or self.width < self.needed_width)
        if has_room and self.text and (self.shrinks or self.fits or (breaks and not self.shortens)):
            self._measure()

    def _draw_soon(self, *_: object) -> None:
        draw_at_rest(self._draw)

    def _draw(self) -> None:
        hand, lines = self.hand, self.lines()
        heights = [height_of(line, hand) for line in lines]
        self.canvas.clear()
        with self.canvas:
            Color(*self.colour)
            top = self.y + self.height
            if self.valign == "middle":
                top -= (self.height - sum(heights)) / 2
            for line, height in zip(lines, heights, strict=True):
                self._draw_line(line, top - height / 2)
                top -= height

    def _draw_line(self, line: Line, middle: float) -> None:
        hand = self.hand
        spare = self.width - 2 * dp(self.indent) - width_of_line(line, hand)
        share = {"left": 0, "center": 0.5, "right": 1}[self.halign]
        x = self.x + dp(self.indent) + spare * share
        for word in line:
            x = draw_word(word, hand, x, middle) + space(hand)
