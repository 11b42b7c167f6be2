"""A bundle: one client's fitting file with her photos in one zip, or several clients'.

One client is ``client.json`` beside ``photos/``; several are ``bundle.json`` and a folder each
under ``clients/``.  A bundle is written beside its place, brought to the disk and only then put
there, and nothing goes into it that ``reading`` would refuse.
"""

import json
import os
import stat
import zipfile
import zlib
from collections.abc import Callable, Iterator, Mapping, Sequence
from contextlib import contextmanager, suppress
from dataclasses import dataclass
from functools import partial
from pathlib import Path
from typing import Any, BinaryIO

from core.bundle.clients import FORMAT, LARGEST_DOCUMENTS
from core.bundle.directory import MOST_MEMBERS
from core.bundle.members import MOST_SHRUNK
from core.bundle.names import CLIENT, LISTED, PHOTOS, SEALED
from core.bundle.photos import Content, unsafe_photo
from core.bundle.refusals import NotPacked, shown
from core.bundle.sealed import Envelope, numbered
from core.errors import BadFile
from core.file.fitting_file import LARGEST_BYTES, dump, parse, read_document
from core.photos import is_ours
from core.seal import Seal
from core.whole_file import replace_file, sync_folder, unfinished

Told = Callable[[int, int], None]
"""What is told of the progress: how many members are done, of how many."""

_PLAIN_FILE = (stat.S_IFREG | 0o600) << 16


@dataclass(frozen=True)
class Packed:
    """A client as a bundle holds her: her document and her photos are read when asked.

    So a bundle of thousands of clients never sits in memory.  Photos are by name (no folder).
    """

    id: str
    name: str
    read: Callable[[], dict[str, Any]]
    photos: Mapping[str, Content]

    @classmethod
    def of(cls, document: dict[str, Any], photos: Mapping[str, Content]) -> "Packed":
        """Return a client whose document is at hand."""
        client = document["client"]
        return cls(str(client["id"]), str(client["name"]), lambda: document, photos)


def untold(_done: int, _of: int) -> None:
    """Tell nobody of the progress."""


def write_bundle(
    path: Path,
    clients: Sequence[Packed],
    *,
    made: str,
    seal: tuple[Seal, Mapping[str, Any]] | None = None,
    told: Told = untold,
    many: bool | None = None,
    everything: bool = False,
) -> None:
    """Write clients and their photos into one zip, whole or not at all.

    ``made`` is when (ISO 8601); ``seal`` a seal with its wrapped key; ``many`` makes a list of
    clients even of one; ``everything`` says in it that these are all there were: a backup.
    ``told`` may raise ``Cancelled``: then, as in every other case, what
    was written so far is taken away again.  Raises ``NotPacked``, ``NoSealing``.
    """
    many = len(clients) != 1 if many is None else many
    if not clients or (len(clients) > 1 and not many):
        raise NotPacked("A bundle holds one client, or a list of them. Nothing was written")
    if seal is not None and seal[1].get("key_id") != seal[0].key_id:
        raise NotPacked("The passcode belongs to another seal. Nothing was written")
    _refuse_same_clients(clients)
    contents = _contents(clients, made, many, everything)
    if len(contents) + 2 > MOST_MEMBERS:
        raise NotPacked(f"A bundle holds at most {MOST_MEMBERS:,} files. Nothing was written")
    with _whole(path) as file, zipfile.ZipFile(file, "w") as packing:
        written = _written(contents, told)
        if seal is None:
            for name, content in written:
                _put(packing, name, content)
        else:
            _put_sealed(packing, *seal, list(contents), written)


def _put_sealed(
    packing: zipfile.ZipFile,
    seal: Seal,
    wrapped: Mapping[str, Any],
    names: Sequence[str],
    written: Iterator[tuple[str, bytes]],
) -> None:
    envelope = Envelope.new(seal, len(names))
    _put(packing, SEALED, envelope.head(wrapped))
    _put(packing, numbered(1), envelope.names(names))
    for number, (name, content) in enumerate(written, 2):
        _put(packing, numbered(number), envelope.closed(number, name, content))


def _contents(
    clients: Sequence[Packed], made: str, many: bool, everything: bool
) -> dict[str, Content]:  # fmt: skip
    """Return every member of the bundle in its order, its content when asked."""
    contents: dict[str, Content] = {}
    folders = [f"clients/{number:04}/" if many else "" for number in range(1, len(clients) + 1)]
    if many:
        listed = _listed(clients, folders, made, everything)
        contents[LISTED] = partial(bytes, listed)
    room = [LARGEST_DOCUMENTS]
    for client, folder in zip(clients, folders, strict=True):
        contents[folder + CLIENT] = partial(_document, client, room)
        for name, photo in client.photos.items():
            contents[f"{folder}{PHOTOS}{name}"] = partial(_photo, client, name, photo)
    return contents


def _listed(
    clients: Sequence[Packed], folders: Sequence[str], made: str, everything: bool
) -> bytes:  # fmt: skip
    entries = [
        {
            "folder": folder.split("/")[1],
            "id": client.id,
            "name": client.name,
            "photos": list(client.photos),
        }
        for client, folder in zip(clients, folders, strict=True)
    ]
    listed = {"format": FORMAT, "made": made, "everything": everything, "clients": entries}
    return json.dumps(listed, ensure_ascii=False, indent=1).encode("utf-8", "replace")


def _document(client: Packed, room: list[int]) -> bytes:
    """Return a client's file, read back as the bundle's reader will; ``room`` is what is left."""
    document = client.read()
    try:
        read_document(document)
        content = dump(document).encode()
        read_document(parse(content, CLIENT))
    except BadFile as wrong:
        raise NotPacked(
            f"{client.name} cannot be packed: {wrong}. Nothing was written, and she is as she was"
        ) from wrong
    room[0] -= len(content)
    if len(content) > LARGEST_BYTES or room[0] < 0:
        raise NotPacked(
            f"{client.name} makes the bundle larger than any tablet could read. Nothing was"
            " written: pack fewer clients at a time"
        )
    if file := unsafe_photo(document):
        raise NotPacked(
            f"{client.name} has a photo with a name that is none (“{shown(file)}”). Nothing was"
            " written"
        )
    return content


def _photo(client: Packed, name: str, photo: Content) -> bytes:
    try:
        content = photo()
    except OSError as wrong:
        raise NotPacked(
            f"A photo of {client.name} cannot be read ({wrong.strerror or wrong}). Nothing was"
            " written"
        ) from wrong
    if not is_ours(content, name):
        raise NotPacked(
            f"A photo of {client.name} is damaged ({shown(name)}). Nothing was written: take the"
            " photo out, or leave it out of the bundle"
        )
    return content


def _written(contents: Mapping[str, Content], told: Told) -> Iterator[tuple[str, bytes]]:
    """Yield the members one by one, and tell after each; the caller has written it by then."""
    told(0, len(contents))
    for done, (name, content) in enumerate(contents.items(), 1):
        yield name, content()
        told(done, len(contents))


def _put(packing: zipfile.ZipFile, name: str, content: bytes) -> None:
    """Write a member: JSON deflated, unless it shrinks so far that it would look like a trap."""
    member = zipfile.ZipInfo(name)  # without a date: the day is in the bundle's list
    member.external_attr = _PLAIN_FILE
    if name.endswith(".json") and len(zlib.compress(content)) * MOST_SHRUNK > len(content):
        member.compress_type = zipfile.ZIP_DEFLATED
    packing.writestr(member, content)


def _refuse_same_clients(clients: Sequence[Packed]) -> None:
    seen: set[str] = set()
    for client in clients:
        own = client.id
        if own in seen:
            raise NotPacked(f"{client.name} is in the bundle twice. Nothing was written")
        seen.add(own)


@contextmanager
def _whole(path: Path) -> Iterator[BinaryIO]:
    """Give a file that is put in place when it is whole, and is gone where anything went wrong.

    Raises ``NotPacked`` where the disk does not take it.
    """
    beside = unfinished(path)
    try:
        try:
            with beside.open("wb") as file:
                yield file
                file.flush()
                os.fsync(file.fileno())
            replace_file(beside, path)
        except BaseException:
            with suppress(OSError):
                beside.unlink()  # a full disk needs the room
            raise
    except OSError as wrong:
        raise NotPacked(
            f"{path.name} could not be written ({wrong.strerror or wrong}). Nothing was left"
            " behind, and what had its name before is as it was: choose another place, or make"
            " room, and try again"
        ) from wrong
    with suppress(OSError):  # not every memory stick can; the file itself is on the disk
        sync_folder(path.parent)
