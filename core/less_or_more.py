"""A change of the body in plain words: less, more or the same, never a colour or a sign alone."""

from dataclasses import dataclass
from typing import Literal

from core.lengths import MM_PER_UNIT, Unit, write_length

Way = Literal["less", "more", "the same"]

_SHOWN_MM: dict[Unit, float] = {"in": MM_PER_UNIT["in"] / 16, "cm": 1.0, "mm": 1.0}
"""What a length on the screen is a whole number of."""


@dataclass(frozen=True, slots=True)
class Change:
    """How a measurement changed; ``mm`` is negative where it became less.

    ``amount`` is its size as shown (``1 3/4``), empty where it is the same; ``words`` both
    together (``1 3/4 less``, ``the same``).
    """

    mm: float
    way: Way
    amount: str

    @property
    def words(self) -> str:
        return f"{self.amount} {self.way}".strip()


def change(now_mm: float, before_mm: float, unit: Unit) -> Change:
    """Return the change between two lengths as they are shown, so that she can take one from
    the other and find it.

    >>> change(793.75, 838.2, "in").words, change(1000, 1000.2, "cm").words
    ('1 3/4 less', 'the same')
    """
    mm = _shown(now_mm, unit) - _shown(before_mm, unit)
    way: Way = "less" if mm < 0 else "more" if mm > 0 else "the same"
    return Change(mm, way, write_length(abs(mm), unit) if mm else "")


def _shown(mm: float, unit: Unit) -> float:
    return round(mm / _SHOWN_MM[unit]) * _SHOWN_MM[unit]
