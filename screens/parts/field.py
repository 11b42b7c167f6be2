"""A field to type a secret into: dots unless she asks to see it, and nothing of it stays behind."""

from pathlib import Path

from kivy.cache import Cache
from kivy.lang import Builder
from kivy.properties import BooleanProperty
from kivy.uix.boxlayout import BoxLayout
from kivy.uix.textinput import TextInput

from screens import looks

__all__ = ["FieldBox", "SecretField", "looks"]


class FieldBox(BoxLayout):
    """The ground and the edge that a field lies on; ``lit`` while it has the keyboard."""

    lit = BooleanProperty(False)


class SecretField(TextInput):
    """One line whose text is never copied, suggested or learnt by the keyboard."""

    def copy(self, data: str = "") -> None:
        """Copy nothing: what is copied can be read by every other program."""

    def _cut(self, data: str) -> None:
        """Cut nothing, for the same reason."""

    def forget(self) -> None:
        """Empty the field, with what Kivy keeps of it for undo and for drawing."""
        self.text = ""
        self.reset_undo()
        Cache.remove("textinput.label")
        Cache.remove("textinput.width")


Builder.load_file(str(Path(__file__).with_suffix(".kv")))
