"""Before she steps in: what was asked last time, what she wears, the girths worth taping."""

from pathlib import Path
from typing import Any

from kivy.clock import Clock
from kivy.lang import Builder
from kivy.properties import ObjectProperty, StringProperty
from kivy.uix.boxlayout import BoxLayout

from screens.parts import field, fit_keys, spaced, upright
from screens.parts.fit_keys import FitPanel, FitWord
from screens.parts.press import OpenRow
from screens.parts.upright import bring_into_sight

__all__ = ["BeforePanel", "BeginPanel", "KeptField", "field", "fit_keys", "spaced",
           "upright"]  # fmt: skip


class WhichFittingKey(FitWord):
    """A stage, or her own word for one."""

    verb = "set_stage"


class WornKey(FitWord):
    """Inside out, and the heel she stands in."""

    verb = "worn_verb"


class AskedLine(BoxLayout):
    """What was asked last time, and what became of it."""

    row = ObjectProperty(None, allownone=True)
    owner = ObjectProperty(None, allownone=True)


class GirthLine(OpenRow):
    """A girth of the garment; a touch puts the keys on it."""

    row = ObjectProperty(None, allownone=True)
    owner = ObjectProperty(None, allownone=True)

    def drafted(self, row: Any) -> str:
        """Return what the widths make of it, and how far what was taped is from that."""
        return ", ".join(filter(None, [f"as drafted {row.sum}", row.apart]))

    def on_release(self) -> None:
        self.owner.put_keys_on(self.row.key)

    def on_marked(self, *_: object) -> None:
        """Stay in sight when the keys take its room."""
        if self.marked:
            Clock.schedule_once(lambda _: bring_into_sight(self), 0)


class KeptField(field.PlainField):
    """Words that are kept at every sign; ``verb`` names what keeps them."""

    owner = ObjectProperty(None, allownone=True)
    kept = StringProperty("")
    verb = StringProperty("")
    telling = False
    """While a sign is kept: what is kept may be less than what is typed (a stage with a key)."""

    def on_kept(self, _field: object, kept: str) -> None:
        if not self.telling and self.text.strip() != kept.strip():
            self.text = kept
            self.cursor = (0, 0)

    def on_text(self, _field: object, text: str) -> None:
        if self.owner is not None and self.focus:
            self.telling = True
            try:
                getattr(self.owner, self.verb)(text)
            finally:
                self.telling = False


class BeforePanel(FitPanel):
    """Everything before she steps in."""


class BeginPanel(FitPanel):
    """A garment that was never fitted: what to do first."""


Builder.load_file(str(Path(__file__).with_suffix(".kv")))
