"""Everything copied to a folder she chooses, and brought back from there."""

from collections.abc import Callable, Sequence
from pathlib import Path

from core.bundle.packing import Packed
from core.bundle.reading import open_bundle
from core.errors import WorkroomError
from core.seal import Seal, wrap
from core.store.arrivals import arrival
from core.store.bundles import BroughtIn, Sent, notes_on, place, without_index, write
from core.store.clients import Store
from core.store.disk import told
from core.store.index import row_of
from core.store.reminder import fittings_in

Progress = Callable[[int, int], None]

NAME = "pins-to-seams-backup"


class NotABackupFolder(WorkroomError):
    """The folder for the backup is not there, or is the clients' own."""


class NoBackup(WorkroomError):
    """A bundle of some clients, that is not all there were."""


class WouldReplace(WorkroomError):
    """There are clients here, and nobody said that they may be replaced."""


def back_up(
    store: Store,
    folder: Path,
    *,
    readable: bool = False,
    progress: Progress = lambda done, of: None,
) -> Sent:
    """Write everything into one new bundle in a folder, and note that it was done.

    Where the clients are sealed the backup is sealed under the same passcode, unless
    ``readable`` says that anyone may read it.  Nothing that is in the folder is touched.
    One that had to leave something out does not count: the reminder stays.
    """
    if not folder.is_dir():
        raise NotABackupFolder(f"There is no folder {folder}. Nothing was written: choose another")
    if store.root.resolve() in (folder.resolve(), *folder.resolve().parents):
        raise NotABackupFolder(
            "A backup beside the clients would be lost with them. Nothing was written: choose a"
            " folder on another card, stick or drive"
        )
    wrapped = store.stands.wrapped
    sealed = None if store.seal is None or wrapped is None or readable else (store.seal, wrapped)
    for left in folder.glob(f"{NAME}-*.zip.new"):  # by a backup that was cut off
        left.unlink(missing_ok=True)
    sent = write(store, _free_name(store, folder), None, sealed, progress)
    if not sent.left_out:
        store.say(store.stands.with_backup(store.now(), fittings_in(store)))
    return sent


def restore(
    store: Store,
    path: Path,
    passcode: str | None = None,
    *,
    replace: bool = False,
    progress: Progress = lambda done, of: None,
) -> BroughtIn:
    """Put everything back as a backup has it; return the clients' names and what is to be known.

    All or nothing.  Whatever is here goes; where anything is, ``WouldReplace`` is raised unless
    ``replace`` is said.  A sealed backup on a store that has no passcode brings its own with it.
    """
    with open_bundle(path, passcode, told=progress) as bundle:
        folders = list(store.folders())
        if folders and not bundle.everything:
            raise NoBackup(
                f"{path.name} is no backup of everything, and would take the place of all that is"
                " here. Nothing was changed: bring it in instead"
            )
        if folders and not replace:
            raise WouldReplace(
                f"There are clients here ({len(folders)}), and a restored backup takes their"
                " place. Nothing was changed: say so if that is meant, and back up first"
            )
        seal, stands = store.seal, store.stands
        if bundle.sealed and seal is None and passcode is not None:
            seal = Seal.new()
            stands = stands.with_wrapped(wrap(seal, passcode))
        stands = stands.with_backup(store.now(), _fittings(bundle.clients))
        with told(), arrival(store.root) as coming:
            for packed in bundle.clients:
                place(coming, packed, seal, store.now())
            coming.settle(going=folders, stands={**without_index(store), **stands.written()})
        store.restart(stands, seal)
        names = tuple(packed.name for packed in bundle.clients)
        return BroughtIn(new=names, notes=notes_on(store, bundle))


def _fittings(clients: Sequence[Packed]) -> int:
    return sum(row_of("", packed.read(), "", None).fittings for packed in clients)


def _free_name(store: Store, folder: Path) -> Path:
    name = f"{NAME}-{store.here_and_now():%Y-%m-%d-%H%M}"
    path, number = folder / f"{name}.zip", 1
    while path.exists():
        number += 1
        path = folder / f"{name}-{number}.zip"
    return path
