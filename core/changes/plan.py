"""The plan of a garment at a fitting: compare, plan every layer, say what follows."""

from collections.abc import Mapping, Sequence
from dataclasses import replace

from core.changes.chosen_way import way_in
from core.changes.following import plan_other
from core.changes.layer_plan import LayerPlan, Work
from core.changes.laying import leave_inside_band
from core.changes.options import options_of
from core.changes.plan_levels import levels_of, moves_of
from core.changes.planning import plan_first
from core.changes.redraft import redraft_steps
from core.changes.set_by_hand import set_by_hand, written_fitting
from core.draft.before_cutting import before_cutting
from core.draft.kinds import kind
from core.file.fitting_file import FittingFile, fitting_of
from core.file.loose_ends import loose_ends
from core.lengths import Unit
from core.records.answer import Consequence, Lead, Plan, Sharing, Step
from core.records.fitting import TOILE, Fitting, Pin
from core.records.garment import Garment, Layer
from core.said.between_cautions import between_cautions
from core.said.cautions import cautions_of
from core.said.follows import what_follows
from core.said.hand_told import hand_cautions, hand_totals, lost_caution
from core.said.steps import steps_of
from core.sewn.compare import (
    Body,
    Wanted,
    body_at,
    compare,
    comparison_cautions,
    older_than_fitting,
)
from core.sewn.rounds import Round, rounds_of
from core.share.pinned import edge_move, height_of, on_the_garment, pinned_in
from core.share.rules import Rules, rules_of
from core.wording import Words

HEADINGS: dict[Lead, str] = {
    "pins": "The changes as pinned",
    "tape": "Shared out by the tape: try on first",
    "both": "As pinned, and what is left over shared out: try on first",
}


def make_plan(
    file: FittingFile,
    garment_id: str | None = None,
    fitting_id: str | None = None,
    lead: Lead | None = None,
    *,
    unit: Unit | None = None,
    way: Sharing | None = None,
) -> Plan:
    """Return the whole plan: the last fitting of the last garment unless told.

    ``lead`` beats the fitting's own; without either the pins lead where there are any.
    ``way`` beats the one she chose at the fitting; without either it goes by turns.
    ``unit`` is what the words and sums are written in, the file's unless told.
    Raises ``NotFound`` for a garment or fitting that is not there.
    """
    garment = file.garment(garment_id)
    fitting = fitting_of(garment, fitting_id)
    chosen = lead_of(fitting, lead)
    way = way or way_in(written_fitting(file, garment, fitting))
    plans = plan_layers(file, garment, fitting, chosen, way)
    words = Words(unit or file.unit)
    totals = hand_totals(plans, words)
    body = body_at(file.sittings, fitting)
    follows = what_follows(plans, garment, fitting, body, words)
    cautions = _cautions(plans, garment, fitting, words)
    if plans:
        cautions = lost_caution(plans[0].work.hand.lost) + hand_cautions(totals) + cautions
    if fitting is None:
        cautions += _before_cutting(file, garment, words)
    warnings = tuple(dict.fromkeys(cautions))
    return Plan(
        garment=garment.id,
        fitting=None if fitting is None else fitting.id,
        lead=chosen,
        heading=_heading(fitting, chosen),
        levels=tuple(row for plan in plans for row in levels_of(plan, words)),
        moves=tuple(move for plan in plans for move in moves_of(plan)),
        options=tuple(option for plan in plans for option in options_of(plan, way)),
        steps=_steps(plans, garment, fitting, follows, warnings, words),
        follows=follows,
        warnings=warnings,
        hand_totals=totals,
        way=way,
    )


def _steps(
    plans: Sequence[LayerPlan],
    garment: Garment,
    fitting: Fitting | None,
    follows: Sequence[Consequence],
    warnings: Sequence[str],
    words: Words,
) -> tuple[Step, ...]:
    """Return the steps in sewing order; after a toile the draft's new widths instead."""
    if fitting is not None and fitting.stage == TOILE:
        return redraft_steps(plans, words)
    return steps_of(plans, garment, fitting, follows, warnings, words)


def lead_of(fitting: Fitting | None, lead: Lead | None = None) -> Lead:
    """Return who leads: as told, as the fitting says, or the pins where there are any."""
    if lead is not None:
        return lead
    if fitting is None:
        return "tape"
    return fitting.lead or ("pins" if fitting.pins else "tape")


def plan_layers(
    file: FittingFile,
    garment: Garment,
    fitting: Fitting | None,
    lead: Lead,
    way: Sharing = "by_turns",
) -> list[LayerPlan]:
    """Return the plan of each layer, the first leading."""
    plans: list[LayerPlan] = []
    body = body_at(file.sittings, fitting)
    hand = set_by_hand(file, garment, fitting)
    for layer in garment.layers:
        work = work_of(file, garment, layer, fitting, body, lead)
        if hand.moves or hand.lost:
            work = replace(work, hand=hand.in_layer(layer.id))
        plans.append(plan_other(work, plans[0]) if plans else plan_first(work, way))
        leave_inside_band(plans[-1])
    return plans


def work_of(
    file: FittingFile,
    garment: Garment,
    layer: Layer,
    fitting: Fitting | None,
    body: Body,
    lead: Lead,
) -> Work:
    """Return everything a layer's plan is made from."""
    rules = rules_of(garment, layer, on_paper=fitting is not None and fitting.stage == TOILE)
    rounds = rounds_of(garment, layer, fitting)
    wanted = tuple(
        {
            entry.level: entry
            for entry in compare(around, garment, file.client, rules.kind, fitting, body)
        }
        for around in rounds
    )
    pinned = pinned_in(garment, layer, fitting, rounds, _stretch(layer, wanted))
    names = {level.front_arc for level in garment.levels.values() if level.front_arc}
    arcs = {name: arc for name in names if (arc := body.of(name, None)[0]) is not None}
    return Work(garment, layer, fitting, rules, rounds, wanted, pinned, lead, arcs)


def room_of_pin(
    file: FittingFile, garment_id: str, fitting_id: str, pin_index: int
) -> tuple[float, float]:
    """Return how far a pin's place can be let out and taken in, each edge or leg, in mm.

    Both are never negative; taking in further is sewn as pinned, with a caution.  A pin on one
    side has that side's own room, one for both the smaller.  On paper no cloth limits a seam: it
    lets out what is usual, or as far as it is pinned.
    """
    garment = file.garment(garment_id)
    fitting = fitting_of(garment, fitting_id)
    if fitting is None or not 0 <= pin_index < len(fitting.pins):
        return 0.0, 0.0
    pin = on_the_garment(fitting.pins[pin_index], fitting)
    layer = garment.layer(pin.layer)
    if layer is None or pin.what == "piece":
        return 0.0, garment.settings.deepest / 2
    rules = rules_of(garment, layer, on_paper=fitting.stage == TOILE)
    rounds = rounds_of(garment, layer, fitting)
    rooms = [room for around in rounds for room in _rooms(garment, rules, around, pin)]
    if not rooms:
        return 0.0, 0.0
    out, most = (min(way) for way in zip(*rooms, strict=True))
    if rules.on_paper and pin.what == "seam":
        out = max(out, *(pin.edges or {}).values(), edge_move(pin))
    return out, most


def _rooms(
    garment: Garment, rules: Rules, around: Round, pin: Pin
) -> list[tuple[float, float]]:
    found, down = [], height_of(pin, garment)
    sides = {"left", "right", None} if pin.side == "both" else {pin.side, None}
    for edge in around.edges:
        if edge.seam.id == pin.place and edge.levels and edge.side in sides:
            level = min(edge.levels, key=lambda name: abs(garment.levels[name].down - down))
            found.append((rules.room_at(edge, down), rules.limit(edge, level, -1.0)))
    for dart in around.darts:
        if dart.dart.id == pin.place and dart.take_up and dart.side in sides:
            level = min(dart.take_up, key=lambda name: abs(garment.levels[name].down - down))
            found.append((rules.leg_limit(dart, level, 1.0), rules.leg_limit(dart, level, -1.0)))
    return found


def _stretch(layer: Layer, wanted: Sequence[Mapping[str, Wanted]]) -> list[dict[str, float]]:
    """Return as sewn / body by level, round by round, where stretch cloth is smaller."""
    if not layer.stretch:
        return []
    return [
        {
            level: entry.as_sewn / entry.body
            for level, entry in levels.items()
            if entry.body and entry.as_sewn < entry.body
        }
        for levels in wanted
    ]


def _heading(fitting: Fitting | None, lead: Lead) -> str:
    if fitting is not None and fitting.stage == TOILE:
        return "The draft for the real cloth"
    if fitting is None and lead == "tape":
        return "Compared as drafted, shared out by the tape"
    return HEADINGS[lead]


def _cautions(
    plans: Sequence[LayerPlan], garment: Garment, fitting: Fitting | None, words: Words
) -> list[str]:
    """Return what cannot be done or was not read first, then what the tape itself says."""
    said = between_cautions(plans, words) + cautions_of(plans, garment, fitting, words)
    for plan in plans:
        for number, around in enumerate(plan.work.rounds):
            wanted = list(plan.work.wanted[number].values())
            said += comparison_cautions(around, wanted, garment)
    judged = (
        [entry for levels in plans[0].work.wanted for entry in levels.values()] if plans else []
    )
    said += older_than_fitting(judged, garment, fitting)
    return said + loose_ends(garment)


def _before_cutting(file: FittingFile, garment: Garment, words: Words) -> list[str]:
    """Return what is wrong with a draft that was never fitted, before the cloth is cut."""
    body = body_at(file.sittings, None)
    values = {name: taken for name, (taken, _) in body.values.items()}
    checks = before_cutting(
        garment,
        values,
        unit=words.unit,
        kind=kind(garment.kind),
        client_ease=file.client.ease,
    )
    return [f"Before cutting: {check.what}: {check.text}." for check in checks if not check.ok]
