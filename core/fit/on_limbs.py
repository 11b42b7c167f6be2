"""What of a garment lies on her arms or legs: sleeves, and legs from the fork down.

Whether a closed ring is on an arm or a leg, or round the trunk, is known from what the file
says of it: how many copies there are, which seam goes on into the ring above, what its levels
measure on the body, and where it begins beside the rings of the trunk.
"""

from collections.abc import Iterable, Mapping
from typing import Literal

from core.figure import standard_body as her
from core.fit.faces import Spot
from core.fit.round_her import RoundOnHer
from core.records.garment import SIDES, Garment, Layer, Ring

Lies = Literal["trunk", "arm", "leg"]

ARM_BODY = ("upper_arm_girth", "elbow_girth", "wrist_girth", "hand_girth", "armscye_girth")
LEG_BODY = ("thigh_girth", "mid_thigh_girth", "knee_girth", "calf_girth", "ankle_girth")
"""Body measurements (of ``resources/measurements.json``) that go round one arm or one leg."""

NEAREST = 6.0
"""How near the middle the inside of a leg is drawn (mm)."""


def lies_on(garment: Garment, layer: Layer, ring: Ring) -> Lies:
    """Return where a ring lies; where nothing tells, it is a leg, for it hangs lowest."""
    if ring.kind == "half":
        return "trunk"
    halves = [one for one in layer.rings if one.kind == "half"]
    beside = _beside(garment, halves, ring)
    if ring.copies == 1 and beside != "arm":
        return "trunk"
    above = {seam.id for one in halves for seam in one.seams}
    if above & {seam.id for seam in ring.seams}:
        return "leg"
    levels = [garment.levels[level] for level in ring.levels]
    if any(level.body in ARM_BODY or level.origin == "shoulder_point" for level in levels):
        return "arm"
    if any(level.body in LEG_BODY for level in levels):
        return "leg"
    return beside or "leg"


def _beside(garment: Garment, halves: Iterable[Ring], ring: Ring) -> Lies | None:
    """Return what a ring is by where it begins: below the trunk's lowest level a leg, else an arm.

    Nothing where no ring of the trunk is there to tell by.
    """
    lowest = [max(garment.levels[level].down for level in one.levels) for one in halves
              if one.levels]  # fmt: skip
    if not lowest or not ring.levels:
        return None
    first = min(garment.levels[level].down for level in ring.levels)
    return "leg" if first >= max(lowest) else "arm"


def round_of_limb(ring: Ring, heights: Mapping[str, float], *, is_arm: bool) -> RoundOnHer | None:
    """Return how a ring lies on her left arm or leg; nothing where it has no length at all."""
    ys = [heights[level] for level in ring.levels if level in heights]
    if not ys:
        return None
    top, bottom = min([*ys, her.ARMPIT if is_arm else her.CROTCH]), max(ys)
    if bottom - top < 2:
        bottom = top + 2
    sides = SIDES
    if is_arm:
        return RoundOnHer(her.arm_outer().at, her.arm_inner().at, top, bottom, sides)
    return RoundOnHer(_leg_outer, _leg_inner, top, bottom, sides)


def limb_outlines(around: RoundOnHer) -> list[tuple[Spot, ...]]:
    """Return the outlines of both sleeves or both legs, her left first."""
    at = [around.top + (around.bottom - around.top) * step / 40 for step in range(41)]
    left = (
        *((around.outer(y), y) for y in at),
        *((around.inner(y), y) for y in reversed(at)),
    )
    return [left, tuple((-x, y) for x, y in left)]


def _leg_outer(y: float) -> float:
    return her.leg_middle().at(y) + her.leg_half_width().at(y)


def _leg_inner(y: float) -> float:
    return max(her.leg_middle().at(y) - her.leg_half_width().at(y), NEAREST)
