"""What stands there while there is no client: what to do first."""

from pathlib import Path

from kivy.lang import Builder
from kivy.properties import ObjectProperty
from kivy.uix.screenmanager import Screen

from screens import looks
from screens.bench import Bench
from screens.parts import header

__all__ = ["EmptyScreen", "header", "looks"]


class EmptyScreen(Screen):
    """No client yet."""

    bench = ObjectProperty(None, rebind=True, allownone=True, baseclass=Bench)


Builder.load_file(str(Path(__file__).with_suffix(".kv")))
