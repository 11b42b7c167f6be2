"""Ticking a plan off: the moves as sewn, in the fitting file's own shape."""

from collections.abc import Collection, Iterable, Mapping, Sequence
from typing import Any

from core.lengths import SMALLEST_MM, Unit, mm_written
from core.records.answer import Move, Plan, Side

Place = tuple[str, str, str, Side | None]
"""A layer, ``seam`` or ``dart``, its id, and the side."""

Entry = dict[str, Any]
"""One entry of a fitting's ``done``."""


def sewn_as_planned(plan: Plan, on: str, places: Collection[Place] | None = None) -> list[Entry]:
    """Return the ``done`` entries for what a plan moves, sewn on a day (ISO date).

    Of every place, or of some.  Lengths are written in millimetres with their unit.  A fold
    pinned on a piece has no entry: it becomes a dart of the draft.
    """
    moves = moves_by_place(plan)
    return [_entry(place, moves[place], on) for place in moves
            if any(move.move for move in moves[place])
            and (places is None or place in places)]  # fmt: skip


def moves_by_place(plan: Plan) -> dict[Place, list[Move]]:
    """Return the moves of a plan by the seam or dart they are of, in the order of the plan."""
    found: dict[Place, list[Move]] = {}
    for move in plan.moves:
        if move.seam is not None:
            found.setdefault((move.layer, "seam", move.seam, move.side), []).append(move)
        elif move.dart is not None:
            found.setdefault((move.layer, "dart", move.dart, move.side), []).append(move)
    return found


def is_at(entry: Mapping[str, Any], place: Place, first_layer: str) -> bool:
    """Tell whether an entry of ``done`` is about a place; one for both sides is about each."""
    layer, what, name, side = place
    sides = {side or "both", "both"}
    return (
        (entry.get("layer") or first_layer) == layer
        and entry.get(what) == name
        and (entry.get("side") or "both") in sides
    )


def sewn_alike(entry: Mapping[str, Any], moves: Sequence[Move], unit: Unit) -> bool:
    """Tell whether an entry holds the moves that are planned at its place now."""
    planned = {(move.edge, move.level): move.move for move in moves if move.move}
    held = {(str(one.get("edge")), str(one.get("level"))): mm_written(one.get("move"), unit) or 0.0
            for one in _objects(entry.get("moves"))}  # fmt: skip
    held = {at: move for at, move in held.items() if abs(move) > SMALLEST_MM}
    return held.keys() == {at for at, move in planned.items() if abs(move) > SMALLEST_MM} and all(
        abs(held[at] - planned[at]) <= SMALLEST_MM for at in held
    )


def done_in(fitting: Mapping[str, Any]) -> list[Entry]:
    """Return the entries of a fitting's ``done``."""
    return _objects(fitting.get("done"))


def put_done(fitting: dict[str, Any], entries: Iterable[Entry]) -> None:
    """Write the entries of ``done``; without any there is no such field."""
    held = list(entries)
    if held:
        fitting["done"] = held
    else:
        fitting.pop("done", None)


def _objects(value: object) -> list[Entry]:
    return [one for one in value if isinstance(one, dict)] if isinstance(value, list) else []


def _entry(place: Place, moves: Sequence[Move], on: str) -> Entry:
    layer, what, name, side = place
    return {
        "on": on,
        "layer": layer,
        what: name,
        "side": side or "both",
        "moves": [
            {"edge": move.edge, "level": move.level, "move": f"{move.move:.6f} mm"}
            for move in moves
            if move.move
        ],
    }
