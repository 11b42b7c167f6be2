"""What was set by hand on the changes: each amount with its way back, and the rest shared again."""

from pathlib import Path

from kivy.lang import Builder
from kivy.properties import ObjectProperty
from kivy.uix.boxlayout import BoxLayout

from screens import looks
from screens.parts import press
from screens.parts.press import Press

__all__ = ["SetByHandLine", "ShareAgainKey", "looks", "press"]


class SetByHandLine(BoxLayout):
    """An amount that was set by hand, with the key that makes it as planned again."""

    row = ObjectProperty(None, allownone=True)
    owner = ObjectProperty(None, allownone=True)


class ShareAgainKey(Press):
    """Has what is left shared again over what was not set; touched again, leaves it."""

    row = ObjectProperty(None, allownone=True)
    owner = ObjectProperty(None, allownone=True, rebind=True)

    def on_release(self) -> None:
        self.owner.share_again()


Builder.load_file(str(Path(__file__).with_suffix(".kv")))
