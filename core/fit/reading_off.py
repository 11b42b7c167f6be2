"""The order in which pins are read off: seam by seam round the body, each from top to bottom."""

from collections.abc import Iterator
from dataclasses import dataclass

from core.records.fitting import Fitting, Pin
from core.records.garment import Garment, Layer, Ring
from core.share.pinned import height_of

_Place = tuple[int, int, int]
"""A layer, a ring of it, and how far round from the centre front."""

_SIDES = {"both": 0, "left": 1, "right": 2}
_LAST = (999, 999, 999)


@dataclass(frozen=True, slots=True)
class Count:
    """How many pins there are, and how many are read."""

    read: int
    pins: int

    @property
    def left(self) -> int:
        return self.pins - self.read

    @property
    def all_read(self) -> bool:
        return self.read == self.pins


def count(fitting: Fitting) -> Count:
    """Return how many pins of a fitting are read, of how many: counted back before she moves."""
    return Count(sum(pin.read for pin in fitting.pins), len(fitting.pins))


def order(garment: Garment, fitting: Fitting) -> tuple[int, ...]:
    """Return the pins (by their place in the list) in the order they are read off.

    Round the body from centre front to centre back: at each piece its darts, then folds on it,
    then the seam to the next; a seam's both sides, her left, her right; each from top to bottom.
    """
    places = {
        key: place
        for number, layer in enumerate(garment.layers)
        for key, place in _round(number, layer)
    }

    def turn(index: int) -> tuple[_Place, int, float, int]:
        pin = fitting.pins[index]
        place = places.get((pin.layer, pin.what, pin.place), _LAST)
        return place, _SIDES[pin.side], height_of(pin, garment), index

    return tuple(sorted(range(len(fitting.pins)), key=turn))


def next_unread(garment: Garment, fitting: Fitting, after: int | None = None) -> int | None:
    """Return the next pin to read after one of them, going round; nothing once all are read."""
    in_order = order(garment, fitting)
    at = in_order.index(after) + 1 if after in in_order else 0
    turned = in_order[at:] + in_order[:at]
    return next((index for index in turned if not fitting.pins[index].read), None)


def edges_of(garment: Garment, pin: Pin) -> tuple[str, str] | None:
    """Return the pieces a pinned seam joins where it is pinned; nothing for a dart or a fold."""
    layer = garment.layer(pin.layer)
    if pin.what != "seam" or layer is None:
        return None
    found = [(ring, seam) for ring in layer.rings if (seam := ring.seam(pin.place)) is not None]
    here = [seam for ring, seam in found if pin.level in ring.levels_of(seam)]
    return next((seam.joins for seam in [*here, *(seam for _, seam in found)]), None)


def _round(number: int, layer: Layer) -> Iterator[tuple[tuple[str, str, str], _Place]]:
    seen: dict[tuple[str, str, str], _Place] = {}
    for at, ring in enumerate(layer.rings):
        for place, (what, name) in enumerate(_in_ring(ring)):
            seen.setdefault((layer.id, what, name), (number, at, place))  # one seam, two rings
    yield from seen.items()


def _in_ring(ring: Ring) -> Iterator[tuple[str, str]]:
    """Yield what can be pinned in a ring, from centre front to centre back."""
    own = [seam for seam in ring.seams if seam.joins_itself]
    pieces = [piece.id for piece in ring.pieces]
    front = [seam for seam in own if pieces and seam.joins[0] == pieces[0] and len(pieces) > 1]
    yield from (("seam", seam.id) for seam in front)
    for piece in ring.pieces:
        yield from (("dart", dart.id) for dart in piece.darts)
        yield "piece", piece.id
        for seam in ring.seams:
            if piece.id == seam.joins[0] and not seam.joins_itself:
                yield "seam", seam.id
    yield from (("seam", seam.id) for seam in own if seam not in front)


def nearest_level(garment: Garment, pin: Pin) -> tuple[str, float]:
    """Return the level a pin is nearest to, and how far below it is (mm, negative: above)."""
    down = height_of(pin, garment)
    level = min(garment.levels.values(), key=lambda one: abs(one.down - down))
    return level.id, down - level.down
