"""Pattern pieces drawn to scale from the table of a draft: cut edge, stitching line, levels, darts.

Millimetres; y goes down from the garment's top edge.  x grows in the order of the round, from
centre front towards centre back: it is 0 on a fold or a centre line, and in the middle of a
piece that has neither.  So a front lies with its fold to the left, a back with its centre to the
right, as they lie on the table.  Widths do not say where a free panel's edges lie: both
take half of what changes.  Above the first level the draft says little; ``note`` tells so.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from math import dist
from typing import Any

from core.curves import Point
from core.draft.dart_wedge import Wedge, wedge
from core.draft.document import darts_in, find, pieces_in
from core.errors import NotFound
from core.lengths import SMALLEST_MM, Unit
from core.outline.piece_edges import PieceEdges, edges_of
from core.outline.piece_top import ALONE_MM, Top, tops_of
from core.records.answer import Side
from core.records.garment import SIDES, Garment, Layer, Piece, Ring

Polyline = tuple[Point, ...]

CLEAR_MM = 20.0
"""The grain is drawn so far from a dart."""

@dataclass(frozen=True, slots=True)
class LevelLine:
    """A level's line across a piece, from cut edge to cut edge; ``width_mm`` is the cut width."""

    level: str
    label: str
    start: Point
    end: Point
    width_mm: float


@dataclass(frozen=True, slots=True)
class PieceOutline:
    """One piece to scale; ``side`` where left and right are unlike.

    ``cut`` and ``stitch`` are closed outlines, the first point once.  ``cut_as`` says how it is
    cut: on the fold, two, one of each.
    """

    layer: str
    ring: str
    piece: str
    label: str
    side: Side | None
    cut: Polyline
    stitch: Polyline
    levels: tuple[LevelLine, ...]
    darts: tuple[Wedge, ...]
    fold: Polyline
    grain: Polyline
    cut_as: str
    note: str

    @property
    def bounds(self) -> tuple[float, float, float, float]:
        """Return the least x and y and the greatest x and y of the cut edge."""
        xs, ys = zip(*self.cut, strict=True)
        return min(xs), min(ys), max(xs), max(ys)


def piece_outlines(
    garment: Garment, written: Mapping[str, Any], layer_id: str, unit: Unit
) -> tuple[PieceOutline, ...]:
    """Return the pieces of a layer, ring by ring, each from centre front to centre back.

    ``written`` is the garment in the document (where darts lie is only in words there).  A piece
    whose left and right are unlike is there twice, her left first.  One without any width is not.
    Raises ``NotFound`` for an unknown layer.
    """
    layer = garment.layer(layer_id)
    if layer is None:
        raise NotFound(f"There is no layer “{layer_id}” in this draft")
    return tuple(
        outline for ring in layer.rings for outline in _ring(garment, layer, ring, written, unit)
    )


def _ring(
    garment: Garment, layer: Layer, ring: Ring, written: Mapping[str, Any], unit: Unit
) -> Iterator[PieceOutline]:
    """Yield a ring's pieces; one whose sides are unlike is there for both."""
    entry = find(find(dict(written), "layers", layer.id), "rings", ring.id)
    pieces = [piece for piece in ring.pieces if piece.width]
    edges = [[edges_of(garment, ring, piece, side, entry) for piece in pieces] for side in (0, 1)]
    tops = [tops_of(garment, layer, ring, one, unit) for one in edges]
    for at, piece in enumerate(pieces):
        own = _darts_written(entry, piece.id)
        for side in (0, 1) if _is_unlike(piece) else (0,):
            yield _outline(garment, layer, ring, edges[side][at], tops[side][at], own, unit)


def _is_unlike(piece: Piece) -> bool:
    pairs = [*piece.width.values(), *(one for dart in piece.darts for one in dart.take_up.values())]
    return any(abs(left - right) > SMALLEST_MM for left, right in pairs)


def _outline(
    garment: Garment, layer: Layer, ring: Ring, edges: PieceEdges, top: Top,
    said: Mapping[str, Mapping[str, Any]], unit: Unit,
) -> PieceOutline:  # fmt: skip
    piece = edges.piece
    bottom = _bottom(edges)
    darts = tuple(wedge(edges, dart, said.get(dart.id, {}), garment.levels, unit)
                  for dart in piece.darts)  # fmt: skip
    stitch, cut = (_closed(edges, top.points, bottom, cut=cut) for cut in (False, True))
    return PieceOutline(
        layer=layer.id, ring=ring.id, piece=piece.id, label=piece.label,
        side=SIDES[edges.side] if _is_unlike(piece) else None,
        cut=cut, stitch=stitch,
        levels=tuple(LevelLine(
            one.level.id, one.level.label, (one.front_cut, one.front_y), (one.back_cut, one.back_y),
            piece.width[one.level.id][edges.side],
        ) for one in edges.crossings),
        darts=darts,
        fold=_fold(edges, top.points, bottom),
        grain=_grain(edges, top.points, bottom, darts),
        cut_as=_cut_as(ring, piece),
        note=top.note,
    )  # fmt: skip


def _closed(edges: PieceEdges, top: Polyline, bottom: float, *, cut: bool) -> Polyline:
    """Return an outline: along the top, down the back edge, along the foot, up the front edge."""
    left = edges.down("front", top[0][1], _foot(edges, "front", bottom), cut=cut)
    right = edges.down("back", top[-1][1], _foot(edges, "back", bottom), cut=cut)
    outline: list[Point] = []
    for point in (left[0], *top, *right, *reversed(left[1:])):
        if not outline or dist(point, outline[-1]) > SMALLEST_MM:
            outline.append(point)
    return tuple(outline)


def _bottom(edges: PieceEdges) -> float:
    """Return how far below its last level a piece is drawn: nothing, but where it has only one."""
    return ALONE_MM if len(edges.crossings) == 1 else 0.0


def _foot(edges: PieceEdges, towards: str, bottom: float) -> float:
    last: float = getattr(edges.last, f"{towards}_y")
    return last + bottom


def _fold(edges: PieceEdges, top: Polyline, bottom: float) -> Polyline:
    """Return the fold; a piece whose sides are unlike is not cut on one."""
    if _is_unlike(edges.piece):
        return ()
    if edges.front.kind == "fold":
        return (0.0, top[0][1]), (0.0, _foot(edges, "front", bottom))
    if edges.back.kind == "fold":
        return (0.0, top[-1][1]), (0.0, _foot(edges, "back", bottom))
    return ()


def _grain(
    edges: PieceEdges, top: Polyline, bottom: float, darts: Sequence[Wedge]
) -> Polyline:  # fmt: skip
    """Return the straight of the cloth: upright, in the lower part, clear of edges and darts."""
    high = max(top[0][1], top[-1][1])
    low = min(_foot(edges, "front", bottom), _foot(edges, "back", bottom))
    ys = high + 0.62 * (low - high), high + 0.92 * (low - high)
    left, right = (edges.curve(towards, cut=False) for towards in ("front", "back"))
    start, end = max(left.at(y) for y in ys), min(right.at(y) for y in ys)
    near = [x for dart in darts for x, y in dart.outline if dart.middle[-1][1] > ys[0]]
    places = [start + share * (end - start) for share in (0.5, 0.25, 0.75, 0.12, 0.88)]
    x = next((x for x in places if all(abs(x - one) > CLEAR_MM for one in near)), places[0])
    return (x, ys[0]), (x, ys[1])


def _cut_as(ring: Ring, piece: Piece) -> str:
    if _is_unlike(piece):
        return "cut one"
    if piece.fold:
        return "on fold"
    return "cut one" if ring.kind == "closed" and ring.copies == 1 else "cut two"


def _darts_written(ring: Mapping[str, Any], piece: str) -> dict[str, Mapping[str, Any]]:
    return {name: dart for _, found, entry in pieces_in({"rings": [dict(ring)]}) if found == piece
            for name, dart in darts_in(found, entry)}  # fmt: skip
