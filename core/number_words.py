"""Numbers and lengths as they are read aloud."""

from fractions import Fraction

from core.lengths import Unit, write_length

_SMALL = ("zero", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten",
          "eleven", "twelve", "thirteen", "fourteen", "fifteen", "sixteen", "seventeen",
          "eighteen", "nineteen")  # fmt: skip
_TENS = ("twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty", "ninety")
_PARTS = {2: "half", 4: "quarter", 8: "eighth", 16: "sixteenth", 32: "thirty-second"}


def number_in_words(number: int) -> str:
    """Return a whole number from 0 to 999,999 in words; raises ``ValueError`` for another.

    >>> number_in_words(795)
    'seven hundred and ninety-five'
    """
    if not 0 <= number < 1_000_000:
        raise ValueError(f"{number} is not a number that is read aloud")
    if number < 20:
        return _SMALL[number]
    if number < 100:
        tens, ones = divmod(number, 10)
        return _TENS[tens - 2] + (f"-{_SMALL[ones]}" if ones else "")
    size, name = (100, "hundred") if number < 1000 else (1000, "thousand")
    most, rest = divmod(number, size)
    words = f"{number_in_words(most)} {name}"
    if not rest:
        return words
    return f"{words}{' and ' if rest < 100 else ' '}{number_in_words(rest)}"


def length_in_words(mm: float, unit: Unit) -> str:
    """Return a length, rounded as it is shown, without its unit; a negative one says minus.

    >>> length_in_words(793.75, "in"), length_in_words(22.225, "in"), length_in_words(795, "cm")
    ('thirty-one and a quarter', 'seven eighths', 'seventy-nine point five')
    """
    text = write_length(mm, unit)
    sign = "minus " if text.startswith("-") else ""
    whole, _, part = text.lstrip("-").rpartition(" ") if "/" in text else (text.lstrip("-"), "", "")
    words = _decimal_in_words(whole) if whole else ""
    if part:
        words = f"{words} and {_part_in_words(part, 'a')}" if words else _part_in_words(part, "one")
    return sign + words


def _decimal_in_words(text: str) -> str:
    whole, _, decimals = text.partition(".")
    words = number_in_words(int(whole))
    said = " ".join(_SMALL[int(digit)] for digit in decimals)
    return f"{words} point {said}" if said else words


def _part_in_words(part: str, one: str) -> str:
    """Return a part of an inch; after a number ``a half``, ``a quarter``, but ``one eighth``."""
    fraction = Fraction(part)
    name = _PARTS[fraction.denominator]
    if fraction.numerator != 1:
        return f"{number_in_words(fraction.numerator)} {name}s"
    return f"{one if fraction.denominator <= 4 else 'one'} {name}"
