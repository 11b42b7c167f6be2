"""The garment on the figure, with the pins and marks of a fitting on it."""

from dataclasses import dataclass
from functools import lru_cache

from core.fit.amounts import kind_of
from core.fit.laid_flat import LaidFlat, laid_flat
from core.fit.marks import marks_of
from core.fit.on_her import OnHer, on_her
from core.fit.pinning import Where
from core.fit.written import garment_in
from core.records.fitting import LoggedSide
from core.records.garment import Garment
from screens.fitting_page import Bench
from screens.fitting_pins import last_pin, pin_to_read
from screens.parts.fit_figure import PinOnHer


@dataclass(frozen=True, slots=True)
class FigureShown:
    """What the figure is given."""

    worn: OnHer | LaidFlat
    pins: tuple[PinOnHer, ...]
    marks: tuple[PinOnHer, ...]


def figure_of(bench: Bench) -> FigureShown:
    """Return the garment on her with every pin, and with the marks in their own moment."""
    moment = bench.chosen.moment
    in_hand = pin_to_read(bench) if moment == "read" else last_pin(bench)
    pins = tuple(
        PinOnHer(
            index + 1,
            Where(pin.what, pin.place, pin.layer, pin.level, pin.down),
            pin.side,
            kind_of(pin) or "",
            index == in_hand and moment in ("pin", "read"),
        )
        for index, pin in enumerate(bench.fitting.pins)
    )
    worn = _flat(bench) if bench.chosen.pieces else _worn(bench.garment)
    return FigureShown(worn, pins, _marks(bench) if moment == "marks" else ())


def _flat(bench: Bench) -> LaidFlat:
    """Return the pieces; worked out once for a garment, as it is read anew at each change."""
    return laid_flat(bench.garment, garment_in(bench.file.data, bench.at.garment), bench.unit)


@lru_cache(maxsize=4)
def _worn(garment: Garment) -> OnHer:
    return on_her(garment)


def _marks(bench: Bench) -> tuple[PinOnHer, ...]:
    found = []
    for mark in marks_of(bench.written, bench.unit):
        if mark.on in ("seam", "dart", "piece"):
            side: LoggedSide = mark.side or "both"  # type: ignore[assignment]
            where = Where(mark.on, mark.place, "", mark.level, mark.down_mm)  # type: ignore[arg-type]
            found.append(PinOnHer(0, where, side, "mark", mark.index == bench.chosen.marked))
    return tuple(found)
