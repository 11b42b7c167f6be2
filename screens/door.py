"""The one door for changes: each is saved before it counts, taken back, and done again.

What was done is remembered over all clients, from the opening of the app to its closing.
"""

from collections.abc import Callable
from copy import deepcopy
from typing import TYPE_CHECKING, Any

from core.errors import NotFound
from core.store.clients import Store
from core.store.history import History

if TYPE_CHECKING:
    from core.file.fitting_file import FittingFile

Document = dict[str, Any]
Keep = Callable[[Document], Document]
"""Saves a document and returns it as it was kept."""

Show = Callable[[Document, Any, Keep], None]
"""Works out a document as it was ``seen``, keeps it, and shows it; raises with nothing kept."""


class Door:
    """Every change of a client's document goes through here."""

    def __init__(self, store: Store) -> None:
        self.store = store
        self._history = History()

    @property
    def can_undo(self) -> bool:
        return self._history.last is not None

    @property
    def can_redo(self) -> bool:
        return self._history.next is not None

    def keep(self, before: Document, after: Document, seen: Any) -> Document:
        """Save a change and note it; raises ``NotSaved`` with nothing noted."""
        kept = self.store.save(after)
        self._history.note(str(kept["client"]["id"]), before, kept, seen)
        return kept

    def change_unseen(
        self, client_id: str, edit: Callable[[Document], None], seen: Any
    ) -> None:  # fmt: skip
        """Change a client who is not on the bench; what could not be shown is never saved."""
        before = self.store.read(client_id)
        after = deepcopy(before)
        edit(after)
        read_client(after)
        self.keep(before, after, seen)

    def undo(self, show: Show) -> None:
        """Take the last change back, whoever's it was; a refused save leaves it as it was."""
        change = self._history.last
        if change is not None:
            show(change.before, change.seen, self.store.save)
            self._history.took_back()

    def redo(self, show: Show) -> None:
        """Do again what was taken back last; a refused save leaves it as it was."""
        change = self._history.next
        if change is not None:
            show(change.after, change.seen, self.store.save)
            self._history.did_again()

    def delete(self, client_id: str) -> None:
        """Delete a client for good and remember nothing of her; raises ``NotFound``."""
        if not self.store.has(client_id):
            raise NotFound("This client is not here any more")
        self.store.delete(client_id)
        self._history.forget(client_id)


def read_client(document: Document) -> "FittingFile":
    """Return a client's document as records; raises ``BadFile``.

    What reads them is loaded with the first client, not with the list of all.
    """
    from core.file.fitting_file import read_document

    return read_document(document)
