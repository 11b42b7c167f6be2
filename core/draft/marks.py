"""Lengths as they are marked on the cloth: whole numbers of the finest mark.

A mark is 1/32 in, or half a millimetre where the file is metric.  Sums are worked in
whole marks, so that every sum that is printed comes out exactly.
"""

from core.lengths import MM_PER_UNIT, Unit, write_length

MARK_MM: dict[Unit, float] = {"in": 25.4 / 32, "cm": 0.5, "mm": 0.5}

_WHISKER = 1e-6
"""What the machine's rounding may take off an exact half."""


def marks_of(mm: float, unit: Unit) -> int:
    """Return ``mm`` in whole marks, a half away from nothing.

    >>> marks_of(25.4, "in"), marks_of(25.4, "cm"), marks_of(-0.25, "cm")
    (32, 51, -1)
    """
    return _whole(mm / MARK_MM[unit])


def divided(marks: int, parts: int) -> int:
    """Return one of ``parts`` equal shares in whole marks, a half away from nothing.

    >>> divided(30, 4), divided(-30, 4), divided(29, 4)
    (8, -8, 7)
    """
    return _whole(marks / parts)


def mm_of(marks: int, unit: Unit) -> float:
    """Return marks in millimetres."""
    return marks * 25.4 / 32 if unit == "in" else marks / 2


def write_marks(marks: int, unit: Unit) -> str:
    """Return marks as they are written on the draft, exactly.

    >>> write_marks(33, "in"), write_marks(485, "cm"), write_marks(485, "mm")
    ('1 1/32', '24.25', '242.5')
    """
    mm = mm_of(marks, unit)
    if unit == "in":
        return write_length(mm, unit, fraction=32)
    return f"{mm / MM_PER_UNIT[unit]:.2f}".rstrip("0").rstrip(".")


def _whole(value: float) -> int:
    size = int(abs(value) + 0.5 + _WHISKER)
    return -size if value < 0 else size
