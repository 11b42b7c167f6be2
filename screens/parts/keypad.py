"""The number keys for a thumb: ten digits, and beside them the eighths or the tenths."""

from pathlib import Path

from kivy.graphics import Line
from kivy.lang import Builder
from kivy.metrics import dp, sp
from kivy.properties import BooleanProperty, NumericProperty, OptionProperty, StringProperty
from kivy.uix.boxlayout import BoxLayout

from core.body.keypad import BACK, CLEAR, TENTHS, WHOLE
from screens import looks, tokens
from screens.parts.word_key import WordKey

__all__ = ["Key", "KeyBlock", "looks"]

DIGITS = ("1", "2", "3", "4", "5", "6", "7", "8", "9", BACK, "0", CLEAR)
PARTS = {
    "in": (WHOLE, "1/2", "1/8", "5/8", "1/4", "3/4", "3/8", "7/8"),
    "cm": tuple(TENTHS[row + column] for row in range(5) for column in (0, 5)),
    "mm": (),
}
"""By unit the keys of its parts, two in a row: a half beside the whole, a half more beside each."""

WORDS = {BACK: "", CLEAR: "Clear"}


class Key(WordKey):
    """One key: ``sign`` is what it means to the keypad."""

    sign = StringProperty("")

    def __init__(self, sign: str = "", **kwargs: object) -> None:
        super().__init__(wraps=False, shrinks=True, indent=4, **kwargs)
        self.sign = sign

    def on_sign(self, _key: object, sign: str) -> None:
        self.text = WORDS.get(sign, sign)
        self.bold = "/" in sign
        self._letter_fits()
        self._draw_soon()

    def on_height(self, *_: object) -> None:
        self._letter_fits()

    def _letter_fits(self) -> None:
        """Take the large letters where the key is high enough for a line of them."""
        low = self.height < sp(tokens.LINE[tokens.KEY])
        self.letter = tokens.TEXT if low or self.sign.isalpha() else tokens.KEY

    def on_release(self) -> None:
        self.parent.parent.dispatch("on_key", self.sign)

    def _draw(self, *_: object) -> None:
        super()._draw()
        if self.sign == BACK:
            with self.canvas:
                self._draw_back()

    def _draw_back(self) -> None:
        """Draw the sign for taking back one key: an arrow's head with a cross in it."""
        for points in (
            ((-14, 0), (-5, 10), (14, 10), (14, -10), (-5, -10), (-14, 0)),
            ((0, 4), (8, -4)),
            ((0, -4), (8, 4)),
        ):
            placed = [where for x, y in points
                      for where in (self.center_x + dp(x), self.center_y + dp(y))]  # fmt: skip
            Line(points=placed, width=dp(1.3), cap="round", joint="round")


class KeyBlock(BoxLayout):
    """The keys of one unit; ``on_key`` tells which was touched.

    ``key_width`` is that of a digit's key, ``lit`` the key of the part shown.  Left-handed the
    parts stand at the left.
    """

    unit = OptionProperty("in", options=["in", "cm", "mm"])
    lit = StringProperty("")
    key_width = NumericProperty(88)
    left_handed = BooleanProperty(False)

    def __init__(self, **kwargs: object) -> None:
        self.register_event_type("on_key")
        super().__init__(**kwargs)

    def on_kv_post(self, _base: object) -> None:
        self._groups = [self.ids.digits.__self__, self.ids.parts.__self__]  # ids keep nothing
        for sign in DIGITS:
            self.ids.digits.add_widget(Key(sign=sign))
        self.fbind("unit", self._refill)
        self.fbind("lit", self._light)
        self.fbind("left_handed", self._turn)
        self._refill()
        self._turn()

    def on_key(self, sign: str) -> None:
        """Told what was touched."""

    def _refill(self, *_: object) -> None:
        """Show the parts of the unit; millimetres have none and give the digits their room."""
        parts = self.ids.parts
        parts.clear_widgets()
        for sign in PARTS[self.unit]:
            parts.add_widget(Key(sign=sign))
        self._light()

    def _light(self, *_: object) -> None:
        for key in self.ids.parts.children:
            key.chosen = key.sign == self.lit

    def _turn(self, *_: object) -> None:
        self.clear_widgets()
        for group in reversed(self._groups) if self.left_handed else self._groups:
            self.add_widget(group)


Builder.load_file(str(Path(__file__).with_suffix(".kv")))
