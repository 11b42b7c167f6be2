"""The state of the draft's screen: what it shows, what is open, and what is being typed."""

from copy import deepcopy
from dataclasses import dataclass, fields, replace
from typing import Any

from kivy.properties import ListProperty, ObjectProperty, StringProperty

from core.body.keypad import Keypad, keypad_of
from core.client.facts import entries
from core.errors import NotFound, WorkroomError
from core.file.fitting_file import FittingFile, read_document
from screens.parts.draft_at import on_the_table
from screens.parts.draft_begin import StartShown, show_clients, show_start
from screens.parts.draft_chosen import Drafting, Opened, chosen_of
from screens.parts.draft_details import DetailRow, details
from screens.parts.draft_hand import put_number, turned
from screens.parts.draft_own import own_kinds
from screens.parts.draft_rows import SheetRow
from screens.parts.draft_sheet import cutting_sheet
from screens.parts.draft_shown import WidthsShown, show_widths
from screens.view import View

TABLE = (("widths", "The table", True),)
VERBS = {
    "widths": (
        ("again", "Work out the draft", False),
        ("more", "Details", False),
        ("start", "Start from…", False),
        ("sheet", "Cutting sheet", True),
    ),
    "more": TABLE,
    "checks": TABLE,
    "sheet": TABLE,
}
"""By page what can be done with the draft as a whole; the last one leads on."""


NO_START = StartShown()


@dataclass(frozen=True, slots=True)
class DraftShown:
    """What the screen shows: one garment, or what a new one can be begun from."""

    widths: WidthsShown
    start: StartShown = NO_START
    details: tuple[DetailRow, ...] = ()
    sheet: tuple[SheetRow, ...] = ()


class DraftDesk(View):
    """What lies on the table, and the keypad for the number that is open.

    ``keys`` is the keypad while a number is typed, ``typed_words`` what it shows.  The table and
    the pieces show it at once; nothing of it is kept until she is done, touches another number
    or leaves.
    """

    name = "draft"

    page = StringProperty("")
    garment = StringProperty("")
    title_line = StringProperty("")
    title = StringProperty("")
    layers = ListProperty()
    rings = ListProperty()
    columns = ListProperty()
    rows = ListProperty()
    opened = ObjectProperty(None, rebind=True, allownone=True)
    drawn = ListProperty()
    drawn_note = StringProperty("")
    lit = ObjectProperty(("", ""))
    lit_dart = StringProperty("")
    headline = ObjectProperty(None, allownone=True)
    checks = ListProperty()
    empty = StringProperty("")
    keys = ObjectProperty(None, allownone=True)
    typed_words = StringProperty("")
    start = ObjectProperty(StartShown(), rebind=True)
    said = StringProperty("")
    verbs = ListProperty()
    details = ListProperty()
    sheet = ListProperty()

    def __init__(self, room: Any, **kwargs: Any) -> None:
        super().__init__(room, **kwargs)
        self._shown = WidthsShown(Drafting())
        self._share = False

    # -- what is shown --------------------------------------------------------

    def work_out(self, file: FittingFile | None, chosen: Drafting | str | None) -> DraftShown:
        if file is None:
            raise NotFound("There is no client on the table")
        now = chosen_of(chosen)
        start = self._start(file, now)
        if not now.garment:
            return DraftShown(WidthsShown(now, file.client.name, "A new garment"), start)
        on = on_the_table(file, now, self.room.now().date())
        return DraftShown(
            show_widths(on), start,
            details(on, own_kinds(self.room)) if now.page == "more" else (),
            cutting_sheet(on) if now.page == "sheet" else (),
        )  # fmt: skip

    def lay_out(self, shown: DraftShown, chosen: Drafting | str | None) -> None:
        self.chosen = shown.widths.chosen
        self.keys, self.typed_words, self.said = None, "", ""
        self.start, self.sheet, self.details = shown.start, shown.sheet, shown.details
        self._shown = shown.widths
        self._put(shown.widths)
        self.page, self.garment = self.chosen.page, self.chosen.garment
        self.verbs = VERBS.get(self.page, ())

    def put_away(self) -> None:
        super().put_away()
        self.keys, self.typed_words, self.page, self.said = None, "", "", ""
        self.garment = ""
        self.start, self.details, self.sheet = StartShown(), (), ()
        self._shown = WidthsShown(Drafting())
        self._put(self._shown)

    def close(self) -> bool:
        """Close the keypad, then the number that lies open, then the page over the table."""
        if self.chosen is None or not self.chosen.garment:
            return False
        if self.keys is not None:
            self.done()
        elif self.chosen.opened.what:
            self._choose(self.chosen.open(Opened()))
        elif self.chosen.page != "widths":
            self._choose(self.chosen.turn("widths"))
        else:
            return False
        return True

    def _start(self, file: FittingFile, now: Drafting) -> StartShown:
        if now.page == "start":
            return show_start(file, own_kinds(self.room))
        return show_clients(self.room, file, now) if now.page == "clients" else StartShown()

    def _put(self, shown: WidthsShown) -> None:
        for each in fields(shown):
            if each.name != "chosen":
                setattr(self, each.name, getattr(shown, each.name))

    # -- the keypad -----------------------------------------------------------

    def type(self, *, share: bool = False) -> None:
        """Open the keypad on the open number, or on a ``share`` of the girth (%)."""
        if self.opened is None:
            return
        self._share = share
        unit, fine = self.room.document.get("unit", "in"), self.room.settings.sixteenths
        if share or (unit == "mm" and self.opened.counted):
            unit = "cm"  # the keys with a point
        typed = "" if share else self.opened.typed.lstrip("-")
        self._show_keys(keypad_of(typed, unit, unit, sixteenths=fine))

    def press(self, key: str) -> None:
        """Take a key of the keypad; nothing is kept yet."""
        if self.keys is None:
            self.type()
        if self.keys is not None:
            self._show_keys(self.keys.press(key))

    def done(self) -> None:
        """Keep what was typed."""
        self._settle()

    def _show_keys(self, keys: Keypad) -> None:
        shown = keys.shown or "0"
        self.keys, self.typed_words = keys, f"{shown} %" if self._share else shown
        self._put(self._as_typed(keys) or self._shown)

    def _as_typed(self, keys: Keypad) -> WidthsShown | None:
        """Return the draft as it would be with what is typed so far; nothing is kept of it."""
        typed = self._typed(keys)
        if typed is None:
            return None
        document = self.room.document
        garments = [garment for garment in entries(document, "garments")
                    if garment.get("id") == self.chosen.garment]  # fmt: skip
        copy = {**document, "garments": deepcopy(garments)}
        try:
            put_number(copy, self.chosen, typed)
            on = on_the_table(read_document(copy), self.chosen, self.room.now().date())
        except WorkroomError:  # half a number may be none
            return None
        return replace(show_widths(on), opened=self.opened)

    def _choose(self, chosen: Drafting) -> None:
        if self._settle():
            self.room.choose(chosen)

    def _change(self, edit: Any) -> None:
        if self._settle():
            self.room.change(edit)

    def _settle(self) -> bool:
        """Keep what is typed on the keypad; tell whether that went well."""
        keys, self.keys, self.typed_words = self.keys, None, ""
        typed = None if keys is None else self._typed(keys)
        if typed is None:
            if keys is not None:
                self._put(self._shown)
            return True
        kept = self.room.change(lambda document: put_number(document, self.chosen, typed))
        if not kept:
            self._put(self._shown)
        return kept

    def _typed(self, keys: Keypad) -> str | None:
        """Return what was typed for the open number, or nothing where that is what it was."""
        if self.opened is None or keys.is_empty:
            return None
        before, typed = self.opened.typed, keys.as_typed + "%" * self._share
        if typed == before.lstrip("-"):
            return None
        return turned(typed) if before.startswith("-") else typed
