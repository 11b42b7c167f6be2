"""How long keeping clients takes, beside TinyDB's own storage and SQLite.

    python -m tests.store_benchmark [--quick]

Every client has five fittings.  TinyDB has all clients in one file, SQLite (WAL, synchronous
FULL) one row a client with the same JSON and her name in columns of their own.  What is saved is
on the disk when the time stops, with all three.  Times are medians, taken in turns; behind each
of the others' stands how many times ours that is.
"""

import json
import sqlite3
import statistics
import sys
import tempfile
import time
from collections.abc import Callable, Iterator, Mapping
from copy import deepcopy
from pathlib import Path
from typing import Any, Protocol
from unittest import mock
from uuid import UUID, uuid4

from tinydb import TinyDB
from tinydb.table import Document

from core.resources import RESOURCES
from core.store.clients import Store
from core.store.index import folded
from core.store.records import join, split
from tests.photo_benchmark import measure

COUNTS = (10, 500, 5_000)
REPEATS, QUICK_REPEATS = 60, 15
SLOW_S = 1.0
"""What takes so long altogether is not done again."""

FIRST = ("Ada", "Beatrix", "Clementine", "Dorothea", "Euphemia", "Félicité", "Griselda", "Hortense")
LAST = ("Alder", "Bramble", "Catkin", "Dogwood", "Elder", "Furze", "Hawthorn", "Juniper", "Larch")
TYPED = ("b", "be", "bea", "bea b", "bea br", "bea bra")


class Kept(Protocol):
    """A way to keep clients."""

    def fill(self, documents: Iterator[dict[str, Any]]) -> None:
        """Put clients in, quickly."""

    def start(self) -> None:
        """Open it."""

    def stop(self) -> None:
        """Close it."""

    def read(self, client_id: str) -> dict[str, Any]: ...

    def save(self, document: dict[str, Any]) -> None: ...

    def names(self) -> list[str]: ...

    def search(self, text: str) -> list[str]: ...


class Ours:
    def __init__(self, folder: Path) -> None:
        self._folder = folder / "ours"

    def fill(self, documents: Iterator[dict[str, Any]]) -> None:
        with mock.patch("os.fsync"), Store(self._folder) as store:
            for document in documents:
                store.save(document)
            store.clients()

    def start(self) -> None:
        self._store = Store(self._folder)

    def stop(self) -> None:
        self._store.close()

    def read(self, client_id: str) -> dict[str, Any]:
        return self._store.read(client_id)

    def save(self, document: dict[str, Any]) -> None:
        self._store.save(document)

    def names(self) -> list[str]:
        return [row.name for row in self._store.clients()]

    def search(self, text: str) -> list[str]:
        return [row.name for row in self._store.search(text)]


class Own:
    """TinyDB with its own storage."""

    def __init__(self, folder: Path) -> None:
        self._path = folder / "tinydb.json"

    def fill(self, documents: Iterator[dict[str, Any]]) -> None:
        table = {str(number): document for number, document in enumerate(documents, 1)}
        self._path.write_text(json.dumps({"_default": table}))

    def start(self) -> None:
        self._database = TinyDB(self._path)

    def stop(self) -> None:
        self._database.close()

    def read(self, client_id: str) -> dict[str, Any]:
        found = self._database.get(doc_id=UUID(client_id).int)
        assert isinstance(found, Document)
        return dict(found)

    def save(self, document: dict[str, Any]) -> None:
        self._database.update(document, doc_ids=[UUID(document["client"]["id"]).int])

    def names(self) -> list[str]:
        return sorted(document["client"]["name"] for document in self._database)

    def search(self, text: str) -> list[str]:
        words = [f" {word}" for word in folded(text).split()]
        return [name for name in self.names() if all(word in f" {folded(name)}" for word in words)]


class Rows:
    """SQLite, a row a client."""

    def __init__(self, folder: Path) -> None:
        self._path = folder / "clients.sqlite"

    def fill(self, documents: Iterator[dict[str, Any]]) -> None:
        self.start()
        self._database.execute(
            "create table clients (id text primary key, name text, searched text, document text)"
        )
        self._database.execute("create index by_name on clients (searched, name, id)")
        self._database.execute("begin")
        self._database.executemany("insert into clients values (?, ?, ?, ?)", map(_row, documents))
        self._database.execute("commit")
        self.stop()

    def start(self) -> None:
        self._database = sqlite3.connect(self._path, isolation_level=None)
        self._database.execute("pragma journal_mode = wal")
        self._database.execute("pragma synchronous = full")

    def stop(self) -> None:
        self._database.close()

    def read(self, client_id: str) -> dict[str, Any]:
        asked = "select document from clients where id = ?"
        (text,) = self._database.execute(asked, [client_id]).fetchone()
        document: dict[str, Any] = json.loads(text)
        return document

    def save(self, document: dict[str, Any]) -> None:
        client_id, name, searched, text = _row(document)
        asked = "update clients set name = ?, searched = ?, document = ? where id = ?"
        self._database.execute(asked, [name, searched, text, client_id])

    def names(self) -> list[str]:
        asked = "select name from clients order by searched"
        return [name for (name,) in self._database.execute(asked)]

    def search(self, text: str) -> list[str]:
        words = folded(text).split()
        like = " and ".join(["' ' || searched like ?"] * len(words)) or "1"
        asked = f"select name from clients where {like} order by searched"
        return [name for (name,) in self._database.execute(asked, [f"% {w}%" for w in words])]


def _row(document: dict[str, Any]) -> tuple[str, str, str, str]:
    name = document["client"]["name"]
    return document["client"]["id"], name, folded(name), json.dumps(document, ensure_ascii=False)


def documents(count: int) -> Iterator[dict[str, Any]]:
    """Yield invented clients with five fittings each, stamped as the store stamps them."""
    demo = json.loads((RESOURCES / "demo" / "moss_green_sheath.json").read_text(encoding="utf-8"))
    garment = demo["garments"][0]
    (fitting,) = garment["fittings"]
    garment["fittings"] = [{**fitting, "id": f"fitting {number}"} for number in range(5)]
    now = "2026-03-02T09:00:00.000+00:00"
    stamped = join(split(demo, {}, now=now, new_uuid=lambda: str(uuid4())))
    for number in range(1, count + 1):
        client_id = str(UUID(int=number))
        name = f"{FIRST[number % len(FIRST)]} {LAST[number // 7 % len(LAST)]} {number}"
        yield {**stamped, "client": {**stamped["client"], "id": client_id, "uuid": client_id,
                                     "name": name}}  # fmt: skip


def with_another_pin(document: Mapping[str, Any], number: int) -> dict[str, Any]:
    """Return a document of the caller's own in which one pin is otherwise."""
    changed = deepcopy(dict(document))
    changed["garments"][0]["fittings"][-1]["pins"][0]["pinch"] = f"{number % 32}/32"
    return changed


def timed(act: Callable[[], object]) -> float:
    """Return the seconds an act takes."""
    start = time.perf_counter()
    act()
    return time.perf_counter() - start


def in_turns(
    ways: Mapping[str, Kept], once: Callable[[Kept, int], float], repeats: int
) -> dict[str, float]:
    """Return the median seconds of each way; what is slow is done less often."""
    times: dict[str, list[float]] = {name: [] for name in ways}
    for number in range(repeats):
        for name, way in ways.items():
            if sum(times[name]) < SLOW_S:
                times[name].append(once(way, number))
    return {name: statistics.median(taken) for name, taken in times.items()}


def _middle(way: Kept) -> str:
    return str(UUID(int=5))


def saving(way: Kept, number: int) -> float:
    document = with_another_pin(way.read(_middle(way)), number)
    return timed(lambda: way.save(document))


def opening(way: Kept, _number: int) -> float:
    way.stop()
    return timed(lambda: (way.start(), way.read(_middle(way))))


def starting(way: Kept, _number: int) -> float:
    way.stop()
    return timed(lambda: (way.start(), way.names()))


def listing(way: Kept, _number: int) -> float:
    return timed(way.names)


def typing(way: Kept, number: int) -> float:
    return timed(lambda: way.search(TYPED[number % len(TYPED)]))


def typing_after_a_save(way: Kept, number: int) -> float:
    way.save(with_another_pin(way.read(_middle(way)), number))
    return timed(lambda: way.search(TYPED[0]))


ACTS: dict[str, Callable[[Kept, int], float]] = {
    "saving one pin": saving,
    "opening a client": opening,
    "starting, to the list": starting,
    "listing again": listing,
    "a letter of a search": typing,
    "the same after a save": typing_after_a_save,
}


def measured(count: int, repeats: int) -> dict[str, dict[str, float]]:
    """Return the seconds by act and way, with so many clients."""
    with tempfile.TemporaryDirectory() as folder:
        ways: dict[str, Kept] = {
            "ours": Ours(Path(folder)), "TinyDB": Own(Path(folder)), "SQLite": Rows(Path(folder))
        }  # fmt: skip
        for way in ways.values():
            way.fill(documents(count))
            way.start()
        (names,) = {tuple(sorted(way.names())) for way in ways.values()}  # they hold the same
        (found,) = {tuple(sorted(way.search(TYPED[2]))) for way in ways.values()}
        assert len(names) == count
        assert 0 < len(found) < count
        times = {act: in_turns(ways, once, repeats) for act, once in ACTS.items()}
        for way in ways.values():
            way.stop()
    return times


def table(count: int, times: Mapping[str, Mapping[str, float]]) -> Iterator[str]:
    yield f"{f'{count:,} clients':<26}{'ours':>10}{'TinyDB':>23}{'SQLite':>23}"
    for act, taken in times.items():
        ours = taken["ours"]
        others = (taken["TinyDB"], taken["SQLite"])
        yield f"  {act:<24}{_ms(ours)}" + "".join(f"{_ms(t)} {t / ours:>9,.2f}×" for t in others)


def _ms(seconds: float) -> str:
    return f"{seconds * 1000:>9,.2f} ms"


def main(words: list[str]) -> None:
    quick = "--quick" in words
    saved = {}
    for count in COUNTS[:2] if quick else COUNTS:
        times = measured(count, QUICK_REPEATS if quick else REPEATS)
        saved[count] = times["saving one pin"]["ours"]
        print("\n".join(table(count, times)), flush=True)
    fewest, most = min(saved), max(saved)
    growth = saved[most] / saved[fewest]
    print(f"saving with {most:,} clients takes {growth:.2f}× what it takes with {fewest}")
    print(measure())


if __name__ == "__main__":
    main(sys.argv[1:])
