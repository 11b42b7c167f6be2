"""Sharing a round's needs over its levels: the darts first, then the seams alone."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from core.changes.layer_plan import Alike, Gift, Given, Member, Work
from core.lengths import SMALLEST_MM
from core.records.answer import Sharing
from core.sewn.rounds import DartSide, Edge, Round
from core.share.rounding import Group, round_level
from core.share.rules import Terms
from core.share.sharing import Giver, Shared, share_out


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
        given.seams[level] = [
            Gift(member, move) for member, move in zip(members, shared.moves, strict=True) if move
        ]
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
        """Return the seams' edges that may be asked at a level, left and right together.

        Where none is held they are the same for every way of sharing, and kept.
        """
        held = {index for index, at in self.held_edges if at == level}
        key = (self.number, level, need < 0)
        if held:
            return self._find_edge_members(level, need, held)
        if key not in self.work.members:
            self.work.members[key] = self._find_edge_members(level, need, held)
        return self.work.members[key]

    def _find_edge_members(self, level: str, need: float, held: set[int]) -> list[Member]:
        """Return who may be asked: a seam's two edges as one where the same is asked of both."""
        edges, rules = self._around().edges, self.work.rules
        asked: dict[tuple[int, Terms], tuple[int, ...]] = {}
        for place, indexes, levels in self._alike():
            free = tuple(index for index in indexes if index not in held) if held else indexes
            if free and level in levels:
                turn, weight, comfort, limit = rules.terms(edges[free[0]], level)
                if need > 0:
                    limit = min(rules.room_out(edges[index], level) for index in free)
                key = place, (turn, weight, comfort, limit)
                asked[key] = asked.get(key, ()) + free
        members = []
        for (place, terms), indexes in asked.items():
            first, last = edges[indexes[0]], edges[indexes[-1]]
            giver = Giver(place, first.count * len(indexes), *terms)
            members.append(Member(indexes, False, giver, first.position != last.position))
        return members

    def _alike(self) -> list[Alike]:
        """Return each seam's first and second edges, left and right together."""
        found = self.work.alike.get(self.number)
        if found is None:
            found = self.work.alike[self.number] = self._find_alike()
        return found

    def _find_alike(self) -> list[Alike]:
        around = self._around()
        together: dict[tuple[str, int], list[int]] = {}
        for index, edge in enumerate(around.edges):
            together.setdefault((edge.seam.id, edge.position), []).append(index)
        found = []
        for place, seam in enumerate(around.ring.seams):
            levels = frozenset(around.ring.levels_of(seam))
            levels -= self.work.rules.closed_levels(around.ring, seam)
            for position in (0, 1):
                indexes = together.get((seam.id, position))
                if indexes:
                    found.append(Alike(place, tuple(indexes), levels))
        return found

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
        exact = [given.exact_legs[index] for index in darts]
        seams = self._seam_groups(given.seams.get(level, ()))
        exact += [gifts[0].exact for gifts, _ in seams]
        sign = -1.0 if min(exact, default=0.0) < 0 else 1.0
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
        for (gifts, _), (first, second) in zip(seams, rounded, strict=False):
            for gift in gifts:
                self._put_down(gift, sign * first, sign * second)
        for (indexes, _), (first, _) in zip(legs, rounded[len(seams) :], strict=True):
            given.legs |= dict.fromkeys(indexes, sign * first)

    def _put_down(self, gift: Gift, first: float, second: float) -> None:
        """Keep what a seam's two edges were rounded to, or the one of them that gives."""
        if not gift.member.pairs:
            position = self._around().edges[gift.member.indexes[0]].position
            first = second = second if position else first
        gift.first, gift.second = first, second

    def _seam_groups(self, gifts: Sequence[Gift]) -> list[tuple[list[Gift], Group]]:
        """Return what each seam's edges give, together where their exact moves are alike."""
        alike: list[list[Gift]] = []
        for gift in gifts:
            if alike and _same(alike[-1][0], gift):
                alike[-1].append(gift)
            else:
                alike.append([gift])
        groups = []
        for together in alike:
            first, last = together[0].member, together[-1].member
            group = Group(
                exact=abs(together[0].exact),
                limits=(first.giver.limit, last.giver.limit),
                edges=first.giver.count if first is last else first.giver.count + last.giver.count,
                pairs=first.pairs or first is not last,
            )
            groups.append((together, group))
        return groups

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


def _same(one: Gift, other: Gift) -> bool:
    """Tell whether two edges of one seam give the same before rounding."""
    same_seam = one.member.giver.place == other.member.giver.place
    return same_seam and abs(one.exact - other.exact) <= SMALLEST_MM
