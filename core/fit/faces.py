"""What is seen of a garment from the front and from behind: its lines and its pieces.

Millimetres of the figure's picture: y down from the crown, x towards her left; from behind the
screen turns it about.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Literal

from core.fit.pinning import What
from core.records.fitting import LoggedSide

Face = Literal["front", "back"]
FACES: tuple[Face, Face] = ("front", "back")

Spot = tuple[float, float]
Band = tuple[tuple[Spot, ...], tuple[Spot, ...]]
"""A strip between two lines that go down side by side."""


@dataclass(frozen=True, slots=True)
class LineOnHer:
    """A seam or a dart's fold on one face; ``at`` is where it crosses its levels.

    ``edge`` says that it is seen on the edge of its round: 1 the outer one, -1 the inner one of
    a limb, 0 on its face.
    """

    what: What
    place: str
    layer: str
    label: str
    side: LoggedSide
    face: Face
    points: tuple[Spot, ...]
    at: Mapping[str, Spot]
    edge: int = 0

    def x(self, y: float) -> float | None:
        """Return where the line is at a height; nothing above or below it."""
        if not self.points[0][1] - 1 <= y <= self.points[-1][1] + 1:
            return None
        below = next((i for i, point in enumerate(self.points) if point[1] >= y), -1)
        if below <= 0:
            return self.points[below][0]
        (x0, y0), (x1, y1) = self.points[below - 1 : below + 1]
        return x0 + (x1 - x0) * (y - y0) / (y1 - y0)


@dataclass(frozen=True, slots=True)
class CutOnHer:
    """A piece on one side: what a touch beside the seams lies on; ``face`` shows most of it."""

    place: str
    layer: str
    label: str
    side: LoggedSide
    face: Face
    levels: tuple[str, ...]


def read_straight(x: float, points: Sequence[Spot]) -> float:
    """Return y read off straight between points; beyond them as far on as x goes."""
    if x <= points[0][0]:
        return points[0][1] - (points[0][0] - x)
    for (x0, y0), (x1, y1) in pairwise(points):
        if x <= x1:
            return y0 + (y1 - y0) * (x - x0) / ((x1 - x0) or 1.0)
    return points[-1][1] + (x - points[-1][0])


def read_level(x: float, points: Sequence[Spot]) -> float:
    """Return y read off straight between points; beyond them it stays as it was."""
    return read_straight(min(max(x, points[0][0]), points[-1][0]), points)
