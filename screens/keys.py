"""The keys of a keyboard that do what a touch does elsewhere."""

from collections.abc import Callable
from typing import Any

from screens.workroom import Workroom

BACK = 27
"""Escape, and the back key of a tablet."""

_Z, _Y = 122, 121
_HELD = ("ctrl", "meta")
"""Control, or on some keyboards the command key."""


def verb_of(key: int, modifiers: list[str], room: Workroom) -> Callable[[], Any] | None:
    """Return what a key means on every screen; nothing where it means nothing there."""
    held = set(modifiers) - {"capslock", "numlock"}
    if not held & set(_HELD) or "alt" in held:
        return None
    if key == _Z:
        return room.redo if "shift" in held else room.undo
    return room.redo if key == _Y and "shift" not in held else None
