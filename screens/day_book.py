"""The day book: who comes, what is still to sew, and every client by name."""

from pathlib import Path

from kivy.clock import Clock
from kivy.lang import Builder
from kivy.properties import ObjectProperty, StringProperty
from kivy.uix.boxlayout import BoxLayout

from screens.page import Page
from screens.parts import field, head, listed, notice, roll, row_list
from screens.parts.listed import ListedLine
from screens.parts.press import OpenRow, Press

__all__ = ["DayBookScreen", "field", "head", "listed", "notice", "roll", "row_list"]

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
    """One client; a touch opens her, or says why she cannot be read."""

    row = ObjectProperty(None, allownone=True)
    owner = ObjectProperty(None, allownone=True)

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

    def on_enter(self) -> None:
        self._each_minute = Clock.schedule_interval(self._turn_on, MINUTE_S)

    def on_leave(self) -> None:
        self._each_minute.cancel()

    def _turn_on(self, _passed: float) -> None:
        self.room.refresh()

    def on_key(self, key: int, text: str) -> bool:
        """Begin to search with the first letter typed."""
        search = self.ids.search.ids.field
        if not (text.isalpha() or text.isdigit()) or search.focus or self.view.naming:
            return False
        search.focus = True
        return True


Builder.load_file(str(Path(__file__).with_suffix(".kv")))
