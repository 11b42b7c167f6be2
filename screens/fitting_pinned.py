"""What is done to pins: placed by a touch, put on a side, read off, taken out."""

from collections.abc import Callable, Iterable
from dataclasses import replace
from typing import Any

from core.fit.amounts import give_edges_apart, set_amount, set_edge, step_amount, turn_kind
from core.fit.pinning import (
    Where,
    at_a_level,
    pinned_at,
    place_pin,
    remove_pin,
    set_note,
    set_through,
    split_sides,
    take_side,
)
from core.fit.reading_off import edges_of, next_unread, order
from core.fit.written import CannotLog
from core.lengths import write_length
from core.records.fitting import LoggedSide, Pin
from screens.door import Document
from screens.fitting_layer import THROUGH, into_of, next_into
from screens.fitting_page import Bench, Chosen
from screens.fitting_read import amount_typed, edge_in_hand, edge_kind, read_kind
from screens.fitting_said import last_pin, pin_to_read
from screens.shown import Chosen as AtChanges
from screens.workroom import Workroom

Part = dict[str, Any]


class PinVerbs:
    """The verbs of pinning and reading off; ``bench`` is what is shown."""

    room: Workroom
    chosen: Chosen
    bench: Bench

    def log(self, edit: Callable[[Part], Any], **chosen: Any) -> bool:
        """Change the open fitting; ``chosen`` is what is chosen after."""
        at = self.bench.at

        def edited(document: Document) -> None:
            edit(at.fitting_in(document))

        return self.room.change(edited, replace(self.chosen, keys=None, **chosen))

    def choose(self, **chosen: Any) -> None:
        self.room.choose(replace(self.chosen, **chosen))

    # -- placing --------------------------------------------------------------

    def place(self, spots: Iterable[Any], *, both: bool = False, opened: bool = False) -> None:
        """Place a pin where she touched; of two close seams their names are to be picked from."""
        near = tuple(spots)
        if not self._settle_names(near):
            return
        if not near:
            self.room.say(CannotLog(
                "There is no seam or dart here. A fold off a seam is under Marks: Fold"
            ))  # fmt: skip
        elif len(near) > 1:
            self.choose(between=near, wanting_both=both, opened=opened, keys=None)
        else:
            self.place_at(near[0].where, "both" if both else near[0].side, opened=opened)

    def _settle_names(self, near: tuple[Any, ...]) -> bool:
        """Take the nearest of two names she passed over: touched elsewhere, no pin is lost."""
        open_names = [(spot.where, spot.side) for spot in self.chosen.between]
        if not near or (near[0].where, near[0].side) not in open_names:
            return self.settle()
        return True

    def settle(self) -> bool:
        """Where two names are still open, the pin is the nearest one's: no pin is lost."""
        if self.chosen is not None and self.chosen.between:
            self.pick_name("0")
        return self.chosen is None or not self.chosen.between

    def pick_name(self, at: str) -> None:
        """Take one of the names of two close seams."""
        spot = self.chosen.between[int(at)]
        side: LoggedSide = "both" if self.chosen.wanting_both else spot.side
        self.place_at(spot.where, side, opened=self.chosen.opened)

    def place_at(self, where: Where, side: LoggedSide, *, opened: bool = False) -> None:
        """Place a pin; one that is there already is taken in hand, by a swipe on both sides."""
        bench = self.bench
        own = at_a_level(bench.garment, where)
        found = pinned_at(bench.fitting, bench.garment, own, side)
        after: dict[str, Any] = {"between": (), "opened": opened, "kind": "", "edge": ""}
        if found is None:
            into = into_of(bench)
            self.log(lambda fitting: place_pin(fitting, bench.garment, bench.unit, own, side,
                                               through=into == THROUGH),
                     pin=len(bench.fitting.pins), into=into, **after)  # fmt: skip
        elif side == "both" and bench.fitting.pins[found].side != "both":
            self._take_both(found, after)
        else:
            self.choose(pin=found, keys=None, **after)

    def _take_both(self, index: int, after: dict[str, Any]) -> None:
        bench, gone = self.bench, self._twins_before(index)
        self.log(lambda fitting: take_side(fitting, bench.garment, bench.unit, index, "both"),
                 pin=index - gone, **after)  # fmt: skip

    def _twins_before(self, index: int) -> int:
        """Return how many pins before this one a pin for both stands for too."""
        pins = self.bench.fitting.pins
        one = pins[index]
        return sum(
            (pin.layer, pin.what, pin.place, pin.level, pin.down)
            == (one.layer, one.what, one.place, one.level, one.down)
            for pin in pins[:index]
        )

    def take_side(self, side: LoggedSide) -> None:
        """Put the pin in hand on a side, or on both alike."""
        index = self._index()
        if side == "both":
            self._take_both(index, {})
        else:
            bench = self.bench
            self.log(lambda fitting: take_side(fitting, bench.garment, bench.unit, index, side),
                     pin=index)  # fmt: skip

    def pin_verb(self, verb: str) -> None:
        """Do what a key beside the pin says."""
        if verb == "pieces":
            self.choose(pieces=not self.chosen.pieces, between=())
        elif verb == "amount":
            self.choose(opened=not self.chosen.opened, pin=self._index(), keys=None)
        elif verb == "remove":
            self.remove_pin()
        elif verb == "through":
            index, through = self._index(), not self._pin().through
            into = THROUGH if through else self._pin().layer
            self.log(lambda fitting: set_through(fitting, index, through), pin=index, into=into)
        elif verb == "apart":
            self.give_edges_apart()
        elif verb == "split":
            self.split_sides()
        elif verb == "layer":
            self.choose(into=next_into(self.bench), between=())
        elif verb == "note":
            self.choose(noting=not self.chosen.noting, pin=self._index())

    def read_verb(self, verb: str) -> None:
        """Do what a key under the pin in hand says: ``side left``, ``kind gap``, ``apart``."""
        what, _, key = verb.partition(" ")
        does: dict[str, Callable[[str], None]] = {
            "side": self.take_side,  # type: ignore[dict-item]
            "kind": self.choose_kind,
            "edge": self.choose_edge,
        }
        if key:
            does[what](key)
        else:
            self.pin_verb(verb)

    def split_sides(self) -> None:
        """Make two pins of one for both sides, so that her left and her right may differ."""
        index, bench = self._index(), self.bench
        self.log(lambda fitting: split_sides(fitting, bench.garment, bench.unit, index), pin=index)

    def note_pin(self, note: str) -> None:
        """Write down what is to be said of the pin in hand, at every sign."""
        index = self._index()
        if note.strip() != self.bench.fitting.pins[index].note:
            self.log(lambda fitting: set_note(fitting, index, note), pin=index)

    def remove_pin(self) -> None:
        """Take the pin in hand out; undo puts it back."""
        index, left = self._index(), len(self.bench.fitting.pins) - 1
        after = min(index, left - 1) if left and self.bench.chosen.moment == "read" else None
        self.log(lambda fitting: remove_pin(fitting, index), pin=after, opened=False)

    # -- reading off ----------------------------------------------------------

    def choose_kind(self, kind: str) -> None:
        """Make a pinch of it or a gap; a dart is pinched or released."""
        index, pin, bench = self._index(), self._pin(), self.bench
        edge = edge_in_hand(bench, pin)
        if edge:
            move = (pin.edges or {}).get(edge, 0.0)
            typed = write_length(abs(move), bench.unit, fine=True)
            self.log(lambda fitting: set_edge(fitting, bench.garment, bench.unit, index, edge,
                                              typed, kind),  # type: ignore[arg-type]
                     pin=index, kind=kind)  # fmt: skip
        elif pin.read:
            self.log(lambda fitting: turn_kind(fitting, bench.garment, bench.unit, index, kind),
                     pin=index, kind=kind)  # fmt: skip
        else:
            self.choose(kind=kind, pin=index, keys=None)

    def choose_edge(self, piece: str) -> None:
        self.choose(edge=piece, keys=None)

    def give_edges_apart(self) -> None:
        """Give the two edges apart, beginning alike; or as one again."""
        index, pin, bench = self._index(), self._pin(), self.bench
        pieces = edges_of(bench.garment, pin) or ("", "")
        self.log(lambda fitting: give_edges_apart(fitting, bench.garment, bench.unit, index, pin,
                                                  pieces), pin=index)  # fmt: skip

    def step_pin(self, steps: int) -> None:
        """Make the pin in hand deeper or shallower by a step of the garment."""
        index, pin, bench = self._index(), self._pin(), self.bench
        edge, kind = edge_in_hand(bench, pin), self._kind(pin)
        self.log(lambda fitting: step_amount(fitting, bench.garment, bench.unit, index, pin, steps,
                                             kind=kind, piece=edge), pin=index)  # fmt: skip

    def write_amount(self, keys: Any) -> None:
        """Write down what the keys show for the pin in hand."""
        index, pin, bench = self._index(), self._pin(), self.bench
        edge, kind, typed = edge_in_hand(bench, pin), self._kind(pin), keys.as_typed
        now = replace(self.chosen, keys=keys, pin=index)

        def write(document: Document) -> None:
            fitting = bench.at.fitting_in(document)
            if edge:
                set_edge(fitting, bench.garment, bench.unit, index, edge, typed, kind)
            elif typed != amount_typed(bench, index):
                set_amount(fitting, bench.garment, bench.unit, index, typed, kind)

        self.room.change(write, now)

    def next_pin(self) -> None:
        """Go on to the next pin that is not read; while pinning close its amount."""
        if self.bench.chosen.moment == "pin":
            self.choose(opened=False, keys=None)
            return
        unread = next_unread(self.bench.garment, self.bench.fitting, self._index())
        index = self._index() if unread is None else unread
        self.choose(pin=index, keys=None, kind="", edge="", noting=False)

    def turn_pin(self, by: int) -> None:
        """Go to the pin before or after in the order of the seams."""
        in_order = order(self.bench.garment, self.bench.fitting)
        at = in_order.index(self._index()) + by
        if 0 <= at < len(in_order):
            self.choose(pin=in_order[at], keys=None, kind="", edge="", noting=False)

    def to_changes(self) -> None:
        """Go to the alteration list of this fitting."""
        at = self.bench.at
        self.room.go("changes", AtChanges(garment=at.garment, fitting=at.fitting))

    # -- how ------------------------------------------------------------------

    def _index(self) -> int:
        reads = self.bench.chosen.moment == "read"
        index = pin_to_read(self.bench) if reads else last_pin(self.bench)
        if index is None:
            raise_nothing()
        return index  # type: ignore[return-value]

    def _pin(self) -> Pin:
        return self.bench.fitting.pins[self._index()]

    def _kind(self, pin: Pin) -> Any:
        edge = edge_in_hand(self.bench, pin)
        return edge_kind(self.bench, pin, edge) if edge else read_kind(self.bench, pin)


def raise_nothing() -> None:
    raise CannotLog("There is no pin yet: touch a seam first")
