"""Save pictures of the tape as she sees it.

    python -m tests.screens.tape_pictures FOLDER [NAME ...] [--dark] [--dense]
        [--left] [--largest]
"""

import copy
import json
from datetime import date, datetime

from tests.screens.folders import DEMO
from tests.screens.picture_set import save_pictures

DAY = date(2026, 5, 14)
NOON = datetime(2026, 5, 14, 12).timestamp()
MARCH = {
    "on": "2026-03-02",
    "worn": {"foundation": "strapless long-line bra, half slip", "heel": "2 1/2"},
    "waist_found": "natural",
    "values": {"bust_girth": "38", "waist_girth": "33", "hip_girth": "42", "wrist_girth": "6 1/4",
               "upper_arm_girth": {"left": "11 1/4", "right": "11"}},
}  # fmt: skip


def client(kind="fishtail_gown", *measurements, **more):
    """An invented client with a garment of a kind, which is only named."""
    document = copy.deepcopy(DEMO)
    garment = document["garments"][0] | {"kind": kind, "fittings": []}
    return document | {
        "client": {"id": "0de00000-0000-4000-8000-0000000000d1", "name": "Isaura Quellin-Adomako"},
        "measurements": list(copy.deepcopy(measurements)),
        "garments": [garment] if kind else [],
    } | more  # fmt: skip


def with_values(document, values):
    from core.body.sitting import set_value
    from core.body.taking import numbers_of
    from core.body.tape_order import kinds_of, number_of

    document = json.loads(json.dumps(document))
    if values == "all":
        kinds = kinds_of(document)
        numbers = numbers_of(document, DAY.isoformat(), kinds)
        values = {number.key: "21 1/2" for number in numbers}
    for key, text in values.items():
        set_value(document, DAY.isoformat(), number_of(key), text)
    return document


SOME = {"heel_of_the_day": "3", "upper_chest_girth": "36 1/4", "bust_girth": "38 1/2",
        "under_bust_girth": "33 1/2"}  # fmt: skip


def press(*signs):
    def act(hand):
        for sign in signs:
            hand.tap(key_of(hand, sign))

    return act


def key_of(hand, sign):
    """Return the key of the keypad that means this."""
    from screens.parts.keypad import Key

    return next(key for key in hand.all(Key) if key.sign == sign)


def go(key):
    return lambda hand: hand.view.go_to(key)


def pick(measurement):
    return lambda hand: hand.view.pick(measurement)


def touch(name):
    return lambda hand: hand.tap(find(hand, name))


def speaking(hand):
    hand.view.can_speak = hand.view.speaks = True


def find(hand, name):
    """Return the part of the screen that a rule named so."""
    for widget in hand.screen.walk():
        if name in getattr(widget, "ids", {}):
            return widget.ids[name]
    raise AssertionError(f"nothing is called {name}")


PICTURES = {
    "waist": (client("fishtail_gown", MARCH), SOME, [go("waist_girth"), press("3", "1", "1/4")]),
    "first": (client("fishtail_gown", MARCH), {}, []),
    "new": (client("sheath_dress"), {}, []),
    "half typed": (client("fishtail_gown", MARCH), SOME, [go("waist_girth"), press("3")]),
    "sides": (client("sleeved_bodice", MARCH), SOME, [go("upper_arm_girth:left"), press("1", "1")]),
    "long": (client("fishtail_gown"), SOME, [go("off_shoulder_girth"), press("9", "9", "7/8")]),
    "floor": (client("fishtail_gown"), SOME, [go("waist_to_floor_side:right"), press("4", "1")]),
    "second": (
        client("fishtail_gown", MARCH), SOME,
        [go("waist_girth"), press("3", "1", "1/4"), touch("read_again"), press("3", "2")],
    ),
    "third": (
        client("fishtail_gown"), SOME,
        [go("waist_girth"), press("3", "1", "1/4"), touch("read_again"), press("3", "2")],
    ),
    "cm": (client("fishtail_gown", MARCH), SOME,
           [go("waist_girth"), touch("other_unit"), press("7", "9", ".5")]),
    "mm": (client("trousers", unit="mm"), {}, [go("waist_girth"), press("7", "9", "5")]),
    "odd": (client("fishtail_gown", MARCH), SOME, [go("waist_girth"), press("8", "5", "7/8")]),
    "heel": (client("fishtail_gown", MARCH), {}, [touch("heel"), press("3")]),
    "both": (client("fishtail_gown"), SOME, [go("waist_to_hip"), press("8")]),
    "order": (client("fishtail_gown"), SOME, [touch("order"), pick("hip_girth")]),
    "nothing": (client(""), {}, []),
    "speaking": (client("fishtail_gown", MARCH), SOME, [go("hip_girth"), speaking]),
    "done": (client("pencil_skirt"), "all", []),
}  # fmt: skip


def show(running, folder, document, values, screen="landscape", chosen=None, **settings):
    """Start the app on the tape of one client and return the hand that works it."""
    from core.settings import Settings, write_settings
    from core.store.clients import Store
    from screens.app import PinsToSeamsApp

    with Store(folder) as store:
        store.save(with_values(document, values))
    write_settings(folder, Settings(**settings))
    hand = running(PinsToSeamsApp(folder, lambda: NOON), screen)
    hand.app.room.open_client(document["client"]["id"], "tape", chosen)
    hand.frames(2)
    hand.view = hand.screen.view
    return hand


def main():
    save_pictures(__doc__.splitlines()[0], PICTURES, _shown)


def _shown(name, running, folder, size, **settings):
    document, values, acts = PICTURES[name]
    hand = show(running, folder, document, values, size, **settings)
    for act in acts:
        act(hand)
    return hand


if __name__ == "__main__":
    main()
