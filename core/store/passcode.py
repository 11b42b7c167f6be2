"""The passcode: everything in the folder is sealed, or opened again, all at once."""

from collections.abc import Callable, Mapping
from typing import Any

from core.errors import WorkroomError
from core.seal import Seal, unwrap, wrap
from core.store.arrivals import arrival
from core.store.client_file import ClientFile
from core.store.clients import INDEX, Store
from core.store.disk import told
from core.store.folders import folder_for
from core.store.photos import copy
from core.store.shelf import Shelf

Progress = Callable[[int, int], None]


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


def change_passcode(store: Store, passcode: str, new: str) -> None:
    """Put the key under another passcode; raises ``WrongPasscode`` with nothing changed."""
    seal = _checked(store, passcode)
    store.say(store.stands.with_wrapped(wrap(seal, new)))


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
    folders = sorted(store.folders())
    stands = store.stands.with_wrapped(wrapped)
    with told(), arrival(store.root) as coming:
        for done, folder in enumerate(folders):
            progress(done, len(folders))
            source = ClientFile(store.shelf(folder))
            if source.is_new:
                continue
            document = source.document()
            if store.folder_of(str(document["client"]["id"])) != folder:
                continue  # a folder copied by hand: the client herself is in her own
            name = folder_for(str(document["client"]["id"]), seal)
            target = Shelf(coming.clients / name, name, seal)
            source.copy_to(target)
            copy(source.shelf, target, document)
        index = store.own_shelf().path(INDEX).name
        coming.settle(going=folders, stands=stands.written() | {index: None})
    progress(len(folders), len(folders))
    store.restart(stands, seal)
