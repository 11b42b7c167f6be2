"""How wide the columns of the levels strip are, so that no number runs into the next one."""

from collections.abc import Sequence
from dataclasses import dataclass

from kivy.metrics import dp

from screens import tokens
from screens.parts.lettering import Hand, width_of_line, words_of
from screens.rows import LevelRow

APART = 10
"""What lies between two numbers at least (dp)."""

MARK = 40
"""The room of the arrows before a move, with what lies between (dp)."""

LEFT_OVER = 132
"""What is left over keeps at least so much (dp): else the figures are of the small size."""

NUMBERS = ("body", "ease", "wanted", "as_sewn")


@dataclass(frozen=True, slots=True)
class LevelColumns:
    """The width of each column (pixels) and the size of the figures."""

    label: float
    body: float
    ease: float
    wanted: float
    as_sewn: float
    pinned: float
    letter: int


def columns_for(rows: Sequence[LevelRow], room: float) -> LevelColumns:
    """Return the columns that these rows need in so much room (pixels)."""
    for letter in dict.fromkeys((tokens.figure(), tokens.SMALL)):
        found = _columns(rows, letter)
        used = found.label + found.body + found.ease + found.wanted + found.as_sewn + found.pinned
        if used + dp(LEFT_OVER) <= room:
            break
    return found


def _columns(rows: Sequence[LevelRow], letter: int) -> LevelColumns:
    judged = [row for row in rows if row.wanted]
    wide = {
        name: max([float(dp(tokens.column(name))),
                   *(_width(getattr(row, name), letter, name == "wanted") + dp(APART)
                     for row in (rows if name == "as_sewn" else judged))])
        for name in NUMBERS
    }  # fmt: skip
    pinned = max([float(dp(tokens.column("pinned"))),
                  *(_width(row.moved, letter, bold=True) + dp(MARK + APART)
                    for row in rows if row.moved_mark)])  # fmt: skip
    return LevelColumns(label=float(dp(tokens.column("label"))), **wide, pinned=pinned,
                        letter=letter)  # fmt: skip


def _width(text: str, letter: int, bold: bool) -> float:
    return float(width_of_line(words_of(text), Hand(letter, bold)))
