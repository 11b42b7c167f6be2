"""A screen's own state: what it shows in ready-to-show words, and its verbs.

It works out what it shows from the client's file and what was chosen, or says in words why it
cannot; only then is anything saved or shown.
"""

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from kivy.event import EventDispatcher

if TYPE_CHECKING:
    from core.file.fitting_file import FittingFile
    from screens.workroom import Workroom


@dataclass(frozen=True, slots=True)
class Seen:
    """A screen and what was chosen on it, to go back to; ``client_id`` whose it was."""

    screen: str
    chosen: Any = None
    client_id: str = ""


class View(EventDispatcher):
    """A screen's state in ready-to-show words, and its verbs.

    ``needs_client`` tells whether it shows the open client; without one it is never shown.
    """

    name = ""
    needs_client = True

    def __init__(self, room: "Workroom", **kwargs: Any) -> None:
        super().__init__(**kwargs)
        self.room = room
        self.chosen: Any = None
        room.views[self.name] = self

    def work_out(self, file: "FittingFile | None", chosen: Any) -> Any:
        """Return what is to be shown; raises ``WorkroomError`` with nothing changed."""
        raise NotImplementedError

    def lay_out(self, shown: Any, chosen: Any) -> None:
        """Show what was worked out; ``self.chosen`` is ``chosen`` already."""
        raise NotImplementedError

    def put_away(self) -> None:
        """Hold nothing of any client."""
        self.chosen = None

    def close(self) -> bool:
        """Close what lies open over the screen, a picker or a question; tell whether any did.

        The way back does this first.
        """
        return False

    def settle(self) -> bool:
        """Keep what is half said before she goes elsewhere, or the device rests.

        Tells whether it was kept; where it was not, she stays and the words for it are shown.
        """
        return True
