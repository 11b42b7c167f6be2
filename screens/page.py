"""What every screen is: a page of paper, wide or tall, with the workroom and its own state."""

from pathlib import Path

from kivy.lang import Builder
from kivy.properties import BooleanProperty, ObjectProperty
from kivy.uix.screenmanager import Screen

from screens import looks

__all__ = ["Page", "looks"]


class Page(Screen):
    """A screen; ``room`` is shared by all, ``view`` is its own state in ready-to-show words."""

    room = ObjectProperty(None, rebind=True, allownone=True)
    view = ObjectProperty(None, rebind=True, allownone=True)
    wide = BooleanProperty(True)
    left_handed = BooleanProperty(False)

    def on_size(self, _page: object, size: tuple[float, float]) -> None:
        self.wide = size[0] > size[1]

    def on_key(self, key: int, text: str) -> bool:
        """Do what a key means here; tell whether it means anything."""
        return False


Builder.load_file(str(Path(__file__).with_suffix(".kv")))
