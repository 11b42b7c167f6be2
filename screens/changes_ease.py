"""The ease that the pins leave on her, kept for next time; the list tells what it is."""

from collections.abc import Mapping
from typing import Any

from core.client.edits import set_ease
from core.lengths import Unit, write_length
from core.records.answer import Plan
from core.records.garment import Garment
from core.wording import Words


def pinned_ease(plan: Plan, garment: Garment, unit: Unit) -> dict[str, str]:
    """Return by level the ease as pinned, as it is written: what is left round her after the pins.

    At each level of the first layer's whole rounds that was pinned on both sides.
    """
    words, first = Words(unit), garment.layers[0].id
    return {
        row.level: write_length(row.after_pins - row.body, unit, fine=True)
        for row in plan.levels
        if row.layer == first and row.body is not None and words.shows(row.pinned)
        and row.side is None and row.verdict != "one side only"
    }  # fmt: skip


def keep_ease(document: dict[str, Any], by_level: Mapping[str, str]) -> None:
    """Write the ease as pinned down as the client's own."""
    for level, typed in by_level.items():
        set_ease(document, level, typed)
