"""What a finger presses: a key with a word or a shape, and a row that opens."""

from pathlib import Path

from kivy.lang import Builder
from kivy.properties import BooleanProperty, ColorProperty, NumericProperty, StringProperty
from kivy.uix.behaviors import ButtonBehavior
from kivy.uix.boxlayout import BoxLayout

from screens import tokens
from screens.parts import marks, words
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
    stands = ("chosen", "plain")

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
