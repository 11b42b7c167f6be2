"""A pin of a fitting as one would say it, which one is in hand, and the keys of its sides."""

from dataclasses import replace

from core.fit.reading_off import count, nearest_level, next_unread
from core.records.fitting import Pin
from core.said.steps import pins_counted
from screens.fitting_layer import layer_words
from screens.fitting_page import Bench, WordRow
from screens.pin_places import place_of
from screens.rows import amount, direction

SIDES = {"right": "Her right", "both": "Both", "left": "Her left"}


def last_pin(bench: Bench) -> int | None:
    """Return the pin in hand, else the one that was placed last."""
    if bench.chosen.pin is not None:
        return bench.chosen.pin
    return len(bench.fitting.pins) - 1 if bench.fitting.pins else None


def pin_to_read(bench: Bench) -> int | None:
    """Return the pin in hand, else the next that is not read, else the last one."""
    if bench.chosen.pin is not None:
        return bench.chosen.pin
    unread = next_unread(bench.garment, bench.fitting)
    return unread if unread is not None else last_pin(bench)


def said(bench: Bench, index: int) -> str:
    """Return a pin as one would say it: ``5: her left side seam, waist, not read``."""
    pin = bench.fitting.pins[index]
    place = place_of(pin, bench.garment)
    name = f"{place.name[:1].lower()}{place.name[1:]}"
    whose = [f"{place.whose} {name}"] if place.whose.startswith("her") else [name, place.whose]
    at = [height_words(bench, pin), layer_words(bench.garment, pin), _amount_words(bench, pin)]
    return f"{index + 1}: " + ", ".join(filter(None, [*whose, *at]))


def height_words(bench: Bench, pin: Pin) -> str:
    """Return the level a pin is at, or how far below or above the nearest one."""
    level, below = nearest_level(bench.garment, pin)
    label = bench.garment.levels[level].label.lower()
    if not direction(below):
        return label
    return f"{amount(below, bench.unit)} {'below' if below > 0 else 'above'} the {label}"


def counted_words(bench: Bench) -> str:
    """Return how much is read: in places, where some have a pin on each side of her."""
    counted = count(bench.fitting)
    if not counted.pins:
        return "No pins yet"
    what = "pin" if pins_counted(bench.fitting, bench.garment) == counted.pins else "place"
    return f"{counted.read} of {counted.pins} {what}{'' if counted.pins == 1 else 's'} read"


def _amount_words(bench: Bench, pin: Pin) -> str:
    if not pin.read:
        return "not read"
    if pin.edges is not None:
        return "edges apart"
    kind = "gap" if pin.gap is not None else "deep"
    return f"{kind} {amount(pin.gap if pin.gap is not None else pin.pinch or 0.0, bench.unit)}"


def side_keys(bench: Bench, pin: Pin | None) -> tuple[WordRow, ...]:
    if pin is None or not place_of(pin, bench.garment).whose:
        return ()
    return tuple(WordRow(key, label, chosen=pin.side == key) for key, label in SIDES.items())


def split_key(bench: Bench, pin: Pin) -> tuple[WordRow, ...]:
    """Return the key that makes two of a pin for both sides, so that they may differ."""
    both = pin.side == "both" and bool(place_of(pin, bench.garment).whose)
    return (WordRow("split", "Each side"),) if both else ()


def named_keys(what: str, rows: tuple[WordRow, ...]) -> tuple[WordRow, ...]:
    return tuple(replace(row, key=f"{what} {row.key}") for row in rows)
