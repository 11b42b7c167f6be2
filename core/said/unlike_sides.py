"""Her left and her right pinned differently, told: nothing is averaged unless she asks for it."""

from collections.abc import Mapping
from typing import NamedTuple

from core.changes.even_sides import uneven_sides
from core.changes.layer_plan import LayerPlan
from core.records.answer import Side
from core.records.fitting import Pin
from core.wording import Words

_Moves = dict[str, dict[Side, float]]
"""How far an edge (by its piece) or a leg was pinned to move on each side, in mm."""


class _Place(NamedTuple):
    """A seam or dart at a level, and what it is called."""

    what: str
    name: str
    level: str
    label: str


def unlike_sides(plan: LayerPlan, words: Words) -> list[str]:
    """Return a sentence for each level of a seam or dart whose two sides were pinned unlike.

    Where the edges of a seam are given apart, one for each edge that differs.
    """
    found = {place: said for place, moves in (*_seams(plan).items(), *_darts(plan).items())
             if (said := _unlike(place, moves, words))}  # fmt: skip
    can_be = _evened(plan, words) if found else frozenset()
    return [f"{one}; {_rest(plan, place, can_be)}." for place, said in found.items()
            for one in said]  # fmt: skip


def _seams(plan: LayerPlan) -> dict[_Place, _Moves]:
    """Return what each seam with two sides was pinned to, or is between its pins."""
    found: dict[_Place, _Moves] = {}
    work = plan.work
    for around in work.rounds if work.pinned.lines else ():
        for edge in around.edges:
            for level in edge.levels if edge.side is not None else ():
                move = work.pinned.edge(edge, work.down(level))
                if edge.side is not None and move is not None:
                    place = _place(plan, "seam", edge.seam.id, level, edge.seam.label)
                    piece = around.ring.piece(edge.piece).label.lower()
                    found.setdefault(place, {}).setdefault(piece, {})[edge.side] = move
    return found


def _darts(plan: LayerPlan) -> dict[_Place, _Moves]:
    """Return what the legs of each dart were pinned to."""
    found: dict[_Place, _Moves] = {}
    for around in plan.work.rounds:
        for dart in around.darts:
            legs = plan.work.pinned.legs.get((dart.dart.id, dart.side), {})
            for level, move in legs.items():
                if dart.side is not None:
                    place = _place(plan, "dart", dart.dart.id, level, dart.dart.label)
                    found.setdefault(place, {}).setdefault("", {})[dart.side] = move
    return found


def _place(plan: LayerPlan, what: str, name: str, level: str, label: str) -> _Place:
    return _Place(what, name, level, f"{label}, {plan.work.garment.levels[level].label.lower()}")


def _unlike(place: _Place, moves: Mapping[str, Mapping[Side, float]], words: Words) -> list[str]:
    """Return what differs, said once where the edges of either side move alike."""
    pairs = {piece: (sides["left"], sides["right"]) for piece, sides in moves.items()
             if len(sides) == 2}  # fmt: skip
    unlike = {piece: pair for piece, pair in pairs.items() if words.shows(pair[0] - pair[1])}
    if not unlike:
        return []
    first = next(iter(pairs.values()))
    if not any(words.shows(one - other) for pair in pairs.values()
               for one, other in zip(pair, first, strict=True)):  # fmt: skip
        each = "a leg" if place.what == "dart" else "an edge"
        return [f"{_sides(place.label, first, words)} {each}"]
    return [_sides(f"{place.label}, {piece}", pair, words) for piece, pair in unlike.items()]


def _sides(where: str, pair: tuple[float, float], words: Words) -> str:
    left, right = (words.way(mm) for mm in pair)
    return f"{where}: as pinned, her left {left} and her right {right}"


def _rest(plan: LayerPlan, place: _Place, can_be: frozenset[tuple[str, str, str]]) -> str:
    if plan.work.lead == "tape":
        return "the tape moves both sides alike, so try on first"
    here = (place.what, place.name, place.level)
    own = any(here == _where(pin) for pin in _pins(plan))
    offered = here in can_be if own else any(one[:2] == here[:2] for one in can_be)
    return f"they stay different{' unless you even them' if offered else ''}"


def _evened(plan: LayerPlan, words: Words) -> frozenset[tuple[str, str, str]]:
    """Return where two pins of this layer can be evened: what, its id, the level."""
    fitting = plan.work.fitting
    if fitting is None:
        return frozenset()
    pins = _pins(plan)
    evened = uneven_sides(plan.work.garment, fitting, words.unit)
    return frozenset(_where(fitting.pins[one.left]) for one in evened
                     if fitting.pins[one.left] in pins)  # fmt: skip


def _pins(plan: LayerPlan) -> list[Pin]:
    """Return the pins as they were logged that go through the layer."""
    fitting, layer = plan.work.fitting, plan.work.layer.id
    return [] if fitting is None else [
        pin for pin in fitting.pins if pin.layer == layer or pin.through]  # fmt: skip


def _where(pin: Pin) -> tuple[str, str, str]:
    return pin.what, pin.place, pin.level
