"""The head of a screen: whose garment, which fitting, undo and redo; and trouble, in words."""

from pathlib import Path

from kivy.lang import Builder
from kivy.properties import BooleanProperty, ObjectProperty, StringProperty
from kivy.uix.boxlayout import BoxLayout

from screens import looks
from screens.parts import press, row_list

__all__ = ["GarmentHeader", "LayerChoice", "TroubleLine", "looks", "press", "row_list"]


class LayerChoice(press.Press):
    """A layer of the garment, whose levels are shown; ``row`` is its id and its name."""

    row = ObjectProperty(("", ""))
    owner = ObjectProperty(None, allownone=True, rebind=True)

    def on_release(self) -> None:
        self.owner.show_layer(self.row[0])


class GarmentHeader(BoxLayout):
    """Client and fitting over the garment's name, its layers, and undo and redo."""

    bench = ObjectProperty(None, rebind=True)
    wide = BooleanProperty(True)


class TroubleLine(BoxLayout):
    """What could not be done, why, and what is safe; without words it takes no room."""

    text = StringProperty("")


Builder.load_file(str(Path(__file__).with_suffix(".kv")))
