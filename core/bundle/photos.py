"""The photos of a bundle: each read once before anything is used, and named by its content.

A photo as this program keeps it is taken as it is.  Any other is made anew, so that the place,
the time and whatever else a camera or a person wrote into it does not come in with it; it then
has another name, which is put into the document.
"""

import hashlib
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from typing import Any, Protocol

from core.bundle.names import PHOTOS, folded, wrong_with
from core.bundle.refusals import BadBundle, shown
from core.photos import BadPhoto, Photo, is_ours, read_photo

Content = Callable[[], bytes]


class Source(Protocol):
    """The members of a bundle, sealed or not."""

    bundle: str

    @property
    def names(self) -> tuple[str, ...]: ...

    def size(self, name: str) -> int: ...

    def read(self, name: str) -> bytes: ...


@dataclass(frozen=True, slots=True)
class CheckedPhoto:
    """A photo that was read: the name it is kept under, and its bytes when asked."""

    name: str
    content: Content


def checked_photo(source: Source, member: str) -> CheckedPhoto:
    """Read a photo; raises ``BadBundle`` where it is none."""
    content = source.read(member)
    name = member.rpartition("/")[2]
    ours = is_ours(content, name)
    if not ours:
        name = _made_anew(source.bundle, member, content).name
    mark = hashlib.sha256(content).digest()
    return CheckedPhoto(name, lambda: _again(source, member, mark, ours))


def _again(source: Source, member: str, mark: bytes, ours: bool) -> bytes:
    """Return a photo's bytes as they were checked, though the file may have changed since."""
    content = source.read(member)
    if hashlib.sha256(content).digest() != mark:
        raise BadBundle(source.bundle, f"“{shown(member)}” was changed while it was being read")
    return content if ours else _made_anew(source.bundle, member, content).content


def _made_anew(bundle: str, member: str, content: bytes) -> Photo:
    """Return the photo to keep; the same content always gives the same one."""
    try:
        return read_photo(content, called=member)
    except BadPhoto as wrong:
        raise BadBundle(bundle, str(wrong)) from None


def rename_photos(document: dict[str, Any], names: Mapping[str, str]) -> None:
    """Put new names of photos into a document; ``names`` are old ones, folded, to new ones."""
    for place, key, file in _references(document):
        new = names.get(folded(file.removeprefix(PHOTOS)))
        if new is not None and file.startswith(PHOTOS):
            place[key] = PHOTOS + new


def named_photos(document: Mapping[str, Any]) -> list[str]:
    """Return every photo that a document names, once each (``photos/…``)."""
    return list(dict.fromkeys(file for _, _, file in _references(document)))


def unsafe_photo(document: Mapping[str, Any]) -> str | None:
    """Return a photo's name that leads out of the client's folder, if the document has one."""
    return next((file for file in named_photos(document) if wrong_with(file)), None)


def _references(document: Mapping[str, Any]) -> Iterator[tuple[dict[str, Any], str, str]]:
    """Yield where a fitting names a photo: the object, the field, and the name in it."""
    for garment in _objects(document.get("garments")):
        for fitting in _objects(garment.get("fittings")):
            for name, key in (("photos", "file"), ("marks", "photo")):
                for entry in _objects(fitting.get(name)):
                    if isinstance(entry.get(key), str) and entry[key]:
                        yield entry, key, entry[key]


def _objects(value: Any) -> list[dict[str, Any]]:
    """Return the objects of a list; the file's own rules do not look at photos."""
    entries = value if isinstance(value, list) else []
    return [entry for entry in entries if isinstance(entry, dict)]
