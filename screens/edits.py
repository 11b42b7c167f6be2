"""Changes to a client's document, made on a copy that is the caller's own."""

from dataclasses import dataclass
from math import ceil, floor
from typing import Any

from core.errors import WorkroomError
from core.lengths import Unit, write_length
from core.records.fitting import Pin
from core.share.pinned import edge_move
from screens.pin_rows import kind_of

_NEARLY = 1e-6


class NothingLess(WorkroomError):
    """A pin that holds nothing cannot hold less."""


@dataclass(frozen=True, slots=True)
class Place:
    """Where a fitting stands in the document: which garment, which fitting of it."""

    garment: int
    fitting: int

    def fitting_in(self, document: dict[str, Any]) -> dict[str, Any]:
        fitting = document["garments"][self.garment]["fittings"][self.fitting]
        return fitting  # type: ignore[no-any-return]


def choose_lead(document: dict[str, Any], place: Place, lead: str) -> None:
    place.fitting_in(document)["lead"] = lead


def step_pin(
    document: dict[str, Any], place: Place, index: int, pin: Pin, *,
    unit: Unit, step_mm: float, steps: int,
) -> None:  # fmt: skip
    """Make a pin deeper or wider by whole steps; one that is not read becomes a pinch.

    The amount lands on a whole step.  Raises ``NothingLess`` below nothing: the other
    way is another kind of pin, and she says so herself.
    """
    written = place.fitting_in(document)["pins"][index]
    kind = kind_of(pin) or "pinch"
    if kind == "edges":
        written["edges"] = _edges_stepped(pin, step_mm, steps, unit)
        return
    before = getattr(pin, kind) or 0.0
    written[kind] = write_length(_stepped(before, step_mm, steps), unit)


def _edges_stepped(pin: Pin, step_mm: float, steps: int, unit: Unit) -> dict[str, str]:
    """Move both edges on the way the pin goes already; the difference between them stays."""
    way = 1 if edge_move(pin) > 0 else -1
    edges = pin.edges or {}
    if abs(edge_move(pin)) + step_mm * steps < -_NEARLY:
        raise NothingLess("There is nothing pinned here any more, so it cannot be less")
    return {edge: write_length(move + way * step_mm * steps, unit) for edge, move in edges.items()}


def _stepped(before_mm: float, step_mm: float, steps: int) -> float:
    share = before_mm / step_mm
    whole = floor(share + _NEARLY) if steps > 0 else ceil(share - _NEARLY)
    if whole + steps < 0:
        raise NothingLess("There is nothing pinned here any more, so it cannot be less")
    return (whole + steps) * step_mm
