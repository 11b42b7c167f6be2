"""The shapes of the sewing table, twice as large as elsewhere, and two of its own."""

from collections.abc import Iterable

from kivy.graphics import Color, Line, RoundedRectangle
from kivy.metrics import dp
from kivy.properties import OptionProperty

from screens.parts.marks import KINDS, Mark

LARGER = 2.0


class SewMark(Mark):
    """A shape to be seen across the table."""

    kind = OptionProperty("", options=[*KINDS, "close", "speak"])

    def _stroke(self, *points: tuple[float, float], width: float = 2.2) -> None:
        Line(points=self._placed(points), width=dp(width) * LARGER / 2, cap="round",
             joint="round")  # fmt: skip

    def _placed(self, points: Iterable[tuple[float, float]]) -> list[float]:
        x, y = self.center
        return [where for dx, dy in points for where in (x + dp(dx) * LARGER, y + dp(dy) * LARGER)]

    def _caution(self) -> None:
        x, y = self.center
        RoundedRectangle(pos=(x - dp(20), y - dp(20)), size=(dp(40), dp(40)), radius=[dp(8)])
        Color(*self.ground)
        self._stroke((0, 6), (0, -1), width=2.6)
        self._stroke((0, -6), (0, -6.1), width=2.6)

    def _close(self) -> None:
        self._stroke((-7, -7), (7, 7), width=1.8)
        self._stroke((-7, 7), (7, -7), width=1.8)

    def _speak(self) -> None:
        self._stroke((-9, 3), (-9, -3), (-5, -3), (0, -7), (0, 7), (-5, 3), (-9, 3), width=1.6)
        for reach, tall in ((4, 3), (8, 6)):
            self._stroke((reach - 1, tall), (reach, 0), (reach - 1, -tall), width=1.6)
