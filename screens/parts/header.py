"""The head of the changes: whose garment, which fitting, and the layers of the garment."""

from pathlib import Path

from kivy.lang import Builder
from kivy.properties import ObjectProperty
from kivy.uix.scrollview import ScrollView

from screens import looks
from screens.parts import head, press, row_list, stages

__all__ = ["GarmentHeader", "LayerChoice", "Sideways", "looks", "row_list", "stages"]


class LayerChoice(press.Press):
    """A layer of the garment, whose levels are shown; ``row`` is its id and its name."""

    row = ObjectProperty(("", ""))
    owner = ObjectProperty(None, allownone=True, rebind=True)

    def on_release(self) -> None:
        self.owner.show_layer(self.row[0])


class Sideways(ScrollView):
    """Scrolls only to its sides."""


class GarmentHeader(head.Head):
    """Client and fitting over the garment's name, its stages, and a key for each of its layers.

    Where there is no room for all of the stages, they scroll sideways.
    """

    view = ObjectProperty(None, rebind=True, allownone=True)


Builder.load_file(str(Path(__file__).with_suffix(".kv")))
