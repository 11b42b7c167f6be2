"""Pins while they are placed, in ready-to-show words."""

from dataclasses import dataclass

from core.changes.plan import room_of_pin
from core.records.fitting import Pin
from screens.fitting_layer import layer_key
from screens.fitting_page import Bench, WordRow
from screens.fitting_read import ReadPage, read_page
from screens.fitting_said import counted_words, last_pin, named_keys, said, side_keys, split_key
from screens.rows import amount, direction

NO_PIN = "Touch a seam or a dart where you set a pin."
NO_PIECES = "This garment has no pieces yet, so there is nothing to pin: its draft comes first."
INSIDE_OUT = "Worn inside out: her left is the garment's right."
HOW = "Swipe across for both sides. Hold to give the amount at once."


@dataclass(frozen=True, slots=True)
class PinPage:
    """Pinning: the last pin in big words, what its seam still lets out, and what to pick from."""

    last: str
    let_out: str
    how: str
    counted: str
    asked: str
    names: tuple[WordRow, ...]
    keys: tuple[WordRow, ...]
    opened: ReadPage | None


def pin_page(bench: Bench) -> PinPage:
    """Return what she sees while she pins: nothing of the client's body."""
    index, fitting = last_pin(bench), bench.fitting
    pin = fitting.pins[index] if index is not None else None
    between = bench.chosen.between
    return PinPage(
        last=said(bench, index) if index is not None else _no_pin(bench),
        let_out=_let_out(bench, index) if index is not None else "",
        how=_how(bench),
        counted=counted_words(bench),
        asked="Which one?" if between else "",
        names=tuple(WordRow(str(at), one.words) for at, one in enumerate(between)),
        keys=(
            *named_keys("side", side_keys(bench, pin)),
            *_pin_keys(bench, pin),
            *layer_key(bench),
        ),
        opened=read_page(bench, live=False) if bench.chosen.opened and pin is not None else None,
    )


def _no_pin(bench: Bench) -> str:
    return NO_PIN if any(layer.rings for layer in bench.garment.layers) else NO_PIECES


def _how(bench: Bench) -> str:
    """Return how pins are set, until she knows; and what inside out means for her sides."""
    turned = INSIDE_OUT if bench.fitting.inside_out else ""
    return " ".join(filter(None, [turned, "" if len(bench.fitting.pins) > 1 else HOW]))


def _let_out(bench: Bench, index: int) -> str:
    """Return what the seam can still let out where the pin is."""
    pin = bench.fitting.pins[index]
    out, _ = room_of_pin(bench.file, bench.garment.id, bench.fitting.id, index)
    if pin.what == "piece":
        return "A fold off a seam: a new dart"
    edge = "a leg" if pin.what == "dart" else "an edge"
    if not direction(out):
        return "Nothing left here to let out"
    return f"Lets out {amount(out, bench.unit)} {edge} at most"


def _pin_keys(bench: Bench, pin: Pin | None) -> tuple[WordRow, ...]:
    """Return the keys under the last pin; without one only the pieces."""
    pieces = WordRow("pieces", "Pieces", chosen=bench.chosen.pieces)
    if pin is None:
        return (pieces,)
    several = len(bench.garment.layers) > 1
    through = (WordRow("through", "Through all", chosen=pin.through),)
    return (
        *split_key(bench, pin),
        WordRow("amount", "Amount", chosen=bench.chosen.opened),
        *(through if several else ()),
        WordRow("remove", "Remove"),
        pieces,
    )
