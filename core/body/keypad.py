"""What is typed on the number keys: digits and an eighth, digits and a tenth, or millimetres."""

import re
from dataclasses import dataclass, replace
from fractions import Fraction

from core.errors import BadLength
from core.lengths import LONGEST_MM, MM_PER_UNIT, Unit, read_length, write_length

EIGHTHS = ("1/8", "1/4", "3/8", "1/2", "5/8", "3/4", "7/8")
TENTHS = (".0", ".1", ".2", ".3", ".4", ".5", ".6", ".7", ".8", ".9")
"""The tenths of a centimetre, one touch each, as the eighths of an inch are."""

WHOLE, BACK, CLEAR, POINTS = "whole", "back", "clear", (".", ",")

_MOST_DIGITS: dict[Unit, int] = {"in": 3, "cm": 3, "mm": 4}
"""Digits before the eighth or the point; what is longer than 20 m is not taken either."""

_FINEST_KEY = Fraction(1, 16)
_PARTS = re.compile(r"(?P<digits>\d*)(?P<point>\.\d)?\s?(?P<fraction>\d+/\d+)?", re.ASCII)


@dataclass(frozen=True, slots=True)
class Keypad:
    """What the keys have made so far; ``press`` returns the next one, nothing changes in place.

    ``unit`` is what the keys stand for, ``file_unit`` what a length without a unit means in
    the file.  ``kept`` is a text no key has touched: a value that was there, or one typed in
    another unit; it stays as it was typed until a key replaces it.  A value that was there, an
    eighth, a tenth and ``whole`` close the number: the next digit begins another.
    """

    unit: Unit
    file_unit: Unit
    sixteenths: bool = False
    kept: str = ""
    digits: str = ""
    point: str = ""
    fraction: Fraction = Fraction(0)
    closed: bool = False

    @property
    def is_empty(self) -> bool:
        return not (self.kept or self.digits or self.fraction)

    @property
    def as_typed(self) -> str:
        """The text the file keeps; its unit is written out where it is not the file's."""
        if self.kept or self.is_empty:
            return self.kept
        text = self.digits + self.point.rstrip(".,")
        text = _with_part(text, self.fraction) if self.fraction else text
        return text if self.unit == self.file_unit else f"{text} {self.unit}"

    @property
    def mm(self) -> float | None:
        """What it comes to; nothing where nothing is typed."""
        return None if self.is_empty else read_length(self.as_typed, self.file_unit).mm

    @property
    def shown(self) -> str:
        """The number in the unit of the keys, without the unit: ``31 1/4``, ``79.``, ``0``."""
        if self.kept:
            return write_length(read_length(self.kept, self.file_unit).mm, self.unit)
        text = self.digits + self.point
        return _with_part(text, self.fraction) if self.fraction else text

    @property
    def lit(self) -> str:
        """The key for the part shown, an eighth or a tenth; a sixteenth lights the eighth below."""
        if self.unit == "mm" or self.is_empty:
            return ""
        if self.unit == "cm":
            point = self._opened().point.replace(",", ".")
            return point if point in TENTHS else TENTHS[0] if self.closed else ""
        part = self._opened().fraction
        eighth = Fraction(part * 8 // 1, 8)
        return f"{eighth}" if eighth else WHOLE if self.closed else ""

    def press(self, key: str) -> "Keypad":
        """Return what a key makes of it; a key that can do nothing here changes nothing.

        Keys are the digits, ``EIGHTHS``, ``WHOLE``, ``TENTHS``, a point or comma, ``BACK`` and
        ``CLEAR``.
        Raises ``ValueError`` for what is no key.
        """
        after = self._pressed(key)
        return self if after._in_keys_mm() > LONGEST_MM else after

    def in_unit(self, unit: Unit) -> "Keypad":
        """Return it with keys of another unit: what was typed is kept, and shown in that unit."""
        if unit == self.unit:
            return self
        return _blank(self, unit=unit, kept=self.as_typed, closed=not self.is_empty)

    def may_go_on(self, least_mm: float, most_mm: float) -> bool:
        """Tell whether it is too little so far and more digits could make it plausible.

        While that is so nothing is asked about the value: ``3`` may become ``31``.
        """
        if self.kept or self.closed or self.point or self._in_keys_mm() >= least_mm:
            return False
        each = MM_PER_UNIT[self.unit]
        for more in range(1, _MOST_DIGITS[self.unit] - len(self.digits) + 1):
            least = int(self.digits or "0") * 10**more
            if least * each <= most_mm and (least + 10**more - 1) * each >= least_mm:
                return True
        return False

    def _in_keys_mm(self) -> float:
        number = float((self.digits + self.point).replace(",", ".") or "0")
        return (number + float(self.fraction)) * MM_PER_UNIT[self.unit]

    # -- the keys -------------------------------------------------------------

    def _pressed(self, key: str) -> "Keypad":
        if len(key) == 1 and key in "0123456789":
            return self._digit(key)
        if key in EIGHTHS or key == WHOLE:
            return self._part(Fraction(0) if key == WHOLE else Fraction(key))
        if key in TENTHS:
            return self._tenth(key)
        if key in POINTS:
            return self._pointed(key)
        if key == BACK:
            return self._back()
        if key == CLEAR:
            return _blank(self)
        raise ValueError(f"{key!r} is no key")

    def _digit(self, digit: str) -> "Keypad":
        if self.closed or self.kept:
            return _blank(self, digits=digit)
        if self.point:
            return replace(self, point=self.point + digit) if len(self.point) == 1 else self
        if self.digits == "0":
            return replace(self, digits=digit)
        if len(self.digits) == _MOST_DIGITS[self.unit]:
            return self
        return replace(self, digits=self.digits + digit)

    def _part(self, part: Fraction) -> "Keypad":
        """Put an eighth in the place of the one before; touched again, a sixteenth more or less."""
        if self.unit != "in" or (self.is_empty and not part):
            return self
        opened = self._opened()
        if self.sixteenths and opened.closed and opened.fraction == part:
            part += _FINEST_KEY
        return replace(opened, fraction=part, closed=True)

    def _tenth(self, tenth: str) -> "Keypad":
        """Put a tenth in the place of the one before; ``.0`` is none, as ``whole`` is."""
        if self.unit != "cm" or (self.is_empty and tenth == TENTHS[0]):
            return self
        digits = self._opened().digits or "0"
        return _blank(self, digits=digits, point=tenth if tenth != TENTHS[0] else "", closed=True)

    def _pointed(self, point: str) -> "Keypad":
        if self.unit != "cm":
            return self
        if self.kept or self.closed:
            return _blank(self, digits="0", point=point)
        return self if self.point else replace(self, digits=self.digits or "0", point=point)

    def _back(self) -> "Keypad":
        opened = self._opened()
        if opened.fraction:
            whole = opened.digits if opened.digits.strip("0") else ""
            return replace(opened, fraction=Fraction(0), digits=whole, closed=False)
        if opened.point:
            return replace(opened, point=opened.point[:-1], closed=False)
        return replace(opened, digits=opened.digits[:-1], closed=False)

    def _opened(self) -> "Keypad":
        """Return it as digits and parts, as it is shown, for a key that changes only a part."""
        if not self.kept:
            return self
        found = _PARTS.fullmatch(self.shown)
        if found is None:
            return _blank(self)
        return _blank(
            self,
            digits=found["digits"],
            point=found["point"] or "",
            fraction=Fraction(found["fraction"] or 0),
            closed=True,
        )


def keypad_of(typed: object, file_unit: Unit, unit: Unit, *, sixteenths: bool = False) -> Keypad:
    """Return the keys with a value on them that was there: a text, a number or nothing.

    ``sixteenths`` where her settings' step is a sixteenth.  A value that can't be read leaves the
    keys empty.
    """
    empty = Keypad(unit, file_unit, sixteenths)
    if typed is None or typed == "":
        return empty
    try:
        return replace(empty, kept=read_length(typed, file_unit).typed, closed=True)
    except BadLength:
        return empty


def _with_part(whole: str, part: Fraction) -> str:
    return f"{whole} {part}" if whole.strip("0") else f"{part}"


def _blank(
    keypad: Keypad,
    *,
    unit: Unit | None = None,
    kept: str = "",
    digits: str = "",
    point: str = "",
    fraction: Fraction = Fraction(0),
    closed: bool = False,
) -> Keypad:
    return Keypad(
        unit or keypad.unit, keypad.file_unit, keypad.sixteenths,
        kept, digits, point, fraction, closed,
    )  # fmt: skip
