"""One client's TinyDB file: its records, read once and held, saved in one write."""

from collections.abc import Callable, Mapping
from typing import Any

from tinydb import TinyDB

from core.errors import Damaged
from core.store.disk import not_saved
from core.store.generations import CURRENT, GenerationStorage, Tables, written
from core.store.records import Record, join, split
from core.store.shelf import Shelf

_TABLE = "records"


class ClientFile:
    """The records of one client.

    TinyDB's own numbers are used again after a record is taken away, so they never leave
    this class: a record is known by its ``uuid``.
    """

    def __init__(self, shelf: Shelf) -> None:
        self.shelf = shelf
        self._database = TinyDB(shelf, storage=GenerationStorage)
        self._records: dict[str, Record] | None = None
        self._numbers: dict[str, int] = {}

    @property
    def recovered(self) -> str:
        """What was lost when the file was read, in words; empty where nothing was."""
        return self._storage.recovered

    @property
    def records(self) -> Mapping[str, Record]:
        """The records by their id; raises ``Damaged`` where they cannot be read."""
        if self._records is None:
            self._records = self._read()
        return self._records

    @property
    def is_new(self) -> bool:
        return not self.records

    def document(self) -> dict[str, Any]:
        """Return the client's document, the caller's own to change."""
        return join(self.records)

    def keep(
        self, document: Mapping[str, Any], *, now: str, new_uuid: Callable[[], str]
    ) -> dict[str, Any]:
        """Save a document; return it as kept.  Raises ``NotSaved`` with nothing changed."""
        before = self.records
        try:
            after = split(document, before, now=now, new_uuid=new_uuid)
        except ValueError as wrong:
            raise not_saved(wrong) from wrong
        changed = [record for uuid, record in after.items() if record is not before.get(uuid)]
        if changed:
            self._write(changed)
            self._records = after
        return join(after)

    def copy_to(self, shelf: Shelf) -> None:
        """Write these records as another shelf's file, as they are; raises ``OSError``."""
        shelf.write(CURRENT, written(self._storage.read() or {}))

    def rest(self) -> None:
        """Leave nothing in the folder that only saves a little time."""
        self._storage.drop_spare()

    def _write(self, changed: list[Record]) -> None:
        numbers = dict(self._numbers)
        table = self._database.table(_TABLE)
        with self._storage.together():
            for record in changed:
                entry = _entry(record)
                if record.uuid in numbers:
                    table.update(entry, doc_ids=[numbers[record.uuid]])
                else:
                    numbers[record.uuid] = table.insert(entry)
        self._numbers = numbers

    def _read(self) -> dict[str, Record]:
        records = {}
        try:
            for entry in self._database.table(_TABLE):
                record = _read_record(entry)
                records[record.uuid] = record
                self._numbers[record.uuid] = entry.doc_id
            if records:
                join(records)
        except (KeyError, TypeError, ValueError, StopIteration) as wrong:
            raise Damaged(
                "This client's file is whole, but what is in it cannot be read. Nothing was"
                " changed: keep the folder, and bring her back from a backup"
            ) from wrong
        return records

    @property
    def _storage(self) -> GenerationStorage:
        storage: GenerationStorage = self._database.storage  # type: ignore[assignment]
        return storage


def _entry(record: Record) -> dict[str, Any]:
    return {
        "uuid": record.uuid,
        "kind": record.kind,
        "revision": record.revision,
        "changed": record.changed,
        "removed": record.removed,
        "body": record.body,
    }


def document_in(tables: Tables) -> dict[str, Any]:
    """Return the document that a file's tables hold, without taking anything in hand."""
    records = map(_read_record, tables[_TABLE].values())
    return join({record.uuid: record for record in records})


def _read_record(entry: Mapping[str, Any]) -> Record:
    return Record(
        entry["uuid"],
        entry["kind"],
        entry["revision"],
        entry["changed"],
        entry["body"],
        entry["removed"],
    )
