"""Words: the one widget that shows text, with amounts in it, wrapped to its width."""

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
from screens.parts.lettering import (
    Atom,
    Hand,
    draw_word,
    height_of,
    letters_of,
    width_of_word,
    words_of,
)


class Words(Widget):
    """Text in one of the four sizes.

    ``needed_width`` is that of the text on one line, ``needed_height`` that of its
    lines at the width it has: a rule binds its size to them where the text decides.
    """

    text = StringProperty("")
    letter = NumericProperty(tokens.TEXT)
    bold = BooleanProperty(False)
    colour = ColorProperty(tokens.LIGHT["ink"])
    halign = OptionProperty("left", options=["left", "center", "right"])
    valign = OptionProperty("middle", options=["middle", "top"])
    wraps = BooleanProperty(True)
    indent = BoundedNumericProperty(0, min=0)
    needed_width = NumericProperty(0)
    needed_height = NumericProperty(0)

    def __init__(self, **kwargs: object) -> None:
        self._drawn: tuple[object, ...] = ()
        super().__init__(**kwargs)
        for name in ("text", "letter", "bold", "colour", "halign", "valign", "wraps",
                     "indent", "pos", "size"):  # fmt: skip
            self.fbind(name, self._draw)
        self._draw()

    @property
    def hand(self) -> Hand:
        return Hand(int(self.letter), self.bold)

    def lines(self) -> list[list[list[Atom]]]:
        """Return the words of each line, as wide as the widget allows."""
        room = self.width - 2 * dp(self.indent)
        lines: list[list[list[Atom]]] = []
        for paragraph in self.text.split("\n"):
            lines.append([])
            used = 0.0
            for word in words_of(paragraph):
                width = width_of_word(word, self.hand)
                space = self._space() if lines[-1] else 0
                if self.wraps and lines[-1] and used + space + width > room:
                    lines.append([])
                    used = space = 0
                lines[-1].append(word)
                used += space + width
        return lines

    def _space(self) -> float:
        return float(letters_of(" ", self.hand).texture.width)

    def _width_of_line(self, line: list[list[Atom]]) -> float:
        words = sum(width_of_word(word, self.hand) for word in line)
        return words + self._space() * max(0, len(line) - 1)

    def _draw(self, *_: object) -> None:
        lines = self.lines() if self.text else []
        heights = [height_of(line, self.hand) for line in lines]
        whole = [word for part in self.text.split("\n")[:1] for word in words_of(part)]
        self.needed_width = self._width_of_line(whole) + 2 * dp(self.indent)
        self.needed_height = sum(heights)
        self.canvas.clear()
        with self.canvas:
            Color(*self.colour)
            top = self.y + self.height  # not the aliases: they are told of a move after this
            if self.valign == "middle":
                top -= (self.height - sum(heights)) / 2
            for line, height in zip(lines, heights, strict=True):
                self._draw_line(line, top - height / 2)
                top -= height

    def _draw_line(self, line: list[list[Atom]], middle: float) -> None:
        spare = self.width - 2 * dp(self.indent) - self._width_of_line(line)
        share = {"left": 0, "center": 0.5, "right": 1}[self.halign]
        x = self.x + dp(self.indent) + spare * share
        for word in line:
            x = draw_word(word, self.hand, x, middle) + self._space()
