"""Where a term of a sum leads when it is touched: to the dart, the seam, the ease, the tape."""

from screens.parts.draft_at import OnTheTable
from screens.parts.draft_chosen import Opened

NOWHERE = Opened()


def leads_to(on: OnTheTable, opened: Opened, name: str) -> Opened:
    """Return what a term's name stands for in this garment, or nothing.

    Terms are known by their names, as the printed sums have them.
    """
    found = (
        _allowance(on, opened, name) or _dart(on, opened, name) or _ease(opened, name)
        or _other_width(on, opened, name) or _tape(on, opened, name)
    )  # fmt: skip
    return found or NOWHERE


def _allowance(on: OnTheTable, opened: Opened, name: str) -> Opened | None:
    label = name.removesuffix(" allowance")
    if label == name or on.ring is None:
        return None
    seam = next((seam for seam in on.ring.seams if seam.label.lower() == label), None)
    if seam is None:
        return None
    by_level = seam.allowance.once is None
    return Opened("allowance", seam.id, opened.level if by_level else "")


def _dart(on: OnTheTable, opened: Opened, name: str) -> Opened | None:
    if on.ring is None or opened.what != "width":
        return None
    darts = on.ring.piece(opened.of).darts
    named = [dart for dart in darts if dart.label.lower() == name]
    if not named and name in ("dart", "darts"):
        named = [dart for dart in darts if opened.level in dart.take_up] or list(darts)
    return Opened("take up", named[0].id, opened.level) if named else None


def _ease(opened: Opened, name: str) -> Opened | None:
    return Opened("ease", "", opened.level) if name.startswith("ease ") else None


def _other_width(on: OnTheTable, opened: Opened, name: str) -> Opened | None:
    if on.ring is None or opened.what != "width":
        return None
    for level in on.garment.levels.values():
        if name == f"as at the {level.label.lower()}":
            return Opened("width", opened.of, level.id)
    for piece in on.ring.pieces:
        if name == f"less the {piece.label.lower()}":
            return Opened("width", piece.id, opened.level)
    return None


def _tape(on: OnTheTable, opened: Opened, name: str) -> Opened | None:
    """Return the measurement that a share of the body, or the front's share, comes from."""
    level = on.garment.levels.get(opened.level)
    if level is None:
        return None
    label = level.label.lower()
    if level.body and name.startswith(f"{label} ") and name[len(label) + 1 :][:1].isdigit():
        return Opened("tape", level.body)
    if level.front_arc and name in ("front is more", "back is less", "front is less"):
        return Opened("tape", level.front_arc)
    return None


