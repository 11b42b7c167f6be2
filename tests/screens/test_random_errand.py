"""Whatever is touched in whatever order: nothing raises, what is kept is what is shown."""

import random

import pytest

from core.changes.plan import make_plan
from core.file.fitting_file import read_document
from tests.screens.folders import DEMO_ID, open_changes
from tests.screens.kept import kept

TOUCHES = 15


@pytest.mark.parametrize("seed", [1, 2, 3])
def test_a_random_errand_leaves_the_store_readable_and_the_totals_true(start, tmp_path, seed):
    from screens.shown import strip

    chance = random.Random(seed)
    hand = start(chance.choice(["landscape", "portrait"]))
    open_changes(hand)
    for _ in range(TOUCHES):
        hand.tap(chance.choice(touchable(hand)))
        on_disk = read_document(kept(tmp_path / "data", DEMO_ID))
        changes = hand.app.room.view_of("changes")
        live = changes.pin.level if changes.pin else ""
        told = strip(make_plan(on_disk), on_disk.garments[0], changes.layer, "in", live)
        assert list(changes.levels) == told


def touchable(hand):
    from kivy.uix.behaviors import ButtonBehavior

    return [button for button in hand.all(ButtonBehavior) if not button.disabled]
