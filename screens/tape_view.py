"""The tape: one number at a time, saved at every key."""

from collections.abc import Callable
from dataclasses import replace
from datetime import date
from typing import Any

from kivy.properties import BooleanProperty, ObjectProperty

from core.body.asked_once import it_is_right
from core.body.sitting import (
    as_begun,
    put_in_hand,
    readings,
    set_value,
    set_waist_found,
    set_worn,
    skip,
    take_both_sides,
)
from core.body.taking import after, numbers_of
from core.body.tape_order import Number, measurements_for, moved, number_of, put_order, usual_order
from core.client.edits import follow_unit
from core.file.fitting_file import FittingFile
from screens.door import Document
from screens.speech import Voice
from screens.tape_chosen import Chosen, is_emptied, kinds_for, next_reading, settled, written
from screens.tape_page import TapePage, page
from screens.view import View
from screens.workroom import Workroom

__all__ = ["Chosen", "TapePage", "TapeView"]


class TapeView(View):
    """One number of a sitting, with what is around it; ``today`` is asked for the day.

    ``speaks``: each number is said as it comes, where the device can.
    """

    name = "tape"
    page = ObjectProperty(TapePage(), rebind=True)
    speaks = BooleanProperty(False)
    can_speak = BooleanProperty(False)

    def __init__(
        self,
        room: Workroom,
        today: Callable[[], date] | None = None,
        voice: Voice | None = None,
        **kwargs: Any,
    ) -> None:
        super().__init__(room, **kwargs)
        self._today = today or (lambda: room.now().date())
        self._voice = voice or Voice()
        self._left: dict[str, Chosen] = {}
        self.can_speak = self._voice.is_here
        self._voice.bind(is_here=self._heard)

    # -- what is shown --------------------------------------------------------

    def work_out(self, file: FittingFile | None, chosen: Chosen | None) -> tuple[TapePage, Chosen]:
        document = file.data if file is not None else {}
        asked = self._as_left(str(document["client"]["id"]), chosen or Chosen())
        sixteenths = self.room.settings.sixteenths
        now = settled(document, asked, self._today().isoformat(), sixteenths)
        return page(document, now), now

    def lay_out(self, shown: tuple[TapePage, Chosen], chosen: Chosen | None) -> None:
        before = self.page
        self.page, self.chosen = shown
        left = replace(self.chosen, keys=None, arranging=False, picked="")
        self._left[self.room.client_id] = left
        if self.speaks and (self.page.title, self.page.side) != (before.title, before.side):
            self._voice.say(self.page.spoken)

    def put_away(self) -> None:
        super().put_away()
        self._voice.hush()
        self._left.clear()
        self.page = TapePage()

    def close(self) -> bool:
        """Close the order where it is open."""
        was_open = self.chosen is not None and self.chosen.arranging
        if was_open:
            self.arrange()
        return was_open

    def _as_left(self, client_id: str, chosen: Chosen) -> Chosen:
        """Return what was chosen when she left the tape of this client for the same garments."""
        left = self._left.get(client_id)
        if chosen.number is not None or left is None or left.on != self._today().isoformat():
            return chosen
        return left if chosen.kinds in ((), left.kinds) else chosen

    # -- the keys -------------------------------------------------------------

    def press(self, key: str) -> None:
        """Take a key of the keypad, and keep what it made."""
        if self.chosen.keys is None:
            return
        now = replace(self.chosen, keys=self.chosen.keys.press(key))
        if now != self.chosen:
            self.room.change(lambda document: _write(document, now), now)

    def turn_unit(self) -> None:
        """Go on in the other unit; what was typed stays as it was typed."""
        unit = self.page.other_unit
        self.room.change(lambda document: follow_unit(document, unit),
                         replace(self.chosen, unit=unit))  # fmt: skip

    def next(self) -> None:
        """Go on to the next number to take; going on answers what is asked.

        What was not asked, because more digits might follow, is asked first.
        """
        if self.chosen.heel_worn:
            self.take_heel()
            return
        if self.page.asks_at_next:
            self.room.choose(replace(self.chosen, keys=replace(self.chosen.keys, closed=True)))
            return
        following = self._following()

        def go_on(document: Document) -> None:
            it_is_right(document, self.chosen.on, self._number)
            put_in_hand(document, self.chosen.on, following or self._number)

        if self._leave(following or self._number, go_on) and following is None:
            self.room.back()

    def skip(self) -> None:
        """Pass this number by today."""
        following = self._following() or self._number

        def pass_by(document: Document) -> None:
            skip(document, self.chosen.on, self._number)
            put_in_hand(document, self.chosen.on, following)

        self._leave(following, pass_by)

    def go_to(self, key: str) -> None:
        """Go to a number of the list."""
        self._leave(number_of(key))

    def read_again(self) -> None:
        """Go to the next reading of this number; after the last to the first again."""
        taken = len(readings(self.room.document, self.chosen.on, self._number))
        reading = next_reading(self.chosen.reading, taken)
        self._leave(self._number, reading=reading)

    def answer(self) -> None:
        """Say that what is asked about is right, or take the third reading it asks for."""
        asking = self.page.asking
        if asking is not None and asking.key:
            self.room.change(
                lambda document: it_is_right(document, self.chosen.on, self._number, asking.key)
            )
        elif asking is not None:
            self._leave(self._number, reading=2)

    # -- what belongs to it ---------------------------------------------------

    def pick_side(self, key: str) -> None:
        """Go to her other side, or take both where the garment asks for one number."""
        if key != "both":
            self.go_to(key)
            return
        measurement = self._number.measurement
        self._leave(
            Number(measurement, "left"),
            lambda document: take_both_sides(document, self.chosen.on, measurement),
        )

    def pick_waist(self, how: str) -> None:
        """Note how her waist was found."""
        self.room.change(lambda document: set_waist_found(document, self.chosen.on, how))

    def wear(self, foundation: str) -> None:
        """Note the foundation she wears."""
        if foundation.strip() != self.page.foundation:
            heel = self.page.heel
            self.room.change(
                lambda document: set_worn(
                    document, self.chosen.on, foundation=foundation, heel=heel
                )
            )  # fmt: skip

    def take_heel(self) -> None:
        """Put the keys on the heel she stands in, or back on the number."""
        heel_worn = not self.chosen.heel_worn
        self.room.choose(replace(self.chosen, heel_worn=heel_worn, reading=0, keys=None))

    # -- the order ------------------------------------------------------------

    def arrange(self) -> None:
        """Open the order, or close it again."""
        self.room.choose(replace(self.chosen, arranging=not self.chosen.arranging, picked=""))

    def take_for(self, kind: str) -> None:
        """Take for this kind of garment as well, or no longer."""
        kinds = self._kinds
        now = tuple(each for each in kinds if each != kind) if kind in kinds else (*kinds, kind)
        self.room.choose(replace(self.chosen, kinds=now, picked=""))

    def pick(self, measurement: str) -> None:
        """Take a measurement of the order in hand; with one in hand, put that in this place."""
        picked = self.chosen.picked
        if picked in ("", measurement):
            now = "" if picked else measurement
            self.room.choose(replace(self.chosen, picked=now))
        else:
            self._put(picked, self._order.index(measurement), "")

    def move(self, by: int) -> None:
        """Move what is in hand up or down the order."""
        if picked := self.chosen.picked:
            self._put(picked, self._order.index(picked) + by, picked)

    def usual(self) -> None:
        """Go back to the order the client stands."""
        self.room.change(
            lambda document: usual_order(document, self._kinds),
            replace(self.chosen, picked=""),
        )

    @property
    def _order(self) -> tuple[str, ...]:
        return measurements_for(self.room.document, self._kinds)

    @property
    def _kinds(self) -> tuple[str, ...]:
        return kinds_for(self.room.document, self.chosen)

    def _put(self, picked: str, to: int, then: str) -> None:
        order = moved(self._order, picked, to)
        self.room.change(
            lambda document: put_order(document, self._kinds, order),
            replace(self.chosen, picked=then),
        )

    # -- speech ---------------------------------------------------------------

    def speak(self) -> None:
        """Say each number from now on, beginning with this one; or be quiet again."""
        self.speaks = not self.speaks
        if self.speaks:
            self._voice.say(self.page.spoken)
        else:
            self._voice.hush()

    def _heard(self, _voice: object, is_here: bool) -> None:
        self.can_speak, self.speaks = is_here, self.speaks and is_here

    # -- how ------------------------------------------------------------------

    @property
    def _number(self) -> Number:
        return self.chosen.number

    def _following(self) -> Number | None:
        chosen = self.chosen
        numbers = numbers_of(self.room.document, chosen.on, self._kinds)
        return after(self.room.document, chosen.on, numbers, self._number)

    def _leave(
        self,
        number: Number,
        edit: Callable[[Document], None] = lambda document: None,
        reading: int = 0,
    ) -> bool:
        """Go to a number and a reading of it; a reading that was emptied is taken away now."""
        chosen = self.chosen

        def leave(document: Document) -> None:
            if is_emptied(document, chosen, chosen.number):
                set_value(document, chosen.on, chosen.number, "", chosen.reading)
            edit(document)

        now = replace(chosen, number=number, reading=reading, keys=None, heel_worn=False)
        return self.room.change(leave, now)


def _write(document: Document, chosen: Chosen) -> None:
    """Write down what the keys show, where it is not there already."""
    if chosen.keys is None or is_emptied(document, chosen, chosen.number):
        return
    text = chosen.keys.as_typed
    if chosen.heel_worn:
        foundation = str(as_begun(document, chosen.on)["worn"].get("foundation") or "")
        set_worn(document, chosen.on, foundation=foundation, heel=text)
    elif chosen.number is not None and text != written(document, chosen, chosen.number):
        set_value(document, chosen.on, chosen.number, text, chosen.reading)
