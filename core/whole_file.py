"""Whole file or no file: write beside, bring it to the disk, then put it in place."""

import errno
import os
import time
from collections.abc import Sequence
from contextlib import suppress
from pathlib import Path

_PATIENCE = 20
"""How often a file that a virus scanner holds is tried again, 0.05 s apart."""

_NO_SUCH_THING = {errno.EINVAL, errno.ENOSYS, errno.ENOTSUP}
"""What a file system says that cannot bring a folder to the disk by itself."""


def unfinished(path: Path) -> Path:
    """Return where a file stands while it is being written; there only after a cut-off."""
    return path.with_name(path.name + ".new")


def write_whole(
    path: Path,
    content: bytes,
    *,
    before: Sequence[tuple[Path, Path]] = (),
    over: Path | None = None,
) -> None:
    """Put ``content`` in place of ``path``; at any moment one of the two is whole.

    ``before`` are files to be moved (from, to) once the new one is safe beside the old:
    that is how the old one is kept under another name.  ``over`` is a file that nobody needs
    any more: where it is there, it is written over, which takes less than making a new one.
    Raises ``OSError`` with the old file untouched or moved.
    """
    beside = unfinished(path)
    try:
        if over is not None:
            with suppress(FileNotFoundError):
                replace_file(over, beside)
        with open(beside, "wb", opener=_as_it_is) as file:
            file.write(content)
            file.truncate()
            file.flush()
            os.fsync(file.fileno())
    except OSError:
        with suppress(OSError):
            beside.unlink()  # a full disk needs the room
        raise
    for source, target in before:
        replace_file(source, target)
    replace_file(beside, path)
    sync_folder(path.parent)


def _as_it_is(path: str, flags: int) -> int:
    """Open a file without emptying it first: its room on the disk is used again."""
    return os.open(path, flags & ~os.O_TRUNC, 0o666)


def replace_file(source: Path, target: Path) -> None:
    """Move a file over another; on Windows something may hold the target for a moment."""
    for left in range(_PATIENCE, -1, -1):
        try:
            os.replace(source, target)
        except PermissionError:
            if os.name != "nt" or not left:
                raise
            time.sleep(0.05)
        else:
            return


def make_folder(folder: Path) -> None:
    """Make a folder, and those above it that are missing, each safe in the one above it."""
    if not folder.is_dir():
        make_folder(folder.parent)
        folder.mkdir(exist_ok=True)
        sync_folder(folder.parent)


def sync_folder(folder: Path) -> None:
    """Bring a folder's list of files to the disk; Windows has no way to ask for it."""
    if os.name == "nt":
        return
    handle = os.open(folder, os.O_RDONLY)
    try:
        os.fsync(handle)
    except OSError as wrong:
        if wrong.errno not in _NO_SUCH_THING:
            raise
    finally:
        os.close(handle)
