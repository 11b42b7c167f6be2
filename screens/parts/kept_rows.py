"""Row widgets that are kept: a list only hands them new rows.

Building widgets is slow, telling them something new is not: after a touch only the rows that
changed redraw.
"""

from typing import Any

from kivy.clock import Clock
from kivy.factory import Factory
from kivy.properties import (
    BooleanProperty,
    ListProperty,
    NumericProperty,
    ObjectProperty,
    StringProperty,
)
from kivy.uix.widget import Widget


class KeptRows(Widget):
    """Mixed into a layout: one widget of the class named ``shows`` for each of ``rows``, in order.

    The widget has a property ``row``; ``owner`` is handed on to it.  ``at_first`` is how many
    are made at once, the others in the frames after; 0 makes all of them.  What is ``patient``
    makes none before the frame after.
    """

    rows = ListProperty()
    shows = StringProperty("")
    owner = ObjectProperty(None, allownone=True)
    at_first = NumericProperty(0)
    patient = BooleanProperty(False)

    def __init__(self, **kwargs: Any) -> None:
        self._is_ready = False  # filled once, when the rules have said everything
        self._more = Clock.create_trigger(self._refill)
        super().__init__(**kwargs)
        for name in ("rows", "shows", "owner"):
            self.fbind(name, self._refill)

    def on_kv_post(self, _base: Widget) -> None:
        self._is_ready = True
        (self._more if self.patient else self._refill)()

    def _refill(self, *_: object) -> None:
        if not (self._is_ready and self.shows):
            return
        kept = list(reversed(self.children))
        for spare in kept[len(self.rows) :]:
            self.remove_widget(spare)
        ready = len(kept) + (self.at_first or len(self.rows))
        if ready < len(self.rows):
            self._more()
        for index, row in enumerate(self.rows[:ready]):
            if index < len(kept):
                kept[index].owner, kept[index].row = self.owner, row
            else:
                self.add_widget(Factory.get(self.shows)(row=row, owner=self.owner))


class AsHigh(KeptRows):
    """Mixed into a layout that is as high as its rows are."""

    def __init__(self, **kwargs: Any) -> None:
        kwargs.setdefault("size_hint_y", None)
        super().__init__(**kwargs)
        self.bind(minimum_height=self._grow)
        self.height = self.minimum_height

    def _grow(self, _list: object, height: float) -> None:
        self.height = height
