"""On every page and size of the draft: fingers fit, nothing is cut off, every sign can be drawn."""

import copy
from itertools import pairwise

import pytest

from core.settings import Settings, write_settings
from screens.parts.draft_chosen import Drafting, Opened
from tests.screens.folders import DEMO, DEMO_ID
from tests.screens.tablet import SCREENS, Tablet
from tests.screens.test_every_screen import (
    test_every_sign_that_is_shown_is_in_the_font_that_shows_it,
    test_every_touch_target_can_be_brought_into_the_window,
    test_every_touch_target_fits_a_finger,
    test_no_text_is_cut_off,
    test_only_the_four_sizes_of_letters_are_used,
    test_two_touch_targets_are_never_nearer_than_eight,
)

__all__ = [
    "test_every_sign_that_is_shown_is_in_the_font_that_shows_it",
    "test_every_touch_target_can_be_brought_into_the_window",
    "test_every_touch_target_fits_a_finger",
    "test_no_text_is_cut_off",
    "test_only_the_four_sizes_of_letters_are_used",
    "test_two_touch_targets_are_never_nearer_than_eight",
]

LONG = (
    "This could not be saved (no room is left on the device). Everything up to the touch before it"
    " is safe: make room, and touch it again"
)

GARMENT = DEMO["garments"][0]["id"]
WAIST = Opened("width", "front", "waist")
SHOWN = {
    "the sum": Drafting(GARMENT, opened=WAIST),
    "the details": Drafting(GARMENT, page="more", opened=Opened("take up", "back_waist", "waist")),
    "a name": Drafting(GARMENT, page="more", opened=Opened("name", "side", "", "seams")),
    "the check": Drafting(GARMENT, page="checks"),
    "the sheet": Drafting(GARMENT, page="sheet"),
    "the start": Drafting(GARMENT, page="start"),
    "the clients": Drafting(GARMENT, page="clients"),
    "typing": Drafting(GARMENT, opened=WAIST),
    "many pieces": Drafting("many", opened=Opened("width", "panel_2", "level_1")),
}
SIZES = ["landscape", "portrait"]
SMALL = {"small": (960, 600, 1.0), "small portrait": (600, 960, 1.0)}
"""A tablet of 7 inches, in dp."""

TIGHT = ["the sum", "the details", "typing", "many pieces", "the start"]
LOOKED_AT = [
    *((shown, size) for shown in SHOWN for size in SIZES),
    *((shown, size) for shown in TIGHT for size in SMALL),
    *((shown, f"{size}, largest letters") for shown in TIGHT for size in SIZES),
]


@pytest.fixture(params=LOOKED_AT, ids=" ".join, scope="module")
def hand(request, window, tmp_path_factory):
    """A page of the draft, looked at by every test of this module and changed by none."""
    from screens.app import PinsToSeamsApp
    from screens.tokens import sizes

    shown, (size, _, letters) = request.param[0], request.param[1].partition(", ")
    monkey = pytest.MonkeyPatch()
    monkey.setattr("tests.screens.tablet.SCREENS", SCREENS | SMALL)
    folder = tmp_path_factory.mktemp("data")
    write_settings(folder, Settings(text="largest" if letters else "normal"))
    running = Tablet(window, folder)
    hand = running(PinsToSeamsApp(folder), size)
    hand.wait()
    room = hand.app.room
    room.store.save(with_many())
    room.open_client(DEMO_ID, "draft", SHOWN[shown])
    if shown == "typing":
        room.view.type()
    if shown == "the sum":
        room.trouble = LONG
    hand.settle()
    yield hand
    running.stop()
    sizes.scale = 1.0
    monkey.undo()


def with_many():
    """The demo client with a second garment: an invented corset of nine panels a half."""
    document = copy.deepcopy(DEMO)
    panels = [f"panel_{number}" for number in range(1, 10)]
    levels = [f"level_{number}" for number in range(1, 11)]
    pieces = [
        {"id": name, "label": f"Panel {number} of nine",
         "width": dict.fromkeys(levels, "3 1/16")}
        for number, name in enumerate(panels, 1)
    ]  # fmt: skip
    seams = [{"id": f"seam_{one}", "joins": [one, other], "allowance": "1/2"}
             for one, other in pairwise(panels)]  # fmt: skip
    document["garments"].append({
        "id": "many", "name": "Corset", "ease": {},
        "levels": [{"id": level, "label": f"Level {number}, a long name for it", "down": number,
                    "body": "waist_girth"} for number, level in enumerate(levels, 1)],
        "layers": [{"id": "outer", "label": "Outer", "rings": [
            {"id": "body", "kind": "half", "pieces": pieces, "seams": seams}]}],
    })  # fmt: skip
    return document
