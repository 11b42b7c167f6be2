"""Parts joined to a draft drawn to scale: flounces cut on the round, godets, bands (mm).

A part cut on the round is a sector of a ring about (0, 0), open downwards; a godet is a sector
about its point; a band lies flat.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from math import ceil, cos, pi, radians, sin
from typing import Any

from core.curves import Point
from core.draft.document import label_in, named
from core.draft.joined_edges import radius_for
from core.lengths import Unit, mm_written, read_length
from core.records.garment import Garment, Joined

Polyline = tuple[Point, ...]

ARC_STEP_MM = 10.0
"""How far apart the points of an arc are."""

BAND_MM = 75.0
"""A band whose depth the draft does not have is drawn so deep."""


@dataclass(frozen=True, slots=True)
class PartOutline:
    """One part to scale: how often it is cut, its lengths by name (mm), what is to be said.

    ``cut`` and ``stitch`` are closed outlines, the first point once; ``grain`` is upright.
    """

    part: str
    label: str
    layer: str
    cut: Polyline
    stitch: Polyline
    grain: Polyline
    count: int
    lengths: tuple[tuple[str, float], ...]
    note: str

    @property
    def bounds(self) -> tuple[float, float, float, float]:
        """Return the least x and y and the greatest x and y of the cut edge."""
        xs, ys = zip(*self.cut, strict=True)
        return min(xs), min(ys), max(xs), max(ys)


def part_outlines(
    garment: Garment, written: Mapping[str, Any], layer: str, unit: Unit
) -> tuple[PartOutline, ...]:
    """Return the parts of a layer that can be drawn: on the round, bands, then godets.

    ``written`` is the garment in the document (a godet's length and foot are only there).
    """
    joined = dict(named(dict(written), "joined"))
    found = [_joined(garment, part, joined[part.id], unit) for part in garment.joined
             if part.layer == layer]  # fmt: skip
    inserts = {insert.id: insert for insert in garment.inserts if insert.layer == layer}
    godets = [_godet(name, entry, layer, inserts[name].allowance or 0.0, unit)
              for name, entry in named(dict(written), "inserts") if name in inserts]  # fmt: skip
    return tuple(part for part in (*found, *godets) if part is not None)


def sector(inner_mm: float, outer_mm: float, angle_degrees: float) -> Polyline:
    """Return a closed ring sector about (0, 0) that opens downwards, outer arc first.

    Raises ``ValueError`` for an angle of nothing or beyond a full circle.
    """
    if not 0 < angle_degrees <= 360:
        raise ValueError("a sector is more than nothing and at most a full circle")
    half = radians(angle_degrees) / 2
    outer = list(_arc(outer_mm, half))
    inner = list(_arc(inner_mm, half)) if inner_mm > 0 else [(0.0, 0.0)]
    return (*outer, *reversed(inner))


def _arc(radius: float, half_angle: float) -> Iterator[Point]:
    steps = max(8, ceil(2 * half_angle * radius / ARC_STEP_MM))
    for step in range(steps + 1):
        angle = half_angle * (2 * step / steps - 1)
        yield radius * sin(angle), radius * cos(angle)


def _joined(
    garment: Garment, part: Joined, written: Mapping[str, Any], unit: Unit
) -> PartOutline | None:
    if part.turns:
        return _round_part(garment, part)
    length = mm_written(written.get("cut"), unit)
    return None if length is None else _band(part, length)


def _round_part(garment: Garment, part: Joined) -> PartOutline | None:
    """Return a part cut on the round; more than one turn is cut in as many equal circles."""
    radius = part.inner_radius if part.inner_radius is not None else radius_for(garment, part)
    turns = part.turns or 0.0
    if radius is None or part.depth <= 0 or turns <= 0:
        return None
    count = ceil(turns - 1e-9)
    outline = sector(radius, radius + part.depth, 360 * turns / count)
    lengths = (
        ("inner radius", radius),
        ("depth", part.depth),
        ("upper edge", 2 * pi * turns * radius),
        ("hem", 2 * pi * turns * (radius + part.depth)),
    )
    middle = radius + part.depth / 2
    grain = ((0.0, middle - part.depth / 4), (0.0, middle + part.depth / 4))
    return PartOutline(
        part.id, part.label, part.layer, outline, outline, grain, count, lengths,
        "Sewn edges: allowances are not in the draft",
    )  # fmt: skip


def _band(part: Joined, length: float) -> PartOutline:
    deep = part.depth or BAND_MM
    outline = ((0.0, 0.0), (length, 0.0), (length, deep), (0.0, deep))
    grain = ((length * 0.3, deep / 2), (length * 0.7, deep / 2))
    note = "" if part.depth else "Its depth is not drafted"
    return PartOutline(
        part.id, part.label, part.layer, outline, outline, grain, 1, (("cut", length),), note
    )  # fmt: skip


def _godet(
    name: str, written: Mapping[str, Any], layer: str, allowance: float, unit: Unit
) -> PartOutline | None:
    """Return a godet: a sector about its point, its two sides with their allowance outside."""
    length, foot = (mm_written(written.get(what), unit) for what in ("length", "foot"))
    if not length or not foot or foot > 2 * pi * length:
        return None
    half = foot / length / 2
    stitch = sector(0.0, length, 360 * foot / length / (2 * pi))
    lengths = (("length", length), ("foot", foot))
    grain = ((0.0, length * 0.55), (0.0, length * 0.9))
    count = int(read_length(written.get("count", 1), "mm").mm)
    return PartOutline(
        name, label_in(written, name), layer, _wider(stitch, length, half, allowance), stitch,
        grain, count, lengths, "",
    )  # fmt: skip


def _wider(stitch: Polyline, length: float, half: float, allowance: float) -> Polyline:
    """Return a sector with its two sides moved outward by an allowance, its hem left as it is.

    The sides meet above the point; a sector of half a circle or more keeps a flat top.
    """
    if allowance <= 0 or half >= pi / 2:
        return stitch
    peak = allowance / sin(half)
    foot_x = length * sin(half) + allowance * cos(half)
    foot_y = length * cos(half) - allowance * sin(half)
    hem = [point for point in stitch if point != (0.0, 0.0)]
    return (-foot_x, foot_y), *hem, (foot_x, foot_y), (0.0, -peak)
