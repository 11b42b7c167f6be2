"""Sit, walk, arms up, breathe, stairs: five ticks beside the figure."""

from pathlib import Path

from kivy.lang import Builder

from screens.parts import fit_keys, fit_marks, upright
from screens.parts.fit_keys import FitPanel, FitWord

__all__ = ["MovePanel", "fit_keys", "fit_marks", "upright"]


class MoveKey(FitWord):
    """One thing she does."""

    verb = "move"


class MovePanel(FitPanel):
    """Five ticks, and where it pulled."""


Builder.load_file(str(Path(__file__).with_suffix(".kv")))
