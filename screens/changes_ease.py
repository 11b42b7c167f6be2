"""The ease that the pins leave on her, offered for next time."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from core.client.edits import set_ease
from core.lengths import Unit, write_length
from core.records.answer import Plan
from core.records.garment import Garment
from core.wording import Words, listed


@dataclass(frozen=True, slots=True)
class PinnedEase:
    """By level the ease as pinned, as it is written; ``words`` offer it."""

    by_level: Mapping[str, str]
    words: str


def pinned_ease(plan: Plan, garment: Garment, unit: Unit) -> PinnedEase:
    """Return what is left round her after the pins, at each pinned level of the first layer."""
    words, first = Words(unit), garment.layers[0].id
    found: dict[str, str] = {}
    said = []
    for row in plan.levels:
        if row.layer == first and row.body is not None and words.shows(row.pinned):
            if row.side is not None or row.verdict == "one side only":
                continue
            ease = row.after_pins - row.body
            found[row.level] = write_length(ease, unit, fine=True)
            said.append(f"{row.label.lower()} {found[row.level]}")
    if not said:
        return PinnedEase({}, "")
    return PinnedEase(found, f"Ease as pinned: {listed(said)}. Keep it as hers for next time?")


def keep_ease(document: dict[str, Any], ease: PinnedEase) -> None:
    """Write the ease as pinned down as the client's own."""
    for level, typed in ease.by_level.items():
        set_ease(document, level, typed)
