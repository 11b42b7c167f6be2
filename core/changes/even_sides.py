"""Left and right pinned differently, evened where she asks for it: each side half of the sum."""

from dataclasses import dataclass
from typing import Any

from core.errors import NotFound
from core.lengths import Unit, read_length, write_length
from core.records.fitting import Fitting, Pin
from core.records.garment import Garment
from core.share.pinned import edge_move
from core.wording import Words

_EXACT_MM = 1e-4


@dataclass(frozen=True, slots=True)
class Uneven:
    """One place pinned unlike: its two pins by their place in the fitting, and their moves (mm).

    Left and right as they were logged on her; ``each`` is what either side has when they are
    even; ``words`` say all of it, with the sides of the garment as the list has them.
    """

    left: int
    right: int
    each: float
    words: str


def uneven_sides(garment: Garment, fitting: Fitting, unit: Unit) -> tuple[Uneven, ...]:
    """Return every level of a seam or dart whose two sides have a pin of their own, unlike."""
    words = Words(unit)
    found = []
    for number, left in enumerate(fitting.pins):
        for other, right in enumerate(fitting.pins):
            if _are_fellows(left, right) and words.shows(edge_move(left) - edge_move(right)):
                each = (edge_move(left) + edge_move(right)) / 2
                own = (right, left) if fitting.inside_out else (left, right)
                found.append(Uneven(number, other, each, _words(garment, *own, each, words)))
    return tuple(found)


def even_out(fitting: dict[str, Any], uneven: Uneven, unit: Unit) -> None:
    """Give both pins half of their sum; what else they say stays.  Raises ``NotFound``."""
    pins = fitting.get("pins")
    if not isinstance(pins, list) or max(uneven.left, uneven.right) >= len(pins):
        raise NotFound("One of these two pins is not here any more")
    kind, amount = ("pinch", -uneven.each) if uneven.each <= 0 else ("gap", 2 * uneven.each)
    for at in (uneven.left, uneven.right):
        rest = {name: value for name, value in pins[at].items() if name not in ("pinch", "gap")}
        pins[at] = {**rest, kind: _written(amount, unit)}


def _are_fellows(left: Pin, right: Pin) -> bool:
    place = (left.what, left.place, left.layer, left.level, left.down)
    return (
        (left.side, right.side) == ("left", "right")
        and place == (right.what, right.place, right.layer, right.level, right.down)
        and left.what != "piece"
        and left.edges is None
        and right.edges is None
        and left.read
        and right.read
    )


def _words(garment: Garment, left: Pin, right: Pin, each: float, words: Words) -> str:
    level = garment.levels.get(left.level)
    where = level.label.lower() if level else f"{words.length(left.down or 0.0)} down"
    place = garment.label_of(left.what, left.place, left.layer)
    return (
        f"{place}, {where}: her left {words.way(edge_move(left))}, her right"
        f" {words.way(edge_move(right))} an edge. Even: {words.way(each)} each."
    )


def _written(mm: float, unit: Unit) -> str:
    """Return a length in her unit where that is exact, else in millimetres."""
    text = write_length(mm, unit, fine=True)
    return text if abs(read_length(text, unit).mm - mm) < _EXACT_MM else f"{mm:.5f} mm"
