"""What the scripts that save pictures of one screen share: their command line and their round.

    FOLDER [NAME ...] [--dark] [--dense] [--left] [--largest]

Each picture of one of the names is made, wide and tall; without names all are.
"""

import argparse
import tempfile
from collections.abc import Callable, Iterable
from pathlib import Path
from typing import Any

from tests.screens import tablet


def save_pictures(description: str, names: Iterable[str], show: Callable[..., tablet.Hand]) -> None:
    """Save each picture that was asked for.

    ``show(name, running, folder, size, **settings)`` opens the app on an empty folder and
    returns the hand once all is to be seen.
    """
    given = _arguments(description)
    window = tablet.open_window()
    given.folder.mkdir(parents=True, exist_ok=True)
    for name in [name for name in names if not given.names or name in given.names]:
        for shape in ("landscape", "portrait"):
            running = tablet.Tablet(window, given.folder)
            folder = Path(tempfile.mkdtemp())
            hand = show(name, running, folder, _size(shape, given.dense), **_settings(given))
            hand.settle()
            hand.picture().save(given.folder / f"{name.replace(' ', '-')}-{shape}.png")
            running.stop()


def _size(shape: str, dense: bool) -> str:
    return " ".join(["dense"] * dense + [shape] * (shape == "portrait")) or "landscape"


def _settings(given: argparse.Namespace) -> dict[str, Any]:
    return {
        "text": "largest" if given.largest else "normal",
        "light": "dark" if given.dark else "light",
        "left_handed": given.left,
    }


def _arguments(description: str) -> argparse.Namespace:
    parser = argparse.ArgumentParser(description=description)
    parser.add_argument("folder", type=Path)
    parser.add_argument("names", nargs="*")
    for flag in ("dark", "dense", "left", "largest"):
        parser.add_argument(f"--{flag}", action="store_true")
    return parser.parse_args()
