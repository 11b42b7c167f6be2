"""What is chosen on the tape: the number in hand, its reading, and what is typed on the keys."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any

from core.body.keypad import Keypad, keypad_of
from core.body.measurements import catalogue
from core.body.sitting import as_begun, readings, typed
from core.body.taking import MOST_READINGS, come_back, numbers_of
from core.body.tape_order import Number, kinds_of
from core.client.over_time import unit_of
from core.lengths import Unit

Document = Mapping[str, Any]


@dataclass(frozen=True, slots=True)
class Chosen:
    """What is picked on the tape; what is empty is settled from the client's file.

    ``kinds`` are what it takes for (empty: her garments in the making), ``on`` the day of the
    sitting, ``unit`` what the keys stand for and ``keys`` what is typed on them.  ``heel_worn``:
    the keys are on the heel she stands in.  ``arranging``: the order is open, with the
    measurement ``picked`` in hand.
    """

    kinds: tuple[str, ...] = ()
    on: str = ""
    number: Number | None = None
    reading: int = 0
    unit: Unit | None = None
    keys: Keypad | None = None
    heel_worn: bool = False
    arranging: bool = False
    picked: str = ""


def settled(document: Document, chosen: Chosen, today: str, sixteenths: bool) -> Chosen:
    """Return what was chosen with everything in it that is still open."""
    on = chosen.on or today
    numbers = numbers_of(document, on, kinds_for(document, chosen))
    number = _there(numbers, chosen.number)
    reading = chosen.reading if number == chosen.number else 0
    if number is None:
        number = come_back(document, on, numbers)
    unit = chosen.unit or unit_of(document)
    return replace(
        chosen,
        on=on,
        number=number,
        reading=reading,
        unit=unit,
        keys=_keys(document, replace(chosen, on=on, reading=reading), number, unit, sixteenths),
    )


def kinds_for(document: Document, chosen: Chosen) -> tuple[str, ...]:
    """Return the kinds it takes for: those picked, or those of her garments in the making."""
    return chosen.kinds or kinds_of(document)


def written(document: Document, chosen: Chosen, number: Number | None) -> str:
    """Return the text in the file of what the keys are on."""
    if chosen.heel_worn:
        return str(as_begun(document, chosen.on)["worn"].get("heel") or "")
    return typed(document, chosen.on, number, chosen.reading) if number else ""


def is_emptied(document: Document, chosen: Chosen, number: Number | None) -> bool:
    """Tell whether the keys are empty on one of several readings, which is still in the file."""
    if chosen.heel_worn or number is None or chosen.keys is None or not chosen.keys.is_empty:
        return False
    return len(readings(document, chosen.on, number)) > 1


def next_reading(reading: int, taken: int) -> int:
    """Return the reading that comes after this one; after the last the first again."""
    return reading + 1 if reading + 1 <= min(taken, MOST_READINGS - 1) else 0


def _there(numbers: Sequence[Number], wanted: Number | None) -> Number | None:
    """Return the number that was asked for, or the first side of it where it has two now.

    One that the garment does not need is taken all the same, as long as it is known.
    """
    if wanted is None or wanted in numbers:
        return wanted
    same = (number for number in numbers if number.measurement == wanted.measurement)
    return next(same, wanted if wanted.measurement in catalogue() else None)


def _keys(
    document: Document, chosen: Chosen, number: Number | None, unit: Unit, sixteenths: bool
) -> Keypad | None:  # fmt: skip
    """Return the keys as they were left, or with what is in the file where that is another.

    Emptied keys stay empty: one reading of several is taken away only when she goes on.
    """
    there, keys = written(document, chosen, number), chosen.keys
    if keys is not None and (keys.as_typed == there or is_emptied(document, chosen, number)):
        return keys.in_unit(unit)
    return keypad_of(there, unit_of(document), unit, sixteenths=sixteenths)
