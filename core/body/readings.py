"""Second and third readings: which value is kept, and how well this maker's tape agrees."""

from collections.abc import Sequence
from itertools import pairwise
from math import fsum, sqrt

from core.errors import WorkroomError
from core.lengths import SMALLEST_MM

READINGS_APART_MM = 25.4 * 3 / 8
"""A pair further apart than this asks for a third: common practice, no published source."""


class NoReading(WorkroomError):
    """A value was asked for and nothing has been read yet."""


def asks_for_third(first_mm: float, second_mm: float) -> bool:
    """Tell whether two readings are over 3/8 in apart; exactly 3/8 in is not."""
    return abs(first_mm - second_mm) > READINGS_APART_MM + SMALLEST_MM


def kept_mm(readings_mm: Sequence[float]) -> float:
    """Return the value kept from one, two or three readings (mm).

    One is kept as it is; of two the mean, as neither is better.  Of three or more
    the mean of the two nearest each other: a third is only taken because one of the
    first two is probably a slip (a twisted tape, a wrong eighth), and the mean
    of all three would carry a third of that slip into the garment.  Where two pairs are
    equally near, the reading they share is kept.  Raises ``NoReading`` for none.

    >>> kept_mm([700, 712, 701])
    700.5
    """
    if not readings_mm:
        raise NoReading("Nothing has been read yet")
    if len(readings_mm) == 1:
        return readings_mm[0]
    pairs = list(pairwise(sorted(readings_mm)))
    nearest = min(high - low for low, high in pairs)
    middles = [(low + high) / 2 for low, high in pairs if high - low <= nearest + SMALLEST_MM]
    return fsum(middles) / len(middles)


def own_error_mm(pairs_mm: Sequence[tuple[float, float]]) -> float:
    """Return a maker's own technical error of measurement: sqrt(sum d^2 / 2N) (mm).

    ``d`` is the difference of the two first readings of one measurement, N how many such
    pairs there are; never negative.  It is what one of her readings scatters by.
    Source: the formula of body measuring for two readings of the same length, as textbooks
    give it.  Raises ``NoReading`` without a pair.
    """
    if not pairs_mm:
        raise NoReading("Her own error needs two readings of at least one measurement")
    return sqrt(fsum((first - second) ** 2 for first, second in pairs_mm) / (2 * len(pairs_mm)))
