"""Changes to the photos of a fitting, on a copy; and a photo read aside and kept at its fitting."""

from pathlib import Path
from typing import Any

from core.errors import NotFound
from core.file.fitting_file import FittingFile, read_document
from core.photos import Photo, read_photo
from core.store.photos import add_photo
from screens.door import Document
from screens.edits import Place
from screens.shown import Chosen
from screens.view import Seen
from screens.workroom import Workroom


def keep_photo(room: Workroom, seen: Seen, path: Path, view: str, at: Chosen) -> None:
    """Have a photo read aside and kept at the fitting it was taken ``at``.

    It belongs there, whatever is opened meanwhile; taking it back leads to what was ``seen``.
    """

    def kept(photo: Photo) -> None:
        room.attempt(lambda: _keep(room, seen, photo, view, at), clears=False)

    room.aside.run("Reading the photo", lambda _: read_photo(path), kept, room.say)


def _keep(room: Workroom, seen: Seen, photo: Photo, view: str, at: Chosen) -> None:
    name = add_photo(room.store, seen.client_id, photo)

    def edit(document: Document) -> None:
        place = place_of(read_document(document), at.garment, at.fitting)
        add(place.fitting_in(document), name, view)

    room.change_late(seen, edit)


def place_of(file: FittingFile, garment_id: str, fitting_id: str) -> Place:
    """Return where a fitting stands in the document; raises ``NotFound``."""
    for at, garment in enumerate(file.garments):
        for which, fitting in enumerate(garment.fittings):
            if (garment.id, fitting.id) == (garment_id, fitting_id):
                return Place(at, which)
    raise NotFound("The fitting of this photo is not here any more, so the photo was not kept")


def add(fitting: dict[str, Any], file: str, view: str) -> None:
    """Name a photo in its fitting; ``file`` is what the store calls it."""
    fitting["photos"] = [*_photos(fitting), {"file": file, "view": view}]


def mark(fitting: dict[str, Any], index: int, x: float, y: float, text: str) -> None:
    """Mark a place on a photo: shares of its width and height from the top left."""
    photo = _photo(fitting, index)
    place = {"x": round(min(max(x, 0.0), 1.0), 4), "y": round(min(max(y, 0.0), 1.0), 4)}
    photo["marks"] = [*(photo.get("marks") or ()), {**place, "text": text}]


def remove(fitting: dict[str, Any], index: int) -> None:
    """Take a photo out of its fitting; the store deletes it once nothing names it any more."""
    _photo(fitting, index)
    del fitting["photos"][index]


def _photos(fitting: dict[str, Any]) -> list[dict[str, Any]]:
    return list(fitting.get("photos") or ())


def _photo(fitting: dict[str, Any], index: int) -> dict[str, Any]:
    photos = _photos(fitting)
    if not 0 <= index < len(photos):
        raise NotFound("This photo is not here any more")
    return photos[index]
