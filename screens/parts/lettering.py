"""Letters on the canvas: words, and amounts with their fractions one above the other.

A fraction is never a slanted sign: its digits stand above and below a bar at a size
that can be told apart at arm's length.
"""

import re
from collections.abc import Iterator
from functools import lru_cache
from typing import NamedTuple

from kivy.core.text import Label as Letters
from kivy.graphics import Rectangle
from kivy.metrics import dp, sp

from screens import tokens

_AMOUNT = re.compile(r"(?:(?<=\s)|^|(?<=\())(-?\d+) (?=\d+/\d+)")
_FRACTION = re.compile(r"(?<![\d/])(\d+)/(\d+)(?![\d/])")
_TIED = "\u00a0"
_CAP = 0.727
"""Height of a capital or a digit, as a share of the letter size."""


class Hand(NamedTuple):
    """How something is lettered: its size (sp) and its weight."""

    size: int
    bold: bool = False

    @property
    def font(self) -> str:
        return tokens.TEXT_FONT if self.size <= tokens.TEXT else tokens.LARGE_FONT

    @property
    def small(self) -> "Hand":
        """Return the hand of the digits of a fraction beside this size."""
        return Hand(tokens.FRACTION[self.size][0], self.bold)


class Atom(NamedTuple):
    """A run of letters, or a fraction when there is something ``under`` the bar."""

    over: str
    under: str = ""


Word = tuple[Atom, ...]
"""Atoms that must stay together."""

Line = tuple[Word, ...]


@lru_cache(maxsize=1024)
def words_of(text: str) -> Line:
    """Return the words of ``text``.

    >>> words_of("take in 1 1/2, both")[2]
    (Atom(over='1', under=''), Atom(over='1', under='2'), Atom(over=',', under=''))
    """
    tied = _AMOUNT.sub(lambda found: found[1] + _TIED, text)
    return tuple(_atoms(word) for word in tied.split(" ") if word)


def lines_of(text: str, hand: Hand, room: float) -> tuple[Line, ...]:
    """Return the lines of ``text`` where a line may be ``room`` wide (pixels)."""
    return _lines_of(text, hand, room, sp(1))


@lru_cache(maxsize=1024)
def _lines_of(text: str, hand: Hand, room: float, _density: float) -> tuple[Line, ...]:
    lines: list[list[Word]] = []
    for paragraph in text.split("\n"):
        lines.append([])
        used = 0.0
        for word in _fitted(words_of(paragraph), hand, room):
            width = width_of_word(word, hand)
            gap = space(hand) if lines[-1] else 0.0
            if lines[-1] and used + gap + width > room:
                lines.append([])
                used = gap = 0.0
            lines[-1].append(word)
            used += gap + width
    return tuple(tuple(line) for line in lines)


def shortened(text: str, hand: Hand, room: float) -> Line:
    """Return as much of ``text`` as one line ``room`` wide (pixels) holds, ending in … if cut."""
    return _shortened(text, hand, room, sp(1))


@lru_cache(maxsize=4096)
def _shortened(text: str, hand: Hand, room: float, _density: float) -> Line:
    whole = words_of(" ".join(text.split("\n")))
    if width_of_line(whole, hand) <= room:
        return whole
    fits, low, high = (), 0, len(text)
    while low < high:  # the longest beginning that fits
        middle = (low + high + 1) // 2
        cut = words_of(text[:middle].rstrip(" ,") + "…")
        if width_of_line(cut, hand) <= room:
            fits, low = cut, middle
        else:
            high = middle - 1
    return fits


def _fitted(words: Line, hand: Hand, room: float) -> Iterator[Word]:
    """Yield words, breaking one that is wider than a whole line: cut off it would be lost."""
    for word in words:
        if width_of_word(word, hand) <= room or any(atom.under for atom in word):
            yield word
            continue
        part = ""
        for sign in word[0].over:
            if part and width_of(Atom(part + sign), hand) > room:
                yield (Atom(part),)
                part = ""
            part += sign
        yield (Atom(part), *word[1:])


def _atoms(word: str) -> Word:
    parts = _FRACTION.split(word.replace("-", "\u2212") if word[:1] == "-" else word)
    atoms = []
    for index in range(0, len(parts), 3):
        if letters := parts[index].rstrip(_TIED):
            atoms.append(Atom(letters))
        if index + 2 < len(parts):
            atoms.append(Atom(parts[index + 1], parts[index + 2]))
    return tuple(atoms)


@lru_cache(maxsize=1024)
def _letters(text: str, font: str, pixels: float, bold: bool) -> Letters:
    """Return drawn letters; kept whole, so that they redraw when the screen was lost.

    They are white: the colour they are shown in is laid over them on the canvas.
    """
    letters = Letters(text=text, font_size=pixels, font_name=font, bold=bold)
    letters.refresh()
    return letters


def letters_of(text: str, hand: Hand) -> Letters:
    return _letters(text, hand.font, sp(hand.size), hand.bold)


def _gap(hand: Hand) -> float:
    return dp(1 + hand.size / 24)


def width_of(atom: Atom, hand: Hand) -> float:
    if not atom.under:
        return float(letters_of(atom.over, hand).texture.width)
    digits = (letters_of(part, hand.small).texture.width for part in (atom.over, atom.under))
    return float(max(digits)) + dp(2)


def width_of_word(word: Word, hand: Hand) -> float:
    return _width_of_word(word, hand, sp(1))


@lru_cache(maxsize=4096)
def _width_of_word(word: Word, hand: Hand, _density: float) -> float:
    gaps = sum(1 for atom in word[1:] if atom.under) + sum(1 for atom in word[:-1] if atom.under)
    return sum(width_of(atom, hand) for atom in word) + gaps * _gap(hand)


def width_of_line(line: Line, hand: Hand) -> float:
    words = sum(width_of_word(word, hand) for word in line)
    return words + space(hand) * max(0, len(line) - 1)


def space(hand: Hand) -> float:
    """Return how far apart words stand."""
    return float(letters_of(" ", hand).texture.width)


def height_of(words: Line, hand: Hand) -> float:
    """Return the height of a line: that of its letters, more where a fraction is in it."""
    line = sp(tokens.LINE[hand.size])
    if not any(atom.under for word in words for atom in word):
        return line
    digits, bar, gap = tokens.FRACTION[hand.size]
    return max(line, 2 * sp(digits) * _CAP + dp(bar + 2 * gap) + dp(4))


def draw_word(word: Word, hand: Hand, x: float, middle: float) -> float:
    """Draw a word into the canvas in hand, centred on ``middle``; return where it ends."""
    for index, atom in enumerate(word):
        if index and (atom.under or word[index - 1].under):
            x += _gap(hand)
        if atom.under:
            _draw_fraction(atom, hand, x, middle)
        else:
            _draw(letters_of(atom.over, hand), x, middle)
        x += width_of(atom, hand)
    return x


def _draw_fraction(atom: Atom, hand: Hand, x: float, middle: float) -> None:
    digits, bar, gap = tokens.FRACTION[hand.size]
    width = width_of(atom, hand)
    away = dp(bar) / 2 + dp(gap) + sp(digits) * _CAP / 2
    for part, side in ((atom.over, 1), (atom.under, -1)):
        letters = letters_of(part, hand.small)
        _draw(letters, x + (width - letters.texture.width) / 2, middle + side * away)
    Rectangle(pos=(round(x), round(middle - dp(bar) / 2)), size=(round(width), dp(bar)))


def _draw(letters: Letters, x: float, middle: float) -> None:
    """Draw on whole pixels: between them letters blur."""
    texture = letters.texture
    Rectangle(texture=texture, size=texture.size,
              pos=(round(x), round(middle - texture.height / 2)))  # fmt: skip
