"""What one layer does: the moves of every edge, leg and fold, level by level."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import NamedTuple

from core.changes.seam_line import SeamLine
from core.changes.set_by_hand import NOTHING_SET, SetByHand
from core.records.answer import Lead, Side, Source
from core.records.fitting import Fitting
from core.records.garment import Garment, Layer, Settings
from core.sewn.compare import Wanted
from core.sewn.rounds import DartSide, Edge, Round
from core.share.pinned import LineKey, Pinned
from core.share.rules import Rules
from core.share.sharing import Giver

Spot = tuple[int, int, str]
"""A round, an edge or dart of it (by their place in the lists), and a level."""

Stretch = tuple[int, int, Edge]
"""A round, the edge's place in it, and the edge."""


class Amount(NamedTuple):
    """How far one edge or leg moves, in mm: before rounding and limits, and as sewn."""

    exact: float
    move: float
    source: Source


class Alike(NamedTuple):
    """A seam's first or second edges in a round, left and right, and where they may be asked.

    ``place`` is the seam's in its ring.
    """

    place: int
    indexes: tuple[int, ...]
    levels: frozenset[str]


class Member(NamedTuple):
    """Edges or legs that move alike: which of the round's, and which kind they are.

    ``pairs`` is true where they are both edges of a seam.
    """

    indexes: tuple[int, ...]
    is_dart: bool
    giver: Giver
    pairs: bool = False


@dataclass(slots=True)
class Gift:
    """What edges that move alike give at a level, in mm.

    ``exact`` is before rounding; ``first`` and ``second`` are what a seam's first and second
    edges are rounded to, the same where the member has only one of them.
    """

    member: Member
    exact: float
    first: float = 0.0
    second: float = 0.0


@dataclass(frozen=True, slots=True)
class Work:
    """Everything about one layer that its plan is made from.

    ``arcs`` are the body's front arcs by their measurement, in mm, ``hand`` is what she set by
    hand.  ``members`` keeps who may
    be asked at a level and ``alike`` which edges move together, found once for every way of
    sharing.
    """

    garment: Garment
    layer: Layer
    fitting: Fitting | None
    rules: Rules
    rounds: tuple[Round, ...]
    wanted: tuple[Mapping[str, Wanted], ...]
    pinned: Pinned
    lead: Lead
    arcs: Mapping[str, float] = field(default_factory=dict)
    hand: SetByHand = NOTHING_SET
    members: dict[tuple[int, str, bool], list[Member]] = field(default_factory=dict, compare=False)
    alike: dict[int, list[Alike]] = field(default_factory=dict, compare=False)

    @property
    def settings(self) -> Settings:
        return self.garment.settings

    def down(self, level: str) -> float:
        return self.garment.levels[level].down

    def judged(self, number: int, level: str) -> bool:
        """Tell whether a level of a round can be judged: its girth and the body are known."""
        found = self.wanted[number].get(level)
        return found is not None and found.needed is not None

    def pinned_edge(self, edge: Edge, level: str) -> float | None:
        """Return what the pins say of an edge, where they lead."""
        if self.lead == "tape":
            return None
        return self.pinned.edge(edge, self.down(level))

    def pinned_legs(self, dart: DartSide) -> Mapping[str, float]:
        """Return the pinned legs of a dart and, as it is one wedge, its other levels (mm)."""
        pins = {} if self.lead == "tape" else self.pinned.legs.get((dart.dart.id, dart.side), {})
        if not pins:
            return {}
        leading = max(pins, key=lambda level: dart.take_up.get(level, 0.0))
        wedge = {level: pins[leading] * dart.share_at(level, leading) for level in dart.take_up}
        return {level: move for level, move in (wedge | dict(pins)).items() if move}


@dataclass(slots=True)
class Given:
    """What one round's sharing came to, in mm: the seams by level, the legs by dart (its place)."""

    seams: dict[str, list[Gift]] = field(default_factory=dict)
    exact_legs: dict[int, float] = field(default_factory=dict)
    legs: dict[int, float] = field(default_factory=dict)
    short: dict[str, float] = field(default_factory=dict)
    freer: list[str] = field(default_factory=list)
    judged: tuple[str, ...] = ()


@dataclass(slots=True)
class LayerPlan:
    """The moves of a layer, in mm.

    ``between`` are the pins that stand at no level, by round, edge and how far down (mm).
    ``short`` is what a level is missing, ``cut`` what an edge was let out less than asked
    for want of cloth, ``freer`` the levels where one side alone could give more, ``own`` those
    where another layer does not follow the outer, ``given`` what each round's sharing came to,
    ``before`` the plan without what she set by hand, where she set something in this layer,
    ``sums`` the sums already written, ``openings`` what is opened, once the plan is closed.
    """

    work: Work
    edges: dict[Spot, Amount] = field(default_factory=dict)
    legs: dict[Spot, Amount] = field(default_factory=dict)
    folds: dict[tuple[int, str, Side | None, str], float] = field(default_factory=dict)
    between: dict[tuple[int, int, float], Amount] = field(default_factory=dict)
    short: dict[tuple[int, str], float] = field(default_factory=dict)
    cut: dict[Spot, float] = field(default_factory=dict)
    freer: set[tuple[int, str]] = field(default_factory=set)
    own: set[tuple[int, str]] = field(default_factory=set)
    lines: dict[LineKey, SeamLine] = field(default_factory=dict)
    given: dict[int, Given] = field(default_factory=dict)
    before: "LayerPlan | None" = None
    totals: dict[tuple[int, str], float] | None = None
    sums: dict[tuple[int, str], str] = field(default_factory=dict)
    openings: dict[int, tuple[str, ...]] = field(default_factory=dict)

    def planned(self, number: int, level: str) -> float:
        """Return the sum of the moves round a level, in mm."""
        if self.totals is not None:
            return self.totals.get((number, level), 0.0)
        around = self.work.rounds[number]
        total = 0.0
        for index, edge in enumerate(around.edges):
            amount = self.edges.get((number, index, level))
            total += edge.count * amount.move if amount else 0.0
        for index in range(len(around.darts)):
            amount = self.legs.get((number, index, level))
            total += 2 * amount.move if amount else 0.0
        for (at, _, _, where), move in self.folds.items():
            total += 2 * move if at == number and where == level else 0.0
        return total

    def close(self) -> None:
        """Add up every level once; nothing is moved after that."""
        self.totals = None
        self.openings.clear()
        spots = {(number, level) for number, _, level in (*self.edges, *self.legs)}
        spots |= {(number, level) for number, _, _, level in self.folds}
        self.totals = {spot: self.planned(*spot) for spot in spots}

    def opened(self, number: int | None = None) -> tuple[str, ...]:
        """Return the seams and darts that move anywhere (of one round), by name.

        Also a seam that moves only between its levels.
        """
        if number is None:
            every = (self.opened(at) for at in range(len(self.work.rounds)))
            return tuple(sorted(set().union(*every)))
        if self.totals is None:
            return self._find_opened(number)
        if number not in self.openings:
            self.openings[number] = self._find_opened(number)
        return self.openings[number]

    def _find_opened(self, number: int) -> tuple[str, ...]:
        edges, darts = self.work.rounds[number].edges, self.work.rounds[number].darts
        names = {
            edges[index].seam.id
            for (at, index, _), amount in self.edges.items()
            if at == number and amount.move
        }
        names |= {
            darts[index].dart.id
            for (at, index, _), amount in self.legs.items()
            if at == number and amount.move
        }
        here = {(edge.seam.id, edge.side) for edge in edges}
        names |= {seam for seam, side, _ in self.lines if (seam, side) in here}  # between levels
        return tuple(sorted(names))

    def largest(self, number: int) -> float:
        moves = [
            abs(amount.move)
            for moves in (self.edges, self.legs)
            for (at, _, _), amount in moves.items()
            if at == number
        ]
        return max(moves, default=0.0)
