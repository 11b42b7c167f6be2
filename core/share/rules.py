"""How far an edge or a leg may go, and whose turn it is: own value, kind, settings, table."""

from dataclasses import dataclass, field

from core.draft.kinds import Kind, kind
from core.file.shaped import NOT_GIVEN, Shaped
from core.lengths import SMALLEST_MM
from core.records.garment import CARRY, NOTHING, Garment, Layer, Opening, Ring, Seam
from core.sewn.rounds import DartSide, Edge

Terms = tuple[int, float, float, float]
"""What may be asked of a seam's edge: its turn, weight, comfort and most (mm)."""

_ASKED = ("turn", "weight", "comfort", "most")

_Given = tuple[float | None, ...]
"""A seam's turn, weight, comfort and most as they were given, in that order."""


@dataclass(frozen=True, slots=True)
class Rules:
    """The rules for one layer of one garment.

    A seam's own value beats the kind's, the kind's beats the settings, the settings
    beat the table.  ``everywhere`` keeps what was given for a seam where no level or piece
    changes it.  ``on_paper`` is true after a toile: nothing is unpicked, the draft is
    changed, and no allowance limits it.
    """

    garment: Garment
    layer: Layer
    kind: Kind | None
    on_paper: bool = False
    everywhere: dict[int, _Given] = field(default_factory=dict)

    def terms(self, edge: Edge, level: str) -> Terms:
        """Return an edge's turn, weight, comfort and most (mm) at a level."""
        turn, weight, comfort, most = self._asked(edge.seam, edge.piece, level)
        if comfort is None and self.kind is not None:
            comfort = self.kind.comfort.get(level)
        settings = self.garment.settings
        return (
            1 if turn is None else int(turn),
            1.0 if weight is None else weight,
            settings.comfort if comfort is None else comfort,
            settings.most if most is None else most,
        )

    def most(self, seam: Seam, piece: str, level: str) -> float:
        given = self._given(seam, "most", piece, level)
        return self.garment.settings.most if given is None else given

    def keep(self, seam: Seam, piece: str, level: str) -> float:
        given = self._given(seam, "keep", piece, level)
        if given is None and seam.zip and self.kind is not None:
            given = self.kind.zip_keep
        return self.garment.settings.keep if given is None else given

    def room_out(self, edge: Edge, level: str) -> float:
        """Return how far the edge can be let out: what is inside less what is kept (mm)."""
        if self.on_paper:
            return self.garment.settings.most
        return max(0.0, self._spare(edge, level))

    def room_at(self, edge: Edge, down: float) -> float:
        """Return how far the edge can be let out at a height (mm), straight between levels.

        Above its first level and below its last it is the room there.
        """
        downs = {self.garment.levels[level].down: level for level in edge.levels}
        above = max((at for at in downs if at <= down), default=min(downs))
        below = min((at for at in downs if at >= down), default=max(downs))
        if self.on_paper or above >= below:
            return self.room_out(edge, downs[min(above, below)])
        first, last = (self._spare(edge, downs[at]) for at in (above, below))
        return max(0.0, first + (last - first) * (down - above) / (below - above))

    def _spare(self, edge: Edge, level: str) -> float:
        """Return what is inside less what is kept (mm); negative where less is inside."""
        if level in edge.seam.clipped or self.layer.shows_marks:
            return 0.0
        return edge.allowance[level] - self.keep(edge.seam, edge.piece, level)

    def limit(self, edge: Edge, level: str, need: float) -> float:
        """Return how far the edge may go in the direction of the need (mm, not negative)."""
        if need < 0:
            return self.most(edge.seam, edge.piece, level)
        return self.room_out(edge, level)

    def leg_limit(self, dart: DartSide, level: str, need: float) -> float:
        """Return how far each leg may go: half the take-up out, half of what is missing in."""
        take_up = dart.take_up[level]
        if need < 0:
            deepest = dart.dart.deepest
            deepest = self.garment.settings.deepest if deepest is None else deepest
            return max(0.0, (deepest - take_up) / 2)
        shut = (dart.dart.slashed or self.layer.shows_marks) and not self.on_paper
        return 0.0 if shut else max(0.0, take_up / 2)

    def leg_comfort(self, dart: DartSide) -> float:
        own = dart.dart.comfort
        return self.garment.settings.leg_comfort if own is None else own

    def dart_turn(self, dart: DartSide) -> int:
        if dart.dart.turn is not None:
            return dart.dart.turn
        usual = self.kind.darts.get((self.layer.id, dart.dart.id)) if self.kind else None
        return 1 if usual is None or usual.turn is None else usual.turn

    def run(self, seam: Seam, downwards: bool) -> str:
        """Return what happens beyond the last level: nothing, carry, or a level's id."""
        usual = self._usual(seam)
        for source in (seam, usual):
            if source is not None:
                run = source.run_down if downwards else source.run_up
                if run in (NOTHING, CARRY) or run in self.garment.levels:
                    return run
        return NOTHING

    def closed_levels(self, ring: Ring, seam: Seam) -> frozenset[str]:
        """Return the levels where the seam's run says nothing: never moved by sharing."""
        closed: set[str] = set()
        for downwards in (False, True):
            stop = self.run(seam, downwards)
            if stop in (NOTHING, CARRY) or stop not in self.garment.levels:
                continue
            at = self.garment.levels[stop].down
            for level in ring.levels:
                beyond = self.garment.levels[level].down - at
                if (beyond if downwards else -beyond) >= -SMALLEST_MM:
                    closed.add(level)
        return frozenset(closed)

    def side_set_forward(self, ring: Ring) -> float:
        """Return how far a ring's side seam lies before the side line (mm)."""
        usual = self.kind.side_set_forward if self.kind else {}
        return ring.side_set_forward or usual.get((self.layer.id, ring.id), 0.0)

    def minutes(self, place: str) -> float:
        """Return the minutes of a seam or dart, opened once."""
        for ring in self.layer.rings:
            for seam in ring.seams:
                if seam.id == place:
                    usual = self._usual(seam)
                    return seam.minutes or (usual.minutes if usual else 0.0)
            for piece in ring.pieces:
                for dart in piece.darts:
                    if dart.id == place:
                        return dart.minutes
        return 0.0

    def needs(self, place: str) -> tuple[str, ...]:
        """Return what must be opened to reach a seam or dart."""
        for ring in self.layer.rings:
            for seam in ring.seams:
                if seam.id == place:
                    usual = self._usual(seam)
                    return seam.needs or (usual.needs if usual else ())
            for piece in ring.pieces:
                for dart in piece.darts:
                    if dart.id == place:
                        return dart.needs
        return ()

    def opening_minutes(self, name: str) -> float:
        """Return the minutes of an opening, a joined part or another seam that is in the way."""
        opening = self.opening(name)
        if opening is not None:
            return opening.minutes
        joined = next((part for part in self.garment.joined if part.id == name), None)
        return joined.minutes if joined is not None else self.minutes(name)

    def opening_label(self, name: str) -> str:
        """Return what an opening, a joined part or a seam is called."""
        named = [
            self.opening(name),
            *(part for part in self.garment.joined if part.id == name),
            *(seam for ring in self.layer.rings for seam in ring.seams if seam.id == name),
        ]
        return next((entry.label for entry in named if entry), name.replace("_", " "))

    def opening(self, name: str) -> Opening | None:
        """Return an opening of the garment, or else of its kind."""
        own = self.garment.openings.get(name)
        return own or (self.kind.openings.get(name) if self.kind else None)

    def _usual(self, seam: Seam) -> Seam | None:
        return self.kind.seams.get((self.layer.id, seam.id)) if self.kind else None

    def _asked(self, seam: Seam, piece: str, level: str) -> _Given:
        """Return a seam's turn, weight, comfort and most as given; kept where one for all."""
        kept = self.everywhere.get(id(seam))  # two stretches of one seam may share an id
        if kept is not None:
            return kept
        given = tuple(self._given(seam, name, piece, level) for name in _ASKED)
        if not any(_changes(part, name) for part in (seam, self._usual(seam)) for name in _ASKED):
            self.everywhere[id(seam)] = given
        return given

    def _given(self, seam: Seam, name: str, piece: str, level: str) -> float | None:
        """Return a seam's own value, or its kind's."""
        own: Shaped = getattr(seam, name)
        given = own.at(piece, level)
        usual = self._usual(seam) if given is None else None
        if usual is None:
            return given
        kinds: Shaped = getattr(usual, name)
        return kinds.at(piece, level)


def _changes(seam: Seam | None, name: str) -> bool:
    """Tell whether a seam's value depends on the level or the piece."""
    value: Shaped = NOT_GIVEN if seam is None else getattr(seam, name)
    return value.once is None and bool(value.given)


def rules_of(garment: Garment, layer: Layer, *, on_paper: bool = False) -> Rules:
    """Return the rules of a layer; an unknown kind has none of its own."""
    return Rules(garment, layer, kind(garment.kind), on_paper)
