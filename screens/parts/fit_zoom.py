"""Looking closer at the figure: two fingers spread it, one moves it about, a key shows it whole."""

from dataclasses import dataclass
from math import hypot
from typing import Any

from kivy.metrics import dp

CLOSEST = 4.0
"""Nobody needs to see a seam larger than this many times."""

NEARLY_WHOLE = 1.08
"""Less than this much closer is as good as whole."""

DRIFT = 16
"""A finger that goes further than this (dp) moves the figure and sets no pin."""

Spot = tuple[float, float]


@dataclass(slots=True)
class Closer:
    """How close a figure is looked at, and at what: ``at`` is a share of its width and height.

    ``box`` is where the figure stands (pixels: left, bottom, width, height).
    """

    box: tuple[float, float, float, float] = (0.0, 0.0, 1.0, 1.0)
    times: float = 1.0
    at: Spot = (0.5, 0.5)

    @property
    def is_whole(self) -> bool:
        return self.times <= 1.0

    def show_whole(self) -> None:
        self.times, self.at = 1.0, (0.5, 0.5)

    def seen(self, x: float, y: float) -> Spot:
        """Return where a place of the whole figure is seen now (pixels)."""
        (middle_x, middle_y), (at_x, at_y) = self._middle(), self._looked_at()
        return middle_x + self.times * (x - at_x), middle_y + self.times * (y - at_y)

    def whole(self, x: float, y: float) -> Spot:
        """Return where a place that is seen now is on the whole figure (pixels)."""
        (middle_x, middle_y), (at_x, at_y) = self._middle(), self._looked_at()
        return at_x + (x - middle_x) / self.times, at_y + (y - middle_y) / self.times

    def bring(self, place: Spot, to: Spot, times: float) -> None:
        """Look so many times closer, a place of the whole figure seen at a place of the screen."""
        left, bottom, width, height = self.box
        self.times = min(max(times, 1.0), CLOSEST)
        half = 0.5 / self.times
        wanted = [
            (spot - (there - middle) / self.times - low) / size
            for spot, there, middle, low, size in zip(
                place, to, self._middle(), (left, bottom), (width, height), strict=True
            )
        ]
        across, up = (min(max(share, half), 1 - half) for share in wanted)
        self.at = (across, up)

    def _middle(self) -> Spot:
        left, bottom, width, height = self.box
        return left + width / 2, bottom + height / 2

    def _looked_at(self) -> Spot:
        left, bottom, width, height = self.box
        return left + self.at[0] * width, bottom + self.at[1] * height


class Fingers:
    """The fingers on a figure: what two of them, or one that moves on, make of the view."""

    def __init__(self, closer: Closer) -> None:
        self._closer = closer
        self._down: list[Any] = []
        self._begun: tuple[Spot, float, float] | None = None
        self.have_moved_it = False

    @property
    def count(self) -> int:
        return len(self._down)

    def put(self, touch: Any) -> None:
        """Take another finger; the first one begins anew, the second one spreads."""
        if not self._down:
            self.have_moved_it = False
        self._down.append(touch)
        if len(self._down) == 2:
            self.have_moved_it = True
        self._begin()

    def move(self, touch: Any) -> bool:
        """Follow a finger; tells whether the view is another one."""
        one_alone = len(self._down) == 1
        far = hypot(touch.x - touch.ox, touch.y - touch.oy) > dp(DRIFT)
        if one_alone and (self._closer.is_whole or not (far or self.have_moved_it)):
            return False
        if self._begun is None or len(self._down) > 2:
            return False
        self.have_moved_it = True
        place, apart, times = self._begun
        middle, now = self._spread()
        self._closer.bring(place, middle, times * (now / apart if apart and now else 1.0))
        return True

    def lift(self, touch: Any) -> None:
        """Let go of a finger; one that stays goes on from where it is."""
        self._down = [one for one in self._down if one is not touch]
        self._begin()

    def _begin(self) -> None:
        self._begun = None
        if self._down:
            middle, apart = self._spread()
            self._begun = (self._closer.whole(*middle), apart, self._closer.times)

    def _spread(self) -> tuple[Spot, float]:
        """Return the middle of the fingers, and how far apart they are."""
        xs, ys = [one.x for one in self._down[:2]], [one.y for one in self._down[:2]]
        middle = (sum(xs) / len(xs), sum(ys) / len(ys))
        return middle, hypot(xs[0] - xs[-1], ys[0] - ys[-1])


__all__ = ["NEARLY_WHOLE", "Closer", "Fingers"]
