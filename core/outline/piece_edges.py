"""The two long edges of a pattern piece: where they stitch and where they are cut, at every level.

x grows in the order of the round, from centre front towards centre back, so a piece has one
edge towards the front and one towards the back (in mm; y down from the garment's top edge).
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Any, Literal

from core.curves import Curve, Point, smooth
from core.draft.document import named
from core.records.garment import SIDES, Garment, Level, Piece, Ring, Seam
from core.sewn.shape import allowance_at

Kind = Literal["fold", "centre", "seam", "open"]

STEP_MM = 5.0
"""How far apart the points of a curved edge are."""


@dataclass(frozen=True, slots=True)
class Edge:
    """One long edge: on the fold, a centre seam, a seam to the next piece, or nothing there."""

    kind: Kind
    seams: tuple[Seam, ...] = ()

    @property
    def is_centre(self) -> bool:
        return self.kind in ("fold", "centre")


@dataclass(frozen=True, slots=True)
class Crossing:
    """Where one level crosses the piece: height and x of both edges, as stitched and as cut."""

    level: Level
    front_y: float
    back_y: float
    front: float
    back: float
    front_cut: float
    back_cut: float


@dataclass(frozen=True, slots=True)
class PieceEdges:
    """A piece's edges and crossings from top to bottom, for her left (0) or right (1)."""

    piece: Piece
    side: int
    front: Edge
    back: Edge
    crossings: tuple[Crossing, ...]

    @property
    def first(self) -> Crossing:
        return self.crossings[0]

    @property
    def last(self) -> Crossing:
        return self.crossings[-1]

    def curve(self, towards: str, *, cut: bool, top: float | None = None) -> Curve:
        """Return x over y of one edge; above and below its levels it goes straight on.

        With a ``top`` above its first level it comes down straight and bends only from there.
        """
        name = f"{towards}_cut" if cut else towards
        points = [(getattr(one, f"{towards}_y"), getattr(one, name)) for one in self.crossings]
        first, x = points[0]
        return smooth(points if top is None or top >= first else [(top, x), *points])

    def down(self, towards: str, top: float, bottom: float, *, cut: bool) -> list[Point]:
        """Return the points of one edge from a height down to another, its levels among them."""
        curve = self.curve(towards, cut=cut, top=top)
        levels = [getattr(one, f"{towards}_y") for one in self.crossings]
        heights = sorted({top, bottom, *(y for y in levels if top < y < bottom)})
        points = [(curve.at(top), top)]
        for above, below in pairwise(heights):
            steps = max(1, round((below - above) / STEP_MM))
            if below <= levels[0]:
                steps = 1  # straight on
            ys = [above + (below - above) * step / steps for step in range(1, steps + 1)]
            points += [(curve.at(y), y) for y in ys]
        return points


def edges_of(
    garment: Garment, ring: Ring, piece: Piece, side: int, written: Mapping[str, Any]
) -> PieceEdges:
    """Return the edges of a piece; ``written`` is its ring in the document (for ``at``).

    The piece has a width at one level at least.
    """
    front, back = (_edge(ring, piece, towards, written) for towards in (-1, 1))
    levels = [level for level in ring.levels if level in piece.width]
    flat = not _rises(garment, ring, piece, levels, front, back)
    return PieceEdges(piece, side, front, back, tuple(
        _crossing(garment, ring, piece, side, front, back, level, flat) for level in levels
    ))  # fmt: skip


def is_before_side(ring: Ring, piece: Piece) -> bool:
    """Tell whether a piece lies in front of the side line (in a half ring with one)."""
    names = [one.id for one in ring.pieces]
    line = ring.seam(ring.side_line)
    if line is None or line.joins_itself:
        return names.index(piece.id) < (len(names) + 1) / 2
    return names.index(piece.id) < max(names.index(name) for name in line.joins)


def _edge(ring: Ring, piece: Piece, towards: int, written: Mapping[str, Any]) -> Edge:
    """Return a piece's edge towards the front (-1) or the back (1) of the round."""
    names = [one.id for one in ring.pieces]
    at, last = names.index(piece.id), len(names) - 1
    own = tuple(seam for seam in ring.seams if seam.joins_itself and piece.id in seam.joins)
    if ring.kind == "closed":
        return _closed_edge(ring, at, towards)
    is_end = at == (0 if towards < 0 else last)
    if is_end:
        seams = tuple(seam for seam in own if _at(seam, written, last) in ("", _END[towards]))
        if seams and not (piece.fold and towards < 0 and last > 0):
            return Edge("centre", seams)
        return Edge("fold") if piece.fold else Edge("open")
    return _between(ring, names[at], names[at + towards])


_END = {-1: "front", 1: "back"}


def _at(seam: Seam, written: Mapping[str, Any], last: int) -> str:
    """Return which centre a seam is at, where a half ring of one piece must say so."""
    entry = next((one for name, one in named(written, "seams") if name == seam.id), {})
    return str(entry.get("at") or ("back" if last == 0 else ""))


def _closed_edge(ring: Ring, at: int, towards: int) -> Edge:
    """In a closed ring of two pieces the first seam lies behind the first piece."""
    count = len(ring.pieces)
    if count == 1:
        return Edge("seam", ring.seams) if ring.seams else Edge("open")
    other = ring.pieces[(at + towards) % count].id
    edge = _between(ring, ring.pieces[at].id, other)
    if count > 2 or len(edge.seams) < 2:
        return edge
    first = (at == 0) == (towards > 0)
    return Edge("seam", edge.seams[:1] if first else edge.seams[1:])


def _between(ring: Ring, piece: str, other: str) -> Edge:
    seams = tuple(seam for seam in ring.seams if set(seam.joins) == {piece, other})
    return Edge("seam", seams) if seams else Edge("open")


def _crossing(
    garment: Garment, ring: Ring, piece: Piece, side: int, front: Edge, back: Edge, level: str,
    flat: bool,
) -> Crossing:  # fmt: skip
    """Return where a level crosses: a centre edge stitches at 0, others share what is over."""
    inside = tuple(_allowance(garment, ring, edge, piece, level) for edge in (front, back))
    span = piece.width[level][side] - sum(inside)
    start = 0.0 if front.is_centre else -span if back.is_centre else -span / 2
    entry = garment.levels[level]
    ys = [entry.down if flat else _height(entry, ring, piece, edge, side)
          for edge in (front, back)]  # fmt: skip
    return Crossing(
        entry, ys[0], ys[1], start, start + span, start - inside[0], start + span + inside[1]
    )


def _allowance(garment: Garment, ring: Ring, edge: Edge, piece: Piece, level: str) -> float:
    for seam in edge.seams:
        if level in ring.levels_of(seam):
            return allowance_at(garment, ring, seam, piece.id, level) or 0.0
    return 0.0


def _height(level: Level, ring: Ring, piece: Piece, edge: Edge, side: int) -> float:
    """Return how far down a level lies at an edge, where front, side and back have their own."""
    if any(seam.id == ring.side_line for seam in edge.seams):
        return level.downs.get(SIDES[side], level.downs.get("side", level.down))
    if not edge.is_centre:
        return level.down
    return level.downs.get("front" if is_before_side(ring, piece) else "back", level.down)


def _rises(
    garment: Garment, ring: Ring, piece: Piece, levels: Sequence[str], front: Edge, back: Edge
) -> bool:
    """Tell whether heights of their own still run top to bottom along both edges."""
    for edge in (front, back):
        for side in (0, 1):
            ys = [_height(garment.levels[name], ring, piece, edge, side) for name in levels]
            if any(below <= above for above, below in pairwise(ys)):
                return False
    return True
