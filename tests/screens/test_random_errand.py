"""Whatever is touched in whatever order: nothing raises, what is kept is what is shown."""

import pytest

from tests.screens.random_errand import Walk

STEPS = 60


@pytest.mark.parametrize("seed", [1, 2, 3])
def test_a_random_errand_leaves_the_store_readable_and_the_totals_true(launch, tmp_path, seed):
    errand = Walk(launch, tmp_path, seed)
    errand.begin()
    errand.walk(STEPS)
    assert sum(errand.done.values()) == STEPS
