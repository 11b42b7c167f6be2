"""What is logged around the pins: what she wears, girths, marks, tucks, movements, the hem."""

from collections.abc import Callable, Iterable
from dataclasses import replace
from typing import Any

from core.body.keypad import Keypad
from core.fit.beginning import (
    STAGES,
    set_foundation,
    set_heel,
    set_inside_out,
    set_notes,
    set_stage,
)
from core.fit.girths import girths_to_tape, set_girth
from core.fit.hemming import (
    is_train,
    next_point,
    set_floor,
    set_heel_of_the_day,
    set_holds,
    set_train,
    set_wanted,
)
from core.fit.marks import add_mark, remove_mark, set_direction, set_mark_note
from core.fit.moving import add_pull, tick
from core.fit.moving import done as moved
from core.fit.pinning import Where
from core.fit.tucks import PLACES, set_into, set_tuck
from core.fit.written import CannotLog, garment_in
from core.records.fitting import LoggedSide
from screens.door import Document
from screens.fitting_before import girth_key
from screens.fitting_hem import NUMBERS, hem_field
from screens.fitting_marks import tuck_level
from screens.fitting_pinned import PinVerbs

Part = dict[str, Any]


class LogVerbs(PinVerbs):
    """The verbs of every moment but the pins' own."""

    # -- before ---------------------------------------------------------------

    def set_stage(self, stage: str) -> None:
        """Say which stage it is; the same again: none."""
        now = "" if self.bench.fitting.stage == stage else stage
        self.log(lambda fitting: set_stage(fitting, now))

    def say_stage(self, words: str) -> None:
        """Say which stage it is in a word of her own, at every sign."""
        if words.strip() or self.bench.fitting.stage not in STAGES:
            self.log(lambda fitting: set_stage(fitting, words))

    def worn_verb(self, verb: str) -> None:
        """Turn it inside out, or put the keys on the heel."""
        if verb == "heel":
            self.put_keys_on("heel")
            return
        inside_out = not self.bench.fitting.inside_out
        self.log(lambda fitting: set_inside_out(fitting, inside_out))

    def wear(self, foundation: str) -> None:
        """Write down the foundation she wears, at every sign."""
        if foundation.strip() != self.bench.fitting.foundation:
            self.log(lambda fitting: set_foundation(fitting, foundation))

    def put_keys_on(self, field: str) -> None:
        """Let the number keys write this; touched again, nothing."""
        now = "" if self.chosen.field == field else field
        self.choose(field=now, keys=None)

    def set_notes(self, notes: str) -> None:
        if notes != (self.bench.written.get("notes") or ""):
            self.log(lambda fitting: set_notes(fitting, notes))

    # -- marks ----------------------------------------------------------------

    def take_mark(self, what: str) -> None:
        """Take a mark in hand: the next touch on her makes it; touched again, none."""
        now = "" if self.chosen.mark == what else what
        self.choose(mark=now, marked=None, meaning=False, keys=None, tuck_place="")

    def mark_at(self, spots: Iterable[Any], piece: Any) -> None:
        """Mark where she touched with what is in hand; a fold is a pin of its own."""
        what, place = self.chosen.mark, self._place(spots, piece)
        if not what or what == "tuck":
            self.room.say(CannotLog("Touch what it is first: a fold, tight, the shoulder"))
        elif place is None:
            self.room.say(CannotLog("Touch the garment itself: nothing of it is here"))
        elif what == "fold":
            self._fold(piece)
        else:
            where, side = place
            marks = self.bench.written.get("marks") or []
            self.log(lambda fitting: add_mark(fitting, self.bench.unit, what, where, side),
                     marked=len(marks), meaning=False)  # fmt: skip

    def _fold(self, piece: Any) -> None:
        if piece is None:
            self.room.say(CannotLog("A fold lies on a piece: touch the cloth beside the seam"))
        else:
            self.place_at(piece.where, piece.side)

    def _place(self, spots: Iterable[Any], piece: Any) -> tuple[Where, LoggedSide] | None:
        """Return what a mark is on: the cloth where it can be told, else the nearest seam."""
        on_seam = next(iter(spots), None)
        spot = piece if piece is not None and self.chosen.mark != "clip" else on_seam or piece
        return None if spot is None else (spot.where, spot.side)

    def take_marked(self, index: int) -> None:
        self.choose(marked=None if self.chosen.marked == index else index, meaning=False)

    def note_mark(self, note: str) -> None:
        index = self.chosen.marked
        if index is not None:
            self.log(lambda fitting: set_mark_note(fitting, index, note))

    def remove_mark(self) -> None:
        index = self.chosen.marked
        if index is not None:
            self.log(lambda fitting: remove_mark(fitting, index), marked=None)

    def turn_drag(self, direction: str) -> None:
        """Say which way the drag line runs."""
        index = self.chosen.marked
        if index is not None:
            self.log(lambda fitting: set_direction(fitting, index, direction), meaning=False)

    def ask_meaning(self) -> None:
        """Show what a drag line usually means: only because she asks."""
        self.choose(meaning=True)

    # -- tucks ----------------------------------------------------------------

    def take_tuck_level(self, level: str) -> None:
        self.choose(tuck_level=level, tuck_place="", keys=None)

    def take_tuck_place(self, place: str) -> None:
        self.choose(tuck_place=place, keys=None)

    def put_tuck_into(self, into: str) -> None:
        level = tuck_level(self.bench)
        self.log(lambda fitting: set_into(fitting, level, into))

    # -- movements ------------------------------------------------------------

    def move(self, what: str) -> None:
        """Tick what she did and take it in hand; in hand already, take the tick back."""
        ticked = what in moved(self.bench.written)
        if ticked and self.chosen.movement != what:
            self.choose(movement=what)
        else:
            self.log(lambda fitting: tick(fitting, what, not ticked),
                     movement="" if ticked else what)  # fmt: skip

    def pull_at(self, spots: Iterable[Any], piece: Any) -> None:
        """Say where it pulled while she did what is in hand."""
        what = self.chosen.movement
        spot = next(iter(spots), None) or piece
        if not what:
            self.room.say(CannotLog("Touch what she does first: sit, walk, arms up"))
        elif spot is not None:
            self.log(lambda fitting: add_pull(fitting, self.bench.unit, what, spot.where,
                                              spot.side))  # fmt: skip

    # -- hem ------------------------------------------------------------------

    def take_point(self, key: str) -> None:
        """Put the keys on a point of the hem, or on a number that counts for all of them."""
        self.choose(field=key, keys=None)

    def skip_train(self) -> None:
        """Say that the point in hand lies on the train, and go on to the next."""
        point, bench = hem_field(self.bench), self.bench
        train = not is_train(bench.written, point)
        self.log(lambda fitting: set_train(fitting, bench.unit, point, train),
                 field=self._point_after(point) if train else point)  # fmt: skip

    def next_field(self) -> None:
        """Go on: to the next point, the next girth, the next place of a tuck."""
        moment, field = self.bench.chosen.moment, self.chosen.field
        if moment == "hem":
            self.choose(field=self._point_after(hem_field(self.bench)), keys=None)
        elif moment == "marks":
            self._next_tuck_place()
        else:
            girths = [girth_key(girth) for girth in self._girths()]
            at = girths.index(field) + 1 if field in girths else len(girths)
            self.choose(field=girths[at] if at < len(girths) else "", keys=None)

    def _next_tuck_place(self) -> None:
        places = list(PLACES)
        at = places.index(self.chosen.tuck_place) + 1
        self.choose(tuck_place=places[at] if at < len(places) else "", keys=None)

    def _point_after(self, point: str) -> str:
        bench = self.bench
        following = next_point(bench.written, bench.unit, "" if point in NUMBERS else point)
        return "" if following in (None, point) else str(following)

    # -- the number keys --------------------------------------------------------

    def write_field(self, keys: Keypad) -> None:
        """Write down what the keys show where they are; a point of the hem steps on by itself."""
        moment, chosen = self.bench.chosen.moment, self.chosen
        edit = {"hem": self._write_hem, "marks": self._write_tuck}.get(moment, self._write_before)
        now = replace(chosen, keys=keys)
        if moment == "hem":
            point = hem_field(self.bench)
            now = replace(now, field=point)
            if keys.closed and point not in NUMBERS:
                now = replace(now, field=self._point_after(point), keys=None)
        self.room.change(edit(keys.as_typed), now)

    def _write_before(self, typed: str) -> Callable[[Document], None]:
        bench, field = self.bench, self.chosen.field

        def write(document: Document) -> None:
            fitting = bench.at.fitting_in(document)
            if field == "heel":
                set_heel(document, fitting, typed)
            for girth in self._girths():
                if girth_key(girth) == field:
                    set_girth(fitting, bench.unit, layer=girth.layer, ring=girth.ring,
                              level=girth.level, side=girth.side, typed=typed)  # fmt: skip

        return write

    def _write_tuck(self, typed: str) -> Callable[[Document], None]:
        bench, level, place = self.bench, tuck_level(self.bench), self.chosen.tuck_place

        def write(document: Document) -> None:
            set_tuck(bench.at.fitting_in(document), bench.garment, bench.unit, level, place, typed)

        return write

    def _write_hem(self, typed: str) -> Callable[[Document], None]:
        bench, field = self.bench, hem_field(self.bench)

        def write(document: Document) -> None:
            fitting = bench.at.fitting_in(document)
            if field == "heel":
                set_heel(document, fitting, typed)
            elif field == "heel_of_the_day":
                set_heel_of_the_day(garment_in(document, bench.at.garment), bench.unit, typed)
            elif field in NUMBERS:
                {"wanted": set_wanted, "holds": set_holds}[field](fitting, bench.unit, typed)
            else:
                set_floor(fitting, bench.unit, field, typed)

        return write

    def _girths(self) -> Any:
        bench = self.bench
        return girths_to_tape(bench.garment, bench.file.client, bench.file.sittings, bench.fitting)
