"""The new line of one edge: how far it moves at every height.

Between the points where it is known it follows a smooth curve that never overshoots;
beyond them it runs out straight to nothing, or is carried, as the seam's run says.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from core.curves import Curve, polyline_length, smooth
from core.lengths import SMALLEST_MM
from core.records.garment import CARRY
from core.share.pinned import Point

RUN_OUT = 8.0
"""A fitted line runs out over at least eight times what is taken (from memory)."""

WAVE_MM = 6.35
"""A dip of 1/4 in between two larger moves would show as a wave."""


@dataclass(frozen=True, slots=True, eq=False)
class SeamLine:
    """An edge's moves in mm, from top to bottom; told apart by identity, as edges share lines.

    ``points`` are the known ones from the first that moves to the last; ``above`` and
    ``below`` say how far down it has run out to nothing there, ``None`` where it is
    carried (or stops as it is) to the seam's end.
    """

    points: tuple[Point, ...]
    curve: Curve
    above: float | None
    below: float | None
    carries_up: bool
    carries_down: bool

    def at(self, down: float) -> float:
        """Return the move at a height (mm down)."""
        (top, first), (bottom, last) = self.points[0], self.points[-1]
        if down < top - SMALLEST_MM:
            return _run_out(first, top, self.above, down) if not self.carries_up else first
        if down > bottom + SMALLEST_MM:
            return _run_out(last, bottom, self.below, down) if not self.carries_down else last
        return self.curve.at(down)

    def within(self, down: float) -> bool:
        """Tell whether a height lies between the known points, where nothing is carried."""
        return self.points[0][0] - SMALLEST_MM <= down <= self.points[-1][0] + SMALLEST_MM


def _run_out(amount: float, start: float, end: float | None, down: float) -> float:
    if end is None or abs(down - start) >= abs(end - start) - SMALLEST_MM:
        return 0.0
    return amount * (1 - (down - start) / (end - start))


def line_through(
    points: Sequence[Point],
    seam_downs: Sequence[float],
    run_up: str | float,
    run_down: str | float,
) -> SeamLine | None:
    """Return the line through known points, or ``None`` where nothing moves.

    ``points`` (sorted) are the pins and every judged level, at nothing where the seam moves
    nothing; ``seam_downs`` the heights of all levels the seam passes; a run is
    *nothing*, *carry*, or the height (mm down) where it is nothing.
    """
    moving = [index for index, (_, move) in enumerate(points) if abs(move) > SMALLEST_MM]
    if not moving:
        return None
    known = tuple(points[moving[0] : moving[-1] + 1])
    before, after = points[: moving[0]], points[moving[-1] + 1 :]
    higher = [down for down in seam_downs if down < known[0][0] - SMALLEST_MM]
    lower = [down for down in seam_downs if down > known[-1][0] + SMALLEST_MM]
    above = _end(known[0][0], -1.0, [down for down, _ in before], run_up, higher)
    below = _end(known[-1][0], 1.0, [down for down, _ in after], run_down, lower)
    return SeamLine(
        known,
        smooth(known),
        above,
        below,
        carries_up=not before and run_up == CARRY,
        carries_down=not after and run_down == CARRY,
    )


def _end(
    last: float, way: float, staying: Sequence[float], run: str | float, levels: Sequence[float]
) -> float | None:
    """Return how far down a line is nothing beyond its ``last`` moving point (mm).

    That is the nearest of the judged levels ``staying`` as they are and the level its run
    names; without either, the next of the seam's ``levels``.  One pinned beyond the level
    of its run ends by the next level too.  ``way`` is 1 downwards and -1 upwards.
    """
    named = [] if isinstance(run, str) or way * (run - last) <= SMALLEST_MM else [run]
    stops = [*staying, *named] or ([] if run == CARRY else list(levels))
    return min(stops, key=lambda down: abs(down - last), default=None)


def too_quick(line: SeamLine) -> list[tuple[Point, Point]]:
    """Return the stretches where the move changes over less than eight times that change."""
    stops = list(line.points)
    if line.above is not None and line.above < stops[0][0]:
        stops.insert(0, (line.above, 0.0))
    if line.below is not None and line.below > stops[-1][0]:
        stops.append((line.below, 0.0))
    return [
        (first, second)
        for first, second in pairwise(stops)
        if second[0] - first[0] < RUN_OUT * abs(second[1] - first[1]) - SMALLEST_MM
    ]


def waves(line: SeamLine) -> list[Point]:
    """Return the points that dip 1/4 in or more between two larger moves."""
    found = []
    for (_, before), here, (_, after) in zip(
        line.points, line.points[1:], line.points[2:], strict=False
    ):
        if before * after > 0:  # both in or both out: a dip between them is toward nothing
            dip = min(before, after) - here[1] if before > 0 else here[1] - max(before, after)
            if dip >= WAVE_MM - SMALLEST_MM:
                found.append(here)
    return found


def every(line: SeamLine, top: float, bottom: float, apart: float) -> list[Point]:
    """Return the line from ``top`` to ``bottom`` at each ``apart`` mm, for marking the cloth."""
    count = max(1, int((bottom - top) / apart))
    return [(down, line.at(down)) for down in (top + index * apart for index in range(count + 1))]


def matching_change(first: Sequence[Point], second: Sequence[Point]) -> float:
    """Return by how much (mm) the second edge's line grows against the first's.

    Where a free panel's edges lie is not fixed by its widths, so each line is taken from
    a straight one: its length is that of the moves drawn against the heights.
    """
    return polyline_length(second) - polyline_length(first)
