"""The settings: their parts beside each other or one at a time, and the lines of each."""

from dataclasses import replace
from pathlib import Path
from typing import Any

from kivy.lang import Builder
from kivy.properties import BooleanProperty, ObjectProperty
from kivy.uix.boxlayout import BoxLayout

from screens.page import Page
from screens.parts import caution, flow, head, listed, panel, place, row_list
from screens.parts.listed import ListedLine
from screens.parts.panel import Panel
from screens.parts.press import Press

__all__ = [
    "PartsPanel",
    "SettingLine",
    "SettingsScreen",
    "caution",
    "flow",
    "head",
    "listed",
    "panel",
    "place",
    "row_list",
]  # fmt: skip


class PartLine(ListedLine):
    """Opens a part of the settings."""

    def on_release(self) -> None:
        self.owner.open_part(self.row.part)


class SettingLine(BoxLayout):
    """One setting, and how it is changed."""

    row = ObjectProperty(None, allownone=True)
    owner = ObjectProperty(None, allownone=True)


class ChoiceKey(Press):
    """One of a few."""

    row = ObjectProperty(None, allownone=True)
    owner = ObjectProperty(None, allownone=True)

    def on_release(self) -> None:
        self.owner.choose(self.row.name, self.row.key)


class LengthStepper(BoxLayout):
    """A length with its steps, and the way back to the usual one; ``row`` is the setting."""

    row = ObjectProperty(None, allownone=True)
    owner = ObjectProperty(None, allownone=True)


class DoKey(Press):
    """Does something with all clients."""

    row = ObjectProperty(None, allownone=True)
    owner = ObjectProperty(None, allownone=True)

    def on_release(self) -> None:
        self.owner.do(self.row.verb)


class PartsPanel(Panel):
    """The parts and the lines of the one that is open."""

    shows_parts = BooleanProperty(True)
    shows_lines = BooleanProperty(True)

    def on_kv_post(self, _base: Any) -> None:
        # held by the panel too: ids hold weakly, and one of them may be out of the tree
        self._parts, self._lines = self.ids.parts_view.__self__, self.ids.lines_view.__self__
        for name in ("shows_parts", "shows_lines"):
            self.fbind(name, self._lay)
        self._lay()

    def listed(self, parts: list[Any], wide: bool) -> list[Any]:
        """Return the parts; wide, the first one is open where none was chosen."""
        if wide and parts and not any(row.opened for row in parts):
            return [replace(parts[0], opened=True), *parts[1:]]
        return parts

    def _lay(self, *_: object) -> None:
        """Put in what is shown: out of sight is out of reach of the fingers too."""
        columns = self.ids.columns
        columns.clear_widgets()
        for shown, part in ((self.shows_parts, self._parts), (self.shows_lines, self._lines)):
            if shown:
                columns.add_widget(part)


class SettingsScreen(Page):
    """Wide, the parts stand beside the lines; tall, one leads to the other."""


Builder.load_file(str(Path(__file__).with_suffix(".kv")))
