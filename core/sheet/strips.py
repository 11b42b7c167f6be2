"""Move strips: for each seam that changes, its new line beside the old one, at full size.

A strip lies along the old stitching, so the old line on it is straight; the new line stands off
it by the move at every height.  Heights are those of the draft (mm down), so a strip is as long
as the seam is high.  A strip longer than a page goes on in pieces that overlap.
"""

import math
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass

from core.changes.layer_plan import LayerPlan
from core.changes.seam_line import SeamLine
from core.lengths import SMALLEST_MM, Unit
from core.records.answer import Side
from core.records.garment import SIDES, Seam
from core.said.line_cautions import seam_label
from core.wording import listed

APART_MM: dict[Unit, float] = {"in": 50.8, "cm": 50.0, "mm": 50.0}
"""Marks stand every 2 in, or every 50 mm."""

CARRIED_MM = 25.0
"""Where the amount is carried past the last level the strip goes on so far."""

OVERLAP_MM = 10.0
SHORTEST_MM = 20.0
LABEL_MM = 34.0
"""What a piece has beside its lines for the words."""

PIN = "Pin"
"""What a height is called that is no level: it was pinned there."""

_CLEAR_MM = 4.0
"""Between the levels nothing is marked nearer than this to one of them."""

_BEFORE, _BETWEEN, _AFTER = 8.5, 3.0, 6.0


@dataclass(frozen=True, slots=True)
class Mark:
    """A height that is marked: how far down, the move there (mm), and the level's label or none."""

    down: float
    move: float
    level: str = ""


@dataclass(frozen=True, slots=True)
class Strip:
    """One strip, from ``top`` to ``bottom`` (mm down).

    ``whose`` is ``her left``, ``both sides alike`` or nothing; ``edges`` which cut edges of the
    seam it is for.
    """

    number: int
    title: str
    whose: str
    edges: str
    line: SeamLine
    top: float
    bottom: float
    marks: tuple[Mark, ...]

    @property
    def taken_in_mm(self) -> float:
        return max(0.0, -min(self._moves()))

    @property
    def let_out_mm(self) -> float:
        return max(0.0, max(self._moves()))

    def _moves(self) -> list[float]:
        """Return the moves along the line; it never goes beyond its points."""
        return [move for _, move in self.line.points] + [mark.move for mark in self.marks]

    @property
    def width_mm(self) -> float:
        """Return how wide the paper is: the moves, and room for the words."""
        return _BEFORE + self.taken_in_mm + _BETWEEN + self.let_out_mm + _AFTER + LABEL_MM

    @property
    def old_line_mm(self) -> float:
        """Return how far from its left the old stitching runs."""
        return _BEFORE + self.taken_in_mm + _BETWEEN

    @property
    def words_mm(self) -> float:
        """Return how far from its left the words begin."""
        return self.old_line_mm + self.let_out_mm + _AFTER


@dataclass(frozen=True, slots=True)
class Tile:
    """One piece of a strip on the page: from ``start`` to ``end`` (mm down), with ``(x, y)``
    where its upper left corner lies on the paper (mm)."""

    strip: Strip
    number: int
    of: int
    start: float
    end: float
    x: float = 0.0
    y: float = 0.0

    def on_page(self, down: float, move: float) -> tuple[float, float]:
        """Return where a move at a height lies on the paper; taken in is to the left."""
        return self.x + self.strip.old_line_mm + move, self.y + down - self.start


def strips_of(layers: Sequence[LayerPlan], unit: Unit) -> list[Strip]:
    """Return the strips of a plan, seam by seam; edges and sides alike share one."""
    strips: list[Strip] = []
    for layer in layers:
        for seam in _seams(layer):
            for whose, edges, line in _lines(layer, seam):
                strips.append(_strip(layer, seam, (whose, edges), line, unit, len(strips) + 1))
    return strips


def _seams(layer: LayerPlan) -> Iterator[Seam]:
    seen: set[str] = set()
    for ring in layer.work.layer.rings:
        for seam in ring.seams:
            if seam.id not in seen:
                seen.add(seam.id)
                yield seam


def _lines(layer: LayerPlan, seam: Seam) -> Iterator[tuple[str, str, SeamLine]]:
    """Yield each line of a seam once, with whose side and which edges it is for."""
    alike: dict[object, list[tuple[Side | None, int]]] = {}
    found: dict[object, SeamLine] = {}
    for (name, side, position), line in sorted(layer.lines.items(), key=_order):
        if name == seam.id:
            alike.setdefault(_shape(line), []).append((side, position))
            found.setdefault(_shape(line), line)
    for shape, keys in alike.items():
        for sides, positions in _together(keys):
            yield _whose(sides), _which(layer, seam, positions), found[shape]


def _order(entry: tuple[tuple[str, Side | None, int], SeamLine]) -> tuple[int, int]:
    (_, side, position), _ = entry
    return (0 if side is None else 1 + SIDES.index(side)), position


def _shape(line: SeamLine) -> object:
    points = tuple((round(down, 3), round(move, 4)) for down, move in line.points)
    return points, line.above, line.below, line.carries_up, line.carries_down


def _together(
    keys: Sequence[tuple[Side | None, int]],
) -> Iterator[tuple[tuple[Side | None, ...], tuple[int, ...]]]:
    """Yield sides and edges that are alike: all at once, or side by side."""
    sides = tuple(dict.fromkeys(side for side, _ in keys))
    positions = {side: tuple(at for one, at in keys if one == side) for side in sides}
    if len(set(positions.values())) == 1:
        yield sides, positions[sides[0]]
        return
    for side in sides:
        yield (side,), positions[side]


def _whose(sides: Sequence[Side | None]) -> str:
    if len(sides) > 1:
        return "both sides alike"
    return f"her {sides[0]}" if sides[0] else ""


def _which(layer: LayerPlan, seam: Seam, positions: Sequence[int]) -> str:
    ring = next(ring for ring in layer.work.layer.rings if seam in ring.seams)
    if seam.joins_itself:
        return "each half" if ring.kind == "half" else "each edge"
    if len(positions) == 2 and seam.id == ring.side_line:
        return "front and back alike"
    labels = [ring.piece(seam.joins[at]).label.lower() for at in positions]
    return f"{listed(labels)} alike" if len(labels) > 1 else f"{labels[0]} only"


def _strip(
    layer: LayerPlan, seam: Seam, told: tuple[str, str], line: SeamLine, unit: Unit, number: int
) -> Strip:
    levels = {
        layer.work.down(level): layer.work.garment.levels[level].label
        for around in layer.work.rounds for edge in around.edges if edge.seam.id == seam.id
        for level in edge.levels
    }  # fmt: skip
    top, bottom = _ends(line, levels)
    lacking = max(0.0, SHORTEST_MM - (bottom - top))
    top, bottom = top - lacking / 2, bottom + lacking / 2
    marks = tuple(_marks(line, levels, (top, bottom), unit))
    return Strip(number, seam_label(layer, seam.id), *told, line, top, bottom, marks)


def _ends(line: SeamLine, levels: Iterable[float]) -> tuple[float, float]:
    """Return where a strip begins and ends: where the line is nothing, or the seam's last level.

    Where the amount is carried past every level, the strip goes on a little.
    """
    first, last = line.points[0][0], line.points[-1][0]
    top = first if line.above is None else line.above
    bottom = last if line.below is None else line.below
    if line.carries_up:
        top = min(levels, default=first)
        top = top if top < first - SMALLEST_MM else first - CARRIED_MM
    if line.carries_down:
        bottom = max(levels, default=last)
        bottom = bottom if bottom > last + SMALLEST_MM else last + CARRIED_MM
    return top, bottom


def _marks(
    line: SeamLine, levels: Mapping[float, str], ends: tuple[float, float], unit: Unit
) -> Iterator[Mark]:
    """Yield every level and pin that the strip passes, and the heights between at equal steps.

    The steps are counted from where the amounts between the levels are counted in the list.
    """
    pins = {down: PIN for down, _ in line.points
            if all(abs(down - level) > SMALLEST_MM for level in levels)}  # fmt: skip
    named = {**pins, **levels}
    top, bottom = ends[0] - SMALLEST_MM, ends[1] + SMALLEST_MM
    marks = [Mark(down, line.at(down), label) for down, label in named.items()
             if top <= down <= bottom]  # fmt: skip
    start = line.points[0][0] if line.above is None else line.above
    first, last = math.ceil((top - start) / APART_MM[unit]), (bottom - start) // APART_MM[unit]
    for step in range(first, int(last) + 1):
        down = start + step * APART_MM[unit]
        if all(abs(down - level) >= _CLEAR_MM for level in named):
            marks.append(Mark(down, line.at(down)))
    yield from sorted(marks, key=lambda mark: mark.down)


def tiles_of(strip: Strip, height_mm: float) -> list[Tile]:
    """Return a strip in pieces of at most ``height_mm``, each over the last by the overlap."""
    whole = strip.bottom - strip.top
    step = height_mm - OVERLAP_MM
    of = 1
    while height_mm + (of - 1) * step < whole - SMALLEST_MM:
        of += 1
    return [
        Tile(strip, number + 1, of, start := strip.top + number * step,
             min(start + height_mm, strip.bottom))
        for number in range(of)
    ]  # fmt: skip


def laid_out(
    strips: Sequence[Strip], area: tuple[float, float, float, float], gap_mm: float = 3.0
) -> list[list[Tile]]:
    """Return the pieces of all strips page by page, side by side from the left.

    ``area`` is what a page has for them: left, top, right, bottom (mm).  A strip that is wider
    than the page would be cut off, so nothing may move so far: edges move an inch or two.
    """
    left, top, right, bottom = area
    pages: list[list[Tile]] = []
    x = right
    for strip in strips:
        for tile in tiles_of(strip, bottom - top):
            if x + strip.width_mm > right + SMALLEST_MM and (x > left or not pages):
                pages.append([])
                x = left
            pages[-1].append(Tile(strip, tile.number, tile.of, tile.start, tile.end, x, top))
            x += strip.width_mm + gap_mm
    return pages
