"""The keys of a keyboard that do what a touch does elsewhere."""

from collections.abc import Callable
from typing import Any

from screens.bench import Bench

_Z, _Y = 122, 121
_HELD = ("ctrl", "meta")
"""Control, or on some keyboards the command key."""


def verb_of(key: int, modifiers: list[str], bench: Bench) -> Callable[[], Any] | None:
    """Return what a key means at the bench; nothing where it means nothing there."""
    held = set(modifiers) - {"capslock", "numlock"}
    if not held & set(_HELD) or "alt" in held:
        return None
    if key == _Z:
        return bench.redo if "shift" in held else bench.undo
    return bench.redo if key == _Y and "shift" not in held else None
