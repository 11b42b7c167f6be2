"""Where a zip keeps the list of its members: the record at its very end says so.

The record is read here before Python's own reader sees it, because that one takes what stands
before and behind a zip in good part, and as much memory as the record asks for.  The
layout is that of ISO/IEC 21320-1 and the zip specification it names.
"""

import struct
from dataclasses import dataclass
from typing import BinaryIO

from core.bundle.refusals import BadBundle

MOST_MEMBERS = 400_000

_LARGEST_DIRECTORY = 50_000_000
_LONGEST_COMMENT = 0xFFFF
_END, _END_64 = struct.Struct("<4s4H2LH"), struct.Struct("<4sQ2H2L4Q")
_LOCATOR_64 = struct.Struct("<4sLQL")
_LARGE_BYTES = _END_64.size + _LOCATOR_64.size
"""What stands before the end where there are more than 4 GB or 65,535 members."""


@dataclass(frozen=True, slots=True)
class Directory:
    """Where the list of members starts, and how many it says there are."""

    at: int
    members: int


def directory_of(bundle: str, file: BinaryIO) -> Directory:
    """Return where the list of members stands, read from the record at the zip's end.

    Raises ``BadBundle`` where the zip is cut short, has anything behind its end, or is one of
    several parts; ``OSError``.
    """
    size = file.seek(0, 2)
    tail_at = max(0, size - _LONGEST_COMMENT - _END.size - _LARGE_BYTES)
    file.seek(tail_at)
    tail = file.read()
    found = tail.rfind(b"PK\5\6")
    if found < 0 or len(tail) - found < _END.size:
        raise BadBundle(bundle, "is not a whole zip file: its end is missing")
    _, disk, first, here, count, length, at, comment = _END.unpack_from(tail, found)
    if found + _END.size + comment != len(tail):
        raise BadBundle(bundle, "is not a whole zip file: something stands behind its end")
    end = tail_at + found
    before = tail[max(0, found - _LARGE_BYTES) : found]
    if before[-_LOCATOR_64.size :].startswith(b"PK\6\7"):
        end -= _LARGE_BYTES
        disk, first, here, count, length, at = _large_end(bundle, before, end)
    if disk or first or here != count:
        raise BadBundle(bundle, "is one part of a zip in several parts")
    if at + length != end:
        raise BadBundle(bundle, "is damaged: its list of members is not where it should be")
    if count > MOST_MEMBERS or length > _LARGEST_DIRECTORY:
        raise BadBundle(bundle, "holds more files than all clients together could have")
    return Directory(at, count)


def _large_end(bundle: str, before: bytes, end: int) -> tuple[int, int, int, int, int, int]:
    if len(before) == _LARGE_BYTES:
        sign, _, _, _, disk, first, here, count, length, at = _END_64.unpack_from(before)
        _, _, record_at, disks = _LOCATOR_64.unpack_from(before, _END_64.size)
        if sign == b"PK\6\6" and record_at == end and disks == 1:
            return disk, first, here, count, length, at
    raise BadBundle(bundle, "is damaged: the record at its end makes no sense")
