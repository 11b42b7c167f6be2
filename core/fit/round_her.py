"""A round of the garment as it is seen: how far round a place is, and where that lies on a face.

A **turn** says how far round from the middle of the front a place lies, going out to her side:
0 the front, 1/4 the outside, 1/2 the back, 3/4 the inside of a limb.  On her right all is
mirrored.
"""

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from math import asin, pi, sin

from core.curves import smooth
from core.fit.faces import FACES, CutOnHer, Face, LineOnHer, Spot, read_level
from core.fit.pinning import What
from core.records.fitting import LoggedSide

OUTSIDE, BACK, INSIDE = 0.25, 0.5, 0.75

NEAR_THE_EDGE = 0.035
"""A place this near to the outside or inside (a turn's share) is seen from both faces."""

SHORTEST = 40.0
"""A line that is at one level only, its ends not said, is drawn at least so long."""

BESIDE = 1.05
"""A touch this far out (of the half width) still lies on the round."""

INMOST = 1 - 1e-9
_STEP = 16.0


@dataclass(frozen=True, slots=True)
class RoundOnHer:
    """Her left's outer and inner edge over y, between two heights; ``sides`` it is there on."""

    outer: Callable[[float], float]
    inner: Callable[[float], float]
    top: float
    bottom: float
    sides: tuple[LoggedSide, ...]

    def across(self, turn: float, y: float) -> float:
        """Return how far out a turn lies at a height on her left (mm)."""
        outer, inner = self.outer(y), self.inner(y)
        edge = edge_of(turn)
        if edge:
            return outer if edge > 0 else inner
        return (outer + inner) / 2 + (outer - inner) / 2 * sin(2 * pi * turn)

    def turn_at(self, face: Face, x: float, y: float) -> float | None:
        """Return how far round a place of a face is; nothing beside the round."""
        outer, inner = self.outer(y), self.inner(y)
        half, middle = (outer - inner) / 2, (outer + inner) / 2
        if half <= 0 or abs(x - middle) > half * BESIDE or not self.top <= y <= self.bottom:
            return None
        out = min(max((x - middle) / half, -INMOST), INMOST)  # the edge itself is of this face
        turn = asin(out) / (2 * pi)
        return turn % 1 if face == "front" else BACK - turn


def edge_of(turn: float) -> int:
    """Return 1 for a turn that is seen on the outer edge, -1 on the inner one, else 0."""
    around = turn % 1
    if abs(around - OUTSIDE) <= NEAR_THE_EDGE:
        return 1
    return -1 if abs(around - INSIDE) <= NEAR_THE_EDGE else 0


def settled(turn: float) -> float:
    """Return a turn that is seen on an edge as that edge; any other as it is."""
    edge = edge_of(turn)
    if not edge:
        return turn
    return turn // 1 + (OUTSIDE if edge > 0 else INSIDE)


def seen(turn: float, face: Face) -> bool:
    """Tell whether a turn is seen from a face; what lies on an edge is seen from both."""
    is_front = not OUTSIDE < turn % 1 < INSIDE
    return bool(edge_of(turn)) or is_front == (face == "front")


# -- lines --------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class Named:
    """What a line is, where it ends beyond its levels, and how high it may reach."""

    what: What
    place: str
    layer: str
    label: str
    ends: tuple[float, ...] = ()
    reach: float = 1e6


def lines_round(
    named: Named, around: RoundOnHer, turns: Mapping[str, float], heights: Mapping[str, float]
) -> Iterator[LineOnHer]:
    """Yield a line on every face and side it is seen from; ``turns`` by level."""
    if not turns:
        return
    near = _unbroken(turns)
    is_centre = all(turn % 1 in (0.0, BACK) for turn in near.values()) and len(around.sides) == 2
    edges = [edge_of(turn) for turn in near.values()]
    edge = max(set(edges), key=edges.count)
    points = _traced(named, around, near, heights)
    at = {level: (around.across(turn, heights[level]), heights[level])
          for level, turn in near.items()}  # fmt: skip
    for face in FACES:
        if not any(seen(turn, face) for turn in near.values()):
            continue
        for side in ("both",) if is_centre else around.sides:
            sign = 0.0 if is_centre else -1.0 if side == "right" else 1.0
            yield LineOnHer(
                named.what, named.place, named.layer, named.label, side, face,
                tuple((sign * x, y) for x, y in points),
                {level: (sign * x, y) for level, (x, y) in at.items()}, edge,
            )  # fmt: skip


def _unbroken(turns: Mapping[str, float]) -> dict[str, float]:
    """Return the turns without a leap where one round ends and the next begins."""
    first = next(iter(turns.values()))
    return {level: turn - round(turn - first) for level, turn in turns.items()}


def _traced(
    named: Named, around: RoundOnHer, turns: Mapping[str, float], heights: Mapping[str, float]
) -> tuple[Spot, ...]:
    """Follow a line down the figure on her left: its turn between levels, on what is there."""
    ys = [heights[level] for level in turns]
    top, bottom = min([min(ys), named.reach, *named.ends]), max([*ys, *named.ends])
    if bottom - top < SHORTEST:
        bottom = top + SHORTEST
    turn = smooth([(heights[level], value) for level, value in turns.items()])
    count = max(2, round((bottom - top) / _STEP))
    downs = [top + (bottom - top) * at / count for at in range(count + 1)]
    return tuple((around.across(turn.at(y), y), y) for y in downs)


# -- pieces -------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class CutRound:
    """A piece of a round: the turns it begins and ends at, over y; the end is the later one."""

    cut: CutOnHer
    around: RoundOnHer
    first: tuple[Spot, ...]
    last: tuple[Spot, ...]

    def holds(self, face: Face, x: float, y: float) -> bool:
        """Tell whether a place of a face lies on it."""
        sign = -1.0 if self.cut.side == "right" else 1.0
        turn = self.around.turn_at(face, sign * x, y)
        if turn is None:
            return False
        first, last = self._ends(y)
        return any(first - 1e-9 <= turn + whole <= last + 1e-9 for whole in (-1, 0, 1, 2))

    def middle(self, y: float) -> Spot:
        """Return the middle of what its face shows of it at a height."""
        first, last = self._ends(y)
        low, high = max(_shares(first, last, self.cut.face), key=lambda one: one[1] - one[0])
        xs = [self.around.across(turn, y) for turn in (low, high)]
        sign = -1.0 if self.cut.side == "right" else 1.0
        return sign * sum(xs) / 2, y

    def _ends(self, y: float) -> Spot:
        return settled(read_level(y, self.first)), settled(read_level(y, self.last))


def cuts_round(
    layer: str, around: RoundOnHer,
    ends: Sequence[tuple[str, str, tuple[str, ...], Mapping[str, Spot]]],
    heights: Mapping[str, float],
) -> Iterator[CutRound]:  # fmt: skip
    """Yield pieces: ``ends`` has each one's id, label, levels, and its two turns by level."""
    for place, label, levels, turns in ends:
        if not turns:
            continue
        downs = sorted(turns, key=lambda level: heights[level])
        first, last = (tuple((heights[level], turns[level][end]) for level in downs)
                       for end in (0, 1))  # fmt: skip
        begins, stops = turns[downs[len(downs) // 2]]
        shown = {face: max(high - low for low, high in _shares(begins, stops, face))
                 for face in FACES}  # fmt: skip
        face: Face = "front" if shown["front"] >= shown["back"] - 1e-9 else "back"
        for side in around.sides:
            yield CutRound(CutOnHer(place, layer, label, side, face, levels), around, first, last)


def _shares(first: float, last: float, face: Face) -> list[Spot]:
    """Return what a face shows of what lies between two turns; nothing is an empty stretch."""
    start = -OUTSIDE if face == "front" else OUTSIDE
    windows = [(start + whole, start + whole + BACK) for whole in (-1, 0, 1, 2)]
    clipped = [(max(first, low), min(last, high)) for low, high in windows]
    return [(low, high) for low, high in clipped if high > low] or [(first, first)]
