"""Lines of the draft's other pages: what to begin from, details, check, cutting sheet."""

from pathlib import Path

from kivy.graphics import Color
from kivy.lang import Builder
from kivy.metrics import dp, sp
from kivy.properties import BooleanProperty, ObjectProperty
from kivy.uix.boxlayout import BoxLayout

from screens import looks, tokens
from screens.parts import flow, row_list
from screens.parts.draft_cell import NumberCell
from screens.parts.draft_details import DO
from screens.parts.lettering import Hand, draw_word, space, width_of_line, words_of
from screens.parts.press import OpenRow, Press
from screens.tokens import colours

__all__ = ["DetailCell", "DetailLine", "SheetLine", "StartLine", "flow", "looks", "row_list"]


class DetailCell(NumberCell):
    """A number with its caption under it, or plain words for something to be done."""

    CAPTION = Hand(tokens.SMALL)

    def __init__(self, **kwargs: object) -> None:
        super().__init__(bold=True, halign="center", size_hint=(None, None), **kwargs)
        for name in ("needed_width", "row"):
            self.fbind(name, self._fit)
        self.fbind("row", self._draw_soon)
        self._fit()

    def _fit(self, *_: object) -> None:
        does = bool(self.row and self.row.opened.what == DO)
        self.plain, self.bold = does, not does
        self.letter = tokens.SMALL if does else tokens.TEXT
        caption = width_of_line(words_of(self.row.caption), self.CAPTION) if self.row else 0.0
        self.width = max(dp(88), self.needed_width + dp(24), caption + dp(16))
        self.height = max(dp(72), self.needed_height + sp(tokens.LINE[tokens.SMALL]) + dp(12))

    def _draw_line(self, line: object, middle: float) -> None:
        """Draw the number above the middle, to leave its caption room."""
        lift = sp(tokens.LINE[tokens.SMALL]) / 2 - dp(2) if self.row and self.row.caption else 0.0
        super()._draw_line(line, middle + lift)

    def _draw(self, *_: object) -> None:
        super()._draw()
        if not (self.row and self.row.caption):
            return
        line = words_of(self.row.caption)
        with self.canvas:
            Color(*(colours.paper if self.lit else colours.soft))
            x = self.center_x - width_of_line(line, self.CAPTION) / 2
            middle = self.y + dp(6) + sp(tokens.LINE[tokens.SMALL]) / 2
            for word in line:
                x = draw_word(word, self.CAPTION, x, middle) + space(self.CAPTION)


class NameCell(NumberCell):
    """A name that can be changed, with a line under it; it wraps in the room it has."""

    def __init__(self, **kwargs: object) -> None:
        super().__init__(bold=True, plain=True, wraps=True, size_hint_y=None, **kwargs)
        self.fbind("needed_height", self._fit)
        self._fit()

    def _fit(self, *_: object) -> None:
        self.height = max(dp(tokens.TARGET), self.needed_height + dp(tokens.GRID))


class DetailLine(BoxLayout):
    """A part of the draft with its numbers, or the heading of a group."""

    row = ObjectProperty(None, allownone=True)
    owner = ObjectProperty(None, allownone=True)


class StartLine(BoxLayout):
    """Something to begin from, and the way to the tape where a measurement is missing."""

    row = ObjectProperty(None, allownone=True)
    owner = ObjectProperty(None, allownone=True)


class StartRowKey(OpenRow):
    """The line itself: a touch begins."""

    row = ObjectProperty(None, allownone=True)
    owner = ObjectProperty(None, allownone=True)

    def on_release(self) -> None:
        self.owner.start_from(self.row)


class MeasureKey(Press):
    """The way to the tape, to take what is missing."""

    row = ObjectProperty(None, allownone=True)
    owner = ObjectProperty(None, allownone=True)

    def on_release(self) -> None:
        self.owner.measure(self.row.measure, self.row.id)


class CheckRowLine(BoxLayout):
    """One thing that was compared, in words."""

    row = ObjectProperty(None, allownone=True)
    owner = ObjectProperty(None, allownone=True)
    warns = BooleanProperty(False)

    def on_row(self, *_: object) -> None:
        self.warns = bool(self.row and self.row.mark == "caution")


class SheetAmount(BoxLayout):
    """A line of the cutting sheet: what it is and how much."""

    row = ObjectProperty(("", ""))
    owner = ObjectProperty(None, allownone=True)


class SheetLine(BoxLayout):
    """A piece of the cutting sheet: how it is cut and what to mark on the cloth."""

    row = ObjectProperty(None, allownone=True)
    owner = ObjectProperty(None, allownone=True)

    def width_in(self, room: float) -> float:
        """Return how wide it is: half the room where a line of it has its room there (pixels)."""
        half = (room - dp(tokens.COLUMN_GAP)) / 2
        return half if half >= dp(400) else room - dp(16)


Builder.load_file(str(Path(__file__).with_suffix(".kv")))
