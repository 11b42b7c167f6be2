"""The changes: the levels, the pins and what they ask for, and the alteration list."""

from pathlib import Path

from kivy.lang import Builder
from kivy.metrics import dp
from kivy.properties import BooleanProperty, NumericProperty, ObjectProperty, StringProperty
from kivy.uix.screenmanager import Screen

from screens import looks
from screens.bench import Bench
from screens.parts import caution, header, levels, pins, row_list, steps
from screens.parts.press import Press

__all__ = ["ChangesScreen", "LeadChoice", "caution", "header", "levels", "looks", "pins",
           "row_list", "steps"]  # fmt: skip


STRIP_SHARE, STRIP_MOST = 0.4, 400
"""The levels strip takes no more of the height, so that the pins below it stay in sight."""


class LeadChoice(Press):
    """Who leads: the pins, the tape, or both."""

    name = StringProperty("pins")
    owner = ObjectProperty(None, allownone=True, rebind=True)


class ChangesScreen(Screen):
    """Everything about one garment at one fitting, in one look.

    Wide, the list stands beside the pins; tall, below them.
    """

    bench = ObjectProperty(None, rebind=True, allownone=True, baseclass=Bench)
    wide = BooleanProperty(True)
    strip_height = NumericProperty(0)

    def on_size(self, _screen: object, size: tuple[float, float]) -> None:
        self.wide = size[0] > size[1]
        self.strip_height = min(size[1] * STRIP_SHARE, dp(STRIP_MOST))


Builder.load_file(str(Path(__file__).with_suffix(".kv")))
