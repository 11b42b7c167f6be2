"""The draft of a garment: its table, the open number with its sum, the pieces, the check."""

from pathlib import Path

from kivy.lang import Builder
from kivy.metrics import dp
from kivy.properties import BooleanProperty, NumericProperty, ObjectProperty
from kivy.uix.boxlayout import BoxLayout

from screens import looks, tokens
from screens.page import Page
from screens.parts import caution, draft_table, head, piece_sheet, row_list, sum_flow, sum_sheet
from screens.parts.press import OpenRow, Press

__all__ = ["DraftScreen", "caution", "draft_table", "head", "looks", "piece_sheet", "row_list",
           "sum_flow", "sum_sheet"]  # fmt: skip

NEAR_SHARE, NEAR_MOST = 0.6, 744
"""Wide, the table takes this share of the screen and no more than so much (dp)."""

TALL_SHARE = 0.62
"""Tall, it takes no more than this share of the height, so that the pieces can be read."""


class DraftChoice(Press):
    """A layer or a round to show: ``row`` is its id, its words, and whether it is chosen."""

    row = ObjectProperty(("", "", False))
    owner = ObjectProperty(None, allownone=True)


class LayerKey(DraftChoice):
    def on_release(self) -> None:
        self.owner.show_layer(self.row[0])


class RingKey(DraftChoice):
    def on_release(self) -> None:
        self.owner.show_ring(self.row[0])


class DraftKey(DraftChoice):
    """What can be done with the draft as a whole; one of them leads on."""

    def on_release(self) -> None:
        self.owner.do(self.row[0])


class CheckLine(OpenRow):
    """The check in a line; a touch opens all of it."""

    row = ObjectProperty(None, allownone=True)
    owner = ObjectProperty(None, allownone=True)

    def on_release(self) -> None:
        self.owner.turn_to("checks" if self.owner.page == "widths" else "widths")


class DraftPieces(BoxLayout):
    """The pieces to scale under the keys of their layers and rounds."""

    view = ObjectProperty(None, allownone=True, rebind=True)
    wide = BooleanProperty(True)


class DraftScreen(Page):
    """One garment's draft; wide, the pieces lie beside the table, tall, below it."""

    near_width = NumericProperty(dp(NEAR_MOST))

    def on_size(self, _page: object, size: tuple[float, float]) -> None:
        super().on_size(_page, size)
        self.near_width = min(dp(NEAR_MOST), size[0] * NEAR_SHARE)

    def near_height(self, table: float, opened: float, check: float) -> float:
        """Return how high the table with its sum is where the pieces lie below it (pixels)."""
        needed = table + opened + check + dp(3 * tokens.GRID)
        return min(needed, self.height * TALL_SHARE)

    def on_key(self, _key: int, text: str) -> bool:
        """Digits and points go to the keypad where a number lies open."""
        if self.view is None or self.view.opened is None or not text:
            return False
        if text not in "0123456789.,":
            return False
        self.view.press(text)
        return True


Builder.load_file(str(Path(__file__).with_suffix(".kv")))

