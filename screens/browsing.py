"""The folders of the device, listed to choose a folder or a file from."""

import os
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Literal

from kivy.utils import platform

from core.errors import WorkroomError
from screens.allowed import ask_to_look

Takes = Literal["folder", "photo", "bundle"]

ENDINGS: dict[Takes, tuple[str, ...]] = {
    "folder": (),
    "photo": (".jpg", ".jpeg", ".png", ".webp", ".heic", ".heif"),
    "bundle": (".zip", ".json"),
}
_MOUNTED = ("/media", "/run/media", "/mnt", "/Volumes", "/storage")


class NoLooking(WorkroomError):
    """A folder that cannot be looked into."""


@dataclass(frozen=True, slots=True)
class Entry:
    """A folder or a file to touch."""

    path: Path
    title: str
    words: str = ""
    is_folder: bool = True


@dataclass(frozen=True, slots=True)
class Browsing:
    """An open folder; it ``takes`` a folder, or files of a kind, for what ``title`` says."""

    title: str
    takes: Takes
    folder: Path
    entries: tuple[Entry, ...] = ()
    places: tuple[Entry, ...] = ()


def look_into(title: str, takes: Takes, folder: Path) -> Browsing:
    """Return a folder with what may be touched in it; raises ``NoLooking``."""
    try:
        entries = tuple(_entries(folder, takes))
    except OSError as wrong:
        raise NoLooking(
            f"The folder {folder} cannot be opened ({wrong.strerror}). Choose another"
        ) from wrong
    up = () if folder.parent == folder else (Entry(folder.parent, "Up", str(folder.parent)),)
    return Browsing(title, takes, folder, up + entries, tuple(_places()))


def beginning() -> Path:
    """Return where to begin looking; the device asks her first where it must."""
    ask_to_look()
    places = list(_places())
    return places[0].path if places else Path.home()


def _entries(folder: Path, takes: Takes) -> Iterator[Entry]:
    """Yield the folders and then the files that may be taken, by name; hidden ones are not."""
    found = sorted(os.scandir(folder), key=lambda entry: entry.name.casefold())
    seen = [entry for entry in found if not entry.name.startswith(".")]
    yield from (Entry(Path(entry.path), entry.name) for entry in seen if _is_folder(entry))
    for entry in seen:
        if entry.name.lower().endswith(ENDINGS[takes]) and ENDINGS[takes] and not _is_folder(entry):
            yield Entry(Path(entry.path), entry.name, _size(entry), is_folder=False)


def _is_folder(entry: "os.DirEntry[str]") -> bool:
    try:
        return entry.is_dir()
    except OSError:
        return False


def _size(entry: "os.DirEntry[str]") -> str:
    try:
        size = entry.stat().st_size
    except OSError:
        return ""
    return f"{max(1, round(size / 1000))} kB" if size < 1_000_000 else f"{size / 1_000_000:.1f} MB"


def _places() -> Iterator[Entry]:
    """Yield where she is likely to keep things: her own folders, cards, sticks and drives."""
    if platform == "android":
        from plyer import storagepath

        yield Entry(Path(storagepath.get_downloads_dir()), "Downloads")
        yield Entry(Path(storagepath.get_pictures_dir()), "Pictures")
        return
    home = Path.home()
    for name in ("Documents", "Downloads", "Pictures"):
        if (home / name).is_dir():
            yield Entry(home / name, name)
    yield Entry(home, "Home")
    for root in map(Path, _MOUNTED):
        if root.is_dir() and os.access(root, os.R_OK) and any(root.iterdir()):
            yield Entry(root, "Cards and drives")
            return
