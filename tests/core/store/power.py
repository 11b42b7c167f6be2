"""What a disk may hold after a power cut, worked out from the steps that were taken.

As POSIX has it: a file's content is certain once the file was brought down (``fsync``), the
names in a folder once that folder was.  Anything later may be there or not.  The changes of one
folder come down in their order, those of different folders independently; a move is one change
of both its folders, as every journalling file system keeps it.  Content that is not certain is
there wholly, by half or not at all.
"""

from collections.abc import Callable, Iterable, Iterator, Mapping
from contextlib import suppress
from dataclasses import dataclass, field
from pathlib import Path
from typing import Union

from tests.core.store.steps import Step

Names = dict[str, Union["File", "Folder"]]


@dataclass(eq=False)
class File:
    """``certain`` is what was brought down last, ``written`` what the program sees."""

    certain: bytes = b""
    written: bytes = b""

    def half(self) -> bytes:
        """Return it with the first half written over, as far as that goes."""
        middle = len(self.written) // 2
        return self.written[:middle] + self.certain[middle:]


CONTENTS: tuple[Callable[[File], bytes], ...] = (
    lambda file: file.certain,
    File.half,
    lambda file: file.written,
)


@dataclass(eq=False)
class Folder:
    """``certain`` are the names brought down last, ``names`` those the program sees."""

    certain: Names = field(default_factory=dict)
    names: Names = field(default_factory=dict)


Change = tuple[tuple[Folder, str, File | Folder | None], ...]
"""Names of folders, and what stands under them now; ``None`` where nothing does."""


class Disk:
    """A disk that takes steps; ``worst`` are the folders that a cut now may leave."""

    def __init__(self, root: Path) -> None:
        self._path = root
        self._root = Folder()
        self._later: list[Change] = []

    def take(self, step: Step) -> None:
        with suppress(KeyError):  # the call itself failed: there was no such file
            getattr(self, f"_{step.what}")(step)

    def worst(self) -> Iterator[Mapping[str, bytes | None]]:
        """Yield every worst case once, as contents by path; ``None`` for a folder."""
        seen = set()
        for came_down in self._cases():
            for content in CONTENTS:
                case = dict(self._listed(self._root, "", came_down, content))
                key = frozenset(case.items())
                if key not in seen:
                    seen.add(key)
                    yield case

    def _cases(self) -> Iterator[list[Change]]:
        """Yield which of the later changes have come down: one and what it needs, or all but."""
        yield []
        yield self._later
        for change in self._later:
            yield self._with_earlier([change])
            yield self._without(change)

    def _with_earlier(self, wanted: list[Change]) -> list[Change]:
        """Return changes with all those before them in the same folders."""
        found: list[Change] = []
        for change in reversed(self._later):
            if change in wanted or _folders(change) & _folders(*found):
                found.insert(0, change)
        return found

    def _without(self, lost: Change) -> list[Change]:
        """Return all changes but one and those after it in the same folders."""
        gone: list[Change] = []
        for change in self._later:
            if change is lost or _folders(change) & _folders(*gone):
                gone.append(change)
        return [change for change in self._later if change not in gone]

    def _listed(
        self, folder: Folder, where: str, came_down: Iterable[Change],
        content: Callable[[File], bytes],
    ) -> Iterator[tuple[str, bytes | None]]:  # fmt: skip
        names = dict(folder.certain)
        _make(came_down, folder, names)
        for name, entry in names.items():
            if isinstance(entry, File):
                yield f"{where}{name}", content(entry)
            else:
                yield f"{where}{name}/", None
                yield from self._listed(entry, f"{where}{name}/", came_down, content)

    def _at(self, path: Path) -> File | Folder:
        entry: File | Folder = self._root
        for name in path.relative_to(self._path).parts:
            assert isinstance(entry, Folder)
            entry = entry.names[name]
        return entry

    def _folder(self, path: Path) -> Folder:
        folder = self._at(path)
        assert isinstance(folder, Folder)
        return folder

    def _change(self, *change: tuple[Folder, str, File | Folder | None]) -> None:
        self._later.append(change)
        for folder in _folders(change):
            _make([change], folder, folder.names)

    # -- the steps ------------------------------------------------------------

    def _mkdir(self, step: Step) -> None:
        folder = self._folder(step.path.parent)
        if step.path.name not in folder.names:
            self._change((folder, step.path.name, Folder()))

    def _write(self, step: Step) -> None:
        folder = self._folder(step.path.parent)
        if step.path.name not in folder.names:
            self._change((folder, step.path.name, File()))
        file = folder.names[step.path.name]
        assert isinstance(file, File)
        file.written = step.content

    def _fsync(self, step: Step) -> None:
        entry = self._at(step.path)
        if isinstance(entry, File):
            entry.certain = entry.written
            return
        certain = self._with_earlier([c for c in self._later if entry in _folders(c)])
        self._later = [change for change in self._later if change not in certain]
        for folder in _folders(*certain):
            _make(certain, folder, folder.certain)

    def _replace(self, step: Step) -> None:
        assert step.to is not None
        moved = self._at(step.path)
        self._change(
            (self._folder(step.path.parent), step.path.name, None),
            (self._folder(step.to.parent), step.to.name, moved),
        )

    def _unlink(self, step: Step) -> None:
        self._at(step.path)
        self._change((self._folder(step.path.parent), step.path.name, None))

    _rmdir = _unlink


def _folders(*changes: Change) -> set[Folder]:
    return {folder for change in changes for folder, _, _ in change}


def _make(changes: Iterable[Change], folder: Folder, names: Names) -> None:
    """Change the names of one folder."""
    for change in changes:
        for at, name, entry in change:
            if at is folder and entry is None:
                names.pop(name, None)
            elif at is folder and entry is not None:
                names[name] = entry


def lay_down(case: Mapping[str, bytes | None], folder: Path) -> None:
    """Write a case to a real folder."""
    folder.mkdir()
    for name, content in case.items():
        path = folder / name
        if content is None:
            path.mkdir(parents=True)
        else:
            path.write_bytes(content)
