"""Written numbers, lengths and signs as they are read aloud: no digit and no sign is left."""

import re
import unicodedata
from collections.abc import Iterable
from fractions import Fraction

from core.lengths import Unit, write_length
from core.number_words import number_in_words

BREATH = 90
"""A sentence of more letters than this is said in more than one breath."""

_PARTS = {2: "half", 3: "third", 4: "quarter", 5: "fifth", 6: "sixth", 7: "seventh", 8: "eighth",
          9: "ninth", 10: "tenth", 16: "sixteenth", 32: "thirty-second"}  # fmt: skip
_UNITS = {"in": "inch", "cm": "centimetre", "mm": "millimetre"}
_LARGEST = 1_000_000

_NUMBER = r"(?:\d+ )?\d+/\d+|\d+[.,]\d+|\d+"
_COUNTED = re.compile(rf"(?P<minus>(?<![\w)])-)?(?P<number>{_NUMBER})(?P<unit> (?:in|cm|mm)\b)?"
                      r"(?P<count>(?= (?:pins?|minutes?)\b))?")  # fmt: skip
_LABEL_NUMBER = re.compile(rf"({_NUMBER})(?=(\w?))")

_NEVER_EDGE = (
    ("like the edge it is joined to", "like what it is joined to"),
    ("cut its inner edge down by", "cut it down along the inside by"),
    (" an edge", " from the old stitching"),
    ("top edge", "top"),
    ("edges", "borders"),
    ("edge", "border"),
)
_SIGNS = {"=": " is ", "+": " plus ", "×": " times ", "÷": " divided by ", "&": " and ",
          "%": " per cent ", "/": " or ", "−": " minus ", "–": " to ", "—": ", ", "…": "",
          "″": " inches ", '"': "", "“": "", "”": "", "_": " ", "#": " number "}  # fmt: skip


def length_aloud(mm: float, unit: Unit) -> str:
    """Return the size of a length as it is written in a plan, in words, with its unit.

    A part of an inch needs none.

    >>> length_aloud(41.275, "in"), length_aloud(25.4, "in"), length_aloud(15, "cm")
    ('one and five eighths', 'one inch', 'one point five centimetres')
    """
    return _length(write_length(abs(mm), unit, fine=True), unit)


def label_aloud(label: str) -> str:
    """Return what she calls a thing, its numbers in words.

    >>> label_aloud("Panel 10"), label_aloud("½ circle")
    ('Panel ten', 'one half circle')
    """
    found = _LABEL_NUMBER.sub(_after_a_letter, _plain(label))
    return _without_signs(found)


def text_aloud(text: str, unit: Unit, labels: Iterable[str] = ()) -> str:
    """Return a plan's sentence as it is read aloud; bare numbers are lengths in ``unit``.

    ``labels`` are names that may have numbers of their own: ``Panel 10`` is no length.

    >>> text_aloud("Panel 10: 1 1/2 shorter, like the edge it is joined to.", "in", ["Panel 10"])
    'Panel ten: one and a half shorter, like what it is joined to.'
    """
    with_numbers = {label for label in labels if any(sign.isnumeric() for sign in label)}
    for label in sorted(with_numbers, key=len, reverse=True):
        text = re.sub(re.escape(label), lambda found: label_aloud(found[0]), text, flags=re.I)

    def said(found: re.Match[str]) -> str:
        minus = "minus " if found["minus"] else ""
        if found["count"] is not None and found["unit"] is None:
            return minus + _number(found["number"])
        return minus + _length(found["number"], found["unit"].strip() if found["unit"] else unit)

    return _without_signs(_COUNTED.sub(said, _plain(text)))


def breaths(sentence: str) -> list[str]:
    """Return a sentence in parts that are said in one breath each, as far as it has commas."""
    for stop in ("; ", ", then ", ": ", ", "):
        if len(sentence) <= BREATH or stop not in sentence:
            continue
        joint = ", then " if stop == ", then " else ""
        parts = [part for part in sentence.split(stop) if part]
        if joint:
            parts = [parts[0], *(f"then {part}" for part in parts[1:])]
        return [breath for part in _together(parts) for breath in breaths(part)]
    return [finished(sentence)]


def finished(text: str) -> str:
    """Return a sentence with a capital and a stop.

    >>> finished("then the zip")
    'Then the zip.'
    """
    text = " ".join(text.split()).strip(" ,;:")
    return "" if not text else text[0].upper() + text[1:] + ("" if text[-1] in ".?!" else ".")


def _together(parts: list[str]) -> list[str]:
    """Return neighbours joined again while they are one breath."""
    joined = [parts[0]]
    for part in parts[1:]:
        if len(joined[-1]) + len(part) + 2 <= BREATH:
            joined[-1] += f", {part}"
        else:
            joined.append(part)
    return joined if len(joined) > 1 else parts


def _length(written: str, unit: str) -> str:
    """Return a written length in words; a part of an inch needs no unit."""
    number = Fraction(0)
    for part in written.replace(",", ".").split():
        number += Fraction(part) if not part.endswith("/0") else 0
    if number == 0:
        return "nothing"
    words, name = _number(written), _UNITS[unit]
    if unit == "in" and "/" in written:
        return words
    return f"{words} {name}" if number == 1 else f"{words} {name if unit != 'in' else 'inche'}s"


def _number(written: str) -> str:
    """Return a written number in words: ``thirty and a half``, ``one point five``."""
    written = written.replace(",", ".")
    whole, _, part = written.rpartition(" ")
    if "/" in part:
        words = _part(part, "a" if whole else "one")
        return f"{_whole(whole)} and {words}" if whole else words
    whole, point, decimals = written.partition(".")
    said = " ".join(number_in_words(int(digit)) for digit in decimals)
    return f"{_whole(whole)} point {said}" if point else _whole(whole)


def _whole(digits: str) -> str:
    if int(digits) < _LARGEST:
        return number_in_words(int(digits))
    return " ".join(number_in_words(int(digit)) for digit in digits)


def _part(part: str, one: str) -> str:
    top, _, bottom = part.partition("/")
    name = _PARTS.get(int(bottom))
    if name is None:
        return f"{_whole(top)} over {_whole(bottom)}"
    if int(top) != 1:
        return f"{_whole(top)} {'halve' if name == 'half' else name}s"
    return f"{one if int(bottom) in (2, 4) else 'one'} {name}"


def _after_a_letter(found: re.Match[str]) -> str:
    return _number(found[1]) + (" " if found[2] else "")


def _plain(text: str) -> str:
    """Return the text with every digit a plain one: single fractions, raised and round ones."""
    spaced = "".join(
        f" {sign}" if "FRACTION" in unicodedata.name(sign, "") and sign != "⁄" else sign
        for sign in text
    )
    plain = unicodedata.normalize("NFKC", spaced).replace("⁄", "/")
    plain = "".join(str(unicodedata.digit(sign, sign)) for sign in plain)
    return "".join(" " if sign.isnumeric() and not sign.isdecimal() else sign for sign in plain)


def _without_signs(text: str) -> str:
    """Return the text without the word *edge* and without signs that are not said."""
    for written, said in _NEVER_EDGE:
        text = re.sub(rf"{written}(?![a-z])" if written[0] == " " else rf"\b{written}\b",
                      lambda found, said=said: said.capitalize()  # type: ignore[misc]
                      if found[0][0].isupper() else said, text, flags=re.I)  # fmt: skip
    text = re.sub(r" - (?=\w)", " less ", text)
    for sign, said in _SIGNS.items():
        text = text.replace(sign, said)
    return re.sub(r" +([,.;:?!])", r"\1", " ".join(text.split()))
