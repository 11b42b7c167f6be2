"""The steps of a list as they are ticked off: each is done, or waits for others before it.

What a step moves goes into the fitting's ``done``.  A step that moves nothing (marking, opening,
the hem) is noted in ``ticked``, a field of ours: ``[{"step": "mark: Mark", "on": "2026-03-22"}]``.
Unticking takes exactly that back.  The step that trims also writes what was ``trimmed`` into
``done`` (see ``trimming``), and after a toile a piece's new widths go there (see
``ticked_drafts``).  A note of trimming remembers how that was before.
"""

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any

from core.errors import WorkroomError
from core.lengths import Unit
from core.records.answer import Move, Plan, Step
from core.records.garment import Garment
from core.said.step_places import Place as StepPlace
from core.said.step_places import StepPlaces
from core.sewn.ticked_drafts import (
    Piece,
    cut_as,
    is_cut,
    is_moved,
    piece_of,
    take_back_piece,
    write_piece,
)
from core.sewn.ticked_girths import lay_aside, take_up
from core.sewn.ticking import (
    Place,
    done_in,
    is_at,
    moves_by_place,
    put_done,
    sewn_alike,
    sewn_as_planned,
)
from core.sewn.trimming import take_back_trimmed, write_trimmed

_NOT_WAITED_FOR = ("trim", "hang")
"""The hem waits for all but trimming, which is for another day; nothing else waits for these."""


class NotYet(WorkroomError):
    """A step that has to wait; says for what, and that nothing was ticked."""


@dataclass(frozen=True, slots=True)
class Tick:
    """How one step stands.

    ``key`` names it in the file; ``places`` are the seams and darts whose moves it sews.
    ``otherwise`` is true where its place was sewn with other amounts than are planned now.
    ``waits_for`` are the steps that have to be done before it; ``piece`` is the one that a step
    after a toile is about.
    """

    key: str
    places: tuple[Place, ...]
    done: bool
    otherwise: bool
    waits_for: tuple[Step, ...] = ()
    piece: Piece | None = None


def ticks_of(
    plan: Plan, found: StepPlaces, fitting: Mapping[str, Any], unit: Unit
) -> tuple[Tick, ...]:
    """Return how each step of a plan stands; ``fitting`` is the one in the document."""
    keys = _keys(plan, found)
    moved, taken = moves_by_place(plan), _places(plan, found)
    noted = {str(one.get("step")) for one in _noted(fitting)}
    first = plan_first_layer(found)
    ticks = []
    for step, key, places in zip(plan.steps, keys, taken, strict=True):
        if piece := piece_of(step, found.garment):
            stand = cut_as(piece, plan, fitting, first, unit)
            done = stand != "" if is_moved(piece, plan) else key in noted
            ticks.append(Tick(key, (), done, stand == "otherwise", piece=piece))
            continue
        if not places:
            ticks.append(Tick(key, (), key in noted, otherwise=False))
            continue
        stands = [_stands(place, moved[place], fitting, first, unit) for place in places]
        sewn = all(stand != "" for stand in stands)
        ticks.append(Tick(key, places, sewn, sewn and "otherwise" in stands))
    return tuple(
        replace(tick, waits_for=_waits(plan.steps, ticks, number))
        for number, tick in enumerate(ticks)
    )


def tick(fitting: dict[str, Any], step: Tick, plan: Plan, on: str, first_layer: str) -> None:
    """Write down that a step was done on a day; raises ``NotYet`` with nothing changed.

    A place that was sewn otherwise before is sewn as planned now.
    """
    if step.waits_for:
        titles = [with_side(other) for other in step.waits_for]
        raise NotYet(
            f"This waits for what comes before it: {', '.join(titles)}. Nothing was ticked"
        )
    if step.piece is not None and is_moved(step.piece, plan):
        write_piece(fitting, step.piece, plan, on, first_layer)
        return
    if not step.places:
        note = {"step": step.key, "on": on}
        if _trims(step.key):
            write_trimmed(fitting, note, first_layer)
        elif _checks(step.key):
            take_up(fitting)
        fitting["ticked"] = [*_without(fitting, step.key), note]
        return
    entries = sewn_as_planned(plan, on, step.places)
    put_done(fitting, [*_elsewhere(fitting, step, first_layer), *entries])
    for note in _noted(fitting):  # what is trimmed stays so when the seam is sewn anew
        if _trims(str(note.get("step"))):
            write_trimmed(fitting, note, first_layer)


def untick(fitting: dict[str, Any], step: Tick, first_layer: str) -> None:
    """Take back that a step was done: exactly what ticking it wrote down."""
    if step.piece is not None:
        take_back_piece(fitting, step.piece, first_layer)
    if step.places:
        put_done(fitting, _elsewhere(fitting, step, first_layer))
        return
    for note in _noted(fitting):
        if note.get("step") == step.key:
            take_back_trimmed(fitting, note, first_layer)
    if _checks(step.key):
        lay_aside(fitting)
    rest = _without(fitting, step.key)
    if rest:
        fitting["ticked"] = rest
    else:
        fitting.pop("ticked", None)


def off_the_list(
    ticks: Sequence[Tick], fitting: Mapping[str, Any], garment: Garment
) -> tuple[str, ...]:
    """Return what was ticked off at a fitting and has no step any more: ``side seam, her left``.

    It still counts as sewn.
    """
    first = garment.layers[0].id if garment.layers else ""
    places = [place for tick in ticks for place in tick.places]
    pieces = [tick.piece for tick in ticks if tick.piece is not None]
    return tuple(
        _called(entry, garment)
        for entry in done_in(fitting)
        if entry.get("moves") and not any(is_at(entry, place, first) for place in places)
        and not any(is_cut(entry, piece, first) for piece in pieces)
    )


def _called(entry: Mapping[str, Any], garment: Garment) -> str:
    what = "seam" if entry.get("seam") else "dart"
    name, layer = (str(entry.get(one) or "") for one in (what, "layer"))
    side = entry.get("side")
    whose = f", her {side}" if side in ("left", "right") else ""
    return f"{garment.label_of(what, name, layer).lower()}{whose}"


def plan_first_layer(found: StepPlaces) -> str:
    """Return the layer that an entry without one is in."""
    return found.garment.layers[0].id if found.garment.layers else ""


def with_side(step: Step) -> str:
    """Return what a step is called, and whose side it is: ``Side seam, her left``."""
    return f"{step.title}, her {step.side}" if step.side else step.title


def _places(plan: Plan, found: StepPlaces) -> list[tuple[Place, ...]]:
    """Return what each step sews; each place belongs to the first step about it that names it."""
    moved = {place: moves for place, moves in moves_by_place(plan).items()
             if any(move.move for move in moves)}  # fmt: skip
    rank = {"seam": 0, "dart": 0, "between": 1}
    steps = [(number, step, found.of(step)) for number, step in enumerate(plan.steps)]
    about = [(number, step, place) for number, step, place in steps
             if place is not None and place.what in rank]  # fmt: skip
    taken: dict[int, list[Place]] = {}
    free = dict(moved)
    for number, step, place in sorted(about, key=lambda one: rank[one[2].what]):
        for at in [at for at in free if _is_about(step, place, at)]:
            taken.setdefault(number, []).append(at)
            del free[at]
    return [tuple(taken.get(number, ())) for number in range(len(plan.steps))]


def _is_about(step: Step, place: StepPlace, at: Place) -> bool:
    layer, what, name, side = at
    of = "dart" if place.what == "dart" else "seam"
    alike = (place.plan.work.layer.id, of, place.name) == (layer, what, name)
    return alike and (step.side is None or side == step.side)


def _stands(
    place: Place, moves: Sequence[Move], fitting: Mapping[str, Any], first: str, unit: Unit
) -> str:
    entries = [entry for entry in done_in(fitting) if is_at(entry, place, first)]
    if not entries:
        return ""
    alike = len(entries) == 1 and sewn_alike(entries[0], moves, unit)
    return "as planned" if alike else "otherwise"


def _waits(steps: Sequence[Step], ticks: Sequence[Tick], number: int) -> tuple[Step, ...]:
    group = steps[number].group
    if group not in ("trim", "hem"):
        return ()
    passed = _NOT_WAITED_FOR if group == "trim" else _NOT_WAITED_FOR[:1]
    return tuple(
        step
        for step, tick in zip(steps[:number], ticks[:number], strict=True)
        if not tick.done and step.group not in passed
    )


def _keys(plan: Plan, found: StepPlaces) -> list[str]:
    """Return a name for each step that stays the same when the plan is made again."""
    seen: Counter[str] = Counter()
    keys = []
    for step in plan.steps:
        place = found.of(step)
        about = f", {place.what} {place.name}" if place is not None else ""
        key = f"{step.group}: {with_side(step)}{about}"
        seen[key] += 1
        keys.append(key if seen[key] == 1 else f"{key}, {seen[key]}")
    return keys


def _trims(key: str) -> bool:
    return key.startswith("trim: ")


def _checks(key: str) -> bool:
    return key.startswith("baste and check: ")


def _noted(fitting: Mapping[str, Any]) -> list[dict[str, Any]]:
    noted = fitting.get("ticked")
    return [one for one in noted if isinstance(one, dict)] if isinstance(noted, list) else []


def _without(fitting: Mapping[str, Any], key: str) -> list[dict[str, Any]]:
    return [one for one in _noted(fitting) if one.get("step") != key]


def _elsewhere(fitting: Mapping[str, Any], step: Tick, first: str) -> list[dict[str, Any]]:
    """Return what was sewn elsewhere; of an entry for both sides the side that is."""
    rest = []
    for entry in done_in(fitting):
        taken = {place[3] for place in step.places if is_at(entry, place, first)}
        if not taken:
            rest.append(entry)
        elif (entry.get("side") or "both") == "both" and taken in ({"left"}, {"right"}):
            rest.append({**entry, "side": "right" if "left" in taken else "left"})
    return rest
