"""A long list: only the rows in sight are widgets, and they are handed on as it moves."""

from pathlib import Path
from typing import Any

from kivy.clock import Clock
from kivy.lang import Builder
from kivy.properties import (
    BooleanProperty,
    ListProperty,
    NumericProperty,
    ObjectProperty,
    StringProperty,
)
from kivy.uix.recycleview import RecycleView

from screens.parts import even_rows

__all__ = ["Roll", "even_rows"]


class Roll(RecycleView):
    """Show the class named ``shows`` for each of ``rows``, all ``row_height`` high.

    The class has properties ``row`` and ``owner``.  ``gap`` lies between two rows.  One that is
    ``patient`` is filled a frame after what stands round it is seen.
    """

    rows = ListProperty()
    shows = StringProperty("")
    owner = ObjectProperty(None, allownone=True)
    row_height = NumericProperty(64)
    gap = NumericProperty(8)
    patient = BooleanProperty(False)

    def __init__(self, **kwargs: Any) -> None:
        super().__init__(**kwargs)
        for name in ("rows", "owner"):
            self.fbind(name, self._refill)

    def _refill(self, *_: object) -> None:
        if not self.viewclass:
            return  # filled once, when the rules have said everything
        self.data = [{"row": row, "owner": self.owner} for row in self.rows]

    def on_kv_post(self, _base: Any) -> None:
        if self.patient:
            Clock.schedule_once(self._begin)
        else:
            self._begin()

    def _begin(self, *_: object) -> None:
        self.viewclass = self.shows
        self._refill()

    def on_rows(self, *_: object) -> None:
        """Begin at the top again where the list became another one."""
        if len(self.rows) != len(self.data):
            self.scroll_y = 1


Builder.load_file(str(Path(__file__).with_suffix(".kv")))
