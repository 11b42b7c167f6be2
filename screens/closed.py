"""What stands there while the clients cannot be opened: why, what is safe, and to try again."""

from pathlib import Path

from kivy.lang import Builder
from kivy.properties import ObjectProperty

from screens.entry import Entry
from screens.page import Page
from screens.parts import head

__all__ = ["ClosedScreen", "head"]


class ClosedScreen(Page):
    """The folder is not open: another copy has it, or it cannot be used."""

    entry = ObjectProperty(None, rebind=True, allownone=True, baseclass=Entry)


Builder.load_file(str(Path(__file__).with_suffix(".kv")))
