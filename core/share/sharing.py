"""Sharing out what a level needs over its seams and darts, turn by turn.

A fitter asks, level by level, whose turn it is to give.  Everything here is a
plain sum on amounts in mm; what an edge or a leg is, the callers know.
"""

from collections.abc import Sequence
from dataclasses import dataclass

from core.lengths import SMALLEST_MM
from core.records.answer import Sharing


@dataclass(frozen=True, slots=True)
class Giver:
    """Edges (or dart legs) that move alike at one level.

    ``count`` is how many there are in the round; ``comfort`` and ``limit`` how far each
    may go (mm, never negative) in the direction of the need; ``turn`` 0 never
    gives, ``weight`` 0 stays.  ``place`` is the seam's or dart's place in the garment's
    order: what shares a place is left out together.
    """

    place: int
    count: int
    turn: int
    weight: float
    comfort: float
    limit: float


@dataclass(frozen=True, slots=True)
class Shared:
    """What each giver moves (mm, with the sign of the need), and what is missing."""

    moves: tuple[float, ...]
    short: float


def share_out(
    need: float, givers: Sequence[Giver], *, band: float, step: float, way: Sharing = "by_turns"
) -> Shared:
    """Share ``need`` (mm over the round, negative takes in) over the givers.

    Turns in order up to comfort, no edge for less than a step; then in order up
    to the limit; what is left inside ``band`` is left, what is left outside it at the
    end is short.  *fewest* asks the first turn alone, up to its limits; *spread* asks
    all turns as one.
    """
    limits = [giver.limit for giver in givers]
    comforts = limits if way == "fewest" else [min(giver.comfort, giver.limit) for giver in givers]
    asked = _asked(givers, way)
    moves = [0.0] * len(givers)
    left = abs(need)
    for members in asked:
        if left > band + SMALLEST_MM:
            left = _give_within_comfort(left, members, givers, moves, comforts, band, step)
    for members in asked:
        if left > band + SMALLEST_MM:
            left = _pour(left, members, givers, moves, limits)
    sign = -1.0 if need < 0 else 1.0
    short = left if left > band + SMALLEST_MM else 0.0
    signed = tuple(sign * move if move else 0.0 for move in moves)
    return Shared(signed, sign * short if short else 0.0)


def _asked(givers: Sequence[Giver], way: Sharing) -> list[list[int]]:
    """Return who is asked, turn by turn: as given, the first turn alone, or all as one."""
    turns: dict[int, list[int]] = {}
    for index, giver in enumerate(givers):
        if giver.turn > 0:
            turns.setdefault(1 if way == "spread" else giver.turn, []).append(index)
    in_order = [turns[turn] for turn in sorted(turns)]
    return in_order[:1] if way == "fewest" else in_order


def _give_within_comfort(
    left: float,
    members: Sequence[int],
    givers: Sequence[Giver],
    moves: list[float],
    comforts: Sequence[float],
    band: float,
    step: float,
) -> float:
    """Let one turn give up to its comfort; return what is still left."""
    asked = [
        index for index in members if givers[index].weight > 0 and comforts[index] > SMALLEST_MM
    ]
    left_out: list[list[int]] = []
    while _smallest_share(left, asked, givers) < step - SMALLEST_MM:
        last = max((givers[index].place for index in asked), default=0)
        staying = [index for index in asked if givers[index].place != last]
        if not staying:
            break
        left_out.append([index for index in asked if givers[index].place == last])
        asked = staying
    left = _pour(left, asked, givers, moves, comforts)
    for later in reversed(left_out):
        if left <= band + SMALLEST_MM:
            break
        left = _pour(left, later, givers, moves, comforts)
    return left


def _smallest_share(left: float, asked: Sequence[int], givers: Sequence[Giver]) -> float:
    total = sum(givers[index].count * givers[index].weight for index in asked)
    if not total:
        return left
    return left / total * min(givers[index].weight for index in asked)


def _pour(
    amount: float,
    members: Sequence[int],
    givers: Sequence[Giver],
    moves: list[float],
    caps: Sequence[float],
) -> float:
    """Pour ``amount`` over the members in proportion to weight, each up to its cap.

    One that reaches its cap stays there and the others share the rest; returns what
    none of them could take.
    """
    open_ones = [
        index
        for index in members
        if givers[index].weight > 0 and caps[index] - moves[index] > SMALLEST_MM
    ]
    while open_ones and amount > SMALLEST_MM:
        total = sum(givers[index].count * givers[index].weight for index in open_ones)
        each = amount / total
        full = [
            index
            for index in open_ones
            if moves[index] + each * givers[index].weight >= caps[index] - SMALLEST_MM
        ]
        for index in full or open_ones:
            new = caps[index] if full else moves[index] + each * givers[index].weight
            amount -= givers[index].count * (new - moves[index])
            moves[index] = new
        open_ones = [index for index in open_ones if index not in full] if full else []
    return max(amount, 0.0)
