"""A number read aloud is understood: words, with a half and a quarter as people say them.

The words are those of everyday English, written out by hand.
"""

import pytest

from core.lengths import Unit
from core.number_words import length_in_words, number_in_words


@pytest.mark.parametrize(
    ("number", "words"),
    [
        (0, "zero"), (7, "seven"), (13, "thirteen"), (20, "twenty"), (33, "thirty-three"),
        (99, "ninety-nine"), (100, "one hundred"), (105, "one hundred and five"),
        (795, "seven hundred and ninety-five"), (1000, "one thousand"),
        (1010, "one thousand and ten"), (1450, "one thousand four hundred and fifty"),
        (20_000, "twenty thousand"),
    ],
)  # fmt: skip
def test_a_whole_number_is_said_in_words(number: int, words: str) -> None:
    assert number_in_words(number) == words


@pytest.mark.parametrize("number", [-1, 1_000_000])
def test_a_number_nobody_measures_is_not_said(number: int) -> None:
    with pytest.raises(ValueError, match="read aloud"):
        number_in_words(number)


@pytest.mark.parametrize(
    ("inches", "words"),
    [
        (33, "thirty-three"), (31.25, "thirty-one and a quarter"), (30.5, "thirty and a half"),
        (31.75, "thirty-one and three quarters"), (11.125, "eleven and one eighth"),
        (14.375, "fourteen and three eighths"), (0.5, "one half"), (0.25, "one quarter"),
        (0.875, "seven eighths"), (0.0625, "one sixteenth"), (2.3125, "two and five sixteenths"),
        (0, "zero"), (-1.5, "minus one and a half"),
    ],
)  # fmt: skip
def test_inches_are_said_with_their_part(inches: float, words: str) -> None:
    assert length_in_words(inches * 25.4, "in") == words


@pytest.mark.parametrize(
    ("mm", "unit", "words"),
    [
        (795, "cm", "seventy-nine point five"), (800, "cm", "eighty"),
        (795, "mm", "seven hundred and ninety-five"), (4, "cm", "zero point four"),
    ],
)  # fmt: skip
def test_centimetres_are_said_with_a_point_and_millimetres_whole(
    mm: float, unit: Unit, words: str
) -> None:
    assert length_in_words(mm, unit) == words
