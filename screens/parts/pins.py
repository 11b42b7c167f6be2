"""The pinned changes: a list of them, and the one in hand with its stepper and reach."""

from pathlib import Path

from kivy.lang import Builder
from kivy.properties import ObjectProperty
from kivy.uix.boxlayout import BoxLayout

from screens import looks
from screens.parts import reach, row_list
from screens.parts.press import OpenRow
from screens.parts.upright import bring_into_sight

__all__ = ["PinEditor", "PinLine", "looks", "reach", "row_list"]


class PinLine(OpenRow):
    """One pin of the list; a touch takes it in hand."""

    row = ObjectProperty(None, allownone=True)
    owner = ObjectProperty(None, allownone=True)

    def on_release(self) -> None:
        self.owner.take_pin(self.row.index)
        bring_into_sight(self)

    def on_marked(self, *_: object) -> None:
        """Come into sight when taken in hand, by whatever way."""
        if self.marked:
            bring_into_sight(self)


class PinEditor(BoxLayout):
    """The pin in hand: minus and plus, its depth and its total, and how far it may go."""

    row = ObjectProperty(None, allownone=True)
    owner = ObjectProperty(None, allownone=True)


Builder.load_file(str(Path(__file__).with_suffix(".kv")))
