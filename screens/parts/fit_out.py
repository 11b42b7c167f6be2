"""Before she steps out: three lines, the pins counted, and what is to be remembered."""

from pathlib import Path

from kivy.lang import Builder

from screens.parts import caution, field, fit_before, fit_keys, upright
from screens.parts.fit_keys import FitPanel

__all__ = ["OutPanel", "caution", "field", "fit_before", "fit_keys", "upright"]


class OutPanel(FitPanel):
    """Three lines."""


Builder.load_file(str(Path(__file__).with_suffix(".kv")))
