"""Which layer the next pins go into: one, or through all of them; kept as it was set."""

from core.fit.pinning import first_layer
from core.records.fitting import Pin
from core.records.garment import Garment
from screens.fitting_page import Bench, WordRow

THROUGH = "through"
"""Through every layer; any other word is a layer's id."""


def into_of(bench: Bench) -> str:
    """Return what the next pin goes into: as she said, else as the pin placed last."""
    layers = [layer.id for layer in bench.garment.layers]
    if bench.chosen.into in layers or (bench.chosen.into == THROUGH and len(layers) > 1):
        return bench.chosen.into
    last = next(reversed(bench.fitting.pins), None)
    if last is None:
        return first_layer(bench.garment)
    return THROUGH if last.through and len(layers) > 1 else last.layer


def next_into(bench: Bench) -> str:
    """Return what the key turns to: the outer one, through all, then the others in turn."""
    layers = [layer.id for layer in bench.garment.layers]
    turns = [*layers[:1], THROUGH, *layers[1:]]
    return turns[(turns.index(into_of(bench)) + 1) % len(turns)]


def layer_shown(bench: Bench, in_hand: int | None) -> str:
    """Return the layer the figure shows: that of the pin read off, else where pins go into."""
    if bench.chosen.moment == "read" and in_hand is not None:
        return bench.fitting.pins[in_hand].layer
    into = into_of(bench)
    return first_layer(bench.garment) if into == THROUGH else into


def is_in(pin: Pin, layer: str) -> bool:
    """Tell whether a pin goes through a layer."""
    return pin.through or pin.layer == layer


def layer_key(bench: Bench) -> tuple[WordRow, ...]:
    """Return the key that says what the next pins go into; none where there is one layer."""
    if len(bench.garment.layers) < 2:
        return ()
    into = into_of(bench)
    said = "through all layers" if into == THROUGH else f"{_label(bench.garment, into)} only"
    return (WordRow("layer", f"Next pins: {said}", chosen=into != first_layer(bench.garment)),)


def layer_words(garment: Garment, pin: Pin) -> str:
    """Return what a pin goes through, where that is not the first layer alone."""
    if len(garment.layers) < 2:
        return ""
    if pin.through:
        return "through all layers"
    return _label(garment, pin.layer) if pin.layer != first_layer(garment) else ""


def _label(garment: Garment, layer: str) -> str:
    found = garment.layer(layer)
    return found.label.lower() if found is not None else layer
