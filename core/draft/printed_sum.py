"""A width's printed sum as terms: read, changed in one of them, and written again.

``7 1/2 (waist 30 / 4) + 1 (dart) = 8 1/2``: what stands in brackets is the term's name.
"""

import re
from collections.abc import Callable
from dataclasses import dataclass, replace

from core.draft.marks import marks_of, mm_of, write_marks
from core.errors import BadLength
from core.lengths import MM_PER_UNIT, SMALLEST_MM, Unit, read_length

_IN_BRACKETS = re.compile(r"\s*\(([^()]*)\)")
_HELD = re.compile(r"(?P<amount>[^#]*?)\s*(?:#(?P<held>\d+)#)?")


@dataclass(frozen=True, slots=True)
class SumTerm:
    """One term of a sum: its worth in mm, negative where it is taken off, and its name."""

    mm: float
    name: str


@dataclass(frozen=True, slots=True)
class PrintedSum:
    """The terms of a sum and the result it says they have (mm)."""

    terms: tuple[SumTerm, ...]
    result_mm: float

    @property
    def worth_mm(self) -> float:
        """Return what the terms come to when they are added up again."""
        return sum(term.mm for term in self.terms)

    def find(self, wanted: Callable[[SumTerm], bool]) -> SumTerm | None:
        """Return the first term that passes, or ``None``."""
        return next((term for term in self.terms if wanted(term)), None)

    def changed(self, term: SumTerm | None, by_mm: float, name: str) -> "PrintedSum":
        """Return the sum with a term worth ``by_mm`` more and named anew.

        Without a term there is a new one at the end; a term that comes to nothing goes.
        """
        terms = list(self.terms)
        at = len(terms) if term is None else terms.index(term)
        mm = (term.mm if term else 0.0) + by_mm
        terms[at : at + 1] = [] if abs(mm) < SMALLEST_MM else [SumTerm(mm, name)]
        return PrintedSum(tuple(terms), self.result_mm + by_mm)

    def renamed(self, name: Callable[[str], str]) -> "PrintedSum":
        """Return the sum with every term's name passed through ``name``."""
        return replace(
            self, terms=tuple(replace(term, name=name(term.name)) for term in self.terms)
        )


def read_sum(said: str, unit: Unit) -> PrintedSum | None:
    """Return a printed sum as terms; ``None`` where it is not one that can be read.

    >>> read_sum("70 (waist 280 / 4) - 5 (back is less) = 65", "mm").terms[1]
    SumTerm(mm=-5.0, name='back is less')
    """
    names: list[str] = []

    def hold(found: re.Match[str]) -> str:
        names.append(found[1])
        return f"#{len(names) - 1}#"

    left, equals, right = _IN_BRACKETS.sub(hold, said).rpartition("=")
    parts = ["+", *re.split(r"\s([-+])\s", left.strip())]
    try:
        terms = tuple(
            _term(sign, part, names, unit)
            for sign, part in zip(parts[::2], parts[1::2], strict=True)
        )
        return PrintedSum(terms, read_length(right, unit).mm) if equals else None
    except BadLength:
        return None


def write_sum(printed: PrintedSum, unit: Unit) -> str:
    """Return a sum as she would say it; ``read_sum`` reads it back.

    >>> write_sum(read_sum("-1/2 (in) + 3 = 2 1/2", "in"), "in")
    '-1/2 (in) + 3 = 2 1/2'
    """
    said = ""
    for term in printed.terms:
        sign = "-" if term.mm < 0 else "+"
        lead = f" {sign} " if said else "-" if term.mm < 0 else ""
        name = f" ({term.name})" if term.name else ""
        said += f"{lead}{write_exactly(abs(term.mm), unit)}{name}"
    return f"{said or '0'} = {write_exactly(printed.result_mm, unit)}"


def write_exactly(mm: float, unit: Unit) -> str:
    """Return a length in whole marks where it is one, else as a decimal that loses nothing.

    >>> write_exactly(25.4 * 3 / 32, "in"), write_exactly(25.4 * 0.3, "in")
    ('3/32', '0.3')
    """
    marks = marks_of(mm, unit)
    if abs(mm_of(marks, unit) - mm) < SMALLEST_MM:
        return write_marks(marks, unit)
    return f"{mm / MM_PER_UNIT[unit]:.5f}".rstrip("0").rstrip(".")


def _term(sign: str, part: str, names: list[str], unit: Unit) -> SumTerm:
    found = _HELD.fullmatch(part)
    if found is None:
        raise BadLength(f"“{part}” is not one term")
    mm = read_length(found["amount"], unit).mm
    name = "" if found["held"] is None else names[int(found["held"])]
    return SumTerm(-mm if sign == "-" else mm, name)
