"""What was measured on which day, and how one measurement went over time."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from core.file.field import Field
from core.file.reading_fittings import read_values
from core.lengths import Unit
from core.records.answer import Side
from core.records.fitting import Taken

Document = Mapping[str, Any]


@dataclass(frozen=True, slots=True)
class Measured:
    """What was taped on one day (ISO date), by itself or at a fitting.

    ``waist_found`` says how the waist was found (natural, midway, narrowest) where it was noted.
    """

    on: str
    values: Mapping[str, Taken]
    waist_found: str = ""


@dataclass(frozen=True, slots=True)
class Point:
    """One measurement on one day (ISO date), in mm."""

    on: str
    mm: float


def unit_of(document: Document) -> Unit:
    """Return the unit of a client's file; raises ``BadFile`` where it is none."""
    said = Field(document.get("unit"), "unit", "in").one_of("in", "cm", "mm")
    return "in" if said == "in" else "cm" if said == "cm" else "mm"


def days_measured(document: Document) -> tuple[Measured, ...]:
    """Return every day she was measured, the oldest first; of one day the fitting's tape last.

    Raises ``BadFile`` naming the field where a value cannot be read.
    """
    root = Field(document, "", unit_of(document))
    days = [_measured(entry, "values") for entry in root["measurements"].each()]
    days += [
        _measured(fitting, "measurements")
        for garment in root["garments"].each()
        for fitting in garment["fittings"].each()
    ]
    return tuple(sorted((day for day in days if day.values), key=lambda day: day.on))


def points(
    days: Sequence[Measured], measurement: str, side: Side | None, waist_found: str = ""
) -> tuple[Point, ...]:
    """Return one measurement over time, the oldest first; one point a day, the last taken.

    A number without a side serves both sides; of a measurement with sides the whole is their
    mean.  A waist found otherwise than ``waist_found`` (or than on the last of these days)
    cannot be compared: such a day's measurements to or round the waist are left out.
    """
    had = [(day, mm) for day in days if (mm := _on(day, measurement, side)) is not None]
    found = waist_found or (had[-1][0].waist_found if had else "")
    by_day = {day.on: mm for day, mm in had if _comparable(day, measurement, found)}
    return tuple(Point(on, mm) for on, mm in by_day.items())


def _measured(source: Field, values: str) -> Measured:
    return Measured(
        source["on"].date(), read_values(source[values]), source["waist_found"].text()
    )


def _on(day: Measured, measurement: str, side: Side | None) -> float | None:
    taken = day.values.get(measurement)
    return taken.on(side) if taken else None


def _comparable(day: Measured, measurement: str, waist_found: str) -> bool:
    return "waist" not in measurement or not waist_found or day.waist_found in ("", waist_found)
