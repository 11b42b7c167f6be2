"""What is chosen on the changes, and what shows there beside the levels, the pins and the list."""

from collections.abc import Sequence
from dataclasses import dataclass, fields

from core.changes.even_sides import Uneven, uneven_sides
from core.changes.plan import plan_layers
from core.changes.set_by_hand import set_by_hand
from core.lengths import Unit
from core.records.answer import Plan
from core.said.amounts_to_set import AmountSet, AmountToSet, amounts_set, amounts_to_set
from core.said.piece_moves import MovedPiece, moved_pieces
from core.said.step_drawn import moved_parts
from core.said.step_places import StepPlaces, step_places
from core.said.ways_told import WayTold, moved_without_pin, ways_told
from core.sewn.ticked_steps import Tick, off_the_list, ticks_of, with_side
from core.wording import Words, listed
from screens.asked import Asked
from screens.browsing import Browsing
from screens.changes_ease import pinned_ease
from screens.changes_sheet import asked_of
from screens.rows import StepRow
from screens.shown import Chosen, OnTheBench, not_read

LIST, PIECES = "list", "pieces"
SHORT = (" short to let out; ", " short to take in; ")
"""How the core tells a shortage with its ways out, which never waits behind a touch."""


@dataclass(frozen=True, slots=True)
class OnChanges(Chosen):
    """A garment at a fitting, with what lies open: the list or the pieces, a panel over both.

    ``panel`` is ``ask`` or ``browse``; ``paper`` and ``strips`` are how the sheet is wanted.
    """

    shows: str = LIST
    panel: str = ""
    paper: str = ""
    strips: bool = False
    browsing: Browsing | None = None


@dataclass(frozen=True, slots=True)
class DrawnPiece:
    """A piece to draw: its outline as sewn, its new lines by direction, and its amounts (mm)."""

    piece: MovedPiece
    parts: tuple[tuple[str, tuple[tuple[float, float], ...]], ...]


@dataclass(frozen=True, slots=True)
class StepToSet(StepRow):
    """A step of the list with the amounts of it that can be set by hand."""

    amounts: tuple[AmountToSet, ...] = ()


@dataclass(frozen=True, slots=True)
class BesideThem:
    """Ready-to-show words; every name is a property of the view."""

    ways: tuple[WayTold, ...] = ()
    unpinned: str = ""
    shows: str = LIST
    drawn: tuple[DrawnPiece, ...] = ()
    no_pieces: str = ""
    to_sew: str = ""
    has_steps: bool = False
    has_unread: bool = False
    ticked: tuple[bool, ...] = ()
    sewn_otherwise: str = ""
    has_ease: bool = False
    uneven: tuple[Uneven, ...] = ()
    shortages: tuple[str, ...] = ()
    amounts: tuple[tuple[AmountToSet, ...], ...] = ()
    set_amounts: tuple[AmountSet, ...] = ()
    set_agrees: tuple[str, ...] = ()
    set_differs: tuple[str, ...] = ()
    shared_again: bool = False
    panel: str = ""
    asked: Asked | None = None
    browsing: Browsing | None = None


def on_changes(chosen: Chosen | None) -> OnChanges:
    """Return what is chosen as it is chosen here, wherever she came from."""
    if isinstance(chosen, OnChanges):
        return chosen
    if chosen is None:
        return OnChanges()
    return OnChanges(**{one.name: getattr(chosen, one.name) for one in fields(Chosen)})


def beside_them(bench: OnTheBench, chosen: OnChanges, layer: str, plan: Plan) -> BesideThem:
    """Work out what shows beside the levels and the list; the pieces only where they show."""
    unit = bench.file.unit
    drawn = _drawn(bench, plan, layer, unit) if chosen.shows == PIECES else ()
    free = moved_without_pin(plan, bench.file, unit) if bench.fitting and bench.fitting.pins else ()
    found = step_places(plan, bench.file, unit) if bench.fitting else None
    ticks = _ticks(bench, plan, found)
    hand = set_by_hand(bench.file, bench.garment, bench.fitting)
    unread = bool(not_read(bench.fitting))
    return BesideThem(
        ways=ways_told(bench.file, plan, plan.way, unit),
        unpinned=f"Moved without a pin: {listed(free)}. Try on first." if free else "",
        shows=chosen.shows,
        drawn=drawn,
        no_pieces="" if drawn else "No piece of this layer is changed.",
        to_sew="" if unread else _to_sew(ticks),
        has_steps=bool(ticks) and not unread,
        has_unread=unread,
        ticked=tuple(tick.done for tick in ticks),
        sewn_otherwise=_sewn_otherwise(plan, ticks, bench),
        has_ease=bool(pinned_ease(plan, bench.garment, unit)),
        uneven=_uneven(bench, plan),
        amounts=amounts_to_set(plan, found, Words(unit)) if found else (),
        set_amounts=amounts_set(plan, hand, bench.garment, Words(unit)),
        set_agrees=tuple(total.text for total in plan.hand_totals if total.agrees),
        set_differs=tuple(total.text for total in plan.hand_totals if not total.agrees),
        shared_again=hand.shared_again,
        shortages=tuple(said for said in plan.warnings if any(way in said for way in SHORT)),
        panel=chosen.panel,
        asked=asked_of(bench.garment.name) if chosen.panel == "ask" else None,
        browsing=chosen.browsing,
    )


def _to_sew(ticks: Sequence[Tick]) -> str:
    """Return how much of the list is left to sew."""
    left = sum(not tick.done for tick in ticks)
    if left:
        return f"{left} step{'' if left == 1 else 's'}"
    return "all done" if ticks else ""


def _uneven(bench: OnTheBench, plan: Plan) -> tuple[Uneven, ...]:
    """Return what was pinned unlike; where the tape leads, the pins move nothing."""
    if bench.fitting is None or plan.lead == "tape":
        return ()
    return uneven_sides(bench.garment, bench.fitting, bench.file.unit)


def steps_to_set(rows: Sequence[StepRow], beside: BesideThem) -> tuple[StepToSet, ...]:
    """Return the steps with how they stand and what of them can be set; as they are without."""
    ticked = beside.ticked or (False,) * len(rows)
    amounts = beside.amounts or ((),) * len(rows)
    return tuple(
        StepToSet(**{one.name: getattr(row, one.name) for one in fields(StepRow)} | {"done": done},
                  amounts=own)
        for row, done, own in zip(rows, ticked, amounts, strict=bool(rows))
    )  # fmt: skip


def _ticks(bench: OnTheBench, plan: Plan, found: StepPlaces | None) -> tuple[Tick, ...]:
    """Return how each step of the list stands; without a fitting nothing is sewn."""
    if found is None:
        return ()
    written = bench.place.fitting_in(bench.file.data)
    return ticks_of(plan, found, written, bench.file.unit)


def _sewn_otherwise(plan: Plan, ticks: Sequence[Tick], bench: OnTheBench) -> str:
    """Return what was ticked off with other amounts than the list has now, or is not on it."""
    if bench.fitting is None:
        return ""
    steps = [with_side(step).lower() for step, tick in zip(plan.steps, ticks, strict=True)
             if tick.otherwise]  # fmt: skip
    said = []
    if steps:
        said.append(
            f"Ticked off with other amounts than these: {listed(steps)}. Sew and tick it again."
        )
    written = bench.place.fitting_in(bench.file.data)
    if gone := off_the_list(ticks, written, bench.garment):
        said.append(
            f"Ticked off, but not on this list any more: {listed(gone)}. It counts as sewn. If it"
            " was not, pin it again, take the tick back at the sewing table, then take the pin out."
        )
    return " ".join(said)


def _drawn(bench: OnTheBench, plan: Plan, layer: str, unit: Unit) -> tuple[DrawnPiece, ...]:
    layers = plan_layers(bench.file, bench.garment, bench.fitting, plan.lead, plan.way)
    own = next(one for one in layers if one.work.layer.id == layer)
    pieces = moved_pieces(own, plan, bench.file, bench.garment, unit)
    return tuple(DrawnPiece(piece, moved_parts(piece)) for piece in pieces)
