"""Whatever is touched in whatever order: nothing raises, what is kept is what is shown.

    python -m tests.screens.random_errand [--steps 20000] [--seeds 4] [--full-disk]

Each seed is a folder of its own and an errand of so many steps at the fitting, the changes and
the sewing table: a key that can be touched, a touch, a swipe, a hold or two fingers on the
figure, a number key, undo and redo, or back.  A way that leads elsewhere is gone for a few
steps.  After each step the client is read from the disk, and what is shown is compared with what
the core makes of that.  With ``--full-disk`` there is no room on the disk again and again.
"""

import argparse
import errno
import json
import os
import random
import tempfile
from collections import deque
from contextlib import nullcontext, suppress
from dataclasses import replace
from pathlib import Path

from core.changes.plan import make_plan
from core.errors import WorkroomError
from core.file.fitting_file import read_document
from tests.core.store.steps import NEEDS_ROOM, watched
from tests.screens import tablet
from tests.screens.fitting_pictures import FULL, NOON, client, put_photos, today
from tests.screens.folders import DEMO_ID
from tests.screens.kept import kept
from tests.screens.tablet import FRAME, Finger

WORK = ("fitting", "fitting", "changes", "sewing")
MOMENTS = ("before", "look", "pin", "pin", "pin", "marks", "move", "hem", "out", "read", "read")
SIGNS = ("0", "1", "2", "3", "5", "9", ".", "/", "backspace", "delete", "enter", "tab")
TRAIL = 12


class Walk:
    """An errand at random; ``trail`` is what was done last, for whoever looks for the reason.

    On a disk that ``fills`` there is room or none by turns; ``refused`` counts what was not taken.
    """

    def __init__(self, running, folder, seed, *, fills=False):
        self.chance = random.Random(seed)
        self.running, self.folder = running, folder
        self.trail = deque(maxlen=TRAIL)
        self.done = {}
        self.fills, self.is_full, self.refused = fills, False, 0

    def begin(self):
        """Leave a folder with a fitting half done, and open the app on it."""
        from screens.app import PinsToSeamsApp

        made = self.chance.choice((FULL, today(), FULL | {"worn": {"inside_out": True}}))
        self.document = client(json.loads(json.dumps(made)), heel_of_the_day="3")
        put_photos(self.folder, self.document)
        screen = self.chance.choice(("landscape", "portrait"))
        self.hand = self.running(PinsToSeamsApp(self.folder, lambda: NOON), screen)
        self.room = self.hand.app.room
        self._go_to_work()

    def walk(self, steps):
        """Go so many steps; raises whatever is not as it should be, with what led to it."""
        try:
            with watched(self._watch) if self.fills else nullcontext():
                for _ in range(steps):
                    self.step()
        except Exception as wrong:
            wrong.add_note("What was done: " + "; ".join(self.trail))
            raise

    def step(self):
        """Do one thing, and look whether what is kept is what is shown."""
        if self._lost():
            self._go_to_work()
        act = self.chance.choice(self._acts())
        if self.fills and self.chance.random() < 0.1:
            self.is_full = not self.is_full
            self.trail.append("the disk is full" if self.is_full else "there is room")
        self.trail.append(f"{self.room.here}: {act.__name__.strip('_')}")
        self.done[self.trail[-1]] = self.done.get(self.trail[-1], 0) + 1
        act()
        self.hand.frames(1)
        self._wait()
        self._look()

    def _watch(self, step):
        if self.is_full and step.what in NEEDS_ROOM:
            self.refused += 1
            raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))

    # -- what may be done -----------------------------------------------------

    def _acts(self):
        if getattr(self.room.view, "browsing", None) is not None:
            return (self._back,)  # what lies in the folders of the device is none of its business
        usual = [self._tap] * 12 + [self._key] * 2 + [self._undo, self._redo, self._back]
        if self._figure() is not None:
            usual += [self._touch] * 8 + [self._swipe, self._hold, self._spread] * 2
        return usual

    def _tap(self):
        found = touchable(self.hand)
        if found:
            button = self.chance.choice(found)
            self.trail[-1] += f" {type(button).__name__} {getattr(button, 'text', '')!r}"
            self.hand.tap(button)

    def _key(self):
        sign = self.chance.choice(SIGNS)
        self.trail[-1] += f" {sign}"
        self.hand.key(sign)

    def _undo(self):
        self.hand.key("z", "ctrl")

    def _redo(self):
        self.hand.key("y", "ctrl")

    def _back(self):
        self.hand.key("back")

    def _touch(self):
        self.hand.tap(self._place())

    def _hold(self):
        self.hand.tap(self._place(), hold=0.5)

    def _swipe(self):
        (x, y), figure = self._place(), self._figure()
        left, _ = figure.to_window(*figure.pos)
        self.hand.drag((x, y), (left + figure.width * self.chance.random(), y), steps=3)

    def _spread(self):
        fingers = [Finger(self.hand, *self._place()).down() for _ in range(2)]
        for finger in fingers:
            finger.move(*self._place())
        for finger in fingers:
            finger.up()

    def _figure(self):
        desk = self.hand.ids.get("desk") if self.room.here == "fitting" else None
        return desk.figure if desk is not None else None

    def _place(self):
        """Return a place on the figure: as often as not a seam, a dart or a pin."""
        figure = self._figure()
        left, low = figure.to_window(*figure.pos)
        across, up = self.chance.random(), self.chance.random()
        spot = (left + figure.width * across, low + figure.height * up)
        if self.chance.random() < 0.6 and figure.worn.lines:
            line = self.chance.choice(figure.worn.lines)
            level = self.chance.choice(list(line.at))
            on_it = figure.where(line.what, line.place, level, line.side)
            if on_it is not None and figure.collide_point(*on_it):
                spot = figure.to_window(*on_it)
        self.trail[-1] += f" at {spot[0]:.0f}, {spot[1]:.0f}"
        return spot

    # -- where she is ---------------------------------------------------------

    def _lost(self):
        """Tell whether the errand should go back to its work."""
        away = self.room.here not in WORK or self.room.client_id != DEMO_ID
        return self.chance.random() < (0.3 if away else 0.02)

    def _go_to_work(self):
        from screens.fitting_page import Chosen

        with suppress(WorkroomError):
            if DEMO_ID not in [row.id for row in self.room.store.clients()]:
                self.room.store.save(json.loads(json.dumps(self.document)))
        screen = self.chance.choice(WORK)
        chosen = Chosen(moment=self.chance.choice(MOMENTS)) if screen == "fitting" else None
        self.trail.append(f"go to {screen}")
        self.room.open_client(DEMO_ID, screen, chosen)
        self.hand.frames(2)

    def _wait(self):
        if self.hand.app.aside.busy:
            self.hand.wait()

    # -- what is kept is what is shown ----------------------------------------

    def _look(self):
        if DEMO_ID not in [row.id for row in self.room.store.clients()]:
            return
        file = read_document(kept(self.folder, DEMO_ID))
        if self.room.client_id != DEMO_ID or self.room.here not in WORK:
            return
        {"changes": self._changes, "sewing": self._sewing, "fitting": self._fitting}[
            self.room.here
        ](file)

    def _changes(self, file):
        view = self.room.view
        if view.garment and view.levels:
            same_levels(view.levels, plan_of(file, view.chosen), view.layer, file, by_hand=True)

    def _sewing(self, file):
        view = self.room.view
        if view._table is not None:
            assert view._table.plan == plan_of(file, view.chosen)

    def _fitting(self, file):
        page, chosen = self.room.view.page, self.room.view.chosen
        if page.moment == "read" and page.body.levels:
            layer = page.body.levels[0].layer
            same_levels(page.body.levels, plan_of(file, chosen, "pins"), layer, file)
        if page.figure is not None:
            (layer,) = {line.layer for line in page.figure.worn.lines}
            assert [pin.number for pin in page.figure.pins] == [
                number for number, pin in enumerate(fitting_in(file, chosen).pins, 1)
                if pin.through or pin.layer == layer]  # fmt: skip
            assert page.figure.pins == self._figure().pins


def fitting_in(file, chosen):
    """Return the fitting that is chosen, of the file; nothing where it is not named."""
    garment = next(one for one in file.garments if one.id == chosen.garment)
    return next((one for one in garment.fittings if one.id == chosen.fitting), None)


def plan_of(file, chosen, lead=None):
    """Return what the core makes of a file, shared out as is written in its fitting."""
    written = [one for made in file.data["garments"] for one in made["fittings"]
               if (made["id"], one.get("id")) == (chosen.garment, chosen.fitting)]  # fmt: skip
    way = written[0].get("way", "by_turns") if written else "by_turns"
    return make_plan(file, chosen.garment, chosen.fitting or None, lead, way=way)


def same_levels(rows, plan, layer, file, *, by_hand=False):
    """See that a strip is what the core answers: each number and verdict, and each sum."""
    from screens.rows import amount, level_rows
    from screens.shown import strip

    garment = next(one for one in file.garments if one.id == plan.garment)
    told = strip(plan, garment, layer, file.unit, "")
    if by_hand and any(total.layer == layer for total in plan.hand_totals):
        # then the strip shows what the moves give
        told = level_rows(plan.levels, layer, file.unit, [""],
                          planned_within=garment.settings.band)  # fmt: skip
    assert [replace(row, live=False) for row in rows] == told
    answers = [level for level in plan.levels if level.layer == layer]
    assert [(row.level, row.as_sewn, row.sum) for row in rows] == [
        (one.level, amount(one.as_sewn, file.unit), one.sum.replace(" | ", "\n"))
        for one in answers
    ]


def touchable(hand):
    """Return every key on the screen that may be touched, as far as a person can see it."""
    from kivy.uix.behaviors import ButtonBehavior

    return [button for button in hand.all(ButtonBehavior)
            if not button.disabled and button.get_root_window() is not None
            and min(button.size) > FRAME and button.opacity]  # fmt: skip


def main():
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--steps", type=int, default=20_000)
    parser.add_argument("--seeds", type=int, default=4)
    parser.add_argument("--full-disk", action="store_true", help="there is no room again and again")
    parser.add_argument("--first", type=int, default=1, help="the first seed")
    given = parser.parse_args()
    window = tablet.open_window()
    for seed in range(given.first, given.first + given.seeds):
        folder = Path(tempfile.mkdtemp())
        running = tablet.Tablet(window, folder)
        errand = Walk(running, folder, seed, fills=given.full_disk)
        errand.begin()
        errand.walk(given.steps // given.seeds)
        running.stop()
        print(f"seed {seed}: {given.steps // given.seeds} steps, refused: {errand.refused}")
        for name, times in sorted(errand.done.items()):
            print(f"    {times:6} {name}")


if __name__ == "__main__":
    main()
