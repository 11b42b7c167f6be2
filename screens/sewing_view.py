"""The sewing table: one step after the other, ticked off, taken back, and read aloud."""

from collections.abc import Callable
from dataclasses import replace
from typing import Any

from kivy.clock import Clock
from kivy.properties import BooleanProperty, ObjectProperty, StringProperty

from core.errors import NotFound
from core.file.fitting_file import FittingFile
from core.fit.written import Part
from core.sewn.ticked_girths import keep_girth
from core.sewn.ticked_steps import Tick, tick, untick, with_side
from core.sewn.trimming import keep_trim, refuse_too_much
from screens.sewing_page import AtStep, SewingPage, Table, first_to_do, named, page, table_of
from screens.shown import Chosen, NotReadYet, not_read
from screens.speech import Voice
from screens.view import View
from screens.workroom import Workroom

__all__ = ["AtStep", "SewingView"]

TAKEN_BACK_FOR_S = 2.0
"""So long a step that was just ticked can be taken back with one touch where she is then."""


class SewingView(View):
    """One step of a list; ``chosen`` is an ``AtStep``.

    ``ticked`` says what was ticked just now, as long as it can be taken back.
    """

    name = "sewing"
    page = ObjectProperty(SewingPage(), rebind=True)
    ticked = StringProperty("")
    can_speak = BooleanProperty(False)
    reads_each = BooleanProperty(False)

    def __init__(self, room: Workroom, voice: Voice | None = None, **kwargs: Any) -> None:
        super().__init__(room, **kwargs)
        self._voice = voice or Voice()
        self._left: dict[tuple[str, str, str], int] = {}
        self._kept: tuple[Any, str, str, Table | None] | None = None
        self._table: Table | None = None
        self._just = -1
        self._at = ("", "", "")
        self._forget_soon = Clock.create_trigger(self._forget, TAKEN_BACK_FOR_S)
        self.can_speak = self._voice.is_here
        self._voice.bind(is_here=self._heard)

    # -- what is shown --------------------------------------------------------

    def work_out(
        self, file: FittingFile | None, chosen: AtStep | Chosen | None
    ) -> tuple[SewingPage, AtStep, Table | None]:
        if file is None:
            raise NotFound("There is no client on the table")
        asked = chosen if isinstance(chosen, AtStep) else _from(chosen)
        now = named(file, asked)
        table = self._worked_out(file, now)
        if table is not None:
            fittings = {fitting.id: fitting for fitting in table.garment.fittings}
            if unread := not_read(fittings.get(now.fitting)):
                raise NotReadYet(unread)
        now = replace(now, step=self._step(file, now, table))
        shown = page(file, table, now, sixteenths=self.room.settings.sixteenths)
        return shown, now, table

    def lay_out(self, found: tuple[SewingPage, AtStep, Table | None], chosen: Any) -> None:
        before = self.chosen if isinstance(self.chosen, AtStep) else None
        shown, self.chosen, self._table = found
        if before is not None and before.step != self.chosen.step:
            self._voice.hush()
        at = (self.room.client_id, self.chosen.garment, self.chosen.fitting)
        if at != self._at:  # what was ticked just now is another list's
            self._forget()
        self._at = at
        self.reads_each = self.room.settings.read_each_step
        self.page = shown
        self._left[at] = self.chosen.step

    def put_away(self) -> None:
        super().put_away()
        self._voice.hush()
        self._left.clear()
        self._kept = self._table = None
        self._forget()
        self.page = SewingPage()

    def close(self) -> bool:
        """Close the sums or the keys where they lie open."""
        if self.chosen is None or not (self.chosen.why or self.chosen.girth >= 0):
            return False
        self._choose(why=False, girth=-1, keys=None)
        return True

    def _worked_out(self, file: FittingFile, now: AtStep) -> Table | None:
        """Return the table; as long as the client is not changed it is worked out once."""
        kept = self._kept
        if kept is None or kept[0] is not file.data or kept[1:3] != (now.garment, now.fitting):
            self._kept = (file.data, now.garment, now.fitting, table_of(file, now))
        return self._kept[3] if self._kept else None

    def _step(self, file: FittingFile, now: AtStep, table: Table | None) -> int:
        if table is None:
            return 0
        left = self._left.get((file.client.id, now.garment, now.fitting), -1)
        step = now.step if now.step >= 0 else left
        return min(step, len(table.steps)) if step >= 0 else first_to_do(table.ticks())

    # -- the keys -------------------------------------------------------------

    def done(self) -> None:
        """Tick this step off and go on; one that is done already is only passed."""
        if self.page.is_over or self.page.step is None:
            self.room.back()
        else:
            before = self.chosen.step
            if self.page.done:
                self._go_to(before + 1)
            else:
                self._tick()
            if self.reads_each and self.chosen.step != before:
                self.read()

    def back(self) -> None:
        """Go to the step before; nothing is unticked by it."""
        if self.chosen.step > 0:
            self._go_to(self.chosen.step - 1)

    def take_back(self) -> None:
        """Untick what was ticked just now, and show it again."""
        if self._just >= 0:
            number = self._just
            self._forget()
            self._untick(number)

    def not_done(self) -> None:
        """Untick the step that is shown."""
        self._forget()
        self._untick(self.chosen.step)

    def why(self) -> None:
        """Open the sums behind this step, or close them."""
        self._choose(why=not self.chosen.why, girth=-1, keys=None)

    def leave(self) -> None:
        """Go back to where she came from, whatever lies open."""
        self.close()
        self.room.back()

    def read(self) -> None:
        """Have this step read aloud, again if it was read already."""
        if self.page.step is not None:
            self._voice.say(self.page.spoken)

    def read_each(self) -> None:
        """Have each step read as she goes on to it, or no more; this one at once."""
        if self.room.set(read_each_step=not self.reads_each):
            self.reads_each = self.room.settings.read_each_step
            if self.reads_each:
                self.read()

    # -- girths ---------------------------------------------------------------

    def take_girth(self, index: int) -> None:
        """Put the keys on one girth of the check, or away from it."""
        self._choose(girth=-1 if self.chosen.girth == index else index, keys=None)

    def press(self, key: str) -> None:
        """Take a key of the keypad, and keep what it made."""
        keys, table = self.page.keys, self._table
        if keys is None or table is None:
            return
        now = replace(self.chosen, keys=keys.press(key))
        if now.keys == self.chosen.keys or now.keys is None:
            return
        typed, unit = now.keys.as_typed, table.file.unit
        if trims := table.trims(now.step):
            self._change(lambda fitting: keep_trim(fitting, trims[now.girth], typed), now)
            return
        girth = table.girths(now.step)[now.girth]
        self._change(lambda fitting: keep_girth(fitting, girth, typed, unit), now)

    def next_girth(self) -> None:
        """Put the keys on the next girth; after the last they are put away."""
        following = self.chosen.girth + 1
        last = following >= len(self.page.girths)
        self._choose(girth=-1 if last else following, keys=None)

    # -- how ------------------------------------------------------------------

    def _tick(self) -> None:
        table, number = self._on_the_table(), self.chosen.step
        step, on = table.ticks()[number], self.room.now().date().isoformat()
        now = AtStep(self.chosen.garment, self.chosen.fitting, number + 1)
        if self._change(lambda fitting: self._tick_in(fitting, step, on), now):
            self._just = number
            self.ticked = f"Done: {with_side(table.plan.steps[number]).lower()}"
            self._forget_soon.cancel()
            self._forget_soon()

    def _tick_in(self, fitting: Part, step: Tick, on: str) -> None:
        """Tick a step; where more is to be left than there is, nothing is ticked."""
        table = self._on_the_table()
        refuse_too_much(table.trims(self.chosen.step))
        tick(fitting, step, table.plan, on, table.first_layer)

    def _untick(self, number: int) -> None:
        table = self._on_the_table()
        step = table.ticks()[number]
        now = AtStep(self.chosen.garment, self.chosen.fitting, number)
        self._change(lambda fitting: untick(fitting, step, table.first_layer), now)

    def _change(self, edit: Callable[[Part], None], now: AtStep) -> bool:
        at = self._on_the_table().at
        return self.room.change(lambda document: edit(at.fitting_in(document)), now)

    def _on_the_table(self) -> Table:
        if self._table is None:
            raise NotFound("There is nothing to sew here")
        return self._table

    def _go_to(self, number: int) -> None:
        self._choose(step=number, why=False, girth=-1, keys=None)

    def _choose(self, **others: Any) -> None:
        self.room.choose(replace(self.chosen, **others))

    def _forget(self, *_: object) -> None:
        self._forget_soon.cancel()
        self._just, self.ticked = -1, ""

    def _heard(self, *_: object) -> None:
        self.can_speak = self._voice.is_here


def _from(chosen: Chosen | None) -> AtStep:
    """Return what is chosen elsewhere by a garment and a fitting."""
    return AtStep() if chosen is None else AtStep(chosen.garment, chosen.fitting)
