"""Whether a garment can be made at all: every width, seam and height against the others."""

from collections.abc import Mapping
from functools import lru_cache
from itertools import pairwise

from core.file.field import Field
from core.lengths import SMALLEST_MM, write_length
from core.records.garment import Garment, Level, Pair, Piece, Ring, Seam
from core.sewn.shape import allowance_at, take_up_at


def check_garment(garment: Garment, source: Field) -> None:
    """Raise ``BadFile`` naming the first field that cannot be right."""
    for layer, layer_field in zip(garment.layers, source["layers"].each(), strict=True):
        for ring, ring_field in zip(layer.rings, layer_field["rings"].each(), strict=True):
            _check_order(garment, ring, ring_field, source)
            _check_seams(garment, ring, ring_field)
            _check_edges(ring, ring_field)
            _check_widths(garment, ring, ring_field)


def _check_order(garment: Garment, ring: Ring, source: Field, top: Field) -> None:
    heights = [garment.levels[name] for name in ring.levels]
    for above, below in pairwise(heights):
        if below.down <= above.down:
            where = _level_field(top, below) if source["levels"].missing else source["levels"]
            where.refuse(f"levels run top to bottom: {below.label} must lie below {above.label}")


def _level_field(top: Field, level: Level) -> Field:
    found = next(
        entry
        for number, entry in enumerate(top["levels"].each(), 1)
        if entry["id"].text(f"level_{number}") == level.id
    )
    return found["down"]


def _check_seams(garment: Garment, ring: Ring, source: Field) -> None:
    for seam, entry in zip(ring.seams, source["seams"].each(), strict=True):
        for level in ring.levels_of(seam):
            for piece in seam.joins:
                if allowance_at(garment, ring, seam, piece, level) is None:
                    entry["allowance"].refuse(f"{seam.label} has none at level “{level}”")


def _check_edges(ring: Ring, source: Field) -> None:
    """A piece has two edges; one on the fold has only one for a seam."""
    for piece, entry in zip(ring.pieces, source["pieces"].each(), strict=True):
        for level in piece.width:
            count = sum(
                _edges_on(ring, seam, piece) for seam in ring.seams if level in ring.levels_of(seam)
            )
            if count > 2 - piece.fold:
                entry.refuse(f"{piece.label} has {count} seamed edges at level “{level}”")


def _edges_on(ring: Ring, seam: Seam, piece: Piece) -> int:
    if piece.id not in seam.joins:
        return 0
    return 2 if seam.joins_itself and ring.kind == "closed" else 1


def _check_widths(garment: Garment, ring: Ring, source: Field) -> None:
    for piece, entry in zip(ring.pieces, source["pieces"].each(), strict=True):
        for level in piece.width:
            if level not in ring.levels:
                entry["width"][level].refuse("this level is not one of its ring's")
            for index in (0, 1):
                net = net_width(garment, ring, piece, level, index)
                if net < -SMALLEST_MM:
                    entry["width"][level].refuse(
                        f"{write_length(piece.width[level][index], source.unit)} is less than"
                        " its allowances and darts"
                    )


def net_width(garment: Garment, ring: Ring, piece: Piece, level: str, index: int) -> float:
    """Return the drafted width (mm) less allowances and darts; index 0 left, 1 right."""
    return net_widths(garment, ring)[piece.id, level][index]


@lru_cache(maxsize=64)
def net_widths(garment: Garment, ring: Ring) -> Mapping[tuple[str, str], Pair]:
    """Return every net width of a ring by piece and level; worked out once per garment."""
    taken: dict[tuple[str, str], float] = {}
    for seam in ring.seams:
        for level in ring.levels_of(seam):
            for piece in ring.pieces:
                edges = _edges_on(ring, seam, piece)
                if edges:
                    inside = allowance_at(garment, ring, seam, piece.id, level) or 0.0
                    key = piece.id, level
                    taken[key] = taken.get(key, 0.0) + edges * inside
    return {
        (piece.id, level): _less(garment, piece, level, taken.get((piece.id, level), 0.0))
        for piece in ring.pieces
        for level in piece.width
    }


def _less(garment: Garment, piece: Piece, level: str, taken: float) -> Pair:
    left, right = piece.width[level]
    for dart in piece.darts:
        take_up = take_up_at(dart, garment.levels, level)
        left, right = left - take_up[0], right - take_up[1]
    return left - taken, right - taken
