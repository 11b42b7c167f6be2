"""The amounts of a step that she can set by hand: a row for each level its seam is at."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from math import ceil, floor

from core.changes.set_by_hand import SetByHand, SetMove
from core.records.answer import Move, Plan
from core.records.fitting import LoggedSide
from core.records.garment import Garment
from core.said.step_places import Place, StepPlaces, dart_of
from core.wording import Words, direction, whose

_NEARLY = 1e-6


@dataclass(frozen=True, slots=True)
class AmountToSet:
    """One amount: where it is and how far it goes (``at``), and how it is told.

    ``way`` is its direction, empty where it stands still; ``note`` says what was planned where she
    set it, ``is_set`` that she did.
    """

    at: SetMove
    label: str
    text: str
    way: str
    note: str = ""
    is_set: bool = False

    def stepped(self, steps: int, step_mm: float) -> SetMove:
        """Return it moved by whole steps, positive further out; it lands on a whole step."""
        share = self.at.move / step_mm
        whole = floor(share + _NEARLY) if steps > 0 else ceil(share - _NEARLY)
        return replace(self.at, move=(whole + steps) * step_mm)


@dataclass(frozen=True, slots=True)
class AmountSet:
    """One amount she set, in words, and where it is."""

    at: SetMove
    text: str


def amounts_to_set(
    plan: Plan, found: StepPlaces, words: Words
) -> tuple[tuple[AmountToSet, ...], ...]:
    """Return for each step of a plan the amounts that can be set; none for what moves no seam."""
    return tuple(
        () if place is None else tuple(_amounts(place, plan, found.garment, words))
        for place in found.places
    )


def amounts_set(
    plan: Plan, hand: SetByHand, garment: Garment, words: Words
) -> tuple[AmountSet, ...]:
    """Return what she set at a fitting: ``Side seam, waist: in 3/8 an edge, planned in 1/2``."""
    return tuple(AmountSet(one, _told(one, plan, garment, words)) for one in hand.moves)


def _amounts(place: Place, plan: Plan, garment: Garment, words: Words) -> Iterator[AmountToSet]:
    layer = place.plan.work.layer.id
    side: LoggedSide = "both" if place.both or place.side is None else place.side
    if place.what == "dart":
        dart, _, _ = dart_of(place)
        own = [move for move in plan.moves if (move.layer, move.dart) == (layer, place.name)]
        here = next((move.level for move in own if move.by_hand), dart.widest)
        at = SetMove(layer, "dart", place.name, side, "", here, 0.0)
        yield _amount(at, own, "each leg", garment, words)
    if place.what != "seam":
        return
    own = [move for move in plan.moves if (move.layer, move.seam) == (layer, place.name)]
    labels = dict(zip(place.seam[1].joins, place.edges, strict=False))
    edges = {"": ""} if place.alike else labels
    for level in _levels(place):
        for edge, label in edges.items():
            at = SetMove(layer, "seam", place.name, side, edge, level, 0.0)
            yield _amount(at, own, label, garment, words)


def _levels(place: Place) -> list[str]:
    """Return every level that a seam is at, from top to bottom."""
    rings = place.plan.work.layer.rings
    found = {level for ring in rings for seam in ring.seams if seam.id == place.name
             for level in ring.levels_of(seam)}  # fmt: skip
    return sorted(found, key=place.plan.work.down)


def _amount(
    at: SetMove, moves: Sequence[Move], edge: str, garment: Garment, words: Words
) -> AmountToSet:
    move = next((move for move in moves if _covers(at, move)), None)
    mm = 0.0 if move is None else move.exact if move.by_hand else move.move
    label = ", ".join(filter(None, [garment.level_called(at.level), edge.lower()]))
    is_set = move is not None and move.by_hand
    return AmountToSet(
        replace(at, move=mm), label, words.length(mm) if words.shows(mm) else "0",
        direction(mm) if words.shows(mm) else "", _note(move, words), is_set,
    )  # fmt: skip


def _covers(at: SetMove, move: Move) -> bool:
    return (
        move.level == at.level
        and (at.side == "both" or move.side in (None, at.side))
        and at.edge in ("", move.edge)
    )


def _note(move: Move | None, words: Words) -> str:
    if move is None or not move.by_hand:
        return ""
    note = f"set by hand, planned: {words.way(move.planned or 0.0)}"
    if words.shows(move.exact - move.move):
        note += f"; the cloth gives {words.length(move.move)}"
    return note


def _told(one: SetMove, plan: Plan, garment: Garment, words: Words) -> str:
    layer = garment.layer(one.layer)
    where = [
        layer.label if layer and layer is not garment.layers[0] else "",
        garment.label_of(one.what, one.place, one.layer),
        whose(one.side) if one.side != "both" else "",
        garment.label_of("piece", one.edge, one.layer).lower(),
        garment.level_called(one.level).lower(),
    ]
    moves = [move for move in plan.moves if move.layer == one.layer and _covers(one, move)
             and (move.seam if one.what == "seam" else move.dart) == one.place]  # fmt: skip
    planned = {words.way(move.planned or 0.0) for move in moves}
    rest = f", planned: {planned.pop()}" if len(planned) == 1 else ""
    each = "an edge" if one.what == "seam" else "a leg"
    return f"{', '.join(filter(None, where))}: {words.way(one.move)} {each}{rest}"
