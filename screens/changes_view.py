"""The changes of a garment at a fitting, in ready-to-show words, and what is done to its pins."""

from collections.abc import Callable
from dataclasses import dataclass, fields, replace
from pathlib import Path
from typing import Any

from kivy.properties import (
    BooleanProperty,
    ListProperty,
    ObjectProperty,
    OptionProperty,
    StringProperty,
)

from core.errors import NotFound
from core.file.fitting_file import FittingFile
from screens import photo_edits
from screens.door import Document
from screens.edits import choose_lead, step_pin
from screens.photo_edits import keep_photo
from screens.shown import Chosen, OnTheBench, Shown, find, named, show
from screens.workroom import View

LEADS = ("pins", "tape", "both")


@dataclass(frozen=True, slots=True)
class Found:
    """The records that were chosen, and what is shown of them."""

    on: OnTheBench
    shown: Shown


class ChangesView(View):
    """One garment at one fitting; ``chosen`` is a ``Chosen``."""

    name = "changes"

    title_line = StringProperty()
    garment_name = StringProperty()
    layers = ListProperty()
    layer = StringProperty()
    levels = ListProperty()
    moved_name = StringProperty("pinned")
    pins = ListProperty()
    pin = ObjectProperty(None, allownone=True)
    no_pins = StringProperty()
    has_fitting = BooleanProperty(False)
    no_steps = StringProperty()
    steps = ListProperty()
    follows = ListProperty()
    warnings = ListProperty()
    lead = OptionProperty("pins", options=LEADS)
    heading = StringProperty()

    def __init__(self, room: Any, **kwargs: Any) -> None:
        super().__init__(room, **kwargs)
        self._on: OnTheBench | None = None

    def work_out(self, file: FittingFile | None, chosen: Chosen | None) -> Found:
        if file is None:
            raise NotFound("There is no client on the table")
        on = find(file, chosen or Chosen())
        return Found(on, show(on, chosen or Chosen()))

    def lay_out(self, found: Found, chosen: Chosen | None) -> None:
        self._on, self.chosen = found.on, named(found.on, chosen or Chosen())
        self._put(found.shown)

    def put_away(self) -> None:
        super().put_away()
        self._on = None
        self._put(Shown())

    # -- which garment, which fitting -----------------------------------------

    def open_garment(self, garment_id: str) -> None:
        """Open a garment of this client at its last fitting."""
        self.room.choose(Chosen(garment=garment_id))

    def open_fitting(self, fitting_id: str) -> None:
        self._choose(fitting=fitting_id, pin=0)

    def show_layer(self, layer_id: str) -> None:
        self._choose(layer=layer_id)

    # -- pins -----------------------------------------------------------------

    def take_pin(self, index: int) -> None:
        """Take a pin in hand: it is the one that minus and plus change."""
        self._choose(pin=index)

    def step_pin(self, steps: int) -> None:
        """Make the pin in hand deeper or shallower by a step of the garment."""
        self.room.change(lambda document: self._step_pin(document, steps))

    def choose_lead(self, lead: str) -> None:
        self.room.change(lambda document: choose_lead(document, self._at_fitting().place, lead))

    # -- photos ---------------------------------------------------------------

    def add_photo(self, path: str | Path, view: str) -> None:
        """Read a photo aside and keep it at the fitting that is open now."""
        self.room.attempt(lambda: self._add_photo(Path(path), view))

    def mark_photo(self, index: int, x: float, y: float, text: str) -> None:
        """Mark a place on a photo of the open fitting: shares from its top left."""
        self._change_fitting(lambda fitting: photo_edits.mark(fitting, index, x, y, text))

    def remove_photo(self, index: int) -> None:
        self._change_fitting(lambda fitting: photo_edits.remove(fitting, index))

    # -- how ------------------------------------------------------------------

    def _put(self, shown: Shown) -> None:
        for each in fields(shown):
            setattr(self, each.name, getattr(shown, each.name))

    def _choose(self, **others: Any) -> None:
        self.room.choose(replace(self.chosen or Chosen(), **others))

    def _at_fitting(self) -> OnTheBench:
        """Return where the open fitting stands; raises ``NotFound``."""
        if self._on is None or self._on.fitting is None:
            raise NotFound("There is no fitting here to change")
        return self._on

    def _change_fitting(self, edit: Callable[[Document], None]) -> None:
        self.room.change(lambda document: edit(self._at_fitting().place.fitting_in(document)))

    def _add_photo(self, path: Path, view: str) -> None:
        self._at_fitting()
        keep_photo(self.room, self.room.seen(), path, view, self.chosen)

    def _step_pin(self, document: Document, steps: int) -> None:
        on, row = self._at_fitting(), self.pin
        if row is None or on.fitting is None:
            raise NotFound("Take a pin in hand first: touch it in the list")
        pin = on.fitting.pins[row.index]
        step_pin(document, on.place, row.index, pin, unit=on.file.unit,
                 step_mm=on.garment.settings.step, steps=steps)  # fmt: skip
