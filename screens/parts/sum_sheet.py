"""The number that lies open: its sum with every term's name, minus and plus, and the keypad."""

from pathlib import Path

from kivy.lang import Builder
from kivy.metrics import dp
from kivy.properties import BooleanProperty, ListProperty, NumericProperty, ObjectProperty
from kivy.uix.behaviors import ButtonBehavior
from kivy.uix.boxlayout import BoxLayout

from screens import looks
from screens.parts import keypad, row_list, sum_flow
from screens.parts.press import OpenRow, Press

__all__ = ["SumSheet", "TermCell", "keypad", "looks", "row_list", "sum_flow"]

TERM_MOST = 136
"""A term's name wraps where it is wider (dp)."""


class TermCell(OpenRow):
    """A term of the sum; a touch leads to what it stands for."""

    row = ObjectProperty(None, allownone=True)
    owner = ObjectProperty(None, allownone=True)

    def on_row(self, *_: object) -> None:
        self.disabled = not (self.row and self.row.opened.what)

    def on_release(self) -> None:
        self.owner.open(self.row.opened)

    def width_for(self, amount: float, name: float) -> float:
        """Return how wide a term is whose amount and name need so much (pixels)."""
        return max(amount, min(name, dp(TERM_MOST)))


class SumKey(Press):
    """One of the things that can be done with the open number; ``row`` is its key and words."""

    row = ObjectProperty(("", ""))
    owner = ObjectProperty(None, allownone=True)

    def on_release(self) -> None:
        self.owner.use(self.row[0])


class SideCell(Press):
    """Her left or her right of the open number, or the front, side or back of a height."""

    row = ObjectProperty(None, allownone=True)
    owner = ObjectProperty(None, allownone=True)

    def on_release(self) -> None:
        self.owner.open(self.row.opened)


class SumResult(ButtonBehavior, BoxLayout):
    """What the sum comes to; a touch opens the keypad on it."""

    row = ObjectProperty(None, allownone=True)
    owner = ObjectProperty(None, allownone=True, rebind=True)

    def on_release(self) -> None:
        if self.row.types:
            self.owner.type()


class SumPad(BoxLayout):
    """The keypad in the place of the terms."""

    row = ObjectProperty(None, allownone=True)
    owner = ObjectProperty(None, allownone=True)
    key_high = NumericProperty(72)


class SumSheet(BoxLayout):
    """The open number on a sheet; ``row`` is its ``SumRow``, ``owner`` the draft's state.

    What is seldom done with it lies folded away; what takes a change of hers back does not.
    """

    row = ObjectProperty(None, allownone=True)
    owner = ObjectProperty(None, allownone=True, rebind=True)
    unfolded = BooleanProperty(False)
    types = BooleanProperty(False)
    folds = BooleanProperty(False)
    shown_keys = ListProperty()

    def __init__(self, **kwargs: object) -> None:
        super().__init__(**kwargs)
        for name in ("row", "unfolded", "types"):
            self.fbind(name, self._choose_keys)
        if self.owner is not None:
            self.owner.fbind("keys", self._turn)
        self._turn()
        self._choose_keys()

    def on_row(self, before: object, row: object) -> None:
        """Fold up again when another number is opened."""
        if row is not None and row.opened != getattr(self, "_opened", None):
            self._opened, self.unfolded = row.opened, False

    def _turn(self, *_: object) -> None:
        self.types = bool(self.owner and self.owner.keys is not None)

    def _choose_keys(self, *_: object) -> None:
        keys = self.row.keys if self.row and not self.types else ()
        at_hand = [key for key in keys if key[0].startswith("set:") or not self.row.types]
        self.folds = len(at_hand) < len(keys)
        self.shown_keys = list(keys) if self.unfolded else at_hand


Builder.load_file(str(Path(__file__).with_suffix(".kv")))
