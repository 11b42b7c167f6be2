"""The garment on the neutral figure: where each seam and dart lies, from the front and from behind.

Never drawn from the client's own girths: the body is nobody's (``core.figure.standard_body``),
and a seam lies at its share of this garment's round.  Millimetres of the figure's picture: y down
from the crown, x towards her left; from behind the screen turns it about.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise
from math import asin, pi, sin
from typing import Literal

from core.changes.curves import Curve, smooth
from core.figure import standard_body as her
from core.file.checking import net_widths
from core.fit.pinning import What
from core.records.fitting import LoggedSide
from core.records.garment import SIDES, Dart, Garment, Piece, Ring

Face = Literal["front", "back"]
FACES: tuple[Face, Face] = ("front", "back")

HEIGHTS = {
    "shoulder": her.SHOULDER, "upper_arm": 470.0, "bust": her.BUST, "under_bust": 556.0,
    "waist": her.WAIST, "top_hip": her.TOP_HIP, "hip": her.HIP, "thighs": 930.0, "thigh": 968.0,
    "knee": her.KNEE, "flare": her.FLARE, "elbow": her.ELBOW, "wrist": her.WRIST,
}  # fmt: skip
"""Where levels of these names lie on the figure; others lie between by how far down they are."""

TOP = her.SHOULDER + 4
"""No garment is drawn higher than this: necks and collars are none of the pins' business."""

SHORTEST = 40.0
"""A dart whose ends are not said is drawn at least so long."""

OFF_BODY = 1.06
"""How much wider than the body the garment is drawn, so that it is seen to lie over it."""

SIDE_LINE = 0.07
"""A seam this near to the side line (share of the round) is seen from both faces."""

Spot = tuple[float, float]


@dataclass(frozen=True, slots=True)
class LineOnHer:
    """A seam or a dart's fold on one face; ``at`` is where it crosses its levels."""

    what: What
    place: str
    layer: str
    label: str
    side: LoggedSide
    face: Face
    points: tuple[Spot, ...]
    at: Mapping[str, Spot]

    def x(self, y: float) -> float | None:
        """Return where the line is at a height; nothing above or below it."""
        if not self.points[0][1] - 1 <= y <= self.points[-1][1] + 1:
            return None
        below = next((i for i, point in enumerate(self.points) if point[1] >= y), -1)
        if below <= 0:
            return self.points[below][0]
        (x0, y0), (x1, y1) = self.points[below - 1 : below + 1]
        return x0 + (x1 - x0) * (y - y0) / (y1 - y0)


@dataclass(frozen=True, slots=True)
class CutOnHer:
    """A piece on one face and side: what a touch beside the seams lies on."""

    place: str
    layer: str
    label: str
    side: LoggedSide
    face: Face
    shares: tuple[float, float]
    levels: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class OnHer:
    """The whole garment on the figure: outlines and lines by face, the heights of its levels."""

    outlines: Mapping[Face, tuple[tuple[Spot, ...], ...]]
    lines: tuple[LineOnHer, ...]
    cuts: tuple[CutOnHer, ...]
    levels: Mapping[str, float]
    labels: Mapping[str, str]
    downs: tuple[tuple[float, float], ...]
    half_width: Curve

    def y_of(self, down_mm: float) -> float:
        """Return the height on the figure of so far down the garment."""
        return _read(down_mm, self.downs)

    def down_of(self, y: float) -> float:
        """Return how far down the garment a height on the figure is (mm)."""
        return _read(y, tuple((y_, down) for down, y_ in self.downs))

    def cut_at(self, face: Face, x: float, y: float) -> CutOnHer | None:
        """Return the piece that lies at a place of a face."""
        half = self.half_width.at(y)
        if half <= 0 or abs(x) > half * 1.05:
            return None
        front = asin(min(abs(x) / half, 1.0)) / pi
        share = front if face == "front" else 1 - front
        side: LoggedSide = "left" if x >= 0 else "right"
        return next(
            (
                cut
                for cut in self.cuts
                if cut.side == side and cut.shares[0] - 1e-9 <= share <= cut.shares[1] + 1e-9
            ),
            None,
        )


def on_her(garment: Garment, layer_id: str = "") -> OnHer:
    """Return a layer of the garment on the figure, the first layer unless told."""
    layer = garment.layer(layer_id) or garment.layers[0]
    heights = _heights(garment)
    lines: list[LineOnHer] = []
    cuts: list[CutOnHer] = []
    outlines: dict[Face, list[tuple[Spot, ...]]] = {"front": [], "back": []}
    half = smooth([(her.BUST, 1.0)])
    for ring in layer.rings:
        shown = [level for level in ring.levels if level in heights]
        if len(shown) < 2 and ring.kind == "half":
            continue
        if ring.kind == "half":
            first = garment.levels[shown[0]]
            top = min(heights[shown[0]], max(heights[shown[0]] - first.down, TOP))
            half = _half_widths(garment, ring, heights, top)
            low = heights[shown[-1]]
            legs = any(other.kind == "closed" and not _is_arm(other) for other in layer.rings)
            outline = _mirrored(_edge(half, top, max(low, her.CROTCH) if legs else low))
            for face in FACES:
                outlines[face].append(outline)
            lines += _half_lines(garment, layer.id, ring, heights, half, top)
            cuts += _cuts(garment, layer.id, ring)
        else:
            lines += _limb_lines(layer.id, ring, heights)
            for face in FACES:
                outlines[face] += _limbs(ring, heights)
    downs = sorted((garment.levels[name].down, y) for name, y in heights.items())
    return OnHer(
        outlines={face: tuple(shapes) for face, shapes in outlines.items()},
        lines=tuple(lines),
        cuts=tuple(cuts),
        levels=heights,
        labels={name: level.label for name, level in garment.levels.items()},
        downs=tuple(downs),
        half_width=half,
    )


# -- heights and widths -----------------------------------------------------------------


def _heights(garment: Garment) -> dict[str, float]:
    """Return the height of each level: by its name, between two such by how far down it is."""
    known: list[tuple[float, float]] = []
    for name, level in sorted(garment.levels.items(), key=lambda one: one[1].down):
        y = HEIGHTS.get(name)
        if y is not None and (not known or (level.down > known[-1][0] and y > known[-1][1])):
            known.append((level.down, y))
    if not known:
        known = [(0.0, her.WAIST)]
    found = {
        name: HEIGHTS[name]
        if (level.down, HEIGHTS.get(name)) in known
        else _read(level.down, known)
        for name, level in garment.levels.items()
    }
    low = her.FLOOR - 12
    return {name: min(y, low) for name, y in found.items()}


def _read(x: float, points: Sequence[Spot]) -> float:
    """Return y read off straight between points; beyond them as far on as x goes."""
    if x <= points[0][0]:
        return points[0][1] - (points[0][0] - x)
    for (x0, y0), (x1, y1) in pairwise(points):
        if x <= x1:
            return y0 + (y1 - y0) * (x - x0) / ((x1 - x0) or 1.0)
    return points[-1][1] + (x - points[-1][0])


def _half_widths(
    garment: Garment, ring: Ring, heights: Mapping[str, float], top: float
) -> Curve:  # fmt: skip
    """Return half the garment's width over y: by the body down to the hip, below by its rounds."""
    body, girths = her.trunk_width(), _girths(garment, ring)
    lowest = her.TRUNK["hip"].half_width
    points: dict[float, float] = {top: body.at(top) * OFF_BODY}
    fullest = girths.get("hip") or max(girths.values(), default=1.0)
    for level in ring.levels:
        y = heights[level]
        share = girths.get(level, fullest) / fullest
        points[y] = (body.at(y) if y <= her.HIP else lowest * _hanging(share)) * OFF_BODY
    return smooth(sorted(points.items()))


def _hanging(share: float) -> float:
    """Return how wide a round hangs beside the fullest hip: of what it is wider half shows."""
    return 1 + (share - 1) / 2 if share > 1 else max(share, 0.35)


def _girths(garment: Garment, ring: Ring) -> dict[str, float]:
    widths = net_widths(garment, ring)
    return {
        level: sum(sum(widths[piece.id, level]) for piece in ring.pieces)
        for level in ring.levels
        if ring.whole_at(level)
    }


def _edge(half: Curve, top: float, bottom: float) -> list[Spot]:
    count = max(2, round((bottom - top) / 12))
    ys = [top + (bottom - top) * at / count for at in range(count + 1)]
    return [(half.at(y), y) for y in ys]


def _mirrored(edge: list[Spot]) -> tuple[Spot, ...]:
    return (*edge, *((-x, y) for x, y in reversed(edge)))


# -- seams and darts of a half round -----------------------------------------------------


def _ends(garment: Garment, ring: Ring, level: str) -> dict[str, tuple[float, float]]:
    """Return where each piece begins and ends, as shares of the half round at a level."""
    widths = net_widths(garment, ring)
    there = [piece for piece in ring.pieces if level in piece.width]
    each = [sum(widths[piece.id, level]) / 2 for piece in there]
    whole, passed = sum(each) or 1.0, 0.0
    found = {}
    for piece, width in zip(there, each, strict=True):
        found[piece.id] = (passed / whole, (passed + width) / whole)
        passed += width
    return found


def _half_lines(
    garment: Garment, layer: str, ring: Ring, heights: Mapping[str, float], half: Curve, top: float
) -> Iterator[LineOnHer]:
    ends = {level: _ends(garment, ring, level) for level in ring.levels}
    for seam in ring.seams:
        front = seam.joins_itself and seam.joins[0] == ring.pieces[0].id and len(ring.pieces) > 1
        shares = {
            level: (0.0 if front else 1.0) if seam.joins_itself else ends[level][seam.joins[0]][1]
            for level in ring.levels_of(seam)
        }
        side = seam.id == ring.side_line
        reach = max(top, her.ARMPIT) if side else top
        yield from _lines("seam", seam.id, seam.label, layer, shares, heights, half, reach=reach)
    for piece in ring.pieces:
        for number, dart in enumerate(piece.darts):
            yield from _dart_lines(garment, layer, piece, dart, number, ends, heights, half)


def _dart_lines(
    garment: Garment, layer: str, piece: Piece, dart: Dart, number: int,
    ends: Mapping[str, Mapping[str, tuple[float, float]]], heights: Mapping[str, float],
    half: Curve,
) -> Iterator[LineOnHer]:  # fmt: skip
    part = (number + 1) / (len(piece.darts) + 1)
    levels = [level for level in dart.take_up if level in ends and piece.id in ends[level]]
    shares = {}
    for level in levels:
        first, last = ends[level][piece.id]
        shares[level] = first + (last - first) * part
    downs = sorted((level.down, heights[name]) for name, level in garment.levels.items())
    ends_at = tuple(_read(end, downs) for end in (dart.top, dart.point) if end is not None)
    yield from _lines("dart", dart.id, dart.label, layer, shares, heights, half, ends=ends_at)


def _lines(
    what: What, place: str, label: str, layer: str, shares: Mapping[str, float],
    heights: Mapping[str, float], half: Curve, ends: Sequence[float] = (), reach: float = her.FLOOR,
) -> Iterator[LineOnHer]:  # fmt: skip
    """Yield a line on every face and side it is seen from."""
    if not shares:
        return
    centre = all(share in (0.0, 1.0) for share in shares.values())
    for face in FACES:
        if not any(_seen(share, face) for share in shares.values()):
            continue
        for side in ("both",) if centre else SIDES:
            sign = 0.0 if centre else 1.0 if side == "left" else -1.0
            at = {
                level: (sign * _across(share, half.at(heights[level])), heights[level])
                for level, share in shares.items()
            }
            curve = smooth([(y, x) for x, y in at.values()])
            top, bottom = min(y for _, y in at.values()), max(y for _, y in at.values())
            top, bottom = min([top, reach, *ends]), max([bottom, *ends])
            if bottom - top < SHORTEST:
                bottom = top + SHORTEST
            points = _traced(shares, heights, half, sign, top, bottom, curve)
            yield LineOnHer(what, place, layer, label, side, face, points, at)  # type: ignore[arg-type]


def _traced(
    shares: Mapping[str, float], heights: Mapping[str, float], half: Curve, sign: float,
    top: float, bottom: float, straight: Curve,
) -> tuple[Spot, ...]:  # fmt: skip
    """Follow a line down the figure: its share between levels, on the round that is there."""
    share = smooth([(heights[level], value) for level, value in shares.items()])
    count = max(2, round((bottom - top) / 16))
    ys = [top + (bottom - top) * at / count for at in range(count + 1)]
    if len(shares) == 1:
        return tuple((straight.at(y), y) for y in ys)
    return tuple((sign * _across(share.at(y), half.at(y)), y) for y in ys)


def _across(share: float, half_width: float) -> float:
    """Return how far from the centre a share of the half round lies, seen from either face."""
    if abs(share - 0.5) <= SIDE_LINE:
        return half_width
    return half_width * sin(share * pi)


def _seen(share: float, face: Face) -> bool:
    return share <= 0.5 + SIDE_LINE if face == "front" else share >= 0.5 - SIDE_LINE


def _cuts(garment: Garment, layer: str, ring: Ring) -> Iterator[CutOnHer]:
    """Yield the pieces by their share of the round where the garment is widest known."""
    whole = [level for level in ring.levels if ring.whole_at(level)]
    if not whole:
        return
    ends = _ends(garment, ring, whole[len(whole) // 2])
    for piece in ring.pieces:
        for side in SIDES:
            first, last = ends[piece.id]
            face: Face = "front" if (first + last) / 2 <= 0.5 else "back"
            levels = tuple(level for level in ring.levels if level in piece.width)
            yield CutOnHer(piece.id, layer, piece.label, side, face, (first, last), levels)


# -- sleeves and legs ---------------------------------------------------------------------


def _limb_lines(layer: str, ring: Ring, heights: Mapping[str, float]) -> Iterator[LineOnHer]:
    """Yield the seams of a sleeve or a leg: the first one outside, the next inside."""
    is_arm = _is_arm(ring)
    for number, seam in enumerate(ring.seams):
        outside = number == 0 and len(ring.seams) > 1
        levels = [level for level in ring.levels_of(seam) if level in heights]
        for side in SIDES if levels else ():
            sign = 1.0 if side == "left" else -1.0
            at = {
                level: (sign * _limb_x(heights[level], is_arm, outside), heights[level])
                for level in levels
            }
            points = tuple(sorted(at.values(), key=lambda spot: spot[1]))
            if len(points) == 1:
                (x, y), *_ = points
                points = ((x, y - 30), (x, y + 30))
            for face in FACES:
                yield LineOnHer("seam", seam.id, layer, seam.label, side, face, points, at)


def _limbs(ring: Ring, heights: Mapping[str, float]) -> list[tuple[Spot, ...]]:
    """Return the outlines of both sleeves, or of both legs from the fork down."""
    is_arm = _is_arm(ring)
    ys = [heights[level] for level in ring.levels if level in heights]
    top, bottom = min([*ys, her.ARMPIT if is_arm else her.CROTCH]), max(ys)
    if bottom - top < 2:
        return []
    at = [top + (bottom - top) * step / 40 for step in range(41)]
    outer = [(_limb_x(y, is_arm, True), y) for y in at]
    inner = [(_limb_x(y, is_arm, False), y) for y in reversed(at)]
    left = (*outer, *inner)
    return [left, tuple((-x, y) for x, y in left)]


def _is_arm(ring: Ring) -> bool:
    return any(name in ("upper_arm", "elbow", "wrist") for name in ring.levels)


def _limb_x(y: float, is_arm: bool, outside: bool) -> float:
    if is_arm:
        return (her.arm_outer() if outside else her.arm_inner()).at(y)
    middle, half = her.leg_middle().at(y), her.leg_half_width().at(y)
    return middle + half if outside else max(middle - half, 6.0)


__all__ = ["FACES", "CutOnHer", "Face", "LineOnHer", "OnHer", "on_her"]
