"""What goes on from the last fitting: what was asked, what was done, and what came back."""

from collections.abc import Sequence
from dataclasses import dataclass

from core.lengths import SMALLEST_MM
from core.records.fitting import Fitting, Pin, Sewn
from core.records.garment import Garment
from core.sewn.rounds import sewn_before
from core.share.pinned import height_of, on_the_garment

HERE_MM = 25.4
"""A pin this near to where it was pinned last time is about the same place."""


@dataclass(frozen=True, slots=True)
class Asked:
    """A pin of the last fitting: ``done`` sewn since, ``came_back`` pinned there again today.

    ``pin`` is on the side of her where that place of the garment is today.
    """

    index: int
    pin: Pin
    done: bool
    came_back: bool

    @property
    def open(self) -> bool:
        return not self.done or self.came_back


def last_fitting(garment: Garment, fitting: Fitting) -> Fitting | None:
    """Return the fitting before one: by their days, or as they were logged where one has none."""
    in_order = list(garment.fittings)
    if all(entry.on for entry in in_order):
        in_order.sort(key=lambda entry: entry.on)
    at = [entry.id for entry in in_order].index(fitting.id)
    return in_order[at - 1] if at else None


def asked_last_time(garment: Garment, fitting: Fitting) -> tuple[Asked, ...]:
    """Return every pin of the fitting before, with what became of it; none at the first one."""
    last = last_fitting(garment, fitting)
    if last is None:
        return ()
    sewn = sewn_before(garment, fitting)[len(sewn_before(garment, last)) :]
    asked = []
    for index, pin in enumerate(last.pins):
        sewn_at = on_the_garment(pin, last)
        today = on_the_garment(sewn_at, fitting)
        back = _came_back(today, fitting.pins, garment)
        asked.append(Asked(index, today, _is_done(sewn_at, sewn), back))
    return tuple(asked)


def _is_done(pin: Pin, sewn: Sequence[Sewn]) -> bool:
    """Tell whether a pin's seam was sewn where it was pinned; a fold is told by hand."""
    return any(
        (entry.layer, entry.what, entry.place) == (pin.layer, pin.what, pin.place)
        and (entry.side in (pin.side, "both") or pin.side == "both")
        and (not pin.level or any(level == pin.level for _, level, _ in entry.moves))
        for entry in sewn
    )


def _came_back(pin: Pin, pins: Sequence[Pin], garment: Garment) -> bool:
    down = height_of(pin, garment)
    return any(
        (now.layer, now.what, now.place) == (pin.layer, pin.what, pin.place)
        and (now.side == pin.side or "both" in (now.side, pin.side))
        and abs(height_of(now, garment) - down) <= HERE_MM + SMALLEST_MM
        for now in pins
    )
