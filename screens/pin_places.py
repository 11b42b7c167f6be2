"""Where a pin is, in words: what was pinned, at which level, on whose side, in how many rounds."""

from dataclasses import dataclass

from core.fit.pinning import is_there_once
from core.records.fitting import Pin
from core.records.garment import Garment, Ring
from screens.rows import WHOSE


@dataclass(frozen=True, slots=True)
class PinPlace:
    """A pin's place; ``sides`` says how often it counts in one round.

    Pinned on both sides it counts twice; a centre seam is there once; two sleeves or
    legs are two rounds (``apart``) with the pin once in each.
    """

    name: str
    level: str
    whose: str
    sides: int
    apart: bool
    edge: str

    @property
    def title(self) -> str:
        return f"{self.name}, {self.level}" if self.level else self.name

    def heading(self, index: int) -> str:
        """Return everything about where the pin is, as one would say it."""
        at = f" at the {self.level}" if self.level else ""
        side = f", {self.whose}" if self.whose else ""
        return f"Pin {index + 1}: {self.name[:1].lower()}{self.name[1:]}{at}{side}"


def place_of(pin: Pin, garment: Garment) -> PinPlace:
    """Return where a pin is; one between two levels has no level to name."""
    ring = _ring(pin, garment)
    named = {} if ring is None else _named(pin, ring)
    level = garment.levels.get(pin.level)
    once = is_there_once(garment, pin.what, pin.place)
    apart = ring is not None and ring.kind == "closed" and ring.copies == 2
    return PinPlace(
        name=named.get(pin.place, pin.place),
        level=level.label.lower() if level else "",
        whose="" if once else WHOSE[pin.side],
        sides=2 if pin.side == "both" and not (once or apart) else 1,
        apart=apart and pin.side == "both",
        edge="a leg" if pin.what == "dart" else "an edge",
    )


def _ring(pin: Pin, garment: Garment) -> Ring | None:
    """Return the ring that was pinned: of those with the seam, the one with the level."""
    layer = garment.layer(pin.layer) or next(iter(garment.layers), None)
    rings = layer.rings if layer is not None else ()
    with_place = [ring for ring in rings if pin.place in _named(pin, ring)]
    with_level = [ring for ring in with_place if pin.level in ring.levels]
    return next(iter(with_level or with_place), None)


def _named(pin: Pin, ring: Ring) -> dict[str, str]:
    """Return the name by id of everything in a ring of the kind that was pinned."""
    if pin.what == "seam":
        return {seam.id: seam.label for seam in ring.seams}
    if pin.what == "dart":
        return {dart.id: dart.label for piece in ring.pieces for dart in piece.darts}
    return {piece.id: piece.label for piece in ring.pieces}
