"""The clients kept on this device: one folder each, saved whole or not at all."""

import json
from collections.abc import Callable, Iterator, Mapping
from contextlib import suppress
from datetime import UTC, date, datetime
from pathlib import Path
from typing import Any, Self
from uuid import uuid4

from core.client.demo import told_on
from core.errors import Damaged, NotFound, WorkroomError
from core.resources import RESOURCES
from core.seal import Seal, unwrap
from core.store.arrivals import CLIENTS, finish, refuse_unfinished, take_away
from core.store.client_file import ClientFile
from core.store.disk import NotSaved, told
from core.store.folders import folder_for, is_sealed_name
from core.store.generations import OTHER, SPOILT
from core.store.index import Row
from core.store.listing import BY_FOLDER, COPY, INDEX, Listing, client_folders
from core.store.occupied import occupy
from core.store.older_layout import bring_forward
from core.store.photo_names import sweep
from core.store.shelf import Shelf
from core.store.stands import FILES, Stands, mend_stands, new_stands, read_stands, write_stands
from core.whole_file import make_folder, unfinished


class Locked(WorkroomError):
    """The store is sealed, and no passcode was given."""


class Store:
    """The clients in a folder; what is handed out is the caller's own to change.

    Opening takes the folder for this process alone (``InUse`` where another has it),
    finishes what was cut off, and opens the seal (``Locked``, ``WrongPasscode``): with a
    passcode, which is slow on purpose, or with a ``seal`` that was unwrapped before.  One that
    ``looks_later`` lists the clients as they were last written down, at once, until ``look``.
    """

    def __init__(
        self,
        folder: Path,
        passcode: str | None = None,
        *,
        seal: Seal | None = None,
        now: Callable[[], datetime] = lambda: datetime.now(UTC),
        looks_later: bool = False,
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
                Listing(folder, self.seal).shelf().drop_unfinished(INDEX)
                for name in FILES:
                    with suppress(OSError):
                        unfinished(folder / name).unlink()
            except BaseException:
                self._lock.release()
                raise
        self._files: dict[str, ClientFile] = {}
        self._swept: set[str] = set()
        self._listing = Listing(folder, self.seal, looks_later=looks_later)

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
        self._listing.rest()

    # -- the clients ----------------------------------------------------------

    def look(self) -> bool:
        """List whoever came, went or changed outside meanwhile; tell whether anybody did.

        Raises ``NotSaved`` where the folder cannot be looked into; the list is as it was.
        """
        with told():
            return self._listing.look()

    def clients(self) -> tuple[Row, ...]:
        """Return every client by name; a damaged file is listed too, and opens with words."""
        return self._listing.names().rows

    def search(self, text: str) -> tuple[Row, ...]:
        """Return the clients where each word typed begins a word of the name."""
        return self._listing.names().search(text)

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
        self._listing.saved(folder, file)
        self.first_start = False
        return kept

    def delete(self, client_id: str) -> None:
        """Delete a client for good: her file, the older ones, her photos and her row."""
        refuse_unfinished(self.root)
        folder = self.folder_of(client_id)
        if not (self.root / CLIENTS / folder).exists():
            raise NotFound("This client is not here any more")
        row = self._listing.row(folder)
        self._files.pop(folder, None)
        try:
            with told():
                self._listing.hide()  # her name is in it
                take_away(self.root, folder)
        finally:
            if not (self.root / CLIENTS / folder).exists():
                self._listing.gone(folder)
            self.rest()
        if row is not None and row.fittings and self.stands.fittings_then:
            with suppress(NotSaved):  # she is gone all the same; only a reminder comes later
                self.say(self.stands.without_fittings(row.fittings))

    def recovered(self, client_id: str) -> str:
        """Return in words what was lost when a client was read; empty where nothing was."""
        return self._file(self.folder_of(client_id)).recovered

    def put_in_demo(self, today: date | None = None) -> str:
        """Put in the demo client, her days as of ``today`` (else as written); return her id."""
        client_id = ""
        for path in sorted((RESOURCES / "demo").glob("*.json")):
            document = json.loads(path.read_text(encoding="utf-8"))
            self.save(told_on(document, today) if today else document)
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
        if client_id.startswith(BY_FOLDER):
            row = self._listing.row(client_id.removeprefix(BY_FOLDER))
            if row is not None and row.id == client_id:
                return row.folder
        return folder_for(client_id, self.seal)

    def folders(self) -> Iterator[str]:
        return client_folders(self.root)

    def file(self, client_id: str) -> ClientFile:
        """Return the file of a client that is there; raises ``NotFound`` or ``Damaged``."""
        return self._there(self._file(self._own_folder(client_id)))

    def glance(self, client_id: str) -> ClientFile:
        """Return a client's file as ``file`` does, without holding it: there may be thousands."""
        folder = self._own_folder(client_id)
        return self._there(self._files.get(folder) or ClientFile(self.shelf(folder)))

    def index_name(self) -> str:
        """Return what the index is called on the disk."""
        return self._listing.shelf().path(INDEX).name

    def shelf(self, folder: str) -> Shelf:
        return Shelf(self.root / CLIENTS / folder, folder, self.seal)

    def restart(self, stands: Stands, seal: Seal | None) -> None:
        """Take note that everything was replaced from outside this object."""
        self.stands, self.seal = stands, seal
        self._files.clear()
        self._listing = Listing(self.root, seal)

    def say(self, stands: Stands) -> None:
        """Write down what the store says of itself."""
        with told():
            write_stands(self.root, stands)
        self.stands = stands

    # -- inside ---------------------------------------------------------------

    def _own_folder(self, client_id: str) -> str:
        """Return a client's folder; raises ``Damaged`` for one that is a copy of another's."""
        folder = self.folder_of(client_id)
        row = self._listing.row(folder) if client_id.startswith(BY_FOLDER) else None
        if row is not None and row.name.endswith(COPY):
            raise Damaged(
                "This is a copy of a client's folder, made outside the app; the client herself is"
                " in the list too. Nothing was changed: delete the copy when you are sure"
            )
        return folder

    @staticmethod
    def _there(file: ClientFile) -> ClientFile:
        if file.is_new:
            raise NotFound("This client is not here any more")
        return file

    def _found_stands(self) -> Stands:
        """Return what the store says of itself, and see that both files say it."""
        found = read_stands(self.root)
        plain = found is None or found.wrapped is None
        if plain and any(map(is_sealed_name, self.folders())):
            raise Damaged(
                "The clients in this folder are sealed, but store.json has not the key to them."
                " Nothing was changed: put the right store.json back, or restore everything from a"
                " backup into a new folder"
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


def _sweep(file: ClientFile) -> None:
    """Delete photos nothing names any more, unless an older file had to be taken, ever."""
    aside = any(map(file.shelf.has, (SPOILT.format(1), OTHER.format(1))))
    if not file.is_new and not file.recovered and not aside:
        sweep(file.shelf, file.document())
