"""Changes to a client's document, made on a copy that is the caller's own."""

from dataclasses import dataclass
from typing import Any


@dataclass(frozen=True, slots=True)
class Place:
    """Where a fitting stands in the document: which garment, which fitting of it."""

    garment: int
    fitting: int

    def fitting_in(self, document: dict[str, Any]) -> dict[str, Any]:
        fitting = document["garments"][self.garment]["fittings"][self.fitting]
        return fitting  # type: ignore[no-any-return]


def choose_lead(document: dict[str, Any], place: Place, lead: str) -> None:
    place.fitting_in(document)["lead"] = lead
