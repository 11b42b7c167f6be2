"""What the disk says, in words."""

from collections.abc import Iterator
from contextlib import contextmanager

from core.errors import WorkroomError


class NotSaved(WorkroomError):
    """A change could not be written; what was there before it is untouched."""


def not_saved(wrong: Exception) -> NotSaved:
    return NotSaved(
        f"This could not be saved ({reason(wrong)}). Everything up to the touch before it is safe"
    )


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
    if isinstance(wrong, ValueError) and "JSON" in str(wrong):
        return "a number in it is no number"
    return (wrong.strerror if isinstance(wrong, OSError) else None) or str(wrong)
