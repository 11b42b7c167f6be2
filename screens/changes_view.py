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

from core.changes.chosen_way import choose_way
from core.changes.even_sides import Uneven, even_out
from core.changes.set_by_hand import SetMove, put_amount, share_again, take_back
from core.errors import NotFound
from core.file.fitting_file import FittingFile
from core.fit.amounts import step_amount
from core.records.answer import Plan
from core.said.amounts_to_set import AmountToSet
from screens import fitting_page, photo_edits
from screens.asked import LEAVE
from screens.browsing import Entry, beginning, look_into
from screens.changes_ease import keep_ease, pinned_ease
from screens.changes_sheet import PAPERS, write_sheet
from screens.changes_shown import (
    LIST,
    PIECES,
    BesideThem,
    OnChanges,
    beside_them,
    on_changes,
    steps_to_set,
)
from screens.door import Document
from screens.edits import choose_lead
from screens.photo_edits import keep_photo
from screens.rows import level_rows
from screens.shown import Chosen, OnTheBench, Shown, find, named, plan_on, show
from screens.view import View

LEADS = ("pins", "tape", "both")


@dataclass(frozen=True, slots=True)
class Found:
    """The records that were chosen, and what is shown of them."""

    on: OnTheBench
    shown: Shown
    beside: BesideThem


def as_it_will_be(on: OnTheBench, shown: Shown, plan: Plan) -> Shown:
    """Return the strip with what the moves give, where she set some of them by hand."""
    if not any(total.layer == shown.layer for total in plan.hand_totals):
        return shown
    live = shown.pin.level if shown.pin else ""
    levels = level_rows(plan.levels, shown.layer, on.file.unit, [live],
                        planned_within=on.garment.settings.band)  # fmt: skip
    return replace(shown, levels=tuple(levels), moved_name="planned")


class ChangesView(View):
    """One garment at one fitting; ``chosen`` is an ``OnChanges``, or a ``Chosen`` of elsewhere.

    ``said`` is where a sheet was written.
    """

    name = "changes"

    title_line = StringProperty()
    garment = StringProperty()
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
    ways = ListProperty()
    unpinned = StringProperty()
    shows = StringProperty(LIST)
    drawn = ListProperty()
    no_pieces = StringProperty()
    to_sew = StringProperty()
    has_steps = BooleanProperty(False)
    has_unread = BooleanProperty(False)
    ticked = ListProperty()
    sewn_otherwise = StringProperty()
    has_ease = BooleanProperty(False)
    uneven = ListProperty()
    shortages = ListProperty()
    amounts = ListProperty()
    set_amounts = ListProperty()
    set_agrees = ListProperty()
    set_differs = ListProperty()
    shared_again = BooleanProperty(False)
    panel = StringProperty()
    asked = ObjectProperty(None, allownone=True)
    browsing = ObjectProperty(None, allownone=True)
    said = StringProperty()

    def __init__(self, room: Any, **kwargs: Any) -> None:
        super().__init__(room, **kwargs)
        self._on: OnTheBench | None = None

    def work_out(self, file: FittingFile | None, chosen: Chosen | None) -> Found:
        if file is None:
            raise NotFound("There is no client on the table")
        now = on_changes(chosen)
        on = find(file, now)
        if not on.garment.layers:
            raise NotFound("This garment has no draft yet to compare anything with: draft it first")
        plan = plan_on(on)
        shown = as_it_will_be(on, show(on, now, plan), plan)
        beside = beside_them(on, now, shown.layer, plan)
        return Found(on, replace(shown, steps=steps_to_set(shown.steps, beside)), beside)

    def lay_out(self, found: Found, chosen: Chosen | None) -> None:
        self._on, self.chosen = found.on, named(found.on, on_changes(chosen))
        self.said = ""
        self._put(found.shown)
        self._put(found.beside)
        open_anyway = (*found.beside.shortages, *found.beside.set_differs)
        self.warnings = [said for said in found.shown.warnings if said not in open_anyway]

    def put_away(self) -> None:
        super().put_away()
        self._on = None
        self.said = ""
        self._put(Shown())
        self._put(BesideThem())

    def close(self) -> bool:
        """Close what stands in the place of the page."""
        if self.chosen is None or not self.panel:
            return False
        self._choose(panel="", browsing=None)
        return True

    # -- which garment, which fitting -----------------------------------------

    def open_garment(self, garment_id: str) -> None:
        """Open a garment of this client at its last fitting."""
        self.room.choose(OnChanges(garment=garment_id))

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

    def choose_way(self, way: str) -> None:
        """Share out what the tape asks for in another way; the sewing table follows it."""
        self._change_fitting(lambda fitting: choose_way(fitting, way))

    def even_out(self, uneven: Uneven) -> None:
        """Give two sides that were pinned unlike half of their sum each."""
        unit = self._at_fitting().file.unit
        self._change_fitting(lambda fitting: even_out(fitting, uneven, unit))

    def step_amount(self, row: AmountToSet, steps: int) -> None:
        """Set an amount by hand: a step further out, or negative, further in."""
        on = self._at_fitting()
        self._put_amount(row.stepped(steps, on.garment.settings.step))

    def as_planned(self, at: SetMove) -> None:
        """Let what was set by hand at a place be as planned again."""
        self._change_fitting(lambda fitting: take_back(fitting, [at]))

    def share_again(self) -> None:
        """Have what is left shared again over what she did not set, or leave the rest as it is."""
        again = not self.shared_again
        self._change_fitting(lambda fitting: share_again(fitting, again))

    def keep_ease(self) -> None:
        """Keep the ease as pinned as hers, for the next garment."""
        on = self._at_fitting()
        ease = pinned_ease(plan_on(on), on.garment, on.file.unit)
        if self.room.change(lambda document: keep_ease(document, ease)):
            self.said = "Kept as the ease she likes; her page shows it."

    # -- the list, the pieces, and where they lead ----------------------------

    def show_list(self) -> None:
        self._choose(shows=LIST)

    def show_pieces(self) -> None:
        """Show the pieces with their moves in the place of the list."""
        self._choose(shows=PIECES)

    def sew(self) -> None:
        """Go to the sewing table with this list."""
        self._at_fitting()
        chosen = self.chosen
        self.room.go("sewing", Chosen(garment=chosen.garment, fitting=chosen.fitting))

    def read_off(self) -> None:
        """Go to the pin that is to be read off next; where there is none, to pinning."""
        self._at_fitting()
        here = {"garment": self.chosen.garment, "fitting": self.chosen.fitting}
        moment = "read" if self.pins else "pin"
        self.room.beside("fitting", fitting_page.Chosen(**here, moment=moment))

    def ask_sheet(self) -> None:
        """Ask on which paper the sheet is to be."""
        self._choose(panel="ask")

    def answer(self, key: str, secrets: tuple[str, ...] = ()) -> None:
        """Take the paper, and choose where the sheet is to be written."""
        if key == LEAVE or key not in PAPERS:
            self.close()
            return
        paper, strips = PAPERS[key]
        self.room.attempt(lambda: self._look(beginning(), paper=paper, strips=strips))

    def browse(self, entry: Entry) -> None:
        """Go into a folder."""
        self.room.attempt(lambda: self._look(entry.path))

    def take_folder(self) -> None:
        """Have the sheet written into the open folder."""
        folder, chosen = self.chosen.browsing.folder, self.chosen
        self.close()
        self.room.attempt(lambda: self._write_sheet(folder, chosen))

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

    def _look(self, folder: Path, **more: Any) -> None:
        browsing = look_into("Where is the sheet to be written?", "folder", folder)
        self._choose(panel="browse", browsing=browsing, **more)

    def _write_sheet(self, folder: Path, chosen: OnChanges) -> None:
        if self._on is None:
            raise NotFound("There is nothing here to print")
        write_sheet(self.room, plan_on(self._on), self._on.file, folder, chosen.paper,
                    strips=chosen.strips, then=self._sent)  # fmt: skip

    def _sent(self, words: str) -> None:
        self.said = words

    def _put(self, shown: Shown | BesideThem) -> None:
        for each in fields(shown):
            setattr(self, each.name, getattr(shown, each.name))

    def _choose(self, **others: Any) -> None:
        self.room.choose(replace(on_changes(self.chosen), **others))

    def _at_fitting(self) -> OnTheBench:
        """Return where the open fitting stands; raises ``NotFound``."""
        if self._on is None or self._on.fitting is None:
            raise NotFound("There is no fitting here to change")
        return self._on

    def _change_fitting(self, edit: Callable[[Document], None]) -> None:
        self.room.change(lambda document: edit(self._at_fitting().place.fitting_in(document)))

    def _put_amount(self, amount: SetMove) -> None:
        unit = self._at_fitting().file.unit
        self._change_fitting(lambda fitting: put_amount(fitting, [amount], unit))

    def _add_photo(self, path: Path, view: str) -> None:
        self._at_fitting()
        keep_photo(self.room, self.room.seen(), path, view, self.chosen)

    def _step_pin(self, document: Document, steps: int) -> None:
        on, row = self._at_fitting(), self.pin
        if row is None or on.fitting is None:
            raise NotFound("Take a pin in hand first: touch it in the list")
        pin = on.fitting.pins[row.index]
        step_amount(on.place.fitting_in(document), on.garment, on.file.unit, row.index, pin, steps)
