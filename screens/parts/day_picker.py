"""A month whose days are touched, and a time that is stepped."""

from pathlib import Path

from kivy.lang import Builder
from kivy.properties import ObjectProperty
from kivy.uix.boxlayout import BoxLayout

from screens.month import WEEKDAYS
from screens.parts import panel
from screens.parts.press import Press

__all__ = ["WEEKDAYS", "DayKey", "DayPicker", "WeekLine", "panel"]


class DayKey(Press):
    """A day of the month."""

    row = ObjectProperty(None, allownone=True)
    owner = ObjectProperty(None, allownone=True)

    def on_release(self) -> None:
        self.owner.pick_day(self.row.day)


class WeekLine(BoxLayout):
    """Seven days."""

    row = ObjectProperty(())
    owner = ObjectProperty(None, allownone=True)


class TimeLine(BoxLayout):
    """The time of day, and its steps; ``row`` is what is picked."""

    row = ObjectProperty(None, allownone=True)
    owner = ObjectProperty(None, allownone=True)


class NoDayKey(Press):
    """Writes down that there is no such day."""

    row = ObjectProperty(None, allownone=True)
    owner = ObjectProperty(None, allownone=True)

    def on_release(self) -> None:
        self.owner.pick_none()


class DayPicker(panel.Panel):
    """Shows the view's ``picking``; a touch on a day picks it at once."""


Builder.load_file(str(Path(__file__).with_suffix(".kv")))
