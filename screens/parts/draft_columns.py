"""How wide the columns of the draft's table are, so that no number is cut off."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import NamedTuple

from kivy.metrics import dp, sp

from screens import tokens
from screens.parts.draft_rows import LevelRow
from screens.parts.lettering import Hand, width_of_line, words_of

APART = 16
"""What lies between two columns (dp)."""

NEAR = 8
"""What lies between them where there is little room."""

CLOSE = 14
"""What a cut width's key has beside its number there (dp)."""

MARK = 40
"""The room for the mark beside a finished girth (dp)."""

MOST_IN_LINE = 3
"""So many pieces may stand on the line of the sum."""

_LABEL_MOST = 168
"""A level's name wraps where it is wider (dp)."""

_SMALL = Hand(tokens.SMALL)


class Letters(NamedTuple):
    """The sizes of what a level is worked out from, and of its name and what comes to be."""

    source: int
    result: int


LARGE, MIXED, LITTLE = (Letters(tokens.TEXT, tokens.TEXT), Letters(tokens.SMALL, tokens.TEXT),
                        Letters(tokens.SMALL, tokens.SMALL))  # fmt: skip


@dataclass(frozen=True, slots=True)
class Columns:
    """Where each column begins and how wide it is (pixels from the left); names of the pieces.

    ``sums`` are label, down, body, ease, wanted and finished.  ``starts`` are those of the cut
    widths; ``folded`` puts these under the sum, so many on a line.  ``letters`` are the sizes.
    """

    sums: tuple[tuple[float, float], ...]
    starts: tuple[float, ...]
    cell: float
    pieces: tuple[str, ...]
    folded: bool
    letters: "Letters"

    def first_height(self, *needed: float) -> float:
        """Return how high the line of a level's sum is, whose parts need so much."""
        least = dp(tokens.BUTTON)
        return max(least, sp(tokens.LINE[self.letters.result]) + dp(12), *needed)

    def height_of(self, first: float) -> float:
        """Return how high a whole level is under its first line."""
        under = self._lines * dp(tokens.BUTTON + tokens.GRID) if self.folded else 0.0
        return first + under + dp(2 * tokens.GRID + (4 if self.folded else 0))

    def cells(self, first: float) -> Iterator[tuple[float, float]]:
        """Yield where each cut width begins, and how far down."""
        for number, x in enumerate(self.starts):
            if self.folded:
                yield x, first + dp(4) + number // self._each * dp(tokens.BUTTON + tokens.GRID)
            else:
                yield x, (first - dp(tokens.BUTTON)) / 2

    @property
    def _each(self) -> int:
        """Return how many cut widths stand on one line."""
        return len(set(self.starts)) or 1

    @property
    def _lines(self) -> int:
        return -(-len(self.starts) // self._each)

    # -- the names over them --------------------------------------------------

    @property
    def head_first(self) -> float:
        return (1 if self.folded else self._head_lines) * sp(tokens.LINE[tokens.SMALL]) + dp(8)

    @property
    def head_cell(self) -> float:
        """Return how high the name of a piece is: some need two lines."""
        return self._head_lines * sp(tokens.LINE[tokens.SMALL]) + dp(0 if self.folded else 8)

    @property
    def _head_lines(self) -> int:
        return max((_lines(self.head_of(piece), self.cell) for piece in self.pieces), default=1)

    @property
    def head_height(self) -> float:
        under = self._lines * self.head_cell if self.folded else 0.0
        return self.head_first + under + dp(tokens.GRID)

    def cells_in_head(self) -> Iterator[tuple[float, float]]:
        for number, x in enumerate(self.starts):
            yield x, self.head_first + number // self._each * self.head_cell if self.folded else 0.0

    def head_of(self, piece: str) -> str:
        return piece if self.folded else f"{piece} cut"

    def head_width(self, text: str) -> float:
        return _width(text, _SMALL)


def columns_for(rows: Sequence[LevelRow], pieces: Sequence[str], room: float) -> Columns:
    """Return the columns that these rows need in so much room (pixels).

    Where it is tight, the levels' names wrap, the columns come nearer and what a level is
    worked out from is of the small size, before it folds; larger letters all are of the small
    size then, which is as large as the text was.
    """
    if len(pieces) <= MOST_IN_LINE:
        larger = tokens.letters_are_larger()
        for letters in (LARGE, MIXED, LITTLE) if larger else (LARGE, MIXED):
            found = _beside(rows, pieces, room, letters)
            if found is not None:
                return found
    return _folded(rows, pieces, room, LITTLE if tokens.letters_are_larger() else LARGE)


def _beside(
    rows: Sequence[LevelRow], pieces: Sequence[str], room: float, letters: Letters
) -> Columns | None:
    """Return the columns of one line a level; nothing where there is no room for them."""
    wide, least, number = _needed(rows, letters)
    each = max([least, *(_width(f"{piece} cut", _SMALL) for piece in pieces)])
    hand = Hand(tokens.SMALL if letters.source == tokens.SMALL else letters.result, True)
    longest = max((_width(word, hand) for row in rows for word in row.label.split()), default=0.0)
    tight = {**wide, "label": min(wide["label"], max(longest, dp(104)))}
    if letters.source == tokens.SMALL:
        least = number + dp(CLOSE)
    for sums, cell, apart in ((wide, each, APART), (tight, least, NEAR)):
        used = sum(sums.values()) + dp(MARK) + len(pieces) * cell
        spare = room - used - dp(apart) * (len(sums) + len(pieces) - 1)
        if spare >= 0:
            return _in_one_line(sums, pieces, cell, dp(apart), spare, letters)
    return None


def _needed(rows: Sequence[LevelRow], letters: Letters) -> tuple[dict[str, float], float, float]:
    """Return how wide each column of the sum is, a cut width's key, and its number."""
    source, result = Hand(letters.source), Hand(letters.result, True)
    wide = {
        "label": min(_widest((row.label for row in rows), result), dp(_LABEL_MOST)),
        "down": _widest((row.down.words for row in rows), source, "down"),
        "body": _widest((row.body.words for row in rows), source, "body"),
        "ease": _widest((row.ease.words for row in rows), source, "ease"),
        "wanted": _widest((row.wanted for row in rows), result, "wanted"),
        "finished": _widest((row.finished for row in rows), result, "finished"),
    }
    for name in ("down", "body", "ease"):
        wide[name] = max(dp(tokens.TARGET), wide[name])
    number = _widest((cell.words for row in rows for cell in row.cells), result)
    return wide, max(dp(88), number + dp(24)), max(dp(tokens.TARGET), number)


def _in_one_line(
    wide: dict[str, float], pieces: Sequence[str], each: float, apart: float, spare: float,
    letters: Letters,
) -> Columns:  # fmt: skip
    gap = apart + min(dp(8), spare / (len(wide) + len(pieces)))
    x, places = 0.0, {}
    for name in ("label", "down", "body", "ease", "wanted"):
        places[name] = (x, wide[name])
        x += wide[name] + gap
    starts = []
    for _ in pieces:
        starts.append(x)
        x += each + apart
    places["finished"] = (x + gap - apart, wide["finished"])
    return Columns(_in_order(places), tuple(starts), each, tuple(pieces), False, letters)


def _folded(
    rows: Sequence[LevelRow], pieces: Sequence[str], room: float, letters: Letters
) -> Columns:
    wide, least, _ = _needed(rows, letters)
    rest = sum(size for name, size in wide.items() if name != "label") + dp(MARK)
    gap = dp(tokens.GRID)
    x, places = 0.0, {}
    wide = {**wide, "label": max(dp(64), min(dp(280), room - rest - gap * 5))}
    spare = max(0.0, room - rest - wide["label"] - gap * 5) / 5
    for name in ("label", "down", "body", "ease", "wanted", "finished"):
        places[name] = (x, wide[name])
        x += wide[name] + gap + spare
    most = max(1, int((room + gap) // (least + gap)))
    lines = -(-max(1, len(pieces)) // most)
    count = -(-max(1, len(pieces)) // lines)
    each = min(dp(136), (room + gap) / count - gap)
    starts = tuple((number % count) * (each + gap) for number in range(len(pieces)))
    return Columns(_in_order(places), starts, each, tuple(pieces), True, letters)


def _in_order(places: dict[str, tuple[float, float]]) -> tuple[tuple[float, float], ...]:
    return tuple(places[name] for name in ("label", "down", "body", "ease", "wanted", "finished"))


def _widest(words: Iterator[str], hand: Hand, head: str = "") -> float:
    return max([_width(head, _SMALL), *(_width(one, hand) for one in words)])


def _width(text: str, hand: Hand) -> float:
    return width_of_line(words_of(text), hand) if text else 0.0


def _lines(text: str, room: float) -> int:
    """Return how many lines a piece's name needs."""
    lines, used = 1, 0.0
    for word in text.split():
        wide = _width(word, _SMALL)
        if used and used + wide > room:
            lines, used = lines + 1, 0.0
        used += wide + _width(" a", _SMALL) / 2
    return lines
