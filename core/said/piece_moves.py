"""The pieces of a layer to scale with their moves along the edges: old stitching and new line.

Where a free panel's edges lie is not fixed by its widths, so the outline is a help for the eye;
what counts is the move, written at each level.  Moves are drawn ``LARGER`` times over.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from core.changes.layer_plan import LayerPlan
from core.changes.seam_line import SeamLine
from core.curves import Point
from core.draft.document import find
from core.file.fitting_file import FittingFile
from core.lengths import SMALLEST_MM, Unit
from core.outline.piece_edges import PieceEdges, edges_of
from core.outline.piece_outline import PieceOutline, piece_outlines
from core.records.answer import Plan, Side
from core.records.garment import SIDES, Garment, Ring
from core.share.pinned import LineKey
from core.wording import Words

LARGER = 3.0
_STEP_MM = 8.0
_ON_EDGE_MM = 0.05

_TOWARDS = {"front": -1, "back": 1}
"""Which way x goes when an edge is let out: the front edge towards the front, less."""


@dataclass(frozen=True, slots=True)
class Amount:
    """What is written beside an edge: where the old stitching is (mm), and what it says."""

    at: Point
    outwards: int
    text: str


@dataclass(frozen=True, slots=True)
class MovedPiece:
    """A piece with its new lines, for her left or right or both; mm, as the outline lies."""

    outline: PieceOutline
    side: Side | None
    new: tuple[tuple[Point, ...], ...]
    amounts: tuple[Amount, ...]


def moved_pieces(
    plan: LayerPlan, plan_of: Plan, file: FittingFile, garment: Garment, unit: Unit
) -> list[MovedPiece]:
    """Return the pieces of a layer that move, ring by ring; a side of its own where unlike."""
    written = find(file.data, "garments", garment.id)
    layer = plan.work.layer
    found = []
    for outline in piece_outlines(garment, written, layer.id, unit):
        ring = next(ring for ring in layer.rings if ring.id == outline.ring)
        entry = find(find(dict(written), "layers", layer.id), "rings", ring.id)
        for side in _sides(plan, ring, outline):
            piece = _moved(plan, garment, ring, outline, side, entry, Words(unit))
            if any(piece.new):
                found.append(piece)
    return found


def _sides(plan: LayerPlan, ring: Ring, outline: PieceOutline) -> tuple[Side | None, ...]:
    """Return whose side to draw: one where left and right are alike."""
    if outline.side is not None:
        return (outline.side,)
    seams = {seam.id for seam in ring.seams if outline.piece in seam.joins}
    for name, side, position in plan.lines:
        other = {"left": "right", "right": "left"}.get(side or "")
        if name in seams and other is not None and not _same(
            plan.lines[name, side, position], plan.lines.get((name, other, position))  # type: ignore[arg-type]
        ):
            return SIDES
    return (None,)


def _same(one: SeamLine, other: SeamLine | None) -> bool:
    return other is not None and (one is other or one.points == other.points)


def _moved(
    plan: LayerPlan, garment: Garment, ring: Ring, outline: PieceOutline, side: Side | None,
    written: Mapping[str, Any], words: Words,
) -> MovedPiece:  # fmt: skip
    index = SIDES.index(side) if side else 0
    edges = edges_of(garment, ring, ring.piece(outline.piece), index, written)
    new, amounts = [], []
    for towards in ("front", "back"):
        for line in _lines(plan, edges, towards, side):
            new.append(_moving(list(_new_line(edges, outline, towards, line))))
            amounts += list(_amounts(edges, towards, line, words))
    return MovedPiece(outline, side, tuple(filter(None, new)), tuple(amounts))


def _lines(
    plan: LayerPlan, edges: PieceEdges, towards: str, side: Side | None
) -> Iterator[SeamLine]:
    """Yield the new line of one edge of a piece; a centre seam's has no side."""
    piece = edges.piece.id
    for seam in (edges.front if towards == "front" else edges.back).seams:
        position = seam.joins.index(piece)
        keys: list[LineKey] = [(seam.id, one, position) for one in (side, None, "left")]
        line = next((plan.lines[key] for key in keys if key in plan.lines
                     and (key[1] != "left" or side in (None, "left"))), None)  # fmt: skip
        if line is not None:
            yield line


def _moving(points: Sequence[tuple[Point, float]]) -> tuple[Point, ...]:
    """Return the part of a line that moves, with where it leaves the old one."""
    moving = [number for number, (_, move) in enumerate(points) if abs(move) > SMALLEST_MM]
    if not moving:
        return ()
    return tuple(point for point, _ in points[max(moving[0] - 1, 0) : moving[-1] + 2])


def _new_line(
    edges: PieceEdges, outline: PieceOutline, towards: str, line: SeamLine
) -> Iterator[tuple[Point, float]]:
    """Yield the new stitching from top to bottom, moves drawn larger, with each move (mm)."""
    curve = edges.curve(towards, cut=False)
    on_edge = [y for x, y in outline.stitch if abs(x - curve.at(y)) < _ON_EDGE_MM]
    top, bottom = min(on_edge), max(on_edge)
    count = max(2, round((bottom - top) / _STEP_MM))
    for step in range(count + 1):
        y = top + (bottom - top) * step / count
        move = line.at(_down(edges, towards, y))
        yield (curve.at(y) + _TOWARDS[towards] * LARGER * move, y), move


def _down(edges: PieceEdges, towards: str, y: float) -> float:
    """Return the height in the draft that a height on this edge stands for."""
    name = f"{towards}_y"
    nearest = min(edges.crossings, key=lambda one: abs(getattr(one, name) - y))
    return y - float(getattr(nearest, name)) + nearest.level.down


def _amounts(
    edges: PieceEdges, towards: str, line: SeamLine, words: Words
) -> Iterator[Amount]:
    """Yield ``in 3/8`` at every level, and every pin between them, where the edge moves."""
    curve, name = edges.curve(towards, cut=False), f"{towards}_y"
    heights = {crossing.level.down: float(getattr(crossing, name)) for crossing in edges.crossings}
    for down, _ in line.points:
        nearest = min(heights, key=lambda level: abs(level - down))
        if abs(nearest - down) > SMALLEST_MM and min(heights) < down < max(heights):
            heights[down] = heights[nearest] + down - nearest
    for down, y in sorted(heights.items()):
        move = line.at(down)
        if words.shows(move):
            way = "in" if move < -SMALLEST_MM else "out"
            at = (curve.at(y), y)
            yield Amount(at, _TOWARDS[towards], f"{way} {words.length(move)}")


def widest_mm(pieces: Sequence[MovedPiece]) -> float:
    """Return the width of the widest piece, its moves included."""
    return max((right - left for left, _, right, _ in map(bounds, pieces)), default=0.0)


def bounds(piece: MovedPiece) -> tuple[float, float, float, float]:
    """Return the least x and y and the greatest x and y of a piece with its new lines."""
    points = [*piece.outline.cut, *(point for line in piece.new for point in line)]
    xs, ys = zip(*points, strict=True)
    return min(xs), min(ys), max(xs), max(ys)
