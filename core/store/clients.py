"""The clients kept on this device: one folder each, saved whole or not at all."""

import json
import os
from collections.abc import Callable, Iterator, Mapping
from contextlib import suppress
from dataclasses import replace
from datetime import UTC, datetime
from pathlib import Path
from typing import Any, Self
from uuid import uuid4

from core.errors import Damaged, NotFound, WorkroomError
from core.resources import RESOURCES
from core.seal import Seal, unwrap
from core.store.arrivals import CLIENTS, finish, refuse_unfinished, take_away
from core.store.client_file import ClientFile
from core.store.disk import told
from core.store.folders import folder_for, is_sealed_name
from core.store.generations import CURRENT
from core.store.index import NameList, Row, folded, read_index, row_of, write_index
from core.store.occupied import occupy
from core.store.older_layout import bring_forward
from core.store.photos import sweep
from core.store.shelf import Shelf, Stamp, name_on_disk, stamp_at
from core.store.stands import Stands, mend_stands, new_stands, read_stands, write_stands
from core.whole_file import make_folder, sync_folder

INDEX = "index.json"
NAMELESS = "A client whose file is damaged"
_BY_FOLDER = "folder:"
"""How a client is asked for whose file is so damaged that her id is not known."""


class Locked(WorkroomError):
    """The store is sealed, and no passcode was given."""


class Store:
    """The clients in a folder; what is handed out is the caller's own to change.

    Opening takes the folder for this process alone (``InUse`` where another has it),
    finishes what was cut off, and opens the seal (``Locked``, ``WrongPasscode``): with a
    passcode, which is slow on purpose, or with a ``seal`` that was unwrapped before.
    """

    def __init__(
        self,
        folder: Path,
        passcode: str | None = None,
        *,
        seal: Seal | None = None,
        now: Callable[[], datetime] = lambda: datetime.now(UTC),
    ) -> None:
        self.root = folder
        self._now = now
        with told():
            self.first_start = not folder.exists() or not (folder / CLIENTS).exists()
            make_folder(folder)
            self._lock = occupy(folder)
            try:
                finish(folder)
                self.stands = self._found_stands()
                self.seal = self._opened(passcode, seal)
                bring_forward(folder, self.now(), self.seal)
                self.own_shelf().drop_unfinished(INDEX)
            except BaseException:
                self._lock.release()
                raise
        self._files: dict[str, ClientFile] = {}
        self._swept: set[str] = set()
        self._rows: dict[str, Row] | None = None
        self._names: NameList | None = None
        self._saved: set[str] = set()  # folders whose row is older than their file
        self._index_is_old = False

    def __enter__(self) -> Self:
        return self

    def __exit__(self, *_: object) -> None:
        self.close()

    def close(self) -> None:
        """Leave the folder to others; nothing can be read or saved after."""
        if self._lock.is_locked:
            try:
                for file in self._files.values():
                    _sweep(file)
                    file.rest()
                self.rest()
            finally:
                self._lock.release()

    def rest(self) -> None:
        """Write down the list of clients, before the device may stop the program."""
        self._renew_rows()
        if self._rows is not None and self._index_is_old:
            with suppress(OSError):  # it is made anew where it is missing
                self.own_shelf().write(INDEX, write_index(self._rows.values()))
                self._index_is_old = False

    # -- the clients ----------------------------------------------------------

    def clients(self) -> tuple[Row, ...]:
        """Return every client by name; a damaged file is listed too, and opens with words."""
        return self._list().rows

    def search(self, text: str) -> tuple[Row, ...]:
        """Return the clients where each word typed begins a word of the name."""
        return self._list().search(text)

    def has(self, client_id: str) -> bool:
        """Tell whether there is anything of a client, be it damaged."""
        folder = self.root / CLIENTS / self.folder_of(client_id)
        return any(path.suffix != ".new" for path in folder.glob("*"))

    def read(self, client_id: str) -> dict[str, Any]:
        """Return a client's document; raises ``NotFound`` or ``Damaged``."""
        return self.file(client_id).document()

    def save(self, document: Mapping[str, Any]) -> dict[str, Any]:
        """Keep a client's document as it now is; return it with the stamps of its records.

        Raises ``NotSaved`` with what was there before untouched.
        """
        client_id = str(document["client"]["id"])
        folder = self.folder_of(client_id)
        file = self._file(folder)
        if not (self.root / CLIENTS).exists():
            self._found()
        kept = file.keep(document, now=self.now(), new_uuid=lambda: str(uuid4()))
        self._saved.add(folder)
        self.first_start = False
        return kept

    def delete(self, client_id: str) -> None:
        """Delete a client for good: her file, the older ones, her photos and her row."""
        refuse_unfinished(self.root)
        self._list()
        folder = self.folder_of(client_id)
        self._files.pop(folder, None)
        self._index_is_old = True
        try:
            with told():
                self.own_shelf().drop(INDEX)  # her name is in it
                sync_folder(self.root)
                take_away(self.root, folder)
        finally:
            if self._rows is not None and not (self.root / CLIENTS / folder).exists():
                self._rows.pop(folder, None)
                self._names = None
            self.rest()

    def recovered(self, client_id: str) -> str:
        """Return in words what was lost when a client was read; empty where nothing was."""
        return self._file(self.folder_of(client_id)).recovered

    def put_in_demo(self) -> str:
        """Put in the demo client, as she comes with the program; return her id."""
        client_id = ""
        for path in sorted((RESOURCES / "demo").glob("*.json")):
            document = json.loads(path.read_text(encoding="utf-8"))
            self.save(document)
            client_id = str(document["client"]["id"])
        return client_id

    # -- for the store's own modules ------------------------------------------

    def here_and_now(self) -> datetime:
        """Return the time as the clock on the wall shows it."""
        return self._now().astimezone()

    def now(self) -> str:
        """Return the time as it is written down: ISO 8601, UTC, to the millisecond."""
        return self._now().astimezone(UTC).isoformat(timespec="milliseconds")

    def folder_of(self, client_id: str) -> str:
        """Return the name of a client's folder; in a sealed store it tells nothing of her."""
        if client_id.startswith(_BY_FOLDER):
            self._list()
            row = (self._rows or {}).get(client_id.removeprefix(_BY_FOLDER))
            if row is not None and row.id == client_id:
                return row.folder
        return folder_for(client_id, self.seal)

    def folders(self) -> Iterator[str]:
        with suppress(FileNotFoundError), os.scandir(self.root / CLIENTS) as entries:
            yield from (entry.name for entry in entries if entry.is_dir(follow_symlinks=False))

    def file(self, client_id: str) -> ClientFile:
        """Return the file of a client that is there; raises ``NotFound`` or ``Damaged``."""
        file = self._file(self.folder_of(client_id))
        if file.is_new:
            raise NotFound("This client is not here any more")
        return file

    def shelf(self, folder: str) -> Shelf:
        return Shelf(self.root / CLIENTS / folder, folder, self.seal)

    def restart(self, stands: Stands, seal: Seal | None) -> None:
        """Take note that everything was replaced from outside this object."""
        self.stands, self.seal = stands, seal
        self._files.clear()
        self._saved.clear()
        self._rows = self._names = None

    def say(self, stands: Stands) -> None:
        """Write down what the store says of itself."""
        with told():
            write_stands(self.root, stands)
        self.stands = stands

    # -- inside ---------------------------------------------------------------

    def _found_stands(self) -> Stands:
        """Return what the store says of itself, and see that both files say it."""
        found = read_stands(self.root)
        if found is None and any(map(is_sealed_name, self.folders())):
            raise Damaged(
                "The clients in this folder are sealed, but the files with their key are missing."
                " Nothing was changed: put store.json back, or restore everything from a backup"
                " into a new folder"
            )
        stands = found or new_stands()
        if (self.root / CLIENTS).exists():
            with suppress(OSError):  # it is tried again the next time
                mend_stands(self.root, stands)
        return stands

    def _opened(self, passcode: str | None, seal: Seal | None) -> Seal | None:
        if self.stands.wrapped is None:
            return None
        if seal is not None and seal.key_id == self.stands.wrapped.get("key_id"):
            return seal
        if passcode is None:
            raise Locked("These clients are sealed: enter the passcode to open them")
        return unwrap(self.stands.wrapped, passcode)

    def _found(self) -> None:
        with told():
            write_stands(self.root, self.stands)
            make_folder(self.root / CLIENTS)

    def own_shelf(self) -> Shelf:
        return Shelf(self.root, "store", self.seal)

    def _file(self, folder: str) -> ClientFile:
        if not self._lock.is_locked:
            raise RuntimeError("the store was closed")
        refuse_unfinished(self.root)
        if folder not in self._files:
            file = ClientFile(self.shelf(folder))
            if folder not in self._swept:  # only once: what is taken back may name a photo again
                _sweep(file)
                self._swept.add(folder)
            self._files[folder] = file
        return self._files[folder]

    def _list(self) -> NameList:
        if self._rows is None:
            self._rows = self._read_rows()
            self._saved.clear()
            self.rest()  # rows of clients who are gone must not stay
        self._renew_rows()
        if self._names is None:
            self._names = NameList(self._rows.values())
        return self._names

    def _read_rows(self) -> dict[str, Row]:
        """Return the index, with the rows made anew whose file is not as it was read."""
        try:
            known = read_index(self.own_shelf().read(INDEX))
        except (OSError, Damaged):
            known = {}
        rows = {}
        for folder in self.folders():
            row, stamp = known.get(folder), self._stamp(folder)
            if row is None or row.stamp != stamp or stamp is None:
                row = self._row_anew(folder, row)
                self._index_is_old = True
            if row is not None:
                rows[folder] = row
        self._index_is_old |= len(rows) != len(known)
        return rows

    def _stamp(self, folder: str) -> Stamp | None:
        """Return the stamp of a client's file, without a shelf: there may be thousands."""
        name = name_on_disk(folder, CURRENT, self.seal)
        return stamp_at(f"{self.root}/{CLIENTS}/{folder}/{name}")

    def _row_anew(self, folder: str, before: Row | None) -> Row | None:
        file = ClientFile(self.shelf(folder))  # not held: there may be thousands
        try:
            return None if file.is_new else self._row(folder, file, file.document())
        except (WorkroomError, KeyError, TypeError):
            if before is None:
                before = Row(folder, _BY_FOLDER + folder, NAMELESS, folded(NAMELESS))
            return replace(before, damaged=True, stamp=None)

    def _row(self, folder: str, file: ClientFile, document: Mapping[str, Any]) -> Row:
        changed = max((record.changed for record in file.records.values()), default="")
        return row_of(folder, document, changed, file.shelf.stamp(CURRENT))

    def _renew_rows(self) -> None:
        if self._rows is None:
            return
        for folder in self._saved:
            file = self._files[folder]
            self._rows[folder] = self._row(folder, file, file.document())
            self._names, self._index_is_old = None, True
        self._saved.clear()


def _sweep(file: ClientFile) -> None:
    """Delete photos nothing names any more, unless an older file had to be taken."""
    if not file.is_new and not file.recovered:
        sweep(file.shelf, file.document())
