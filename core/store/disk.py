"""What the disk says, in words."""

from collections.abc import Iterator
from contextlib import contextmanager

from core.errors import WorkroomError


class NotSaved(WorkroomError):
    """A change could not be written; what was there before it is untouched."""


@contextmanager
def told() -> Iterator[None]:
    """Turn what the disk says into ``NotSaved``."""
    try:
        yield
    except OSError as wrong:
        raise NotSaved(
            f"The folder of the clients cannot be changed ({reason(wrong)}). What is in it is as"
            " it was"
        ) from wrong


def reason(wrong: Exception) -> str:
    return (wrong.strerror if isinstance(wrong, OSError) else None) or str(wrong)
