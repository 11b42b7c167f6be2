"""Files handed out: written whole, with a plain sentence where that cannot be done."""

from pathlib import Path

from core.errors import WorkroomError
from core.whole_file import write_whole


class NotWritten(WorkroomError):
    """A file could not be written; says which and that nothing was lost."""


def hand_out(path: Path, content: bytes) -> None:
    """Write a file that is made to be taken elsewhere; whole or not at all.

    Raises ``NotWritten`` where it cannot be written there.
    """
    try:
        write_whole(path, content)
    except (OSError, ValueError) as wrong:
        reason = wrong.strerror if isinstance(wrong, OSError) and wrong.strerror else str(wrong)
        raise NotWritten(
            f"“{path.name}” could not be written ({reason}). Nothing was lost;"
            " try another folder or name."
        ) from None
