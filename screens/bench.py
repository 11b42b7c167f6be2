"""What every screen shares: the open client, the plan worked out for her, and the verbs.

Every change goes through one door: it is tried on a copy, worked out, saved, and
only then shown; or it is refused, and the words for it stand where it arose.
"""

from collections.abc import Callable
from copy import deepcopy
from dataclasses import fields, replace
from typing import Any

from kivy.event import EventDispatcher
from kivy.properties import (
    BooleanProperty,
    ListProperty,
    ObjectProperty,
    OptionProperty,
    StringProperty,
)

from core.errors import Damaged, NotFound, WorkroomError
from core.fitting_file import read_document
from core.store.clients import Store
from screens.edits import choose_lead, step_pin
from screens.pin_rows import PinRow
from screens.shown import Chosen, OnTheBench, Shown, find, show

LEADS = ("pins", "tape", "both")
NO_CLIENT = "There is no client here yet"
NOTHING_OPEN = "Nothing is on the bench yet"
DAMAGED_TOLD = (
    "The last touch before the tablet stopped could not be read: look over the last change"
)


class Bench(EventDispatcher):
    """The garment on the bench, as ready-to-show words, and what can be done to it."""

    is_empty = BooleanProperty(True)
    empty_words = StringProperty(NO_CLIENT)
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
    can_undo = BooleanProperty(False)
    trouble = StringProperty()

    def __init__(self, store: Store, **kwargs: Any) -> None:
        super().__init__(**kwargs)
        self._store = store
        self._document: dict[str, Any] = {}
        self._open: OnTheBench | None = None
        self._chosen = Chosen()
        self._past: list[tuple[dict[str, Any], Chosen]] = []
        self._attempt(self._begin)

    # -- what can be done -----------------------------------------------------

    def open_client(self, client_id: str) -> None:
        self._attempt(lambda: self._take_out(client_id))

    def open_garment(self, garment_id: str) -> None:
        """Open a garment of this client at its last fitting."""
        self._choose(Chosen(garment=garment_id))

    def open_fitting(self, fitting_id: str) -> None:
        self._choose(replace(self._chosen, fitting=fitting_id, pin=0))

    def show_layer(self, layer_id: str) -> None:
        self._choose(replace(self._chosen, layer=layer_id))

    def take_pin(self, index: int) -> None:
        """Take a pin in hand: it is the one that minus and plus change."""
        self._choose(replace(self._chosen, pin=index))

    def step_pin(self, steps: int) -> None:
        """Make the pin in hand deeper or shallower by a step of the garment."""
        self._change(lambda document, on: _step_pin(document, on, self.pin, steps))

    def choose_lead(self, lead: str) -> None:
        self._change(lambda document, on: choose_lead(document, on.place, lead))

    def undo(self) -> None:
        """Go back to before the last change, with its pin in hand; saved like any other."""
        self._attempt(self._go_back)

    def bring_in_demo(self) -> None:
        self._attempt(lambda: self._take_out(self._store.put_in_demo()))

    # -- the one door ---------------------------------------------------------

    def _change(self, edit: Callable[[dict[str, Any], OnTheBench], None]) -> None:
        self._attempt(lambda: self._keep(edit))

    def _choose(self, chosen: Chosen) -> None:
        self._attempt(lambda: self._show(self._document, chosen))

    def _attempt(self, act: Callable[[], None]) -> None:
        """Do it, or say in words why it could not be done; nobody else catches."""
        try:
            act()
        except WorkroomError as error:
            self.trouble = f"{str(error).rstrip('.')}."
        else:
            self.trouble = ""

    def _keep(self, edit: Callable[[dict[str, Any], OnTheBench], None]) -> None:
        if self._open is None or self._open.fitting is None:
            raise NotFound("There is no fitting here to change")
        before, after = self._document, deepcopy(self._document)
        edit(after, self._open)
        if after != before:
            self._show(after, self._chosen, save=True)
            self._past.append((before, self._chosen))
            self.can_undo = True

    def _go_back(self) -> None:
        if self._past:
            self._show(*self._past[-1], save=True)
            self._past.pop()
            self.can_undo = bool(self._past)

    def _show(self, document: dict[str, Any], chosen: Chosen, *, save: bool = False) -> None:
        """Read and work out everything first: what cannot be shown is never saved."""
        on = find(read_document(document), chosen)
        shown = show(on, chosen)
        if save:
            self._store.save(on.file.data)
        self._document, self._open, self._chosen = on.file.data, on, chosen
        self._tell(shown)

    def _tell(self, shown: Shown) -> None:
        for each in fields(shown):
            setattr(self, each.name, getattr(shown, each.name))
        self.is_empty = False

    # -- opening --------------------------------------------------------------

    def _begin(self) -> None:
        """Open the first client that can be read; on the very first start that is the demo."""
        if self._store.first_start:
            self._store.put_in_demo()
        clients = self._store.clients()
        if clients:
            self.empty_words = NOTHING_OPEN
            self._take_out(min(clients, key=lambda client: client.damaged).id)

    def _take_out(self, client_id: str) -> None:
        document = self._store.read(client_id)
        self._past.clear()
        self.can_undo = False
        self._show(document, Chosen())
        if self._store.recovered(client_id):
            raise Damaged(DAMAGED_TOLD)


def _step_pin(document: dict[str, Any], on: OnTheBench, row: PinRow | None, steps: int) -> None:
    if row is None or on.fitting is None:
        raise NotFound("Take a pin in hand first: touch it in the list")
    pin = on.fitting.pins[row.index]
    step_pin(document, on.place, row.index, pin, unit=on.file.unit,
             step_mm=on.garment.settings.step, steps=steps)  # fmt: skip
