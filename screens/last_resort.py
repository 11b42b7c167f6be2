"""What happens to a fault nobody foresaw: it is written down, said plainly, and survived."""

import traceback
from datetime import datetime
from pathlib import Path

from kivy.base import ExceptionHandler, ExceptionManager

from screens.bench import Bench

FILE = "faults.txt"
LARGEST_BYTES = 1_000_000


class LastResort(ExceptionHandler):
    """Write each fault once to a file beside the clients and keep the app open.

    Nothing is lost: every touch before it was saved, and a change is saved whole or
    not at all.
    """

    def __init__(self, folder: Path, bench: Bench) -> None:
        super().__init__()
        self._path = folder / FILE
        self._bench = bench
        self._written: set[str] = set()

    def handle_exception(self, inst: BaseException) -> int:
        if not isinstance(inst, Exception):  # closing, or Ctrl-C
            return int(ExceptionManager.RAISE)
        self._write("".join(traceback.format_exception(inst)))
        self._bench.trouble = (
            "Something went wrong inside the app. Everything up to your last touch is safe. "
            f"What happened is written in {FILE}, beside the clients: please pass it on."
        )
        return int(ExceptionManager.PASS)

    def _write(self, fault: str) -> None:
        """Write each one once: a fault in every frame must not fill the device."""
        if fault in self._written:
            return
        self._written.add(fault)
        try:
            if self._path.exists() and self._path.stat().st_size > LARGEST_BYTES:
                self._path.unlink()
            with self._path.open("a", encoding="utf-8") as file:
                file.write(f"{datetime.now().astimezone():%Y-%m-%d %H:%M:%S %z}\n{fault}\n")
        except OSError:
            pass  # a full disk must not turn a fault into an end
