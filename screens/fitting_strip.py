"""The strip of levels beside a pin that is read off: live with it, worked out once a change."""

from dataclasses import replace
from typing import Any

from core.changes.plan import Plan, make_plan
from core.fit.pinning import first_layer
from core.fit.reading_off import nearest_level
from core.records.fitting import Pin
from core.share.pinned import on_the_garment
from screens.fitting_page import Bench
from screens.rows import LevelRow
from screens.shown import strip


def strip_beside(bench: Bench, pin: Pin) -> tuple[LevelRow, ...]:
    """Return the levels of a pin's layer; its own is lit, of two sleeves or legs only that one."""
    plan, layer = _plan(bench), pin.layer or first_layer(bench.garment)
    answers = [answer for answer in plan.levels if answer.layer == layer]
    level, _ = nearest_level(bench.garment, pin)
    side = on_the_garment(pin, bench.fitting).side
    rows = zip(strip(plan, bench.garment, layer, bench.unit, level), answers, strict=True)
    return tuple(
        replace(row, live=row.live and (side == "both" or answer.side in (None, side)))
        for row, answer in rows
    )


def _plan(bench: Bench) -> Plan:
    """Return the plan of the pins; another pin in hand leaves it as it was.

    A change is made to a copy, so the same document says the same.
    """
    document, of = bench.file.data, (bench.garment.id, bench.fitting.id)
    for known, known_of, plan in _kept:
        if known is document and known_of == of:
            return plan
    found = make_plan(bench.file, *of, "pins")
    _kept[:] = [(document, of, found)]
    return found


_kept: list[tuple[dict[str, Any], tuple[str, str], Plan]] = []
"""The last plan, and what it was made from."""


def forget() -> None:
    """Keep nothing of anybody's: the client is put away."""
    _kept.clear()
