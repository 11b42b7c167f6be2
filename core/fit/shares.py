"""How far round a ring its pieces end and its seams lie: each by its share of the round."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from core.file.checking import net_widths
from core.fit.faces import Spot
from core.fit.round_her import BACK, INSIDE, OUTSIDE
from core.records.garment import Garment, Piece, Ring, Seam


def girths_of(garment: Garment, ring: Ring) -> dict[str, float]:
    """Return what a ring measures at each level it is whole at (mm; half of a half ring)."""
    widths = net_widths(garment, ring)
    return {
        level: sum(sum(widths[piece.id, level]) for piece in ring.pieces) / 2
        for level in ring.levels
        if ring.whole_at(level)
    }


@dataclass(frozen=True, slots=True)
class Turns:
    """Where a ring's pieces begin and end, by level and piece; behind which piece a seam lies."""

    ring: Ring
    pieces: Mapping[str, Mapping[str, Spot]]
    behind: Mapping[str, int]

    def of_seam(self, seam: Seam) -> dict[str, float]:
        """Return by level at which turn a seam lies."""
        ring = self.ring
        if seam.joins_itself and ring.kind == "half":
            in_front = len(ring.pieces) > 1 and seam.joins[0] == ring.pieces[0].id
            return dict.fromkeys(ring.levels_of(seam), 0.0 if in_front else BACK)
        before = ring.pieces[self.behind[seam.id]].id
        return {level: self.pieces[level][before][1] for level in ring.levels_of(seam)}

    def sides_of(self, seam: Seam) -> tuple[Piece, Piece]:
        """Return the piece before a seam and the one after it, in the order of the round."""
        at, pieces = self.behind[seam.id], self.ring.pieces
        after = at if seam.joins_itself else (at + 1) % len(pieces)
        return pieces[at], pieces[after]


def turns_of(
    garment: Garment, ring: Ring, outside: Iterable[str] = (), *, is_arm: bool = False
) -> Turns:
    """Return where a ring's pieces begin and end round her.

    A half ring goes from the middle of the front to the middle of the back.  A closed one has no
    beginning; in this order: a seam that is known to lie outside (``outside``: the side line, a
    seam that goes on into the ring above) does; a ring of one piece has its seam inside; an arm's
    first piece lies over the outside, as an upper sleeve does; of a leg the first piece is the
    front one and ends outside.  The last two are common practice; the file does not say it.
    """
    known = next((seam for seam in ring.seams if seam.id in {*outside, ring.side_line}), None)
    behind = {seam.id: _behind(ring, seam, known) for seam in ring.seams}
    pieces = {}
    for level in ring.levels:
        shares = _shares(garment, ring, level)
        if ring.kind == "half":
            turned = 0.0
        elif known is not None and len(ring.pieces) > 1:
            last = ring.pieces[behind[known.id]].id
            turned = OUTSIDE - shares.get(last, (0.0, 0.0))[1]
        else:
            turned = _usual_turn(ring, shares, is_arm)
        whole = BACK if ring.kind == "half" else 1.0
        pieces[level] = {
            piece: (first * whole + turned, last * whole + turned)
            for piece, (first, last) in shares.items()
        }
    return Turns(ring, pieces, behind)


def _behind(ring: Ring, seam: Seam, known: Seam | None) -> int:
    """Return the piece (by its place in the ring) behind which a seam lies.

    In a closed ring of two pieces the seam outside lies behind the piece it names first; where
    none is known the first one listed lies behind the first piece.
    """
    names = [piece.id for piece in ring.pieces]
    first, second = sorted(names.index(name) for name in seam.joins)
    if ring.kind == "half" or first == second:
        return first
    if len(names) > 2:
        return second if second - first > 1 else first
    if known is not None:
        front = names.index(known.joins[0])
        return front if seam.id == known.id else 1 - front
    return 0 if next(one.id for one in ring.seams if not one.joins_itself) == seam.id else 1


def _usual_turn(ring: Ring, shares: Mapping[str, Spot], is_arm: bool) -> float:
    if ring.copies == 1 and not is_arm:
        first = shares.get(ring.pieces[0].id, (0.0, 0.0))
        return -first[1] / 2  # its middle is the middle of the front
    if len(ring.pieces) == 1:
        return INSIDE
    end = shares.get(ring.pieces[0].id, (0.0, 0.0))[1]
    if is_arm:
        return OUTSIDE - end / 2
    return OUTSIDE - end if len(ring.pieces) == 2 else -OUTSIDE


def _shares(garment: Garment, ring: Ring, level: str) -> dict[str, Spot]:
    """Return where each piece begins and ends, as shares of the ring at a level."""
    widths = net_widths(garment, ring)
    there = [piece for piece in ring.pieces if level in piece.width]
    each = [max(sum(widths[piece.id, level]) / 2, 0.0) for piece in there]
    whole, passed = sum(each) or 1.0, 0.0
    found = {}
    for piece, width in zip(there, each, strict=True):
        found[piece.id] = (passed / whole, (passed + width) / whole)
        passed += width
    return found
