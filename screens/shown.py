"""Everything the screens show of one garment at one fitting, worked out in one go."""

from dataclasses import dataclass, replace

from core.changes.plan import make_plan, room_of_pin
from core.errors import WorkroomError
from core.file.fitting_file import FittingFile
from core.lengths import Unit
from core.records.answer import Lead, Plan
from core.records.fitting import Fitting
from core.records.garment import Garment
from screens.changes_ways import way_in
from screens.edits import Place
from screens.pin_rows import PinRow, Room, pin_rows
from screens.rows import (
    UNIT_WORDS,
    LevelRow,
    StepRow,
    day,
    direction,
    follow_lines,
    level_rows,
    other_cautions,
    step_rows,
)

NOTHING_PINNED = "Nothing is pinned at this fitting yet, so nothing is to change."
NO_STEPS = "Nothing is to be altered: every level that was measured is right as it is."


class NotReadYet(WorkroomError):
    """A list is asked for before every pin is read."""


class NoGarment(WorkroomError):
    """There is nothing on the bench yet."""


@dataclass(frozen=True, slots=True)
class Chosen:
    """What is on the bench: empty ids stand for the last garment and its last fitting."""

    garment: str = ""
    fitting: str = ""
    layer: str = ""
    pin: int = 0


@dataclass(frozen=True, slots=True)
class Shown:
    """Ready-to-show words; every name is a property of the bench."""

    title_line: str = ""
    garment: str = ""
    garment_name: str = ""
    layers: tuple[tuple[str, str], ...] = ()
    layer: str = ""
    levels: tuple[LevelRow, ...] = ()
    moved_name: str = "pinned"
    pins: tuple[PinRow, ...] = ()
    pin: PinRow | None = None
    no_pins: str = ""
    has_fitting: bool = False
    no_steps: str = ""
    steps: tuple[StepRow, ...] = ()
    follows: tuple[str, ...] = ()
    warnings: tuple[str, ...] = ()
    lead: Lead = "pins"
    heading: str = ""


@dataclass(frozen=True, slots=True)
class OnTheBench:
    """The records behind what is shown, and where they stand in the document."""

    file: FittingFile
    garment: Garment
    fitting: Fitting | None
    place: Place


def find(file: FittingFile, chosen: Chosen) -> OnTheBench:
    """Return the garment and fitting that were chosen; raises ``NoGarment`` for none."""
    if not file.garments:
        raise NoGarment("This client has no garment yet: start one from her measurements")
    at = _index(file.garments, chosen.garment)
    garment = file.garments[at]
    if not garment.fittings:
        return OnTheBench(file, garment, None, Place(at, -1))
    which = _index(garment.fittings, chosen.fitting)
    return OnTheBench(file, garment, garment.fittings[which], Place(at, which))


def named(on: OnTheBench, chosen: Chosen) -> Chosen:
    """Return what is on the bench by its ids, whatever is added to the client later."""
    fitting = on.fitting.id if on.fitting else ""
    return replace(chosen, garment=on.garment.id, fitting=fitting)


def show(bench: OnTheBench, chosen: Chosen, plan: Plan) -> Shown:
    """Put a plan and what it is made from into words."""
    garment, fitting, unit = bench.garment, bench.fitting, bench.file.unit
    pins = _pins(bench, chosen)
    pin = next((row for row in pins if row.in_hand), None)
    layers = tuple((layer.id, layer.label) for layer in garment.layers)
    layer = chosen.layer if chosen.layer in dict(layers) else layers[0][0]
    unread = not_read(fitting)
    return Shown(
        title_line=_title_line(bench),
        garment=garment.id,
        garment_name=garment.name,
        layers=layers,
        layer=layer,
        levels=tuple(strip(plan, garment, layer, unit, pin.level if pin else "")),
        moved_name="pinned" if _pins_lead(plan, layer) else "planned",
        pins=pins,
        pin=pin,
        no_pins="" if pins else _no_pins(fitting),
        has_fitting=fitting is not None,
        no_steps=unread or ("" if plan.steps else NO_STEPS),
        steps=() if unread else tuple(step_rows(plan.steps)),
        follows=() if unread else tuple(follow_lines(plan.follows, plan.steps)),
        warnings=tuple(other_cautions(plan.warnings, plan.steps)),
        lead=plan.lead,
        heading=plan.heading,
    )


def not_read(fitting: Fitting | None) -> str:
    """Say how many pins are not read yet: before that no list is made; nothing once all are.

    Where pins lead and there is none yet, there is nothing to make a list of either.
    """
    if fitting is not None and fitting.lead == "pins" and not fitting.pins:
        return NOTHING_PINNED
    unread = sum(not pin.read for pin in fitting.pins) if fitting else 0
    if not unread:
        return ""
    pins, them = ("pin is", "it") if unread == 1 else ("pins are", "them")
    return f"{unread} {pins} not read yet. Read {them} off first: then the list is made."


def plan_on(bench: OnTheBench) -> Plan:
    """Return the plan of what is on the bench, shared out the way that was chosen there."""
    garment, fitting = bench.garment, bench.fitting
    way = way_in(bench.place.fitting_in(bench.file.data)) if fitting else "by_turns"
    return make_plan(bench.file, garment.id, fitting.id if fitting else None, way=way)


def strip(plan: Plan, garment: Garment, layer: str, unit: Unit, live: str) -> list[LevelRow]:
    """Return the levels of a layer: as pinned where pins lead it, as planned otherwise."""
    band = None if _pins_lead(plan, layer) else garment.settings.band
    return level_rows(plan.levels, layer, unit, [live], planned_within=band)


def _pins_lead(plan: Plan, layer: str) -> bool:
    """Tell whether a layer's own pins lead it: a lining follows the outer's without any."""
    own = (level for level in plan.levels if level.layer == layer)
    return plan.lead == "pins" and any(direction(level.pinned) for level in own)


def _pins(bench: OnTheBench, chosen: Chosen) -> tuple[PinRow, ...]:
    garment, fitting = bench.garment, bench.fitting
    if fitting is None or not fitting.pins:
        return ()
    in_hand = min(max(chosen.pin, 0), len(fitting.pins) - 1)
    rooms = [Room(*room_of_pin(bench.file, garment.id, fitting.id, index))
             for index in range(len(fitting.pins))]  # fmt: skip
    return tuple(pin_rows(garment, fitting, rooms, bench.file.unit, in_hand))


def _no_pins(fitting: Fitting | None) -> str:
    if fitting is None:
        return "No fitting yet: the draft is compared with the tape."
    if fitting.lead == "pins":
        return "Touch Tape for what the tape alone would change."
    return "No pins were set at this fitting: the tape alone says what to change."


def _title_line(bench: OnTheBench) -> str:
    """Return whose it is, which fitting, when, and what the numbers are in."""
    fitting = bench.fitting
    when = "as drafted" if fitting is None else " ".join(
        word for word in (fitting.stage, "fitting", day(fitting.on),
                             "worn inside out" if fitting.inside_out else "") if word)  # fmt: skip
    return f"{bench.file.client.name}, {when}, all in {UNIT_WORDS[bench.file.unit]}"


def _index(entries: tuple[Garment, ...] | tuple[Fitting, ...], wanted: str) -> int:
    """Return where the wanted one stands; the last one where it is not named or not there."""
    ids = [entry.id for entry in entries]
    return ids.index(wanted) if wanted in ids else len(ids) - 1
