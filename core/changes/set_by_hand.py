"""What she set by hand on a list: it stands whatever the pins and the tape say.

Kept in the fitting as optional fields of ours: ``set_by_hand``, a list of ``{"layer", "seam" or
"dart", "side", "edge", "level", "move"}``, and ``shared_again`` (true where what is left is shared
again).  Without ``layer`` it is the first, without ``side`` both, without ``edge`` each edge.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any, Literal

from core.errors import BadLength, NotFound
from core.file.fitting_file import FittingFile
from core.fit.written import At
from core.lengths import Unit, read_length, write_length
from core.records.answer import Side
from core.records.fitting import Fitting, LoggedSide
from core.records.garment import Garment, Layer
from core.sewn.rounds import DartSide, Edge

What = Literal["seam", "dart"]
_EXACT_MM = 1e-4


@dataclass(frozen=True, slots=True)
class SetMove:
    """One amount set by hand, in mm an edge or leg (negative takes in); no ``edge``: each."""

    layer: str
    what: What
    place: str
    side: LoggedSide
    edge: str
    level: str
    move: float

    @property
    def at(self) -> tuple[str, What, str, LoggedSide, str, str]:
        return self.layer, self.what, self.place, self.side, self.edge, self.level


@dataclass(frozen=True, slots=True)
class SetByHand:
    """Everything set by hand at a fitting; ``lost`` are entries that name nothing in the draft."""

    moves: tuple[SetMove, ...] = ()
    shared_again: bool = False
    lost: int = 0

    def in_layer(self, layer: str) -> "SetByHand":
        """Return what was set in one layer."""
        if not self.moves:
            return self
        return replace(self, moves=tuple(one for one in self.moves if one.layer == layer))

    def of_edge(self, edge: Edge, level: str) -> float | None:
        """Return how far an edge was set to move at a level; ``None`` where it was not set."""
        return self._narrowest("seam", edge.seam.id, edge.side, edge.piece, level)

    def of_leg(self, dart: DartSide, level: str) -> float | None:
        """Return how far a dart's legs were set to move at a level."""
        return self._narrowest("dart", dart.dart.id, dart.side, "", level)

    def _narrowest(
        self, what: What, place: str, side: Side | None, edge: str, level: str
    ) -> float | None:
        """Return what was set for this side and edge alone before what was set for more."""
        found, best = None, (-1, -1)
        for one in self.moves:
            here = (one.what, one.place, one.level) == (what, place, level)
            if here and one.edge in ("", edge) and (side is None or one.side in (side, "both")):
                rank = int(one.side != "both"), int(one.edge != "")
                if rank >= best:
                    found, best = one.move, rank
        return found


NOTHING_SET = SetByHand()


def written_fitting(
    file: FittingFile, garment: Garment, fitting: Fitting | None
) -> Mapping[str, Any]:
    """Return a fitting as it stands in the document, with what only we write there."""
    if fitting is None:
        return {}
    try:
        return At(garment.id, fitting.id).fitting_in(file.data)
    except NotFound:
        return {}


def set_by_hand(file: FittingFile, garment: Garment, fitting: Fitting | None) -> SetByHand:
    """Return what was set by hand at a fitting; what names nothing in the draft is not counted."""
    written = written_fitting(file, garment, fitting)
    entries = written.get("set_by_hand")
    if not isinstance(entries, list) or not entries:
        return NOTHING_SET
    read = [_read(entry, garment, file.unit) for entry in entries]
    moves = tuple(one for one in read if one is not None)
    return SetByHand(moves, written.get("shared_again") is True, len(read) - len(moves))


def put_amount(fitting: dict[str, Any], amounts: Iterable[SetMove], unit: Unit) -> None:
    """Write amounts down; one for both sides or each edge takes the place of those within it."""
    entries = fitting.get("set_by_hand")
    held = list(entries) if isinstance(entries, list) else []
    for amount in amounts:
        held = [entry for entry in held if not _within(entry, amount)]
        held.append(_entry(amount, unit))
    fitting["set_by_hand"] = held


def take_back(fitting: dict[str, Any], amounts: Sequence[SetMove]) -> None:
    """Let these places move as planned again; with the last of them the fields go too.

    Where nothing was set for a side or edge alone, what was set for both goes.
    """
    entries = fitting.get("set_by_hand")
    held = list(entries) if isinstance(entries, list) else []
    for one in amounts:
        rest = [entry for entry in held if not _within(entry, one)]
        held = rest if len(rest) < len(held) else [
            entry for entry in held if not _over(entry, one)]  # fmt: skip
    if held:
        fitting["set_by_hand"] = held
        return
    fitting.pop("set_by_hand", None)
    fitting.pop("shared_again", None)


def share_again(fitting: dict[str, Any], again: bool) -> None:
    """Have what is left shared again over what she did not set, or leave it as it is."""
    if again:
        fitting["shared_again"] = True
    else:
        fitting.pop("shared_again", None)


def _read(entry: object, garment: Garment, unit: Unit) -> SetMove | None:
    if not isinstance(entry, dict) or not garment.layers:
        return None
    what: What = "dart" if entry.get("dart") else "seam"
    layer = garment.layer(str(entry.get("layer") or garment.layers[0].id))
    place, level, edge = (str(entry.get(name) or "") for name in (what, "level", "edge"))
    side = entry.get("side") or "both"
    try:
        move = read_length(entry.get("move"), unit).mm
    except BadLength:
        return None
    if layer is None or side not in ("left", "right", "both"):
        return None
    if not _is_there(layer, what, place, edge, level):
        return None
    both: LoggedSide = "left" if side == "left" else "right" if side == "right" else "both"
    return SetMove(layer.id, what, place, both, edge, level, move)


def _is_there(layer: Layer, what: What, place: str, edge: str, level: str) -> bool:
    for ring in layer.rings:
        for seam in ring.seams if what == "seam" else ():
            if seam.id == place and level in ring.levels_of(seam) and edge in ("", *seam.joins):
                return True
        for piece in ring.pieces if what == "dart" else ():
            if level in piece.width and any(dart.id == place for dart in piece.darts):
                return True
    return False


def _within(entry: object, amount: SetMove) -> bool:
    """Tell whether an entry is of this place, on this side and edge or on one within it."""
    if not isinstance(entry, dict):
        return False
    layer = entry.get("layer") or amount.layer
    side, edge = entry.get("side") or "both", entry.get("edge") or ""
    here = (layer, entry.get(amount.what), entry.get("level"))
    return (
        here == (amount.layer, amount.place, amount.level)
        and amount.side in (side, "both")
        and amount.edge in (edge, "")
    )


def _over(entry: object, amount: SetMove) -> bool:
    """Tell whether an entry is of more than this side or edge, at the same place."""
    if not isinstance(entry, dict):
        return False
    here = (entry.get("layer") or amount.layer, entry.get(amount.what), entry.get("level"))
    return (
        here == (amount.layer, amount.place, amount.level)
        and (entry.get("side") or "both") in (amount.side, "both")
        and (entry.get("edge") or "") in (amount.edge, "")
    )


def _entry(amount: SetMove, unit: Unit) -> dict[str, Any]:
    layer, what, place, side, edge, level = amount.at
    edges = {"edge": edge} if edge else {}
    return {"layer": layer, what: place, "side": side, **edges, "level": level,
            "move": _written(amount.move, unit)}  # fmt: skip


def _written(mm: float, unit: Unit) -> str:
    """Return a length with its unit: hers where that is exact, else millimetres."""
    text = f"{write_length(mm, unit, fine=True)} {unit}"
    return text if abs(read_length(text, unit).mm - mm) < _EXACT_MM else f"{mm:.5f} mm"
