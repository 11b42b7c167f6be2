"""Before she steps out: what has no side, which photos are missing, and what to tell her."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from core.client.facts import entries
from core.draft.kinds import kind
from core.fit.hemming import TRIP_MM
from core.fit.pinning import without_side
from core.fit.written import Part
from core.lengths import Unit
from core.records.fitting import Client, Fitting, Sitting
from core.records.garment import Garment
from core.said.hem import hem_changes
from core.sewn.compare import body_at, compare
from core.sewn.rounds import rounds_of
from core.wording import Words, counted, listed, sentence

VIEWS = ("front", "her left", "back", "her right")
"""The four photos of a fitting, in the order she turns."""


@dataclass(frozen=True, slots=True)
class BeforeShe:
    """Three lines before she steps out; an empty one says nothing is missing."""

    sides: str
    photos: str
    tell_her: tuple[str, ...]


def stepping_out(
    written: Part, garment: Garment, fitting: Fitting, client: Client,
    sittings: tuple[Sitting, ...], unit: Unit, *, agreed: bool,
) -> BeforeShe:  # fmt: skip
    """Return the three lines; ``agreed`` says whether she agreed to photos at all."""
    lost = without_side(written, garment)
    numbers = listed([str(index + 1) for index in lost])
    missing = missing_views(written) if agreed else ()
    return BeforeShe(
        sides=f"{'Pin' if len(lost) == 1 else 'Pins'} {numbers} without a side: counted as both"
        if lost
        else "",
        photos=f"Photos missing: {listed(missing)}" if missing else "",
        tell_her=tuple(_to_tell(garment, fitting, client, sittings, Words(unit))),
    )


def missing_views(fitting: Mapping[str, Any]) -> tuple[str, ...]:
    """Return the views that no photo of the fitting shows yet."""
    seen = {str(photo.get("view")) for photo in entries(fitting, "photos")}
    return tuple(view for view in VIEWS if view not in seen)


def _to_tell(
    garment: Garment, fitting: Fitting, client: Client, sittings: tuple[Sitting, ...], words: Words
) -> list[str]:
    said = []
    if fitting.pins:
        pins = counted(len(fitting.pins), "pin")
        said.append(sentence(f"{pins} in: count them back before she moves"))
    if _is_smaller(garment, fitting, client, sittings):
        said.append(
            "Smaller than the body: she must be able to breathe and to sit; no longer than she is"
            " comfortable in it."
        )
    said += _of_the_hem(garment, fitting, words)
    if fitting.heel_worn is None:
        said.append("Bring the shoes of the day next time.")
    return said


def _is_smaller(
    garment: Garment, fitting: Fitting, client: Client, sittings: tuple[Sitting, ...]
) -> bool:
    body = body_at(sittings, fitting)
    return any(
        entry.ease < 0
        for layer in garment.layers
        for around in rounds_of(garment, layer, fitting)
        for entry in compare(around, garment, client, kind(garment.kind), fitting, body)
        if entry.body is not None
    )


def _of_the_hem(garment: Garment, fitting: Fitting, words: Words) -> list[str]:
    if fitting.hem is None:
        return []
    said = []
    changes = hem_changes(fitting.hem, fitting.heel_worn, garment.heel_of_the_day)
    low = [one for one in changes if min(one.on_the_day_mm, fitting.hem.wanted) < TRIP_MM]
    if low:
        least = min(min(one.on_the_day_mm, fitting.hem.wanted) for one in low)
        said.append(
            f"The hem hangs {words.with_unit(max(least, 0.0))} off the floor: she may trip;"
            " slowly on stairs."
        )
    if any(point.train for point in fitting.hem.points):
        said.append("The train: hold it up on stairs.")
    return said
