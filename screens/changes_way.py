"""The ways to share out, each a card: its minutes, what it opens, its largest move."""

from pathlib import Path

from kivy.lang import Builder
from kivy.properties import ObjectProperty

from screens import looks
from screens.parts import press
from screens.parts.press import Press

__all__ = ["WayCard", "looks", "press"]


class WayCard(Press):
    """One way; the chosen one is filled, a touch chooses it."""

    row = ObjectProperty(None, allownone=True)
    owner = ObjectProperty(None, allownone=True, rebind=True)

    def on_release(self) -> None:
        self.owner.choose_way(self.row.way)


Builder.load_file(str(Path(__file__).with_suffix(".kv")))
