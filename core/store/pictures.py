"""A client's photos as pictures to look at elsewhere, with the marks drawn in."""

from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import Any

from core.client.facts import entries
from core.photo_marks import with_marks
from core.store.clients import Store
from core.store.disk import told
from core.store.photos import read_photo
from core.whole_file import write_whole


def export_pictures(store: Store, client_id: str, folder: Path) -> tuple[Path, ...]:
    """Write every photo of a client's fittings, its marks burnt in; return the files.

    The photos that are kept stay without marks.  A file that is there is not written over:
    the next free number is taken.  Raises ``NotFound``, ``NotSaved``.
    """
    written = []
    for name, photo in _named(store.read(client_id)):
        content = with_marks(read_photo(store, client_id, photo["file"]), photo.get("marks") or ())
        path = _free(folder, name)
        with told():
            folder.mkdir(parents=True, exist_ok=True)
            write_whole(path, content)
        written.append(path)
    return tuple(written)


def _named(document: dict[str, Any]) -> Iterator[tuple[str, Mapping[str, Any]]]:
    for garment in entries(document, "garments"):
        for fitting in entries(garment, "fittings"):
            for photo in entries(fitting, "photos"):
                parts = (fitting.get("on"), garment.get("name"), photo.get("view"))
                yield " ".join(str(part) for part in parts if part), photo


def _free(folder: Path, name: str) -> Path:
    plain = "".join(sign if sign.isalnum() or sign in " -_" else "-" for sign in name)[:80]
    number = 1
    while (path := folder / f"{plain} {number}.jpg").exists():
        number += 1
    return path
