"""The garment as it is sewn now: each round with its edges, darts and what is left inside.

The present state is the draft plus every alteration ticked off since.  Each edge's
allowance has changed by the opposite of its move, unless it was trimmed to a
recorded width; a dart's take-up by minus twice its leg's move.
"""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace

from core.file.checking import net_widths
from core.records.answer import Side
from core.records.fitting import Fitting, Sewn
from core.records.garment import SIDES, Dart, Garment, Layer, Ring, Seam
from core.sewn.shape import take_up_at


@dataclass(frozen=True, slots=True)
class Edge:
    """One cut edge of a seam; ``count`` is how many it stands for in its round.

    ``position`` is its place in the seam's ``joins``; a centre seam's edge (no side)
    stands for both halves, a one-piece ring's for both edges of the piece.
    ``allowance`` is what is inside now and ``moved`` what was sewn since the draft, by level,
    in mm.
    """

    seam: Seam
    side: Side | None
    piece: str
    position: int
    count: int
    levels: tuple[str, ...]
    allowance: Mapping[str, float]
    moved: Mapping[str, float] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class DartSide:
    """One dart on one side: two legs in the round; ``take_up`` as sewn, by level (mm).

    ``moved`` is what each leg was sewn since the draft.
    """

    dart: Dart
    piece: str
    side: Side | None
    take_up: Mapping[str, float]
    widest: str
    moved: Mapping[str, float] = field(default_factory=dict)

    def share_at(self, level: str, of: str) -> float:
        """Return the take-up at a level as a share of the take-up at ``of``."""
        whole = self.take_up.get(of, 0.0)
        return self.take_up.get(level, 0.0) / whole if whole > 0 else float(level == of)


@dataclass(frozen=True, slots=True)
class Round:
    """A girth that is compared as one: a half ring's whole, or one copy of a closed ring.

    ``sewn`` is the sum of the widths as sewn now, by level (mm), ``taped`` what was
    measured inside the garment at this fitting; the tape beats the sum.
    """

    layer: Layer
    ring: Ring
    side: Side | None
    edges: tuple[Edge, ...]
    darts: tuple[DartSide, ...]
    sewn: Mapping[str, float]
    taped: Mapping[str, float]

    def as_sewn(self, level: str) -> float:
        return self.taped.get(level, self.sewn[level])

    def sides(self) -> tuple[Side | None, ...]:
        """Return the sides a pin for ``both`` stands for in this round."""
        return SIDES if self.ring.kind == "half" else (self.side,)


def rounds_of(garment: Garment, layer: Layer, fitting: Fitting | None) -> tuple[Round, ...]:
    """Return a layer's rounds as sewn at this fitting (as drafted where there is none)."""
    done = [entry for entry in sewn_before(garment, fitting) if entry.layer == layer.id]
    rounds = []
    for ring in layer.rings:
        sides: tuple[Side | None, ...] = (
            SIDES if ring.kind == "closed" and ring.copies == 2 else (None,)
        )
        for side in sides:
            rounds.append(_round(garment, layer, ring, side, done, fitting))
    return tuple(rounds)


def sewn_before(garment: Garment, fitting: Fitting | None) -> list[Sewn]:
    """Return what was ticked off at every earlier fitting, oldest first."""
    if fitting is None:
        return []
    in_order = list(garment.fittings)
    if all(entry.on for entry in in_order):  # without their days they stand as they were logged
        in_order.sort(key=lambda entry: entry.on)
    earlier = in_order[: [entry.id for entry in in_order].index(fitting.id)]
    return [sewn for entry in earlier for sewn in entry.done]


def _round(
    garment: Garment,
    layer: Layer,
    ring: Ring,
    side: Side | None,
    done: Sequence[Sewn],
    fitting: Fitting | None,
) -> Round:
    edges = tuple(_edges(garment, ring, side, done))
    darts = tuple(_darts(garment, ring, side, done))
    sewn = _drafted(garment, ring, side)
    for level in sewn if done else ():
        sewn[level] += sum(edge.count * edge.moved.get(level, 0.0) for edge in edges)
        sewn[level] += sum(2 * dart.moved.get(level, 0.0) for dart in darts)
    taped = (
        {}
        if fitting is None
        else {
            level: value
            for (in_layer, in_ring, level), taken in fitting.sewn_girths.items()
            if in_layer == layer.id
            and in_ring == ring.id
            and (value := taken.on(side)) is not None
            and level in sewn
        }
    )
    return Round(layer, ring, side, edges, darts, sewn, taped)


def _drafted(garment: Garment, ring: Ring, side: Side | None) -> dict[str, float]:
    """Return the girth of a round as drafted (mm) at each level where all of it is known."""
    halves = (0, 1) if ring.kind == "half" else (1,) if side == "right" else (0,)
    widths = net_widths(garment, ring)
    return {
        level: sum(widths[piece.id, level][half] for piece in ring.pieces for half in halves)
        for level in ring.levels
        if ring.whole_at(level)
    }


def _edges(garment: Garment, ring: Ring, side: Side | None, done: Sequence[Sewn]) -> Iterator[Edge]:
    downs = [(level, garment.levels[level].down) for level in ring.levels]
    for seam in ring.seams:
        levels = ring.levels_of(seam)
        itself = seam.joins_itself
        sides: tuple[Side | None, ...] = SIDES if ring.kind == "half" and not itself else (side,)
        drafted = {
            piece: {level: seam.allowance.between(piece, level, downs) or 0.0 for level in levels}
            for piece in set(seam.joins)
        }
        for on in sides:
            for position, piece in enumerate(seam.joins[:1] if itself else seam.joins):
                count = 2 if itself else 1
                edge = Edge(seam, on, piece, position, count, levels, drafted[piece])
                yield _altered(edge, done) if done else edge


def _altered(edge: Edge, done: Sequence[Sewn]) -> Edge:
    """Return an edge with what was sewn since: its moves, and what is left inside."""
    inside = {level: _left_inside(edge, level, done) for level in edge.levels}
    moved = {level: _moved(done, edge, level) for level in edge.levels}
    return replace(edge, allowance=inside, moved=moved)


def _left_inside(edge: Edge, level: str, done: Sequence[Sewn]) -> float:
    left = edge.allowance[level]
    for entry in done:
        if entry.what == "seam" and _concerns(entry, edge.seam.id, edge.side):
            moves = [
                move for piece, at, move in entry.moves if at == level and piece in (edge.piece, "")
            ]
            left -= sum(moves)
            if moves and edge.piece in entry.trimmed:
                left = entry.trimmed[edge.piece]
    return left


def _moved(done: Sequence[Sewn], edge: Edge, level: str) -> float:
    return sum(
        move
        for entry in done
        if entry.what == "seam" and _concerns(entry, edge.seam.id, edge.side)
        for piece, at, move in entry.moves
        if at == level and piece in (edge.piece, "")
    )


def _leg_moved(done: Sequence[Sewn], dart: str, side: Side | None, level: str) -> float:
    return sum(
        move
        for entry in done
        if entry.what == "dart" and _concerns(entry, dart, side)
        for _, at, move in entry.moves
        if at == level
    )


def _concerns(entry: Sewn, place: str, side: Side | None) -> bool:
    return entry.place == place and (entry.side == "both" or side is None or entry.side == side)


def _darts(
    garment: Garment, ring: Ring, side: Side | None, done: Sequence[Sewn]
) -> Iterator[DartSide]:
    sides: tuple[Side | None, ...] = SIDES if ring.kind == "half" else (side,)
    for piece in ring.pieces:
        for dart in piece.darts:
            for on in sides:
                moved = {
                    level: _leg_moved(done, dart.id, on, level)
                    for level in ring.levels
                    if level in piece.width
                }
                drafted = _take_up(garment, moved, dart, on)
                take_up = {level: drafted[level] - 2 * moved[level] for level in moved}
                widest = max(take_up, key=lambda level: take_up[level], default="")
                yield DartSide(dart, piece.id, on, take_up, widest, moved)


def _take_up(
    garment: Garment, levels: Iterable[str], dart: Dart, side: Side | None
) -> dict[str, float]:
    index = 1 if side == "right" else 0
    return {level: take_up_at(dart, garment.levels, level)[index] for level in levels}
