"""The stages of a garment, in the order of the work: each is one touch from every other."""

from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from kivy.lang import Builder
from kivy.properties import BooleanProperty, ListProperty, ObjectProperty, StringProperty
from kivy.uix.boxlayout import BoxLayout

from screens.parts import press
from screens.parts.press import Press

__all__ = ["Stage", "StageKey", "Stages", "press"]


def _drafting(garment: str) -> Any:
    from screens.parts.draft_chosen import Drafting

    return Drafting(garment)


def _at_fitting(garment: str) -> Any:
    from screens.fitting_page import Chosen

    return Chosen(garment=garment)


def _at_changes(garment: str) -> Any:
    from screens.shown import Chosen

    return Chosen(garment=garment)


@dataclass(frozen=True, slots=True)
class Stage:
    """A screen of the garment by its name, what it is called, and what is picked there.

    ``short`` is what it is called where there is little room.
    """

    screen: str
    label: str
    chosen: Callable[[str], Any]
    short: str = ""


STAGES = (
    Stage("draft", "Draft", _drafting),
    Stage("fitting", "Fitting", _at_fitting),
    Stage("changes", "Changes", _at_changes),
    Stage("sewing", "Sewing table", _at_changes, "Sew"),
)


class StageKey(Press):
    """One stage; a bar lies under the one that is open."""

    row = ObjectProperty(None, allownone=True)
    owner = ObjectProperty(None, allownone=True, rebind=True)

    def on_release(self) -> None:
        self.owner.go_to(self.row)


class Stages(BoxLayout):
    """Keys to every stage of the ``garment`` (its id); ``here`` is the screen that is open.

    Without a garment there are none: it is only being begun.  Where there is little room they
    have their ``brief`` names.
    """

    room = ObjectProperty(None, allownone=True)
    here = StringProperty("")
    garment = StringProperty("")
    brief = BooleanProperty(False)
    stages = ListProperty(STAGES)

    def go_to(self, stage: Stage) -> None:
        """Go to another stage of the same garment; the way back stays as it was."""
        if stage.screen != self.here:
            self.room.beside(stage.screen, stage.chosen(self.garment))


Builder.load_file(str(Path(__file__).with_suffix(".kv")))
