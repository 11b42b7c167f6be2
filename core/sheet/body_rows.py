"""The measurements a garment is fitted to: as they are now and how they changed, in words."""

from collections.abc import Iterator, Sequence
from datetime import date

from core.body.measurements import catalogue, label_of
from core.client.over_time import Measured, days_measured, points
from core.days import day_month_of
from core.file.fitting_file import FittingFile
from core.lengths import Unit
from core.less_or_more import change
from core.records.answer import Side
from core.records.fitting import Fitting
from core.records.garment import SIDES, Garment
from core.wording import Words, whose

BodyRow = tuple[str, str, str, str, str]
"""Measurement, now, taken on, since last time, since the first."""

_ANY_YEAR = date(1, 1, 1)
"""No day is of this year, so a day is always said with its own."""


def day_in_full(text: str) -> str:
    """Return a written day with its year.

    >>> day_in_full("2026-03-02"), day_in_full("")
    ('2 March 2026', '')
    """
    return day_month_of(text, _ANY_YEAR)


def body_rows(
    file: FittingFile, garment: Garment, fitting: Fitting | None, unit: Unit
) -> list[BodyRow]:
    """Return a row for each measurement that the garment is held against, in her tape's order.

    Only days on or before the fitting's count.  A measurement nobody took is left out.
    """
    until = fitting.on if fitting is not None and fitting.on else ""
    days = [day for day in days_measured(file.data) if not until or day.on <= until]
    rows = []
    for name in _names(garment):
        for side in _sides(days, name):
            row = _row(days, name, side, unit)
            if row is not None:
                rows.append(row)
    return rows


def _names(garment: Garment) -> list[str]:
    """Return the ids of the measurements, in the order of the catalogue."""
    found = dict.fromkeys(_named(garment))
    order = {name: number for number, name in enumerate(catalogue())}
    return sorted(found, key=lambda name: order.get(name, len(order)))


def _named(garment: Garment) -> Iterator[str]:
    for level in garment.levels.values():
        yield from filter(None, (level.body, level.front_arc, *level.down_body.values()))
    yield from (line.body for line in garment.lines if line.body)


def _sides(days: Sequence[Measured], name: str) -> tuple[Side | None, ...]:
    sided = any(name in day.values and day.values[name].sided for day in days)
    return SIDES if sided else (None,)


def _row(
    days: Sequence[Measured], name: str, side: Side | None, unit: Unit
) -> BodyRow | None:
    over_time = points(days, name, side)
    if not over_time:
        return None
    now, first = over_time[-1], over_time[0]
    label = ", ".join(filter(None, [label_of(name), whose(side)]))
    if len(over_time) == 1:
        return label, Words(unit).length(now.mm), day_in_full(now.on), "", ""
    last = over_time[-2]
    since_last = f"{change(now.mm, last.mm, unit).words} ({day_in_full(last.on)})"
    since_first = f"{change(now.mm, first.mm, unit).words} ({day_in_full(first.on)})"
    return (
        label, Words(unit).length(now.mm), day_in_full(now.on), since_last,
        "" if first == last else since_first,
    )  # fmt: skip
