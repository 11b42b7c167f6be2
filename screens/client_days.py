"""The days that are planned on a client's page, picked from a month."""

from collections.abc import Callable
from dataclasses import replace
from datetime import date
from typing import Any

from core.client.edits import collect, give_consent, plan_fitting, set_due
from screens.client_shown import closed, planned
from screens.door import Document
from screens.month import months_on, stepped
from screens.view import View


class DayVerbs(View):
    """What is asked on the page, one thing at a time, and the days among it."""

    def close(self) -> bool:
        """Close what stands in the place of the page."""
        if self.chosen is None or not self.chosen.panel:
            return False
        self.room.choose(closed(self.chosen))
        return True

    def _open(self, **what: Any) -> None:
        self.room.choose(replace(closed(self.chosen), **what))

    def _close_and(self, edit: Callable[[Document], None]) -> bool:
        """Close what is open, then change her: taking it back does not open it again."""
        self.close()
        return self.room.change(edit)

    def ask_day(self, about: str, garment_id: str = "") -> None:
        """Open a month to pick a day from: ``due``, ``next fitting``, ``collected``."""
        self._open(panel="day", about=about, garment=garment_id)

    def turn_month(self, by: int) -> None:
        first = months_on(self.picking.first, by)
        self.room.choose(replace(self.chosen, month=first.isoformat()))

    def pick_day(self, day: date) -> None:
        """Write down a day; a fitting may be given a time after."""
        about, garment_id = self.chosen.about, self.chosen.garment
        if about == "next fitting":
            before = planned(self._file, garment_id, about)
            at = day.isoformat()
            if before is not None and self.picking.time:
                at = f"{at}T{before:%H:%M}"
            self.room.change(lambda document: plan_fitting(document, garment_id, at))
            return
        edits: dict[str, Callable[[Document], None]] = {
            "due": lambda document: set_due(document, garment_id, day.isoformat()),
            "collected": lambda document: collect(document, garment_id, day.isoformat()),
            "consent": lambda document: give_consent(document, day.isoformat()),
        }
        self._close_and(edits[about])

    def pick_none(self) -> None:
        """Write down that there is no such day."""
        about, garment_id = self.chosen.about, self.chosen.garment
        none = {"due": set_due, "collected": collect, "next fitting": plan_fitting}[about]
        self._close_and(lambda document: none(document, garment_id, ""))

    def step_time(self, quarters: int) -> None:
        """Give the fitting a time, or another one."""
        garment_id = self.chosen.garment
        before = planned(self._file, garment_id, "next fitting")
        if before is not None:
            at = f"{stepped(before, quarters):%Y-%m-%dT%H:%M}"
            self.room.change(lambda document: plan_fitting(document, garment_id, at))
