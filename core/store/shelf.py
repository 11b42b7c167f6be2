"""A folder of files, each whole or not there at all; sealed where the store is sealed."""

import os
import zlib
from contextlib import suppress
from pathlib import Path

from core.seal import Seal
from core.whole_file import make_folder, replace_file, sync_folder, unfinished, write_whole

Stamp = tuple[int, int, int]
"""A file's size in bytes, its time in ns, and its number on the disk."""


class Shelf:
    """One client's folder (or the store's own); names are plain, files may be sealed.

    ``place`` is what the folder is called inside the store: it is sealed in with each
    file, so that a file moved into another folder is refused.
    """

    def __init__(self, folder: Path, place: str, seal: Seal | None = None) -> None:
        self.folder = folder
        self._place = place
        self._seal = seal
        self._paths: dict[str, Path] = {}

    def path(self, name: str) -> Path:
        """Return where a file lies; a sealed one has a name that tells nothing."""
        if name not in self._paths:
            self._paths[name] = self._path(name)
        return self._paths[name]

    def read(self, name: str) -> bytes:
        """Return a file's content; raises ``OSError``, or ``Damaged`` where a seal is broken."""
        content = self.path(name).read_bytes()
        return content if self._seal is None else self._seal.open(content, self._inside(name))

    def read_unfinished(self, name: str) -> bytes:
        """Return what a write that was cut off had written beside a file."""
        content = unfinished(self.path(name)).read_bytes()
        return content if self._seal is None else self._seal.open(content, self._inside(name))

    def write(
        self,
        name: str,
        content: bytes,
        *,
        older: tuple[tuple[str, str], ...] = (),
        over: str | None = None,
    ) -> int:
        """Put a file in place, whole; ``older`` are moves (from, to) made just before that.

        Returns its check, as ``check`` would read it.

        ``over`` is a file nobody needs any more, to be written over where it is there.
        Raises ``OSError`` with the file that was there still there, or moved to where
        ``older`` says.
        """
        path = self.path(name)
        if self._seal is not None:
            content = self._seal.seal(content, self._inside(name))
        make_folder(path.parent)
        moves = [(self.path(source), self.path(target)) for source, target in older]
        write_whole(path, content, before=moves, over=None if over is None else self.path(over))
        return zlib.crc32(content)

    def finish(self, name: str) -> None:
        """Put in place what a cut-off write had wholly written beside the file."""
        path = self.path(name)
        replace_file(unfinished(path), path)
        sync_folder(path.parent)

    def has(self, name: str) -> bool:
        return self.path(name).exists()

    def stamp(self, name: str) -> Stamp | None:
        """Return a file's size, time and number on the disk: another file, another stamp."""
        return stamp_at(self.path(name))

    def check(self, name: str) -> int:
        """Return the CRC-32 of a file as it lies on the disk; raises ``OSError``."""
        return zlib.crc32(self.path(name).read_bytes())

    def drop(self, name: str) -> None:
        with suppress(FileNotFoundError):
            self.path(name).unlink()

    def drop_unfinished(self, name: str) -> None:
        with suppress(OSError):
            unfinished(self.path(name)).unlink()

    def put_aside(self, name: str, aside: str) -> None:
        replace_file(self.path(name), self.path(aside))

    def _path(self, name: str) -> Path:
        return self.folder / Path(name).parent / name_on_disk(self._place, name, self._seal)

    def _inside(self, name: str) -> str:
        """Return what a file is sealed under: the same for all generations of one file."""
        return f"{self._place}/{name.partition('.')[0]}"


def name_on_disk(place: str, name: str, seal: Seal | None) -> str:
    """Return what a file is called in its folder."""
    return name.rpartition("/")[2] if seal is None else seal.name(f"{place}/{name}")


def stamp_at(path: Path | str) -> Stamp | None:
    """Return a file's stamp; ``None`` where there is no file."""
    try:
        found = os.stat(path)
    except OSError:
        return None
    return found.st_size, found.st_mtime_ns, found.st_ino
