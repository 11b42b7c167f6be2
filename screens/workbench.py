"""How anything is done at the bench: tried on a copy, worked out, saved, and only then shown.

Or it is refused, and the words for it stand where it arose.
"""

from collections.abc import Callable, Sequence
from copy import deepcopy
from typing import Any

from core.errors import Damaged, NotFound, WorkroomError
from core.fitting_file import read_document
from core.store.clients import Store
from core.store.index import Row
from screens.aside import Aside
from screens.benchtop import Benchtop
from screens.door import Document, Door, Keep
from screens.edits import Place
from screens.rows import sentence
from screens.shown import Chosen, OnTheBench, find, named, show

NOTHING_OPEN = "Nothing is on the bench yet"

Edit = Callable[[Document, OnTheBench], None]
"""Changes a document that is its own to change."""


class Workbench(Benchtop):
    """One client's document, what is chosen of it, and the door that its changes go through.

    Without a store there is no door, and nothing can be done.
    """

    def __init__(self, aside: Aside, **kwargs: Any) -> None:
        super().__init__(**kwargs)
        self._aside = aside
        self._door: Door | None = None
        self._document: Document = {}
        self._open: OnTheBench | None = None
        self._chosen = Chosen()

    @property
    def door(self) -> Door:
        if self._door is None:
            raise NotFound("The clients are not open")
        return self._door

    @property
    def store(self) -> Store:
        return self.door.store

    @property
    def on(self) -> OnTheBench:
        """What is on the bench; raises ``NotFound`` where nothing is."""
        if self._open is None:
            raise NotFound("There is no client on the bench")
        return self._open

    def at_fitting(self) -> tuple[Place, Chosen]:
        """Return where the open fitting stands, and its ids; raises ``NotFound``."""
        if self.on.fitting is None:
            raise NotFound("There is no fitting here to change")
        return self.on.place, self._chosen

    # -- the one door ---------------------------------------------------------

    def attempt(self, act: Callable[[], None], *, clears: bool = True) -> None:
        """Do it, or say in words why it could not be done; nobody else catches.

        What comes in late ``clears`` no words: they may be about something else.
        """
        try:
            act()
        except WorkroomError as error:
            self.say(error)
        else:
            self.trouble = "" if clears else self.trouble
        self.can_undo = self._door is not None and self._door.can_undo
        self.can_redo = self._door is not None and self._door.can_redo

    def say(self, error: WorkroomError) -> None:
        self.trouble = sentence(error)

    def keep(self, edit: Edit, seen: Chosen) -> None:
        """Change the open client; ``seen`` is where undo will go back to."""
        on, before, after = self.on, self._document, deepcopy(self._document)
        edit(after, on)
        if after != before:
            self.show(after, self._chosen, lambda whole: self.door.keep(before, whole, seen))

    def show(self, document: Document, chosen: Chosen, keep: Keep | None = None) -> None:
        """Read and work out everything first: what cannot be shown is never saved."""
        on = find(read_document(document), chosen)
        shown = show(on, chosen)
        self._document = on.file.data if keep is None else keep(on.file.data)
        self._open, self._chosen = on, named(on, chosen)
        self.lay_out(on.file.client.id, shown)

    # -- opening --------------------------------------------------------------

    def take_out(self, client_id: str) -> None:
        """Open a client; raises ``Damaged`` with her open where something of hers was lost."""
        self.show(self.store.read(client_id), Chosen())
        if lost := self.store.recovered(client_id):
            raise Damaged(lost)

    def take_out_first(self, rows: Sequence[Row]) -> None:
        """Open the first of the clients that can be read, if there is any."""
        if rows:
            self.empty_words = NOTHING_OPEN
            self.take_out(min(rows, key=lambda row: bool(row.damaged)).id)

    def delete(self, client_id: str) -> None:
        """Delete a client; where she was open, open the next one."""
        rows = self.store.clients()
        at = next((at for at, row in enumerate(rows) if row.id == client_id), len(rows))
        self.door.delete(client_id)
        if client_id == self.client_id or not self.client_id:
            self.take_off()
            self.take_out_first([*rows[at + 1 :], *rows[:at]])

    def take_off(self) -> None:
        """Take everything off the bench, and hold none of it."""
        self._document, self._open, self._chosen = {}, None, Chosen()
        self.clear()
