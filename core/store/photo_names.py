"""Which photos a client's document names, where each lies, and which nothing names any more."""

import re
from collections.abc import Iterator, Mapping
from contextlib import suppress
from pathlib import Path
from typing import Any

from core.client.facts import entries
from core.store.shelf import Shelf

PHOTOS, THUMBNAILS = "photos", "thumbnails"

_NAME = re.compile(rf"{PHOTOS}/[^/\\:]*\.jpg")


def is_name(text: str) -> bool:
    """Tell whether a text is a photo's name; one that leads out of her folder is none."""
    return _NAME.fullmatch(text) is not None


def thumbnail_of_name(name: str) -> str:
    """Return where a photo's thumbnail is kept."""
    return f"{THUMBNAILS}/{Path(name).name}"


def named_in(document: Mapping[str, Any]) -> Iterator[str]:
    """Yield the file name of every photo a client's document names.

    One that leads out of her folder is no photo's name, and is left out.
    """
    for garment in entries(document, "garments"):
        for fitting in entries(garment, "fittings"):
            for photo in entries(fitting, "photos"):
                if isinstance(photo.get("file"), str) and is_name(photo["file"]):
                    yield photo["file"]


def sweep(shelf: Shelf, document: Mapping[str, Any]) -> None:
    """Delete the photos that the document does not name any more."""
    kept = {shelf.path(name) for name in named_in(document)}
    kept |= {shelf.path(thumbnail_of_name(name)) for name in named_in(document)}
    for folder in (PHOTOS, THUMBNAILS):
        with suppress(OSError):  # done again the next time
            for path in (shelf.folder / folder).iterdir():
                if path not in kept:
                    path.unlink()
