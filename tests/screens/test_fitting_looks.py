"""Every moment of a fitting in the largest letters, wide and tall: fingers fit, nothing is cut."""

import pytest

from tests.screens import test_every_screen as every
from tests.screens.fitting_pictures import NOTED, TURNED, client, show
from tests.screens.tablet import Tablet

MOMENTS = [
    {"moment": "before"},
    {"moment": "before", "field": "girth outer body waist"},
    {"moment": "look"},
    {"moment": "pin"},
    {"moment": "pin", "pin": 0, "into": "through"},
    {"moment": "pin", "into": "lining"},
    {"moment": "pin", "pieces": True},
    {"moment": "pin", "opened": True, "pin": 4},
    {"moment": "marks", "marked": 1, "meaning": True},
    {"moment": "marks", "mark": "tuck", "tuck_place": "left"},
    {"moment": "move", "movement": "sit"},
    {"moment": "hem"},
    {"moment": "out"},
    {"moment": "read"},
    {"moment": "read", "pin": 3},
    {"moment": "read", "pin": 0},
    {"moment": "read", "pin": 0, "noting": True},
]

LOOKS = (
    every.test_every_touch_target_fits_a_finger,
    every.test_every_touch_target_can_be_brought_into_the_window,
    every.test_two_touch_targets_are_never_nearer_than_eight,
    every.assert_nothing_cut_off,
    every.test_only_the_four_sizes_of_letters_are_used,
    every.test_every_sign_that_is_shown_is_in_the_font_that_shows_it,
)


@pytest.fixture(params=["landscape", "portrait"], scope="module")
def hand(request, window, tmp_path_factory):
    """A full fitting, inside out, in the largest letters, looked at moment by moment."""
    from screens.tokens import sizes

    folder = tmp_path_factory.mktemp("data") / "clients"
    running = Tablet(window, folder)
    yield show(running, folder, client(NOTED | TURNED, heel_of_the_day="3"), {}, request.param,
               text="largest")  # fmt: skip
    running.stop()
    sizes.scale = 1.0


@pytest.mark.parametrize("chosen", MOMENTS, ids=lambda chosen: " ".join(map(str, chosen.values())))
def test_fingers_fit_and_nothing_is_cut_off_in_any_moment(hand, chosen):
    from screens.fitting_page import Chosen

    hand.app.room.choose(Chosen(**chosen))
    hand.settle()
    for look in LOOKS:
        look(hand)
