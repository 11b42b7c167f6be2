"""Save pictures of the sewing table as she sees it.

    python -m tests.screens.sewing_pictures FOLDER [NAME ...] [--dark] [--dense]
        [--left] [--largest]
"""

import copy
from datetime import datetime

from tests.screens.folders import DEMO
from tests.screens.picture_set import save_pictures

NOON = datetime(2026, 3, 5, 12).timestamp()


def go(step):
    """Show a step by its number on the list."""
    return lambda hand: hand.app.room.view._go_to(step - 1)


def do(*verbs):
    def act(hand):
        for verb, *given in verbs:
            getattr(hand.app.room.view, verb)(*given)

    return act


def voice(hand):
    hand.app.room.view.can_speak = True


def unlike():
    """The demo, her left side seam with unlike edges, and a centre back let out."""
    document = copy.deepcopy(DEMO)
    pins = document["garments"][0]["fittings"][0]["pins"]
    pins[1] = {"seam": "side", "side": "left", "level": "waist",
               "edges": {"front": "-1/4", "back": "-5/8"}}  # fmt: skip
    return document


TAPED = (("take_girth", 0), ("press", "4"), ("press", "2"), ("next_girth",), ("press", "3"),
         ("press", "5"), ("press", "3/8"))  # fmt: skip
PICTURES = {
    "mark": (DEMO, [go(1)]),
    "open": (DEMO, [go(2)]),
    "dart": (DEMO, [go(3)]),
    "left": (DEMO, [voice, go(4)]),
    "right": (DEMO, [voice, go(5)]),
    "unlike": (unlike(), [go(4)]),
    "why": (DEMO, [go(4), do(("why",))]),
    "check": (DEMO, [go(6)]),
    "taping": (DEMO, [go(6), do(*TAPED)]),
    "taped": (DEMO, [go(6), do(*TAPED, ("next_girth",), ("close",))]),
    "centre": (DEMO, [go(7)]),
    "lining": (DEMO, [go(8)]),
    "hem": (DEMO, [go(11)]),
    "ticked": (DEMO, [go(4), do(("done",))]),
    "done": (DEMO, [go(4), do(("done",), ("_forget",), ("back",))]),
    "over": (DEMO, [go(12)]),
    "nothing": ({**DEMO, "garments": []}, []),
}


def show(running, folder, document, screen="landscape", chosen=None, **settings):
    """Start the app at the sewing table of one client and return the hand that works it."""
    from core.settings import Settings, write_settings
    from core.store.clients import Store
    from screens.app import PinsToSeamsApp

    with Store(folder) as store:
        store.save(copy.deepcopy(document))
    write_settings(folder, Settings(**settings))
    hand = running(PinsToSeamsApp(folder, lambda: NOON), screen)
    hand.app.room.open_client(document["client"]["id"], "sewing", chosen)
    hand.frames(2)
    return hand


def main():
    save_pictures(__doc__.splitlines()[0], PICTURES, _shown)


def _shown(name, running, folder, size, **settings):
    document, acts = PICTURES[name]
    hand = show(running, folder, document, size, **settings)
    for act in acts:
        act(hand)
    return hand


if __name__ == "__main__":
    main()
