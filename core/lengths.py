"""Lengths: reading what a person typed, writing what a person reads.

Inside the core a length is a bare number of millimetres and its name ends in
``_mm`` where it crosses a function's edge.  An inch is 25.4 mm exactly
(international yard and pound agreement of 1959).
"""

import math
import re
from dataclasses import dataclass
from fractions import Fraction
from functools import cache, lru_cache

from core.errors import BadLength
from core.unit import Unit as Unit  # what most of the core knows as a part of lengths

MM_PER_UNIT: dict[Unit, float] = {"in": 25.4, "cm": 10.0, "mm": 1.0}
UNIT_WORDS: dict[str, Unit] = {
    "in": "in",
    "inch": "in",
    "inches": "in",
    '"': "in",
    "″": "in",
    "”": "in",
    "cm": "cm",
    "mm": "mm",
}
LONGEST_MM = 20_000.0
"""Nothing she sews is longer than 20 m; a larger number is a slip of the finger."""

SMALLEST_MM = 1e-6
"""Two lengths nearer than this are the same length (rounding of the machine)."""

_GLYPHS = {
    "½": "1/2",
    "⅓": "1/3",
    "⅔": "2/3",
    "¼": "1/4",
    "¾": "3/4",
    "⅕": "1/5",
    "⅖": "2/5",
    "⅗": "3/5",
    "⅘": "4/5",
    "⅙": "1/6",
    "⅚": "5/6",
    "⅛": "1/8",
    "⅜": "3/8",
    "⅝": "5/8",
    "⅞": "7/8",
}
_GLYPH_OF = {fraction: glyph for glyph, fraction in _GLYPHS.items()}
_WRITTEN = re.compile(r"(?:(?<=\d) )?(?<![\d/])(?P<fraction>\d/\d)(?![\d/])")
_TYPED = re.compile(
    r"""(?P<sign>[-+]?)\s*
        (?: (?:(?P<whole>\d+)[\s-]+)? (?P<top>\d+)\s*/\s*(?P<bottom>\d+)
          | (?P<decimal>\d+(?:[.,]\d*)?|[.,]\d+) )
        \s*(?P<unit>[a-z]+|["″”])?""",
    re.VERBOSE | re.ASCII,
)


@dataclass(frozen=True, slots=True)
class Length:
    """A length with what was typed for it; ``mm`` is its value in millimetres."""

    mm: float
    typed: str


def read_length(typed: object, unit: Unit) -> Length:
    """Return the length that was typed, in ``unit`` where it names none itself.

    Takes whole numbers, decimals with point or comma, and fractions with a
    space, a hyphen or one sign; raises ``BadLength`` quoting what it cannot read.

    >>> read_length("14 3/8", "in").mm
    365.125
    >>> read_length("36,5 cm", "in").mm
    365.0
    >>> read_length("-¼", "in").mm
    -6.35
    """
    if isinstance(typed, str):
        return _read_text(typed, unit)
    if isinstance(typed, bool) or not isinstance(typed, (int, float)):
        raise BadLength(f"{_quoted(typed)} is not a length")
    return _read(_plain_number(typed), typed, unit)


@lru_cache(maxsize=8192)
def _read_text(text: str, unit: Unit) -> Length:
    """Return a length that was typed: a file says the same few again and again."""
    return _read(text, text, unit)


def _read(text: str, typed: object, unit: Unit) -> Length:
    found = _TYPED.fullmatch(_plain_signs(text)) if len(text) <= 60 else None
    if found is None:
        raise BadLength(f"{_quoted(typed)} is not a length")
    said = found["unit"]
    if said is not None and said not in UNIT_WORDS:
        raise BadLength(f"{_quoted(typed)}: the unit is in, cm or mm")
    mm = _value(found, typed) * MM_PER_UNIT[UNIT_WORDS[said] if said else unit]
    if abs(mm) > LONGEST_MM:
        raise BadLength(f"{_quoted(typed)} is longer than 20 m")
    return Length(mm, text)


def write_length(
    mm: float, unit: Unit, *, fraction: int = 16, with_unit: bool = False, fine: bool = False
) -> str:
    """Return ``mm`` as people read it in ``unit``, rounded to what they can see.

    Inches carry a fraction in lowest terms, to the nearest 1/``fraction``
    (8, 16 or 32); centimetres one decimal; millimetres none.  ``fine`` writes one decimal
    more where there is one, so that sums can be checked.

    >>> write_length(365.125, "in"), write_length(365.125, "cm", with_unit=True)
    ('14 3/8', '36.5 cm')
    """
    if not math.isfinite(mm):
        raise BadLength(f"{mm} is not a length")
    if unit == "in":
        text = _inches(mm, fraction)
    else:
        text = _decimal(mm / MM_PER_UNIT[unit], (1 if unit == "cm" else 0) + fine)
    return f"{text} {unit}" if with_unit else text


def mm_written(typed: object, unit: Unit) -> float | None:
    """Return a written length in mm; nothing where there is none that can be read."""
    if typed is None or typed == "":
        return None
    try:
        return read_length(typed, unit).mm
    except BadLength:
        return None


def write_glyphs(text: str) -> str:
    """Return ``text`` with its written fractions as single signs where there are such.

    >>> write_glyphs("14 3/8"), write_glyphs("-1/4 in"), write_glyphs("7 3/16")
    ('14⅜', '-¼ in', '7 3/16')
    """
    return _WRITTEN.sub(lambda found: _GLYPH_OF.get(found["fraction"], found[0]), text)


def _value(found: re.Match[str], typed: object) -> float:
    if found["decimal"] is not None:
        value = float(found["decimal"].replace(",", "."))
    elif int(found["bottom"]) == 0:
        raise BadLength(f"{_quoted(typed)} divides by nothing")
    else:
        value = float(int(found["whole"] or 0) + Fraction(int(found["top"]), int(found["bottom"])))
    return -value if found["sign"] == "-" else value


def _plain_signs(text: str) -> str:
    text = text.strip().lower().replace("−", "-").replace("–", "-").replace("⁄", "/")
    for glyph, fraction in _GLYPHS.items():
        text = text.replace(glyph, f" {fraction} ")  # spaced, or “1½2” would read as 1 1/22
    return re.sub(r"^([-+])\s+", r"\1", text.strip())


def _plain_number(value: float) -> str:
    if value != value or abs(value) > LONGEST_MM:  # too large even in millimetres
        raise BadLength(f"{_quoted(value)} is not a length")
    return f"{value:.12f}".rstrip("0").rstrip(".")


def _inches(mm: float, fraction: int) -> str:
    parts = round(abs(mm) / MM_PER_UNIT["in"] * fraction)
    return ("-" if mm < 0 and parts else "") + _fraction(parts, fraction)


@cache
def _fraction(parts: int, fraction: int) -> str:
    whole, rest = divmod(parts, fraction)
    if not rest:
        return f"{whole}"
    small = Fraction(rest, fraction)
    return f"{whole} {small}" if whole else f"{small}"


def _decimal(value: float, places: int) -> str:
    text = f"{value:.{places}f}"
    text = text.rstrip("0").rstrip(".") if places else text
    return "0" if text in ("-0", "") else text


def _quoted(typed: object) -> str:
    huge = isinstance(typed, int) and abs(typed) > 10**30  # writing it out could fail
    text = "a huge number" if huge else str(typed)
    return f"“{text if len(text) <= 40 else text[:37] + '…'}”"
