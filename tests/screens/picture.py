"""Save a picture of a screen, as it stands on the demo client.

    python -m tests.screens.picture changes OUT.png [--portrait] [--dense] [--dark]
        [--lead tape] [--pin 5] [--open] [--due] [--wrong]

The screens are ``changes``, ``day book``, ``passcode`` and ``closed``.  ``--pin`` takes that pin
in hand, ``--open`` opens the sum of the first level and of the first step, ``--due`` reminds of
a backup, and ``--wrong`` tries a passcode that is none.
"""

import argparse
import tempfile
from contextlib import ExitStack
from pathlib import Path

from tests.screens import folders, tablet
from tests.screens.folders import DEMO_ID, open_changes


def main() -> None:
    given = _arguments()
    folder = Path(tempfile.mkdtemp())
    running = tablet.Tablet(tablet.open_window(), folder)
    from screens.app import PinsToSeamsApp
    from screens.tokens import colours

    colours.theme = "dark" if given.dark else "light"
    name = " ".join(["dense"] * given.dense + ["portrait"] * given.portrait) or "landscape"
    with ExitStack() as held:
        _prepare(folder, given, held)
        hand = running(PinsToSeamsApp(folder), name)
        if given.screen == "changes":
            _work(hand, given)
        assert hand.app.root.current == given.screen
        if given.wrong:
            _try_wrong(hand)
        hand.settle()
        hand.picture().save(given.out)
        running.stop()


def _prepare(folder: Path, given: argparse.Namespace, held: ExitStack) -> None:
    if given.empty:
        folders.empty(folder)
    elif given.screen == "passcode":
        folders.sealed(folder)
    elif given.screen == "closed":
        held.enter_context(folders.in_use(folder))
    elif given.due:
        folders.due_for_backup(folder)


def _work(hand: tablet.Hand, given: argparse.Namespace) -> None:
    open_changes(hand, DEMO_ID)
    changes = hand.app.room.view
    if given.lead != "pins":
        changes.choose_lead(given.lead)
    changes.take_pin(given.pin - 1)
    changes.step_pin(1)
    changes.room.undo()
    hand.settle()
    if given.open:
        _open_first_lines(hand)


def _try_wrong(hand: tablet.Hand) -> None:
    hand.tap(hand.ids.field)
    hand.type("red ribbon")
    hand.tap(hand.ids.show)
    hand.tap(hand.ids.open)
    hand.wait()


def _open_first_lines(hand: tablet.Hand) -> None:
    from screens.parts.levels import LevelLine
    from screens.parts.steps import StepLine

    for kind in (LevelLine, StepLine):
        for line in hand.all(kind)[:1]:
            hand.tap(line)
    hand.settle()


def _arguments() -> argparse.Namespace:
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("screen", choices=["changes", "day book", "passcode", "closed"])
    parser.add_argument("out", type=Path)
    parser.add_argument("--portrait", action="store_true")
    parser.add_argument("--dense", action="store_true")
    parser.add_argument("--dark", action="store_true")
    parser.add_argument("--empty", action="store_true")
    parser.add_argument("--open", action="store_true")
    parser.add_argument("--due", action="store_true")
    parser.add_argument("--wrong", action="store_true")
    parser.add_argument("--lead", default="pins", choices=["pins", "tape", "both"])
    parser.add_argument("--pin", type=int, default=2)
    return parser.parse_args()


if __name__ == "__main__":
    main()
