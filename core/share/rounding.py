"""Rounding shared moves to what can be marked, so that the round comes right."""

import math
from collections.abc import Sequence
from typing import Any, NamedTuple

from core.lengths import SMALLEST_MM

_Chain = tuple[Any, tuple[int, int]] | None
"""The stops chosen so far, the last one first."""

_Best = tuple[int, int, _Chain]
"""Squares, then the marks given (larger earlier first, as one number), then the stops."""

_FINE = 10**9
"""Squares are counted in whole billionths of a mark squared, so that equals are equal."""

_DIGIT = 20
"""Bits for one group's marks in that number: 20 m is 12,600 sixteenths, twice over."""


class Group(NamedTuple):
    """Edges with one exact move at one level: one seam's alike, or a dart's legs.

    ``exact`` and ``limits`` are amounts in mm in the direction of the need, never negative;
    ``edges`` is how many there are in the round.  ``pairs`` is true where the edges are a
    seam's first and second, which may be rounded apart; each has its own limit.
    """

    exact: float
    limits: tuple[float, float]
    edges: int
    pairs: bool = False


def round_level(
    target: float, groups: Sequence[Group], *, step: float, finest: float, band: float
) -> list[tuple[float, float]]:
    """Return each group's rounded amounts (mm), for the first and the second edge.

    Each goes to the step below or above, inside its limits (an edge held at its limit
    may stop on the finest mark under it), so that the total is nearest ``target`` (mm
    over the round, in the direction of the need); between equals nearest the exact moves,
    then the larger move to the earlier group.  Only where that misses by more than
    ``band`` are a seam's two edges rounded apart, the second the larger where it has room.
    """
    per_step = max(1, round(step / finest))
    mark = step / per_step  # the finest mark that the step is a whole number of
    choices = [_alike(group, step, per_step) for group in groups]
    best, miss = _nearest(target, groups, choices, mark)
    if miss > band + SMALLEST_MM and any(group.pairs for group in groups):
        pairs = zip(groups, choices, strict=True)
        choices = [kept + _apart(group, step, per_step) for group, kept in pairs]
        best, _ = _nearest(target, groups, choices, mark)
    return [(first * mark, second * mark) for first, second in best]


def _steps_beside(exact: float, step: float, per_step: int) -> tuple[int, int]:
    """Return the step below and the one above, in marks; both the same on a step."""
    low, high = math.floor((exact + SMALLEST_MM) / step), math.ceil((exact - SMALLEST_MM) / step)
    return low * per_step, high * per_step


def _alike(group: Group, step: float, per_step: int) -> list[tuple[int, int]]:
    """Return the marks the group may stop at: the step below and above, or a limit's mark."""
    mark, limit = step / per_step, min(group.limits)
    beside = _steps_beside(group.exact, step, per_step)
    marks = {stop for stop in beside if stop * mark <= limit + SMALLEST_MM}
    if group.exact >= limit - SMALLEST_MM:
        marks.add(math.floor((limit + SMALLEST_MM) / mark))
    return [(stop, stop) for stop in sorted(marks)]


def _apart(group: Group, step: float, per_step: int) -> list[tuple[int, int]]:
    """Return the one way apart: the second edge larger, or the first where only it has room."""
    mark = step / per_step
    low, high = _steps_beside(group.exact, step, per_step)
    room = [high * mark <= limit + SMALLEST_MM for limit in group.limits]
    if not group.pairs or low == high or not any(room):
        return []
    return [(low, high) if room[1] else (high, low)]


def _nearest(
    target: float,
    groups: Sequence[Group],
    choices: Sequence[Sequence[tuple[int, int]]],
    mark: float,
) -> tuple[list[tuple[int, int]], float]:
    """Return the best choice for each group and by how much its total misses."""
    reached: dict[int, _Best] = {0: (0, 0, None)}
    doubled = 2 * target / mark
    for group, stops in zip(groups, choices, strict=True):
        if len(stops) > 1:
            reached = _extend(reached, _priced(group, stops, mark))
        else:  # nothing to choose
            doubled -= sum(stops[0]) * group.edges
    found = min(reached, key=lambda total: (round(abs(total - doubled), 6), *reached[total][:2]))
    chosen = iter(_stops(reached[found][2]))
    best = [next(chosen) if len(stops) > 1 else stops[0] for stops in choices]
    return best, abs(found - doubled) * mark / 2


def _priced(
    group: Group, stops: Sequence[tuple[int, int]], mark: float
) -> list[tuple[tuple[int, int], int, int]]:
    """Return each choice with what it adds to the (doubled) total and its squares."""
    exact, count = group.exact / mark, group.edges
    return [
        (
            (first, second),
            (first + second) * count,
            round(count * ((first - exact) ** 2 + (second - exact) ** 2) / 2 * _FINE),
        )
        for first, second in stops
    ]


def _extend(
    reached: dict[int, _Best], priced: Sequence[tuple[tuple[int, int], int, int]]
) -> dict[int, _Best]:
    longer: dict[int, _Best] = {}
    for total, (squares, order, chain) in reached.items():
        for stop, adds, cost in priced:
            sum_of_squares = squares + cost
            marks = (order << _DIGIT) - stop[0] - stop[1]
            held = longer.get(total + adds)
            if held is None or (sum_of_squares, marks) < held[:2]:
                longer[total + adds] = (sum_of_squares, marks, (chain, stop))
    return longer


def _stops(chain: _Chain) -> list[tuple[int, int]]:
    found = []
    while chain is not None:
        chain, stop = chain
        found.append(stop)
    return found[::-1]
