"""Save a picture of a screen, as it stands on the demo client.

    python -m tests.screens.picture changes OUT.png [--portrait] [--dense] [--dark]
        [--lead tape] [--pin 5] [--open]

``--pin`` takes that pin in hand, ``--open`` opens the sum of the first level and of the
first step.
"""

import argparse
import tempfile
from pathlib import Path

from tests.screens import tablet


def main() -> None:
    given = _arguments()
    folder = Path(tempfile.mkdtemp())
    running = tablet.Tablet(tablet.open_window(), folder)
    from screens.app import PinsToSeamsApp
    from screens.tokens import colours

    colours.theme = "dark" if given.dark else "light"
    app = PinsToSeamsApp(folder)
    name = " ".join(["dense"] * given.dense + ["portrait"] * given.portrait) or "landscape"
    hand = running(app, name)
    app.root.current = given.screen
    if given.lead != "pins":
        app.bench.choose_lead(given.lead)
    app.bench.take_pin(given.pin - 1)
    hand.settle()
    if given.open:
        _open_first_lines(hand)
    hand.picture().save(given.out)
    running.stop()


def _open_first_lines(hand: tablet.Hand) -> None:
    from screens.parts.levels import LevelLine
    from screens.parts.steps import StepLine

    for kind in (LevelLine, StepLine):
        for line in hand.all(kind)[:1]:
            hand.tap(line)
    hand.settle()


def _arguments() -> argparse.Namespace:
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("screen", choices=["changes", "empty"])
    parser.add_argument("out", type=Path)
    parser.add_argument("--portrait", action="store_true")
    parser.add_argument("--dense", action="store_true")
    parser.add_argument("--dark", action="store_true")
    parser.add_argument("--open", action="store_true")
    parser.add_argument("--lead", default="pins", choices=["pins", "tape", "both"])
    parser.add_argument("--pin", type=int, default=2)
    return parser.parse_args()


if __name__ == "__main__":
    main()
