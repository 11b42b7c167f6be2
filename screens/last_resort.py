"""What happens to a fault nobody foresaw: it is written down, said plainly, and survived."""

import traceback
from collections.abc import Iterator
from contextlib import suppress
from datetime import datetime
from pathlib import Path

from kivy.base import ExceptionHandler, ExceptionManager

from screens.entry import Entry
from screens.workroom import Workroom

FILE = "faults.txt"
SECRET_FILE = "faults-sealed.txt"
"""Of sealed clients: only where the program was, never what it was told."""

LARGEST_BYTES = 1_000_000


class LastResort(ExceptionHandler):
    """Write each fault once to a file beside the clients and keep the app open.

    Nothing is lost: every touch before it was saved, and a change is saved whole or
    not at all.
    """

    def __init__(self, entry: Entry, room: Workroom) -> None:
        super().__init__()
        self._entry = entry
        self._room = room
        self._written: set[str] = set()
        entry.bind(stands=self._drop_readable)

    def handle_exception(self, inst: BaseException) -> int:
        if not isinstance(inst, Exception):  # closing, or Ctrl-C
            return int(ExceptionManager.RAISE)
        secret = self._entry.may_be_secret
        name = SECRET_FILE if secret else FILE
        told = bare(inst) if secret else "".join(traceback.format_exception(inst))
        self._write(self._entry.folder / name, told)
        self._room.trouble = (
            "Something went wrong inside the app. Everything up to your last touch is safe. "
            f"What happened is written in {name}, beside the clients: please pass it on."
        )
        return int(ExceptionManager.PASS)

    def _drop_readable(self, entry: Entry, stands: str) -> None:
        """What was written before there was a passcode must not stay readable after."""
        if stands == "passcode" or (stands == "open" and entry.may_be_secret):
            with suppress(OSError):
                (entry.folder / FILE).unlink(missing_ok=True)

    def _write(self, path: Path, fault: str) -> None:
        """Write each one once: a fault in every frame must not fill the device."""
        if fault in self._written:
            return
        self._written.add(fault)
        try:
            if path.exists() and path.stat().st_size > LARGEST_BYTES:
                path.unlink()
            with path.open("a", encoding="utf-8") as file:
                file.write(f"{datetime.now().astimezone():%Y-%m-%d %H:%M:%S %z}\n{fault}\n")
        except OSError:
            pass  # a full disk must not turn a fault into an end


def bare(fault: BaseException) -> str:
    """Return where a fault arose and of which types it is: no message, no line, no value."""
    return "\n".join(line for each in _chain(fault) for line in _frames(each)) + "\n"


def _chain(fault: BaseException | None) -> Iterator[BaseException]:
    """Yield a fault and what it arose from, the newest first."""
    seen: list[BaseException] = []
    while fault is not None and fault not in seen:
        yield fault
        seen.append(fault)
        fault = fault.__cause__ or fault.__context__


def _frames(fault: BaseException) -> Iterator[str]:
    kind = type(fault)
    yield f"{kind.__module__}.{kind.__qualname__}"
    for frame, line in traceback.walk_tb(fault.__traceback__):
        path = Path(frame.f_code.co_filename)
        yield f"  {path.parent.name}/{path.name}, line {line}, in {frame.f_code.co_name}"
