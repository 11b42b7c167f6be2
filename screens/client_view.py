"""A client's page in ready-to-show words, and what is done there."""

from dataclasses import replace

from kivy.properties import ListProperty, ObjectProperty, StringProperty

from core.body.tape_order import Number
from core.client.day_book import is_demo
from core.client.edits import rename, set_ease, set_notes
from core.errors import NotFound
from core.file.fitting_file import FittingFile
from screens.client_sent import SendVerbs
from screens.client_shown import HerPage, OnHerPage, her_page, stepped_ease
from screens.fitting_page import Chosen as AtHerFitting
from screens.shown import Chosen as AtFitting
from screens.tape_chosen import Chosen as OnTheTape


class ClientView(SendVerbs):
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
