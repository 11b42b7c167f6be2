"""The catalogue of body measurements, and which a kind of garment needs, in order."""

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from types import MappingProxyType
from typing import Any

from core.errors import NotFound
from core.records.answer import Side
from core.resources import read_resource

Value = float | Mapping[str, float]
"""A measurement in mm: one number, or ``{"left": ..., "right": ...}``."""


@dataclass(frozen=True, slots=True)
class Measurement:
    """One body measurement and how it is taken.

    ``both_sides``: the body has a left and a right one.  ``place`` is where the client
    stands (see ``places``).  ``standard_name`` and ``clause`` are those of ISO
    8559-1:2017 as listings quote them, blank where not known.  ``range_mm`` is what
    passes without a question: from memory, wide on purpose.
    """

    id: str
    label: str
    group: str
    place: str
    both_sides: bool
    how: str
    standard_name: str
    clause: str
    range_mm: tuple[float, float]

    @property
    def is_wish(self) -> bool:
        """Tell whether it is how she would like it, not how the body is."""
        return self.group == "wish"


@dataclass(frozen=True, slots=True)
class Request:
    """One measurement that a kind asks for, and on which sides; ``None`` is no side."""

    measurement: Measurement
    sides: tuple[Side | None, ...]

    @property
    def numbers(self) -> int:
        return len(self.sides)


@cache
def catalogue() -> Mapping[str, Measurement]:
    """Return every measurement by its id, in the order she stands; the rare ones included."""
    entries = _resource()["measurements"]
    return MappingProxyType({entry["id"]: _measurement(entry) for entry in entries})


def label_of(measurement_id: str) -> str:
    """Return the label of a measurement; an unknown id is put in words."""
    known = catalogue().get(measurement_id)
    return known.label if known else measurement_id.replace("_", " ").capitalize()


def places() -> dict[str, str]:
    """Return the places she stands, in order: id to the words for it."""
    return dict(_resource()["places"])


def kinds() -> tuple[str, ...]:
    """Return the ids of the kinds of garment whose measurements are known."""
    return tuple(_resource()["kinds"].values())


@cache
def needed_for(kind: str) -> tuple[Request, ...]:
    """Return what to take for a kind of garment, in the order the client stands.

    What only another kind needs is not in it.  Raises ``NotFound`` for an unknown kind.
    Bench practice without a published source.
    """
    letter = _letter(kind)
    return tuple(
        Request(
            catalogue()[line["take"]],
            ("left", "right") if line.get("both_sides") else (None,),
        )
        for line in _resource()["order"]
        if letter in line["for"]
    )


def numbers_to_take(kind: str) -> int:
    """Return how many numbers a kind asks for; raises ``NotFound`` for an unknown kind."""
    return sum(request.numbers for request in needed_for(kind))


def minutes(kind: str, helper: bool) -> int:
    """Return how long measuring takes, in whole minutes, half a minute counting as one.

    25 s a number alone, 15 s with someone writing, and 2 minutes to prepare: bench
    practice without a published source.  Raises ``NotFound`` for an unknown kind.
    """
    seconds = _resource()["seconds"]
    each = seconds["a_number_with_a_helper" if helper else "a_number_alone"]
    return int((numbers_to_take(kind) * each + seconds["to_prepare"]) / 60 + 0.5)


def tape_error_mm(measurement_id: str) -> float:
    """Return how far one reading of a measurement scatters on one day (mm).

    10 mm on large girths (body, both legs), 5 mm on the rest: a working default
    without a source.  An unknown id that ends in ``_girth`` counts as a large one.
    """
    known = catalogue().get(measurement_id)
    if known is None:
        group = "large_girth" if measurement_id.endswith("_girth") else "length"
    else:
        group = known.group
    return float(_resource()["groups"][group]["tape_error_mm"])


def _resource() -> dict[str, Any]:
    return read_resource("measurements")


def _measurement(entry: Mapping[str, Any]) -> Measurement:
    least, most = entry["range_mm"]
    return Measurement(
        id=entry["id"],
        label=entry["label"],
        group=entry["group"],
        place=entry["place"],
        both_sides=entry["both_sides"],
        how=entry["how"],
        standard_name=entry["standard_name"],
        clause=entry["clause"],
        range_mm=(float(least), float(most)),
    )


def _letter(kind: str) -> str:
    for letter, name in _resource()["kinds"].items():
        if name == kind:
            return str(letter)
    raise NotFound(f"There is no list of measurements for “{kind}”")
