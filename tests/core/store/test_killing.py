"""A program that is really killed while it works loses nothing it had said was done."""

import os
from pathlib import Path

import pytest

from tests.killing import kill_ours, kill_own

pytestmark = pytest.mark.skipif(os.name == "nt", reason="needs a signal that cannot be caught")


def test_two_hundred_kills_lose_nothing(tmp_path: Path) -> None:
    tally = kill_ours(tmp_path, 200, seed=20)
    assert tally.kills == 200
    assert tally.acts > 200
    assert sum(count for what, count in tally.during.items() if what != "opening") > 50


def test_the_same_would_find_what_tinydb_s_own_storage_loses(tmp_path: Path) -> None:
    assert kill_own(tmp_path, 300, seed=20, go_on=False).lost
