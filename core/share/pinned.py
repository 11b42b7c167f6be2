"""What the pins say: how far each edge, leg or fold moves, side by side.

A pinch of depth d moves each edge by -d, so that the round loses 2d a side; a gap
of width g moves each edge by +g/2.  Pinned moves are sewn as pinned, unrounded.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace

from core.curves import Curve, smooth
from core.lengths import SMALLEST_MM
from core.records.answer import Side
from core.records.fitting import Fitting, LoggedSide, Pin
from core.records.garment import Garment, Layer
from core.sewn.rounds import DartSide, Edge, Round

Point = tuple[float, float]
"""How far down (mm) and how far the edge moves there (mm)."""

LineKey = tuple[str, Side | None, int]
"""A seam, a side and a place in its ``joins``: one line through every ring it crosses."""


@dataclass(frozen=True, slots=True)
class PinnedLine:
    """The pinned points of one edge from top to bottom."""

    points: tuple[Point, ...]
    curve: Curve

    def at(self, down: float) -> float | None:
        """Return the amount read off between the pins; ``None`` beyond them."""
        if not self.points[0][0] - SMALLEST_MM <= down <= self.points[-1][0] + SMALLEST_MM:
            return None
        return self.curve.at(down)


@dataclass(frozen=True, slots=True)
class Pinned:
    """All read pins of one layer: lines by edge, legs by dart and level, folds by piece."""

    lines: Mapping[LineKey, PinnedLine]
    legs: Mapping[tuple[str, Side | None], Mapping[str, float]]
    folds: Mapping[tuple[str, Side | None], Mapping[str, float]]

    @property
    def any(self) -> bool:
        """Tell whether anything was pinned and read."""
        return bool(self.lines or self.legs or self.folds)

    def edge(self, edge: Edge, down: float) -> float | None:
        line = self.lines.get((edge.seam.id, edge.side, edge.position))
        return None if line is None else line.at(down)

    def leg(self, dart: DartSide, level: str) -> float | None:
        return self.legs.get((dart.dart.id, dart.side), {}).get(level)


def pinned_in(
    garment: Garment,
    layer: Layer,
    fitting: Fitting | None,
    rounds: Sequence[Round],
    stretch: Sequence[Mapping[str, float]],
) -> Pinned:
    """Return what the pins say of a layer.

    ``stretch`` is as sewn / body by level, round by round, for stretch cloth where it is below
    1: a fold is measured stretched.  Pins of another layer count where they go through all.
    """
    pins = [] if fitting is None else pins_of(garment, layer, fitting)
    lines: dict[LineKey, dict[float, float]] = {}
    legs: dict[tuple[str, Side | None], dict[str, float]] = {}
    folds: dict[tuple[str, Side | None], dict[str, float]] = {}
    for pin in sorted(pins, key=lambda entry: entry.side != "both"):  # a side replaces both
        for number, around in enumerate(rounds):
            factor = _factor(pin, garment, around, stretch[number] if stretch else {})
            if pin.what == "seam":
                _log_seam(pin, garment, around, factor, lines)
            elif pin.what == "dart":
                for dart in _darts(around, pin):
                    amount = _each(pin, dart.piece) * factor
                    legs.setdefault((dart.dart.id, dart.side), {})[pin.level] = amount
            else:
                for side in _fold_sides(pin, around):
                    amount = -(pin.pinch or 0.0) * factor
                    folds.setdefault((pin.place, side), {})[pin.level] = amount
    return Pinned(
        {key: _line(points) for key, points in lines.items()},
        legs,
        folds,
    )


def _line(points: Mapping[float, float]) -> PinnedLine:
    in_order = tuple(sorted(points.items()))
    return PinnedLine(in_order, smooth(in_order))


def pins_of(garment: Garment, layer: Layer, fitting: Fitting) -> list[Pin]:
    """Return the read pins through a layer, each on the side of the garment it is on.

    Worn inside out, the garment's left is on her right: every side is swapped.
    """
    own = [pin for pin in fitting.pins if pin.read and pin.layer == layer.id]
    through = [pin for pin in fitting.pins if pin.read and pin.through and pin.layer != layer.id]
    pins = [pin for pin in through if _reaches(layer, pin)] + own
    return [on_the_garment(pin, fitting) for pin in pins]


def on_the_garment(pin: Pin, fitting: Fitting) -> Pin:
    """Return a pin logged on her on the garment's own side, and the other way about."""
    swap: dict[LoggedSide, LoggedSide] = {"left": "right", "right": "left", "both": "both"}
    return replace(pin, side=swap[pin.side]) if fitting.inside_out else pin


def evened(left_mm: float, right_mm: float) -> tuple[float, float]:
    """Return what each side gets where she asks to even them: half of the sum."""
    return (left_mm + right_mm) / 2, (left_mm + right_mm) / 2


def height_of(pin: Pin, garment: Garment) -> float:
    """Return how far down a pin stands, in mm."""
    return garment.levels[pin.level].down if pin.down is None else pin.down


def edge_move(pin: Pin) -> float:
    """Return how far one edge or leg moves (mm, negative takes in); the mean where given apart."""
    if pin.edges:
        return sum(pin.edges.values()) / len(pin.edges)
    return _each(pin, "")


def round_change(pin: Pin, garment: Garment) -> float:
    """Return what a pin takes off the round (negative) or adds to it, in mm.

    A pinch of depth d takes 2d a side, a gap of width g adds g a side; a pin for both sides
    counts twice, on a centre seam or a single closed ring once.  In a ring of two copies it is
    the change of each.  Stretch is not counted: this is what the tape reads at the pin.
    """
    layer = garment.layer(pin.layer)
    rings = (
        []
        if layer is None
        else [
            (ring, ring.seam(pin.place)) for ring in layer.rings if ring.holds(pin.what, pin.place)
        ]
    )
    ring, seam = rings[0] if rings else (None, None)
    itself = seam is not None and seam.joins_itself
    half = ring is not None and ring.kind == "half"
    sides = 2 if pin.side == "both" and half and not itself else 1
    if pin.edges is not None:
        return sum(pin.edges.values()) * (2 if itself else 1) * sides
    return 2 * _each(pin, "") * sides


def _reaches(layer: Layer, pin: Pin) -> bool:
    for ring in layer.rings:
        if pin.what == "seam" and any(seam.id == pin.place for seam in ring.seams):
            return True
        for piece in ring.pieces:
            named = piece.id if pin.what == "piece" else ""
            if pin.place == named or (
                pin.what == "dart" and any(dart.id == pin.place for dart in piece.darts)
            ):
                return True
    return False


def _fold_sides(pin: Pin, around: Round) -> list[Side | None]:
    """Return the sides of a round that a fold is on; a single closed ring has none."""
    if all(piece.id != pin.place for piece in around.ring.pieces):
        return []
    return [side for side in around.sides() if _on(pin, side)]


def _factor(pin: Pin, garment: Garment, around: Round, stretch: Mapping[str, float]) -> float:
    """Return as sewn / body where the pin stands, read off straight between the levels."""
    if not stretch or pin.level in around.ring.levels:
        return stretch.get(pin.level, 1.0)
    down = height_of(pin, garment)
    known = [(garment.levels[level].down, stretch.get(level, 1.0)) for level in around.sewn]
    above = [point for point in known if point[0] <= down]
    below = [point for point in known if point[0] > down]
    if not above or not below:
        return (above[-1:] or below[:1])[0][1]
    (top, first), (bottom, last) = above[-1], below[0]
    return first + (last - first) * (down - top) / (bottom - top)


def _on(pin: Pin, side: Side | None) -> bool:
    return pin.side == "both" or side is None or pin.side == side


def _each(pin: Pin, piece: str) -> float:
    """Return how far one edge or leg moves (mm, negative takes in)."""
    if pin.pinch is not None:
        return -pin.pinch
    if pin.gap is not None:
        return pin.gap / 2
    return (pin.edges or {}).get(piece, 0.0)


def _log_seam(
    pin: Pin,
    garment: Garment,
    around: Round,
    factor: float,
    lines: dict[LineKey, dict[float, float]],
) -> None:
    down = height_of(pin, garment)
    for edge in _edges_at(around, pin):
        points = lines.setdefault((edge.seam.id, edge.side, edge.position), {})
        points[down] = _each(pin, edge.piece) * factor


def _edges_at(around: Round, pin: Pin) -> Iterable[Edge]:
    """Yield the pinned edges of a ring that has the level."""
    for edge in around.edges:
        if pin.edges and not set(edge.seam.joins) & set(pin.edges):
            continue  # given apart, the pin is on the ring whose pieces it names
        here = pin.level in edge.levels or (pin.down is not None and edge.levels)
        if edge.seam.id == pin.place and _on(pin, edge.side) and here:
            yield edge


def _darts(around: Round, pin: Pin) -> list[DartSide]:
    return [dart for dart in around.darts if dart.dart.id == pin.place and _on(pin, dart.side)]
