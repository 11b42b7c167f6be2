"""Sit, walk, arms up, breathe, stairs: what she did in the garment, and where it pulled.

Kept in ``movements``, a list of ours: ``{"what": "sit", "pulled": [{"seam": "side", "side":
"left", "level": "hip"}]}`` (``down`` between two levels); without ``pulled`` it went easily.
"""

from collections.abc import Mapping
from typing import Any

from core.client.facts import entries
from core.fit.pinning import Where
from core.fit.written import CannotLog, Part, listed
from core.lengths import Unit, write_length
from core.records.fitting import LoggedSide

MOVEMENTS = {"sit": "Sit", "walk": "Walk", "arms_up": "Arms up", "breathe": "Breathe",
             "stairs": "Stairs"}  # fmt: skip


def tick(fitting: Part, what: str, done: bool) -> None:
    """Say that she did it, or take that back with where it pulled; raises ``CannotLog``."""
    if what not in MOVEMENTS:
        raise CannotLog(f"“{what}” is no movement to tick. The fitting is as it was")
    held = listed(fitting, "movements")
    if not done:
        held[:] = [entry for entry in held if entry.get("what") != what]
        if not held:
            del fitting["movements"]
    elif all(entry.get("what") != what for entry in held):
        held.append({"what": what})


def add_pull(fitting: Part, unit: Unit, what: str, where: Where, side: LoggedSide) -> None:
    """Say where it pulled while she did it; touched again it did not.  Ticks it too.

    Between two levels it is kept by how far down it is.
    """
    tick(fitting, what, True)
    entry = next(entry for entry in fitting["movements"] if entry.get("what") == what)
    pull: Part = {where.what: where.place, "side": side}
    if where.level:
        pull["level"] = where.level
    elif where.down_mm is not None:
        pull["down"] = write_length(where.down_mm, unit, fine=True)
    pulled = list(entry.get("pulled") or ())
    if pull in pulled:
        pulled.remove(pull)
    else:
        pulled.append(pull)
    if pulled:
        entry["pulled"] = pulled
    else:
        entry.pop("pulled", None)


def done(fitting: Mapping[str, Any]) -> Mapping[str, list[Mapping[str, Any]]]:
    """Return what she did, each with the places where it pulled."""
    return {
        str(entry["what"]): entries(entry, "pulled")
        for entry in entries(fitting, "movements")
        if entry.get("what") in MOVEMENTS
    }
