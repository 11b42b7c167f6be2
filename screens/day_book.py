"""The day book: who comes, what is still to sew, and every client by name."""

from pathlib import Path

from kivy.lang import Builder
from kivy.properties import ObjectProperty

from screens.page import Page
from screens.parts import head, row_list
from screens.parts.press import OpenRow

__all__ = ["ClientLine", "DayBookScreen", "head", "row_list"]


class ClientLine(OpenRow):
    """One client; a touch opens her."""

    row = ObjectProperty(None, allownone=True)
    owner = ObjectProperty(None, allownone=True)

    def on_release(self) -> None:
        self.owner.open_client(self.row.client_id)


class DayBookScreen(Page):
    """The first screen."""


Builder.load_file(str(Path(__file__).with_suffix(".kv")))
