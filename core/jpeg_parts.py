"""What a kept photo is made of: the parts of a JPEG (ITU-T T.81, annex B; JFIF 1.02)."""

import re

_JFIF = re.compile(rb"\xff\xd8\xff\xe0\x00\x10JFIF\x00.{7}\x00\x00", re.DOTALL)
"""The start of the picture, and a header whose own thumbnail is 0 × 0."""

_SCAN, _END = b"\xda", b"\xd9"
_PARTS = {b"\xc0", b"\xc1", b"\xc2", b"\xc4", b"\xdb", b"\xdd", _SCAN}
"""Frames, the two sorts of table, restart intervals, scans."""

_NEXT = re.compile(rb"\xff[^\x00\xd0-\xd7]", re.DOTALL)
"""What ends a scan: neither a stuffed byte nor a restart."""


def only_a_picture(content: bytes) -> bool:
    """Tell whether a JPEG's parts are those of a picture, one after the other up to its end."""
    start = _JFIF.match(content)
    at = start.end() if start else len(content)
    while content[at : at + 1] == b"\xff":
        part = content[at + 1 : at + 2]
        if part == _END:
            return at + 2 == len(content)
        if part not in _PARTS:
            return False
        at += 2 + int.from_bytes(content[at + 2 : at + 4], "big")
        if part == _SCAN:
            after = _NEXT.search(content, at)
            at = after.start() if after else len(content)
    return False
