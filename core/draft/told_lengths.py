"""Typed lengths told with their unit, so that they mean the same in a file of another unit."""

from collections.abc import Mapping
from typing import Any

from core.errors import BadLength
from core.lengths import UNIT_WORDS, Unit, read_length

LENGTHS = frozenset({
    "allowance", "keep", "most", "comfort", "deepest", "leg_comfort", "step", "band", "ease",
    "take_up", "ends", "width", "down", "drop", "sewn", "cut", "depth", "inner_radius", "length",
    "foot", "side_set_forward", "heel_of_the_day", "below_bust_line", "stops_short",
    "keep_ease_between",
})  # fmt: skip
"""The fields of a garment in the fitting file that hold lengths (``run.down`` names a level)."""


def told(name: str, value: Any, unit: Unit) -> Any:
    """Return a field's value with its lengths told with the unit; others as they are.

    Inches stay as they were typed: a kind's bare lengths are inches.

    >>> told("allowance", {"bust": "2,5", "hip": "1 in"}, "cm"), told("ease", "4%", "cm")
    ({'bust': '2,5 cm', 'hip': '1 in'}, '4%')
    """
    if name not in LENGTHS:
        return value
    return _told(value, unit, outright=False)


def with_units(part: Any, unit: Unit, *, inside: bool = False) -> Any:
    """Return a garment of a file in ``unit`` so that any file may hold it."""
    if isinstance(part, Mapping):
        return {key: with_units(value, unit, inside=inside or key in LENGTHS)
                for key, value in part.items()}  # fmt: skip
    if isinstance(part, list):
        return [with_units(value, unit, inside=inside) for value in part]
    return _told(part, unit, outright=True) if inside else part


def tell(typed: object, unit: Unit) -> str:
    """Return one typed length with its unit; raises ``BadLength``.

    >>> tell("14 3/8", "in"), tell(2.5, "cm"), tell("2 cm", "in")
    ('14 3/8 in', '2.5 cm', '2 cm')
    """
    text = read_length(typed, unit).typed.strip()
    return text if _names_unit(text) else f"{text} {unit}"


def _told(value: Any, unit: Unit, *, outright: bool) -> Any:
    if isinstance(value, Mapping):
        return {key: _told(one, unit, outright=outright) for key, one in value.items()}
    if isinstance(value, list):
        return [_told(one, unit, outright=outright) for one in value]
    try:
        said = tell(value, unit)
    except BadLength:  # a share, a level's name, nothing
        return value
    return said if outright or unit != "in" else read_length(value, unit).typed


def _names_unit(text: str) -> bool:
    return any(text.lower().endswith(word) for word in UNIT_WORDS)
