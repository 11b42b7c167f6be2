"""The number keys of a fitting: what they write, large, and the key that goes on."""

from pathlib import Path

from kivy.lang import Builder
from kivy.metrics import dp, sp
from kivy.properties import BooleanProperty, NumericProperty, ObjectProperty, StringProperty
from kivy.uix.boxlayout import BoxLayout

from screens import tokens
from screens.parts import flow, keypad, row_list
from screens.parts.word_key import WordKey
from screens.parts.words import Words

__all__ = ["FitFlow", "FitKeys", "FitLead", "FitPanel", "FitWord", "ToldLine", "flow", "keypad",
           "row_list"]  # fmt: skip

DIGIT_ROWS = 4
USUAL_KEY = 57
"""How high a key of the pad is (dp), where there is room for it."""


class FitPanel(BoxLayout):
    """One moment's own part of the screen: ``row`` is its page, ``owner`` the view."""

    row = ObjectProperty(None, allownone=True)
    owner = ObjectProperty(None, allownone=True)
    wide = BooleanProperty(True)


class FitWord(WordKey):
    """A key of a row: its words, smaller ones under them; ``verb`` names what it calls."""

    row = ObjectProperty(None, allownone=True)
    owner = ObjectProperty(None, allownone=True)
    verb = ""

    def on_row(self, _key: object, row: object) -> None:
        if row is not None:
            self.text = f"{row.label}\n{row.words}" if row.words else row.label
            self.chosen, self.disabled = row.chosen, row.off

    def on_release(self) -> None:
        getattr(self.owner, self.verb)(self.row.key)


class FitLead(FitWord):
    """A key that leads on: ``row.key`` is the verb it calls."""

    def on_release(self) -> None:
        getattr(self.owner, self.row.key)()


class ToldLine(Words):
    """A line of plain words in a list."""

    row = StringProperty("")
    owner = ObjectProperty(None, allownone=True)


class FitFlow(flow.Flow):
    """Words side by side, each as wide as it needs, on as many lines as it takes."""


class FitKeys(BoxLayout):
    """The keys with the number they make; a ``compact`` row leaves the number out.

    Higher than ``most`` (pixels) its keys get lower, but never too low for a finger.
    """

    row = ObjectProperty(None, allownone=True)
    owner = ObjectProperty(None, allownone=True)
    left_handed = BooleanProperty(False)
    most = NumericProperty(10_000)

    def key_width(self, width: float, unit: str) -> float:
        """Return how wide a digit's key is, so that all five columns fill the width."""
        columns = 3 if unit == "mm" else 5
        gaps = (columns - 1) * dp(tokens.GRID) + (0 if unit == "mm" else dp(8))
        return max(dp(48), (width - gaps) / columns)

    def block_height(self, unit: str, room: float) -> float:
        """Return how high the block of keys is: five tenths want one line more than four.

        Every key is whole pixels high, the digits too that stand beside the tenths: a border
        between two pixels would be drawn in pieces.
        """
        rows, gap = 5 if unit == "cm" else 4, dp(tokens.GRID)
        usual, least = max(dp(USUAL_KEY), sp(USUAL_KEY)), dp(tokens.TARGET)
        high = int(max(least, min(usual, (room - (rows - 1) * gap) / rows)))
        blocks = [(rows - 1) * gap + rows * (high - less) for less in range(DIGIT_ROWS)]
        whole = [block for block in blocks if not (block - 3 * gap) % DIGIT_ROWS]
        return max(whole or blocks[:1])


    def height_in(self, most: float) -> float:
        """Return how high all of it is where it may be so high (pixels)."""
        ids = self.ids
        rest = ids.over.height + ids.under.height + 2 * self.spacing
        return float(rest + self.block_height(ids.block.unit, most - rest))


class GoOnKey(WordKey):
    """Goes on to what comes next."""


class AsideKey(FitWord):
    """A key beside going on: skip a train point."""

    verb = "aside"


Builder.load_file(str(Path(__file__).with_suffix(".kv")))
