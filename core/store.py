"""The clients kept on this device: one file each, whole or not at all.

TinyDB's own storage writes over its file in place, so that a flat battery leaves half
new, half old text.  Here a file is written beside the good one, brought to the disk, and
put in its place; the one before it stays as ``.bak``.
"""

import json
import time
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import Any
from urllib.parse import quote, unquote

from tinydb import TinyDB
from tinydb.storages import Storage
from tinydb.table import Document

from core.errors import Damaged, NotFound, WorkroomError
from core.resources import RESOURCES
from core.whole_file import replace_file, sync_folder, unfinished, write_whole

Tables = dict[str, dict[str, Any]]

_SUFFIX, _BACKUP, _SPOILT = ".json", ".bak", ".spoilt-"
_ONLY = 1
"""A client's file holds one document, under this number."""


class NotSaved(WorkroomError):
    """A change could not be written; what was there before it is untouched."""


@dataclass(frozen=True, slots=True)
class Listed:
    """A client as the day book lists her; a damaged file has no name to show."""

    id: str
    name: str
    damaged: bool = False


class WholeFileStorage(Storage):
    """Read once and hold the text; write a whole new file, then swap it in.

    ``recovered`` names the spoilt file that was put aside when only the copy could
    be read.  Raises ``Damaged`` where neither can be, ``NotSaved`` where writing fails.
    """

    def __init__(self, path: Path) -> None:
        self.path = path
        self.recovered: Path | None = None
        self._text: str | None = None
        unfinished(path).unlink(missing_ok=True)  # a write that never finished

    def read(self) -> Tables | None:
        """Return what is kept; a fresh copy each time, because TinyDB changes it."""
        if self._text is None:
            self._text = self._load()
        return json.loads(self._text) if self._text else None

    def write(self, data: Mapping[str, Mapping[str, Any]]) -> None:
        try:
            text = json.dumps(data, ensure_ascii=False, allow_nan=False, separators=(",", ":"))
            write_whole(self.path, text.encode(), backup=_beside(self.path, _BACKUP))
        except (OSError, TypeError, ValueError) as wrong:
            raise NotSaved(
                f"This could not be saved ({wrong}). Everything up to the touch before it is safe"
            ) from wrong
        self._text = text

    def _load(self) -> str:
        wrong: Exception | None = None
        for path in (self.path, _beside(self.path, _BACKUP)):
            try:
                text = _whole(path.read_text(encoding="utf-8"))
            except FileNotFoundError:
                continue
            except (OSError, ValueError) as found:
                wrong = wrong or found
                continue
            if path != self.path and self.path.exists():
                self._put_spoilt_aside()
            return text
        if wrong is not None:
            raise Damaged(
                f"The file {self.path.name} and its copy cannot be read. Nothing was changed: "
                "keep both files, and bring this client back from a backup"
            ) from wrong
        return ""

    def _put_spoilt_aside(self) -> None:
        """Keep the spoilt file, and let the next write keep the good copy."""
        self.recovered = _beside(self.path, f"{_SPOILT}{time.time_ns()}")
        replace_file(self.path, self.recovered)


class Store:
    """The clients in a folder; what is handed out is the caller's own to change."""

    def __init__(self, folder: Path) -> None:
        self._folder = folder / "clients"
        self._open: dict[str, TinyDB] = {}
        self.first_start = not self._folder.exists()

    def clients(self) -> tuple[Listed, ...]:
        """Return every client by name; a damaged file is listed too, and opens with words."""
        return tuple(sorted(map(self._listed, self._ids()), key=lambda client: client.name))

    def read(self, client_id: str) -> dict[str, Any]:
        """Return a client's document; raises ``NotFound`` or ``Damaged``."""
        found = self._file(client_id).get(doc_id=_ONLY) if self._has(client_id) else None
        if not isinstance(found, Document):
            raise NotFound("This client is not here any more")
        return dict(found["document"])

    def save(self, document: Mapping[str, Any]) -> None:
        """Keep a client's document as it now is, replacing the one before."""
        with _told():
            self._folder.mkdir(parents=True, exist_ok=True)
        file, kept = self._file(document["client"]["id"]), {"document": dict(document)}
        if file.contains(doc_id=_ONLY):  # TinyDB's upsert would write twice
            file.update(kept, doc_ids=[_ONLY])
        else:
            file.insert(Document(kept, doc_id=_ONLY))
        self.first_start = False

    def delete(self, client_id: str) -> None:
        """Delete a client for good: her file, its copy, and whatever was put aside."""
        self._open.pop(client_id, None)
        path = self._path(client_id)
        with _told():
            for aside in self._folder.glob(f"{_plain(path.name)}.*"):
                aside.unlink()
            path.unlink(missing_ok=True)  # last, so that a deletion cut short can be done again
            sync_folder(self._folder)

    def put_in_demo(self) -> str:
        """Put in the demo client, as she comes with the program; return her id."""
        client_id = ""
        for path in sorted((RESOURCES / "demo").glob("*.json")):
            document = json.loads(path.read_text(encoding="utf-8"))
            self.save(document)
            client_id = str(document["client"]["id"])
        return client_id

    def recovered(self, client_id: str) -> bool:
        """Tell whether the copy had to be taken, so that the last touch may be missing."""
        storage = self._open[client_id].storage if client_id in self._open else None
        return isinstance(storage, WholeFileStorage) and storage.recovered is not None

    def _ids(self) -> set[str]:
        return {unquote(path.name.removesuffix(_BACKUP).removesuffix(_SUFFIX))
                for pattern in (f"*{_SUFFIX}", f"*{_SUFFIX}{_BACKUP}")
                for path in self._folder.glob(pattern)}  # fmt: skip

    def _listed(self, client_id: str) -> Listed:
        try:
            return Listed(client_id, str(self.read(client_id)["client"]["name"]))
        except (WorkroomError, KeyError, TypeError):
            return Listed(client_id, "A client whose file is damaged", damaged=True)

    def _has(self, client_id: str) -> bool:
        path = self._path(client_id)
        return path.exists() or _beside(path, _BACKUP).exists()

    def _file(self, client_id: str) -> TinyDB:
        if client_id not in self._open:
            self._open[client_id] = TinyDB(self._path(client_id), storage=WholeFileStorage)
        return self._open[client_id]

    def _path(self, client_id: str) -> Path:
        return self._folder / (quote(client_id, safe="") + _SUFFIX)


def _whole(text: str) -> str:
    """Return the text of a file that is whole JSON; ``ValueError`` where it is spoilt."""
    if not isinstance(json.loads(text), dict):
        raise ValueError("not a client's file")  # noqa: TRY004  (spoilt, as half a file is)
    return text


def _beside(path: Path, ending: str) -> Path:
    return path.with_name(path.name + ending)


def _plain(name: str) -> str:
    """Return a name for a search by pattern that finds only itself."""
    return name.replace("[", "[[]").replace("*", "[*]").replace("?", "[?]")


@contextmanager
def _told() -> Iterator[None]:
    """Turn what the disk says into words."""
    try:
        yield
    except OSError as wrong:
        raise NotSaved(f"The folder of the clients cannot be changed ({wrong})") from wrong
