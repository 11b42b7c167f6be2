"""Clients carried away in a bundle, and brought in from one: all of it, or nothing."""

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from contextlib import contextmanager, suppress
from dataclasses import dataclass, field
from functools import partial
from pathlib import Path
from typing import Any, Literal
from uuid import uuid4

from core.bundle.packing import Packed, write_bundle
from core.bundle.reading import Bundle, open_bundle
from core.errors import Damaged, WorkroomError
from core.fitting_file import load, read_document
from core.seal import Seal, wrap
from core.store.arrivals import Arrival, arrival
from core.store.client_file import ClientFile
from core.store.clients import Store
from core.store.disk import told
from core.store.folders import folder_for
from core.store.generations import CURRENT, OLDER
from core.store.photos import PHOTOS, is_good, named_in, put
from core.store.records import unstamped
from core.store.shelf import Shelf

Progress = Callable[[int, int], None]
_ZIP = b"PK"
WhenHere = Literal["ask", "replace", "keep both"]


class AlreadyHere(WorkroomError):
    """Clients of the bundle are here already, and are not the same; ``names`` are theirs."""

    def __init__(self, names: Sequence[str]) -> None:
        super().__init__(
            f"Here already, and not the same: {', '.join(names)}. Nothing was changed: say"
            " whether what is here is to be replaced, or both are to be kept"
        )
        self.names = tuple(names)


class HowToSend(WorkroomError):
    """The store is sealed, and nobody said whether what leaves it is to be sealed too."""


@dataclass(frozen=True, slots=True)
class Sent:
    """What a bundle holds: its clients by name, and what could not be put in, in words."""

    path: Path
    names: tuple[str, ...]
    left_out: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class BroughtIn:
    """Names of clients by what became of them, and what is to be known besides, in words."""

    new: tuple[str, ...] = ()
    replaced: tuple[str, ...] = ()
    both_kept: tuple[str, ...] = ()
    the_same: tuple[str, ...] = ()
    notes: tuple[str, ...] = ()


@dataclass(slots=True)
class _Sorted:
    """The clients of a bundle by what is to become of them."""

    new: list[Packed] = field(default_factory=list)
    here: list[Packed] = field(default_factory=list)
    the_same: list[Packed] = field(default_factory=list)


def send(
    store: Store,
    path: Path,
    client_ids: Sequence[str] | None = None,
    *,
    passcode: str | None = None,
    readable: bool = False,
    progress: Progress = lambda done, of: None,
) -> Sent:
    """Write a bundle of some clients, or of all; under a passcode of its own where one is given.

    A sealed store asks: it raises ``HowToSend`` unless there is a passcode or ``readable`` says
    that anyone may read the bundle.  A client whose file is damaged is left out, and told.
    """
    if store.seal is not None and passcode is None and not readable:
        raise HowToSend(
            "These clients are sealed. Say whether the bundle is to be sealed too, with a"
            " passcode, or may be read by anyone who has it. Nothing was written"
        )
    seal = Seal.new() if passcode is not None else None
    sealed = None if seal is None or passcode is None else (seal, wrap(seal, passcode))
    return write(store, path, client_ids, sealed, progress)


def write(
    store: Store,
    path: Path,
    client_ids: Sequence[str] | None,
    sealed: tuple[Seal, Mapping[str, Any]] | None,
    progress: Progress,
) -> Sent:
    """Write the bundle itself, sealed with ``sealed`` (a seal and its key under a passcode)."""
    packed, names, left_out = [], [], []
    for client_id in client_ids or [row.id for row in store.clients()]:
        try:
            document = store.read(client_id)
            read_document(document)
        except WorkroomError as wrong:
            if client_ids:
                raise
            left_out.append(f"{_name_here(store, client_id)}: {wrong}")
            continue
        photos, missing = _photos_of(store, client_id, document)
        name = str(document["client"]["name"])
        packed.append(Packed(client_id, name, partial(store.read, client_id), photos))
        names.append(name)
        left_out += [f"{names[-1]}: the photo {name} is missing or damaged" for name in missing]
    many = None if client_ids else True
    write_bundle(path, packed, made=store.now(), seal=sealed, told=progress, many=many)
    return Sent(path, tuple(names), tuple(left_out))


def bring_in(
    store: Store,
    path: Path,
    passcode: str | None = None,
    *,
    when_here: WhenHere = "ask",
    progress: Progress = lambda done, of: None,
) -> BroughtIn:
    """Bring in a bundle or a single fitting file: every client of it, or none.

    A client that is here already and not the same raises ``AlreadyHere``, unless ``when_here``
    says to replace what is here or to keep both (the one brought in then gets ids of her
    own).  Raises what ``open_bundle`` raises, and ``NotSaved`` with nothing changed.
    """
    with _opened(path, passcode, progress) as bundle:
        found = _sort(store, bundle.clients)
        if found.here and when_here == "ask":
            raise AlreadyHere(_names(found.here))
        replacing = found.here if when_here == "replace" else []
        doubled = [_renamed(packed) for packed in found.here] if when_here != "replace" else []
        arriving = found.new + replacing + doubled
        with told(), arrival(store.root) as coming:
            for packed in arriving:
                place(coming, packed, store.seal, store.now())
                _keep_replaced(store, coming, packed)
            coming.settle(stands=without_index(store))
        store.restart(store.stands, store.seal)
        return BroughtIn(
            new=_names(found.new),
            replaced=_names(replacing),
            both_kept=_names(doubled),
            the_same=_names(found.the_same),
            notes=_notes(store, bundle),
        )


def place(coming: Arrival, packed: Packed, seal: Seal | None, now: str) -> None:
    """Write one client and her photos, still out of sight."""
    name = folder_for(packed.id, seal)
    shelf = Shelf(coming.clients / name, name, seal)
    ClientFile(shelf).keep(packed.read(), now=now, new_uuid=lambda: str(uuid4()))
    for photo, content in packed.photos.items():
        put(shelf, f"{PHOTOS}/{photo}", content())


def _keep_replaced(store: Store, coming: Arrival, packed: Packed) -> None:
    """Keep the file that is replaced, where there is one, as the older one beside the new."""
    folder = store.folder_of(packed.id)
    with suppress(FileNotFoundError, Damaged):
        replaced = store.shelf(folder).read(CURRENT)
        Shelf(coming.clients / folder, folder, store.seal).write(OLDER[0], replaced)


@contextmanager
def _opened(path: Path, passcode: str | None, progress: Progress) -> Iterator[Bundle]:
    """Open a bundle, or take a fitting file for a bundle of one client without photos."""
    if _is_zip(path):
        with open_bundle(path, passcode, told=progress) as bundle:
            yield bundle
        return
    document = load(path).data
    missing = tuple(f"{document['client']['name']}: {name}" for name in named_in(document))
    yield Bundle((Packed.of(document, {}),), False, "", (), missing, ())


def _is_zip(path: Path) -> bool:
    """Tell whether a file is a zip, or the beginning of one."""
    try:
        with path.open("rb") as file:
            return file.read(len(_ZIP)) == _ZIP
    except OSError:
        return False  # it is said in words when it is read


def without_index(store: Store) -> dict[str, None]:
    """Return what takes the list of clients away, so that it is made anew."""
    return {store.index_name(): None}


def _photos_of(
    store: Store, client_id: str, document: Mapping[str, Any]
) -> tuple[dict[str, Callable[[], bytes]], list[str]]:
    shelf = store.file(client_id).shelf
    names = list(dict.fromkeys(named_in(document)))
    good = [name for name in names if is_good(shelf, name)]
    there: dict[str, Callable[[], bytes]] = {
        Path(name).name: partial(shelf.read, name) for name in good
    }
    return there, [name for name in names if name not in good]


def _sort(store: Store, clients: Iterable[Packed]) -> _Sorted:
    found = _Sorted()
    for packed in clients:
        if not store.has(packed.id):
            found.new.append(packed)
        elif _same(store, packed):
            found.the_same.append(packed)
        else:
            found.here.append(packed)
    return found


def _same(store: Store, packed: Packed) -> bool:
    try:
        shelf = store.file(packed.id).shelf
        here = unstamped(store.read(packed.id))
    except WorkroomError:
        return False
    there = all(shelf.has(f"{PHOTOS}/{photo}") for photo in packed.photos)
    return there and here == unstamped(packed.read())


def _renamed(packed: Packed) -> Packed:
    """Return a client with ids of her own, and a name that tells her from the one here."""
    document = unstamped(packed.read())
    client = document["client"]
    document["client"] = {
        **client,
        "id": str(uuid4()),
        "name": f"{client['name']} (brought in)",
    }
    return Packed.of(document, packed.photos)


def _notes(store: Store, bundle: Bundle) -> tuple[str, ...]:
    notes = [f"{name} is named in the bundle, but is not in it" for name in bundle.missing]
    if bundle.left_aside:
        notes.append(f"Left aside, as it is no part of a bundle: {', '.join(bundle.left_aside)}")
    if bundle.sealed and store.seal is None:
        notes.append("The bundle was sealed; here, without a passcode, it is not")
    return tuple(notes)


def _names(clients: Iterable[Packed]) -> tuple[str, ...]:
    return tuple(packed.name for packed in clients)


def _name_here(store: Store, client_id: str) -> str:
    return next((row.name for row in store.clients() if row.id == client_id), client_id)
