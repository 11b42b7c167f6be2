"""Before she steps in: what was asked last time, what she wears, the girths, in ready words."""

from dataclasses import dataclass

from core.fit.amounts import kind_of
from core.fit.beginning import STAGES
from core.fit.girths import GirthToTape, girths_to_tape
from core.fit.last_time import Asked, asked_last_time, last_fitting
from screens.fitting_page import Bench, KeysRow, WordRow, keys_for, written_in
from screens.fitting_said import height_words
from screens.pin_places import place_of
from screens.pin_rows import KIND_WORDS
from screens.rows import WHOSE, amount, day, direction

BEGIN = (WordRow("begin", "Begin a new fitting today", chosen=True),)
TO_CLOTH = (WordRow("to_changes", "The draft for the real cloth"),)
TURNED = "her left is the garment's right"
STAGE_WORDS = {"toile": "Toile", "basted": "Basted", "second": "Second", "final": "Final"}

@dataclass(frozen=True, slots=True)
class AskedRow:
    """A pin of last time: what was asked, what became of it."""

    what: str
    became: str
    mark: str


@dataclass(frozen=True, slots=True)
class GirthRow:
    """A girth of the garment: what the widths make, what was taped, and how far apart."""

    key: str
    label: str
    sum: str
    taped: str
    apart: str
    chosen: bool


@dataclass(frozen=True, slots=True)
class BeforePage:
    """Before she steps in."""

    begins: tuple[WordRow, ...]
    asked_title: str
    asked: tuple[AskedRow, ...]
    stages: tuple[WordRow, ...]
    own_stage: str
    worn: tuple[WordRow, ...]
    foundation: str
    girths: tuple[GirthRow, ...]
    to_cloth: tuple[WordRow, ...]


def before_page(bench: Bench, today: str) -> BeforePage:
    last = last_fitting(bench.garment, bench.fitting)
    asked = tuple(_asked_row(bench, one) for one in asked_last_time(bench.garment, bench.fitting))
    return BeforePage(
        begins=() if bench.fitting.on >= today else BEGIN,
        asked_title=f"Asked on {day(last.on)}" if last and last.on and asked else "",
        asked=asked,
        stages=tuple(
            WordRow(key, STAGE_WORDS[key], chosen=bench.fitting.stage == key) for key in STAGES
        ),
        own_stage="" if bench.fitting.stage in STAGES else bench.fitting.stage,
        worn=(
            WordRow("inside_out", "Inside out", TURNED if bench.fitting.inside_out else "",
                    chosen=bench.fitting.inside_out),
            WordRow("heel", "Heel worn now", written_in(bench, "worn", "heel") or "not said",
                    chosen=bench.chosen.field == "heel"),
        ),
        foundation=bench.fitting.foundation,
        girths=tuple(
            _girth_row(bench, girth)
            for girth in girths_to_tape(bench.garment, bench.file.client, bench.file.sittings,
                                        bench.fitting)
        ),
        to_cloth=TO_CLOTH if bench.fitting.stage == "toile" else (),
    )  # fmt: skip


def _asked_row(bench: Bench, one: Asked) -> AskedRow:
    place = place_of(one.pin, bench.garment)
    where = ", ".join(filter(None, [place.name, place.whose, height_words(bench, one.pin)]))
    words = KIND_WORDS[kind_of(one.pin) or ""]
    read = next((value for value in (one.pin.pinch, one.pin.gap) if value is not None), None)
    much = f"{words} {amount(read, bench.unit)}" if read is not None else words
    became = "done, came back" if one.done and one.came_back else "done" if one.done else "not done"
    return AskedRow(
        what=f"{where}: {much}",
        became=became,
        mark="" if not one.done else "caution" if one.came_back else "agrees",
    )


def girth_key(girth: GirthToTape) -> str:
    return f"girth {girth.layer} {girth.ring} {girth.level} {girth.side or ''}".strip()


def girth_typed(bench: Bench, girth: GirthToTape) -> str:
    """Return what was typed for a girth; empty where it was not taped."""
    rings = (bench.written.get("sewn_girths") or {}).get(girth.layer) or {}
    value = (rings.get(girth.ring) or {}).get(girth.level)
    value = value.get(girth.side) if isinstance(value, dict) and girth.side else value
    return "" if value is None else str(value)


def _girth_row(bench: Bench, girth: GirthToTape) -> GirthRow:
    key = girth_key(girth)
    whose = f", {WHOSE[girth.side]}" if girth.side else ""
    apart = girth.apart_mm
    return GirthRow(
        key=key,
        label=f"{girth.label}{whose}",
        sum=amount(girth.sum_mm, bench.unit),
        taped=girth_typed(bench, girth) or "–",
        apart=f"{amount(apart, bench.unit)} {'more' if apart > 0 else 'less'}"
        if direction(apart)
        else "",
        chosen=bench.chosen.field == key,
    )


def before_keys(bench: Bench) -> KeysRow | None:
    """Return the number keys for the heel or a girth; none until one is touched."""
    if bench.chosen.field == "heel":
        return keys_for(bench, "Heel worn now", written_in(bench, "worn", "heel"), "Done")
    for girth in girths_to_tape(bench.garment, bench.file.client, bench.file.sittings,
                                bench.fitting):  # fmt: skip
        if girth_key(girth) == bench.chosen.field:
            title = f"{girth.label}, taped inside"
            return keys_for(bench, title, girth_typed(bench, girth), "Next")
    return None
