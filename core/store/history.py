"""What was done since the program was opened, so that it can be taken back and done again."""

from dataclasses import dataclass
from typing import Any

from core.store.records import same


@dataclass(frozen=True, slots=True)
class Change:
    """One change of one client's document; ``seen`` is what was shown, for going back to it."""

    client_id: str
    before: dict[str, Any]
    after: dict[str, Any]
    seen: Any = None


class History:
    """Changes made since the app was opened, over all clients, newest last.

    Documents kept here are never changed; the parts a change left alone are kept once.
    """

    def __init__(self) -> None:
        self._done: list[Change] = []
        self._undone: list[Change] = []

    @property
    def last(self) -> Change | None:
        """The change that would be taken back."""
        return self._done[-1] if self._done else None

    @property
    def next(self) -> Change | None:
        """The change that would be done again."""
        return self._undone[-1] if self._undone else None

    def note(self, client_id: str, before: Any, after: Any, seen: Any = None) -> None:
        """Note a change that was made; what had been taken back cannot be done again after."""
        self._done.append(Change(client_id, before, shared(before, after), seen))
        self._undone.clear()

    def took_back(self) -> None:
        self._undone.append(self._done.pop())

    def did_again(self) -> None:
        self._done.append(self._undone.pop())

    def forget(self, client_id: str) -> None:
        """Keep nothing of a client who was deleted."""
        self._done = [change for change in self._done if change.client_id != client_id]
        self._undone = [change for change in self._undone if change.client_id != client_id]


def shared(before: Any, after: Any) -> Any:
    """Return ``after`` with every part that is as it was taken from ``before``."""
    if type(before) is not type(after):
        return after
    if same(before, after):
        return before
    if isinstance(after, dict):
        return {
            key: shared(before[key], value) if key in before else value
            for key, value in after.items()
        }
    if isinstance(after, list):
        pairs = [shared(old, new) for old, new in zip(before, after, strict=False)]
        return pairs + after[len(pairs) :]
    return after
