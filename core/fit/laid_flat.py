"""The garment's pieces laid flat to scale, their stitching edges to be touched: the other way.

Her right half lies at the left and her left at the right, as she is seen from the front; each
half as it lies on the table.  It answers as ``OnHer`` does: ``front`` is her right half here,
``back`` her left.  Millimetres, y down from the highest point, x from the middle of a half.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from core.curves import Curve
from core.draft.document import find
from core.fit.faces import FACES, CutOnHer, Face, LineOnHer, Spot
from core.fit.inside_out import garments_side
from core.fit.pinning import What
from core.lengths import Unit
from core.outline.laid_out import Laid, lay_out_pieces
from core.outline.piece_edges import PieceEdges, edges_of
from core.outline.piece_outline import PieceOutline, piece_outlines
from core.records.answer import Side
from core.records.garment import SIDES, Garment, Layer

HALVES: tuple[tuple[Face, Side], ...] = (("front", "right"), ("back", "left"))
GAP_MM = 70.0
STEP_MM = 16.0


@dataclass(frozen=True, slots=True)
class CutFlat:
    """A piece as it lies: between two edges, from top to bottom."""

    cut: CutOnHer
    left: Curve
    right: Curve
    top: float
    bottom: float
    moved: Spot
    turn: float

    def holds(self, x: float, y: float) -> bool:
        """Tell whether a place of its half lies on it."""
        across, down = x * self.turn - self.moved[0], y - self.moved[1]
        inside = self.left.at(down) <= across <= self.right.at(down)
        return inside and self.top <= down <= self.bottom


@dataclass(frozen=True, slots=True)
class LaidFlat:
    """The pieces of a layer, both halves; each name with where it stands and its piece's width.

    ``cut_outlines`` are their cut edges, seen while the garment is worn inside out; ``named`` is
    the layer by name, where it is not the first.
    """

    outlines: Mapping[Face, tuple[tuple[Spot, ...], ...]]
    lines: tuple[LineOnHer, ...]
    pieces: tuple[CutFlat, ...]
    levels: Mapping[str, float]
    labels: Mapping[str, str]
    names: tuple[tuple[Face, str, Spot, float], ...]
    lowered: float
    cut_outlines: Mapping[Face, tuple[tuple[Spot, ...], ...]]
    inside_out: bool = False
    named: str = ""

    @property
    def cuts(self) -> tuple[CutOnHer, ...]:
        return tuple(piece.cut for piece in self.pieces)

    def y_of(self, down_mm: float) -> float:
        """Return the height here of so far down the garment."""
        return down_mm + self.lowered

    def down_of(self, y: float) -> float:
        """Return how far down the garment a height here is (mm)."""
        return y - self.lowered

    def cut_at(self, face: Face, x: float, y: float) -> CutOnHer | None:
        """Return the piece that lies at a place of a half."""
        return next((one.cut for one in self.pieces if one.cut.face == face and one.holds(x, y)),
                    None)  # fmt: skip

    def middle(self, place: str, side: str, y: float) -> tuple[Face, Spot] | None:
        """Return the middle of a piece of her half at a height, and which half that is."""
        for one in self.pieces:
            if (one.cut.place, one.cut.side) == (place, side):
                down = y - one.moved[1]
                across = (one.left.at(down) + one.right.at(down)) / 2 + one.moved[0]
                return one.cut.face, (across * one.turn, y)
        return None


def laid_flat(
    garment: Garment, written: Mapping[str, Any], unit: Unit, layer_id: str = "",
    *, inside_out: bool = False,
) -> LaidFlat:  # fmt: skip
    """Return a layer's pieces laid flat, the first layer unless told.

    ``written`` is the garment in the document (where darts lie is only in words there).  Worn
    inside out, the garment's left half lies on her right.  Without a layer nothing lies there.
    """
    layer = garment.layer(layer_id) or next(iter(garment.layers), None)
    outlines = piece_outlines(garment, written, layer.id, unit) if layer is not None else ()
    shown: dict[Face, list[tuple[Spot, ...]]] = {face: [] for face in FACES}
    cut: dict[Face, list[tuple[Spot, ...]]] = {face: [] for face in FACES}
    lines: list[LineOnHer] = []
    pieces: list[CutFlat] = []
    names: list[tuple[Face, str, Spot, float]] = []
    lowered = 0.0
    for face, side in HALVES:
        own = garments_side(side, inside_out)
        table = lay_out_pieces([one for one in outlines if one.side in (None, own)], garment,
                               GAP_MM)  # fmt: skip
        turn = -1.0 if side == "right" else 1.0
        for laid in table.laid:
            if not isinstance(laid.outline, PieceOutline) or layer is None:
                continue
            moved, lowered = (laid.right - table.width / 2, laid.down), laid.down
            edges = _edges(garment, layer, laid.outline, written, SIDES.index(own))
            shown[face].append(_moved(laid.outline.stitch, moved, turn))
            if inside_out:
                cut[face].append(_moved(laid.outline.cut, moved, turn))
            flat = _piece(layer, laid, edges, face, side, moved, turn)
            pieces.append(flat)
            lines += _lines(garment, layer, laid.outline, edges, face, side, moved, turn)
            left, top, right, bottom = laid.outline.bounds
            spot = ((left + right) / 2, top + (bottom - top) * 0.8)
            names += [(face, laid.outline.label, _moved((spot,), moved, turn)[0], right - left)]
    return LaidFlat(
        outlines={face: tuple(shapes) for face, shapes in shown.items()},
        lines=tuple(lines),
        pieces=tuple(pieces),
        levels={name: level.down + lowered for name, level in garment.levels.items()},
        labels={name: level.label for name, level in garment.levels.items()},
        names=tuple(names),
        lowered=lowered,
        cut_outlines={face: tuple(shapes) for face, shapes in cut.items()},
        inside_out=inside_out,
        named=layer.label if layer is not None and layer is not garment.layers[0] else "",
    )


def _edges(
    garment: Garment, layer: Layer, outline: PieceOutline, written: Mapping[str, Any], side: int
) -> PieceEdges:
    ring = next(ring for ring in layer.rings if ring.id == outline.ring)
    entry = find(find(dict(written), "layers", layer.id), "rings", ring.id)
    return edges_of(garment, ring, ring.piece(outline.piece), side, entry)


def _moved(points: tuple[Spot, ...], moved: Spot, turn: float) -> tuple[Spot, ...]:
    return tuple(((x + moved[0]) * turn, y + moved[1]) for x, y in points)


def _piece(
    layer: Layer, laid: Laid, edges: PieceEdges, face: Face, side: Side, moved: Spot, turn: float
) -> CutFlat:
    _, top, _, bottom = laid.outline.bounds
    piece = edges.piece
    cut = CutOnHer(piece.id, layer.id, piece.label, side, face, tuple(piece.width))
    left, right = (edges.curve(towards, cut=False) for towards in ("front", "back"))
    return CutFlat(cut, left, right, top, bottom, moved, turn)


def _lines(
    garment: Garment, layer: Layer, outline: PieceOutline, edges: PieceEdges, face: Face,
    side: Side, moved: Spot, turn: float,
) -> Iterator[LineOnHer]:  # fmt: skip
    ring = next(ring for ring in layer.rings if ring.id == outline.ring)
    for towards, edge in (("front", edges.front), ("back", edges.back)):
        for seam in edge.seams:
            at = {
                one.level.id: (getattr(one, towards), getattr(one, f"{towards}_y"))
                for one in edges.crossings
                if one.level.id in ring.levels_of(seam)
            }
            curve = edges.curve(towards, cut=False, top=outline.bounds[1])
            on = None if seam.joins_itself and ring.kind == "half" else side
            yield from _line(
                "seam", seam.id, seam.label, layer.id, on, face, at, curve, moved, turn
            )
    for dart in outline.darts:
        levels = next(one.take_up for one in edges.piece.darts if one.id == dart.dart)
        if dart.middle:
            x = dart.middle[0][0]
            downs = {level: garment.levels[level].down for level in levels}
            spots = {level: (x, down) for level, down in downs.items()}
            points = _moved(dart.middle, moved, turn)
            at = {level: _moved((spot,), moved, turn)[0] for level, spot in spots.items()}
            yield LineOnHer("dart", dart.dart, layer.id, dart.label, side, face, points, at)


def _line(
    what: What, place: str, label: str, layer: str, side: Side | None, face: Face,
    at: Mapping[str, Spot], curve: Curve, moved: Spot, turn: float,
) -> Iterator[LineOnHer]:  # fmt: skip
    if not at:
        return
    ys = [y for _, y in at.values()]
    count = max(1, round((max(ys) - min(ys)) / STEP_MM))
    downs = [min(ys) + (max(ys) - min(ys)) * step / count for step in range(count + 1)]
    points = _moved(tuple((curve.at(down), down) for down in downs), moved, turn)
    placed = {level: _moved((spot,), moved, turn)[0] for level, spot in at.items()}
    yield LineOnHer(what, place, layer, label, side or "both", face, points, placed)
