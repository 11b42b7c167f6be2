"""A fitting inside a client's document: where it stands, and the lists it holds.

Everything in this package that changes something is given a document, or a fitting of it, that
is the caller's own.  Beside the fields of the fitting file a fitting may have these of ours, all
optional: ``movements`` (see ``moving``), ``levels_straight`` (true or false, at the first look),
and in a mark ``seam``, ``dart``, ``level``, ``direction`` (see ``marks``).
"""

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from core.client.facts import entries, id_of
from core.errors import BadFile, NotFound, WorkroomError
from core.file.field import Field
from core.file.reading_fittings import read_fitting
from core.lengths import Unit, read_length
from core.records.garment import Garment

Document = dict[str, Any]
Part = dict[str, Any]


class CannotLog(WorkroomError):
    """What a fitting cannot hold; says why, and that the fitting is as it was."""


@dataclass(frozen=True, slots=True)
class At:
    """A fitting by its ids: of which garment, and which one."""

    garment: str
    fitting: str

    def fitting_in(self, document: Document) -> Part:
        """Return the fitting, the caller's own to change; raises ``NotFound``."""
        garment = garment_in(document, self.garment)
        for number, fitting in enumerate(entries(garment, "fittings"), 1):
            if id_of(fitting, "fitting", number) == self.fitting and isinstance(fitting, dict):
                return fitting
        raise NotFound("This fitting is not here any more")


def garment_in(document: Document, garment_id: str) -> Part:
    """Return a garment of the document, the caller's own to change; raises ``NotFound``."""
    for number, garment in enumerate(entries(document, "garments"), 1):
        if id_of(garment, "garment", number) == garment_id and isinstance(garment, dict):
            return garment
    raise NotFound("This garment is not here any more")


def listed(fitting: Part, name: str) -> list[Part]:
    """Return the objects of a list of the fitting; a list of the caller's own is begun."""
    held = fitting.get(name)
    if not isinstance(held, list):
        held = fitting[name] = []
    return held


def entry_at(fitting: Part, name: str, index: int, what: str) -> Part:
    """Return one entry of a list of the fitting; raises ``NotFound``."""
    held = fitting.get(name)
    if not isinstance(held, list) or not 0 <= index < len(held):
        raise NotFound(f"This {what} is not here any more")
    entry: Part = held[index]
    return entry


def put(data: Part, name: str, value: Any) -> None:
    """Write a value down, or take the field away where there is nothing to write."""
    if value in ("", None, {}, [], ()):
        data.pop(name, None)
    else:
        data[name] = value


def length_typed(typed: str, unit: Unit, *, least_mm: float = 0.0) -> str:
    """Return a length as it was typed; raises ``BadLength``, ``CannotLog`` below the least."""
    text = typed.strip()
    if read_length(text, unit).mm < least_mm:
        raise CannotLog(f"“{text}” must not be negative. The fitting is as it was")
    return text


def change(fitting: Part, garment: Garment, unit: Unit, edit: Callable[[Part], None]) -> None:
    """Change a fitting whole, or raise ``CannotLog`` with nothing changed.

    It is tried on a copy, which is read as the fitting file is read.
    """
    after = _copied(fitting)
    try:
        edit(after)
        read_fitting(Field(after, "", unit), "fitting", garment)
    except BadFile as wrong:
        said = wrong.wrong
        raise CannotLog(f"{said[:1].upper()}{said[1:]}. The fitting is as it was") from wrong
    fitting.clear()
    fitting.update(after)


def _copied(value: Any) -> Any:
    if isinstance(value, dict):
        return {name: _copied(one) for name, one in value.items()}
    return [_copied(one) for one in value] if isinstance(value, list) else value
