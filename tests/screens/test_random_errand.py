"""Whatever is touched in whatever order: nothing raises, what is kept is what is shown."""

import pytest

from tests.screens.folders import DEMO_ID
from tests.screens.kept import kept
from tests.screens.random_errand import Walk

STEPS = 60


@pytest.mark.parametrize("seed", [1, 2, 3])
def test_a_random_errand_leaves_the_store_readable_and_the_totals_true(launch, tmp_path, seed):
    errand = Walk(launch, tmp_path, seed)
    errand.begin()
    errand.walk(STEPS)
    assert sum(errand.done.values()) == STEPS


@pytest.mark.parametrize("seed", [40, 41])
def test_on_a_disk_that_is_full_again_and_again_nothing_is_shown_that_is_not_kept(
    launch, tmp_path, seed
):
    errand = Walk(launch, tmp_path, seed, fills=True)
    errand.begin()
    errand.walk(STEPS)
    assert errand.refused  # each step looked whether what is kept is still what is shown
    noted = errand.room.change(lambda document: document.update(notes="room again"))
    assert noted
    assert kept(tmp_path, DEMO_ID)["notes"] == "room again"
