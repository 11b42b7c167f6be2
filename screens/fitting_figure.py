"""The garment on the figure, with the pins and marks of a fitting on it."""

from dataclasses import dataclass
from typing import Any

from core.fit.amounts import kind_of
from core.fit.laid_flat import LaidFlat, laid_flat
from core.fit.marks import marks_of
from core.fit.on_her import OnHer, on_her
from core.fit.pinning import Where
from core.fit.written import garment_in
from core.records.fitting import LoggedSide
from screens.fitting_layer import is_in, layer_shown
from screens.fitting_page import Bench
from screens.fitting_said import last_pin, pin_to_read
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
    layer = layer_shown(bench, in_hand)
    pins = tuple(
        PinOnHer(
            index + 1,
            Where(pin.what, pin.place, pin.layer, pin.level, pin.down),
            pin.side,
            kind_of(pin) or "",
            index == in_hand and moment in ("pin", "read"),
        )
        for index, pin in enumerate(bench.fitting.pins)
        if is_in(pin, layer)
    )
    return FigureShown(_worn(bench, layer), pins, _marks(bench) if moment == "marks" else ())


def _worn(bench: Bench, layer: str) -> OnHer | LaidFlat:
    """Return the garment on her, or its pieces; a pin or an amount leaves it as it was."""
    written = garment_in(bench.file.data, bench.at.garment)
    turned = bench.fitting.inside_out
    drawn = (
        {name: part for name, part in written.items() if name != "fittings"},
        (bench.unit, turned, layer),
    )
    before = _kept.get(bench.chosen.pieces)
    if before is not None and before[0] == drawn:
        return before[1]
    found: OnHer | LaidFlat = (
        laid_flat(bench.garment, written, bench.unit, layer, inside_out=turned)
        if bench.chosen.pieces
        else on_her(bench.garment, layer, inside_out=turned)
    )
    _kept[bench.chosen.pieces] = drawn, found
    return found


_kept: dict[bool, tuple[tuple[dict[str, Any], tuple[Any, ...]], OnHer | LaidFlat]] = {}
"""By whether the pieces are shown: what was drawn from, and what it became."""


def forget() -> None:
    """Keep no garment of anybody's: the client is put away."""
    _kept.clear()


def _marks(bench: Bench) -> tuple[PinOnHer, ...]:
    found = []
    for mark in marks_of(bench.written, bench.unit):
        if mark.on in ("seam", "dart", "piece"):
            side: LoggedSide = mark.side or "both"  # type: ignore[assignment]
            where = Where(mark.on, mark.place, "", mark.level, mark.down_mm)  # type: ignore[arg-type]
            found.append(PinOnHer(0, where, side, "mark", mark.index == bench.chosen.marked))
    return tuple(found)
