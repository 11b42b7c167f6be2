"""Where a piece's name stands: on it where its level lines leave room, else under it."""

from collections.abc import Iterator
from functools import lru_cache
from itertools import pairwise

from kivy.metrics import dp

from screens import tokens
from screens.parts.lettering import Hand, Line, height_of, lines_of, width_of_word, words_of
from screens.parts.piece_layout import GAP, Placed, extent_at

NAME, NOTE = Hand(tokens.SMALL, bold=True), Hand(tokens.SMALL)

LEAST_UNDER = 96
"""How wide a name under a narrow piece may be (dp)."""

Lettered = tuple[Line, Hand, float, float]
"""A line, its hand, and its middle (pixels)."""


def label_lines(placed: Placed) -> Iterator[Lettered]:
    """Yield the lines of a piece's name and of how it is cut."""
    middle, top, room = _on_it(placed) or _under_it(placed)
    for line, hand in _lines(placed, room):
        high = height_of(line, hand)
        yield line, hand, middle, top - high / 2
        top -= high


def room_under(placed: Placed) -> float:
    """Return how high the name is that has to stand under a piece; nothing if it fits on it."""
    if _on_it(placed) is not None:
        return 0.0
    _, _, room = _under_it(placed)
    return sum(height_of(line, hand) for line, hand in _lines(placed, room))


def _lines(placed: Placed, room: float) -> list[tuple[Line, Hand]]:
    return [(line, hand) for text, hand in ((placed.piece.label, NAME), (placed.piece.note, NOTE))
            if text for line in lines_of(text, hand, room)]  # fmt: skip


@lru_cache(maxsize=64)
def _on_it(placed: Placed) -> tuple[float, float, float] | None:
    """Return the middle, the top and the room of the name on the piece, if it fits anywhere."""
    top, bottom = placed.piece.downwards
    downs = sorted({top, bottom, *(mark.start[1] for mark in placed.piece.levels)})
    heights = [placed.at((0.0, down))[1] for down in downs]
    for above, below in sorted(pairwise(heights), key=lambda gap: gap[1] - gap[0]):
        found = _in_gap(placed, above, below)
        if found is not None:
            return found
    return None


def _in_gap(placed: Placed, above: float, below: float) -> tuple[float, float, float] | None:
    """Return the place of the name between two heights, where it fits there."""
    middle = (above + below) / 2
    left, right = extent_at(placed, middle)
    room = right - left - dp(GAP)
    if room < _widest_word(placed):
        return None
    lines = _lines(placed, room)
    high = sum(height_of(line, hand) for line, hand in lines)
    if high + dp(GAP / 2) > above - below:
        return None
    ends = [extent_at(placed, middle + side * high / 2) for side in (1, -1)]
    left, right = max(end[0] for end in ends), min(end[1] for end in ends)
    widest = max((sum(width_of_word(word, hand) for word in line) for line, hand in lines),
                 default=0.0)  # fmt: skip
    if right - left < widest + dp(GAP):
        return None
    return (left + right) / 2, middle + high / 2, right - left - dp(GAP)


def _under_it(placed: Placed) -> tuple[float, float, float]:
    left, right = placed.edges
    bottom = placed.at((0.0, placed.piece.downwards[1]))[1]
    room = max(right - left + dp(GAP), _widest_word(placed), dp(LEAST_UNDER))
    return (left + right) / 2, bottom - dp(GAP), room


def _widest_word(placed: Placed) -> float:
    return max((width_of_word(word, hand) for text, hand in ((placed.piece.label, NAME),
                                                              (placed.piece.note, NOTE))
                for word in words_of(text)), default=0.0)  # fmt: skip
