"""Reading everything that is kept, to see that all of it can be read."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from core.errors import Damaged, WorkroomError
from core.file.fitting_file import read_document
from core.photos import is_ours
from core.store.client_file import document_in
from core.store.clients import Store
from core.store.generations import CURRENT, OLDER, tables_in
from core.store.photo_names import PHOTOS, THUMBNAILS, named_in, thumbnail_of_name
from core.store.shelf import Shelf

Progress = Callable[[int, int], None]


@dataclass(frozen=True, slots=True)
class Checked:
    """How much was read, and each trouble in words; nothing is changed by looking."""

    clients: int
    photos: int
    troubles: tuple[str, ...]


def check(store: Store, progress: Progress = lambda done, of: None) -> Checked:
    """Read every client's file, the older ones beside it, and every photo."""
    folders, troubles, photos = sorted(store.folders()), [], 0
    for done, folder in enumerate(folders):
        progress(done, len(folders))
        shelf = store.shelf(folder)
        document, wrong = _current(shelf)
        troubles += [f"{folder}: {words}" for words in wrong]
        if document is not None:
            name = f"{document['client']['name']} ({folder})"
            names = list(dict.fromkeys(named_in(document)))
            photos += len(names)
            troubles += [f"{name}: {words}" for words in _troubles(shelf, document, names)]
    progress(len(folders), len(folders))
    return Checked(len(folders), photos, tuple(troubles))


def _current(shelf: Shelf) -> tuple[dict[str, Any] | None, list[str]]:
    """Return the document of the newest file that can be read, and what is wrong with the rest."""
    document, wrong = None, []
    for name in (CURRENT, *OLDER):
        try:
            found = document_in(tables_in(shelf.read(name)))
        except FileNotFoundError:
            if name == CURRENT:
                wrong.append("the file itself is missing")
            continue
        except (OSError, ValueError, KeyError, TypeError, StopIteration, WorkroomError) as trouble:
            wrong.append(f"{name} cannot be read ({trouble})")
            continue
        document = document or found
    return document, wrong


def _troubles(shelf: Shelf, document: dict[str, Any], names: list[str]) -> Iterator[str]:
    try:
        read_document(document)
    except WorkroomError as wrong:
        yield f"what is in it cannot be used: {wrong}"
    for name in names:
        try:
            good = is_ours(shelf.read(name), Path(name).name)
        except FileNotFoundError:
            yield f"{name} is missing"
        except (OSError, Damaged):
            yield f"{name} cannot be read"
        else:
            if not good:
                yield f"{name} is not the photo that its name says"
    yield from _strangers(shelf, names)


def _strangers(shelf: Shelf, names: list[str]) -> Iterator[str]:
    """Yield what lies in the folder and belongs to nothing."""
    known = {shelf.path(name) for name in (CURRENT, *OLDER, *names)}
    known |= {shelf.path(thumbnail_of_name(name)) for name in names}
    known |= {shelf.folder / PHOTOS, shelf.folder / THUMBNAILS}
    for path in sorted(shelf.folder.rglob("*")):
        if path not in known:
            yield f"{path.relative_to(shelf.folder)} lies beside it and belongs to nothing now"
