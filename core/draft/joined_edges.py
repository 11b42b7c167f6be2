"""The edge a part is joined to: its finished round, and the radius of a part cut to it."""

from typing import Any

from core.draft.before_cutting import finished_girth
from core.draft.circles import inner_radius_mm
from core.lengths import MM_PER_UNIT, Unit
from core.records.garment import Garment, Joined

_NEARLY_UNITS = 0.006
"""A radius is written to two places: one no further than this from its edge's is that edge's."""


def joined_round_mm(garment: Garment, part: Joined) -> float | None:
    """Return the edge a part is joined to, times its fullness (mm); ``None`` where not known.

    A half ring's whole round; one copy of a closed ring, the larger where left and right
    are unlike.
    """
    layer = garment.layer(part.layer)
    ring = next((ring for ring in layer.rings if ring.id == part.ring), None) if layer else None
    if ring is None or not ring.pieces or not ring.whole_at(part.level):
        return None
    if ring.kind == "half":
        return finished_girth(garment, ring, part.level, None) * part.fullness
    left, right = (finished_girth(garment, ring, part.level, side) for side in ("left", "right"))
    return max(left, right) * part.fullness


def radius_for(garment: Garment, part: Joined) -> float | None:
    """Return the radius to cut a circular part with (mm); ``None`` where it is not known.

    Raises ``NoCircle`` for no turns.
    """
    edge = joined_round_mm(garment, part)
    return None if edge is None or part.turns is None else inner_radius_mm(edge, part.turns)


def write_radius(mm: float, unit: Unit) -> float:
    """Return a radius as the file keeps it: a number in its unit, to two places."""
    return round(mm / MM_PER_UNIT[unit], 2)


def follow_edges(before: Garment, after: Garment, written: dict[str, Any], unit: Unit) -> None:
    """Bring radii that were worked out from their edge up to where the edge is now.

    A radius of her own stays: one further from its edge's than the rounding, or just typed.
    """
    worked = {part.id: part.inner_radius for part in before.joined
              if is_worked_out(before, part, unit)}  # fmt: skip
    for part, entry in zip(after.joined, written.get("joined") or [], strict=True):
        untouched = part.id in worked and part.inner_radius == worked[part.id]
        radius = radius_for(after, part) if untouched or part.inner_radius is None else None
        if radius is not None and not is_worked_out(after, part, unit):
            entry["inner_radius"] = write_radius(radius, unit)


def is_worked_out(garment: Garment, part: Joined, unit: Unit) -> bool:
    """Tell whether a part's radius is that of the edge it joins."""
    radius = radius_for(garment, part)
    if radius is None or part.inner_radius is None:
        return False
    return abs(radius - part.inner_radius) <= _NEARLY_UNITS * MM_PER_UNIT[unit]
