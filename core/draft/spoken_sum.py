"""Working a printed sum again: ``7 1/2 (waist 30 / 4) + 1 (dart) = 8 1/2``."""

import re
from dataclasses import dataclass

from core.errors import BadLength
from core.lengths import Unit, read_length

_IN_BRACKETS = re.compile(r"\([^()]*\)")


@dataclass(frozen=True, slots=True)
class Worked:
    """What the terms of a printed sum come to, and what it says they do (mm)."""

    terms: float
    result: float


def work_again(said: str, unit: Unit) -> Worked | None:
    """Return a printed sum worked again; ``None`` where it is not one that can be read.

    What stands in brackets is words.

    >>> work_again("70 (waist 280 / 4) - 5 (back is less) = 65", "mm")
    Worked(terms=65.0, result=65.0)
    """
    left, equals, right = _IN_BRACKETS.sub("", said).rpartition("=")
    parts = re.split(r"\s([-+])\s", left.strip())
    try:
        terms = read_length(parts[0], unit).mm
        for sign, part in zip(parts[1::2], parts[2::2], strict=True):
            terms += read_length(part, unit).mm * (-1 if sign == "-" else 1)
        return Worked(terms, read_length(right, unit).mm) if equals else None
    except BadLength:
        return None
