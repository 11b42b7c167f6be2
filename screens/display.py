"""Is there a display?  Asked before the app opens, so that the answer is a sentence."""

import ctypes
import os
import sys
from pathlib import Path

from core.errors import WorkroomError
from core.memory import leave_out

WORDS = (
    "Pins to Seams needs a display with its graphics libraries, and found none (Debian: libgl1 "
    "libegl1 libgl1-mesa-dri). Without one, “python main.py plan FILE” prints the alteration list"
)
UNSEEN = ("offscreen", "dummy", "evdev")
"""What SDL draws with when nothing else is there: nobody would ever see it."""


class NoDisplay(WorkroomError):
    """There is nothing to draw on."""

    def __init__(self) -> None:
        super().__init__(WORDS)


def open_window() -> None:
    """Open the app's one window; raises ``NoDisplay`` where it could not be seen.

    Who names a driver in ``SDL_VIDEODRIVER`` gets it, seen or not.
    """
    asked = "SDL_VIDEODRIVER" in os.environ
    if not asked and _is_bare_linux():
        raise NoDisplay
    import kivy.graphics
    import kivy.uix.behaviors  # noqa: F401  what a window loads first

    leave_out()
    from kivy.core.window import Window

    if Window is None or (not asked and _driver() in UNSEEN):
        raise NoDisplay


def _is_bare_linux() -> bool:
    if not sys.platform.startswith("linux") or "ANDROID_ARGUMENT" in os.environ:
        return False
    return not (os.environ.get("DISPLAY") or os.environ.get("WAYLAND_DISPLAY"))


def _driver() -> str:
    """Return what SDL draws with; only Linux falls back to a driver that nobody sees.

    Kivy does not say, so SDL itself is asked, in the copy that is loaded already.
    """
    maps = Path("/proc/self/maps")
    if not maps.exists():
        return ""
    for line in maps.read_text(encoding="utf-8", errors="replace").splitlines():
        if "libSDL2-2" in line:
            ask = ctypes.CDLL(line.split(maxsplit=5)[-1]).SDL_GetCurrentVideoDriver
            ask.restype = ctypes.c_char_p
            return (ask() or b"").decode()
    return ""
