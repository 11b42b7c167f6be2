"""The number that lies open: its sum with every term's name, minus and plus, and the keypad."""

from pathlib import Path

from kivy.core.window import Window
from kivy.lang import Builder
from kivy.metrics import dp
from kivy.properties import BooleanProperty, ListProperty, NumericProperty, ObjectProperty
from kivy.uix.behaviors import ButtonBehavior
from kivy.uix.boxlayout import BoxLayout

from screens import looks
from screens.parts import flow, keypad, row_list
from screens.parts.press import OpenRow, Press

__all__ = ["SumSheet", "TermCell", "flow", "keypad", "looks", "row_list"]

KEY, LOW_KEY = 72, 56
"""How high a key of the keypad is (dp), and on a screen lower than ``ROOMY``."""

ROOMY = 720

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
    """The keypad in the place of the terms; its keys are lower on a low screen."""

    row = ObjectProperty(None, allownone=True)
    owner = ObjectProperty(None, allownone=True)
    key_high = NumericProperty(KEY)

    def __init__(self, **kwargs: object) -> None:
        super().__init__(**kwargs)
        Window.bind(height=self._fit)
        self._fit()

    def _fit(self, *_: object) -> None:
        self.key_high = KEY if Window.height >= dp(ROOMY) else LOW_KEY


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
        self._keys = [self.ids[name].__self__ for name in ("unfold", "less", "more", "type")]
        for name in ("row", "unfolded", "types"):
            self.fbind(name, self._choose_keys)
        self._choose_keys()
        self._turn()

    def on_owner(self, _sheet: object, owner: object) -> None:
        if owner is not None:
            owner.fbind("keys", self._turn)
        if hasattr(self, "_keys"):
            self._turn()

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
        self._show_head()

    def _show_head(self) -> None:
        """Let only those keys stand beside the title that can do anything with this number."""
        types = bool(self.row and self.row.types)
        wanted = [key for key, wants in zip(self._keys, (self.folds, types, types, types),
                                            strict=True) if wants]  # fmt: skip
        head = self.ids.head
        if [key for key in reversed(head.children) if key in self._keys] == wanted:
            return
        for key in self._keys:
            head.remove_widget(key)
        for key in wanted:
            head.add_widget(key)


Builder.load_file(str(Path(__file__).with_suffix(".kv")))
