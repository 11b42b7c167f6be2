"""Keys beside each other, on as many lines as they need."""

from typing import Any

from kivy.factory import Factory
from kivy.metrics import dp
from kivy.properties import ListProperty, ObjectProperty, StringProperty
from kivy.uix.stacklayout import StackLayout

from screens.tokens import GRID


class Flow(StackLayout):
    """Show one widget of the class named ``shows`` for each of ``rows``; it keeps them."""

    rows = ListProperty()
    shows = StringProperty("")
    owner = ObjectProperty(None, allownone=True)

    def __init__(self, **kwargs: Any) -> None:
        kwargs.setdefault("size_hint_y", None)
        super().__init__(spacing=dp(GRID), **kwargs)
        self.bind(minimum_height=self.setter("height"))
        for name in ("rows", "shows", "owner"):
            self.fbind(name, self._refill)
        self._refill()

    def _refill(self, *_: object) -> None:
        if not self.shows:
            return
        keys = list(reversed(self.children))
        for spare in keys[len(self.rows) :]:
            self.remove_widget(spare)
        for index, row in enumerate(self.rows):
            if index < len(keys):
                keys[index].owner, keys[index].row = self.owner, row
            else:
                self.add_widget(Factory.get(self.shows)(row=row, owner=self.owner))
        if not self.rows:
            self.height = 0
