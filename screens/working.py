"""What stands there while something is done with all clients: what, and how far it is."""

from pathlib import Path

from kivy.lang import Builder
from kivy.properties import ObjectProperty

from screens.entry import Entry
from screens.page import Page
from screens.parts import press

__all__ = ["WorkingScreen", "press"]


class WorkingScreen(Page):
    """Something is done aside, and nothing can be touched meanwhile but to break it off."""

    entry = ObjectProperty(None, rebind=True, allownone=True, baseclass=Entry)


Builder.load_file(str(Path(__file__).with_suffix(".kv")))
