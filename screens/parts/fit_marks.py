"""Marks: a row of what may be marked, what is, drag lines with their meaning when asked, tucks."""

from pathlib import Path

from kivy.lang import Builder
from kivy.properties import ObjectProperty
from kivy.uix.boxlayout import BoxLayout

from screens.parts import field, fit_before, fit_keys, upright
from screens.parts.fit_keys import FitPanel, FitWord
from screens.parts.press import OpenRow

__all__ = ["MarksPanel", "field", "fit_before", "fit_keys", "upright"]


class MarkKey(FitWord):
    """What is marked next."""

    verb = "take_mark"


class DirectionKey(FitWord):
    """Which way a drag line runs."""

    verb = "turn_drag"


class TuckLevelKey(FitWord):
    """The level a tuck is at."""

    verb = "take_tuck_level"


class TuckPlaceKey(FitWord):
    """A place of a tuck: the keys give its depth."""

    verb = "take_tuck_place"


class IntoKey(FitWord):
    """Where a tuck goes."""

    verb = "put_tuck_into"


class MarkLine(OpenRow):
    """One mark; a touch opens its note."""

    row = ObjectProperty(None, allownone=True)
    owner = ObjectProperty(None, allownone=True)

    def on_release(self) -> None:
        self.owner.take_marked(self.row.index)


class MarkNote(BoxLayout):
    """What is to be said of the mark in hand, and taking it away."""

    row = ObjectProperty(None, allownone=True)
    owner = ObjectProperty(None, allownone=True)


class MarksPanel(FitPanel):
    """Marks and tucks."""


Builder.load_file(str(Path(__file__).with_suffix(".kv")))
