"""A client's page: what she measures and how that changed, her garments, fittings and wishes."""

from pathlib import Path
from typing import Any

from kivy.clock import Clock
from kivy.lang import Builder
from kivy.properties import ObjectProperty, StringProperty
from kivy.uix.boxlayout import BoxLayout

from screens.page import Page
from screens.parts import (
    day_picker,
    field,
    flow,
    head,
    listed,
    over_time,
    panel,
    photo,
    place,
    roll,
)
from screens.parts.listed import ListedLine
from screens.parts.panel import Panel
from screens.parts.press import OpenRow, Press

__all__ = ["ClientScreen", "HerGarmentBlock", "HerPagePanel", "MeasuredLine", "day_picker",
           "field", "head", "listed", "over_time", "panel", "photo", "place", "roll"]  # fmt: skip

QUIET_S = 1.5
"""How long the notes rest before they are kept; leaving them keeps them at once."""


class MeasuredLine(OpenRow):
    """One measurement; a touch opens the tape at it."""

    row = ObjectProperty(None, allownone=True)
    owner = ObjectProperty(None, allownone=True)

    def on_release(self) -> None:
        self.owner.measure(self.row.row.number)


class GarmentLine(ListedLine):
    """A garment; a touch opens it where the work is."""

    def on_release(self) -> None:
        self.owner.open_garment(self.row.line.id, self.row.fitted)


class HerGarmentBlock(BoxLayout):
    """A garment, the key that plans for it, and what can be planned once that was touched."""

    row = ObjectProperty(None, allownone=True)
    owner = ObjectProperty(None, allownone=True)


class PlanKey(Press):
    """One thing that can be planned or opened; ``row`` is its verb, its words, and whether."""

    row = ObjectProperty(None, allownone=True)
    owner = ObjectProperty(None, allownone=True)

    def on_release(self) -> None:
        self.owner.plan_for(self.row[0])


class GarmentKeys(flow.Flow):
    """What can be planned for a garment."""

    row = ObjectProperty(None, allownone=True)

    def on_row(self, *_: object) -> None:
        fitted = bool(self.row and self.row.fitted)
        self.rows = [("draft", "Draft", True), ("fitting", "Fitting", True),
                     ("changes", "Changes", fitted),
                     ("next fitting", "Next fitting", True), ("due", "Due", True),
                     ("collected", "Collected", True)]  # fmt: skip

    def key(self, verb: str) -> Press:
        """Return the key of a verb."""
        return next(key for key in self.children if key.row[0] == verb)


class HerFittingLine(ListedLine):
    """A fitting she had; a touch opens its changes."""

    def on_release(self) -> None:
        self.owner.open_fitting(self.row.garment_id, self.row.id)


class EaseKey(Press):
    """The ease she likes at a level; a touch changes it."""

    row = ObjectProperty(None, allownone=True)
    owner = ObjectProperty(None, allownone=True)

    def on_release(self) -> None:
        self.owner.open_ease(self.row.level)


class EaseLine(BoxLayout):
    """A few levels beside each other; ``row`` are their keys."""

    row = ObjectProperty(())
    owner = ObjectProperty(None, allownone=True)


class NotesField(field.PlainField):
    """Her notes: kept when they rest and when they are left."""

    kept = StringProperty("")
    owner = ObjectProperty(None, allownone=True)

    def __init__(self, **kwargs: Any) -> None:
        self._keep_soon = Clock.create_trigger(self._keep, QUIET_S)
        super().__init__(**kwargs)

    def on_kept(self, *_: object) -> None:
        if self.text != self.kept:
            self._keep_soon.cancel()
            self.text = self.kept

    def on_text(self, *_: object) -> None:
        if self.text != self.kept:
            self._keep_soon()

    def on_focus(self, _field: object, focus: bool) -> None:
        if not focus:
            self._keep()

    def _keep(self, *_: object) -> None:
        self._keep_soon.cancel()
        if self.owner is not None and self.text != self.kept:
            self.owner.set_notes(self.text)


class HerPagePanel(Panel):
    """The page itself; wide, her measurements stand beside the rest, tall above it."""

    def in_threes(self, keys: list[Any]) -> list[tuple[Any, ...]]:
        """Return the keys of the ease she likes, three to a line."""
        return [tuple(keys[at : at + 3]) for at in range(0, len(keys), 3)]


class EasePanel(Panel):
    """The ease she likes at one level: a length or a share."""

    def done(self) -> None:
        if self.view.set_ease(self.ids.typed.text):
            self.view.close()


class RenamePanel(Panel):
    """Her name, to be changed."""

    def on_parent(self, _panel: object, parent: object) -> None:
        if parent is not None:
            Clock.schedule_once(lambda _: self.ids.name.take_keyboard())


class ClientScreen(Page):
    """One client; what is asked or picked stands in the place of the page."""


Builder.load_file(str(Path(__file__).with_suffix(".kv")))
