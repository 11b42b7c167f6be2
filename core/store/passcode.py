"""The passcode: everything in the folder is sealed, or opened again, all at once."""

from collections.abc import Callable, Mapping
from typing import Any

from core.errors import Damaged, WorkroomError
from core.seal import Seal, unwrap, wrap
from core.store.arrivals import Arrival, arrival
from core.store.client_file import ClientFile
from core.store.clients import Store
from core.store.disk import told
from core.store.folders import folder_for
from core.store.photos import copy
from core.store.shelf import Shelf

Progress = Callable[[int, int], None]

READABLE = ("faults.txt",)
"""What else lies beside the clients and may name them: it goes when they are sealed."""


class AlreadySealed(WorkroomError):
    """There is a passcode already."""


class NotSealed(WorkroomError):
    """There is no passcode."""


def set_passcode(store: Store, passcode: str, progress: Progress = lambda done, of: None) -> None:
    """Seal every client's file and photos under a new key, and the key under the passcode.

    All or nothing: cut off at any moment, the folder is as it was or wholly sealed.  The
    older files kept beside each client's go with it, as they were not sealed.  Raises
    ``AlreadySealed``, ``WeakPasscode``, ``Damaged`` where a client cannot be read, and
    ``NotSaved`` where there is no room for it.
    """
    if store.seal is not None:
        raise AlreadySealed("These clients are sealed already: change the passcode instead")
    seal = Seal.new()
    _rewrite(store, seal, wrap(seal, passcode), progress)


def change_passcode(
    store: Store, passcode: str, new: str, progress: Progress = lambda done, of: None
) -> None:  # fmt: skip
    """Seal everything anew: who knows an old passcode and has an old backup cannot open it.

    Raises ``WrongPasscode`` and whatever ``set_passcode`` does, with nothing changed.
    """
    _checked(store, passcode)
    seal = Seal.new()
    _rewrite(store, seal, wrap(seal, new), progress)


def remove_passcode(
    store: Store, passcode: str, progress: Progress = lambda done, of: None
) -> None:  # fmt: skip
    """Open the seal of everything; raises ``WrongPasscode`` with nothing changed."""
    _checked(store, passcode)
    _rewrite(store, None, None, progress)


def _checked(store: Store, passcode: str) -> Seal:
    if store.stands.wrapped is None:
        raise NotSealed("These clients have no passcode")
    return unwrap(store.stands.wrapped, passcode)


def _rewrite(
    store: Store, seal: Seal | None, wrapped: Mapping[str, Any] | None, progress: Progress
) -> None:
    store.clients()  # puts back what was renamed outside the app
    folders = sorted(store.folders())
    stands = store.stands.with_wrapped(wrapped)
    with told(), arrival(store.root) as coming:
        for done, folder in enumerate(folders):
            progress(done, len(folders))
            _carry(store, folder, coming, seal)
        gone = dict.fromkeys((store.index_name(), *READABLE))
        coming.settle(going=folders, stands=stands.written() | gone)
    progress(len(folders), len(folders))
    store.restart(stands, seal)


def _carry(store: Store, folder: str, coming: Arrival, seal: Seal | None) -> None:
    """Write a client under the new seal; raises ``Damaged``, naming what would be lost."""
    shelf = store.shelf(folder)
    name = next((row.name for row in store.clients() if row.folder == folder), folder)
    source = ClientFile(shelf)
    try:
        if source.is_new:
            _refuse_leftovers(shelf)
            return
        document = source.document()
        _refuse_copy(store, folder, str(document["client"]["id"]))
        own = folder_for(str(document["client"]["id"]), seal)
        target = Shelf(coming.clients / own, own, seal)
        source.copy_to(target)
        copy(shelf, target, document)
    except Damaged as wrong:
        raise Damaged(
            f"{name} (folder {folder}) would be lost: {wrong}. Nothing was changed: mend or delete"
            " it first"
        ) from wrong


def _refuse_copy(store: Store, folder: str, client_id: str) -> None:
    if store.folder_of(client_id) != folder:
        raise Damaged("it is a copy of a client's folder, made outside the app")


def _refuse_leftovers(shelf: Shelf) -> None:
    """Refuse a folder without a client's file that has anything else in it."""
    if any(path.is_file() and path.suffix != ".new" for path in shelf.folder.rglob("*")):
        raise Damaged("there is no client's file in it")
