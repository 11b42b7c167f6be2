"""Simple shapes for the top of a bodice and of a sleeve: neck, shoulder, armhole, cap.

Neutral ones, drawn to lengths that a draft has (armhole, shoulder, cap) and otherwise to fixed
shares: a picture to know the piece by, not a draft of its top.  Millimetres.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from itertools import pairwise
from math import cos, pi, sin, sqrt

from core.curves import Point, polyline_length

NECK_WIDE, NECK_FRONT, NECK_BACK = 0.28, 0.40, 0.14
TIP_WIDE, TIP_DOWN = 0.60, 0.145
"""Shares of the half width and of the height of the first level: a picture, not a draft."""

_TURN = 0.42
"""How far down the armhole turns outward, as a share of its height."""
_HOLLOW = 0.035
"""How far it goes inward before, as a share of the half width."""


@dataclass(frozen=True, slots=True)
class Block:
    """A half of a bodice above its first level: its half width there, and how far down that is."""

    half_mm: float
    down_mm: float
    neck_mm: float
    tip: Point
    is_front: bool

    def path(self, underarm: float) -> list[Point]:
        """Return the top edge from the centre line over neck, shoulder and armhole to underarm."""
        return [*self._neck(), *self._armhole(underarm)]

    def armhole_mm(self, underarm: float) -> float:
        """Return how long the armhole is with the underarm so far down."""
        return polyline_length(self._armhole(underarm))

    def _neck(self) -> list[Point]:
        deep = (NECK_FRONT if self.is_front else NECK_BACK) * self.down_mm
        return [(self.neck_mm * sin(step / 16 * pi / 2), deep * cos(step / 16 * pi / 2))
                for step in range(17)]  # fmt: skip

    def _armhole(self, underarm: float) -> list[Point]:
        """From the shoulder tip a little inward, then a quarter ellipse out to the underarm."""
        wide, top = self.tip
        turn = top + _TURN * (underarm - top)
        narrow = wide - _HOLLOW * self.half_mm
        inward = [(wide - (wide - narrow) * sin(step / 10 * pi / 2),
                   top + (turn - top) * step / 10) for step in range(11)]  # fmt: skip
        reach, fall = self.half_mm - narrow, underarm - turn
        outward = [(narrow + reach * (1 - cos(step / 20 * pi / 2)),
                    turn + fall * sin(step / 20 * pi / 2)) for step in range(1, 21)]  # fmt: skip
        return inward + outward


def blocks(front_mm: float, back_mm: float, down_mm: float, shoulder_mm: float | None) -> tuple[
    Block, Block
]:  # fmt: skip
    """Return the front and back above a level so far down; shoulders of both are alike.

    ``front_mm`` and ``back_mm`` are the half widths at that level, ``shoulder_mm`` the sewn
    shoulder seam where the draft has it.
    """
    mean = (front_mm + back_mm) / 2
    neck, slope = NECK_WIDE * mean, TIP_DOWN * down_mm
    wide = TIP_WIDE * mean
    if shoulder_mm is not None and shoulder_mm > slope:
        wide = min(neck + sqrt(shoulder_mm**2 - slope**2), 0.9 * min(front_mm, back_mm))
    return (
        Block(front_mm, down_mm, neck, (wide, slope), is_front=True),
        Block(back_mm, down_mm, neck, (wide, slope), is_front=False),
    )


def underarm_for(both: tuple[Block, Block], armhole_mm: float | None) -> float:
    """Return how far down the underarm lies so that front and back armhole are so long together.

    Without a length, or with one that no underarm above the level gives, the nearest there is.
    """
    down = both[0].down_mm
    low, high = both[0].tip[1] + 0.25 * down, 0.96 * down
    if armhole_mm is None:
        return 0.76 * down
    return _solve(lambda y: sum(one.armhole_mm(y) for one in both), armhole_mm, low, high)


def part_of(path: Sequence[Point], start: float, end: float | None) -> list[Point]:
    """Return a top edge between two distances from the centre line, where a panel is cut out.

    Without an ``end`` it goes to the path's own end, the underarm.
    """
    found: list[Point] = []
    for before, after in pairwise(path):
        if not found and start <= after[0] and after[0] > before[0]:
            found.append(_crossed(before, after, start))
        if found and end is not None and before[0] <= end <= after[0] and after[0] > before[0]:
            return [*found, _crossed(before, after, end)]
        if found:
            found.append(after)
    return found or list(path[-1:])


def cap(width_mm: float, down_mm: float, length_mm: float) -> list[Point]:
    """Return a sleeve cap over a width, so long along its curve; left to right, its foot level.

    A bell; no longer than the height above it allows.
    """
    half = width_mm / 2

    def bell(height: float) -> list[Point]:
        return [(half * step / 24, down_mm - height * (1 + cos(pi * step / 24)) / 2)
                for step in range(-24, 25)]  # fmt: skip

    return bell(_solve(lambda height: polyline_length(bell(height)), length_mm, 0.0, width_mm))


def _crossed(before: Point, after: Point, x: float) -> Point:
    share = min(max((x - before[0]) / (after[0] - before[0]), 0.0), 1.0)
    return before[0] + share * (after[0] - before[0]), before[1] + share * (after[1] - before[1])


def _solve(length: Callable[[float], float], wanted: float, low: float, high: float) -> float:
    """Return where a length that only grows is the wanted one, or the nearer end (halving)."""
    if wanted <= length(low) or wanted >= length(high):
        return low if wanted <= length(low) else high
    for _ in range(40):
        middle = (low + high) / 2
        low, high = (middle, high) if length(middle) < wanted else (low, middle)
    return (low + high) / 2
