"""The camera of the device, where there is one that can be asked; elsewhere a file is chosen."""

import tempfile
from collections.abc import Callable
from pathlib import Path

from kivy.clock import Clock
from kivy.utils import platform

from core.errors import WorkroomError


class NoCamera(WorkroomError):
    """The camera of the device does not serve."""


def can_take() -> bool:
    """Tell whether the device lets an app ask its camera for a photo."""
    return platform == "android"


def take(then: Callable[[Path], None]) -> None:
    """Ask the camera for a photo and hand its file on; raises ``NoCamera``.

    The file is of the moment only: what is kept of it is written by the store.
    """
    from plyer import camera

    path = Path(tempfile.mkdtemp()) / "taken.jpg"

    def taken(_name: object) -> bool:
        Clock.schedule_once(lambda _: then(path) if path.exists() else None)
        return False

    try:
        camera.take_picture(filename=str(path), on_complete=taken)
    except (NotImplementedError, OSError) as wrong:
        raise NoCamera("The camera does not answer. Choose a photo from the device") from wrong
