"""A caution: always a filled ground with its sign and its words."""

from pathlib import Path

from kivy.lang import Builder
from kivy.properties import BooleanProperty, ListProperty, ObjectProperty, StringProperty
from kivy.uix.boxlayout import BoxLayout

from screens import looks
from screens.parts import row_list
from screens.parts.press import OpenRow

__all__ = ["CautionBlock", "CautionFold", "CautionLine", "looks", "row_list"]


class CautionLine(BoxLayout):
    """A sentence on the caution's ground; without words it takes no room."""

    text = StringProperty("")


class CautionBlock(CautionLine):
    """A caution as a row of a list: ``row`` is its sentence."""

    row = ObjectProperty(None, allownone=True)
    owner = ObjectProperty(None, allownone=True)

    def on_row(self, _block: object, row: str) -> None:
        self.text = row or ""


class CautionBar(OpenRow):
    """The bar that says how many there are; a touch opens and closes them."""

    row = StringProperty("")
    owner = ObjectProperty(None, allownone=True, rebind=True)

    def on_release(self) -> None:
        self.owner.turn()


class CautionFold(BoxLayout):
    """All cautions of a garment behind one bar, so that they never push the list away."""

    rows = ListProperty()
    opened = BooleanProperty(False)
    words = StringProperty("")

    def on_rows(self, _fold: object, rows: list[str]) -> None:
        count = len(rows)
        self.words = "" if not count else "1 caution" if count == 1 else f"{count} cautions"

    def turn(self) -> None:
        self.opened = not self.opened


Builder.load_file(str(Path(__file__).with_suffix(".kv")))
