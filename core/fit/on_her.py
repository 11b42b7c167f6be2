"""The garment on the neutral figure: where each seam and dart lies, from the front and from behind.

Never drawn from the client's own girths: the body is nobody's (``core.figure.standard_body``),
and a seam lies at its share of this garment's round.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field

from core.fit.faces import FACES, Band, CutOnHer, Face, LineOnHer, Spot, read_straight
from core.fit.heights import downs_of, heights_of
from core.fit.inside_out import bands
from core.fit.on_limbs import lies_on, limb_outlines, round_of_limb
from core.fit.on_trunk import OFF_BODY, outline, ring_lines, round_of_trunk
from core.fit.round_her import CutRound, RoundOnHer, cuts_round
from core.fit.shares import Turns, turns_of
from core.records.garment import Garment, Layer, Ring


@dataclass(frozen=True, slots=True)
class OnHer:
    """A layer on the figure: outlines, lines and pieces by face, the heights of its levels.

    ``bands`` are the allowances that are seen while it is worn inside out; ``named`` is the layer
    by name, where it is not the first.
    """

    outlines: Mapping[Face, tuple[tuple[Spot, ...], ...]]
    lines: tuple[LineOnHer, ...]
    pieces: tuple[CutRound, ...]
    levels: Mapping[str, float]
    labels: Mapping[str, str]
    downs: tuple[Spot, ...]
    bands: Mapping[Face, tuple[Band, ...]]
    inside_out: bool = False
    named: str = ""

    @property
    def cuts(self) -> tuple[CutOnHer, ...]:
        return tuple(piece.cut for piece in self.pieces)

    def y_of(self, down_mm: float) -> float:
        """Return the height on the figure of so far down the garment."""
        return read_straight(down_mm, self.downs)

    def down_of(self, y: float) -> float:
        """Return how far down the garment a height on the figure is (mm)."""
        return read_straight(y, tuple((y_, down) for down, y_ in self.downs))

    def cut_at(self, face: Face, x: float, y: float) -> CutOnHer | None:
        """Return the piece that lies at a place of a face: of two the one drawn over the other."""
        return next((one.cut for one in reversed(self.pieces) if one.holds(face, x, y)), None)

    def middle(self, place: str, side: str, y: float) -> tuple[Face, Spot] | None:
        """Return the middle of a piece at a height, on the face that shows most of it."""
        for one in self.pieces:
            if one.cut.place == place and one.cut.side in (side, "both"):
                return one.cut.face, one.middle(y)
        return None


@dataclass(slots=True)
class _Drawn:
    """What is drawn so far, ring by ring."""

    outlines: dict[Face, list[tuple[Spot, ...]]] = field(
        default_factory=lambda: {face: [] for face in FACES}
    )
    bands: dict[Face, list[Band]] = field(default_factory=lambda: {face: [] for face in FACES})
    lines: list[LineOnHer] = field(default_factory=list)
    pieces: list[CutRound] = field(default_factory=list)


def on_her(garment: Garment, layer_id: str = "", *, inside_out: bool = False) -> OnHer:
    """Return a layer of the garment on the figure, the first layer unless told.

    A garment without layers, or an empty one, has levels at most.
    """
    layer = garment.layer(layer_id) or next(iter(garment.layers), None)
    heights, drawn = heights_of(garment), _Drawn()
    for ring in layer.rings if layer is not None else ():
        if layer is not None:
            _draw(drawn, garment, layer, ring, heights, inside_out)
    return OnHer(
        outlines={face: tuple(shapes) for face, shapes in drawn.outlines.items()},
        lines=tuple(drawn.lines),
        pieces=tuple(drawn.pieces),
        levels=heights,
        labels={name: level.label for name, level in garment.levels.items()},
        downs=downs_of(garment, heights),
        bands={face: tuple(strips) for face, strips in drawn.bands.items()},
        inside_out=inside_out,
        named=layer.label if layer is not None and layer is not garment.layers[0] else "",
    )


def _draw(
    drawn: _Drawn, garment: Garment, layer: Layer, ring: Ring, heights: Mapping[str, float],
    inside_out: bool,
) -> None:  # fmt: skip
    """Add a ring to what is drawn; one that has no length is left out."""
    lies = lies_on(garment, layer, ring)
    around = (
        _trunk(garment, layer, ring, heights)
        if lies == "trunk"
        else round_of_limb(ring, heights, is_arm=lies == "arm")
    )
    if around is None:
        return
    shapes = [outline(around)] if lies == "trunk" else limb_outlines(around)
    for face in FACES:
        drawn.outlines[face] += shapes
    above = [one.side_line for one in layer.rings if one.kind == "half"]
    turns = turns_of(garment, ring, above, is_arm=lies == "arm")
    lines = tuple(ring_lines(garment, layer.id, ring, around, heights, turns))
    drawn.lines += lines
    drawn.pieces += _cuts(layer, ring, around, heights, turns)
    if inside_out:
        for face, band in bands(garment, turns, lines, heights):
            drawn.bands[face].append(band)


def _trunk(
    garment: Garment, layer: Layer, ring: Ring, heights: Mapping[str, float]
) -> RoundOnHer | None:
    if len(ring.levels) < 2:
        return None
    over_legs = any(lies_on(garment, layer, one) == "leg" for one in layer.rings)
    return round_of_trunk(garment, ring, heights, over_legs=over_legs)


def _cuts(
    layer: Layer, ring: Ring, around: RoundOnHer, heights: Mapping[str, float],
    turns: Turns,
) -> list[CutRound]:  # fmt: skip
    """Return the pieces, each by its turns where the ring is whole."""
    whole = [level for level in ring.levels if ring.whole_at(level)] or list(ring.levels)
    ends = [
        (
            piece.id,
            piece.label,
            tuple(level for level in ring.levels if level in piece.width),
            {level: turns.pieces[level][piece.id] for level in whole
             if piece.id in turns.pieces[level]},
        )
        for piece in ring.pieces
    ]
    return list(cuts_round(layer.id, around, ends, heights))


__all__ = ["FACES", "OFF_BODY", "CutOnHer", "Face", "LineOnHer", "OnHer", "Spot", "on_her"]
