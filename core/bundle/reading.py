"""Reading a bundle: everything in it is checked before anything of it is handed out."""

from collections.abc import Iterator, Mapping, Sequence
from contextlib import contextmanager
from dataclasses import dataclass
from functools import partial
from pathlib import Path
from typing import Any

from core.bundle.clients import LARGEST_DOCUMENTS, Place, places
from core.bundle.members import Members, open_members
from core.bundle.names import PHOTOS, SEALED, folded, kind_of, sorted_out
from core.bundle.packing import Packed, Told, untold
from core.bundle.photos import (
    Content,
    Source,
    checked_photo,
    named_photos,
    rename_photos,
    unsafe_photo,
)
from core.bundle.refusals import BadBundle, inside, shown
from core.bundle.sealed import unsealed
from core.file.fitting_file import LARGEST_BYTES, parse, read_document


@dataclass(frozen=True)
class Bundle:
    """What an open bundle holds; its photos can be read as long as it is open.

    ``everything`` is true for a backup; ``missing`` are photos that a document names and the
    bundle has not, ``unnamed`` photos that no document names, each as “client: photo”;
    ``left_aside`` what other programs put in.
    """

    clients: tuple[Packed, ...]
    sealed: bool
    made: str
    everything: bool
    left_aside: tuple[str, ...]
    missing: tuple[str, ...]
    unnamed: tuple[str, ...]


@contextmanager
def open_bundle(
    path: Path, passcode: str | None = None, *, told: Told = untold
) -> Iterator[Bundle]:
    """Give what a bundle holds, all of it checked; nothing is written anywhere.

    ``told`` hears how many members were checked, of how many, and may raise ``Cancelled``.
    Raises ``NeedsPasscode``, ``WrongPasscode``, ``NoSealing``, and ``BadBundle`` (a ``BadFile``)
    where anything in it is not as it should be.
    """
    with open_members(path) as members:
        yield _checked(members, passcode, told)


def _checked(members: Members, passcode: str | None, told: Told) -> Bundle:
    kind = kind_of(members.names)
    names, aside = sorted_out(members.bundle, members.names, kind)
    source: Source = members
    if kind == SEALED:
        source = unsealed(members, names, passcode)
        names, more = sorted_out(members.bundle, source.names, _kind_inside(source))
        aside += more
    found, made, everything = places(source, names)
    checking = _Checking(source, told, sum(1 + len(place.photos) for place in found))
    checked = [_client(checking, place) for place in found]
    _refuse_same_clients(members.bundle, found, [packed for packed, _, _ in checked])
    return Bundle(
        clients=tuple(packed for packed, _, _ in checked),
        sealed=kind == SEALED,
        made=made,
        everything=everything,
        left_aside=aside,
        missing=tuple(said for _, missing, _ in checked for said in missing),
        unnamed=tuple(said for _, _, unnamed in checked for said in unnamed),
    )


def _kind_inside(source: Source) -> str:
    kind = kind_of(source.names)
    if kind == SEALED:
        raise BadBundle(source.bundle, "holds another sealed bundle, which is not read here")
    return kind


class _Checking:
    """How far the checking of a bundle is, and how much room is left for clients' files."""

    def __init__(self, source: Source, told: Told, of: int) -> None:
        self.source = source
        self._told, self._done, self._of = told, 0, of
        self._room = LARGEST_DOCUMENTS
        told(0, of)

    def count(self) -> None:
        self._done += 1
        self._told(self._done, self._of)

    def read_document(self, member: str) -> dict[str, Any]:
        """Return a client's document in the newest format."""
        bundle = self.source.bundle
        content = self.source.read(member)
        self._room -= len(content)
        if len(content) > LARGEST_BYTES:
            raise BadBundle(f"{bundle}: {member}", "is larger than any client’s file could be")
        if self._room < 0:
            raise BadBundle(bundle, "holds more than any dressmaker’s clients could be")
        with inside(bundle, member):
            return read_document(parse(content, member)).data


def _client(
    checking: _Checking, place: Place
) -> tuple[Packed, list[str], list[str]]:  # fmt: skip
    """Return a client, photos named and missing, and photos there and not named."""
    document = checking.read_document(place.file)
    checking.count()
    if file := unsafe_photo(document):
        raise BadBundle(
            f"{checking.source.bundle}: {place.file}",
            f"a photo’s name leads out of the bundle: “{shown(file)}”",
        )
    photos: dict[str, Content] = {}
    names: dict[str, str] = {}
    for member in place.photos:
        photo = checked_photo(checking.source, member)
        photos[photo.name] = photo.content
        names[folded(member.rpartition("/")[2])] = photo.name
        checking.count()
    rename_photos(document, names)
    again = partial(_read_again, checking.source, place.file, names)
    client, named = document["client"], named_photos(document)
    packed = Packed(str(client["id"]), str(client["name"]), again, photos)
    there = {PHOTOS + name for name in photos}
    missing = [f"{packed.name}: {shown(file)}" for file in named if file not in there]
    unnamed = [f"{packed.name}: {file}" for file in sorted(there - set(named))]
    return packed, missing, unnamed


def _read_again(source: Source, member: str, names: Mapping[str, str]) -> dict[str, Any]:
    """Return a document as it was checked; it is not kept, as there may be thousands."""
    with inside(source.bundle, member):
        document = read_document(parse(source.read(member), member)).data
    rename_photos(document, names)
    return document


def _refuse_same_clients(
    bundle: str, found: Sequence[Place], clients: Sequence[Packed]
) -> None:  # fmt: skip
    """Refuse two clients with one id, and a client who is not who the list says she is."""
    seen: set[str] = set()
    for place, client in zip(found, clients, strict=True):
        own = client.id
        if place.id not in (None, own):
            raise BadBundle(f"{bundle}: {place.file}", "is not the client that the list names")
        if own in seen:
            raise BadBundle(f"{bundle}: {place.file}", "has the id of another client in it")
        seen.add(own)
