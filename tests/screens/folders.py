"""Folders of clients as an app may find them: sealed, in use, due for a backup, without anybody."""

import copy
import json
from contextlib import contextmanager
from uuid import UUID

from core.resources import RESOURCES
from core.store.clients import Store
from core.store.passcode import set_passcode

DEMO = json.loads((RESOURCES / "demo" / "moss_green_sheath.json").read_text(encoding="utf-8"))
DEMO_ID = DEMO["client"]["id"]
PASSCODE = "green ribbon"
OTHER_ID = str(UUID(int=1))


def another(number=1, name="Zenobia Larkspur"):
    """Another client, with the demo's garment and its one fitting."""
    document = copy.deepcopy(DEMO)
    document["client"] = {"id": str(UUID(int=number)), "name": name}
    return document


def fill(folder, *documents):
    with Store(folder) as store:
        for document in documents:
            store.save(document)


def empty(folder):
    """Everybody was deleted, so nobody is brought in again."""
    with Store(folder) as store:
        store.save(DEMO)
        store.delete(DEMO_ID)


def sealed(folder, *documents):
    fill(folder, *(documents or (DEMO,)))
    with Store(folder) as store:
        set_passcode(store, PASSCODE)


def due_for_backup(folder):
    """As many fittings as call for a backup."""
    fill(folder, DEMO, *(another(number, f"Client {number:02}") for number in range(1, 10)))


def open_changes(hand, client_id=""):
    """Open a client, or the first who can be read, on her changes; where there is any."""
    rows = [row for row in hand.app.room.store.clients() if not row.damaged]
    if client_id or rows:
        hand.app.room.open_client(client_id or rows[0].id, "changes")
        hand.frames(3)


@contextmanager
def in_use(folder):
    """Another copy has the folder."""
    with Store(folder) as store:
        store.save(DEMO)
        yield store
