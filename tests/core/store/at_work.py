"""A program at work until it is killed: it says what it is about to do, and what is done.

``python -m tests.core.store.at_work`` waits for lines ``WORK SEED FOLDER``, works on the folder
in a process of its own, and says its number, each act, and in the end that it is no more.  It
has everything loaded, so that a process more costs a few milliseconds.
"""

import hashlib
import json
import os
import random
import sys
import traceback
from collections.abc import Callable, Iterator
from copy import deepcopy
from io import BytesIO
from pathlib import Path
from typing import Any
from uuid import UUID

from PIL import Image
from tinydb import TinyDB

from core.photos import Photo, read_photo
from core.resources import RESOURCES
from core.store.bundles import bring_in
from core.store.clients import Locked, Store
from core.store.passcode import remove_passcode, set_passcode
from core.store.photos import add_photo

Act = tuple[dict[str, Any], Callable[[], object]]
"""What is said of an act, and what does it."""

PASSCODE = "seven silver pins"
BUNDLE = "bundle.zip"
MOST_CLIENTS, MOST_PHOTOS = 6, 3
DEMO: dict[str, Any] = json.loads(
    (RESOURCES / "demo" / "moss_green_sheath.json").read_text(encoding="utf-8")
)


def counted(document: dict[str, Any], count: int) -> dict[str, Any]:
    """Return a document in which every record says the same count, to see that none is mixed."""
    document = deepcopy(document)
    garment = document["garments"][0]
    for part in (document, document["measurements"][0], garment, garment["fittings"][0]):
        part["count"] = count
    garment["fittings"][0]["note"] = "longer and shorter " * (count * 7 % 13)
    return document


def new_client(client_id: str, count: int) -> dict[str, Any]:
    client = {"id": client_id, "name": f"Client {client_id[-4:]}", "photo_consent": "2026-03-01"}
    return counted({**DEMO, "client": client}, count)


def opened(folder: Path) -> Store:
    try:
        return Store(folder)
    except Locked:
        return Store(folder, PASSCODE)


def quick_passcode() -> None:
    """Let a passcode cost nothing to try, here and now: what it costs is not what is tried."""
    import core.seal

    def quick(passcode: bytes, salt: bytes, *_cost: int) -> bytes:
        return hashlib.blake2b(passcode, salt=salt, digest_size=32).digest()

    core.seal.stretch = quick


def photos_made() -> list[Photo]:
    made = []
    for number in range(4):
        content = BytesIO()
        Image.effect_mandelbrot((80, 60), (-2, -1, 1, 1), 20 + number).save(content, "JPEG")
        made.append(read_photo(content.getvalue(), "made here"))
    return made


class Workroom:
    """Our store at work: acts as they come, each with the state of a client it leads to."""

    def __init__(self, folder: Path, chance: random.Random, photos: list[Photo]) -> None:
        self._bundle = folder / BUNDLE
        self._folder = folder / "store"
        self._chance, self._photos = chance, photos
        self._store = opened(self._folder)

    def acts(self) -> Iterator[Act]:
        """Yield what to do next, for ever."""
        kinds = {self._save: 45, self._photo: 10, self._new: 8, self._delete: 6, self._seal: 12,
                 self._bring_in: 10, self._close: 4, self._list: 5}  # fmt: skip
        while True:
            ids = [row.id for row in self._store.clients()]
            (kind,) = self._chance.choices(list(kinds), list(kinds.values()))
            yield self._new() if not ids else kind(*([self._chance.choice(ids)] * _given(kind)))

    def _save(self, client_id: str) -> Act:
        document = self._store.read(client_id)
        document = counted(document, document["count"] + 1)
        said = {"do": "save", "id": client_id, "count": document["count"]}
        return said, lambda: self._store.save(document)

    def _photo(self, client_id: str) -> Act:
        document = self._store.read(client_id)
        photo = self._chance.choice(self._photos)
        document = counted(document, document["count"] + 1)
        taken = document["garments"][0]["fittings"][0].setdefault("photos", [])
        taken[:] = [*taken, {"file": f"photos/{photo.name}"}][-MOST_PHOTOS:]

        def add() -> None:
            add_photo(self._store, client_id, photo)
            self._store.save(document)

        return {"do": "photo", "id": client_id, "count": document["count"]}, add

    def _new(self) -> Act:
        if len(self._store.clients()) >= MOST_CLIENTS:
            return self._list()
        client_id = str(UUID(int=self._chance.getrandbits(128), version=4))
        document = new_client(client_id, 1)
        return {"do": "new", "id": client_id, "count": 1}, lambda: self._store.save(document)

    def _delete(self, client_id: str) -> Act:
        return {"do": "delete", "id": client_id}, lambda: self._store.delete(client_id)

    def _seal(self) -> Act:
        turn = set_passcode if self._store.seal is None else remove_passcode
        return {"do": turn.__name__}, lambda: turn(self._store, PASSCODE)

    def _bring_in(self) -> Act:
        return {"do": "bring in"}, lambda: bring_in(self._store, self._bundle, when_here="replace")

    def _close(self) -> Act:
        def again() -> None:
            self._store.close()
            self._store = opened(self._folder)

        return {"do": "close"}, again

    def _list(self) -> Act:
        return {"do": "list"}, lambda: (self._store.clients(), self._store.rest())


def _given(kind: Callable[..., Act]) -> bool:
    return kind.__name__ in ("_save", "_photo", "_delete")


def tinydb_acts(folder: Path, chance: random.Random) -> Iterator[Act]:
    """Yield saves of clients with TinyDB's own storage, all in one file."""
    database = TinyDB(folder / "tinydb.json")
    while True:
        kept = {document["id"]: document for document in database}
        client_id = f"client {chance.randrange(MOST_CLIENTS)}"
        count = kept[client_id]["document"]["count"] + 1 if client_id in kept else 1
        document = {"id": client_id, "document": new_client(client_id, count)}
        said = {"do": "save", "id": client_id, "count": count}
        if client_id in kept:
            number = kept[client_id].doc_id
            yield said, lambda n=number, d=document: database.update(d, doc_ids=[n])
        else:
            yield said, lambda d=document: database.insert(d)


def work(acts: Iterator[Act]) -> None:
    """Do one act after the other until killed."""
    for said, act in acts:
        _say("will", json.dumps(said))
        act()
        _say("did")


def _say(*words: str) -> None:
    os.write(1, (" ".join(words) + "\n").encode())  # one call, so that no line is half


def launch() -> None:
    """Take orders until there are no more."""
    quick_passcode()
    photos = photos_made()
    for order in iter(sys.stdin.readline, ""):
        which, seed, folder = order.rstrip("\n").split(" ", 2)
        worker = os.fork()
        if worker == 0:
            chance = random.Random(int(seed))
            _say("working", str(os.getpid()))
            try:
                work(Workroom(Path(folder), chance, photos).acts() if which == "ours"
                     else tinydb_acts(Path(folder), chance))  # fmt: skip
            except BaseException:
                _say("wrong", json.dumps(traceback.format_exc()))
            os._exit(1)
        os.waitpid(worker, 0)
        _say("ended")


if __name__ == "__main__":
    launch()
