"""Fields to type into: words, and a secret, of which nothing stays behind."""

from pathlib import Path
from typing import Any

from kivy.clock import Clock
from kivy.lang import Builder
from kivy.properties import BooleanProperty, StringProperty
from kivy.uix.boxlayout import BoxLayout
from kivy.uix.textinput import TextInput

from screens import looks
from screens.drawn_lines import forget_drawn

__all__ = ["FieldBox", "PlainField", "SecretField", "Typed", "looks"]

TAB, BACK = 9, 27


class FieldBox(BoxLayout):
    """The ground and the edge that a field lies on; ``lit`` while it has the keyboard."""

    lit = BooleanProperty(False)


class PlainField(TextInput):
    """A field in our letters; Tab leads on to whatever comes next, the way back out of it.

    Kivy's pictures of a field, which nobody would see under ours, are never loaded.
    """

    background_normal = StringProperty("")
    background_active = StringProperty("")
    background_disabled_normal = StringProperty("")

    def __init__(self, **kwargs: Any) -> None:
        self._is_made = False
        super().__init__(**kwargs)
        self._is_made = True
        Clock.schedule_once(self._look_for_clipboard)

    def _look_for_clipboard(self, _passed: float) -> None:
        self._ensure_clipboard()

    def _ensure_clipboard(self) -> None:
        """Look for the clipboard after the first frame: Kivy starts other programs to find it."""
        if self._is_made:
            super()._ensure_clipboard()

    def keyboard_on_key_down(
        self, window: Any, keycode: Any, text: Any, modifiers: Any
    ) -> Any:  # fmt: skip
        """Leave Tab to the page, which knows what comes next; the way back leaves the field."""
        if keycode[0] == TAB:
            return False
        if keycode[0] == BACK:
            self.focus = False
            return True
        return super().keyboard_on_key_down(window, keycode, text, modifiers)

    def forget(self) -> None:
        """Empty the field, with what Kivy keeps of it for undo and for drawing."""
        self.text = ""
        self.reset_undo()
        forget_drawn()


class SecretField(PlainField):
    """One line whose text is never copied, suggested or learnt by the keyboard."""

    def copy(self, data: str = "") -> None:
        """Copy nothing: what is copied can be read by every other program."""

    def _cut(self, data: str) -> None:
        """Cut nothing, for the same reason."""


class Typed(FieldBox):
    """A field with a hint and perhaps a mark; ``on_done`` is Enter."""

    text = StringProperty("")
    hint = StringProperty("")
    mark = StringProperty("")
    lines = BooleanProperty(False)

    def __init__(self, **kwargs: Any) -> None:
        self.register_event_type("on_done")
        super().__init__(**kwargs)

    def on_done(self) -> None:
        """Enter was pressed."""

    def take_keyboard(self) -> None:
        self.ids.field.focus = True


Builder.load_file(str(Path(__file__).with_suffix(".kv")))
