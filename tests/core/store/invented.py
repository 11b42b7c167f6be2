"""Invented clients, photos and clocks for the tests of the store."""

import base64
from collections.abc import Iterator, Mapping
from datetime import UTC, datetime, timedelta
from io import BytesIO
from pathlib import Path
from typing import Any

from PIL import Image

from core.photos import Photo, read_photo
from core.store.clients import Store
from core.store.photos import add_photo
from core.store.records import unstamped

WILHELMINA = "11110000-0000-4000-8000-000000000001"
BEATRIX = "11110000-0000-4000-8000-000000000002"
NAME, OTHER_NAME = "Wilhelmina Oatcake", "Beatrix Plover"
BUST = "36 13/16"
PASSCODE = "seven silver pins"

Document = dict[str, Any]


def client(
    note: str = "", *, client_id: str = WILHELMINA, name: str = NAME, **more: Any
) -> Document:
    """Return a client with a garment and a fitting; ``note`` stands in the fitting."""
    fitting = {"id": "first", "on": "2026-03-02", "note": note, "pins": [{"at": "waist"}]}
    garment = {"id": "gown", "name": "Silk gown", "fittings": [fitting]}
    return {
        "format": "pins-to-seams/1",
        "unit": "in",
        "client": {"id": client_id, "name": name, "photo_consent": "2026-03-01"},
        "measurements": [{"on": "2026-03-02", "values": {"bust_girth": BUST}}],
        "garments": [garment],
        **more,
    }


def other(note: str = "") -> Document:
    return client(note, client_id=BEATRIX, name=OTHER_NAME)


def with_note(document: Mapping[str, Any], note: str) -> Document:
    """Return a document with another note in its first fitting, and nothing else changed."""
    (garment, *garments) = document["garments"]
    (fitting, *fittings) = garment["fittings"]
    changed = {**garment, "fittings": [{**fitting, "note": note}, *fittings]}
    return {**document, "garments": [changed, *garments]}


def note_of(document: Mapping[str, Any]) -> str:
    return str(document["garments"][0]["fittings"][0]["note"])


def kept(folder: Path, client_id: str = WILHELMINA, passcode: str | None = None) -> Document:
    """Return a client's document as a newly opened store reads it, without its stamps."""
    with Store(folder, passcode) as store:
        return unstamped(store.read(client_id))


def kept_note(folder: Path, client_id: str = WILHELMINA, passcode: str | None = None) -> str:
    return note_of(kept(folder, client_id, passcode))


def home(folder: Path, client_id: str = WILHELMINA) -> Path:
    """Return the folder of a client whose id is a uuid."""
    return folder / "clients" / client_id


def current(folder: Path, client_id: str = WILHELMINA) -> Path:
    return home(folder, client_id) / "client.json"


def photo(colour: str = "olive") -> Photo:
    made = BytesIO()
    Image.new("RGB", (64, 48), colour).save(made, "JPEG")
    return read_photo(made.getvalue(), "made here")


def save_with_photo(store: Store, document: Document, colour: str = "olive") -> str:
    """Save a client, then a photo in her first fitting; return its name."""
    store.save(document)
    name = add_photo(store, document["client"]["id"], photo(colour))
    document = store.read(document["client"]["id"])
    document["garments"][0]["fittings"][0].setdefault("photos", []).append({"file": name})
    store.save(document)
    return name


def everything_in(folder: Path) -> dict[str, bytes]:
    """Return every file's content by its path, but for the one that is only held open."""
    return {
        str(path.relative_to(folder)): path.read_bytes()
        for path in sorted(folder.rglob("*"))
        if path.is_file() and path.name != "open.lock"
    }


def where_found(folder: Path, text: str) -> list[str]:
    """Return where a text stands in a folder: in a file or a name, written in any usual way."""
    found = []
    for path in sorted(folder.rglob("*")):
        content = path.read_bytes() if path.is_file() else b""
        name = str(path.relative_to(folder)).encode()
        found += [
            f"{path.relative_to(folder)}: {how}"
            for how, form in _forms(text)
            if form in content.lower() or form in name.lower()
        ]
    return found


def _forms(text: str) -> Iterator[tuple[str, bytes]]:
    """Yield ways to write a text as bytes, all in small letters as they are compared."""
    plain = text.encode()
    yield "utf-8", plain.lower()
    yield "utf-16", text.lower().encode("utf-16-le")
    yield "utf-16 the other way", text.lower().encode("utf-16-be")
    yield "hexadecimal", plain.hex().encode()
    yield "percent", "".join(f"%{byte:02x}" for byte in plain).encode()
    for shift in range(3):  # base64 looks different at each place in a group of three
        inner = base64.b64encode(b"\0" * shift + plain)[4 if shift else 0 : -4].lower()
        if len(inner) >= 6:  # a shorter one could be found by chance
            yield "base64", inner


class Clock:
    """A clock that goes a minute further whenever it is looked at."""

    def __init__(self) -> None:
        self.at = datetime(2026, 3, 2, 9, 0, tzinfo=UTC)

    def __call__(self) -> datetime:
        self.at += timedelta(minutes=1)
        return self.at
