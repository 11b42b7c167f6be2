"""A list whose widgets stand side by side and go on in the next line where there is no room."""

from kivy.factory import Factory
from kivy.properties import ListProperty, ObjectProperty, StringProperty
from kivy.uix.stacklayout import StackLayout


class FlowList(StackLayout):
    """Show one widget of the class named ``shows`` for each of ``rows``, as ``RowList`` does."""

    rows = ListProperty()
    shows = StringProperty("")
    owner = ObjectProperty(None, allownone=True)

    def __init__(self, **kwargs: object) -> None:
        kwargs.setdefault("size_hint_y", None)
        super().__init__(**kwargs)
        self.bind(minimum_height=self._grow)
        self.height = self.minimum_height
        for name in ("rows", "shows", "owner"):
            self.fbind(name, self._refill)
        self._refill()

    def _grow(self, _list: object, height: float) -> None:
        self.height = height

    def _refill(self, *_: object) -> None:
        if not self.shows:
            return
        lines = list(reversed(self.children))
        for spare in lines[len(self.rows) :]:
            self.remove_widget(spare)
        for index, row in enumerate(self.rows):
            if index < len(lines):
                lines[index].owner, lines[index].row = self.owner, row
            else:
                self.add_widget(Factory.get(self.shows)(row=row, owner=self.owner))
