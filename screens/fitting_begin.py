"""What a garment shows that was never fitted: what to do first."""

from dataclasses import dataclass

from core.records.garment import Garment


@dataclass(frozen=True, slots=True)
class BeginPage:
    """No fitting yet: one key begins the first."""

    words: str
    begin: str
    draft: str


def begin_page(garment: Garment) -> BeginPage:
    if not garment.layers:
        words = "This garment has no draft yet. Work out its draft first, then pin it."
        return BeginPage(words, "", "To the draft")
    return BeginPage(
        "No fitting of this garment yet. Begin one when she is here: pins, marks and photos are"
        " kept with it.",
        "Begin the first fitting",
        "",
    )
