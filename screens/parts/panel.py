"""Panels that stand in the place of a page: a question, and a choice from the device's folders."""

from pathlib import Path
from typing import Any

from kivy.clock import Clock
from kivy.lang import Builder
from kivy.properties import (
    BooleanProperty,
    ObjectProperty,
    StringProperty,
)
from kivy.uix.boxlayout import BoxLayout

from screens import looks
from screens.parts import caution, field, listed, roll, row_list
from screens.parts.listed import ListedLine
from screens.parts.press import Press

__all__ = ["AnswerKey", "AskPanel", "BrowsePanel", "BrowsedLine", "Panel", "SecretBox", "caution",
           "field", "listed", "looks", "roll", "row_list"]  # fmt: skip


class Panel(BoxLayout):
    """Stands in the place of a page; ``view`` is the page's."""

    view = ObjectProperty(None, rebind=True, allownone=True)
    wide = BooleanProperty(True)


class AnswerKey(Press):
    """A key that answers a question."""

    row = ObjectProperty(None, allownone=True)
    owner = ObjectProperty(None, allownone=True)

    def on_release(self) -> None:
        self.owner.answer(self.row.key)


class SecretBox(BoxLayout):
    """A field for a passcode; ``row`` is its hint."""

    row = StringProperty("")
    owner = ObjectProperty(None, allownone=True)
    text = StringProperty("")


class AskPanel(Panel):
    """A question with its keys, and fields for passcodes where it asks for them."""

    readable = BooleanProperty(False)

    def on_parent(self, _panel: object, parent: object) -> None:
        if parent is None:
            self._forget()
        else:
            Clock.schedule_once(self._take_keyboard)

    def _boxes(self) -> list[Any]:
        return list(reversed(self.ids.secrets.children))

    def _take_keyboard(self, _passed: float) -> None:
        for box in self._boxes()[:1]:
            box.ids.field.focus = True

    def _forget(self) -> None:
        for box in self._boxes():
            box.ids.field.forget()
        self.readable = False

    def answer(self, key: str) -> None:
        """Answer with a key and whatever passcodes were typed."""
        self.view.answer(key, tuple(box.ids.field.text for box in self._boxes()))


class BrowsedLine(ListedLine):
    """A folder to go into, or a file to take."""

    def on_release(self) -> None:
        self.owner.browse(self.row)


class PlaceKey(Press):
    """A place of the device to begin from."""

    row = ObjectProperty(None, allownone=True)
    owner = ObjectProperty(None, allownone=True)

    def on_release(self) -> None:
        self.owner.browse(self.row)


class HereKey(Press):
    """Takes the folder that is open."""

    row = ObjectProperty(None, allownone=True)
    owner = ObjectProperty(None, allownone=True)

    def on_release(self) -> None:
        self.owner.take_folder()


class ShowKey(Press):
    """Shows the passcodes that are typed, or dots again."""

    row = ObjectProperty(None, allownone=True)
    owner = ObjectProperty(None, allownone=True, rebind=True)

    def on_release(self) -> None:
        self.owner.readable = not self.owner.readable


class BrowsePanel(Panel):
    """The folders of the device, and the files that may be taken."""


Builder.load_file(str(Path(__file__).with_suffix(".kv")))
