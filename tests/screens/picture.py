"""Save a picture of a screen at its fullest, or of all of them.

    python -m tests.screens.picture NAME OUT.png [--portrait] [--dense] [--dark] [--left]
        [--text largest] [--said]
    python -m tests.screens.picture all OUTDIR

The names are those of ``stages``; ``all`` makes every one of them, wide and tall, light and
dark.  ``--said`` shows what could not be done and what is being done, too.
"""

import argparse
import tempfile
from collections.abc import Iterator
from contextlib import ExitStack
from dataclasses import dataclass
from pathlib import Path

from tests.screens import tablet
from tests.screens.stages import STAGES, begin, say_everything


@dataclass(frozen=True)
class Wanted:
    """One picture."""

    stage: str
    out: Path
    size: str = "landscape"
    light: str = "light"
    text: str = "normal"
    left_handed: bool = False
    said: bool = False


def main() -> None:
    given = _arguments()
    window = tablet.open_window()
    for wanted in _every(given.out) if given.name == "all" else [_one(given)]:
        take(window, wanted)


def take(window: object, wanted: Wanted) -> None:
    """Open the app at a stage and save what the window shows."""
    folder = Path(tempfile.mkdtemp()) / "clients"
    running = tablet.Tablet(window, folder)
    with ExitStack() as held:
        hand = begin(STAGES[wanted.stage], running, folder, wanted.size, held, text=wanted.text,
                     light=wanted.light, left_handed=wanted.left_handed)  # fmt: skip
        if wanted.said:
            say_everything(hand)
        hand.settle()
        wanted.out.parent.mkdir(parents=True, exist_ok=True)
        hand.picture().save(wanted.out)
        running.stop()


def _every(out: Path) -> Iterator[Wanted]:
    for stage in STAGES:
        for size in ("landscape", "portrait"):
            for light in ("light", "dark"):
                name = f"{stage.replace(' ', '-')}-{size}-{light}.png"
                yield Wanted(stage, out / name, size, light)


def _one(given: argparse.Namespace) -> Wanted:
    size = " ".join(["dense"] * given.dense + ["portrait"] * given.portrait) or "landscape"
    return Wanted(given.name, given.out, size, "dark" if given.dark else "light", given.text,
                  given.left, given.said)  # fmt: skip


def _arguments() -> argparse.Namespace:
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("name", choices=["all", *STAGES])
    parser.add_argument("out", type=Path)
    for flag in ("portrait", "dense", "dark", "left", "said"):
        parser.add_argument(f"--{flag}", action="store_true")
    parser.add_argument("--text", default="normal", choices=["normal", "large", "largest"])
    return parser.parse_args()


if __name__ == "__main__":
    main()
