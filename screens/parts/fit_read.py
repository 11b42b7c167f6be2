"""Reading off: one pin, its depth and its total with the sum between, and the strip of levels."""

from pathlib import Path

from kivy.lang import Builder
from kivy.properties import ObjectProperty, StringProperty
from kivy.uix.boxlayout import BoxLayout

from screens.parts import caution, field, fit_before, fit_keys, levels, pins, upright
from screens.parts.fit_keys import FitPanel, FitWord

__all__ = ["ReadPanel", "caution", "field", "fit_before", "fit_keys", "levels", "pins", "upright"]


class ReadKey(FitWord):
    """What may be said of the pin in hand: its side, its kind, its edges."""

    verb = "read_verb"


class PinNote(BoxLayout):
    """What is to be said of the pin in hand."""

    row = StringProperty("")
    owner = ObjectProperty(None, allownone=True)


class ReadPanel(FitPanel):
    """The pin in hand over the live strip."""


Builder.load_file(str(Path(__file__).with_suffix(".kv")))
