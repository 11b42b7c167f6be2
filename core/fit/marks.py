"""What is marked on her besides pins: a fold of cloth, where it is tight, shoulder, strap, edge.

A mark is an entry of the fitting's ``marks`` with ``what`` and a place: ``piece``, ``seam`` or
``dart``, ``side``, ``level`` or ``down``; ``direction`` where a drag line was drawn.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from core.client.facts import entries
from core.fit.pinning import Where
from core.fit.written import CannotLog, Part, entry_at, listed, put
from core.lengths import Unit, mm_written, write_length
from core.records.fitting import LoggedSide

WHAT = {
    "fold": "Fold", "tight": "Tight", "shoulder": "Shoulder", "strap": "Strap", "edge": "Edge",
    "bust_point": "Bust point", "flare": "Flare", "clip": "Clip", "note": "Note",
    "drag": "Drag line",
}  # fmt: skip
"""What may be marked, and what it is called."""

_SIDES: tuple[LoggedSide, ...] = ("left", "right", "both")


@dataclass(frozen=True, slots=True)
class Mark:
    """A mark as it is written; what can't be read is left out."""

    index: int
    what: str
    on: str
    place: str
    side: str
    level: str
    down_mm: float | None
    note: str
    direction: str

    @property
    def label(self) -> str:
        return WHAT.get(self.what, self.what.replace("_", " ").capitalize())


def add_mark(
    fitting: Part, unit: Unit, what: str, where: Where, side: LoggedSide,
    note: str = "", direction: str = "",
) -> int:  # fmt: skip
    """Mark a place and return the mark's place in the list; raises ``CannotLog``."""
    if what not in WHAT:
        raise CannotLog(f"“{what}” is nothing to mark. The fitting is as it was")
    mark: Part = {"what": what, where.what: where.place, "side": side}
    if where.level:
        mark["level"] = where.level
    elif where.down_mm is not None:
        mark["down"] = write_length(where.down_mm, unit, fine=True)
    put(mark, "note", note.strip())
    put(mark, "direction", direction)
    held = listed(fitting, "marks")
    held.append(mark)
    return len(held) - 1


def set_mark_note(fitting: Part, index: int, note: str) -> None:
    """Write what is to be said of a mark; raises ``NotFound``."""
    put(entry_at(fitting, "marks", index, "mark"), "note", note.strip())


def set_direction(fitting: Part, index: int, direction: str) -> None:
    """Say which way a drag line runs; raises ``NotFound``."""
    put(entry_at(fitting, "marks", index, "mark"), "direction", direction)


def remove_mark(fitting: Part, index: int) -> None:
    """Take a mark away; raises ``NotFound``."""
    entry_at(fitting, "marks", index, "mark")
    del fitting["marks"][index]


def marks_of(fitting: Mapping[str, Any], unit: Unit) -> tuple[Mark, ...]:
    """Return every mark of a fitting, in the order they were made."""
    return tuple(_marks(fitting, unit))


def _marks(fitting: Mapping[str, Any], unit: Unit) -> Iterator[Mark]:
    for index, mark in enumerate(entries(fitting, "marks")):
        on = next((name for name in ("seam", "dart", "piece") if mark.get(name)), "")
        yield Mark(
            index=index,
            what=_text(mark, "what"),
            on=on,
            place=_text(mark, on) if on else "",
            side=_text(mark, "side") if _text(mark, "side") in _SIDES else "",
            level=_text(mark, "level"),
            down_mm=mm_written(mark.get("down"), unit),
            note=_text(mark, "note"),
            direction=_text(mark, "direction"),
        )


def _text(mark: Mapping[str, Any], name: str) -> str:
    said = mark.get(name)
    return said if isinstance(said, str) else ""
