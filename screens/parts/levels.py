"""The levels strip: body + ease = wanted, as sewn, pinned, and what is left over."""

from pathlib import Path

from kivy.clock import Clock
from kivy.lang import Builder
from kivy.metrics import dp
from kivy.properties import (
    BooleanProperty,
    ListProperty,
    NumericProperty,
    ObjectProperty,
    StringProperty,
)
from kivy.uix.boxlayout import BoxLayout

from screens import looks, tokens
from screens.parts import upright
from screens.parts.level_columns import LevelColumns, columns_for
from screens.parts.press import OpenRow
from screens.parts.row_list import RowList

__all__ = ["LevelLine", "LevelsTable", "RowList", "looks", "upright"]

LONG = 16
"""A level's name of more letters than this is of the small size."""

NO_COLUMNS = LevelColumns(0, 0, 0, 0, 0, 0, tokens.SMALL)


class LevelLine(OpenRow):
    """One level; a touch opens the sum that its numbers come from."""

    row = ObjectProperty(None, allownone=True)
    owner = ObjectProperty(None, allownone=True, rebind=True)
    columns = ObjectProperty(NO_COLUMNS, rebind=True)
    opened = BooleanProperty(False)
    long = LONG

    def on_release(self) -> None:
        self.opened = not self.opened and bool(self.row.sum)
        self.owner.look_at(self.row.level)


class LevelsTable(BoxLayout):
    """The strip under the names of its columns; higher than ``most`` it scrolls.

    ``needed_height`` is that of all levels.  No level is cut: it is as high as the whole ones
    that there is room for, and the level of the pin in hand is among them.
    """

    rows = ListProperty()
    moved_name = StringProperty("pinned")
    most = NumericProperty(0)
    columns = ObjectProperty(NO_COLUMNS, rebind=True)
    shown_height = NumericProperty(0)
    needed_height = NumericProperty(0)

    def __init__(self, **kwargs: object) -> None:
        self._stood: object = None
        self._live = self._looked_at = ""
        super().__init__(**kwargs)

    def on_kv_post(self, _base: object) -> None:
        self._settle_soon = Clock.create_trigger(self._settle, -1)
        for name in ("rows", "width"):
            self.fbind(name, self._set_columns)
        self.fbind("rows", self._settle_soon)
        self.fbind("most", self._settle_soon)
        self.ids.rows.fbind("height", self._settle_soon)
        self._set_columns()

    def _set_columns(self, *_: object) -> None:
        self.columns = columns_for(self.rows, self.width - dp(2 * tokens.GRID))
        self._settle_soon()

    def look_at(self, level: str) -> None:
        """Keep a level in sight, until a pin on another one is taken in hand."""
        self._looked_at = level
        self._settle_soon()

    def _settle(self, *_: object) -> None:
        """Show the whole levels there is room for, from the top or from the one looked at."""
        lines: list[LevelLine] = list(reversed(self.ids.rows.children))
        levels, heights = [line.row.level for line in lines], [line.height for line in lines]
        live = next((line.row.level for line in lines if line.row.live), "")
        if live != self._live or self._looked_at not in levels:
            self._live = self._looked_at = live
        here = levels.index(self._looked_at) if self._looked_at in levels else 0
        room = self.most - self.ids.names.height - self.ids.under_names.height
        pinned = [bool(line.row.moved_mark) for line in lines]
        first, self.shown_height = whole_levels(heights, here, pinned, room)
        stands = (first, here, heights, self.shown_height)
        if stands != self._stood and heights:
            self._stood = stands
            whole = sum(heights) + len(heights) * dp(tokens.GRID)
            beyond = whole - self.shown_height
            above = sum(heights[:first]) + first * dp(tokens.GRID)
            self.ids.view.scroll_y = 1 - min(above / beyond, 1) if beyond > 0 else 1


def whole_levels(
    heights: list[float], here: int, pinned: list[bool], room: float
) -> tuple[int, float]:  # fmt: skip
    """Return the first of the levels that are shown, and how high all of these are (pixels).

    They are so many as there is room for, at least one; ``here`` is one of them, and as many
    pinned ones as can be.
    """
    apart = dp(tokens.GRID)

    def high(first: int, end: int) -> float:
        return sum(heights[first:end]) + (end - first) * apart

    def end_of(first: int) -> int:
        end = first + 1
        while end < len(heights) and high(first, end + 1) <= room:
            end += 1
        return end

    if not heights:
        return 0, 0.0
    among = [first for first in range(here + 1) if here < end_of(first)]
    first = max(among, key=lambda first: sum(pinned[first : end_of(first)]))
    return first, high(first, end_of(first))


Builder.load_file(str(Path(__file__).with_suffix(".kv")))
