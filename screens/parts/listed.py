"""A line of a list: a title over small words, what stands at its ends, and a rule under it."""

from pathlib import Path

from kivy.factory import Factory
from kivy.graphics import Color, RoundedRectangle
from kivy.lang import Builder
from kivy.metrics import dp, sp
from kivy.properties import (
    BooleanProperty,
    ColorProperty,
    NumericProperty,
    ObjectProperty,
    OptionProperty,
    StringProperty,
)
from kivy.uix.widget import Widget

from screens import looks, tokens
from screens.parts.marks import draw_caution
from screens.parts.press import OpenRow
from screens.parts.words import Words

__all__ = ["Chip", "ListedLine", "looks"]

KINDS = {"lead": "LineLead", "lead_words": "SmallWords", "title": "Text", "words": "SmallWords",
         "end": "LineEnd", "end_words": "SmallEnd", "chip": "Chip"}  # fmt: skip
"""What each of a line's words is made of."""

MARK = 24
"""How wide the mark at the end is (dp)."""

CHIP_BELOW = 330
"""Narrower than this (sp) the chip stands in a line of its own."""


Line = list[tuple[Widget, float]]
"""What stands in a line, and how far from its beginning."""


class Chip(Words):
    """A few words on the caution's ground, after its mark; without words it takes no room."""

    halign = OptionProperty("right", options=["left", "center", "right"])
    ground = ColorProperty(tokens.LIGHT["caution"])

    def __init__(self, **kwargs: object) -> None:
        super().__init__(**kwargs)
        self.fbind("ground", self._draw_soon)

    def _draw(self) -> None:
        super()._draw()
        self.canvas.before.clear()
        if not self.text:
            return
        with self.canvas.before:
            Color(*self.ground)
            RoundedRectangle(pos=self.pos, size=self.size, radius=[dp(tokens.CORNER)])
            Color(*self.colour)
            draw_caution((self.x + dp(18), self.center_y), self.ground)


class ListedLine(OpenRow):
    """A row to touch; every word of it may be empty.

    ``lead`` stands at its beginning, ``end`` at its end, each with small words under it;
    ``chip`` is what presses.  A list has many of them, so that each makes only the words it has,
    and gives them their places itself, in one pass.
    """

    row = ObjectProperty(None, allownone=True)
    owner = ObjectProperty(None, allownone=True)
    lead = StringProperty("")
    lead_words = StringProperty("")
    title = StringProperty("")
    words = StringProperty("")
    end = StringProperty("")
    end_words = StringProperty("")
    chip = StringProperty("")
    mark = StringProperty("")
    bold = BooleanProperty(False)
    lead_width = NumericProperty(0)

    def __init__(self, **kwargs: object) -> None:
        self._parts: dict[str, Widget] = {}
        super().__init__(**kwargs)
        for name in KINDS:
            self.fbind(name, self._say, name)
            self._say(name, self, getattr(self, name))
        self.fbind("lead_width", self._trigger_layout)

    def on_bold(self, *_: object) -> None:
        if "title" in self._parts:
            self._parts["title"].bold = self.bold

    def on_mark(self, *_: object) -> None:
        if "mark" not in self._parts:
            self._add("mark", Factory.LineMark())
        self._parts["mark"].kind = self.mark
        self._trigger_layout()

    def _say(self, name: str, _line: object, said: str) -> None:
        if name not in self._parts and said:
            self._add(name, Factory.get(KINDS[name])())
            self.on_bold()
        if name in self._parts:
            self._parts[name].text = said

    def _add(self, name: str, part: Widget) -> None:
        self._parts[name] = part
        self.add_widget(part)

    def do_layout(self, *_: object) -> None:
        """Place the lead, beside it the title over its small words, and the mark at the end."""
        mark = dp(MARK) if self.mark else 0.0
        beside = self.width - self.lead_width - mark
        lead = [self._line(self.lead_width, name) for name in ("lead", "lead_words")]
        middle = [self._line(beside, "title", "end"), *self._small_lines(beside)]
        self.height = max(dp(tokens.BUTTON), _height(lead), _height(middle)) + dp(8)
        self._place(lead, self.x)
        self._place(middle, self.x + self.lead_width)
        if mark:
            self._parts["mark"].size = mark, self.height
            self._parts["mark"].pos = self.right - mark, self.y

    def _small_lines(self, room: float) -> list[Line]:
        """Return the small words with what stands at their end; a chip without room goes below."""
        if self.width < sp(CHIP_BELOW):
            return [self._line(room, "words", "end_words", ""), self._line(room, "chip")]
        return [self._line(room, "words", "end_words", "chip")]

    def _line(self, room: float, first: str, *ends: str) -> Line:
        """Return the parts of a line and where each begins; the first has what the ends leave."""
        parts = [self._parts[name] for name in ends if name in self._parts]
        gap = dp(tokens.GRID) if any(part.text for part in parts) else 0.0
        line = []
        for name in reversed(ends):
            if name in self._parts:
                room -= self._parts[name].width
                line.append((self._parts[name], room))
            room -= gap
        if first in self._parts:
            if first != "chip":  # which is as wide as its words
                self._parts[first].width = max(0.0, room)
            line.append((self._parts[first], 0.0))
        return line

    def _place(self, lines: list[Line], x: float) -> None:
        """Place lines one under the other, halfway up; what stands at the end of a title is low."""
        top = self.center_y + _height(lines) / 2
        for line in lines:
            high = _height([line])
            for part, along in line:
                low = part in (self._parts.get("title"), self._parts.get("end"))
                part.pos = x + along, top - high + (0.0 if low else (high - part.height) / 2)
            top -= high


def _height(lines: list[Line]) -> float:
    return sum(max((part.height for part, _ in line), default=0.0) for line in lines)


Builder.load_file(str(Path(__file__).with_suffix(".kv")))
