"""Tucks across: at which level, how deep at each place round her, and where they go.

A tuck of depth f takes 2f out of the length where it is pinned (``core.said.tucks``).
"""

from core.fit.written import CannotLog, Part, length_typed, listed
from core.lengths import Unit
from core.records.garment import Garment

PLACES = {
    "centre_front": "Centre front", "left": "Her left", "right": "Her right",
    "centre_back": "Centre back", "all round": "All round",
}  # fmt: skip
"""Where a tuck is pinned, each by itself, and what it is called."""

INTO = {
    "waist_seam": "the waist seam", "shoulder": "the shoulder",
    "pattern": "the next garment's pattern",
}  # fmt: skip
"""Where a tuck goes, as the seams allow."""


def set_tuck(
    fitting: Part, garment: Garment, unit: Unit, level: str, place: str, typed: str
) -> None:
    """Write down how deep a tuck is at one place, as typed; empty takes it away there.

    A tuck without a place any more is gone.  Raises ``BadLength``, ``CannotLog``.
    """
    if level not in garment.levels or place not in PLACES:
        raise CannotLog("A tuck is pinned at a level of the garment. The fitting is as it was")
    text = length_typed(typed, unit) if typed.strip() else ""
    tuck = _tuck_at(fitting, level)
    if tuck is None:
        if not text:
            return
        tuck = {"level": level, "depth": {}, "into": usual_into(garment, level)}
        listed(fitting, "tucks").append(tuck)
    depth = tuck.get("depth")
    depths = dict(depth) if isinstance(depth, dict) else {"all round": depth}
    depths.pop(place, None)
    if text:
        depths[place] = text
    tuck["depth"] = depths
    if not depths:
        fitting["tucks"].remove(tuck)
        if not fitting["tucks"]:
            del fitting["tucks"]


def set_into(fitting: Part, level: str, into: str) -> None:
    """Say where the tuck at a level goes; raises ``CannotLog`` where there is none."""
    tuck = _tuck_at(fitting, level)
    if tuck is None:
        raise CannotLog("There is no tuck at this level yet: give it a depth first")
    tuck["into"] = into


def usual_into(garment: Garment, level: str) -> str:
    """Return where a tuck usually goes: the waist seam where there is one, else the pattern.

    Above the waist of a garment with shoulders it is the shoulder.  Common practice, no
    published source.
    """
    waist = garment.levels.get("waist")
    joins_waist = any(part.level == "waist" for part in garment.joined)
    in_parts = any(len(layer.rings) > 1 for layer in garment.layers[:1])
    if joins_waist or (waist is not None and in_parts):
        return "waist_seam"
    above = waist is not None and garment.levels[level].down < waist.down
    return "shoulder" if above and not garment.drop else "pattern"


def _tuck_at(fitting: Part, level: str) -> Part | None:
    held = fitting.get("tucks")
    tucks = held if isinstance(held, list) else []
    return next((tuck for tuck in tucks if tuck.get("level") == level), None)
