"""What stands there while the clients are sealed: a field for the passcode, and nothing of them."""

from pathlib import Path

from kivy.lang import Builder
from kivy.properties import BooleanProperty, ObjectProperty
from kivy.uix.screenmanager import Screen

from screens import looks
from screens.aside import Aside
from screens.bench import Bench
from screens.entry import Entry
from screens.parts import field, header, notice

__all__ = ["PasscodeScreen", "field", "header", "looks", "notice"]


class PasscodeScreen(Screen):
    """The passcode is asked for; a wrong one is told and can be tried again."""

    bench = ObjectProperty(None, rebind=True, allownone=True, baseclass=Bench)
    entry = ObjectProperty(None, rebind=True, allownone=True, baseclass=Entry)
    aside = ObjectProperty(None, rebind=True, allownone=True, baseclass=Aside)
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
