"""The day book in ready-to-show words: who comes, what is still to sew, and every client."""

from kivy.properties import ListProperty, StringProperty

from core.day_book import DayBook, day_book
from core.fitting_file import FittingFile
from core.store.backups import reminder
from screens.rows import sentence
from screens.workroom import View


class DayBookView(View):
    """The first screen; ``chosen`` is what she searches for."""

    name = "day book"
    needs_client = False

    title = StringProperty()
    clients = ListProperty()
    reminder = StringProperty()

    _reminder_put_off = False

    def work_out(self, file: FittingFile | None, chosen: str | None) -> DayBook:
        return day_book(self.room.store.clients(), self.room.now())

    def lay_out(self, shown: DayBook, chosen: str | None) -> None:
        self.title, self.clients = shown.title, shown.clients
        if not self._reminder_put_off:
            self.reminder = sentence(reminder(self.room.store))

    def put_away(self) -> None:
        super().put_away()
        self.title, self.clients, self.reminder = "", (), ""

    def put_off_reminder(self) -> None:
        """Say no more of a backup until the app is opened anew."""
        self._reminder_put_off, self.reminder = True, ""

    def open_client(self, client_id: str) -> None:
        self.room.open_client(client_id, "changes")

    def bring_in_demo(self) -> None:
        self.room.attempt(self._bring_in_demo)

    def _bring_in_demo(self) -> None:
        self.room.store.put_in_demo()
        self.room.choose(self.chosen)
