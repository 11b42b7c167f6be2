"""Ticking a plan off: the moves as sewn, in the fitting file's own shape."""

from collections.abc import Sequence
from typing import Any

from core.records.answer import Move, Plan, Side

Place = tuple[str, str, str, Side | None]
"""A layer, ``seam`` or ``dart``, its id, and the side."""


def sewn_as_planned(plan: Plan, on: str) -> list[dict[str, Any]]:
    """Return the ``done`` entries for everything a plan moves, sewn on a day (ISO date).

    Lengths are written in millimetres with their unit.  A fold pinned on a piece has no
    entry: it becomes a dart of the draft.
    """
    places: dict[Place, list[Move]] = {}
    for move in plan.moves:
        if move.seam is not None:
            places.setdefault((move.layer, "seam", move.seam, move.side), []).append(move)
        elif move.dart is not None:
            places.setdefault((move.layer, "dart", move.dart, move.side), []).append(move)
    return [_entry(place, moves, on) for place, moves in places.items()]


def _entry(place: Place, moves: Sequence[Move], on: str) -> dict[str, Any]:
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
