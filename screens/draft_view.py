"""The draft of a garment, in ready-to-show words, and what is done to it."""

from collections.abc import Callable
from copy import deepcopy
from dataclasses import dataclass, fields, replace
from functools import partial
from typing import Any
from uuid import uuid4

from kivy.properties import ListProperty, ObjectProperty, StringProperty

from core.draft_again import work_out_afresh, work_out_again
from core.draft_edits import clear_width
from core.draft_parts import work_out_radius
from core.draft_start import Begun, begin_from_other
from core.errors import NotFound, WorkroomError
from core.fitting_file import FittingFile, read_document
from core.keypad import Keypad, keypad_of
from core.tape_order import Number
from screens.door import Document
from screens.parts.draft_at import on_the_table
from screens.parts.draft_begin import StartRow, StartShown, begin_from, show_clients, show_start
from screens.parts.draft_build import build
from screens.parts.draft_chosen import Drafting, Opened, chosen_of
from screens.parts.draft_details import DO, DetailRow, details
from screens.parts.draft_hand import (
    deepest,
    give_name,
    one_side,
    put_number,
    step_number,
    turned,
)
from screens.parts.draft_own import her_defaults, keep_kind, own_kinds
from screens.parts.draft_rows import SheetRow
from screens.parts.draft_sheet import cutting_sheet
from screens.parts.draft_shown import WidthsShown, show_widths
from screens.tape_page import Chosen as OnTheTape
from screens.workroom import Seen, View

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


class DraftView(View):
    """One garment's draft; ``chosen`` is a ``Drafting`` (or a garment's id, or nothing: begin).

    ``keys`` is the keypad while a number is typed, ``typed_words`` what it shows; nothing of it
    is kept until she is done, touches another number or leaves.
    """

    name = "draft"

    page = StringProperty("")
    title_line = StringProperty("")
    title = StringProperty("")
    layers = ListProperty()
    rings = ListProperty()
    columns = ListProperty()
    rows = ListProperty()
    opened = ObjectProperty(None, allownone=True)
    drawn = ListProperty()
    drawn_note = StringProperty("")
    lit = ObjectProperty(("", ""))
    lit_dart = StringProperty("")
    headline = ObjectProperty(None, allownone=True)
    checks = ListProperty()
    empty = StringProperty("")
    keys = ObjectProperty(None, allownone=True)
    typed_words = StringProperty("")
    start = ObjectProperty(StartShown())
    said = StringProperty("")
    verbs = ListProperty()
    details = ListProperty()
    sheet = ListProperty()

    def __init__(self, room: Any, **kwargs: Any) -> None:
        super().__init__(room, **kwargs)
        self._shown = WidthsShown(Drafting())

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
        self.page = self.chosen.page
        self.verbs = VERBS.get(self.page, ())

    def put_away(self) -> None:
        super().put_away()
        self.keys, self.typed_words, self.page, self.said = None, "", "", ""
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

    # -- what is looked at ----------------------------------------------------

    def open(self, opened: Opened) -> None:
        """Open a number with its sum; one of the tape leads there, a verb is done."""
        if opened.what == "tape":
            self.measure(opened.of)
        elif opened.what == DO:
            self.build(opened.of)
        elif opened == self.chosen.opened and self.keys is None:
            self._choose(self.chosen.open(Opened()))
        else:
            at = one_side(self.room.document, self.chosen, opened)
            self._choose(self.chosen.open(at))

    def open_width(self, piece: str, level: str) -> None:
        """Open a width that was touched on its piece; ``front:left`` is a piece's left."""
        name, _, side = piece.partition(":")
        self.open(Opened("width", name, level, side))

    def open_dart(self, dart: str) -> None:
        """Open a dart that was touched on its piece: what it takes up where it takes up most."""
        level = deepest(self.room.document, self.chosen, dart)
        self.open(Opened("take up", dart, level))

    def show_layer(self, layer: str) -> None:
        self._choose(replace(self.chosen, layer=layer, ring="", opened=Opened()))

    def show_ring(self, ring: str) -> None:
        self._choose(replace(self.chosen, ring=ring, opened=Opened()))

    def turn_to(self, page: str) -> None:
        self._choose(self.chosen.turn(page))

    def do(self, verb: str) -> None:
        """Do what one of the keys under the draft says."""
        if verb == "again":
            self.work_out_again()
        else:
            self.turn_to(verb)

    def measure(self, measurement: str = "", kind: str = "") -> None:
        """Go to the tape to take a measurement, with what the kind of garment needs."""
        if self._settle():
            kind = kind or _kind_of(self.room.document, self.chosen)
            number = Number(measurement) if measurement else None
            self.room.go("tape", OnTheTape(kinds=(kind,) if kind else (), number=number))

    # -- a garment is begun ---------------------------------------------------

    def start_from(self, row: StartRow) -> None:
        """Begin a garment from what was touched, or copy this one to a client."""
        if row.what == "clients":
            self._choose(replace(self.chosen, page="clients", opened=Opened()))
        elif row.what == "to client":
            self._copy_to(row.id)
        elif row.what == "client":
            self._choose(replace(self.chosen, page="clients", opened=Opened("client", row.id)))
        else:
            self._begin(partial(begin_from, self.room, row))

    def _begin(self, begin: Callable[[Document, str], Begun]) -> None:
        id, said = str(uuid4()), []
        if self.room.change(lambda document: said.extend(begin(document, id).said), Drafting(id)):
            self.said = " ".join(said)

    def _copy_to(self, client_id: str) -> None:
        """Put a copy of this garment into another client's file and show it there."""
        id, garment, document = str(uuid4()), self.chosen.garment, self.room.document
        seen = Seen(self.name, Drafting(id), client_id)
        kinds = own_kinds(self.room)

        def put(other: Document) -> None:
            begin_from_other(other, document, garment, id=id, own_kinds=kinds)

        if self.room.change_late(seen, put):
            self.room.open_client(client_id, self.name, Drafting(id))

    def work_out_again(self) -> None:
        """Work the draft out from her tape of now; what she set by hand stays."""
        kinds = own_kinds(self.room)
        self._change(lambda document: work_out_again(document, garment=self.chosen.garment,
                                                     own_kinds=kinds))  # fmt: skip

    def work_out_afresh(self) -> None:
        """Work the draft out as if for the first time."""
        kinds, defaults = own_kinds(self.room), her_defaults(self.room)
        self._change(lambda document: work_out_afresh(
            document, garment=self.chosen.garment, own_kinds=kinds, defaults=defaults))  # fmt: skip

    # -- its parts ------------------------------------------------------------

    def build(self, verb: str) -> None:
        """Do what a key of the details says: add a part, take one away, and open what is new."""
        if verb == "clients":
            self._choose(replace(self.chosen, page="clients", opened=Opened()))
        elif verb == "afresh":
            self.work_out_afresh()
        elif verb == "own":
            self.keep_as_own_kind()
        elif self._settle():
            self._build(verb)

    def _build(self, verb: str) -> None:
        """Add or take away; what is new lies open after, by its number or its name."""
        kinds, new = own_kinds(self.room), [Opened()]

        def edit(document: Document) -> None:
            new[0] = build(document, self.chosen, verb, kinds)

        if self.room.change(edit) and new[0].what:
            self.room.choose(self.chosen.open(new[0]))

    def rename(self, name: str) -> None:
        """Call the part that lies open by her own word."""
        chosen = self.chosen.open(Opened())
        self.room.change(lambda document: give_name(document, self.chosen, name), chosen)

    def keep_as_own_kind(self) -> None:
        """Keep this garment as a kind of hers, to begin others from."""
        self.room.attempt(self._keep_as_own_kind)

    def _keep_as_own_kind(self) -> None:
        label = keep_kind(self.room, self.chosen.garment)
        if not self.room.trouble:
            self.said = f"{label} is one of your own kinds now: begin others from it."

    # -- the number that lies open --------------------------------------------

    def step(self, steps: int) -> None:
        """Make the open number more or less by whole steps of the garment."""
        if self.keys is not None:
            self.done()
        opened = self.opened
        self._change(lambda document: step_number(document, self.chosen, opened.typed, steps))

    def type(self) -> None:
        """Open the keypad on the open number."""
        if self.opened is not None:
            unit = self.room.document.get("unit", "in")
            fine = self.room.settings.sixteenths
            self._show_keys(keypad_of(self.opened.typed.lstrip("-"), unit, unit, sixteenths=fine))

    def press(self, key: str) -> None:
        """Take a key of the keypad; nothing is kept yet."""
        if self.keys is None:
            self.type()
        if self.keys is not None:
            self._show_keys(self.keys.press(key))

    def done(self) -> None:
        """Keep what was typed."""
        self._settle()

    def use(self, key: str) -> None:
        """Do what one of the open number's own keys says."""
        what, _, more = key.partition(":")
        opened = self.chosen.opened
        if what in ("which", "level", "layer"):
            name = {"which": "which", "level": "level", "layer": "of"}[what]
            self._choose(self.chosen.open(replace(opened, **{name: more})))
        else:
            self._change(lambda document: self._use(document, what, more))

    def _use(self, document: Document, what: str, more: str) -> None:
        chosen, opened = self.chosen, self.chosen.opened
        if what == "set":
            put_number(document, chosen, more)
        elif what == "turn":
            put_number(document, chosen, turned(self.opened.typed))
        elif what == "clear":
            clear_width(document, garment=chosen.garment, layer=chosen.layer, piece=opened.of,
                        level=opened.level)  # fmt: skip
        elif what == "radius":
            work_out_radius(document, garment=chosen.garment, part=opened.of)

    # -- how ------------------------------------------------------------------

    def _show_keys(self, keys: Keypad) -> None:
        self.keys, self.typed_words = keys, keys.shown or "0"
        self._put(self._as_typed(keys) or self._shown)

    def _as_typed(self, keys: Keypad) -> WidthsShown | None:
        """Return the draft as it would be with what is typed so far; nothing is kept of it."""
        typed = self._typed(keys)
        if typed is None:
            return None
        document = self.room.document
        garments = [garment for garment in document["garments"]
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
        before, typed = self.opened.typed, keys.as_typed
        if typed == before.lstrip("-"):
            return None
        return turned(typed) if before.startswith("-") else typed


def _kind_of(document: Document, chosen: Drafting) -> str:
    return next((str(garment.get("kind", "")) for garment in document.get("garments") or []
                 if garment.get("id") == chosen.garment), "")  # fmt: skip
