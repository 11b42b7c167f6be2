"""What a garment shows that was never fitted: what to do first."""

from dataclasses import dataclass

from core.records.garment import Garment
from screens.fitting_page import WordRow


@dataclass(frozen=True, slots=True)
class BeginPage:
    """No fitting yet: one key begins the first."""

    words: str
    begin: tuple[WordRow, ...] = ()


def begin_page(garment: Garment) -> BeginPage:
    if not garment.layers:
        return BeginPage("This garment has no pieces yet, so there is nothing to pin.")
    return BeginPage(
        "No fitting of this garment yet. Begin one when she is here: pins, marks and photos are"
        " kept with it.",
        (WordRow("begin", "Begin the first fitting", chosen=True),),
    )
