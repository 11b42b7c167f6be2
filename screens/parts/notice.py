"""Quiet lines under the head of a screen: what is being done aside, and what may wait."""

from pathlib import Path

from kivy.lang import Builder
from kivy.properties import ObjectProperty, StringProperty
from kivy.uix.boxlayout import BoxLayout

from screens import looks
from screens.parts import press

__all__ = ["NoticeLine", "ReminderLine", "WorkLine", "looks", "press"]


class NoticeLine(BoxLayout):
    """A sentence with one key beside it; ``row`` is the sentence."""

    row = StringProperty("")
    key = StringProperty("")
    owner = ObjectProperty(None, allownone=True)

    def answer(self) -> None:
        """Do what the key says."""


class WorkLine(NoticeLine):
    """What is being done, how far it is, and to cancel it; ``owner`` does it."""

    def answer(self) -> None:
        self.owner.cancel()


class ReminderLine(NoticeLine):
    """Something to do that may wait; ``owner`` puts it off."""

    def answer(self) -> None:
        self.owner.put_off_reminder()


Builder.load_file(str(Path(__file__).with_suffix(".kv")))
