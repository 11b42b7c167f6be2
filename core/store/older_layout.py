"""Clients kept by the first version, one flat file each, brought into folders of their own."""

import json
import os
from collections.abc import Mapping
from pathlib import Path
from typing import Any
from urllib.parse import unquote
from uuid import uuid4

from core.seal import Seal
from core.store.arrivals import CLIENTS, arrival
from core.store.client_file import ClientFile
from core.store.folders import folder_for
from core.store.generations import CURRENT, OLDER
from core.store.shelf import Shelf

_CURRENT, _BEFORE, _UNFINISHED = ".json", ".json.bak", ".json.new"


def bring_forward(root: Path, now: str, seal: Seal | None = None) -> None:
    """Move every flat file of the first version into a folder, all at once.

    The copy of the save before becomes the older file beside it.  One that cannot be read is
    kept as it is, for the client's own reading to find out and tell.
    """
    flat: dict[str, dict[str, Path]] = {}
    for file in _flat_files(root):
        name = file.partition(_CURRENT)[0]
        flat.setdefault(name, {})[file.removeprefix(name)] = root / CLIENTS / file
    if not flat:
        return
    with arrival(root) as coming:
        for name, files in flat.items():
            folder = folder_for(unquote(name), seal)
            _bring(files, Shelf(coming.clients / folder, folder, seal), now)
        coming.settle(going=[path.name for files in flat.values() for path in files.values()])


def _flat_files(root: Path) -> list[str]:
    """Return the names of the files among the folders; there may be thousands of those."""
    try:
        with os.scandir(root / CLIENTS) as entries:
            return sorted(each.name for each in entries if _CURRENT in each.name and each.is_file())
    except FileNotFoundError:
        return []


def _bring(files: Mapping[str, Path], shelf: Shelf, now: str) -> None:
    """Write one client's flat files, by their endings, to a shelf."""
    before, current = _document(files.get(_BEFORE)), _document(files.get(_CURRENT))
    client = ClientFile(shelf)
    for document in filter(None, (before, current)):
        client.keep(document, now=now, new_uuid=lambda: str(uuid4()))
    if before is not None and current is None:
        shelf.put_aside(CURRENT, OLDER[0])
    unread = {_BEFORE: None if before else OLDER[0], _CURRENT: None if current else CURRENT}
    unread[_UNFINISHED] = None  # it never was the client's file
    for number, (ending, path) in enumerate(files.items(), 1):
        name = unread.get(ending, f"client.spoilt-{number}.json")
        if name is not None:
            shelf.write(name, path.read_bytes())


def _document(path: Path | None) -> dict[str, Any] | None:
    """Return the document in a flat file; ``None`` where there is none, or it is spoilt."""
    if path is None:
        return None
    try:
        document: dict[str, Any] = json.loads(path.read_bytes())["_default"]["1"]["document"]
        return document if isinstance(document["client"]["id"], str) else None
    except (OSError, ValueError, KeyError, TypeError):
        return None
