"""Clients kept by the first version, one flat file each, brought into folders of their own."""

import json
from pathlib import Path
from typing import Any
from urllib.parse import unquote
from uuid import uuid4

from core.store.arrivals import CLIENTS, Arrival, arrival
from core.store.client_file import ClientFile
from core.store.folders import folder_for
from core.store.generations import CURRENT
from core.store.shelf import Shelf


def bring_forward(root: Path, now: str) -> None:
    """Move every flat file of the first version into a folder, all at once.

    One that cannot be read keeps its content, and is listed as damaged.
    """
    flat = sorted(path for path in (root / CLIENTS).glob("*.json*") if path.is_file())
    if not flat:
        return
    with arrival(root) as coming:
        for name in dict.fromkeys(path.name.partition(".json")[0] for path in flat):
            _bring(root / CLIENTS / f"{name}.json", unquote(name), coming, now)
        coming.settle(going=[path.name for path in flat])


def _bring(path: Path, client_id: str, coming: Arrival, now: str) -> None:
    folder = folder_for(client_id)
    shelf = Shelf(coming.clients / folder, folder)
    for source in (path, path.with_name(path.name + ".bak")):
        try:
            document = _document(source.read_bytes())
        except (OSError, ValueError, KeyError, TypeError):
            continue
        ClientFile(shelf).keep(document, now=now, new_uuid=lambda: str(uuid4()))
        return
    if path.exists():
        shelf.write(CURRENT, path.read_bytes())


def _document(content: bytes) -> dict[str, Any]:
    document: dict[str, Any] = json.loads(content)["_default"]["1"]["document"]
    str(document["client"]["id"])
    return document
