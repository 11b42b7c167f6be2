"""What stands there while the clients are sealed: a field for the passcode, and nothing of them."""

from pathlib import Path

from kivy.lang import Builder
from kivy.properties import BooleanProperty, ObjectProperty

from screens.entry import Entry
from screens.page import Page
from screens.parts import field, head, notice

__all__ = ["PasscodeScreen", "field", "head", "notice"]


class PasscodeScreen(Page):
    """The passcode is asked for; a wrong one is told and can be tried again."""

    entry = ObjectProperty(None, rebind=True, allownone=True, baseclass=Entry)
    readable = BooleanProperty(False)

    def turn_readable(self) -> None:
        """Show what is typed, or dots again."""
        self.readable = not self.readable

    def on_enter(self) -> None:
        self.ids.field.focus = True

    def on_pre_leave(self) -> None:
        self.ids.field.forget()
        self.readable = False


Builder.load_file(str(Path(__file__).with_suffix(".kv")))
