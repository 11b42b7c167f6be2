"""Pinning: the last pin in big words, what its seam can still let out, names to pick from."""

from pathlib import Path
from typing import Any

from kivy.lang import Builder
from kivy.properties import ObjectProperty
from kivy.uix.boxlayout import BoxLayout

from screens.parts import fit_keys, upright
from screens.parts.fit_keys import FitPanel, FitWord

__all__ = ["PinPanel", "fit_keys", "upright"]


class PinNameKey(FitWord):
    """One of the names of two close seams."""

    verb = "pick_name"


class PinVerbKey(FitWord):
    """What is done with the last pin; in bold what the next ones go into."""

    verb = "read_verb"

    def on_row(self, key: object, row: Any) -> None:
        super().on_row(key, row)
        self.bold = row is not None and row.key == "layer"


class PinAmount(BoxLayout):
    """The amount of the last pin, narrow: minus and plus, and below what it makes of the round."""

    row = ObjectProperty(None, allownone=True)
    owner = ObjectProperty(None, allownone=True)

    def times_said(self, row: Any) -> str:
        """Return the sum in a line: ``× 2 a fold × 2 sides =``."""
        return f"{row.times.replace(chr(10), ' ')} =".strip() if row is not None else ""


class PinPanel(FitPanel):
    """What she sees while she pins, beside the figure; another pin is shown from its top."""

    _shown: object = None

    def on_row(self, _panel: object, row: Any) -> None:
        pin = row.last.partition(":")[0] if row is not None else ""
        shown = row is not None and (pin, bool(row.opened), row.asked)
        if shown != self._shown and "whole" in self.ids:
            self.ids.whole.scroll_y = 1
        self._shown = shown


Builder.load_file(str(Path(__file__).with_suffix(".kv")))
