"""After a toile: a piece's new widths ticked off, so that the next fitting begins with them.

Nothing was unpicked: the real cloth is cut to the new lines with the allowances of the draft.  So
each edge of the piece goes into ``done`` with its moves, and as ``trimmed`` what was inside before:
what is let out on paper uses up no allowance.  The draft itself stays as it was.
"""

from collections.abc import Iterator, Mapping
from typing import Any

from core.lengths import SMALLEST_MM, Unit, mm_written
from core.records.answer import Move, Plan, Side, Step
from core.records.garment import Garment
from core.sewn.ticking import Entry, done_in, put_done

Piece = tuple[str, str, Side | None]
"""A layer, a piece of it, and whose side; ``None``: both."""

_Spot = tuple[str, str, Side | None, str]
"""``seam`` or ``dart``, its id, the side and the level."""


def piece_of(step: Step, garment: Garment) -> Piece | None:
    """Return the piece whose new widths a step tells; none for another step."""
    layer = garment.layer(step.layer)
    if step.group != "draft" or layer is None:
        return None
    for ring in layer.rings:
        for piece in ring.pieces:
            if step.title == f"{layer.label}, {piece.label.lower()}":
                return layer.id, piece.id, step.side
    return None


def is_moved(piece: Piece, plan: Plan) -> bool:
    """Tell whether anything of a piece goes into ``done``: else its tick is a note alone."""
    return bool(_sewn(piece, plan))


def has_new_dart(piece: Piece, plan: Plan) -> bool:
    """Tell whether a fold was pinned on the piece: as a new dart it cannot be in ``done``."""
    return any(move.seam is None and move.dart is None for move in _of(piece, plan))


def cut_as(piece: Piece, plan: Plan, fitting: Mapping[str, Any], first: str, unit: Unit) -> str:
    """Return ``as planned``, ``otherwise``, or nothing where the piece was not ticked."""
    held = {spot: mm for spot, mm in _held(piece, fitting, first, unit) if abs(mm) > SMALLEST_MM}
    if not held:
        return ""
    planned: dict[_Spot, float] = {
        ("seam" if move.seam else "dart", move.seam or move.dart or "", move.side, move.level):
            move.move
        for move in _sewn(piece, plan)
    }  # fmt: skip
    alike = held.keys() == planned.keys() and all(
        abs(held[spot] - planned[spot]) <= SMALLEST_MM for spot in held
    )
    return "as planned" if alike else "otherwise"


def write_piece(
    fitting: dict[str, Any], piece: Piece, plan: Plan, on: str, first: str
) -> None:
    """Write a piece's moves down as cut on a day, in the place of what was ticked there."""
    take_back_piece(fitting, piece, first)
    entries: dict[tuple[str, str, Side | None, str], Entry] = {}
    for move in _sewn(piece, plan):
        inside = _inside_before(move)
        what, name = ("seam", move.seam or "") if move.seam else ("dart", move.dart or "")
        entry = entries.setdefault(
            (what, name, move.side, inside),
            {"on": on, "layer": move.layer, what: name, "side": move.side or "both", "moves": [],
             **({"trimmed": {move.edge: inside}} if inside else {})},
        )  # fmt: skip
        entry["moves"].append(
            {"edge": move.edge, "level": move.level, "move": f"{move.move:.6f} mm"}
        )
    put_done(fitting, [*done_in(fitting), *entries.values()])


def take_back_piece(fitting: dict[str, Any], piece: Piece, first: str) -> None:
    """Take a piece's moves out again; what was cut of other pieces stays."""
    rest = []
    for entry in done_in(fitting):
        moves = entry.get("moves") or []
        if not _is_of(entry, piece, first):
            rest.append(entry)
        elif kept := [move for move in moves if move.get("edge") != piece[1]]:
            rest.append({**entry, "moves": kept})
    put_done(fitting, rest)


def is_cut(entry: Mapping[str, Any], piece: Piece, first: str) -> bool:
    """Tell whether an entry of ``done`` holds an edge of a piece."""
    edges = {move.get("edge") for move in entry.get("moves") or [] if isinstance(move, dict)}
    return _is_of(entry, piece, first) and piece[1] in edges


def _of(piece: Piece, plan: Plan) -> list[Move]:
    layer, name, side = piece
    return [move for move in plan.moves if (move.layer, move.edge) == (layer, name)
            and move.side in _sides(side)]  # fmt: skip


def _sides(side: Side | None) -> tuple[Side | None, ...]:
    """Return the sides that a step is about; a centre seam's edge goes with her left."""
    return {None: (None, "left", "right"), "left": (None, "left"), "right": ("right",)}[side]


def _sewn(piece: Piece, plan: Plan) -> list[Move]:
    """Return the moves of a piece's seams and darts; a new dart is not among them."""
    return [move for move in _of(piece, plan) if move.move and (move.seam or move.dart)]


def _is_of(entry: Mapping[str, Any], piece: Piece, first: str) -> bool:
    layer, _, side = piece
    held = entry.get("side")
    own: Side | None = "left" if held == "left" else "right" if held == "right" else None
    return (entry.get("layer") or first) == layer and own in _sides(side)


def _held(
    piece: Piece, fitting: Mapping[str, Any], first: str, unit: Unit
) -> Iterator[tuple[_Spot, float]]:
    for entry in done_in(fitting):
        if _is_of(entry, piece, first):
            what = "seam" if entry.get("seam") else "dart"
            side: Side | None = entry["side"] if entry.get("side") in ("left", "right") else None
            for move in entry.get("moves") or []:
                if move.get("edge") == piece[1]:
                    spot = (what, str(entry.get(what)), side, str(move.get("level")))
                    yield spot, mm_written(move.get("move"), unit) or 0.0


def _inside_before(move: Move) -> str:
    """Return the allowance of an edge before its move, as it is written; none for a dart."""
    if move.allowance_left is None:
        return ""
    return f"{move.allowance_left + move.move:.6f} mm"
