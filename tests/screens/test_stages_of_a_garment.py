"""From any stage of a garment to any other in one touch, and back to where she came from."""

import copy

import pytest

from tests.screens import folders
from tests.screens.folders import DEMO, DEMO_ID

GARMENT = DEMO["garments"][0]["id"]


@pytest.fixture
def hand(start, tmp_path):
    folder = tmp_path / "clients"
    folders.fill(folder, DEMO)
    hand = start("portrait", folder)
    hand.app.room.open_client(DEMO_ID)
    hand.app.room.go("draft", GARMENT)
    hand.settle()
    return hand


def touch(hand, label):
    from screens.parts.stages import StageKey

    hand.tap(next(key for key in hand.all(StageKey) if key.row.label == label))
    hand.settle()


def test_every_stage_leads_to_every_other_and_the_way_back_to_her_page(hand):
    for label, screen in (("Fitting", "fitting"), ("Changes", "changes"), ("Draft", "draft")):
        touch(hand, label)
        assert hand.app.root.current == screen
        assert hand.app.room.view.chosen.garment in ("", GARMENT)
        assert hand.app.room.trouble == ""
    hand.key("back")
    hand.frames(3)
    assert hand.app.root.current == "client"


def test_a_touch_on_the_stage_that_is_open_changes_nothing(hand):
    chosen = hand.app.room.view.chosen
    touch(hand, "Draft")
    assert (hand.app.root.current, hand.app.room.view.chosen) == ("draft", chosen)


def test_a_garment_that_is_only_begun_has_no_stages(hand):
    from screens.parts.stages import StageKey

    hand.app.room.go("draft")
    hand.settle()
    assert hand.all(StageKey) == []


def test_without_a_draft_the_changes_say_what_to_do_first(start, tmp_path):
    document = copy.deepcopy(DEMO)
    bare = {"layers": [], "levels": [], "joined": [], "lines": [], "fittings": []}
    document["garments"][0] |= bare
    folder = tmp_path / "clients"
    folders.fill(folder, document)
    hand = start("landscape", folder)
    hand.app.room.open_client(DEMO_ID)
    hand.app.room.go("changes")
    assert hand.app.room.here == "client"
    assert "draft it first" in hand.app.room.trouble
    assert hand.app.room.go("fitting")


def test_before_every_pin_is_read_there_is_no_list_and_nothing_to_sew(start, tmp_path):
    document = copy.deepcopy(DEMO)
    pins = document["garments"][0]["fittings"][0]["pins"]
    del pins[0]["pinch"], pins[1]["pinch"]
    folder = tmp_path / "clients"
    folders.fill(folder, document)
    hand = start("landscape", folder)
    hand.app.room.open_client(DEMO_ID)
    hand.app.room.go("changes")
    hand.settle()
    assert hand.app.room.view.steps == []
    assert "2 pins are not read yet. Read them off first: then the list is made." in hand.texts()
    touch(hand, "Sewing table")
    assert hand.app.root.current == "changes"
    assert "2 pins are not read yet" in hand.app.room.trouble
