"""An amount of the list is set by hand, by touch: it stands, is told, shared again, taken back."""

import pytest

from tests.screens.folders import DEMO_ID, open_changes
from tests.screens.kept import kept


def fitting_kept(tmp_path):
    return kept(tmp_path / "data", DEMO_ID)["garments"][0]["fittings"][0]


def opened(hand, title):
    """Open a step of the list by touch, and return its amounts by their level."""
    from screens.parts.steps import AmountLine, StepLine

    line = next(line for line in hand.all(StepLine) if line.row.title.startswith(title))
    if not line.opened:
        bring(hand, line)
        hand.tap(line)
    return {amount.row.label: amount for amount in hand.all(AmountLine)}


def bring(hand, part):
    hand.ids.list_view.scroll_to(part, padding=0, animate=False)
    hand.settle()


def press(hand, amounts, level, key):
    part = amounts[level].ids[key]
    bring(hand, part)
    hand.tap(part)


def level_row(hand, level):
    return next(row for row in hand.app.room.view.levels if row.level == level)


def differs(hand):
    return list(hand.app.room.view.set_differs)


@pytest.mark.parametrize("screen", ["landscape", "portrait"])
def test_an_amount_set_by_touch_stands_on_every_list_until_it_is_taken_back(
    changes, start, tmp_path, screen
):
    hand = changes(screen)
    before = fitting_kept(tmp_path)
    # the demo's sides are pinned 1/4 deep at the waist, with others 1 3/4 off the round
    amounts = opened(hand, "Side seam, her left")
    assert amounts["Waist"].row.text == "1/4"
    assert amounts["Waist"].row.way == "take in"
    for _ in range(3):
        press(hand, opened(hand, "Side seam, her left"), "Waist", "further_out")
    # one side's two edges from 1/4 in to 1/8 out: 3/4 less is taken in, 1 of 1 3/4
    waist = opened(hand, "Side seam, her left")["Waist"].row
    assert (waist.way, waist.text) == ("let out", "1/8")
    assert waist.note == "set by hand, planned: take in 1/4"
    assert differs(hand) == [
        "Outer, waist, set by hand: pinned, take in 1 3/4; these moves take in 1: 3/4 short."]
    assert level_row(hand, "waist").moved == "1"
    assert hand.ids.levels.moved_name == "planned"
    assert fitting_kept(tmp_path)["set_by_hand"] == [
        {"layer": "outer", "seam": "side", "side": "left", "level": "waist", "move": "1/8 in"}]

    again = start(screen)
    open_changes(again)
    assert len(differs(again)) == 1
    again.tap(again.ids.to_sew)
    view = again.app.room.view
    left = next(step for step in view._table.steps if step.whose == "Her left")
    assert [row.amounts[0].text for row in left.rows if row.label == "Waist"] == ["1/8"]
    again.key("back")
    opened(again, "Side seam, her left")
    from screens.parts.steps import SetNote

    (note,) = again.all(SetNote)
    assert note.row.note == "set by hand, planned: take in 1/4"
    bring(again, note)
    again.tap(note.ids.as_planned)
    assert opened(again, "Side seam, her left")["Waist"].row.text == "1/4"
    assert differs(again) == []
    assert fitting_kept(tmp_path) == before


def test_what_is_left_is_shared_again_when_she_asks_and_undo_takes_it_back(changes, tmp_path):
    from screens.changes_hand import SetByHandLine, ShareAgainKey

    hand = changes()
    press(hand, opened(hand, "Side seam, her left"), "Waist", "further_out")
    press(hand, opened(hand, "Side seam, her left"), "Waist", "further_out")
    assert "1/2 short" in differs(hand)[0]
    (key,) = hand.all(ShareAgainKey)
    bring(hand, key)
    hand.tap(key)
    assert differs(hand) == []  # what the sides lack, seams and darts that were not set give
    assert fitting_kept(tmp_path)["shared_again"] is True
    assert hand.ids.unpinned.text.startswith("Moved without a pin: ")
    hand.tap(hand.ids.head.ids.undo)
    assert "shared_again" not in fitting_kept(tmp_path)
    assert "1/2 short" in differs(hand)[0]
    (line,) = hand.all(SetByHandLine)
    assert line.row.text.startswith("Side seam, her left, waist: nothing an edge, planned: take in")
    bring(hand, line)
    hand.tap(line.ids.as_planned)
    assert "set_by_hand" not in fitting_kept(tmp_path)
    assert not hand.all(SetByHandLine)
