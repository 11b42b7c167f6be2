"""The members of a zip, all of them checked before the first is read.

Python's own reader finds the list of members; what the list says is then held against the bytes,
because a zip made to do harm says one thing and holds another.  Allowed is what
ISO/IEC 21320-1 allows of the format: stored or deflated, in one part, not encrypted.  Nothing is
ever unpacked to the disk, and a member is never larger in memory than it said it would be.
"""

import stat
import struct
import zipfile
import zlib
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import BinaryIO

from core.bundle.directory import directory_of
from core.bundle.names import refuse_unsafe, wrong_with
from core.bundle.refusals import BadBundle, shown

LARGEST_MEMBER = 61_000_000
"""Bytes; a client's file is at most 50 MB, a photo 60 MB, and sealing adds a little."""

LARGEST_TOTAL = 50_000_000_000
MOST_SHRUNK, SHRUNK_FROM = 100, 1_000_000
"""A client's file of more than a megabyte shrinks to a tenth, never to less than a hundredth."""

_HEAD = struct.Struct("<4s5H3L2H")
_LOCKED, _LATER, _UTF8 = 0x0001, 0x0008, 0x0800
_REFUSED_FLAGS = _LOCKED | 0x0020 | 0x0040 | 0x2000
"""Encrypted in one of three ways, or a patch to another file."""

_NOT_SAID = 0xFFFFFFFF
_LINK_OR_LABEL = 0x0408
"""The attributes of a disk's label and of a link, as Windows writes them."""


@dataclass(frozen=True, slots=True)
class Member:
    """Where a member's bytes stand in the zip, and what they become."""

    name: str
    head_at: int
    at: int
    packed_bytes: int
    content_bytes: int
    crc: int
    deflated: bool


class Members:
    """The checked members of an open zip; folders are named too, with nothing in them."""

    def __init__(self, bundle: str, file: BinaryIO, members: Sequence[Member]) -> None:
        self.bundle = bundle
        self._file = file
        self._members = {member.name: member for member in members}

    @property
    def names(self) -> tuple[str, ...]:
        return tuple(self._members)

    def size(self, name: str) -> int:
        """Return how many bytes a member will have when it is read."""
        return self._members[name].content_bytes

    def read(self, name: str) -> bytes:
        """Return a member's content; raises ``BadBundle`` where it is not what was said."""
        member = self._members[name]
        if self._file.closed:
            raise BadBundle(self.bundle, "was closed before all of it was read")
        try:
            self._file.seek(member.at)
            packed = self._file.read(member.packed_bytes)
        except OSError as wrong:
            raise _unreadable(self.bundle, wrong) from None
        content = _inflated(packed, member.content_bytes) if member.deflated else packed
        if content is None or len(content) != member.content_bytes:
            raise BadBundle(self.bundle, f"“{shown(name)}” is damaged, or not as long as it says")
        if zlib.crc32(content) != member.crc:
            raise BadBundle(self.bundle, f"“{shown(name)}” is damaged")
        return content


@contextmanager
def open_members(path: Path) -> Iterator[Members]:
    """Give the members of a zip; raises ``BadBundle`` where any of them is not as it should be."""
    try:
        if path.exists() and not path.is_file():
            raise BadBundle(path.name, "is not a file")
        file = path.open("rb")
    except FileNotFoundError:
        raise BadBundle(path.name, "there is no such file") from None
    except (OSError, ValueError) as wrong:
        raise _unreadable(path.name, wrong) from None
    with file:
        try:
            members = _members(path.name, file)
        except OSError as wrong:
            raise _unreadable(path.name, wrong) from None
        yield Members(path.name, file, members)


def _members(bundle: str, file: BinaryIO) -> list[Member]:
    directory = directory_of(bundle, file)
    infos = _infos(bundle, file, directory.members)
    for info in infos:
        for wrong in (_name_is_wrong, _kind_is_wrong, _packing_is_wrong, _size_is_wrong):
            if why := wrong(info):
                raise BadBundle(bundle, f"“{shown(info.orig_filename)}” {why}")
        if info.header_offset >= directory.at:
            raise BadBundle(bundle, f"“{shown(info.filename)}” is not where the list says")
    refuse_unsafe(bundle, (info.filename for info in infos))
    if sum(info.file_size for info in infos) > LARGEST_TOTAL:
        raise BadBundle(bundle, "would unpack to more than all clients together could have")
    members = [_member(bundle, file, info) for info in infos]
    _refuse_overlapping(bundle, members, directory.at)
    return members


def _infos(bundle: str, file: BinaryIO, count: int) -> list[zipfile.ZipInfo]:
    try:
        with zipfile.ZipFile(file) as found:
            infos = found.infolist()
    except (zipfile.BadZipFile, ValueError, RuntimeError, struct.error, EOFError):
        raise BadBundle(bundle, "is damaged: its list of members cannot be read") from None
    if len(infos) != count:
        raise BadBundle(bundle, "is damaged: its list of members is not as long as it says")
    return infos


def _name_is_wrong(info: zipfile.ZipInfo) -> str | None:
    if info.filename != info.orig_filename:
        return wrong_with(info.orig_filename) or "has two names"
    return wrong_with(info.filename)


def _kind_is_wrong(info: zipfile.ZipInfo) -> str | None:
    folder = info.filename.endswith("/")
    kind = stat.S_IFMT(info.external_attr >> 16)
    allowed = (0, stat.S_IFDIR) if folder else (0, stat.S_IFREG)
    if kind not in allowed or info.external_attr & _LINK_OR_LABEL:
        return "is a link or something else that is no plain file"
    if folder and info.file_size:
        return "is a folder, yet holds something itself"
    return None


def _packing_is_wrong(info: zipfile.ZipInfo) -> str | None:
    if info.flag_bits & _REFUSED_FLAGS:
        return "is locked with a password of the zip itself, which is not read here"
    if info.compress_type not in (zipfile.ZIP_STORED, zipfile.ZIP_DEFLATED):
        return "is packed in a way that is not read here"
    if info.compress_type == zipfile.ZIP_STORED and info.file_size != info.compress_size:
        return "is not as long as it says"
    return None


def _size_is_wrong(info: zipfile.ZipInfo) -> str | None:
    if max(info.file_size, info.compress_size) > LARGEST_MEMBER:
        return "is larger than anything of a client could be"
    if info.file_size > max(SHRUNK_FROM, MOST_SHRUNK * info.compress_size):
        return "would unpack to far more than it is, as nothing of a client does"
    return None


def _member(bundle: str, file: BinaryIO, info: zipfile.ZipInfo) -> Member:
    """Return a member whose own header says the same as the list does."""
    file.seek(info.header_offset)
    head = file.read(_HEAD.size)
    if len(head) != _HEAD.size or not head.startswith(b"PK\3\4"):
        raise BadBundle(bundle, f"“{shown(info.filename)}” is not where the list says")
    _, _, flags, method, _, _, crc, packed, size, name_length, more = _HEAD.unpack(head)
    name = file.read(name_length)
    encoding = "utf-8" if info.flag_bits & _UTF8 else "cp437"
    same = name.decode(encoding, "replace") == info.orig_filename
    same &= method == info.compress_type
    same &= not (flags ^ info.flag_bits) & (_LOCKED | _LATER | _UTF8)
    if not flags & _LATER:  # else its sizes are told behind it
        said = ((crc, info.CRC), (packed, info.compress_size), (size, info.file_size))
        same &= all(own in (listed, _NOT_SAID) for own, listed in said)
    if not same:
        raise BadBundle(bundle, f"“{shown(info.filename)}” is not what the list says it is")
    return Member(
        info.filename,
        info.header_offset,
        info.header_offset + _HEAD.size + name_length + more,
        info.compress_size,
        info.file_size,
        info.CRC,
        info.compress_type == zipfile.ZIP_DEFLATED,
    )


def _refuse_overlapping(bundle: str, members: Sequence[Member], directory_at: int) -> None:
    ordered = sorted(members, key=lambda member: (member.head_at, member.at))
    ends = [member.at + member.packed_bytes for member in ordered]
    for member, end, limit in zip(
        ordered, ends, [*(after.head_at for after in ordered[1:]), directory_at], strict=False
    ):
        if end > limit:
            raise BadBundle(bundle, f"“{shown(member.name)}” runs into what comes after it")


def _inflated(packed: bytes, content_bytes: int) -> bytes | None:
    """Return what deflated bytes become; ``None`` where it is not this long or not whole."""
    unpacking = zlib.decompressobj(-zlib.MAX_WBITS)
    try:
        content = unpacking.decompress(packed, content_bytes + 1)
    except zlib.error:
        return None
    return content if unpacking.eof and not unpacking.unused_data else None


def _unreadable(bundle: str, wrong: Exception) -> BadBundle:
    said = wrong.strerror if isinstance(wrong, OSError) else None
    return BadBundle(bundle, f"cannot be read: {said or wrong}")
