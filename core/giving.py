"""Sharing a round's needs over its levels: the darts first, then the seams alone."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from core.layer_plan import Work
from core.lengths import SMALLEST_MM
from core.rounding import Group, round_level
from core.rounds import DartSide, Edge, Round
from core.sharing import Giver, Shared, Sharing, share_out


@dataclass(frozen=True, slots=True)
class Member:
    """Edges or legs that move alike: which of the round's, and which kind they are."""

    indexes: tuple[int, ...]
    is_dart: bool
    giver: Giver


@dataclass(slots=True)
class Given:
    """What one round's sharing came to, in mm, by edge or dart (its place) and level."""

    exact: dict[tuple[int, str], float] = field(default_factory=dict)
    moves: dict[tuple[int, str], float] = field(default_factory=dict)
    exact_legs: dict[int, float] = field(default_factory=dict)
    legs: dict[int, float] = field(default_factory=dict)
    short: dict[str, float] = field(default_factory=dict)
    freer: list[str] = field(default_factory=list)
    judged: tuple[str, ...] = ()


@dataclass(slots=True)
class Sharer:
    """Shares one round; ``fixed`` is what is moved already at a level (mm over the round).

    ``held_edges`` and ``held_darts`` are not asked: they were pinned, or follow another
    layer.  ``band`` replaces the settings' where the total itself is to be met.
    """

    work: Work
    number: int
    needs: Mapping[str, float]
    fixed: Mapping[str, float] = field(default_factory=dict)
    held_edges: frozenset[tuple[int, str]] = frozenset()
    held_darts: frozenset[int] = frozenset()
    way: Sharing = "by_turns"
    band: float | None = None

    def share(self) -> Given:
        """Return what every edge and leg gives: darts settled first, then seams alone."""
        given = Given(judged=tuple(self.needs))
        for level, darts in self._widest():
            self._settle(level, darts, given)
        for level in self.needs:
            self._share_seams(level, given)
        self._round(given)
        return given

    def _around(self) -> Round:
        return self.work.rounds[self.number]

    def _band(self) -> float:
        return self.work.settings.band if self.band is None else self.band

    def _widest(self) -> list[tuple[str, list[int]]]:
        """Return the levels where darts are widest, top to bottom, with those darts."""
        at: dict[str, list[int]] = {}
        for index, dart in enumerate(self._around().darts):
            if index not in self.held_darts and dart.widest in self.needs:
                at.setdefault(dart.widest, []).append(index)
        return sorted(at.items(), key=lambda entry: self.work.down(entry[0]))

    def _need(self, level: str, legs: Mapping[int, float]) -> float:
        """Return the need of a level less what is fixed and what darts give there."""
        darts = self._around().darts
        crossing = sum(
            2 * move * darts[index].share_at(level, darts[index].widest)
            for index, move in legs.items()
        )
        return self.needs[level] - self.fixed.get(level, 0.0) - crossing

    def _settle(self, level: str, darts: Sequence[int], given: Given) -> None:
        need = self._need(level, given.exact_legs)
        if abs(need) <= self._band() + SMALLEST_MM:
            return
        members = self._edge_members(level, need) + self._dart_members(level, darts, need)
        shared = self._share(need, members)
        for member, move in zip(members, shared.moves, strict=True):
            if member.is_dart and move:
                given.exact_legs |= dict.fromkeys(member.indexes, move)

    def _share_seams(self, level: str, given: Given) -> None:
        need = self._need(level, given.exact_legs)
        if abs(need) <= self._band() + SMALLEST_MM:
            return
        members = self._edge_members(level, need)
        shared = self._share(need, members)
        for member, move in zip(members, shared.moves, strict=True):
            given.exact |= {(index, level): move for index in member.indexes if move}
        if shared.short:
            given.short[level] = shared.short
            if self._freer_side(level, need, members):
                given.freer.append(level)

    def _share(self, need: float, members: Sequence[Member]) -> Shared:
        return share_out(
            need,
            [member.giver for member in members],
            band=self._band(),
            step=self.work.settings.step,
            way=self.way,
        )

    def _edge_members(self, level: str, need: float) -> list[Member]:
        """Return the seams' edges that may be asked at a level, left and right together."""
        around, rules = self._around(), self.work.rules
        alike: dict[tuple[str, int], list[int]] = {}
        for index, edge in enumerate(around.edges):
            if level in edge.levels and (index, level) not in self.held_edges:
                alike.setdefault((edge.seam.id, edge.position), []).append(index)
        places = {seam.id: place for place, seam in enumerate(around.ring.seams)}
        members = []
        for (name, _), indexes in alike.items():
            edges = [around.edges[index] for index in indexes]
            seam, piece = edges[0].seam, edges[0].piece
            if level in rules.closed_levels(around.ring, seam):
                continue
            giver = Giver(
                place=places[name],
                count=sum(edge.count for edge in edges),
                turn=rules.turn(seam, piece, level),
                weight=rules.weight(seam, piece, level),
                comfort=rules.comfort(seam, piece, level),
                limit=min(rules.limit(edge, level, need) for edge in edges),
            )
            members.append(Member(tuple(indexes), False, giver))
        return members

    def _dart_members(self, level: str, indexes: Sequence[int], need: float) -> list[Member]:
        around, rules = self._around(), self.work.rules
        alike: dict[str, list[int]] = {}
        for index in indexes:
            alike.setdefault(around.darts[index].dart.id, []).append(index)
        members = []
        for place, together in enumerate(alike.values(), len(around.ring.seams)):
            darts: list[DartSide] = [around.darts[index] for index in together]
            giver = Giver(
                place=place,
                count=2 * len(darts),
                turn=rules.dart_turn(darts[0]),
                weight=darts[0].dart.weight,
                comfort=rules.leg_comfort(darts[0]),
                limit=min(rules.leg_limit(dart, level, need) for dart in darts),
            )
            members.append(Member(tuple(together), True, giver))
        return members

    def _freer_side(self, level: str, need: float, members: Sequence[Member]) -> bool:
        """Tell whether one side alone could give more where left and right differ."""
        edges: Sequence[Edge] = self._around().edges
        for member in members:
            rooms = [self.work.rules.limit(edges[index], level, need) for index in member.indexes]
            if member.giver.turn and max(rooms) > min(rooms) + SMALLEST_MM:
                return True
        return False

    def _round(self, given: Given) -> None:
        given.legs = dict(given.exact_legs)
        for level, darts in self._widest():
            moved = [index for index in darts if index in given.exact_legs]
            if moved:
                others = {index: leg for index, leg in given.legs.items() if index not in moved}
                self._round_level(level, self._need(level, others), given, moved)
        for level in self.needs:
            self._round_level(level, self._need(level, given.legs), given, [])

    def _round_level(self, level: str, need: float, given: Given, darts: Sequence[int]) -> None:
        """Round the seams of a level, and the darts settled there, against what is needed."""
        target = need - given.short.get(level, 0.0)
        exact = [move for (_, at), move in given.exact.items() if at == level]
        exact += [given.exact_legs[index] for index in darts]
        sign = -1.0 if min(exact, default=0.0) < 0 else 1.0
        seams = self._seam_groups(level, sign, given)
        legs = self._leg_groups(level, sign, given, darts)
        if not seams and not legs:
            return
        settings = self.work.settings
        rounded = round_level(
            sign * target,
            [group for _, group in seams + legs],
            step=settings.step,
            finest=settings.finest,
            band=self._band(),
        )
        for (indexes, _), (first, second) in zip(seams, rounded, strict=False):
            for index in indexes:
                edge = self._around().edges[index]
                given.moves[index, level] = sign * (second if edge.position else first)
        for (indexes, _), (first, _) in zip(legs, rounded[len(seams) :], strict=True):
            given.legs |= dict.fromkeys(indexes, sign * first)

    def _seam_groups(
        self, level: str, sign: float, given: Given
    ) -> list[tuple[tuple[int, ...], Group]]:
        """Return each seam's edges, together where their exact moves are alike."""
        edges = self._around().edges
        alike: dict[tuple[str, float], list[int]] = {}
        for (index, at), move in given.exact.items():
            if at == level:
                alike.setdefault((edges[index].seam.id, round(move, 6)), []).append(index)
        groups = []
        for indexes in alike.values():
            limits = [
                min(
                    (
                        self.work.rules.limit(edges[index], level, sign)
                        for index in indexes
                        if edges[index].position == position
                    ),
                    default=None,
                )
                for position in (0, 1)
            ]
            there = [limit for limit in limits if limit is not None]
            exact = abs(given.exact[indexes[0], level])
            group = Group(
                exact,
                (there[0], there[-1]),
                sum(edges[index].count for index in indexes),
                len(there) == 2,
            )
            groups.append((tuple(indexes), group))
        order = {seam.id: place for place, seam in enumerate(self._around().ring.seams)}
        return sorted(groups, key=lambda entry: order[edges[entry[0][0]].seam.id])

    def _leg_groups(
        self, level: str, sign: float, given: Given, indexes: Sequence[int]
    ) -> list[tuple[tuple[int, ...], Group]]:
        darts = self._around().darts
        alike: dict[str, list[int]] = {}
        for index in indexes:
            alike.setdefault(darts[index].dart.id, []).append(index)
        groups = []
        for together in alike.values():
            limit = min(self.work.rules.leg_limit(darts[index], level, sign) for index in together)
            exact = abs(given.exact_legs[together[0]])
            groups.append((tuple(together), Group(exact, (limit, limit), 2 * len(together))))
        return groups
