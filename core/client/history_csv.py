"""The history of a client's measurements as a table that any program opens.

CSV as RFC 4180 has it, in UTF-8 with a byte order mark, so that every table program knows the
letters.  One row for each measurement and side; one column for each day with the value as a
number in the client's unit, and after those one for each day with what was typed.
"""

import csv
import io
import sys
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from core.body.measurements import catalogue, label_of
from core.client.over_time import unit_of
from core.draft.handed_out import hand_out
from core.errors import WorkroomError
from core.file.field import Field
from core.file.fitting_file import load
from core.file.reading_fittings import read_values
from core.lengths import MM_PER_UNIT, Unit
from core.records.answer import Side

UNUSABLE = 2
USAGE = "usage: main.py history FILE OUT.csv"

_RISKY = ("=", "+", "-", "@", "\t", "\r", "\n", "＝", "＋", "－", "＠")
"""A cell that begins with one of these would be worked out as a formula (OWASP, CSV injection)."""

_NO_DAY = "day not noted"
_SIDES: tuple[Side, Side] = ("left", "right")


@dataclass(frozen=True, slots=True)
class Cell:
    """One measurement on one day: its value in mm and what was typed."""

    mm: float
    typed: str


Row = tuple[str, Side | None]
"""A measurement's id and whose side; ``None`` where the body has one only."""


def history_csv(document: Mapping[str, Any]) -> bytes:
    """Return a client's whole history of measurements as the bytes of a CSV file.

    Of two on one day the last one taken stands.  A number without a side stands for both sides
    of a measurement that has them on another day.  Raises ``BadFile`` naming the field where a
    value cannot be read.
    """
    unit = unit_of(document)
    days: dict[str, dict[Row, Cell]] = {}
    for on, values in _days(document, unit):
        again = {name for name, _ in values}
        before = {row: cell for row, cell in days.get(on, {}).items() if row[0] not in again}
        days[on] = before | values
    written = io.StringIO(newline="")
    table = csv.writer(written, quoting=csv.QUOTE_MINIMAL, lineterminator="\r\n")
    names = [on or _NO_DAY for on in days]
    table.writerow(["Measurement", "Side", *(f"{name} ({unit})" for name in names),
                    *(f"{name} as typed" for name in names)])  # fmt: skip
    for row in _rows(list(days.values())):
        cells = [_cell(values, row) for values in days.values()]
        table.writerow([safe(label_of(row[0])), f"her {row[1]}" if row[1] else "",
                        *(_number(cell, unit) for cell in cells),
                        *(safe(cell.typed) if cell else "" for cell in cells)])  # fmt: skip
    return written.getvalue().encode("utf-8-sig")


def safe(text: str) -> str:
    """Return a text that no table program takes for a formula: one that could be has ``'`` first.

    >>> safe("=1+1"), safe("14 3/8")
    ("'=1+1", '14 3/8')
    """
    return f"'{text}" if text.lstrip(" ").startswith(_RISKY) else text


def _days(document: Mapping[str, Any], unit: Unit) -> Iterator[tuple[str, dict[Row, Cell]]]:
    """Yield every day she was measured, the oldest first; of one day the fitting's tape last."""
    root = Field(document, "", unit)
    found = [(entry["on"].date(), entry["values"]) for entry in root["measurements"].each()]
    found += [
        (fitting["on"].date(), fitting["measurements"])
        for garment in root["garments"].each()
        for fitting in garment["fittings"].each()
    ]
    for on, values in sorted(found, key=lambda day: day[0]):
        cells = dict(_cells(values))
        if cells:
            yield on, cells


def _cells(values: Field) -> Iterator[tuple[Row, Cell]]:
    for name, taken in read_values(values).items():
        typed = values[name]
        if not taken.sided:
            yield (name, None), Cell(taken.left or 0.0, _typed(typed.value))
            continue
        for side in _SIDES:
            mm = taken.on(side)
            if mm is not None:
                yield (name, side), Cell(mm, _typed(typed[side].value))


def _typed(value: object) -> str:
    return f"{value:g}" if isinstance(value, float) else str(value)


def _rows(days: Sequence[Mapping[Row, Cell]]) -> list[Row]:
    """Return the rows in the order of the catalogue, her own measurements after it."""
    there = dict.fromkeys(row for values in days for row in values)
    order = {name: number for number, name in enumerate(catalogue())}
    names = sorted(dict.fromkeys(name for name, _ in there),
                   key=lambda name: order.get(name, len(order)))  # fmt: skip
    rows: list[Row] = []
    for name in names:
        sided = any((name, side) in there for side in _SIDES)
        rows += [(name, side) for side in _SIDES] if sided else [(name, None)]
    return rows


def _cell(values: Mapping[Row, Cell], row: Row) -> Cell | None:
    return values.get(row) or values.get((row[0], None))


def _number(cell: Cell | None, unit: Unit) -> str:
    """Return a value in the unit with a point, and nothing that a number has not."""
    if cell is None:
        return ""
    return f"{cell.mm / MM_PER_UNIT[unit]:.5f}".rstrip("0").rstrip(".")


def main(words: Sequence[str]) -> int:
    """Write the history of a fitting file or bundle; return 0, or 2 with one line."""
    if len(words) != 2 or words[0].startswith("-"):
        print(USAGE, file=sys.stderr if words[:1] not in (["-h"], ["--help"]) else sys.stdout)
        return 0 if words[:1] in (["-h"], ["--help"]) else UNUSABLE
    try:
        hand_out(Path(words[1]), history_csv(load(Path(words[0])).data))
    except WorkroomError as wrong:
        print(" ".join(str(wrong).split()), file=sys.stderr)
        return UNUSABLE
    return 0
