"""The alteration list: the steps in the order they are sewn, each opening its sum."""

from pathlib import Path
from typing import Any

from kivy.lang import Builder
from kivy.properties import BooleanProperty, ObjectProperty, StringProperty
from kivy.uix.boxlayout import BoxLayout

from screens import looks
from screens.parts import caution, row_list
from screens.parts.press import OpenRow
from screens.parts.upright import bring_into_sight

__all__ = ["AmountLine", "FollowLine", "SetNote", "StepHead",
           "StepLine", "caution", "looks", "row_list"]


class StepHead(OpenRow):
    """What a step says; a touch opens its line, or closes it."""

    line = ObjectProperty(None, allownone=True)

    def on_release(self) -> None:
        self.line.turn()


class StepLine(BoxLayout):
    """One step; opened, why its amounts are what they are, and the amounts to be set."""

    row = ObjectProperty(None, allownone=True)
    owner = ObjectProperty(None, allownone=True)
    opened = BooleanProperty(False)

    def turn(self) -> None:
        """Open it, where there is anything to open, or close it."""
        self.opened = not self.opened and bool(self.row.sum or self.row.amounts)
        bring_into_sight(self)

    def on_row(self, _line: object, row: Any) -> None:
        """Close when another step takes this one's place in the list."""
        title = row.title if row is not None else ""
        if title != getattr(self, "_title", title):
            self.opened = False
        self._title = title


class AmountLine(BoxLayout):
    """An amount of the open step: a key further in, one further out, and back to as planned."""

    row = ObjectProperty(None, allownone=True)
    owner = ObjectProperty(None, allownone=True)
    label_above = BooleanProperty(False)


class SetNote(BoxLayout):
    """That an amount was set by hand, what was planned, and the key that makes it so again."""

    row = ObjectProperty(None, allownone=True)
    owner = ObjectProperty(None, allownone=True)


class FollowLine(BoxLayout):
    """One thing that follows from the moves; ``row`` is its sentence."""

    row = StringProperty("")
    owner = ObjectProperty(None, allownone=True)


Builder.load_file(str(Path(__file__).with_suffix(".kv")))
