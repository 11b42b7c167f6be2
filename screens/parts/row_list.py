"""A list that keeps its row widgets and only hands them new rows.

Building widgets is slow, telling them something new is not: after a touch only the
rows that changed redraw.
"""

from kivy.clock import Clock
from kivy.factory import Factory
from kivy.properties import ListProperty, NumericProperty, ObjectProperty, StringProperty
from kivy.uix.boxlayout import BoxLayout
from kivy.uix.widget import Widget


class RowList(BoxLayout):
    """Show one widget of the class named ``shows`` for each of ``rows``, in order.

    The widget has a property ``row``; ``owner``, where given, is handed on to it.  ``at_first``
    is how many are made at once, the others in the frames after; 0 makes all of them.
    """

    rows = ListProperty()
    shows = StringProperty("")
    owner = ObjectProperty(None, allownone=True)
    at_first = NumericProperty(0)

    def __init__(self, **kwargs: object) -> None:
        kwargs.setdefault("orientation", "vertical")
        kwargs.setdefault("size_hint_y", None)
        self._is_ready = False  # filled once, when the rules have said everything
        self._more = Clock.create_trigger(self._refill)
        super().__init__(**kwargs)
        self.bind(minimum_height=self._grow)
        self.height = self.minimum_height
        for name in ("rows", "shows", "owner"):
            self.fbind(name, self._refill)

    def on_kv_post(self, _base: Widget) -> None:
        self._is_ready = True
        self._refill()

    def _grow(self, _list: object, height: float) -> None:
        self.height = height

    def _refill(self, *_: object) -> None:
        if not (self._is_ready and self.shows):
            return
        lines = list(reversed(self.children))
        for spare in lines[len(self.rows) :]:
            self.remove_widget(spare)
        ready = len(lines) + (self.at_first or len(self.rows))
        if ready < len(self.rows):
            self._more()
        for index, row in enumerate(self.rows[:ready]):
            if index < len(lines):
                lines[index].owner = self.owner
                lines[index].row = row
            else:
                self.add_widget(Factory.get(self.shows)(row=row, owner=self.owner))
