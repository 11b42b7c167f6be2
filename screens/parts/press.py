"""What a finger presses: a key with a word or a shape, and a row that opens."""

from pathlib import Path

from kivy.factory import Factory
from kivy.lang import Builder
from kivy.properties import BooleanProperty, ColorProperty, NumericProperty, StringProperty
from kivy.uix.behaviors import ButtonBehavior
from kivy.uix.boxlayout import BoxLayout
from kivy.uix.widget import Widget

from screens import tokens
from screens.parts import marks, words
from screens.parts.words import Words
from screens.tokens import colours

__all__ = ["OpenRow", "Press", "marks", "words"]

NONE = (0, 0, 0, 0)


class _Dressed(ButtonBehavior, BoxLayout):
    """Something to press that chooses its colours by how it stands."""

    ink = ColorProperty(tokens.LIGHT["ink"])
    ground = ColorProperty(NONE)
    outline = ColorProperty(NONE)

    def __init__(self, **kwargs: object) -> None:
        super().__init__(**kwargs)
        for name in ("state", "disabled", *self.stands):
            self.fbind(name, self._dress)
        colours.follow(self._dress)
        self._dress()

    def _dress(self, *_: object) -> None:
        self.ink, self.ground, self.outline = self.dress()


class Press(_Dressed):
    """A key; ``chosen`` fills it with ink, ``plain`` leaves out its border.

    ``needed_width`` is that of its words and mark with room at both sides.
    """

    text = StringProperty("")
    second = StringProperty("")
    mark = StringProperty("")
    letter = NumericProperty(tokens.TEXT)
    chosen = BooleanProperty(False)
    plain = BooleanProperty(False)
    needed_width = NumericProperty(0)
    second_width = NumericProperty(0)
    stands = ("chosen", "plain")
    below: Words | None = None

    def on_second(self, *_: object) -> None:
        """Make the words below where there first are some: hardly any key has them."""
        if self.below is None and "word" in self.ids:
            self._make_below()
        if self.below is not None:
            self.below.text = self.second

    def on_ink(self, *_: object) -> None:
        if self.below is not None:
            self.below.colour = self.ink

    def on_kv_post(self, _base: Widget) -> None:
        if self.second:
            self.on_second()

    def _make_below(self) -> None:
        """Stand the word and the words below it in a column of their own."""
        column, word = BoxLayout(orientation="vertical"), self.ids.word
        self.below = Factory.SecondWords(colour=self.ink)
        self.below.fbind("needed_width", self._widen)
        self.remove_widget(word)
        for part in (word, self.below):
            column.add_widget(part)
        self.add_widget(column)

    def _widen(self, _below: object, width: float) -> None:
        self.second_width = width

    def dress(self) -> tuple[object, object, object]:
        if self.chosen or (self.state == "down" and not self.disabled):
            return colours.paper, colours.ink, NONE
        ink = colours.edge if self.disabled else colours.ink
        if self.plain:
            return ink, NONE, NONE
        return ink, colours.sheet, colours.rule if self.disabled else colours.edge


class OpenRow(_Dressed):
    """A row of a list that answers anywhere on it; ``marked`` lays it on a sheet."""

    marked = BooleanProperty(False)
    stands = ("marked",)

    def dress(self) -> tuple[object, object, object]:
        lit = self.marked or self.state == "down"
        return colours.ink, colours.sheet if lit else NONE, NONE


Builder.load_file(str(Path(__file__).with_suffix(".kv")))
