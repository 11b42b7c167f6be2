"""The changes: the levels, the pins and what they ask for, and the alteration list."""

from pathlib import Path

from kivy.lang import Builder
from kivy.metrics import dp
from kivy.properties import ObjectProperty, StringProperty

from screens.page import Page
from screens.parts import caution, header, levels, pins, row_list, steps
from screens.parts.press import Press
from screens.tokens import letters_are_larger

__all__ = ["ChangesScreen", "LeadChoice", "caution", "header", "levels", "pins", "row_list",
           "steps"]  # fmt: skip


STRIP_SHARE, STRIP_MOST, STRIP_LEAST = 0.42, 400, 104
"""The levels strip takes no more of the height, so that the pins below it stay in sight."""

PINS_LEAST = 136
"""Two pins stay in sight below the editor, as long as the strip keeps its own least."""


class LeadChoice(Press):
    """Who leads: the pins, the tape, or both."""

    name = StringProperty("pins")
    owner = ObjectProperty(None, allownone=True, rebind=True)


class ChangesScreen(Page):
    """Everything about one garment at one fitting, in one look.

    Wide, the list stands beside the pins; tall, below them.
    """

    @property
    def narrow(self) -> bool:
        """Tell whether the three keys of who leads need a line of their own."""
        return letters_are_larger()

    def strip_room(self, column: float, editor: float, has_pins: bool) -> float:
        """Return how high the levels strip may be beside the editor and the first pins."""
        most = min(self.height * STRIP_SHARE, dp(STRIP_MOST))
        if not has_pins:
            return most
        return max(min(most, column - editor - dp(PINS_LEAST)), dp(STRIP_LEAST))


Builder.load_file(str(Path(__file__).with_suffix(".kv")))
