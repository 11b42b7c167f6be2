"""How high each level of a garment lies on the neutral figure."""

from collections.abc import Iterable, Mapping

from core.figure import standard_body as her
from core.fit.faces import Spot, read_straight
from core.records.garment import Garment, Level

HEIGHTS = {
    "shoulder": her.SHOULDER, "upper_arm": 470.0, "bust": her.BUST, "under_bust": 556.0,
    "waist": her.WAIST, "top_hip": her.TOP_HIP, "hip": her.HIP, "thighs": 930.0, "thigh": 968.0,
    "knee": her.KNEE, "flare": her.FLARE, "elbow": her.ELBOW, "wrist": her.WRIST,
}  # fmt: skip
"""Where levels of these names lie on the figure; others lie between by how far down they are."""

STARTS = {"shoulder_point": her.SHOULDER_POINT[1], "waist": her.WAIST}
"""Where levels begin to count that count from a place of the body."""

LOWEST = her.FLOOR - 12


def heights_of(garment: Garment) -> dict[str, float]:
    """Return the height of each level: by its name, between two such by how far down it is.

    Levels that count from somewhere of their own (the shoulder point) are read off by themselves.
    """
    found: dict[str, float] = {}
    for origin in {level.origin for level in garment.levels.values()}:
        own = [level for level in garment.levels.values() if level.origin == origin]
        known = _known(own)
        if not known:
            known = [(0.0, STARTS.get(origin, her.WAIST))]
        for level in own:
            named = HEIGHTS.get(level.id)
            is_known = named is not None and (level.down, named) in known
            y = named if is_known and named is not None else read_straight(level.down, known)
            found[level.id] = min(y, LOWEST)
    return {name: found[name] for name in garment.levels}


def downs_of(garment: Garment, heights: Mapping[str, float]) -> tuple[Spot, ...]:
    """Return how far down the garment each height of a level is, from top to bottom."""
    counted = [level for level in garment.levels.values() if not level.origin]
    levels = counted or list(garment.levels.values())
    return tuple(sorted((level.down, heights[level.id]) for level in levels)) or ((0.0, her.WAIST),)


def _known(levels: Iterable[Level]) -> list[Spot]:
    known: list[Spot] = []
    for level in sorted(levels, key=lambda one: one.down):
        y = HEIGHTS.get(level.id)
        if y is not None and (not known or (level.down > known[-1][0] and y > known[-1][1])):
            known.append((level.down, y))
    return known
