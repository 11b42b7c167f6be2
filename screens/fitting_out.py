"""Before she steps out, in three lines ready to show."""

from dataclasses import dataclass

from core.fit.stepping_out import stepping_out
from core.said.steps import pins_counted
from screens.fitting_page import Bench
from screens.fitting_said import counted_words


@dataclass(frozen=True, slots=True)
class OutPage:
    """Three lines, the pins counted, and what is to be remembered."""

    counted: str
    sides: str
    photos: str
    tell_her: tuple[str, ...]
    nothing: str
    notes: str


def out_page(bench: Bench, agreed: bool) -> OutPage:
    said_now = stepping_out(dict(bench.written), bench.garment, bench.fitting, bench.file.client,
                            bench.file.sittings, bench.unit, agreed=agreed)  # fmt: skip
    missing = said_now.sides or said_now.photos or said_now.tell_her
    pins = pins_counted(bench.fitting, bench.garment)
    notes = bench.written.get("notes")
    return OutPage(
        counted=f"{pins} {'pin' if pins == 1 else 'pins'} in, {counted_words(bench)}"
        if pins
        else "No pins in.",
        sides=said_now.sides,
        photos=said_now.photos,
        tell_her=said_now.tell_her,
        nothing="" if missing else "Nothing is missing. She may step out.",
        notes=notes if isinstance(notes, str) else "",
    )
