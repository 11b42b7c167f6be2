"""The client's page: what she measures and how that changed, her garments, fittings and wishes."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date

from core.body.measurements import catalogue
from core.body.tape_order import Number
from core.client.facts import entries
from core.client.her_garments import (
    FittingRow,
    GarmentRow,
    fitting_rows,
    fittings_held,
    garment_rows,
)
from core.client.over_time import Document, Measured, days_measured, points, unit_of
from core.days import day_month_of, read_day
from core.file.field import Field
from core.file.reading_parts import read_ease
from core.lengths import Unit, write_length
from core.less_or_more import Change, change
from core.records.garment import SIDES


@dataclass(frozen=True, slots=True)
class MeasurementRow:
    """One measurement as it is now and how it came there; sides have a row each.

    ``on`` is the day of ``value``, ``since`` the day it is compared with.  The changes are
    ``None`` where it was taken only once.  ``line`` is for a small drawing: days since the first
    day she was measured at all, and mm.
    """

    number: Number
    label: str
    value: str
    on: str
    since: str
    since_last: Change | None
    since_first: Change | None
    line: tuple[tuple[int, float], ...]


@dataclass(frozen=True, slots=True)
class EaseRow:
    """Ease she likes at a level: a length in the unit shown, or a share (``4%``)."""

    level: str
    label: str
    text: str


@dataclass(frozen=True, slots=True)
class Card:
    """Everything on the client's page, in words; what there is none of is empty.

    ``taken`` is the day of the last tape, ``since`` the one before it; ``consent`` the day she
    agreed to photos.
    """

    id: str
    name: str
    client_since: str
    notes: str
    consent: str
    photos: int
    taken: str
    since: str
    measurements: tuple[MeasurementRow, ...]
    ease: tuple[EaseRow, ...]
    garments: tuple[GarmentRow, ...]
    fittings: tuple[FittingRow, ...]


def card_of(document: Document, today: date, unit: Unit) -> Card:
    """Return the client's page, lengths in ``unit``; raises ``BadFile`` for what can't be read."""
    client, days = document["client"], days_measured(document)
    taken = sorted({day.on for day in days}, reverse=True)
    consent = client.get("photo_consent")
    return Card(
        id=str(client["id"]),
        name=str(client["name"]),
        client_since=_client_since(document, today),
        notes=str(client.get("notes") or ""),
        consent=day_month_of(consent, today) if isinstance(consent, str) else "",
        photos=sum(len(entries(fitting, "photos")) for _, _, _, fitting in fittings_held(document)),
        taken=day_month_of(taken[0], today) if taken else "",
        since=day_month_of(taken[1], today) if len(taken) > 1 else "",
        measurements=tuple(measurement_rows(days, today, unit)),
        ease=tuple(_ease_rows(document, unit)),
        garments=tuple(garment_rows(document, today)),
        fittings=tuple(fitting_rows(document, today)),
    )


def measurement_rows(
    days: Sequence[Measured], today: date, unit: Unit
) -> Iterator[MeasurementRow]:
    """Yield every measurement ever taken as it is now, in the order the client stands."""
    began = next((day for each in days if (day := read_day(each.on))), today)
    for number in _numbers(days):
        taken = points(days, number.measurement, number.side)
        if not taken:
            continue
        first, last = taken[0], taken[-1]
        before = taken[-2] if len(taken) > 1 else None
        yield MeasurementRow(
            number=number,
            label=number.label,
            value=write_length(last.mm, unit),
            on=day_month_of(last.on, today),
            since=day_month_of(before.on, today) if before else "",
            since_last=change(last.mm, before.mm, unit) if before else None,
            since_first=change(last.mm, first.mm, unit) if before else None,
            line=tuple(
                ((day - began).days, point.mm) for point in taken if (day := read_day(point.on))
            ),
        )


def _numbers(days: Sequence[Measured]) -> list[Number]:
    """Return what was ever measured, in order; with sides where they were taken last."""
    sided: dict[str, bool] = {}
    for day in days:
        sided |= {name: taken.sided for name, taken in day.values.items()}
    order = {name: at for at, name in enumerate(catalogue())}
    names = sorted(sided, key=lambda name: (order.get(name, len(order)), name))
    return [
        Number(name, side) for name in names for side in (SIDES if sided[name] else (None,))
    ]


def _ease_rows(document: Document, unit: Unit) -> Iterator[EaseRow]:
    ease = read_ease(Field(document["client"].get("ease"), "client.ease", unit_of(document)))
    for level, likes in ease.items():
        share = likes.share
        text = write_length(likes.mm, unit) if share is None else f"{share * 100:g}%"
        yield EaseRow(level, level.replace("_", " ").capitalize(), text)


def _client_since(document: Document, today: date) -> str:
    """Return the day she became a client: as written down, else the first that is known."""
    since = document["client"].get("since")
    if isinstance(since, str) and read_day(since):
        return day_month_of(since, today)
    days = [str(entry.get("on") or "") for entry in entries(document, "measurements")]
    days += [str(fitting.get("on") or "") for _, _, _, fitting in fittings_held(document)]
    known = sorted(day for day in days if read_day(day))
    return day_month_of(known[0], today) if known else ""
