"""The list of clients: read from the index, each row made anew where its file is another."""

import os
from collections.abc import Iterator, Mapping
from contextlib import suppress
from pathlib import Path

from core.errors import Damaged, WorkroomError
from core.seal import Seal
from core.store.arrivals import CLIENTS
from core.store.client_file import ClientFile
from core.store.folders import folder_for
from core.store.generations import CURRENT
from core.store.index import NameList, Row, folded, read_index, row_of, write_index
from core.store.shelf import Shelf, Stamp, name_on_disk, stamp_at
from core.whole_file import replace_file, sync_folder

INDEX = "index.json"
NAMELESS = "A client whose file is damaged"
COPY = " (a copy of her folder)"
BY_FOLDER = "folder:"
"""How a client is asked for whose id is not known, or is another's."""


class Listing:
    """The rows of a store's clients, read when first asked for.

    One that ``looks_later`` takes the index at its word until ``look``.
    """

    def __init__(self, root: Path, seal: Seal | None, *, looks_later: bool = False) -> None:
        self._root = root
        self._seal = seal
        self._looks_later = looks_later
        self._rows: dict[str, Row] | None = None
        self._names: NameList | None = None
        self._saved: dict[str, ClientFile] = {}  # whose rows are older than their files
        self._is_old = False

    def names(self) -> NameList:
        """Return the rows by name."""
        rows = self._read()
        if self._names is None:
            self._names = NameList(rows.values())
        return self._names

    def row(self, folder: str) -> Row | None:
        return self._read().get(folder)

    def look(self) -> bool:
        """Make the rows anew whose files are not as the index says; tell whether there were any."""
        before = dict(self._read())
        if not self._looks_later:
            return False
        self._rows, self._names = self._as_they_lie(before), None
        self._looks_later = False  # one that failed is done again the next time
        self.rest()  # rows of clients who are gone must not stay
        return self._rows != before

    def saved(self, folder: str, file: ClientFile) -> None:
        """Take note that a client was saved; her row is made when it is next asked for."""
        self._saved[folder] = file

    def hide(self) -> None:
        """Take the index off the disk, before a client named in it goes."""
        self._is_old = True
        self.shelf().drop(INDEX)
        sync_folder(self._root)

    def gone(self, folder: str) -> None:
        """Take a deleted client's row away."""
        self._saved.pop(folder, None)
        self._read().pop(folder, None)
        self._names = None

    def rest(self) -> None:
        """Write the index, if it is not as it was read."""
        self._renew()
        if self._rows is not None and self._is_old:
            with suppress(OSError):  # it is made anew where it is missing
                self.shelf().write(INDEX, write_index(self._rows.values()))
                self._is_old = False

    def shelf(self) -> Shelf:
        """Return the store's own shelf, where the index is kept."""
        return Shelf(self._root, "store", self._seal)

    def _read(self) -> dict[str, Row]:
        if self._rows is None:
            self._rows = self._read_rows()
            self._saved.clear()
            self.rest()  # rows of clients who are gone must not stay
        self._renew()
        return self._rows

    def _read_rows(self) -> dict[str, Row]:
        try:
            known = read_index(self.shelf().read(INDEX))
        except (OSError, Damaged):
            known = {}
        self._looks_later &= bool(known)
        return known if self._looks_later else self._as_they_lie(known)

    def _as_they_lie(self, known: Mapping[str, Row]) -> dict[str, Row]:
        """Return the rows as the files are, of those that are known only where they changed."""
        rows = {}
        for folder in sorted(client_folders(self._root)):
            row, stamp = known.get(folder), self._stamp(folder)
            if row is None or row.stamp != stamp or stamp is None:
                row = self._row_anew(folder, row)
                self._is_old = True
            if row is not None:
                rows[row.folder] = row
        self._is_old |= len(rows) != len(known)
        return rows

    def _stamp(self, folder: str) -> Stamp | None:
        """Return the stamp of a client's file, without a shelf: there may be thousands."""
        name = name_on_disk(folder, CURRENT, self._seal)
        return stamp_at(f"{self._root}/{CLIENTS}/{folder}/{name}")

    def _row_anew(self, folder: str, before: Row | None) -> Row | None:
        file = ClientFile(Shelf(self._root / CLIENTS / folder, folder, self._seal))
        try:
            return None if file.is_new else self._in_its_place(_row(folder, file))
        except (WorkroomError, KeyError, TypeError):
            if before is None:
                before = Row(folder, BY_FOLDER + folder, NAMELESS, folded(NAMELESS))
            return before._replace(damaged=True, stamp=None)

    def _in_its_place(self, row: Row) -> Row:
        """Put a folder that was renamed outside the app back; list a copied one as a copy."""
        clients, own = self._root / CLIENTS, folder_for(row.id, self._seal)
        if row.folder == own:
            return row
        if not (clients / own).exists():
            with suppress(OSError):
                replace_file(clients / row.folder, clients / own)
                sync_folder(clients)
                return row._replace(folder=own)
        name = f"{row.name}{COPY}"
        return row._replace(id=BY_FOLDER + row.folder, name=name, damaged=True, stamp=None)

    def _renew(self) -> None:
        if self._rows is None:
            return
        for folder, file in self._saved.items():
            self._rows[folder] = _row(folder, file)
            self._names, self._is_old = None, True
        self._saved.clear()


def client_folders(root: Path) -> Iterator[str]:
    """Yield the name of every client's folder."""
    with suppress(FileNotFoundError), os.scandir(root / CLIENTS) as entries:
        yield from (entry.name for entry in entries if entry.is_dir(follow_symlinks=False))


def _row(folder: str, file: ClientFile) -> Row:
    changed = max((record.changed for record in file.records.values()), default="")
    return row_of(folder, file.document(), changed, file.shelf.stamp(CURRENT))
