"""A field of a fitting file with its path, so that every refusal can name it."""

import math
import re
from collections.abc import Iterator
from typing import Any, NoReturn

from core.errors import BadFile, BadLength
from core.lengths import Unit, read_length

_WORD = re.compile(r"\w+", re.ASCII)
_DATE = re.compile(r"\d{4}-(0[1-9]|1[0-2])-(0[1-9]|[12]\d|3[01])")
_HUGE = 1e6


class Field:
    """One value of the file, where it stands, and the file's unit.

    Every reader raises ``BadFile`` naming the path where the value is of the
    wrong kind.  A missing or null field reads as ``missing``.
    """

    __slots__ = ("path", "unit", "value")

    def __init__(self, value: Any, path: str, unit: Unit) -> None:
        self.value = value
        self.path = path
        self.unit = unit

    def __getitem__(self, key: str) -> "Field":
        path = f"{self.path}.{key}" if self.path else key
        return Field(self._object().get(key), path, self.unit)

    @property
    def missing(self) -> bool:
        return self.value is None

    def refuse(self, wrong: str) -> NoReturn:
        raise BadFile(self.path or "the file", wrong)

    def items(self) -> Iterator[tuple[str, "Field"]]:
        """Yield the named fields of an object; a missing one has none."""
        for key in self._object():
            yield key, self[key]

    def each(self) -> Iterator["Field"]:
        """Yield the entries of a list; a missing one has none."""
        if self.missing:
            return
        if not isinstance(self.value, list):
            self.refuse(f"must be a list, not {_kind_of(self.value)}")
        for index, value in enumerate(self.value):
            yield Field(value, f"{self.path}[{index}]", self.unit)

    def is_object(self) -> bool:
        return isinstance(self.value, dict)

    def is_sided(self) -> bool:
        """Tell whether the value is given for left and right."""
        return self.is_object() and bool(self.value) and set(self.value) <= {"left", "right"}

    def text(self, default: str | None = "") -> str:
        if self.missing and default is not None:
            return default
        if not isinstance(self.value, str):
            self.refuse(f"must be text, not {_kind_of(self.value)}")
        return str(self.value)

    def word(self, default: str | None = None) -> str:
        """Return an id: a word of letters, digits and ``_``."""
        text = self.text(default)
        if not _WORD.fullmatch(text):
            self.refuse(f"“{text}” is not an id of letters, digits and _")
        return text

    def words(self) -> tuple[str, ...]:
        return tuple(entry.word() for entry in self.each())

    def one_of(self, *choices: str, default: str | None = None) -> str:
        text = self.text(default)
        if text not in choices:
            self.refuse(f"“{text}” must be {', '.join(choices[:-1])} or {choices[-1]}")
        return text

    def date(self) -> str:
        text = self.text()
        if text and not _DATE.fullmatch(text):
            self.refuse(f"“{text}” is not a date like 2026-03-02")
        return text

    def yes(self) -> bool:
        if self.missing:
            return False
        if not isinstance(self.value, bool):
            self.refuse(f"must be true or false, not {_kind_of(self.value)}")
        return bool(self.value)

    def number(self, default: float) -> float:
        """Return a plain number, zero or more (minutes, a weight, fullness)."""
        if self.missing:
            return default
        if isinstance(self.value, bool) or not isinstance(self.value, (int, float)):
            self.refuse(f"must be a number, not {_kind_of(self.value)}")
        if not 0 <= self.value <= _HUGE:
            self.refuse("must be a number from 0 to a million")
        return float(self.value)

    def whole(self, default: int) -> int:
        value = self.number(float(default))
        if value != int(value):
            self.refuse(f"{value} must be a whole number")
        return int(value)

    def mm(self, default: float = 0.0) -> float:
        """Return a length in millimetres, of either sign."""
        if self.missing:
            return default
        try:
            return read_length(self.value, self.unit).mm
        except BadLength as wrong:
            self.refuse(str(wrong))

    def positive_mm(self, default: float = 0.0) -> float:
        value = self.mm(default)
        if value < 0:
            self.refuse(f"“{self.value}” must not be negative")
        return value

    def share(self) -> float | None:
        """Return 0.04 for ``"4%"``; nothing where it is not a share."""
        if not isinstance(self.value, str) or not self.value.strip().endswith("%"):
            return None
        text = self.value.strip()[:-1].strip().replace(",", ".").replace("−", "-")
        try:
            share = float(text) / 100
        except ValueError:
            self.refuse(f"“{self.value}” is not a share like 4%")
        if not math.isfinite(share) or abs(share) > 1:
            self.refuse(f"“{self.value}” must be between -100% and 100%")
        return share

    def _object(self) -> dict[str, Any]:
        if self.missing:
            return {}
        if not isinstance(self.value, dict):
            self.refuse(f"must be an object with named fields, not {_kind_of(self.value)}")
        return self.value


def _kind_of(value: object) -> str:
    names = {
        bool: "true or false",
        str: "text",
        list: "a list",
        dict: "an object",
        int: "a number",
        float: "a number",
        type(None): "nothing",
    }
    return names.get(type(value), "something else")


def check_unique(entries: list[tuple[Field, str]], noun: str) -> None:
    """Refuse the second of two entries with the same id."""
    seen: set[str] = set()
    for field, name in entries:
        if name in seen:
            field["id"].refuse(f"two {noun} are called “{name}”")
        seen.add(name)
