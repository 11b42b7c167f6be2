"""Save a picture of a page of the draft.

    python -m tests.screens.draft_pictures OUT.png [--draft 2_princess_gown] [--page more]
        [--open "width,front,waist"] [--type "1 1 1/2"] [--layer lining] [--ring leg]
        [--portrait] [--small] [--dense] [--dark] [--text largest] [--new] [--empty]

Without ``--draft`` it is the demo's sheath; ``--new`` is a client without a garment, ``--empty``
one who was not measured either.
"""

import argparse
import copy
import json
import tempfile
from pathlib import Path
from typing import Any

from tests.screens import tablet
from tests.screens.folders import DEMO, another

DRAFTS = Path(__file__).parents[1] / "data" / "drafts"
SMALL = {"small": (960, 600, 1.0), "small portrait": (600, 960, 1.0)}
"""A small tablet: 7 inches across."""


def main() -> None:
    given = _arguments()
    tablet.SCREENS.update(SMALL)
    running = tablet.Tablet(tablet.open_window(), Path(tempfile.mkdtemp()))
    from screens import tokens
    from screens.app import PinsToSeamsApp

    kind = "small" if given.small else "dense" if given.dense else ""
    name = " ".join([kind] * bool(kind) + ["portrait"] * given.portrait) or "landscape"
    hand = running(PinsToSeamsApp(Path(tempfile.mkdtemp()) / "folder"), name)
    hand.wait()
    _wear(hand.app.room, tokens, given)
    _work(hand, given)
    hand.settle()
    hand.picture().save(given.out)
    running.stop()


def _wear(room: Any, tokens: Any, given: argparse.Namespace) -> None:
    room.settings  # noqa: B018  the app reads them before anything is worn
    tokens.colours.theme = "dark" if given.dark else "light"
    tokens.sizes.scale = tokens.SCALES[given.text]


def _work(hand: tablet.Hand, given: argparse.Namespace) -> None:
    from screens.parts.draft_chosen import Drafting, Opened

    room, document = hand.app.room, _document(given)
    garment = document["garments"][-1]["id"] if document["garments"] else ""
    what, of, level, which = (*given.open.split(","), "", "", "", "")[:4]
    chosen = Drafting(garment, given.page, given.layer, given.ring,
                      Opened(what, of, level, which)) if garment else None  # fmt: skip
    room.add_client(document, "draft", chosen)
    for key in given.type.split():
        room.view.press(key)


def _document(given: argparse.Namespace) -> dict[str, Any]:
    if given.draft:
        found: dict[str, Any] = json.loads((DRAFTS / f"{given.draft}.json").read_text("utf-8"))
        return found
    document = copy.deepcopy(DEMO)
    document["client"] = another(9, "Ottoline Brackenwick")["client"]
    document["garments"] = [] if given.new or given.empty else document["garments"]
    document["measurements"] = [] if given.empty else document["measurements"]
    return document


def _arguments() -> argparse.Namespace:
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("out", type=Path)
    parser.add_argument("--page", default="widths")
    for name in ("draft", "open", "type", "layer", "ring"):
        parser.add_argument(f"--{name}", default="")
    parser.add_argument("--text", default="normal", choices=["normal", "large", "largest"])
    for name in ("portrait", "small", "dense", "dark", "new", "empty"):
        parser.add_argument(f"--{name}", action="store_true")
    return parser.parse_args()


if __name__ == "__main__":
    main()
