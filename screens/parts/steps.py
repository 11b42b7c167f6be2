"""The alteration list: the steps in the order they are sewn, each opening its sum."""

from pathlib import Path

from kivy.lang import Builder
from kivy.properties import BooleanProperty, ObjectProperty, StringProperty
from kivy.uix.boxlayout import BoxLayout

from screens import looks
from screens.parts import caution, row_list
from screens.parts.press import OpenRow
from screens.parts.upright import bring_into_sight

__all__ = ["FollowLine", "StepLine", "caution", "looks", "row_list"]


class StepLine(OpenRow):
    """One step; a touch opens why its amounts are what they are."""

    row = ObjectProperty(None, allownone=True)
    owner = ObjectProperty(None, allownone=True)
    opened = BooleanProperty(False)

    def on_release(self) -> None:
        self.opened = not self.opened and bool(self.row.sum)
        bring_into_sight(self)


class FollowLine(BoxLayout):
    """One thing that follows from the moves; ``row`` is its sentence."""

    row = StringProperty("")
    owner = ObjectProperty(None, allownone=True)


Builder.load_file(str(Path(__file__).with_suffix(".kv")))
