"""The clients of a bundle: where each stands in it, and what its list says of them."""

from collections.abc import Sequence
from dataclasses import dataclass

from core.bundle.names import CLIENT, LISTED, PHOTOS, is_folder_name
from core.bundle.photos import Source
from core.bundle.refusals import BadBundle, inside, shown
from core.file.field import Field
from core.file.fitting_file import parse

FORMAT = "pins-to-seams-bundle/1"
LARGEST_DOCUMENTS = 2_000_000_000
"""Bytes of all clients' files together; one is held in memory at a time."""


@dataclass(frozen=True, slots=True)
class Place:
    """Where one client stands in a bundle; ``id`` is what the list says, if there is one."""

    folder: str
    photos: tuple[str, ...]
    id: str | None = None

    @property
    def file(self) -> str:
        return self.folder + CLIENT


def places(source: Source, members: Sequence[str]) -> tuple[tuple[Place, ...], str, bool]:
    """Return every client's place, when the bundle was made, and whether it is everything.

    Raises ``BadBundle`` where the list and what is there are not the same.
    """
    if LISTED not in members:
        if CLIENT not in members:
            raise BadBundle(source.bundle, f"is a bundle without {CLIENT}")
        photos = tuple(name for name in members if name.startswith(PHOTOS))
        return (Place("", photos),), "", False
    with inside(source.bundle, LISTED):
        listed = _list(source)
        found = tuple(_place(entry) for entry in listed["clients"].each())
        made, everything = listed["made"].text(), listed["everything"].value is True
    _refuse_other(source.bundle, found, members)
    return found, made, everything


def _list(source: Source) -> Field:
    listed = Field(parse(source.read(LISTED), LISTED), "", "in")
    form = listed["format"].text(None)
    if form != FORMAT:
        listed["format"].refuse(
            f"“{shown(form)}” is not {FORMAT}; a newer program may have made this bundle"
        )
    return listed


def _place(entry: Field) -> Place:
    folder = entry["folder"].text(None)
    if not is_folder_name(folder):
        entry["folder"].refuse(f"“{shown(folder)}” is no folder of a bundle")
    inner = f"clients/{folder}/"
    photos = tuple(f"{inner}{PHOTOS}{photo.text(None)}" for photo in entry["photos"].each())
    return Place(inner, photos, entry["id"].text(None))


def _refuse_other(bundle: str, found: Sequence[Place], members: Sequence[str]) -> None:
    """Refuse what is listed and not there, there and not listed, or listed twice."""
    listed = [LISTED]
    for place in found:
        listed += [place.file, *place.photos]
    for name in sorted(set(listed) - set(members)):
        raise BadBundle(bundle, f"“{shown(name)}” is on its list and not in it")
    for name in sorted(set(members) - set(listed)):
        raise BadBundle(bundle, f"“{shown(name)}” is in it and not on its list")
    if len(listed) != len(members):
        raise BadBundle(bundle, "its list names something twice")
    if not found:
        raise BadBundle(bundle, "holds no client")
