"""The moments of a fitting as a row of plain keys; tall, in two rows."""

from typing import Any

from kivy.factory import Factory
from kivy.metrics import dp, sp
from kivy.properties import BooleanProperty, ListProperty, ObjectProperty
from kivy.uix.gridlayout import GridLayout

from screens import tokens

EACH_ROW = 4


class Moments(GridLayout):
    """Show a ``MomentKey`` for each of ``rows``; it keeps them."""

    rows_shown = ListProperty()
    owner = ObjectProperty(None, allownone=True)
    wide = BooleanProperty(True)

    def __init__(self, **kwargs: Any) -> None:
        kwargs.setdefault("size_hint_y", None)
        super().__init__(cols=8, spacing=dp(tokens.GRID), **kwargs)
        for name in ("rows_shown", "owner", "wide"):
            self.fbind(name, self._refill)
        self._refill()

    def _refill(self, *_: object) -> None:
        keys = list(reversed(self.children))
        for spare in keys[len(self.rows_shown) :]:
            self.remove_widget(spare)
        for index, row in enumerate(self.rows_shown):
            if index < len(keys):
                keys[index].owner, keys[index].row = self.owner, row
            else:
                self.add_widget(Factory.get("MomentKey")(row=row, owner=self.owner))
        shown = len(self.rows_shown)
        self.cols = max(1, min(shown, 2 * EACH_ROW if self.wide else EACH_ROW))
        lines = -(-shown // self.cols)
        each = max(dp(tokens.TARGET), sp(tokens.LINE[tokens.TEXT]) + dp(12))
        side = dp(tokens.MARGIN) if self.wide else dp(16)
        self.padding = [side, dp(tokens.GRID) if shown else 0, side, 0]
        self.height = lines * each + max(lines - 1, 0) * dp(tokens.GRID) + self.padding[1]
