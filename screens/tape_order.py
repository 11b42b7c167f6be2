"""What the tape takes for, and in which order: she moves a measurement by touch."""

from collections.abc import Iterable
from pathlib import Path

from kivy.lang import Builder
from kivy.properties import BooleanProperty, ObjectProperty, StringProperty
from kivy.uix.boxlayout import BoxLayout
from kivy.uix.widget import Widget

from screens import looks
from screens.parts import press, row_list, upright
from screens.parts.upright import bring_into_sight
from screens.parts.word_key import WordKey

__all__ = ["OrderPanel", "looks", "press", "row_list", "upright"]


class KindKey(WordKey):
    """A kind of garment: chosen, the tape asks what it needs."""

    row = ObjectProperty(None, allownone=True)
    owner = ObjectProperty(None, allownone=True)

    def on_release(self) -> None:
        self.owner.take_for(self.row.key)


class OrderRow(WordKey):
    """A measurement in the order: a touch takes it in hand, or puts what is in hand here."""

    row = ObjectProperty(None, allownone=True)
    owner = ObjectProperty(None, allownone=True)

    def on_release(self) -> None:
        self.owner.pick(self.row.key)


class OrderPanel(BoxLayout):
    """The kinds beside the order; without numbers to take it says what to do first."""

    view = ObjectProperty(None, rebind=True, allownone=True)
    page = ObjectProperty(None, allownone=True)
    wide = BooleanProperty(True)
    left_handed = BooleanProperty(False)
    has_order = BooleanProperty(True)
    picked = StringProperty("")

    def on_kv_post(self, _base: object) -> None:
        ids = self.ids
        self._halves = [ids.what_for.__self__, ids.ordering.__self__]  # ids alone keep nothing
        self._sides = [ids.order_view.__self__, ids.movers.__self__]
        for name in ("has_order", "wide", "left_handed"):
            self.fbind(name, self._place)
        self._place()

    def on_picked(self, *_: object) -> None:
        """Keep what is in hand in sight."""
        for row in self.ids.order.children:
            if row.row is not None and row.row.chosen:
                bring_into_sight(row)

    def advice(self, picked: str) -> str:
        """Return what to touch next."""
        if picked:
            return f"Touch where “{picked}” goes, or move it with the keys."
        return "Touch a measurement to take it in hand."

    def _place(self, *_: object) -> None:
        """Share the room between the kinds and the order; nothing to order takes none."""
        kinds, ordering = self._halves
        share = 0.36 if self.wide else 0.4
        kinds.size_hint = (share, 1) if self.wide else (1, share)
        ordering.size_hint = (1 - share, 1) if self.wide else (1, 1 - share)
        self.clear_widgets()
        shown = self._halves if self.has_order else [kinds]
        _fill(self, reversed(shown) if self.left_handed and self.wide else shown)
        _fill(self.ids.beside, reversed(self._sides) if self.left_handed else self._sides)


def _fill(box: BoxLayout, parts: Iterable[Widget]) -> None:
    box.clear_widgets()
    for part in parts:
        box.add_widget(part)


Builder.load_file(str(Path(__file__).with_suffix(".kv")))
