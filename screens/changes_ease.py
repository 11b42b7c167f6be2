"""The ease that the pins leave on her, kept for next time; the list tells what it is."""

from collections.abc import Mapping
from typing import Any

from core.changes.plan_levels import ease_as_pinned
from core.client.edits import set_ease
from core.lengths import Unit, write_length
from core.records.answer import Plan
from core.records.garment import Garment
from core.wording import Words


def pinned_ease(plan: Plan, garment: Garment, unit: Unit) -> dict[str, str]:
    """Return by level the ease as pinned in the first layer, as it is written."""
    first = garment.layers[0].id
    rows = [row for row in plan.levels if row.layer == first]
    pinned = ease_as_pinned(rows, Words(unit))
    return {level: write_length(ease, unit, fine=True) for level, ease in pinned.items()}


def keep_ease(document: dict[str, Any], by_level: Mapping[str, str]) -> None:
    """Write the ease as pinned down as the client's own."""
    for level, typed in by_level.items():
        set_ease(document, level, typed)
