"""The levels strip: body + ease = wanted, as sewn, pinned, and what is left over."""

from pathlib import Path

from kivy.lang import Builder
from kivy.properties import (
    BooleanProperty,
    ListProperty,
    NumericProperty,
    ObjectProperty,
    StringProperty,
)
from kivy.uix.boxlayout import BoxLayout

from screens import looks
from screens.parts.press import OpenRow
from screens.parts.row_list import RowList
from screens.parts.upright import bring_into_sight

__all__ = ["LevelLine", "LevelsTable", "RowList", "looks"]


class LevelLine(OpenRow):
    """One level; a touch opens the sum that its numbers come from."""

    row = ObjectProperty(None, allownone=True)
    owner = ObjectProperty(None, allownone=True)
    opened = BooleanProperty(False)

    def on_release(self) -> None:
        self.opened = not self.opened and bool(self.row.sum)
        bring_into_sight(self)

    def on_marked(self, *_: object) -> None:
        """Come into sight when the pin in hand lies on this level."""
        if self.marked:
            bring_into_sight(self)


class LevelsTable(BoxLayout):
    """The strip under the names of its columns; higher than ``most`` it scrolls."""

    rows = ListProperty()
    moved_name = StringProperty("pinned")
    most = NumericProperty(0)

    def on_most(self, *_: object) -> None:
        """Keep the level of the pin in hand in sight when there is less room."""
        for line in reversed(self.ids.rows.children if "rows" in self.ids else []):
            if line.row.live:
                bring_into_sight(line)
                return


Builder.load_file(str(Path(__file__).with_suffix(".kv")))
