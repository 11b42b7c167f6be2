"""A name of the draft that lies open: her own word for a garment, a level, a seam, a piece."""

from pathlib import Path

from kivy.lang import Builder
from kivy.properties import ObjectProperty
from kivy.uix.boxlayout import BoxLayout
from kivy.uix.textinput import TextInput

from screens import looks
from screens.parts import field, press

__all__ = ["NameField", "NameSheet", "field", "looks", "press"]


class NameField(TextInput):
    """One line of words."""


class NameSheet(BoxLayout):
    """A field with the name in it; Done or Enter keeps it.  ``row`` is its ``SumRow``."""

    row = ObjectProperty(None, allownone=True)
    owner = ObjectProperty(None, allownone=True)

    def keep(self) -> None:
        self.owner.rename(self.ids.field.text)


Builder.load_file(str(Path(__file__).with_suffix(".kv")))
