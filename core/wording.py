"""Amounts, places and sides in the words of the workroom."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from core.lengths import Unit, write_length

_COUNTS = (
    "no",
    "one",
    "two",
    "three",
    "four",
    "five",
    "six",
    "seven",
    "eight",
    "nine",
    "ten",
    "eleven",
    "twelve",
)


_FINEST_WRITTEN_MM: dict[Unit, float] = {"in": 25.4 / 16, "cm": 0.1, "mm": 0.1}
"""What a written length is a whole number of; less than half of it is written as nothing."""


@dataclass(frozen=True, slots=True)
class Words:
    """Writes lengths in one unit."""

    unit: Unit

    def length(self, mm: float) -> str:
        """Return the size of a length, without its sign: ``5/8``."""
        return write_length(abs(mm), self.unit, fine=True)

    def shows(self, mm: float) -> bool:
        """Tell whether a length is written as more than nothing."""
        return abs(mm) > _FINEST_WRITTEN_MM[self.unit] / 2

    def signed(self, mm: float) -> str:
        return write_length(mm, self.unit, fine=True)

    def with_unit(self, mm: float) -> str:
        return write_length(abs(mm), self.unit, with_unit=True, fine=True)

    def shown(self, mm: float) -> float:
        """Return a length as it is written, in mm, so that written sums can be added up."""
        mark = _FINEST_WRITTEN_MM[self.unit]
        return round(mm / mark) * mark

    def plus(self, mm: float) -> str:
        """Return ``+ 1`` or ``- 1``, as it stands in a sum."""
        return f"{'-' if mm < 0 else '+'} {self.length(mm)}"

    def way(self, mm: float) -> str:
        """Return ``take in 5/8`` or ``let out 5/8``; ``nothing`` where it is written as that."""
        return f"{direction(mm)} {self.length(mm)}" if self.shows(mm) else "nothing"


def counted(number: int, noun: str, plural: str = "") -> str:
    """Return ``four edges``; past twelve the figure."""
    word = _COUNTS[number] if number < len(_COUNTS) else str(number)
    return f"{word} {noun if number == 1 else plural or noun + 's'}"


def direction(mm: float) -> str:
    return "take in" if mm < 0 else "let out"


def moved(mm: float) -> str:
    return "taken in" if mm < 0 else "let out"


def whose(side: str | None) -> str:
    """Return ``her left``; a whole round or a centre seam has no side."""
    return "" if side is None else f"her {side}"


def listed(words: Sequence[str], joint: str = "and") -> str:
    """Return ``a, b and c``."""
    return f" {joint} ".join(filter(None, [", ".join(words[:-1]), words[-1]])) if words else ""


def sentence(text: str) -> str:
    """Return the text with a capital and a full stop."""
    text = text.strip()
    return text if not text else text[0].upper() + text[1:] + ("" if text[-1] in ".?!" else ".")


def sentences(parts: Iterable[str]) -> str:
    return " ".join(sentence(part) for part in parts if part)
