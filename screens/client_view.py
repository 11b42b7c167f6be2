"""A client's page in ready-to-show words, and what is done there."""

from collections.abc import Callable
from dataclasses import replace
from datetime import date
from pathlib import Path
from typing import Any

from kivy.properties import ListProperty, ObjectProperty, StringProperty

from core.body.tape_order import Number
from core.client.day_book import is_demo
from core.client.edits import (
    collect,
    give_consent,
    plan_fitting,
    rename,
    set_due,
    set_ease,
    set_notes,
    withdraw_consent,
)
from core.client.history_csv import history_csv
from core.draft.handed_out import hand_out
from core.errors import NotFound
from core.file.fitting_file import FittingFile
from core.store.photos import read_photo, read_thumbnail
from screens import photo_edits
from screens.asked import LEAVE
from screens.browsing import Entry, beginning, look_into
from screens.client_shown import (
    HerPage,
    OnHerPage,
    PhotoShown,
    closed,
    her_page,
    planned,
    stepped_ease,
)
from screens.door import Document
from screens.fitting_page import Chosen as AtHerFitting
from screens.month import months_on, stepped
from screens.photo_edits import keep_photo, place_of
from screens.sending import free_name, name_for, refuse_unlike, send_client
from screens.shown import Chosen as AtFitting
from screens.tape_page import Chosen as OnTheTape
from screens.workroom import View

TABLE = "table"
"""What is chosen a folder for besides her bundle: her measurements as a table."""

NO_FITTING = (
    "Photos are kept with a fitting, and she had none yet. Plan the first one at her garment"
)


class ClientView(View):
    """The open client's page; ``chosen`` is an ``OnHerPage``, or nothing."""

    name = "client"

    line = StringProperty()
    who = StringProperty()
    panel = StringProperty()
    card = ObjectProperty(None, allownone=True)
    measured = ListProperty()
    garments = ListProperty()
    fittings = ListProperty()
    ease = ListProperty()
    level = ObjectProperty(None, allownone=True)
    photos = ListProperty()
    photo = ObjectProperty(None, allownone=True)
    asked = ObjectProperty(None, allownone=True)
    picking = ObjectProperty(None, allownone=True)
    browsing = ObjectProperty(None, allownone=True)
    said = StringProperty()

    # -- what is shown --------------------------------------------------------

    def work_out(self, file: FittingFile | None, chosen: OnHerPage | None) -> HerPage:
        if file is None:
            raise NotFound("There is no client on the table")
        self._file = file
        return her_page(file, chosen or OnHerPage(), self.room.now().date())

    def lay_out(self, shown: HerPage, chosen: OnHerPage | None) -> None:
        now = self.chosen = chosen or OnHerPage()
        card = self.card = shown.card
        since = f"Client since {card.client_since}" if card.client_since else "Client"
        self.line = f"{since}, demo" if is_demo(card.id) else since
        self.who, self.measured, self.garments = card.name, shown.measured, shown.garments
        self.fittings, self.ease, self.photos = card.fittings, shown.ease, shown.photos
        self.level = next((key for key in shown.ease if key.level == now.level), None)
        self.photo = shown.photos[now.photo] if now.photo < len(shown.photos) else None
        self.asked, self.picking, self.browsing = shown.asked, shown.picking, now.browsing
        self.said = ""
        self.panel = now.panel if now.panel != "photo" or self.photo else ""

    def put_away(self) -> None:
        super().put_away()
        self._file = None
        self.line = self.who = self.said = self.panel = ""
        self.card = self.level = self.photo = self.asked = self.picking = self.browsing = None
        self.measured = self.garments = self.fittings = self.ease = self.photos = ()

    def close(self) -> bool:
        """Close what stands in the place of the page."""
        if self.chosen is None or not self.chosen.panel:
            return False
        self.room.choose(closed(self.chosen))
        return True

    def _open(self, **what: Any) -> None:
        self.room.choose(replace(closed(self.chosen), **what))

    # -- where to go ----------------------------------------------------------

    def measure(self, number: Number | None = None) -> None:
        """Go to the tape, at one of her numbers where one was touched."""
        self.room.go("tape", OnTheTape(number=number) if number else None)

    def new_garment(self) -> None:
        self.room.go("draft")

    def open_garment(self, garment_id: str, fitted: bool) -> None:
        """Open a garment where the work on it is: its changes, before a fitting its draft."""
        if fitted:
            self.open_fitting(garment_id, "")
        else:
            self.open_draft(garment_id)

    def open_draft(self, garment_id: str) -> None:
        self.room.go("draft", garment_id)

    def open_fitting(self, garment_id: str, fitting_id: str) -> None:
        self.room.go("changes", AtFitting(garment=garment_id, fitting=fitting_id))

    def plan(self, garment_id: str) -> None:
        """Show what can be planned for a garment, or put it away again."""
        opened = "" if self.chosen.planning == garment_id else garment_id
        self.room.choose(replace(self.chosen, planning=opened))

    def plan_for(self, verb: str) -> None:
        """Do what a key under the garment says that is planned for."""
        garment_id = self.chosen.planning
        if verb == "draft":
            self.open_draft(garment_id)
        elif verb == "fitting":
            self.room.go("fitting", AtHerFitting(garment=garment_id))
        elif verb == "changes":
            self.open_fitting(garment_id, "")
        else:
            self.ask_day(verb, garment_id)

    # -- days -----------------------------------------------------------------

    def ask_day(self, about: str, garment_id: str = "") -> None:
        """Open a month to pick a day from: ``due``, ``next fitting``, ``collected``."""
        self._open(panel="day", about=about, garment=garment_id)

    def turn_month(self, by: int) -> None:
        first = months_on(self.picking.first, by)
        self.room.choose(replace(self.chosen, month=first.isoformat()))

    def pick_day(self, day: date) -> None:
        """Write down a day; a fitting may be given a time after."""
        about, garment_id = self.chosen.about, self.chosen.garment
        if about == "next fitting":
            before = planned(self._file, garment_id, about)
            at = day.isoformat()
            if before is not None and self.picking.time:
                at = f"{at}T{before:%H:%M}"
            self.room.change(lambda document: plan_fitting(document, garment_id, at))
            return
        edits: dict[str, Callable[[Document], None]] = {
            "due": lambda document: set_due(document, garment_id, day.isoformat()),
            "collected": lambda document: collect(document, garment_id, day.isoformat()),
            "consent": lambda document: give_consent(document, day.isoformat()),
        }
        self._close_and(edits[about])

    def pick_none(self) -> None:
        """Write down that there is no such day."""
        about, garment_id = self.chosen.about, self.chosen.garment
        none = {"due": set_due, "collected": collect, "next fitting": plan_fitting}[about]
        self._close_and(lambda document: none(document, garment_id, ""))

    def step_time(self, quarters: int) -> None:
        """Give the fitting a time, or another one."""
        garment_id = self.chosen.garment
        before = planned(self._file, garment_id, "next fitting")
        if before is not None:
            at = f"{stepped(before, quarters):%Y-%m-%dT%H:%M}"
            self.room.change(lambda document: plan_fitting(document, garment_id, at))

    # -- what is written of her -----------------------------------------------

    def open_name(self) -> None:
        self._open(panel="name")

    def rename(self, name: str) -> None:
        if self.room.change(lambda document: rename(document, name)):
            self.close()

    def set_notes(self, notes: str) -> None:
        if self.card is not None and notes != self.card.notes:
            self.room.change(lambda document: set_notes(document, notes))

    def open_ease(self, level: str) -> None:
        self._open(panel="ease", level=level)

    def set_ease(self, typed: str) -> bool:
        """Write down the ease she likes, as typed; nothing typed is as the kind has it."""
        level = self.chosen.level
        if self.level is None or typed.strip() == self.level.text:
            return True
        return self.room.change(lambda document: set_ease(document, level, typed))

    def step_ease(self, typed: str, steps: int) -> None:
        """Make what is typed more or less by a step."""
        self.room.attempt(
            lambda: self.set_ease(stepped_ease(typed, self._file, self.room.settings, steps)),
            clears=False,
        )

    # -- photos ---------------------------------------------------------------

    def thumbnail(self, file: str) -> bytes:
        return read_thumbnail(self.room.store, self.room.client_id, file)

    def whole_photo(self, file: str) -> bytes:
        return read_photo(self.room.store, self.room.client_id, file)

    def show_photo(self, at: int) -> None:
        self._open(panel="photo", photo=at)

    def turn_photo(self, by: int) -> None:
        at = min(max(self.chosen.photo + by, 0), len(self.photos) - 1)
        self.room.choose(replace(self.chosen, photo=at))

    def remove_photo(self) -> None:
        """Take the photo in sight out of its fitting; undo puts it back."""
        shown: PhotoShown = self.photo
        place = place_of(self._file, shown.garment, shown.fitting)
        self._close_and(
            lambda document: photo_edits.remove(place.fitting_in(document), shown.index)
        )

    def ask_consent(self) -> None:
        self._open(panel="ask", about="agreed" if self.card.consent else "consent")

    def add_photo(self) -> None:
        """Choose a photo for the last fitting; before the first one she is asked."""
        if not self._last_fitting():
            self.room.say(NotFound(NO_FITTING))
        elif not self.card.consent:
            self._open(panel="ask", about="consent to this photo")
        else:
            self._browse("photo", "Which photo?")

    # -- sending and deleting -------------------------------------------------

    def export(self) -> None:
        """Choose where a bundle of this client is to be written."""
        self._browse("folder", f"Where is the bundle of {self.who} to be written?")

    def ask_table(self) -> None:
        """Choose where her measurements are to be written as a table."""
        self._browse("folder", f"Where is the table of {self.who}’s measurements to be written?",
                     TABLE)  # fmt: skip

    def browse(self, entry: Entry) -> None:
        """Go into a folder, or take a file."""
        if entry.is_folder:
            now, about = self.chosen.browsing, self.chosen.about
            self.room.attempt(lambda: self._look(now.title, now.takes, entry.path, about))
        else:
            self._open(panel="ask", about="view", path=str(entry.path))

    def take_folder(self) -> None:
        folder = self.chosen.browsing.folder
        if self.chosen.about == TABLE:
            self.close()
            self.room.attempt(lambda: self._write_table(folder))
        elif self.room.store.seal is None:
            self._send(folder, readable=False, passcode=None)
        else:
            self._open(panel="ask", about="how to send", path=str(folder))

    def ask_delete(self) -> None:
        self._open(panel="ask", about="delete")

    # -- answers --------------------------------------------------------------

    def answer(self, key: str, secrets: tuple[str, ...] = ()) -> None:
        """Do what a key under the question says."""
        chosen = self.chosen
        if key == LEAVE:
            self.close()
        elif key == "really":
            self._open(panel="ask", about="really")
        elif key == "delete":
            self.room.delete_client(self.room.client_id)
        elif key == "today":
            today = self.room.now().date().isoformat()
            if (self._close_and(lambda document: give_consent(document, today))
                    and chosen.about == "consent to this photo"):  # fmt: skip
                self.add_photo()
        elif key == "another day":
            self.ask_day("consent")
        elif key == "withdraw":
            self._close_and(withdraw_consent)
        elif chosen.about == "how to send":
            self.room.attempt(lambda: self._answer_sending(key, secrets))
        elif chosen.about == "view":
            self._keep_photo(Path(chosen.path), key)

    def _answer_sending(self, key: str, secrets: tuple[str, ...]) -> None:
        folder = Path(self.chosen.path)
        if key == "readable":
            self._send(folder, readable=True, passcode=None)
        else:
            self._send(folder, readable=False, passcode=refuse_unlike(*secrets))

    def _send(self, folder: Path, *, readable: bool, passcode: str | None) -> None:
        client_id, sealed = self.room.client_id, self.room.store.seal is not None
        path = folder / name_for(self.who if not sealed or readable else "", self.room.now())
        self.close()
        self.room.work(
            f"Writing the bundle of {self.who}",
            lambda store, progress: send_client(
                store, path, client_id, readable=readable, passcode=passcode, progress=progress
            ),
            self._sent,
        )

    def _write_table(self, folder: Path) -> None:
        path = free_name(folder / name_for(self.who, self.room.now(), "csv"))
        hand_out(path, history_csv(self.room.document))
        self.said = f"Written: {path.name}, in {folder}. Anyone who has the file can read it."

    def _sent(self, words: str) -> None:
        self.said = words

    # -- how ------------------------------------------------------------------

    def _close_and(self, edit: Callable[[Document], None]) -> bool:
        """Close what is open, then change her: taking it back does not open it again."""
        self.close()
        return self.room.change(edit)

    def _browse(self, takes: Any, title: str, about: str = "") -> None:
        self.room.attempt(lambda: self._look(title, takes, beginning(), about))

    def _look(self, title: str, takes: Any, folder: Path, about: str) -> None:
        self._open(panel="browse", about=about, browsing=look_into(title, takes, folder))

    def _last_fitting(self) -> AtFitting | None:
        rows = self.card.fittings if self.card is not None else ()
        return AtFitting(garment=rows[0].garment_id, fitting=rows[0].id) if rows else None

    def _keep_photo(self, path: Path, view: str) -> None:
        at = self._last_fitting()
        self.close()
        if at is not None:
            keep_photo(self.room, self.room.seen(), path, view, at)
