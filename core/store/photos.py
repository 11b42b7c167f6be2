"""The photos of a client, kept beside her file, each named by its content."""

from collections.abc import Mapping
from contextlib import suppress
from pathlib import Path
from typing import TYPE_CHECKING, Any

from core.errors import Damaged, NotFound, WorkroomError
from core.photos import BadPhoto, Photo, is_ours, thumbnail_of
from core.store.disk import told
from core.store.photo_names import PHOTOS, is_name, named_in, thumbnail_of_name
from core.store.shelf import Shelf

if TYPE_CHECKING:
    from core.store.clients import Store


class NoConsent(WorkroomError):
    """A photo may not be kept: the client was not asked, or said no."""


def add_photo(store: "Store", client_id: str, photo: Photo) -> str:
    """Keep a photo; return its name for the document (``photos/…``).

    The photo is safe on the disk when this returns, before any document names it.  Raises
    ``NoConsent`` where the client has not agreed to photos, ``NotSaved`` where it cannot be kept.
    """
    file = store.file(client_id)
    if not file.document()["client"].get("photo_consent"):
        raise NoConsent(
            "This client has not agreed to photos, so none is kept. Ask her first, and enter the"
            " day she agreed"
        )
    name = f"{PHOTOS}/{photo.name}"
    with told():
        put(file.shelf, name, photo.content, photo.thumbnail)
    return name


def put(shelf: Shelf, name: str, content: bytes, thumbnail: bytes | None = None) -> None:
    """Put a photo and its thumbnail on a client's shelf, if it is not there yet."""
    if not shelf.has(name):
        with suppress(BadPhoto):  # what is damaged is kept as it is, for ``check`` to find
            shelf.write(thumbnail_of_name(name), thumbnail or thumbnail_of(content))
        shelf.write(name, content)


def read_photo(store: "Store", client_id: str, name: str) -> bytes:
    """Return a photo as JPEG; raises ``NotFound`` or ``Damaged``."""
    return _read(store, client_id, name, name)


def read_thumbnail(store: "Store", client_id: str, name: str) -> bytes:
    """Return a small picture of a photo; one that is lost or damaged is made again."""
    try:
        return _read(store, client_id, name, thumbnail_of_name(name))
    except (NotFound, Damaged):
        return thumbnail_of(read_photo(store, client_id, name))


def is_good(shelf: Shelf, name: str) -> bool:
    """Tell whether a photo is there, can be read, and is the one that its name says."""
    try:
        return is_ours(shelf.read(name), Path(name).name)
    except (OSError, Damaged):
        return False


def copy(source: Shelf, target: Shelf, document: Mapping[str, Any]) -> None:
    """Copy the photos a document names from one shelf to another; a missing one is left out."""
    for photo in dict.fromkeys(named_in(document)):
        with suppress(FileNotFoundError):
            put(target, photo, source.read(photo))


def _read(store: "Store", client_id: str, photo: str, name: str) -> bytes:
    shelf = store.file(client_id).shelf
    if is_name(photo):
        with suppress(OSError):
            return shelf.read(name)
    raise NotFound("This photo is not here any more")
