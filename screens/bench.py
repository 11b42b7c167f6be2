"""The verbs: everything that can be done from any screen, each in one call."""

from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

from core.errors import NotFound
from core.fitting_file import read_document
from core.photos import Photo, read_photo
from core.store.backups import reminder
from core.store.clients import Store
from core.store.photos import add_photo
from screens import photo_edits
from screens.door import Document, Door
from screens.edits import choose_lead, step_pin
from screens.pin_rows import PinRow
from screens.rows import sentence
from screens.shown import Chosen, OnTheBench
from screens.workbench import Edit, Workbench


class Bench(Workbench):
    """What can be done to the client on the bench, and whom to put there."""

    _reminder_put_off = False

    # -- which client, which garment ------------------------------------------

    def take_store(self, store: Store) -> None:
        """Open the first client that can be read; on the very first start that is the demo."""
        self._door = Door(store)
        self.attempt(self._begin)

    def put_away(self) -> None:
        """Hold nothing of any client any more, neither shown nor to be taken back."""
        self._door, self.reminder = None, ""
        self.attempt(self.take_off)

    def open_client(self, client_id: str) -> None:
        self.attempt(lambda: self.take_out(client_id))

    def open_garment(self, garment_id: str) -> None:
        """Open a garment of this client at its last fitting."""
        self._choose(Chosen(garment=garment_id))

    def open_fitting(self, fitting_id: str) -> None:
        self._choose(replace(self._chosen, fitting=fitting_id, pin=0))

    def show_layer(self, layer_id: str) -> None:
        self._choose(replace(self._chosen, layer=layer_id))

    def bring_in_demo(self) -> None:
        self.attempt(lambda: self.take_out(self.store.put_in_demo()))

    def delete_client(self, client_id: str) -> None:
        """Delete a client for good: this is not taken back."""
        self.attempt(lambda: self.delete(client_id))

    # -- pins -----------------------------------------------------------------

    def take_pin(self, index: int) -> None:
        """Take a pin in hand: it is the one that minus and plus change."""
        self._choose(replace(self._chosen, pin=index))

    def step_pin(self, steps: int) -> None:
        """Make the pin in hand deeper or shallower by a step of the garment."""
        self._change(lambda document, on: _step_pin(document, on, self.pin, steps))

    def choose_lead(self, lead: str) -> None:
        self._change(lambda document, _: choose_lead(document, self.at_fitting()[0], lead))

    # -- photos ---------------------------------------------------------------

    def agree_to_photos(self, day: str) -> None:
        """Write down that the client agreed to photos, and on which day (ISO 8601)."""
        self._change(lambda document, _: photo_edits.agree(document, day))

    def withdraw_agreement(self) -> None:
        """Take no new photos; those that are there stay until they are removed."""
        self._change(lambda document, _: photo_edits.withdraw(document))

    def add_photo(self, path: str | Path, view: str) -> None:
        """Read a photo aside and keep it at the fitting that is open now."""
        self.attempt(lambda: self._read_photo(Path(path), view))

    def mark_photo(self, index: int, x: float, y: float, text: str) -> None:
        """Mark a place on a photo of the open fitting: shares from its top left."""
        self._change_fitting(lambda fitting: photo_edits.mark(fitting, index, x, y, text))

    def remove_photo(self, index: int) -> None:
        self._change_fitting(lambda fitting: photo_edits.remove(fitting, index))

    # -- back, again, later ---------------------------------------------------

    def undo(self) -> None:
        """Go back to before the last change, whoever's it was, with its pin in hand."""
        self.attempt(lambda: self.door.undo(self.show))

    def redo(self) -> None:
        """Do again what was taken back last."""
        self.attempt(lambda: self.door.redo(self.show))

    def put_off_reminder(self) -> None:
        """Say no more of a backup until the app is opened anew."""
        self._reminder_put_off, self.reminder = True, ""

    # -- how ------------------------------------------------------------------

    def _begin(self) -> None:
        if self.store.first_start:
            self.store.put_in_demo()
        if not self._reminder_put_off:
            self.reminder = sentence(reminder(self.store))
        self.take_out_first(self.store.clients())

    def _choose(self, chosen: Chosen) -> None:
        self.attempt(lambda: self.show(self._document, chosen))

    def _change(self, edit: Edit) -> None:
        self.attempt(lambda: self.keep(edit, self._chosen))

    def _change_fitting(self, edit: Callable[[Document], None]) -> None:
        self._change(lambda document, _: edit(self.at_fitting()[0].fitting_in(document)))

    def _read_photo(self, path: Path, view: str) -> None:
        """Have it read aside; it belongs to this fitting, whatever is opened meanwhile."""
        client_id, (_, seen) = self.client_id, self.at_fitting()

        def kept(photo: Photo) -> None:
            self.attempt(lambda: self._keep_photo(client_id, seen, photo, view), clears=False)

        self._aside.run("Reading the photo", lambda _: read_photo(path), kept, self.say)

    def _keep_photo(self, client_id: str, seen: Chosen, photo: Photo, view: str) -> None:
        name = add_photo(self.store, client_id, photo)

        def edit(document: Document, *_: object) -> None:
            place = photo_edits.place_of(read_document(document), seen.garment, seen.fitting)
            photo_edits.add(place.fitting_in(document), name, view)

        if client_id == self.client_id:
            self.keep(edit, seen)
        else:
            self.door.change_unseen(client_id, edit, seen)


def _step_pin(document: Document, on: OnTheBench, row: PinRow | None, steps: int) -> None:
    if row is None or on.fitting is None:
        raise NotFound("Take a pin in hand first: touch it in the list")
    pin = on.fitting.pins[row.index]
    step_pin(document, on.place, row.index, pin, unit=on.file.unit,
             step_mm=on.garment.settings.step, steps=steps)  # fmt: skip
