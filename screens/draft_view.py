"""The draft of a garment, in ready-to-show words, and what is done to it."""

from collections.abc import Callable
from dataclasses import replace
from functools import partial
from uuid import uuid4

from core.body.tape_order import Number
from core.client.facts import entries
from core.draft.again import work_out_afresh, work_out_again
from core.draft.edits import clear_width
from core.draft.parts import work_out_radius
from core.draft.start import Begun, begin_from_other
from screens.door import Document
from screens.parts.draft_begin import StartRow, begin_from
from screens.parts.draft_build import build
from screens.parts.draft_chosen import Drafting, Opened
from screens.parts.draft_desk import DraftDesk
from screens.parts.draft_details import DO
from screens.parts.draft_hand import (
    deepest,
    give_name,
    one_side,
    put_number,
    step_number,
    turned,
)
from screens.parts.draft_own import her_defaults, keep_kind, own_kinds
from screens.tape_chosen import Chosen as OnTheTape
from screens.view import Seen


class DraftView(DraftDesk):
    """One garment's draft; ``chosen`` is a ``Drafting`` (or a garment's id, or nothing: begin)."""

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
        kinds, said = own_kinds(self.room), []

        def put(other: Document) -> None:
            said.extend(
                begin_from_other(other, document, garment, id=id, own_kinds=kinds).said
            )

        copied = self.room.change_late(seen, put)
        if copied and self.room.open_client(client_id, self.name, Drafting(id)):
            self.said = " ".join(said)

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

    def use(self, key: str) -> None:
        """Do what one of the open number's own keys says."""
        what, _, more = key.partition(":")
        opened = self.chosen.opened
        if what in ("which", "level", "layer"):
            name = {"which": "which", "level": "level", "layer": "of"}[what]
            self._choose(self.chosen.open(replace(opened, **{name: more})))
        elif what == "share":
            self.type(share=True)
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


def _kind_of(document: Document, chosen: Drafting) -> str:
    return next((str(garment.get("kind", "")) for garment in entries(document, "garments")
                 if garment.get("id") == chosen.garment), "")  # fmt: skip
