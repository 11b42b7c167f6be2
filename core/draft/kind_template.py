"""A kind's template made ready for one client: levels she has no girth for, and the unit."""

from collections.abc import Collection, Mapping
from typing import Any

from core.draft.marks import marks_of, write_marks
from core.draft.rule_terms import measurements_in
from core.errors import BadLength
from core.lengths import Unit, read_length

_LENGTHS = frozenset({
    "allowance", "keep", "most", "comfort", "deepest", "ease", "side_set_forward", "foot",
    "length", "below_bust_line", "stops_short", "keep_ease_between",
})  # fmt: skip


def left_out(template: Mapping[str, Any], taken: Collection[str]) -> frozenset[str]:
    """Return the optional levels for which a measurement was not taken."""
    return frozenset(
        level["id"]
        for level in template["levels"]
        if level.get("optional")
        and not {level["body"], *measurements_in(level["rule"])} <= set(taken)
    )


def without_levels(part: Any, gone: Collection[str]) -> Any:
    """Return a part of a template without every value that names one of these levels."""
    if isinstance(part, Mapping):
        return {key: without_levels(value, gone) for key, value in part.items()
                if key not in gone and not _names(key, value, gone)}  # fmt: skip
    if isinstance(part, list):
        return [without_levels(value, gone) for value in part
                if not (isinstance(value, str) and value in gone)
                and not (isinstance(value, Mapping) and value.get("id") in gone)]  # fmt: skip
    return part


def in_unit(part: Any, unit: Unit, *, inside: bool = False) -> Any:
    """Return a part of a template with its lengths, typed in inches, in the file's unit.

    In inches they stay as they were typed; in metric each is the nearest mark.
    """
    if unit == "in":
        return part
    if isinstance(part, Mapping):
        return {key: in_unit(value, unit, inside=inside or key in _LENGTHS)
                for key, value in part.items()}  # fmt: skip
    if isinstance(part, list):
        return [in_unit(value, unit, inside=inside) for value in part]
    return _metric(part, unit) if inside and isinstance(part, str) else part


def _names(key: str, value: Any, gone: Collection[str]) -> bool:
    return key in ("up", "down") and isinstance(value, str) and value in gone


def _metric(typed: str, unit: Unit) -> str:
    try:
        return write_marks(marks_of(read_length(typed, "in").mm, unit), unit)
    except BadLength:
        return typed
