"""Every kind of garment finds room on the screen, whatever its levels are called."""

import json
from pathlib import Path

import pytest

from tests.screens.folders import fill, open_changes
from tests.screens.tablet import Tablet
from tests.screens.test_every_screen import assert_nothing_cut_off

DRAFTS = sorted((Path(__file__).resolve().parents[1] / "data" / "drafts").glob("*.json"))


@pytest.mark.parametrize("path", DRAFTS, ids=lambda path: path.stem)
def test_every_kind_of_garment_finds_room(window, tmp_path, path):
    from screens.app import PinsToSeamsApp

    fill(tmp_path, json.loads(path.read_text(encoding="utf-8")))
    running = Tablet(window, tmp_path)
    try:
        hand = running(PinsToSeamsApp(tmp_path), "portrait")
        open_changes(hand)
        assert hand.app.room.view.levels
        assert hand.app.room.trouble == ""
        assert_nothing_cut_off(hand)
    finally:
        running.stop()


def test_there_are_garments_to_try():
    assert len(DRAFTS) == 7
