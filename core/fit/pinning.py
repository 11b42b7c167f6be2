"""Pins placed at a fitting: one touch each, numbered as they come, read off later.

``side`` is the wearer's own; worn inside out nothing changes here, for the plan turns the sides
of the day (``core.share.pinned``).
"""

from collections.abc import Mapping
from copy import deepcopy
from dataclasses import dataclass, replace
from typing import Any, Literal

from core.fit.written import CannotLog, Part, change, entry_at, listed, put
from core.lengths import SMALLEST_MM, Unit, write_length
from core.records.fitting import Fitting, LoggedSide
from core.records.garment import Garment
from core.share.pinned import height_of

What = Literal["seam", "dart", "piece"]


@dataclass(frozen=True, slots=True)
class Where:
    """A place on the garment: a seam, a dart or a piece, at a level or so far down (mm)."""

    what: What
    place: str
    layer: str = ""
    level: str = ""
    down_mm: float | None = None


def place_pin(
    fitting: Part, garment: Garment, unit: Unit, where: Where, side: LoggedSide = "both",
    *, through: bool = False,
) -> int:  # fmt: skip
    """Place a pin that is not read yet and return its place in the list.

    ``through``: it goes through every layer.  Raises ``CannotLog`` where the place cannot be
    pinned or is pinned already on that side, with nothing changed.
    """
    pin = _pin(where, garment, unit, _side(garment, where, side))
    put(pin, "through", through or None)
    pins = fitting.get("pins")
    pin["id"] = _next_id(pins if isinstance(pins, list) else [])
    change(fitting, garment, unit, lambda after: listed(after, "pins").append(pin))
    return len(fitting["pins"]) - 1


def pinned_at(fitting: Fitting, garment: Garment, where: Where, side: LoggedSide) -> int | None:
    """Return the pin that is at a place on that side already: the last one of them.

    A pin for both sides is on each of them: touched on one it is taken, never doubled; what
    differs from side to side is given apart (``split_sides``).  One through all layers is in each.
    """
    layer = where.layer or first_layer(garment)
    down = _down(garment, where)
    for index in reversed(range(len(fitting.pins))):
        pin = fitting.pins[index]
        same = (pin.what, pin.place) == (where.what, where.place)
        same = same and (pin.through or pin.layer == layer)
        on = side in (pin.side, "both") or pin.side == "both"
        if same and on and abs(height_of(pin, garment) - down) < SMALLEST_MM:
            return index
    return None


def at_a_level(garment: Garment, where: Where) -> Where:
    """Return a place on a zip's seam at its nearest level: only there is a zip told of.

    Any other place is as it was.
    """
    if where.what != "seam" or where.down_mm is None:
        return where
    layer, down = garment.layer(where.layer or first_layer(garment)), where.down_mm
    levels = [] if layer is None else [
        level
        for ring in layer.rings
        if (seam := ring.seam(where.place)) is not None and seam.zip
        for level in ring.levels_of(seam)
    ]
    if not levels:
        return where
    nearest = min(levels, key=lambda level: abs(garment.levels[level].down - down))
    return replace(where, level=nearest, down_mm=None)


def take_side(fitting: Part, garment: Garment, unit: Unit, index: int, side: LoggedSide) -> None:
    """Put a pin on her left, her right, or both alike; raises ``CannotLog``, ``NotFound``."""

    def edit(after: Part) -> None:
        pin = entry_at(after, "pins", index, "pin")
        pin["side"] = side
        if side == "both":
            _drop_twins(after, pin, index)

    change(fitting, garment, unit, edit)


def split_sides(fitting: Part, garment: Garment, unit: Unit, index: int) -> int:
    """Make two of a pin for both sides, each with its amount; return her right's, the last one.

    The pin itself becomes her left's and keeps its number and its marks on photos.  Where her
    right has a pin of its own at that place, it is that one.  Raises ``CannotLog``, ``NotFound``.
    """
    found = [0]

    def edit(after: Part) -> None:
        pin = entry_at(after, "pins", index, "pin")
        if pin.get("side", "both") != "both" or is_there_once(garment, *_named_in(pin)):
            raise CannotLog("This pin is not on both sides, so there is nothing to part")
        twin = {**deepcopy(pin), "side": "right", "id": _next_id(after["pins"])}
        pin["side"] = "left"
        own = [at for at, other in enumerate(after["pins"])
               if other.get("side") == "right" and _place(other) == _place(pin)]  # fmt: skip
        if not own:
            after["pins"].append(twin)
        found[0] = own[0] if own else len(after["pins"]) - 1

    change(fitting, garment, unit, edit)
    return found[0]


def set_through(fitting: Part, index: int, through: bool) -> None:
    """Say whether a pin is through every layer, or through its own only."""
    put(entry_at(fitting, "pins", index, "pin"), "through", through or None)


def set_note(fitting: Part, index: int, note: str) -> None:
    """Write what is to be said of a pin; raises ``NotFound``."""
    put(entry_at(fitting, "pins", index, "pin"), "note", note.strip())


def remove_pin(fitting: Part, index: int) -> None:
    """Take a pin out; marks on photos that were tied to it stay, tied to nothing."""
    gone = entry_at(fitting, "pins", index, "pin").get("id")
    del fitting["pins"][index]
    _tie(fitting, gone, None)


def without_side(fitting: Part, garment: Garment) -> tuple[int, ...]:
    """Return the pins that need a side and have none written: they count as both."""
    pins = fitting.get("pins") or []
    return tuple(
        index
        for index, pin in enumerate(pins)
        if not pin.get("side") and not is_there_once(garment, *_named_in(pin))
    )


def first_layer(garment: Garment) -> str:
    """Return the layer a pin is in unless it says another one; nothing without layers."""
    return next((layer.id for layer in garment.layers), "")


# -- how ------------------------------------------------------------------------------


def _pin(where: Where, garment: Garment, unit: Unit, side: LoggedSide | None) -> Part:
    pin: Part = {where.what: where.place}
    if where.layer and where.layer != first_layer(garment):
        pin["layer"] = where.layer
    if side is not None:
        pin["side"] = side
    if where.level:
        pin["level"] = where.level
    elif where.down_mm is not None:
        pin["down"] = write_length(where.down_mm, unit, fine=True)
    else:
        raise CannotLog("Touch a seam or a dart at some height. The fitting is as it was")
    return pin


def _side(garment: Garment, where: Where, side: LoggedSide) -> LoggedSide | None:
    """Return the side that is written: what is there once has none."""
    return None if is_there_once(garment, where.what, where.place) else side


def is_there_once(garment: Garment, what: str, place: str) -> bool:
    """Tell whether a place has no left and no right: a centre seam, or all of one closed round."""
    rings = [ring for layer in garment.layers for ring in layer.rings if ring.holds(what, place)]
    central = what == "seam" and any(
        ring.kind == "half" and (seam := ring.seam(place)) is not None and seam.joins_itself
        for ring in rings
    )
    return central or (bool(rings) and all(ring.copies == 1 for ring in rings))


def _named_in(pin: Mapping[str, Any]) -> tuple[str, str]:
    """Return what a written pin is in, and its name."""
    what = next((each for each in ("seam", "dart", "piece") if pin.get(each)), "seam")
    return what, str(pin.get(what) or "")


def _down(garment: Garment, where: Where) -> float:
    if where.level in garment.levels:
        return garment.levels[where.level].down
    return where.down_mm if where.down_mm is not None else 0.0


def _next_id(pins: list[Any]) -> str:
    """Return a name no pin of this fitting has: ``pin_8`` beside seven."""
    taken = {str(pin.get("id")) for pin in pins if isinstance(pin, dict)}
    number = len(pins) + 1
    while f"pin_{number}" in taken:
        number += 1
    return f"pin_{number}"


def _drop_twins(fitting: Part, pin: Part, index: int) -> None:
    """Take out the pins of one side that a pin for both now stands for, on the photos too."""
    key = _place(pin)
    kept: list[Part] = []
    gone: list[Part] = []
    for at, other in enumerate(fitting["pins"]):
        stays = at == index or _place(other) != key
        (kept if stays else gone).append(other)
    fitting["pins"] = kept
    for twin in gone:
        _tie(fitting, twin.get("id"), pin.get("id"))


def _place(pin: Part) -> list[Any]:
    return [pin.get(name) for name in ("seam", "dart", "piece", "layer", "level", "down")]


def _tie(fitting: Part, gone: object, instead: object) -> None:
    """Tie the marks on photos that were tied to a pin to another, or to nothing."""
    for photo in fitting.get("photos") or ():
        for mark in photo.get("marks") or ():
            if gone and mark.get("pin") == gone:
                put(mark, "pin", instead)
