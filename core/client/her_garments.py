"""Her garments and the fittings they had, line by line as they are listed."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import date
from typing import Any

from core.client.facts import entries, id_of, next_fitting
from core.client.fitting_words import counted_pins, which
from core.client.over_time import Document
from core.days import day_month_of, read_day, read_time, when
from core.draft.kinds import kind


@dataclass(frozen=True, slots=True)
class GarmentRow:
    """One garment; ``words`` is the line under its name, ``due`` how near its day is.

    ``over``: its day has passed and it was not collected.
    """

    id: str
    name: str
    kind_label: str
    stage: str
    pins: int
    due: str
    over: bool
    words: str


@dataclass(frozen=True, slots=True)
class FittingRow:
    """One fitting of one garment: ``Today, first fitting``."""

    garment_id: str
    id: str
    title: str
    garment: str
    pins: int


def garment_rows(document: Document, today: date) -> Iterator[GarmentRow]:
    """Yield the garments, the newest first and what was collected after the others."""
    garments = list(enumerate(entries(document, "garments"), 1))
    for number, garment in sorted(garments, key=lambda each: (_collected(each[1]), -each[0])):
        fittings = entries(garment, "fittings")
        due, pins = read_day(garment.get("due")), entries(fittings[-1], "pins") if fittings else []
        stage = _which(fittings[-1], len(fittings)) if fittings else ""
        open_due = due if due and not _collected(garment) else None
        yield GarmentRow(
            id=id_of(garment, "garment", number),
            name=str(garment.get("name") or ""),
            kind_label=_kind_label(garment),
            stage=stage,
            pins=len(pins),
            due=when(open_due, today) if open_due else "",
            over=open_due is not None and open_due < today,
            words=_garment_words(garment, stage, len(pins), today),
        )


def fitting_rows(document: Document, today: date) -> Iterator[FittingRow]:
    """Yield the fittings of every garment, the last one first."""
    held = list(fittings_held(document))
    for garment_id, garment, number, fitting in sorted(
        held, key=lambda each: str(each[3].get("on") or ""), reverse=True
    ):
        on = str(fitting.get("on") or "")
        day = "Today" if read_day(on) == today else day_month_of(on, today)
        title = ", ".join(filter(None, [day, f"{_which(fitting, number)} fitting"]))
        yield FittingRow(
            garment_id=garment_id,
            id=id_of(fitting, "fitting", number),
            title=title[:1].upper() + title[1:],
            garment=str(garment.get("name") or ""),
            pins=len(entries(fitting, "pins")),
        )


def fittings_held(
    document: Document,
) -> Iterator[tuple[str, Mapping[str, Any], int, Mapping[str, Any]]]:
    """Yield every fitting with its garment's id, the garment, and which of its fittings it is."""
    for place, garment in enumerate(entries(document, "garments"), 1):
        for number, fitting in enumerate(entries(garment, "fittings"), 1):
            yield id_of(garment, "garment", place), garment, number, fitting


def _which(fitting: Mapping[str, Any], number: int) -> str:
    """Return what a fitting is called: its stage, or which one it is."""
    stage = fitting.get("stage")
    return stage.strip() if isinstance(stage, str) and stage.strip() else which(number)


def _collected(garment: Mapping[str, Any]) -> bool:
    return read_day(garment.get("collected")) is not None


def _kind_label(garment: Mapping[str, Any]) -> str:
    name = str(garment.get("kind") or "")
    known = kind(name)
    return known.label if known else name.replace("_", " ")


def _garment_words(garment: Mapping[str, Any], stage: str, pins: int, today: date) -> str:
    """Return ``sheath dress, basted fitting, 4 pins, due tomorrow`` or when it was collected."""
    said = [str(garment.get("kind") or "").replace("_", " ")]
    if _collected(garment):
        said.append(f"collected {day_month_of(str(garment['collected']), today)}")
        return ", ".join(filter(None, said))
    said += [f"{stage} fitting" if stage else "", counted_pins(pins)]
    coming, due = read_time(next_fitting(garment)), read_day(garment.get("due"))
    if coming:
        said.append(f"next fitting {when(coming.date(), today)}")
    elif due:
        said.append(when(due, today) if due < today else f"due {when(due, today)}")
    return ", ".join(filter(None, said))
