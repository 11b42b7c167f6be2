"""A pin read off: how deep it is, how wide a gap, or each edge by itself; typed or stepped.

A pinch of depth d takes 2d off the round a side, a gap of width g adds g (``core.share.pinned``
counts it); on a dart a pinch is pinched deeper and a gap is released.  Kept as it was typed.
"""

from math import ceil, floor
from typing import Literal

from core.draft.printed_sum import write_exactly
from core.errors import WorkroomError
from core.fit.written import CannotLog, Part, change, entry_at, length_typed
from core.lengths import SMALLEST_MM, Unit, read_length
from core.records.fitting import Pin
from core.records.garment import Garment
from core.share.pinned import edge_move

Kind = Literal["pinch", "gap", "edges"]
KINDS: tuple[Kind, ...] = ("pinch", "gap", "edges")
_NEARLY = 1e-6
_NO_LESS = "There is nothing pinned here any more, so it cannot be less"


class NothingLess(WorkroomError):
    """A pin that holds nothing cannot hold less."""


def kind_of(pin: Pin) -> Kind | None:
    """Return how a pin was read; nothing where it is not read yet."""
    return next((kind for kind in KINDS if getattr(pin, kind) is not None), None)


def set_amount(
    fitting: Part, garment: Garment, unit: Unit, index: int, typed: str,
    kind: Literal["pinch", "gap"] = "pinch",
) -> None:  # fmt: skip
    """Write down a pin's depth or gap as typed; empty: it is not read any more.

    Raises ``BadLength``, ``CannotLog`` below nothing or where the place has no gap.
    """
    text = length_typed(typed, unit) if typed.strip() else ""

    def edit(after: Part) -> None:
        pin = _unread(entry_at(after, "pins", index, "pin"))
        if text:
            pin[kind] = text

    change(fitting, garment, unit, edit)


def set_edge(
    fitting: Part, garment: Garment, unit: Unit, index: int, piece: str, typed: str,
    kind: Literal["pinch", "gap"] = "pinch",
) -> None:  # fmt: skip
    """Write down how far one edge of a pinned seam is taken in (``pinch``) or let out (``gap``).

    The other edge keeps what it had.  The file writes taken in with a minus.  Raises as
    ``set_amount``, and ``CannotLog`` where the seam does not join the piece.
    """
    text = length_typed(typed or "0", unit)
    signed = f"-{text}" if kind == "pinch" and read_length(text, unit).mm else text

    def edit(after: Part) -> None:
        pin = entry_at(after, "pins", index, "pin")
        edges = dict(pin.get("edges") or {})
        _unread(pin)
        pin["edges"] = {**edges, piece: signed}

    change(fitting, garment, unit, edit)


def give_edges_apart(
    fitting: Part, garment: Garment, unit: Unit, index: int, pin: Pin, pieces: tuple[str, str]
) -> None:
    """Give the two edges of a pinned seam apart, beginning alike; given apart: as one again.

    As one it is a pinch or a gap of the same effect on the round: the edges' mean.
    """
    move = edge_move(pin)

    def edit(after: Part) -> None:
        written = _unread(entry_at(after, "pins", index, "pin"))
        if pin.edges is None:
            written["edges"] = dict.fromkeys(pieces, write_exactly(move, unit))
        elif move > 0:
            written["gap"] = write_exactly(2 * move, unit)
        else:
            written["pinch"] = write_exactly(-move, unit)

    if len(set(pieces)) < 2:
        raise CannotLog("Both edges here are of one piece, so they move alike")
    change(fitting, garment, unit, edit)


def turn_kind(fitting: Part, garment: Garment, unit: Unit, index: int, kind: str) -> None:
    """Make a pinch of it or a gap: the amount that was read stays as it is.

    Edges given apart are turned each way about.  A pin that is not read stays unread.
    """

    def edit(after: Part) -> None:
        pin = entry_at(after, "pins", index, "pin")
        if pin.get("edges") is not None:
            out = kind == "gap"
            pin["edges"] = {name: _turned(move, out) for name, move in pin["edges"].items()}
            return
        read = next((pin[name] for name in ("pinch", "gap") if pin.get(name) is not None), None)
        _unread(pin)
        if read is not None:
            pin[kind] = read

    change(fitting, garment, unit, edit)


def step_amount(
    fitting: Part, garment: Garment, unit: Unit, index: int, pin: Pin, steps: int,
    *, kind: Literal["pinch", "gap"] = "pinch", piece: str = "",
) -> None:  # fmt: skip
    """Make a pin deeper or wider by whole steps of the garment; it lands on a step.

    One that is not read yet becomes a ``kind``.  Edges given apart: the one of ``piece`` goes
    on the way it goes already; without a piece both go on the way the pin goes (a ``kind``
    where they cancel), and their difference stays.  Raises ``NothingLess`` below nothing.
    """
    step_mm = garment.settings.step
    if pin.edges is not None and not piece:
        _step_both(fitting, garment, unit, index, pin, steps * step_mm, kind)
        return
    if pin.edges is not None:
        move = pin.edges.get(piece, 0.0)
        way: Literal["pinch", "gap"] = kind if not move else "gap" if move > 0 else "pinch"
        typed = write_exactly(_stepped(abs(move), step_mm, steps), unit)
        set_edge(fitting, garment, unit, index, piece, typed, way)
        return
    read: Literal["pinch", "gap"] = (
        "gap" if pin.gap is not None else "pinch" if pin.pinch is not None else kind
    )
    before = getattr(pin, read) or 0.0
    typed = write_exactly(_stepped(before, step_mm, steps), unit)
    set_amount(fitting, garment, unit, index, typed, read)


def _step_both(
    fitting: Part, garment: Garment, unit: Unit, index: int, pin: Pin, further_mm: float,
    kind: Literal["pinch", "gap"],
) -> None:  # fmt: skip
    """Move both edges on the way the pin goes already."""
    goes = edge_move(pin) or (1.0 if kind == "gap" else -1.0)
    way = 1 if goes > 0 else -1
    if abs(edge_move(pin)) + further_mm < -SMALLEST_MM:
        raise NothingLess(_NO_LESS)
    moved = {piece: write_exactly(move + way * further_mm, unit)
             for piece, move in (pin.edges or {}).items()}  # fmt: skip

    def edit(after: Part) -> None:
        entry_at(after, "pins", index, "pin")["edges"] = moved

    change(fitting, garment, unit, edit)


def _stepped(before_mm: float, step_mm: float, steps: int) -> float:
    share = before_mm / step_mm
    whole = floor(share + _NEARLY) if steps > 0 else ceil(share - _NEARLY)
    if whole + steps < 0:
        raise NothingLess(_NO_LESS)
    return (whole + steps) * step_mm


def _turned(move: object, out: bool) -> str:
    text = str(move).strip().lstrip("-−+").strip()
    return text if out else f"-{text}"


def _unread(pin: Part) -> Part:
    for name in KINDS:
        pin.pop(name, None)
    return pin
