"""The pieces that one step is about, with its seam's new line or its dart, for a small drawing.

Moves are drawn larger, as on the sheet; her right is drawn mirrored, as she is seen from the front.
"""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from itertools import pairwise

from core.curves import Point
from core.draft.document import find
from core.file.fitting_file import FittingFile
from core.lengths import Unit
from core.outline.piece_outline import Polyline, piece_outlines
from core.records.answer import Plan
from core.records.garment import Garment
from core.said.piece_moves import MovedPiece, moved_pieces
from core.said.step_places import Place


@dataclass(frozen=True, slots=True)
class PieceDrawn:
    """One piece: its stitching line, its darts, and what this step sews, thick (mm, y down).

    Each part of what is sewn has its direction; a dart's own has none.
    """

    label: str
    stitch: Polyline
    darts: tuple[Polyline, ...]
    thick: tuple[tuple[str, Polyline], ...]


def pieces_drawn(
    place: Place | None, plan: Plan, file: FittingFile, garment: Garment, unit: Unit
) -> tuple[PieceDrawn, ...]:
    """Return the pieces of a step's seam or dart; none for a step about neither."""
    if place is None or place.what not in ("seam", "dart"):
        return ()
    drawn = _of_seam if place.what == "seam" else _of_dart
    pieces = drawn(place, plan, file, garment, unit)
    return tuple(_mirrored(piece) for piece in pieces) if place.side == "right" else pieces


def moved_parts(piece: MovedPiece) -> tuple[tuple[str, Polyline], ...]:
    """Return a piece's new lines, each parted where it goes from taken in to let out.

    A new line inside the stitching takes in, one outside lets out.
    """
    return tuple(part for line in piece.new for part in _parts(piece.outline.stitch, line))


def _parts(stitch: Polyline, line: Polyline) -> Iterator[tuple[str, Polyline]]:
    way, part = "", list(line[:1])
    for here, there in pairwise(line):
        middle = ((here[0] + there[0]) / 2, (here[1] + there[1]) / 2)
        now = "take in" if _inside(stitch, middle) else "let out"
        if way not in ("", now):
            yield way, tuple(part)
            part = [here]
        way = now
        part.append(there)
    if len(part) > 1:
        yield way, tuple(part)


def _inside(stitch: Polyline, point: Point) -> bool:
    """Tell whether a point lies inside: a ray from it crosses the line an odd number of times."""
    x, y = point
    crossings = 0
    for (ax, ay), (bx, by) in zip(stitch, (*stitch[1:], stitch[0]), strict=True):
        if (ay > y) != (by > y) and x < ax + (y - ay) / (by - ay) * (bx - ax):
            crossings += 1
    return crossings % 2 == 1


def _of_seam(
    place: Place, plan: Plan, file: FittingFile, garment: Garment, unit: Unit
) -> tuple[PieceDrawn, ...]:
    lines = {key: line for key, line in place.plan.lines.items() if key[0] == place.name}
    alone = replace(place.plan, lines=lines)
    return tuple(
        PieceDrawn(piece.outline.label, piece.outline.stitch,
                   tuple(dart.outline for dart in piece.outline.darts), moved_parts(piece))
        for piece in moved_pieces(alone, plan, file, garment, unit)
        if piece.side in (None, place.side)
    )  # fmt: skip


def _of_dart(
    place: Place, _plan: Plan, file: FittingFile, garment: Garment, unit: Unit
) -> tuple[PieceDrawn, ...]:
    written = find(file.data, "garments", garment.id)
    found = []
    for outline in piece_outlines(garment, written, place.plan.work.layer.id, unit):
        own = [dart for dart in outline.darts if dart.dart == place.name]
        if own and outline.side in (None, place.side or "left"):
            others = tuple(dart.outline for dart in outline.darts if dart not in own)
            thick = tuple(("", (*dart.outline, dart.outline[0])) for dart in own if dart.outline)
            found.append(PieceDrawn(outline.label, outline.stitch, others, thick))
    return tuple(found)


def _mirrored(piece: PieceDrawn) -> PieceDrawn:
    return replace(
        piece, stitch=_turned(piece.stitch), darts=tuple(map(_turned, piece.darts)),
        thick=tuple((way, _turned(line)) for way, line in piece.thick),
    )  # fmt: skip


def _turned(line: Polyline) -> tuple[Point, ...]:
    return tuple((-x, y) for x, y in line)
