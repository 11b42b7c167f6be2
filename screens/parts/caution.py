"""A caution: always a filled ground with its sign and its words."""

from pathlib import Path

from kivy.lang import Builder
from kivy.properties import ObjectProperty, StringProperty
from kivy.uix.boxlayout import BoxLayout

from screens import looks

__all__ = ["CautionBlock", "CautionLine", "looks"]


class CautionLine(BoxLayout):
    """A sentence on the caution's ground; without words it takes no room."""

    text = StringProperty("")


class CautionBlock(CautionLine):
    """A caution as a row of a list: ``row`` is its sentence."""

    row = ObjectProperty(None, allownone=True)
    owner = ObjectProperty(None, allownone=True)

    def on_row(self, _block: object, row: str) -> None:
        self.text = row or ""


Builder.load_file(str(Path(__file__).with_suffix(".kv")))
