"""The draft of a garment, in ready-to-show words, and what is done to it."""

from dataclasses import dataclass, fields, replace
from typing import Any
from uuid import uuid4

from kivy.properties import ListProperty, ObjectProperty, StringProperty

from core.draft_again import work_out_again
from core.draft_edits import clear_width
from core.draft_parts import work_out_radius
from core.draft_start import begin_empty, begin_from_earlier, begin_from_kind
from core.errors import NotFound
from core.fitting_file import FittingFile
from core.keypad import Keypad, keypad_of
from core.tape_order import Number
from screens.door import Document
from screens.parts.draft_at import on_the_table
from screens.parts.draft_begin import StartShown, show_start
from screens.parts.draft_chosen import Drafting, Opened, chosen_of
from screens.parts.draft_hand import put_number, step_number, turned
from screens.parts.draft_shown import WidthsShown, show_widths
from screens.tape_page import Chosen as OnTheTape
from screens.workroom import View


VERBS = (
    ("again", "Work out the draft", False),
    ("more", "Details", False),
    ("start", "Start from…", False),
    ("sheet", "Cutting sheet", True),
)
"""What can be done with the draft as a whole; the last one leads on."""


@dataclass(frozen=True, slots=True)
class DraftShown:
    """What the screen shows: one garment, or what a new one can be begun from."""

    widths: WidthsShown
    start: StartShown


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

    # -- what is shown --------------------------------------------------------

    def work_out(self, file: FittingFile | None, chosen: Drafting | str | None) -> DraftShown:
        if file is None:
            raise NotFound("There is no client on the table")
        now = chosen_of(chosen)
        start = show_start(file, now) if now.page == "start" else StartShown()
        if not now.garment:
            return DraftShown(WidthsShown(now, file.client.name, "A new garment"), start)
        on = on_the_table(file, now, self.room.now().date())
        return DraftShown(show_widths(on), start)

    def lay_out(self, shown: DraftShown, chosen: Drafting | str | None) -> None:
        self.chosen = shown.widths.chosen
        self.page = self.chosen.page
        self.keys, self.typed_words = None, ""
        self.start = shown.start
        self.verbs = VERBS
        self._put(shown.widths)

    def put_away(self) -> None:
        super().put_away()
        self.keys, self.typed_words, self.page, self.said = None, "", "", ""
        self.start = StartShown()
        self._put(WidthsShown(Drafting()))

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

    def _put(self, shown: WidthsShown) -> None:
        for each in fields(shown):
            if each.name != "chosen":
                setattr(self, each.name, getattr(shown, each.name))

    # -- what is looked at ----------------------------------------------------

    def open(self, opened: Opened) -> None:
        """Open a number with its sum; one of the tape leads there."""
        if opened.what == "tape":
            self.measure(opened.of)
        elif opened == self.chosen.opened and self.keys is None:
            self._choose(self.chosen.open(Opened()))
        else:
            self._choose(self.chosen.open(opened))

    def open_width(self, piece: str, level: str) -> None:
        """Open a width that was touched on its piece."""
        self.open(Opened("width", piece, level))

    def open_dart(self, dart: str) -> None:
        """Open a dart that was touched on its piece: what it takes up where it takes up most."""
        level = _deepest(self.room.document, self.chosen, dart)
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

    def measure(self, measurement: str = "") -> None:
        """Go to the tape to take a measurement, or everything that is missing."""
        if self._settle():
            kind = _kind_of(self.room.document, self.chosen)
            number = Number(measurement) if measurement else None
            self.room.go("tape", OnTheTape(kinds=(kind,) if kind else (), number=number))

    # -- a garment is begun ---------------------------------------------------

    def begin(self, kind: str) -> None:
        """Begin a garment of a kind, worked out from her tape."""
        self._begin(lambda document, id: begin_from_kind(document, kind, id=id).said)

    def begin_like(self, garment: str) -> None:
        """Begin with a copy of an earlier garment of hers."""
        self._begin(lambda document, id: begin_from_earlier(document, garment, id=id).said)

    def begin_empty(self) -> None:
        self._begin(lambda document, id: begin_empty(document, id=id, name="New garment").said)

    def _begin(self, begin: Any) -> None:
        id, said = str(uuid4()), []
        if self.room.change(lambda document: said.extend(begin(document, id)), Drafting(id)):
            self.said = " ".join(said)

    def work_out_again(self) -> None:
        """Work the draft out from her tape of now; what she set by hand stays."""
        self._change(lambda document: work_out_again(document, garment=self.chosen.garment))

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
            self._show_keys(keypad_of(self.opened.typed.lstrip("-"), unit, unit, sixteenths=True))

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

    def _choose(self, chosen: Drafting) -> None:
        if self._settle():
            self.room.choose(chosen)

    def _change(self, edit: Any) -> None:
        if self._settle():
            self.room.change(edit)

    def _settle(self) -> bool:
        """Keep what is typed on the keypad; tell whether that went well."""
        keys, self.keys, self.typed_words = self.keys, None, ""
        if keys is None or self.opened is None or keys.is_empty:
            return True
        typed = keys.as_typed
        if typed == self.opened.typed.lstrip("-"):
            return True
        typed = turned(typed) if self.opened.typed.startswith("-") else typed
        return self.room.change(lambda document: put_number(document, self.chosen, typed))


def _kind_of(document: Document, chosen: Drafting) -> str:
    return next((str(garment.get("kind", "")) for garment in document.get("garments") or []
                 if garment.get("id") == chosen.garment), "")  # fmt: skip


def _deepest(document: Document, chosen: Drafting, dart: str) -> str:
    """Return the level where a dart takes up most."""
    from core.draft_document import find, find_dart, garment_in, unit_of
    from core.lengths import read_length
    from core.width_shift import sides_of

    layer = find(garment_in(document, chosen.garment), "layers", chosen.layer)
    *_, entry = find_dart(layer, dart)
    unit = unit_of(document)
    taken = {level: max(read_length(one, unit).mm for one in sides_of(typed))
             for level, typed in (entry.get("take_up") or {}).items()}  # fmt: skip
    return max(taken, key=lambda level: taken[level], default="")
