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

__all__ = ["AmountLine", "FollowLine", "StepLine", "caution", "looks", "row_list"]


class StepLine(OpenRow):
    """One step; a touch opens why its amounts are what they are."""

    row = ObjectProperty(None, allownone=True)
    owner = ObjectProperty(None, allownone=True)
    opened = BooleanProperty(False)

    def on_release(self) -> None:
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

    def on_touch_down(self, touch: Any) -> bool:
        """Keep a touch beside the keys from closing the step."""
        return bool(super().on_touch_down(touch)) or self.collide_point(*touch.pos)


class FollowLine(BoxLayout):
    """One thing that follows from the moves; ``row`` is its sentence."""

    row = StringProperty("")
    owner = ObjectProperty(None, allownone=True)


Builder.load_file(str(Path(__file__).with_suffix(".kv")))
