"""Where pieces and their numbers lie: one scale for all, rows as many as make it largest."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from kivy.metrics import dp

from screens import tokens
from screens.parts.lettering import Hand, height_of, width_of_word, words_of

Point = tuple[float, float]
Points = tuple[Point, ...]

GAP = 16
"""What lies between two pieces, and between a piece and its numbers (dp)."""

OUTSIDE, INSIDE = Hand(tokens.TEXT, bold=True), Hand(tokens.SMALL, bold=True)
"""Numbers beside a piece, and on it where there is no room beside it."""

_RATHER_OUTSIDE = 0.6
"""Numbers stand outside where the pieces need not become smaller than this share for it."""


@dataclass(frozen=True, slots=True)
class LevelMark:
    """A level line of a piece, from where to where, and its number."""

    id: str
    start: Point
    end: Point
    words: str


@dataclass(frozen=True, slots=True)
class DrawnPiece:
    """A piece to be drawn, in millimetres to the right and down.

    ``across`` and ``downwards`` are its least and most x and y.  ``cut`` and ``sewn`` are closed;
    ``fold`` is the line on the fold, or nothing; ``darts`` are closed lines by their ids.
    ``numbers_left``: its numbers stand at its left.
    """

    id: str
    label: str
    note: str
    cut: Points
    across: Point
    downwards: Point
    sewn: Points = ()
    fold: Points = ()
    darts: tuple[tuple[str, Points], ...] = ()
    levels: tuple[LevelMark, ...] = ()
    numbers_left: bool = False


@dataclass(frozen=True, slots=True)
class Placed:
    """A piece where it lies: the pixel of its (0, 0), pixels a mm, and how its numbers stand."""

    piece: DrawnPiece
    x: float
    top: float
    scale: float
    outside: bool

    def at(self, point: Point) -> Point:
        return self.x + point[0] * self.scale, self.top - point[1] * self.scale

    def line(self, points: Sequence[Point]) -> list[float]:
        return [where for point in points for where in self.at(point)]

    @property
    def edges(self) -> tuple[float, float]:
        """Return the pixels of its left and right edge."""
        left, right = self.piece.across
        return self.x + left * self.scale, self.x + right * self.scale


@dataclass(frozen=True, slots=True)
class Number:
    """A level's number: its middle and size, and where the level line ends beside it.

    One that is not ``beside`` the piece lies on its level line.
    """

    piece: str
    level: str
    words: str
    hand: Hand
    x: float
    y: float
    width: float
    height: float
    end: Point
    beside: bool = True


def place_pieces(
    pieces: Sequence[DrawnPiece], corner: Point, size: Point, under: float = 0.0
) -> tuple[Placed, ...]:  # fmt: skip
    """Lay the pieces into a place of the window (its lower left corner and size, pixels).

    Under each piece so much room (pixels) is left, for its name.
    """
    ways = [_in_rows(pieces, count, size, under) for count in range(1, len(pieces) + 1)]
    return () if not ways else tuple(_laid(max(ways, key=lambda way: way.scale), corner, size))


@dataclass(frozen=True, slots=True)
class _Way:
    rows: tuple[Sequence[DrawnPiece], ...]
    scale: float
    outside: bool
    room: float


def _in_rows(pieces: Sequence[DrawnPiece], count: int, size: Point, under: float) -> _Way:
    """Return the pieces in so many rows, with the scale that fits them all."""
    each = -(-len(pieces) // count)
    rows = tuple(pieces[at : at + each] for at in range(0, len(pieces), each))
    high = size[1] / len(rows) - dp(3 * GAP) - under
    tall = max(piece.downwards[1] - piece.downwards[0] for piece in pieces)
    upright = high / tall if tall else 1.0
    room = number_room(pieces, OUTSIDE)
    beside = min(upright, *(_fitting(row, size[0], room) for row in rows))
    within = min(upright, *(_fitting(row, size[0], 0.0) for row in rows))
    outside = beside >= within * _RATHER_OUTSIDE
    return _Way(rows, max(0.0, beside if outside else within), outside, room if outside else 0.0)


def number_room(pieces: Sequence[DrawnPiece], hand: Hand) -> float:
    """Return how wide the widest number is, with the gap to its piece."""
    words = (mark.words for piece in pieces for mark in piece.levels)
    return max((_wide(one, hand) for one in words if one), default=0.0) + dp(GAP)


def _wide(words: str, hand: Hand) -> float:
    return sum(width_of_word(word, hand) for word in words_of(words)) + dp(12)


def _fitting(row: Sequence[DrawnPiece], width: float, room: float) -> float:
    """Return the scale at which a row of pieces, with room for numbers each, is ``width``."""
    wide = sum(piece.across[1] - piece.across[0] for piece in row)
    free = width - len(row) * room - (len(row) - 1) * dp(GAP)
    return free / wide if wide else 1.0


def _laid(way: _Way, corner: Point, size: Point) -> Iterator[Placed]:
    high = size[1] / len(way.rows)
    for number, row in enumerate(way.rows):
        widths = [(piece.across[1] - piece.across[0]) * way.scale for piece in row]
        used = sum(widths) + len(row) * way.room
        apart = (size[0] - used) / max(1, len(row) - 1) if len(row) > 1 else 0.0
        apart = min(apart, dp(3 * GAP))
        x = corner[0] + (size[0] - used - apart * (len(row) - 1)) / 2
        top = corner[1] + size[1] - number * high - dp(GAP)
        first = min(piece.downwards[0] for piece in row)
        for piece, width in zip(row, widths, strict=True):
            x += way.room if piece.numbers_left else 0.0
            yield Placed(piece, round(x - piece.across[0] * way.scale),
                         round(top + first * way.scale), way.scale, way.outside)  # fmt: skip
            x += width + (0.0 if piece.numbers_left else way.room) + apart


def place_all_numbers(placed: Sequence[Placed], lit_level: str = "") -> Iterator[Number]:
    """Yield where the numbers of pieces side by side stand.

    Where they would be a crowd taller than the piece, only those of the level that is lit do.
    """
    crowded = any(_is_crowd(one) for one in placed)
    for at, one in enumerate(placed):
        beside = at - 1 if one.piece.numbers_left else at + 1
        neighbour = placed[beside] if 0 <= beside < len(placed) else None
        marks = [mark for mark in one.piece.levels if not crowded or mark.id == lit_level]
        yield from place_numbers(one, marks, neighbour)


def _is_crowd(placed: Placed) -> bool:
    hand = OUTSIDE if placed.outside else INSIDE
    high = sum(height_of(words_of(mark.words), hand) for mark in placed.piece.levels)
    top, bottom = placed.piece.downwards
    return high > (bottom - top) * placed.scale + dp(2 * GAP)


def place_numbers(
    placed: Placed, marks: Sequence[LevelMark], neighbour: Placed | None = None
) -> tuple[Number, ...]:
    """Return where a piece's numbers stand, pushed apart where levels lie close.

    Without room kept for them they stand beside the piece where the ``neighbour`` leaves room
    at most of its levels, else on it.
    """
    hand = OUTSIDE if placed.outside else INSIDE
    marks = sorted(marks, key=lambda mark: mark.start[1])
    heights = [height_of(words_of(mark.words), hand) for mark in marks]
    middles = _apart([placed.at(mark.start)[1] for mark in marks], heights)
    fit = [placed.outside or _fits_beside(placed, neighbour, mark, hand) for mark in marks]
    most = sum(fit) * 2 > len(fit)
    return tuple(
        _number(placed, mark, hand, (y, high), beside=most and fits)
        for mark, y, high, fits in zip(marks, middles, heights, fit, strict=True)
        if mark.words
    )


def _number(
    placed: Placed, mark: LevelMark, hand: Hand, upright: Point, *, beside: bool
) -> Number:  # fmt: skip
    """Return a number whose middle and height are ``upright``."""
    wide = _wide(mark.words, hand)
    ends = sorted((placed.at(mark.start), placed.at(mark.end)))
    end = ends[0] if placed.piece.numbers_left else ends[1]
    way = -1 if placed.piece.numbers_left else 1
    x = end[0] + way * (dp(GAP) / 2 + wide / 2) if beside else (ends[0][0] + ends[1][0]) / 2
    return Number(placed.piece.id, mark.id, mark.words, hand, x, upright[0], wide, upright[1],
                  end, beside)  # fmt: skip


def _fits_beside(
    placed: Placed, neighbour: Placed | None, mark: LevelMark, hand: Hand
) -> bool:  # fmt: skip
    ends = sorted((placed.at(mark.start), placed.at(mark.end)))
    end = ends[0] if placed.piece.numbers_left else ends[1]
    return _room_beside(placed, neighbour, mark, end[0]) >= _wide(mark.words, hand) + dp(GAP) / 2


def _room_beside(
    placed: Placed, neighbour: Placed | None, mark: LevelMark, end: float
) -> float:  # fmt: skip
    """Return how far it is from a level line to the neighbour's, half of it where both need it."""
    there = None if neighbour is None or abs(neighbour.top - placed.top) > 1 else next(
        (one for one in neighbour.piece.levels if one.id == mark.id), None
    )  # fmt: skip
    if neighbour is None or there is None:
        edge = placed.edges[0 if placed.piece.numbers_left else 1]
        return abs(edge - end) + dp(GAP) / 2
    ends = neighbour.at(there.start)[0], neighbour.at(there.end)[0]
    away = min(abs(x - end) for x in ends)
    shared = neighbour.piece.numbers_left != placed.piece.numbers_left
    return away / 2 if shared else away


def extent_at(placed: Placed, y: float) -> tuple[float, float]:
    """Return where the cut edge is, left and right, at a height of the window (pixels)."""
    corners = [placed.at(point) for point in placed.piece.cut]
    found = [
        one[0] + (other[0] - one[0]) * (y - one[1]) / (other[1] - one[1])
        for one, other in zip(corners, [*corners[1:], corners[0]], strict=True)
        if min(one[1], other[1]) <= y <= max(one[1], other[1]) and one[1] != other[1]
    ]
    return (min(found), max(found)) if found else placed.edges


def _apart(middles: list[float], heights: list[float]) -> list[float]:
    """Push numbers apart, those in a crowd evenly about its middle (top to bottom, pixels)."""
    crowds: list[tuple[list[float], list[float]]] = []
    for y, high in zip(middles, heights, strict=True):
        crowds.append(([y], [high]))
        while len(crowds) > 1 and _bottom(crowds[-2]) < _top(crowds[-1]):
            ys, highs = crowds.pop()
            crowds[-1] = (crowds[-1][0] + ys, crowds[-1][1] + highs)
    return [y for crowd in crowds for y in _spread(crowd)]


def _spread(crowd: tuple[list[float], list[float]]) -> list[float]:
    ys, highs = crowd
    y = _top(crowd)
    spread = []
    for high in highs:
        spread.append(y - high / 2)
        y -= high
    return spread if len(ys) > 1 else ys


def _top(crowd: tuple[list[float], list[float]]) -> float:
    return sum(crowd[0]) / len(crowd[0]) + sum(crowd[1]) / 2


def _bottom(crowd: tuple[list[float], list[float]]) -> float:
    return sum(crowd[0]) / len(crowd[0]) - sum(crowd[1]) / 2

