"""The day book: who comes, what is still to sew, and every client by name."""

from pathlib import Path

from kivy.clock import Clock
from kivy.factory import Factory
from kivy.lang import Builder
from kivy.properties import ObjectProperty, StringProperty
from kivy.uix.boxlayout import BoxLayout
from kivy.uix.widget import Widget

from screens.page import Page
from screens.parts import head, listed, notice, roll, row_list
from screens.parts.listed import ListedLine
from screens.parts.press import OpenRow, Press

__all__ = ["DayBookScreen", "head", "listed", "notice", "roll", "row_list"]

Factory.register("Typed", module="screens.parts.field")  # what is typed into is loaded when it
Factory.register("SearchField", module="screens.parts.search_field")  # first stands there

MINUTE_S = 30
"""How often what stands there about the time is said anew."""


class NextFitting(OpenRow):
    """The next fitting, the largest thing on the page."""

    row = ObjectProperty(None, allownone=True)
    owner = ObjectProperty(None, allownone=True)

    def on_release(self) -> None:
        self.owner.open_fitting(self.row)


class FittingLine(ListedLine):
    """A fitting to come, or one that was not held."""

    def on_release(self) -> None:
        self.owner.open_fitting(self.row)


class SewingLine(ListedLine):
    """Changes still to sew."""

    def on_release(self) -> None:
        self.owner.open_changes(self.row)


class DueLine(ListedLine):
    """A garment that is due."""

    def on_release(self) -> None:
        self.owner.open_client(self.row.client_id)


class MoreKey(Press):
    """Brings more lines of a list."""

    row = StringProperty("")
    owner = ObjectProperty(None, allownone=True)

    def on_release(self) -> None:
        self.owner.show_more()


class ClientLine(OpenRow):
    """One client; a touch opens her, or says why she cannot be read.

    It gives its few parts their places itself: a long list is full of them.
    """

    row = ObjectProperty(None, allownone=True)
    owner = ObjectProperty(None, allownone=True)
    caution: Widget | None = None

    def on_row(self, *_: object) -> None:
        """Make the mark where it is first needed: hardly anybody's file is damaged."""
        if self._damaged and self.caution is None:
            self.caution = Factory.DamagedMark()
            self.add_widget(self.caution)
        if self.caution is not None:
            self.caution.kind = "caution" if self._damaged else ""
        self._trigger_layout()

    @property
    def _damaged(self) -> bool:
        return self.row is not None and self.row.line.damaged

    def do_layout(self, *_: object) -> None:
        """Place her name over the small words, halfway up, beside the mark."""
        x = self.x
        if self.caution is not None and self._damaged:
            self.caution.height, self.caution.pos = self.height, self.pos
            x = self.caution.right
        y = self.center_y - (self.ids.name.height + self.ids.words.height) / 2
        for part in (self.ids.words, self.ids.name):
            part.width, part.pos = self.right - x, (x, y)
            y = part.top

    def on_release(self) -> None:
        self.owner.open_client(self.row.line.client_id)


class AgainKey(Press):
    """Undo or redo, as a shape alone: here there is nothing of its own to take back."""

    row = StringProperty("")
    owner = ObjectProperty(None, allownone=True, rebind=True)

    def on_release(self) -> None:
        getattr(self.owner, self.row)()


class RemoveKey(Press):
    """Takes the demo client away, asked twice."""

    row = ObjectProperty(None, allownone=True)
    owner = ObjectProperty(None, allownone=True)

    def on_release(self) -> None:
        self.owner.remove_demo(self.row.line.client_id)


class ClientRow(BoxLayout):
    """A client of the list, and beside the demo client the key that takes her away."""

    row = ObjectProperty(None, allownone=True)
    owner = ObjectProperty(None, allownone=True)
    remove: RemoveKey | None = None

    def on_row(self, *_: object) -> None:
        """Make the key where it is first needed: hardly any row has it."""
        demo = self.row is not None and self.row.line.demo
        if demo and self.remove is None:
            self.remove = RemoveKey(row=self.row, owner=self.owner)
        if self.remove is None:
            return
        if demo:
            self.remove.row, self.remove.owner = self.row, self.owner
        if demo and self.remove.parent is None:
            self.add_widget(self.remove)
        elif not demo and self.remove.parent is not None:
            self.remove_widget(self.remove)

    def on_owner(self, *_: object) -> None:
        self.on_row()


class DemoKey(Press):
    """Brings the demo client in."""

    row = ObjectProperty(None, allownone=True)
    owner = ObjectProperty(None, allownone=True)

    def on_release(self) -> None:
        self.owner.bring_in_demo()


class NamePanel(BoxLayout):
    """A field for a new client's name: all that is asked before she can go on."""

    row = ObjectProperty(None, allownone=True)
    owner = ObjectProperty(None, allownone=True)

    def on_parent(self, _panel: object, parent: object) -> None:
        if parent is not None:
            Clock.schedule_once(lambda _: self.ids.name.take_keyboard())


class DayBookScreen(Page):
    """The first screen; wide in three columns, tall one above the other."""

    @property
    def search(self) -> Widget | None:
        """The field to look for a client in; it stands there from the second frame on."""
        return next(iter(self.ids.searching.children), None)

    def on_enter(self) -> None:
        self._each_minute = Clock.schedule_interval(self._turn_on, MINUTE_S)

    def on_leave(self) -> None:
        self._each_minute.cancel()

    def _turn_on(self, _passed: float) -> None:
        self.room.refresh()

    def on_key(self, key: int, text: str) -> bool:
        """Begin to search with the first letter typed."""
        if not (text.isalpha() or text.isdigit()) or self.view.naming or self.search is None:
            return False
        field = self.search.ids.field
        if field.focus:
            return False
        field.focus = True
        return True


Builder.load_file(str(Path(__file__).with_suffix(".kv")))
