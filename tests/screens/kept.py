"""What is kept of a client, read from her file while an app has the folder open."""

from core.store.client_file import ClientFile
from core.store.folders import folder_for
from core.store.records import unstamped
from core.store.shelf import Shelf


def kept(folder, client_id, seal=None):
    """The document on the disk at this moment, without the marks of its records."""
    return unstamped(kept_with_stamps(folder, client_id, seal))


def kept_with_stamps(folder, client_id, seal=None):
    name = folder_for(client_id, seal)
    return ClientFile(Shelf(folder / "clients" / name, name, seal)).document()
