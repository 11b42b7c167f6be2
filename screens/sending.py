"""A client written to a bundle that she takes along, and what is said of it."""

from datetime import datetime
from pathlib import Path

from core.errors import WorkroomError
from core.store.bundles import send
from core.store.clients import Store
from screens.aside import Progress


class Unlike(WorkroomError):
    """Two passcodes that should be the same are not."""


def refuse_unlike(passcode: str, again: str) -> str:
    """Return a passcode that was typed twice; raises ``Unlike``."""
    if passcode != again:
        raise Unlike("The two passcodes are not the same. Nothing was changed: type both again")
    return passcode


def name_for(name: str, now: datetime, ending: str = "zip") -> str:
    """Return what a file to send is called; without a name it tells nothing of whose it is."""
    plain = "".join(sign if sign.isalnum() else "-" for sign in name).strip("-")[:60]
    return f"{plain or 'client'} {now:%Y-%m-%d %H%M}.{ending}"


def free_name(path: Path) -> Path:
    """Return the path, or the next free one beside it with a number."""
    free, number = path, 1
    while free.exists():
        number += 1
        free = path.with_stem(f"{path.stem} {number}")
    return free


def send_client(
    store: Store, path: Path, client_id: str, *,
    readable: bool, passcode: str | None, progress: Progress,
) -> str:  # fmt: skip
    """Write one client's bundle under the next free name; return what is to be said."""
    sent = send(store, free_name(path), [client_id], passcode=passcode, readable=readable,
                progress=progress)  # fmt: skip
    said = f"Written: {sent.path.name}, in {sent.path.parent}."
    return " ".join([said, *(f"{each}." for each in sent.left_out)])
