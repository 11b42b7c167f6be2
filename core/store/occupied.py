"""One running copy on a folder: the second one is told, and nothing is mixed."""

from pathlib import Path

from filelock import FileLock, Timeout

from core.errors import WorkroomError

LOCK = "open.lock"


class InUse(WorkroomError):
    """Another running copy has this folder open."""


def occupy(root: Path) -> FileLock:
    """Hold the folder until the lock is released or the process ends, however it ends.

    Raises ``InUse`` where another copy holds it, ``OSError`` where it cannot be written to.
    """
    lock = FileLock(root / LOCK)
    try:
        lock.acquire(timeout=0)
    except Timeout:
        raise InUse(
            "Pins to Seams is open already on these clients. Nothing was changed: go on in the"
            " one that is open, or close it first"
        ) from None
    return lock
