"""What is decided on the changes: a way to share out, and sides pinned unlike, to be evened."""

from pathlib import Path

from kivy.lang import Builder
from kivy.properties import ObjectProperty
from kivy.uix.boxlayout import BoxLayout

from screens import looks
from screens.parts import press
from screens.parts.press import Press

__all__ = ["UnevenLine", "WayCard", "looks", "press"]


class WayCard(Press):
    """One way; the chosen one is filled, a touch chooses it."""

    row = ObjectProperty(None, allownone=True)
    owner = ObjectProperty(None, allownone=True, rebind=True)

    def on_release(self) -> None:
        self.owner.choose_way(self.row.way)


class UnevenLine(BoxLayout):
    """A place pinned unlike, with the key that evens it."""

    row = ObjectProperty(None, allownone=True)
    owner = ObjectProperty(None, allownone=True)


Builder.load_file(str(Path(__file__).with_suffix(".kv")))
