"""Clients carried away in a bundle, and brought in from one: all of it, or nothing."""

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from contextlib import contextmanager, suppress
from dataclasses import dataclass, field
from functools import partial
from itertools import count
from pathlib import Path
from typing import Any, Literal
from uuid import uuid4

from core.bundle.packing import Packed, write_bundle
from core.bundle.photos import unsafe_photo
from core.bundle.reading import Bundle, open_bundle
from core.bundle.refusals import shown
from core.errors import BadFile, Damaged, WorkroomError
from core.file.fitting_file import load, read_document
from core.seal import Seal, wrap
from core.store.arrivals import Arrival, arrival
from core.store.client_file import ClientFile
from core.store.clients import Store
from core.store.disk import told
from core.store.folders import folder_for
from core.store.generations import CURRENT, OLDER
from core.store.photo_names import PHOTOS, named_in
from core.store.photos import is_good, put
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


class NothingToSend(WorkroomError):
    """There is no client that could be sent."""


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
    for client_id in [row.id for row in store.clients()] if client_ids is None else client_ids:
        try:
            document = _sendable(store, client_id)
        except WorkroomError as wrong:
            if client_ids is not None:
                raise
            left_out.append(f"{_name_here(store, client_id)}: {wrong}")
            continue
        photos, missing = _photos_of(store, client_id, document)
        name = str(document["client"]["name"])
        read = partial(_read_once, store, client_id)
        packed.append(Packed(client_id, name, read, photos))
        names.append(name)
        left_out += [f"{names[-1]}: the photo {name} is missing or damaged" for name in missing]
    if not packed:
        said = f": {'; '.join(left_out)}" if left_out else ""
        raise NothingToSend(f"There is no client to send{said}. Nothing was written")
    everything = client_ids is None and not left_out
    many = True if client_ids is None else None
    write_bundle(path, packed, made=store.now(), seal=sealed, told=progress, many=many,
                 everything=everything)  # fmt: skip
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
        here = {row.name for row in store.clients()}
        both = found.here if when_here == "keep both" else []
        doubled = [_renamed(packed, here) for packed in both]
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
            notes=notes_on(store, bundle),
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
    if name := unsafe_photo(document):
        raise BadFile(path.name, f"a photo's name leads elsewhere: “{shown(name)}”")
    yield Bundle(
        clients=(Packed.of(document, {}),),
        sealed=False,
        made="",
        everything=False,
        left_aside=(),
        missing=tuple(f"{document['client']['name']}: {name}" for name in named_in(document)),
        unnamed=(),
    )


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


def _read_once(store: Store, client_id: str) -> dict[str, Any]:
    """Return a client's document without holding it: there may be thousands."""
    return store.glance(client_id).document()


def _sendable(store: Store, client_id: str) -> dict[str, Any]:
    """Return a document that whoever gets it can read; raises ``WorkroomError``."""
    document = _read_once(store, client_id)
    read_document(document)
    if name := unsafe_photo(document):
        raise BadFile(f"the photo “{shown(name)}”", "is no photo's name")
    return document


def _photos_of(
    store: Store, client_id: str, document: Mapping[str, Any]
) -> tuple[dict[str, Callable[[], bytes]], list[str]]:
    shelf = store.glance(client_id).shelf
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
    there = all(is_good(shelf, f"{PHOTOS}/{photo}") for photo in packed.photos)
    return there and here == unstamped(packed.read())


def _renamed(packed: Packed, here: set[str]) -> Packed:
    """Return a client with ids of her own, and a name that tells her from those here."""
    document = unstamped(packed.read())
    names = (f"{packed.name} (brought in{f' {at}' if at > 1 else ''})" for at in count(1))
    name = next(name for name in names if name not in here)
    here.add(name)
    document["client"] = {**document["client"], "id": str(uuid4()), "name": name}
    return Packed.of(document, packed.photos)


def notes_on(store: Store, bundle: Bundle) -> tuple[str, ...]:
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
