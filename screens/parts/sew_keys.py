"""What is touched at the sewing table: keys that need no aiming, and a girth's row."""

from pathlib import Path
from typing import Any

from kivy.lang import Builder
from kivy.metrics import dp, sp
from kivy.properties import BooleanProperty, NumericProperty, ObjectProperty, StringProperty
from kivy.uix.boxlayout import BoxLayout
from kivy.uix.floatlayout import FloatLayout
from kivy.uix.widget import Widget

from screens import looks, tokens
from screens.parts import sew_marks, words
from screens.parts.press import NONE, OpenRow
from screens.parts.upright import bring_into_sight
from screens.tokens import colours

__all__ = ["SewBar", "SewGirth", "SewGirthHead", "SewKey", "SewKeys", "SewLine", "looks",
           "sew_marks", "words"]  # fmt: skip

LOW_KEY, HIGH_KEY, BETWEEN = 112, 144, 100

ROOMY = 800
"""What was ticked is named beside its key where there is so much room (sp)."""


def stand(parent: Widget, part: Widget, *, there: bool) -> None:
    """Let a part stand in its parent, or not at all: what is not there cannot be touched."""
    if there and part.parent is None:
        parent.add_widget(part)
    elif not there and part.parent is not None:
        part.parent.remove_widget(part)


class SewKey(OpenRow):
    """A block with a word and a shape; ``dark`` leads on, ``held`` waits, ``warns`` cautions."""

    text = StringProperty("")
    mark = StringProperty("")
    dark = BooleanProperty(False)
    held = BooleanProperty(False)
    warns = BooleanProperty(False)
    letter = NumericProperty(tokens.KEY)
    needed_width = NumericProperty(0)
    stands = ("marked", "dark", "held", "warns")

    def dress(self) -> tuple[object, object, object]:
        if self.held:
            return colours.edge, colours.sheet, colours.rule
        if self.warns and not self.dark and self.state != "down":
            return colours.caution_ink, colours.caution, NONE
        if self.dark != (self.state == "down"):
            return colours.paper, colours.ink, NONE
        return colours.ink, colours.sheet, colours.edge


class SewLine(BoxLayout):
    """One sentence; ``row`` is its text and how it stands: plain, strong, soft or a caution."""

    row = ObjectProperty(("", ""))
    owner = ObjectProperty(None, allownone=True)


class SewGirth(BoxLayout):
    """A girth to tape: what it should be, what it is, and what that means."""

    row = ObjectProperty(None, allownone=True)
    owner = ObjectProperty(None, allownone=True)

    def on_row(self, *_: object) -> None:
        """Come into sight when the keys are put on it, once the rules have made it."""
        if self.row is not None and self.row.here and "said" in self.ids:
            bring_into_sight(self.ids.said)
            bring_into_sight(self.ids.found)

    on_height = on_kv_post = on_row  # what is said of it makes it higher


class SewGirthHead(BoxLayout):
    """What the two numbers of a girth's row are."""

    row = ObjectProperty(None, allownone=True)
    owner = ObjectProperty(None, allownone=True)


class SewBar(BoxLayout):
    """What was ticked just now, or how this step stands, with the key that takes it back."""

    view = ObjectProperty(None, rebind=True, allownone=True)
    offers = BooleanProperty(False)

    def on_kv_post(self, _base: object) -> None:
        self._key = self.ids.take_back.__self__
        self.fbind("offers", self._offer)
        self._offer()

    def _offer(self, *_: object) -> None:
        stand(self, self._key, there=self.offers)

    def brief(self, ticked: str, room: float) -> str:
        """Return what was ticked, in so much room (pixels): large letters leave it one word."""
        has_room = room > sp(ROOMY) or not tokens.letters_are_larger()
        return ticked if has_room else ticked.partition(":")[0]


class SewKeys(FloatLayout):
    """Back and Done, as large as each other; why and read aloud between them, or above."""

    view = ObjectProperty(None, rebind=True, allownone=True)
    wide = BooleanProperty(True)
    left_handed = BooleanProperty(False)
    offers_why = BooleanProperty(False)
    offers_read = BooleanProperty(False)

    def __init__(self, **kwargs: Any) -> None:
        super().__init__(**kwargs)
        for name in ("wide", "left_handed"):
            self.fbind(name, self._trigger_layout)

    def on_kv_post(self, _base: object) -> None:
        self._between = [self.ids[name].__self__ for name in ("why", "read")]
        for name in ("offers_why", "offers_read"):
            self.fbind(name, self._offer)
        for key in self._between:
            key.fbind("needed_width", self._trigger_layout)
        self._offer()

    def _offer(self, *_: object) -> None:
        for key, there in zip(self._between, (self.offers_why, self.offers_read), strict=True):
            stand(self, key, there=there)

    def do_layout(self, *_: object, **__: object) -> None:
        gap = dp(tokens.GRID)
        ids = self.ids
        between = [key for key in self._between if key.parent is self]
        if self.wide:
            height = self.height
            wide = [each.needed_width for each in between]
            main = (self.width - sum(wide) - gap * (len(between) + 1)) / 2
            self._row([ids.back, *between, ids.done], [main, *wide, main], self.y, height, gap)
            return
        upper = dp(BETWEEN) if between else 0
        lower = self.height - (upper + gap if between else 0)
        main = (self.width - gap) / 2
        self._row([ids.back, ids.done], [main, main], self.y, lower, gap)
        if between:
            each = (self.width - gap * (len(between) - 1)) / len(between)
            self._row(between, [each] * len(between), self.y + lower + gap, upper, gap)

    def _row(
        self, keys: list[Widget], widths: list[float], y: float, height: float, gap: float
    ) -> None:  # fmt: skip
        placed = list(zip(keys, widths, strict=True))
        x = self.x
        for key, width in reversed(placed) if self.left_handed else placed:
            key.size, key.pos = (round(width), round(height)), (round(x), round(y))
            x += width + gap

    @property
    def reading(self) -> str:
        """What the key that reads aloud says: with larger letters there is room for one word."""
        return "Read" if tokens.letters_are_larger() else "Read aloud"

    def needed(self, wide: bool, has_between: bool) -> float:
        """Return how high all of it is (pixels)."""
        if wide:
            return float(dp(LOW_KEY))
        return float(dp(HIGH_KEY + (BETWEEN + tokens.GRID if has_between else 0)))


Builder.load_file(str(Path(__file__).with_suffix(".kv")))
