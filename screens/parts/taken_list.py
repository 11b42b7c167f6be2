"""What is taken and what is missing: a list of numbers, and how far it is."""

from pathlib import Path

from kivy.clock import Clock
from kivy.graphics import Color, Rectangle, RoundedRectangle
from kivy.lang import Builder
from kivy.metrics import dp
from kivy.properties import ColorProperty, NumericProperty, ObjectProperty
from kivy.uix.behaviors import ButtonBehavior
from kivy.uix.widget import Widget

from screens import looks, tokens
from screens.parts import row_list
from screens.parts.lettering import Hand, draw_word, height_of, lines_of, space, width_of_line
from screens.parts.words import Words
from screens.tokens import colours

__all__ = ["Progress", "TakenRow", "looks", "row_list"]

INDENT, APART = 12, 8
HEADING, GAP = 32, tokens.GRID
"""Where she stands, over the first of a place; and between two rows, where the line lies."""


class TakenRow(ButtonBehavior, Words):
    """One number: its name, and its value or that it is to take; a touch goes to it.

    It is a single widget that letters all of it, because a list has forty of them.
    """

    row = ObjectProperty(None, allownone=True)
    owner = ObjectProperty(None, allownone=True)

    def __init__(self, **kwargs: object) -> None:
        super().__init__(**kwargs)
        for name in ("row", "state"):
            self.fbind(name, self._fill)
        colours.follow(self._fill)
        self._fill()

    def on_release(self) -> None:
        self.owner.go_to(self.row.key)

    @property
    def words_hand(self) -> Hand:
        """How the value is lettered; what is not taken is said quietly."""
        taken = self.row is not None and self.row.state == "taken"
        return Hand(tokens.TEXT, True) if taken else Hand(tokens.SMALL)

    def lines(self) -> tuple:
        room = self.width - 2 * dp(INDENT) - self._words_width() - dp(APART)
        return self._lines_in(max(room, dp(APART)))

    def _words(self) -> tuple:
        return lines_of(self.row.words, self.words_hand, float("inf")) if self.row else ()

    def _words_width(self) -> float:
        return max((width_of_line(line, self.words_hand) for line in self._words()), default=0.0)

    def _fill(self, *_: object) -> None:
        row = self.row
        if row is None:
            return
        dark = row.here or self.state == "down"
        self.colour = colours.paper if dark else colours.ink
        self.text, self.bold = row.label, row.here
        self._measure()

    def _draw(self, *_: object) -> None:
        self.canvas.clear()
        row = self.row
        if row is None:
            return
        head = dp(HEADING) if row.heading else 0
        top, middle = self.y + self.height - head, self.y + (self.height - head) / 2
        with self.canvas:
            if row.heading:
                Color(*colours.soft)
                self._line_of(row.heading, Hand(tokens.SMALL), self.x, top + head / 2)
            if row.here or self.state == "down":
                Color(*colours.ink)
                RoundedRectangle(
                    pos=self.pos, size=(self.width, top - self.y),
                    radius=[dp(tokens.CORNER)],
                )  # fmt: skip
            Color(*colours.rule)
            Rectangle(pos=(self.x, round(self.y - dp(GAP / 2))), size=(self.width, dp(1)))
            Color(*self.colour)
            lines = self.lines()
            at = middle + sum(height_of(line, self.hand) for line in lines) / 2
            for line in lines:
                height = height_of(line, self.hand)
                self._words_at(line, self.hand, self.x + dp(INDENT), at - height / 2)
                at -= height
            if row.state != "taken" and not row.here:
                Color(*colours.soft)
            self._line_of(
                row.words, self.words_hand,
                self.right - dp(INDENT) - self._words_width(), middle,
            )  # fmt: skip

    def _line_of(self, text: str, hand: Hand, x: float, middle: float) -> None:
        for line in lines_of(text, hand, float("inf")):
            self._words_at(line, hand, x, middle)

    def _words_at(self, line: tuple, hand: Hand, x: float, middle: float) -> None:
        for word in line:
            x = draw_word(word, hand, x, middle) + space(hand)


class Progress(Widget):
    """A bar with one part for each number: taken, here, or to take; many run together."""

    taken = NumericProperty(0)
    total = NumericProperty(0)
    colour = ColorProperty(tokens.LIGHT["ink"])
    rest = ColorProperty(tokens.LIGHT["rule"])

    def __init__(self, **kwargs: object) -> None:
        super().__init__(**kwargs)
        self._draw_soon = Clock.create_trigger(self._draw, -1)
        for name in ("taken", "total", "colour", "rest", "pos", "size"):
            self.fbind(name, self._draw_soon)

    def _draw(self, *_: object) -> None:
        self.canvas.clear()
        if not self.total:
            return
        each = self.width / self.total
        gap = dp(4) if each > dp(16) else dp(2) if each > dp(5) else 0
        with self.canvas:
            for at in range(int(self.total)):
                Color(*(self.colour if at < self.taken else self.rest))
                left, right = round(self.x + at * each), round(self.x + (at + 1) * each - gap)
                Rectangle(pos=(left, self.y), size=(right - left, self.height))


Builder.load_file(str(Path(__file__).with_suffix(".kv")))
