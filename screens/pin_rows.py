"""The pinned changes line by line: where each is, how deep, and what that makes of the round."""

from dataclasses import dataclass

from core.fitting import Fitting, Pin
from core.garment import Garment, Ring
from core.lengths import Unit
from screens.rows import WHOSE, amount, direction

KIND_WORDS = {"pinch": "deep", "gap": "gap", "edges": "an edge", "": "not read"}
EFFECT_WORDS = {"take in": "off the round", "let out": "added to the round", "": "no change"}


@dataclass(frozen=True, slots=True)
class PinRow:
    """One pin; ``at``, ``let_out`` and ``take_in`` count steps of one edge.

    ``at`` is the pin's own move (negative takes in); the other two are how far it
    may go either way, never negative.
    """

    index: int
    number: str
    title: str
    whose: str
    heading: str
    kind: str
    depth: str
    times: str
    total: str
    mark: str
    effect: str
    let_out_words: str
    take_in_words: str
    at: float
    let_out: float
    take_in: float
    beyond: str
    level: str
    in_hand: bool = False


@dataclass(frozen=True, slots=True)
class Room:
    """How far an edge may go at a pin (mm, never negative)."""

    let_out_mm: float
    take_in_mm: float


def pin_rows(
    garment: Garment, fitting: Fitting, rooms: list[Room], unit: Unit, in_hand: int
) -> list[PinRow]:
    """Return a row for each pin, in the order they were set."""
    return [_pin_row(index, pin, garment, rooms[index], unit, index == in_hand)
            for index, pin in enumerate(fitting.pins)]  # fmt: skip


def _pin_row(
    index: int, pin: Pin, garment: Garment, room: Room, unit: Unit, in_hand: bool
) -> PinRow:
    place, level, whose = *_place(pin, garment), _whose(pin, garment)
    total_mm, at_mm, step = _total_mm(pin, garment), edge_mm(pin), garment.settings.step
    return PinRow(
        index=index,
        number=str(index + 1),
        title=f"{place}, {level}" if level else place,
        whose=whose,
        heading=_heading(index, place, level, whose),
        kind=KIND_WORDS[kind_of(pin)],
        depth=_depth(pin, unit),
        times="\n".join(_times(pin, garment)),
        total=amount(total_mm, unit) if pin.read else "–",
        mark=direction(total_mm),
        effect=EFFECT_WORDS[direction(total_mm)] if pin.read else "",
        let_out_words=f"let out to {amount(room.let_out_mm, unit)} an edge",
        take_in_words=f"take in to {amount(room.take_in_mm, unit)} an edge",
        at=at_mm / step,
        let_out=room.let_out_mm / step,
        take_in=room.take_in_mm / step,
        beyond=_beyond(at_mm, room, unit),
        level=pin.level,
        in_hand=in_hand,
    )


def _heading(index: int, place: str, level: str, whose: str) -> str:
    """Return everything about where the pin is, as one would say it."""
    at = f" at the {level}" if level else ""
    side = f", {whose}" if whose else ""
    return f"Pin {index + 1}: {place[:1].lower()}{place[1:]}{at}{side}"


def kind_of(pin: Pin) -> str:
    """Return how the pin was read: ``pinch``, ``gap``, ``edges``, or not yet."""
    return next((kind for kind in ("pinch", "gap", "edges") if getattr(pin, kind) is not None), "")


def _beyond(at_mm: float, room: Room, unit: Unit) -> str:
    """Return what is missing where the pin lies beyond what the cloth allows."""
    if at_mm > room.let_out_mm + 1e-6:
        short = amount(at_mm - room.let_out_mm, unit)
        return f"The cloth is {short} an edge short of what is pinned"
    if -at_mm > room.take_in_mm + 1e-6:
        over = amount(-at_mm - room.take_in_mm, unit)
        return f"{over} an edge more than is usually taken in"
    return ""


def edge_mm(pin: Pin) -> float:
    """Return the move of one edge: a fold of depth d takes d, an opening of width g gives g / 2."""
    if pin.pinch is not None:
        return -pin.pinch
    if pin.gap is not None:
        return pin.gap / 2
    return sum(pin.edges.values()) / len(pin.edges) if pin.edges else 0.0


def _total_mm(pin: Pin, garment: Garment) -> float:
    edges = len(pin.edges) if pin.edges else 2
    return edge_mm(pin) * edges * _sides(pin, garment)


def _sides(pin: Pin, garment: Garment) -> int:
    """Return on how many sides the pin counts: a centre seam is there once."""
    return 2 if pin.side == "both" and not _on_the_centre(pin, garment) else 1


def _times(pin: Pin, garment: Garment) -> list[str]:
    times = ["× 2 a fold"] if pin.pinch is not None else []
    return times + (["× 2 sides"] if _sides(pin, garment) == 2 else [])


def _whose(pin: Pin, garment: Garment) -> str:
    return "" if _on_the_centre(pin, garment) else WHOSE[pin.side]


def _depth(pin: Pin, unit: Unit) -> str:
    if pin.edges:
        return amount(edge_mm(pin), unit)
    read = next((value for value in (pin.pinch, pin.gap) if value is not None), None)
    return "–" if read is None else amount(read, unit)


def _place(pin: Pin, garment: Garment) -> tuple[str, str]:
    """Return the name of the seam, dart or piece, and of the level (empty between levels)."""
    place = next((label for name, label in _places(pin, garment) if name == pin.place), pin.place)
    level = garment.levels.get(pin.level)
    return place, level.label.lower() if level else ""


def _places(pin: Pin, garment: Garment) -> list[tuple[str, str]]:
    """Return the id and the name of everything of the kind that was pinned."""
    rings = _rings(pin, garment)
    if pin.what == "seam":
        return [(seam.id, seam.label) for ring in rings for seam in ring.seams]
    pieces = [piece for ring in rings for piece in ring.pieces]
    if pin.what == "dart":
        return [(dart.id, dart.label) for piece in pieces for dart in piece.darts]
    return [(piece.id, piece.label) for piece in pieces]


def _on_the_centre(pin: Pin, garment: Garment) -> bool:
    return pin.what == "seam" and any(
        seam.joins_itself and ring.kind == "half"
        for ring in _rings(pin, garment)
        for seam in ring.seams
        if seam.id == pin.place
    )


def _rings(pin: Pin, garment: Garment) -> tuple[Ring, ...]:
    layer = garment.layer(pin.layer) or garment.layers[0]
    return layer.rings
