"""The changes: the levels, the pins and what they ask for, and the alteration list."""

from pathlib import Path
from typing import Any

from kivy.lang import Builder
from kivy.metrics import dp, sp
from kivy.properties import ObjectProperty, StringProperty

from screens import changes_hand, changes_pieces, changes_way, tokens
from screens.changes_pieces import MovesPanel
from screens.page import Page
from screens.parts import caution, header, levels, panel, pins, row_list, spaced, steps
from screens.parts.panel import AskPanel, BrowsePanel
from screens.parts.press import Press
from screens.tokens import letters_are_larger

__all__ = ["ChangesScreen", "LeadChoice", "ReadOffKey", "caution", "changes_hand",
           "changes_pieces", "changes_way", "header", "levels", "panel", "pins", "row_list",
           "spaced", "steps"]  # fmt: skip


STRIP_SHARE, STRIP_MOST, STRIP_LEAST = 0.42, 400, 104
"""The levels strip takes no more of the height, so that the pins below it stay in sight."""

PINS_LEAST = 136
"""Two pins stay in sight below the editor, as long as the strip keeps its own least."""

NEAR_SHARE = 0.54
"""Tall, levels and pins take no more of the height, so that the list can be read."""


class LeadChoice(Press):
    """Who leads: the pins, the tape, or both."""

    name = StringProperty("pins")
    owner = ObjectProperty(None, allownone=True, rebind=True)


class PinnedEaseKey(Press):
    """Keeps the ease as pinned as hers."""

    row = ObjectProperty(None, allownone=True)
    owner = ObjectProperty(None, allownone=True)

    def on_release(self) -> None:
        self.owner.keep_ease()


class ReadOffKey(Press):
    """Leads to the pin that is to be read off first, or to pinning where there is none."""

    row = ObjectProperty(None, allownone=True)
    owner = ObjectProperty(None, allownone=True)

    def on_release(self) -> None:
        self.owner.read_off()


class ChangesScreen(Page):
    """Everything about one garment at one fitting, in one look.

    Wide, the list stands beside the pins; tall, below them.  The pieces stand in the place of
    the list, a question in the place of everything.
    """

    def __init__(self, **kwargs: Any) -> None:
        self._parts: dict[str, Any] = {}
        super().__init__(**kwargs)

    def on_kv_post(self, _base: object) -> None:
        names = ("body", "list_view", "near_view", "far")
        self._parts = {name: self.ids[name].__self__ for name in names}
        self.view.fbind("panel", self._open)
        self.view.fbind("shows", self._turn)
        self._open()
        self._turn()

    def _open(self, *_: object) -> None:
        """Show a question or the folders in the place of the page, or the page again."""
        kinds = {"ask": AskPanel, "browse": BrowsePanel}
        panel = self.view.panel
        shown = kinds[panel](view=self.view, wide=self.wide) if panel else self._parts["body"]
        self.ids.page_place.clear_widgets()
        self.ids.page_place.add_widget(shown)

    def _turn(self, *_: object) -> None:
        """Show the list beside levels and pins, or the pieces, in the place of all of it."""
        parts, as_pieces = self._parts, self.view.shows == "pieces"
        if as_pieces and "pieces" not in parts:
            parts["pieces"] = MovesPanel(view=self.view)
        parts["body"].clear_widgets()
        for part in ("far",) if as_pieces else ("near_view", "far"):
            parts["body"].add_widget(parts[part])
        self.ids.list_place.clear_widgets()
        self.ids.list_place.add_widget(parts["pieces" if as_pieces else "list_view"])

    @property
    def pins_least(self) -> float:
        """How high the list of pins is at least (pixels): larger letters need two lines."""
        return float(dp(PINS_LEAST) if not self.narrow else sp(PINS_LEAST))

    @property
    def narrow(self) -> bool:
        """Tell whether the three keys of who leads need a line of their own."""
        return letters_are_larger()

    def near_height(self, body: float, strip: float, under: float) -> float:
        """Return how high levels and pins are, the list below them, where they need so much."""
        gaps = dp(4 * tokens.GRID)
        return min(strip + under + gaps, body * NEAR_SHARE)

    def near_least(self, strip: float, under: float, pins: float) -> float:
        """Return how high they are at least: where there is less room, all of it scrolls."""
        gaps = dp(3 * tokens.GRID)
        return strip + under + min(self.pins_least, pins) + gaps

    def strip_room(self, column: float, under: float, pins: float, has_pins: bool) -> float:
        """Return how high the levels strip may be beside what stands under it and the pins."""
        gaps = dp(3 * tokens.GRID)
        if not has_pins:
            return max(column - under - gaps, dp(STRIP_LEAST))
        most = min(self.height * STRIP_SHARE, dp(STRIP_MOST))
        left = column - under - gaps - min(self.pins_least, pins)
        return max(min(most, left), dp(STRIP_LEAST))


Builder.load_file(str(Path(__file__).with_suffix(".kv")))
