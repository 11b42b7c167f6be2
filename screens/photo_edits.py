"""Changes to a client's agreement to photos and to the photos of a fitting, on a copy."""

from datetime import date
from typing import Any

from core.errors import NotFound, WorkroomError
from core.fitting_file import FittingFile
from screens.edits import Place


class BadDay(WorkroomError):
    """The day of an agreement is not a day."""


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


def agree(document: dict[str, Any], day: str) -> None:
    """Write down the day the client agreed to photos (ISO 8601); raises ``BadDay``."""
    try:
        agreed = date.fromisoformat(day)
    except ValueError:
        raise BadDay(f"“{day}” is not a day like 2026-03-02, so nothing was written down") from None
    document["client"]["photo_consent"] = agreed.isoformat()


def withdraw(document: dict[str, Any]) -> None:
    """Take the agreement away; photos stay until they are removed, and none come in."""
    document["client"].pop("photo_consent", None)


def _photos(fitting: dict[str, Any]) -> list[dict[str, Any]]:
    return list(fitting.get("photos") or ())


def _photo(fitting: dict[str, Any], index: int) -> dict[str, Any]:
    photos = _photos(fitting)
    if not 0 <= index < len(photos):
        raise NotFound("This photo is not here any more")
    return photos[index]
