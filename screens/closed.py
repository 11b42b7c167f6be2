"""What stands there while the clients cannot be opened: why, what is safe, and to try again."""

from pathlib import Path

from kivy.lang import Builder
from kivy.properties import ObjectProperty
from kivy.uix.screenmanager import Screen

from screens import looks
from screens.bench import Bench
from screens.entry import Entry
from screens.parts import header

__all__ = ["ClosedScreen", "header", "looks"]


class ClosedScreen(Screen):
    """The folder is not open: another copy has it, or it cannot be used."""

    bench = ObjectProperty(None, rebind=True, allownone=True, baseclass=Bench)
    entry = ObjectProperty(None, rebind=True, allownone=True, baseclass=Entry)


Builder.load_file(str(Path(__file__).with_suffix(".kv")))
