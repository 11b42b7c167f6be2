"""The pinned changes line by line: where each is, how deep, and what it makes of the round."""

from dataclasses import dataclass

from core.fit.amounts import kind_of
from core.lengths import SMALLEST_MM, Unit
from core.records.fitting import Fitting, Pin
from core.records.garment import Garment
from core.share.pinned import edge_move, round_change
from screens.pin_places import PinPlace, place_of
from screens.rows import NOTHING, amount, direction

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
    place, at_mm, step = place_of(pin, garment), edge_move(pin), garment.settings.step
    total_mm = round_change(pin, garment)
    return PinRow(
        index=index,
        number=str(index + 1),
        title=place.title,
        whose=place.whose,
        heading=place.heading(index),
        kind=KIND_WORDS[kind_of(pin) or ""],
        depth=_depth(pin, unit),
        times="\n".join(_times(pin, place)),
        total=amount(total_mm, unit) if pin.read else NOTHING,
        mark=direction(total_mm),
        effect=_effect(total_mm, place) if pin.read else "",
        let_out_words=f"let out to {amount(room.let_out_mm, unit)} {place.edge}",
        take_in_words=f"take in to {amount(room.take_in_mm, unit)} {place.edge}",
        at=at_mm / step,
        let_out=room.let_out_mm / step,
        take_in=room.take_in_mm / step,
        beyond=_beyond(at_mm, room, place.edge, unit),
        level=pin.level,
        in_hand=in_hand,
    )


def _effect(total_mm: float, place: PinPlace) -> str:
    words = EFFECT_WORDS[direction(total_mm)]
    return words.replace("the round", "each round") if place.apart else words


def _beyond(at_mm: float, room: Room, edge: str, unit: Unit) -> str:
    """Return what is missing where the pin lies beyond what the cloth allows."""
    if at_mm > room.let_out_mm + SMALLEST_MM:
        short = amount(at_mm - room.let_out_mm, unit)
        return f"The cloth is {short} {edge} short of what is pinned"
    if -at_mm > room.take_in_mm + SMALLEST_MM:
        over = amount(-at_mm - room.take_in_mm, unit)
        return f"{over} {edge} more than is usually taken in"
    return ""


def _times(pin: Pin, place: PinPlace) -> list[str]:
    """Return what the depth is multiplied by, so that depth and total are never mistaken."""
    times = ["× 2 a fold"] if pin.pinch is not None else []
    return times + (["× 2 sides"] if place.sides == 2 else [])


def _depth(pin: Pin, unit: Unit) -> str:
    if pin.edges:
        return amount(edge_move(pin), unit)
    read = next((value for value in (pin.pinch, pin.gap) if value is not None), None)
    return NOTHING if read is None else amount(read, unit)
