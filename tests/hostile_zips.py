"""Bundles for the tests: good ones of invented clients, and zips built byte by byte to do harm."""

import io
import json
import stat
import struct
import zlib
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import cache
from typing import Any

from PIL import ExifTags, Image

from core.bundle.packing import Packed
from core.photos import read_photo
from tests.garments import Document, pinned, worked

CAMERA = "Invented Camera 3000"


@cache
def taken(colour: str = "teal", kind: str = "JPEG") -> bytes:
    """Return a photo as a camera gives it: with the place and the camera written into it."""
    exif = Image.Exif()
    exif[ExifTags.Base.Make] = CAMERA
    exif.get_ifd(ExifTags.IFD.GPSInfo)[ExifTags.GPS.GPSLatitude] = (12.0, 34.0, 56.0)
    out = io.BytesIO()
    Image.new("RGB", (48, 36), colour).save(out, kind, exif=exif)
    return out.getvalue()


@cache
def kept(colour: str = "teal") -> tuple[str, bytes]:
    """Return a photo as the program keeps it: its name and its bytes."""
    photo = read_photo(taken(colour))
    return photo.name, photo.content


def client(number: int = 1, photos: Sequence[str] = ()) -> Document:
    """Return an invented client's document; its one fitting names these photos."""
    file = pinned(
        worked(),
        {"seam": "side", "level": "waist", "pinch": "1/4"},
        photos=[{"file": f"photos/{name}", "view": "back"} for name in photos],
    )
    file["client"] = {"id": f"0de00000-0000-4000-8000-{number:012}", "name": f"Invented {number}"}
    return file


def packed(number: int = 1, colours: Sequence[str] = ("teal", "plum")) -> Packed:
    """Return an invented client with her photos, all as the program keeps them."""
    photos = dict(kept(colour) for colour in colours)
    return Packed.of(
        client(number, tuple(photos)),
        {name: (lambda content=content: content) for name, content in photos.items()},
    )


def as_json(value: Any) -> bytes:
    return json.dumps(value).encode()


@dataclass(frozen=True)
class Entry:
    """One member of a zip; what is ``None`` is told as it is, anything else is a lie.

    ``own`` are lies of the member's own header, ``listed`` those of the list, each by field.
    """

    name: str
    content: bytes = b""
    method: int = 0
    flags: int = 0x0800
    attributes: int = 0
    packed: bytes | None = None
    own: Mapping[str, Any] = ()  # type: ignore[assignment]
    listed: Mapping[str, Any] = ()  # type: ignore[assignment]
    before: bytes = b""

    def fields(self, at: int, lies: Mapping[str, Any]) -> dict[str, Any]:
        packed = self.packed
        if packed is None:
            packed = deflated(self.content) if self.method == 8 else self.content
        told = {
            "name": self.name.encode("utf-8", "surrogatepass"), "flags": self.flags,
            "method": self.method, "crc": zlib.crc32(self.content), "packed": len(packed),
            "size": len(self.content), "at": at, "attributes": self.attributes, "bytes": packed,
            "extra": b"", "part": 0,
        }  # fmt: skip
        return told | dict(lies)


def deflated(content: bytes) -> bytes:
    packing = zlib.compressobj(9, zlib.DEFLATED, -15)
    return packing.compress(content) + packing.flush()


def unfinished(content: bytes) -> bytes:
    """Return deflated bytes that hold all of the content, and do not say that this is all."""
    packing = zlib.compressobj(9, zlib.DEFLATED, -15)
    return packing.compress(content) + packing.flush(zlib.Z_SYNC_FLUSH)


def zipped(*entries: Entry, **end: Any) -> bytes:
    """Return a zip of these members; ``end`` are lies of the record at its end.

    Beside the record's own fields (``count``, ``length``, ``at``, ``part``, ``comment``),
    ``front`` and ``behind`` are bytes around the zip.
    """
    out, listed = io.BytesIO(), b""
    for entry in entries:
        out.write(entry.before)
        at = out.tell()
        own = entry.fields(at, entry.own)
        out.write(struct.pack(
            "<4s5H3L2H", b"PK\3\4", 20, own["flags"], own["method"], 0, 33, own["crc"],
            own["packed"], own["size"], len(own["name"]), len(own["extra"])))  # fmt: skip
        out.write(own["name"] + own["extra"] + own["bytes"])
        said = entry.fields(at, entry.listed)
        listed += struct.pack(
            "<4s6H3L5H2L", b"PK\1\2", (3 << 8) | 20, 20, said["flags"], said["method"], 0, 33,
            said["crc"], said["packed"], said["size"], len(said["name"]), len(said["extra"]), 0,
            said["part"], 0, said["attributes"], said["at"])  # fmt: skip
        listed += said["name"] + said["extra"]
    told = {"count": len(entries), "length": len(listed), "at": out.tell(), "part": 0,
            "comment": b"", "front": b"", "behind": b"", "large": b""} | end  # fmt: skip
    out.write(listed + told["large"])
    out.write(struct.pack(
        "<4s4H2LH", b"PK\5\6", told["part"], told["part"], told["count"], told["count"],
        told["length"], told["at"], len(told["comment"])))  # fmt: skip
    return told["front"] + out.getvalue() + told["comment"] + told["behind"]


def bundle(*more: Entry, file: Any = None, **end: Any) -> bytes:
    """Return a bundle of one client with more members beside her file."""
    content = as_json(client() if file is None else file)
    return zipped(Entry("client.json", content, method=8), *more, **end)


def many(
    clients: Sequence[Document], /, *more: Entry, listed: Sequence[Any] | None = None, **told: Any
) -> bytes:  # fmt: skip
    """Return a bundle of several clients without photos; ``told`` replaces fields of its list."""
    entries = [{"folder": f"{number:04}", "id": file["client"]["id"],
                "name": file["client"]["name"], "photos": []}
               for number, file in enumerate(clients, 1)]  # fmt: skip
    said = {"format": "pins-to-seams-bundle/1", "made": "2026-03-20",
            "clients": entries if listed is None else listed} | told  # fmt: skip
    files = [Entry(f"clients/{number:04}/client.json", as_json(file), method=8)
             for number, file in enumerate(clients, 1)]  # fmt: skip
    return zipped(Entry("bundle.json", as_json(said)), *files, *more)


def _large_end(count: int, at: int = 0, length: int = 0, record_at: int = 0) -> bytes:
    record = struct.pack("<4sQ2H2L4Q", b"PK\6\6", 44, 45, 45, 0, 0, count, count, length, at)
    return record + struct.pack("<4sLQL", b"PK\6\7", 0, record_at, 1)


def _mode(kind: int) -> int:
    return (kind | 0o644) << 16


def _lying_by_patching() -> bytes:
    """Return a good bundle whose list, patched afterwards, says another length."""
    good = bytearray(bundle())
    at = good.rfind(b"PK\1\2") + 24
    (size,) = struct.unpack_from("<L", good, at)
    struct.pack_into("<L", good, at, size - 1)
    return bytes(good)


def _overlapping() -> bytes:
    """Return a zip whose two members share their bytes: each small, together without end."""
    first = Entry("client.json", as_json(client()))
    return zipped(first, Entry("photos/a.jpg", b"", listed={
        "at": 0, "name": b"client.json"}))  # fmt: skip


def _quoted() -> bytes:
    """Return a zip whose first member is so long that it holds the second, header and all."""
    inner = zipped(Entry("photos/a.jpg", taken()))[: 30 + len("photos/a.jpg") + len(taken())]
    first = Entry("photos/b.jpg", inner)
    return zipped(first, Entry("photos/a.jpg", taken(), listed={"at": 30 + len("photos/b.jpg")}))


MEGA = 1_000_000
PHOTO = taken()

CLIMBING = {
    name: bundle(Entry(name, PHOTO))
    for name in ("../a.jpg", "photos/../../a.jpg", "/a.jpg", "/", "photos//a.jpg", "./client.json",
                 "photos/..", "photos/.", "..", "~/../a.jpg")
}  # fmt: skip

HOSTILE: dict[str, tuple[bytes, str]] = {
    **{f"climbs: {name}": (made, "leads out of the bundle") for name, made in CLIMBING.items()},
    "a backslash": (bundle(Entry("photos\\..\\a.jpg", PHOTO)), "backslash"),
    "a drive": (bundle(Entry("C:/a.jpg", PHOTO)), "drive"),
    "a hidden stream": (bundle(Entry("photos/a.jpg:b", PHOTO)), "colon"),
    "a nought in a name": (bundle(Entry("photos/a.jpg\0.txt", PHOTO)), "no text"),
    "a nought to hide a twin": (bundle(Entry("client.json\0a", PHOTO)), "no text"),
    "a line break in a name": (bundle(Entry("photos/a\n.jpg", PHOTO)), "no text"),
    "an escape in a name": (bundle(Entry("photos/\x1b[2J.jpg", PHOTO)), "no text"),
    "a name without end": (bundle(Entry("photos/" + "a" * 5000, PHOTO)), "longer than any"),
    "no name": (bundle(Entry("", PHOTO)), "no name"),
    "a name that is no UTF-8": (
        bundle(Entry("photos/a.jpg", PHOTO, listed={"name": b"photos/\xff\xfe.jpg"})),
        "cannot be read"),
    "a link": (bundle(Entry("photos/a.jpg", b"/etc/passwd", attributes=_mode(stat.S_IFLNK))),
               "link"),
    "a pipe": (bundle(Entry("photos/a.jpg", attributes=_mode(stat.S_IFIFO))), "no plain file"),
    "a device": (bundle(Entry("photos/a.jpg", attributes=_mode(stat.S_IFBLK))), "no plain file"),
    "a link of another system": (bundle(Entry("photos/a.jpg", PHOTO, attributes=0x400)), "link"),
    "a file that says it is a folder": (
        bundle(Entry("photos/a.jpg", PHOTO, attributes=_mode(stat.S_IFDIR))), "no plain file"),
    "a folder with something in it": (bundle(Entry("photos/", PHOTO)), "folder"),
    "the same name twice": (
        bundle(Entry("photos/a.jpg", PHOTO), Entry("photos/a.jpg", PHOTO)), "twice"),
    "two clients in one place": (bundle(Entry("client.json", b"{}")), "twice"),
    "names that differ by case": (
        bundle(Entry("photos/a.jpg", PHOTO), Entry("photos/A.JPG", PHOTO)), "twice"),
    "the client again in capitals": (bundle(Entry("CLIENT.json", b"{}")), "twice"),
    "names that differ by how an accent is written": (
        bundle(Entry("photos/é.jpg", PHOTO), Entry("photos/é.jpg", PHOTO)), "twice"),
    "names that differ by a ligature": (
        bundle(Entry("photos/ﬁt.jpg", PHOTO), Entry("photos/fit.jpg", PHOTO)), "twice"),
    "a folder and a file of one name": (
        bundle(Entry("photos/a"), Entry("photos/a/")), "twice"),
    "locked": (bundle(Entry("photos/a.jpg", PHOTO, flags=0x801)), "locked"),
    "locked otherwise": (bundle(Entry("photos/a.jpg", PHOTO, flags=0x840)), "locked"),
    "a locked list": (bundle(Entry("photos/a.jpg", PHOTO, flags=0x2800)), "locked"),
    **{f"packed by method {method}": (
        bundle(Entry("photos/a.jpg", PHOTO, method=method)), "packed in a way")
       for method in (1, 6, 9, 12, 14, 93, 99)},
    "longer than it says": (_lying_by_patching(), "not what the list says"),
    "longer than both say": (
        bundle(Entry("photos/a.jpg", PHOTO, 8, own={"size": 9}, listed={"size": 9})),
        "not as long"),
    "shorter than both say": (
        bundle(Entry("photos/a.jpg", PHOTO, 8, own={"size": 9999}, listed={"size": 9999})),
        "not as long"),
    "stored, of two lengths": (bundle(Entry("photos/a.jpg", PHOTO, listed={"size": 5})),
                               "not as long"),
    "something behind what was deflated": (
        bundle(Entry("photos/a.jpg", PHOTO, 8, packed=deflated(PHOTO) + b"more")), "not as long"),
    "deflated and cut short": (
        bundle(Entry("photos/a.jpg", PHOTO, 8, packed=deflated(PHOTO)[:-20])), "not as long"),
    "deflated without an end": (
        bundle(Entry("photos/a.jpg", PHOTO, 8, packed=unfinished(PHOTO))), "not as long"),
    "not deflated at all": (
        bundle(Entry("photos/a.jpg", PHOTO, 8, packed=b"\xff" * 600)), "damaged"),
    "a wrong checksum": (
        bundle(Entry("photos/a.jpg", PHOTO, own={"crc": 1}, listed={"crc": 1})), "damaged"),
    "one name in the list, one at the place": (
        bundle(Entry("photos/a.jpg", PHOTO, own={"name": b"photos/b.jpg"})), "not what the list"),
    "one method in the list, one at the place": (
        bundle(Entry("photos/a.jpg", PHOTO, own={"method": 8})), "not what the list"),
    "one length in the list, one at the place": (
        bundle(Entry("photos/a.jpg", PHOTO, own={"packed": 5})), "not what the list"),
    "locked at its place, and not in the list": (
        bundle(Entry("photos/a.jpg", PHOTO, own={"flags": 0x801})), "not what the list"),
    "one checksum in the list, one at the place": (
        bundle(Entry("photos/a.jpg", PHOTO, own={"crc": 5})), "not what the list"),
    "two names by an extra field": (
        bundle(Entry("photos/a.jpg", PHOTO, listed={"name": b"photos/a.jpg\0/../b"})), "no text"),
    "a bomb": (bundle(Entry("photos/a.jpg", bytes(10 * MEGA), 8)), "far more than it is"),
    "a bomb that says it is small": (
        bundle(Entry("photos/a.jpg", bytes(10 * MEGA), 8, own={"size": 900, "crc": 0},
                     listed={"size": 900, "crc": 0})), "not as long"),
    "a client of zeros": (
        zipped(Entry("client.json", bytes(40 * MEGA), 8)), "far more than it is"),
    "larger than anything": (
        bundle(Entry("photos/a.jpg", PHOTO, listed={"size": 62 * MEGA, "packed": 62 * MEGA})),
        "larger than anything"),
    "larger than four gigabytes": (
        bundle(Entry("photos/a.jpg", PHOTO, listed={
            "size": 0xFFFFFFFF, "extra": struct.pack("<HHQ", 1, 8, 1 << 62)})), "not as long"),
    "deflated to more than four gigabytes": (
        bundle(Entry("photos/a.jpg", PHOTO, 8, listed={
            "size": 0xFFFFFFFF, "extra": struct.pack("<HHQ", 1, 8, 1 << 62)})),
        "larger than anything"),
    "two members of the same bytes": (_overlapping(), "twice"),
    "two names for the same bytes": (
        bundle(Entry("photos/a.jpg", as_json(client()), 8, listed={"at": 0})),
        "not what the list"),
    "a member around another": (_quoted(), "runs into"),
    "a member that runs into the list": (
        zipped(Entry("client.json", b"{}", own={"packed": 60, "size": 60},
                     listed={"packed": 60, "size": 60})), "runs into"),
    "a member inside the list": (
        bundle(Entry("photos/a.jpg", PHOTO, listed={"at": 5000})), "not where"),
    "a member in the middle of another": (
        bundle(Entry("photos/a.jpg", PHOTO, listed={"at": 5})), "not where"),
    "a member beyond the end": (
        bundle(Entry("photos/a.jpg", PHOTO, listed={"at": 0xFFFFFFF0})), "not where"),
    "a member beyond any disk": (
        bundle(Entry("photos/a.jpg", PHOTO, listed={
            "at": 0xFFFFFFFF, "extra": struct.pack("<HHQ", 1, 8, (1 << 64) - 1)})), "not where"),
    "an extra field cut off": (
        bundle(Entry("photos/a.jpg", PHOTO, listed={"extra": b"\1\0\xff\xff"})),
        "cannot be read"),
    "something before it": (bundle(front=b"MZ" * 50), "not where it should be"),
    "something behind it": (bundle(behind=b"PK"), "behind its end"),
    "another end behind it": (bundle(behind=b"PK\5\6" + bytes(18)), "not where it should be"),
    "an end inside its comment": (bundle(comment=b"PK\5\6" + bytes(30)), "behind its end"),
    "the first of two parts": (bundle(part=1), "several parts"),
    "a list longer than the file": (bundle(length=0xFFFFFFF0), "not where it should be"),
    "a list somewhere else": (bundle(at=3), "not where it should be"),
    "fewer members than it says": (bundle(count=2), "not as long as it says"),
    "more members than it says": (bundle(Entry("photos/a.jpg", PHOTO), count=1), "not as long"),
    "too many members": (
        zipped(large=_large_end(400_001, record_at=0)), "more files than"),
    "a large end that points elsewhere": (
        zipped(large=_large_end(1, record_at=77)), "makes no sense"),
    "a list of gigabytes": (
        zipped(large=_large_end(1, at=0, length=1 << 40)), "not where it should be"),
    "no zip": (b"not a zip at all" * 50, "end is missing"),
    "nothing": (b"", "end is missing"),
    "an empty zip": (zipped(), "without client.json"),
    "a picture": (PHOTO, "end is missing"),
    "a zip in the zip": (bundle(Entry("more.zip", bundle())), "no part of a bundle"),
    "a zip for a photo": (bundle(Entry("photos/a.jpg", bundle())), "zip file"),
    "a zip for a client": (zipped(Entry("client.json", bundle())), "not text"),
    "a program": (bundle(Entry("setup.exe", b"MZ")), "no part of a bundle"),
    "a program among the photos": (bundle(Entry("photos/x/setup.exe", b"MZ")), "no part"),
    "a folder of its own": (bundle(Entry("other/")), "no part of a bundle"),
    "no photo": (bundle(Entry("photos/a.jpg", b"plain text")), "not a photo"),
    "half a photo": (bundle(Entry("photos/a.jpg", PHOTO[:300])), "photos/a.jpg"),
    "a photo without end": (bundle(Entry("photos/" + kept()[0], kept()[1][:-9])), "cut off"),
    "a photo’s name that climbs": (bundle(file=client(1, ["../../../a.jpg"])), "leads out"),
    "no JSON": (zipped(Entry("client.json", b"{")), "client.json: is not whole JSON"),
    "no fitting file": (zipped(Entry("client.json", b"{}")), "client.json: format:"),
    "a newer fitting file": (
        bundle(file=client() | {"format": "pins-to-seams/9"}), "client.json: format: “pins"),
    "a spoilt field": (bundle(file=client() | {"unit": "ell"}), "client.json: unit: “ell”"),
    "one bundle in another’s clothes": (
        bundle(Entry("sealed.json", b"{}")), "no part of a bundle"),
    "two kinds at once": (many([client()], Entry("client.json", b"{}")), "no part of a bundle"),
    "no client in the list": (many([]), "no client"),
    "a client not on the list": (
        many([client(1)], Entry("clients/0002/client.json", as_json(client(2)))),
        "not on its list"),
    "a client only on the list": (
        many([client(1)], listed=[{"folder": name, "id": client(1)["client"]["id"], "photos": []}
                                  for name in ("0001", "0002")]), "on its list and not in it"),
    "a client listed twice": (
        many([client(1)], listed=[{"folder": "0001", "id": client(1)["client"]["id"],
                                   "photos": []}] * 2), "twice"),
    "a photo only on the list": (
        many([client(1)], listed=[{"folder": "0001", "id": client(1)["client"]["id"],
                                   "photos": ["a.jpg"]}]), "on its list and not in it"),
    "a photo not on the list": (
        many([client(1)], Entry("clients/0001/photos/a.jpg", PHOTO)), "not on its list"),
    "two clients with one id": (many([client(1), client(1)]), "id of another client"),
    "another client than listed": (
        many([client(1)], listed=[{"folder": "0001", "id": "x", "photos": []}]), "not the client"),
    "a listed folder that climbs": (
        many([client(1)], listed=[{"folder": "../x", "id": "x"}]), "no folder"),
    "a newer list": (many([client(1)], format="pins-to-seams-bundle/2"), "newer"),
    "a list that is none": (many([client(1)], clients=5), "bundle.json: clients: must be a list"),
    "a list of nonsense": (many([client(1)], listed=[5]), "bundle.json: clients[0]"),
    "a list without ids": (many([client(1)], listed=[{"folder": "0001"}]), "clients[0].id"),
    "a second client that is spoilt": (
        many([client(1), client(2) | {"unit": "ell"}]), "clients/0002/client.json: unit"),
}  # fmt: skip
