"""The records that are chosen on the draft's screen, found in the client's file."""

from dataclasses import dataclass, replace
from datetime import date
from typing import Any

from core.draft.document import find, garment_in
from core.errors import NotFound
from core.file.fitting_file import FittingFile
from core.lengths import Unit
from core.records.garment import Garment, Layer, Ring
from screens.parts.draft_chosen import Drafting


@dataclass(frozen=True, slots=True)
class OnTheTable:
    """The garment on the table: as written, as read, and its layer and round in hand."""

    file: FittingFile
    chosen: Drafting
    written: dict[str, Any]
    garment: Garment
    layer: Layer
    ring: Ring | None
    today: date

    @property
    def unit(self) -> Unit:
        return self.file.unit

    @property
    def layer_written(self) -> dict[str, Any]:
        return find(self.written, "layers", self.layer.id)


def on_the_table(file: FittingFile, chosen: Drafting, today: date) -> OnTheTable:
    """Return the garment that is chosen with its layer and round; what is gone is the first.

    Raises ``NotFound`` where the garment is not there any more.
    """
    garment = file.garment(chosen.garment)
    if not garment.layers:
        raise NotFound("This garment has no layer, so there is nothing to draft")
    layer = garment.layer(chosen.layer) or garment.layers[0]
    rings = {ring.id: ring for ring in layer.rings}
    ring = rings.get(chosen.ring) or next(iter(layer.rings), None)
    found = replace(chosen, layer=layer.id, ring=ring.id if ring else "")
    written = garment_in(file.data, chosen.garment)
    return OnTheTable(file, found, written, garment, layer, ring, today)
