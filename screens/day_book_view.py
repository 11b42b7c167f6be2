"""The day book in ready-to-show words: who comes, what is still to sew, and every client."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Any, NamedTuple
from uuid import uuid4

from kivy.properties import BooleanProperty, ListProperty, ObjectProperty, StringProperty

from core.client.day_book import ClientLine, DayBook, client_lines, day_book
from core.store.reminder import reminder
from screens.sentence import sentence
from screens.view import View

if TYPE_CHECKING:
    from core.file.fitting_file import FittingFile

NOT_FOUND = "Nobody here has a name that begins so."


AT_ONCE = 20
"""How many lines of a list stand there at first, and how many more each touch brings."""


@dataclass(frozen=True, slots=True)
class Looking:
    """What she looks for among the clients, and whether she is taking up a new one.

    ``more`` is how often she asked for more of the lists of work.
    """

    text: str = ""
    naming: bool = False
    removing: str = ""
    more: int = 0


class ClientRow(NamedTuple):
    """A client of the list; ``asks`` whether the demo client is really to go."""

    line: ClientLine
    asks: bool = False


class DayBookView(View):
    """The first screen; ``chosen`` is a ``Looking``, or nothing."""

    name = "day book"
    needs_client = False

    title = StringProperty()
    next = ObjectProperty(None, allownone=True)
    then = ListProperty()
    due = ListProperty()
    to_sew = ListProperty()
    more_then = ListProperty()
    more_to_sew = ListProperty()
    clients = ListProperty()
    count = StringProperty()
    nobody = BooleanProperty(False)
    not_found = StringProperty()
    text = StringProperty()
    naming = BooleanProperty(False)
    reminder = StringProperty()

    _reminder_put_off = False

    def work_out(self, file: "FittingFile | None", chosen: Looking | None) -> DayBook:
        store, now = self.room.store, self.room.now()
        text = (chosen or Looking()).text
        page = day_book(store.clients(), now)
        found = client_lines(store.search(text), now) if text.strip() else page.clients
        return replace(page, clients=found)

    def lay_out(self, shown: DayBook, chosen: Looking | None) -> None:
        looking = self.chosen = chosen or Looking()
        self.title, self.next = shown.title, shown.next
        many = AT_ONCE * (1 + looking.more)
        self.then, self.due, self.to_sew = shown.then[:many], shown.due[:many], shown.to_sew[:many]
        self.more_then = _more((shown.then, "to come"), many=many)
        self.more_to_sew = _more((shown.to_sew, "to sew"), (shown.due, "due"), many=many)
        self.clients = [ClientRow(line, line.client_id == looking.removing and line.demo)
                        for line in shown.clients]  # fmt: skip
        everyone = len(self.room.store.clients())
        self.count, self.nobody = str(everyone) if everyone else "", not everyone
        self.not_found = NOT_FOUND if everyone and not shown.clients else ""
        self.text, self.naming = looking.text, looking.naming
        if not self._reminder_put_off:
            self.reminder = self._due_backup()

    def put_away(self) -> None:
        super().put_away()
        self.title = self.count = self.not_found = self.text = self.reminder = ""
        self.next, self.nobody, self.naming = None, False, False
        self.then = self.due = self.to_sew = self.clients = ()
        self.more_then = self.more_to_sew = ()

    def close(self) -> bool:
        """Leave the new name, or what is searched for, first."""
        if self.chosen in (None, Looking()):
            return False
        self.room.choose(Looking())
        return True

    # -- whom to see ----------------------------------------------------------

    def search(self, text: str) -> None:
        """Show the clients whose names begin so."""
        if self.chosen is not None and text != self.chosen.text:
            self._look(text=text, removing="")

    def open_client(self, client_id: str) -> None:
        self.room.open_client(client_id)

    def open_fitting(self, line: Any) -> None:
        """Open a fitting of today, to be held; else the client who comes to it."""
        from screens.fitting_page import Chosen as AtFitting  # not before she asks

        if line.today:
            self.room.open_client(line.client_id, "fitting", AtFitting(garment=line.garment_id))
        else:
            self.room.open_client(line.client_id)

    def open_changes(self, line: Any) -> None:
        """Open what is still to sew."""
        from screens.shown import Chosen as AtFitting  # all of planning: not before she asks

        chosen = AtFitting(garment=line.garment_id, fitting=line.fitting_id)
        if self.room.open_client(line.client_id):
            self.room.go("changes", chosen)

    def show_more(self) -> None:
        """Show more of the lists of work."""
        self._look(more=self.chosen.more + 1)

    # -- who is taken up, and who goes ----------------------------------------

    def begin_client(self) -> None:
        """Ask for a new client's name, and for nothing else."""
        self._look(naming=True, removing="")

    def leave_client(self) -> None:
        self._look(naming=False)

    def add_client(self, name: str) -> None:
        """Take up a new client and open her page."""
        self.room.attempt(lambda: self._add_client(name))

    def bring_in_demo(self) -> None:
        self.room.attempt(self._bring_in_demo)

    def remove_demo(self, client_id: str) -> None:
        """Ask whether the demo client is to go; asked already, delete her for good."""
        if self.chosen.removing == client_id:
            self.room.delete_client(client_id)
        else:
            self._look(removing=client_id)

    def put_off_reminder(self) -> None:
        """Say no more of a backup until the app is opened anew."""
        self._reminder_put_off, self.reminder = True, ""

    # -- how ------------------------------------------------------------------

    def _look(self, **others: Any) -> None:
        self.room.choose(replace(self.chosen, **others))

    def _add_client(self, name: str) -> None:
        from core.client.edits import new_client  # what reads files: not before a name is typed

        now, unit = self.room.now(), self.room.settings.unit
        made = new_client(name, str(uuid4()), now.date(), unit)
        self.chosen = Looking()  # the way back leads to everybody
        self.room.add_client(made, "client")

    def _bring_in_demo(self) -> None:
        self.room.store.put_in_demo(self.room.now().date())
        self.room.choose(Looking())

    def _due_backup(self) -> str:
        after = self.room.settings.remind_after
        return sentence(reminder(self.room.store, after)) if after else ""


def _more(*lists: tuple[Sequence[Any], str], many: int) -> list[str]:
    """Return what a key for more says: how many lines are left of each list; nothing for none."""
    left = [f"{len(lines) - many} {what}" for lines, what in lists if len(lines) > many]
    return [f"More: {' and '.join(left)}"] if left else []
