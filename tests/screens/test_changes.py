"""The changes on one screen: a pin is changed by touch, and everything answers at once."""

import copy

import pytest

from core.changes.plan import make_plan
from core.file.fitting_file import read_document
from tests.screens.folders import DEMO, DEMO_ID, fill
from tests.screens.kept import kept

SIDES_AT_WAIST, LEFT_HIP = 1, 4
"""Pins of the demo, by their place in the list."""


def stored(folder):
    return kept(folder, DEMO_ID)


def stored_fitting(folder):
    return stored(folder)["garments"][0]["fittings"][0]


def pin_line(hand, index):
    from screens.parts.pins import PinLine

    return next(line for line in hand.all(PinLine) if line.row.index == index)


def editor(hand):
    """The parts of the pin in hand, by name."""
    (shown,) = hand.ids.editor.children
    return shown.ids


def level_row(hand, level):
    return next(row for row in hand.app.room.view.levels if row.level == level)


def start_on(changes, tmp_path, document, screen="landscape"):
    fill(tmp_path / "data", document)
    return changes(screen)


def test_the_first_start_shows_the_demo_client_and_says_that_she_is_invented(changes):
    hand = changes()
    assert any("(demo, invented)" in text for text in hand.texts())
    assert DEMO["garments"][0]["name"] in hand.texts()


@pytest.mark.parametrize("screen", ["landscape", "portrait"])
def test_a_pin_made_deeper_by_touch_is_shown_stored_and_there_after_a_restart(
    changes, tmp_path, screen
):
    hand = changes(screen)
    hand.tap(pin_line(hand, SIDES_AT_WAIST))
    assert editor(hand).depth.text == "1/4"
    before = level_row(hand, "waist")
    steps_before = [row.text for row in hand.app.room.view.steps]

    hand.tap(editor(hand).more)

    assert editor(hand).depth.text == "3/8"
    assert editor(hand).total.text == "1 1/2"
    assert stored_fitting(tmp_path / "data")["pins"][SIDES_AT_WAIST]["pinch"] == "3/8"
    assert level_row(hand, "waist").moved != before.moved
    assert [row.text for row in hand.app.room.view.steps] != steps_before
    again = changes(screen)
    again.tap(pin_line(again, SIDES_AT_WAIST))
    assert editor(again).depth.text == "3/8"


def test_every_touch_on_plus_and_minus_is_one_step_of_the_garment(changes, tmp_path):
    hand = changes()
    hand.tap(pin_line(hand, SIDES_AT_WAIST))
    depths = []
    for key in ("more", "more", "less", "less", "less"):
        hand.tap(editor(hand)[key])
        depths.append(editor(hand).depth.text)
    assert depths == ["3/8", "1/2", "3/8", "1/4", "1/8"]


def test_depth_and_total_stand_together_and_the_total_counts_both_sides(changes):
    hand = changes()
    hand.tap(pin_line(hand, SIDES_AT_WAIST))
    row = hand.app.room.view.pin
    assert (row.depth, row.times, row.total) == ("1/4", "× 2 a fold\n× 2 sides", "1")
    hand.tap(pin_line(hand, LEFT_HIP))
    row = hand.app.room.view.pin
    assert (row.depth, row.times, row.total, row.mark) == ("1 1/2", "", "1 1/2", "let out")


def test_undo_brings_back_what_was_there_and_saves_it(changes, tmp_path):
    hand = changes()
    hand.tap(pin_line(hand, SIDES_AT_WAIST))
    hand.tap(editor(hand).more)
    hand.tap(editor(hand).more)
    hand.tap(hand.ids.head.ids.undo)
    assert editor(hand).depth.text == "3/8"
    hand.tap(hand.ids.head.ids.undo)
    assert editor(hand).depth.text == "1/4"
    assert stored(tmp_path / "data") == DEMO
    assert hand.ids.head.ids.undo.disabled


def test_redo_does_again_what_undo_took_back_until_something_else_is_done(changes, tmp_path):
    hand = changes()
    keys = hand.ids.head.ids
    assert keys.redo.disabled
    hand.tap(pin_line(hand, SIDES_AT_WAIST))
    hand.tap(editor(hand).more)
    assert keys.redo.disabled
    hand.tap(keys.undo)
    assert not keys.redo.disabled
    hand.tap(keys.redo)
    assert editor(hand).depth.text == "3/8"
    assert stored_fitting(tmp_path / "data")["pins"][SIDES_AT_WAIST]["pinch"] == "3/8"
    assert keys.redo.disabled
    hand.tap(keys.undo)
    hand.tap(hand.ids.lead_tape)
    assert keys.redo.disabled


@pytest.mark.parametrize("again", [("z", "ctrl", "shift"), ("y", "ctrl"), ("z", "meta", "shift")])
def test_a_keyboard_undoes_and_does_again(changes, tmp_path, again):
    hand = changes()
    hand.tap(pin_line(hand, SIDES_AT_WAIST))
    hand.tap(editor(hand).more)
    hand.key("z", "ctrl")
    assert editor(hand).depth.text == "1/4"
    assert stored(tmp_path / "data") == DEMO
    hand.key(*again)
    assert editor(hand).depth.text == "3/8"


def test_the_letter_alone_undoes_nothing(changes):
    hand = changes()
    hand.tap(editor(hand).more)
    for held in ((), ("shift",), ("ctrl", "alt")):
        hand.key("z", *held)
    assert hand.app.room.can_undo


def test_a_pin_that_holds_nothing_cannot_hold_less_and_says_so(changes, tmp_path):
    hand = changes()
    hand.tap(pin_line(hand, SIDES_AT_WAIST))
    for _ in range(2):
        hand.tap(editor(hand).less)
    kept = stored(tmp_path / "data")
    hand.tap(editor(hand).less)
    assert "cannot be less" in hand.ids.head.ids.trouble.text
    assert hand.ids.head.ids.trouble.height > 0
    assert stored(tmp_path / "data") == kept
    hand.tap(editor(hand).more)
    assert hand.ids.head.ids.trouble.text == ""


def test_a_change_that_cannot_be_saved_is_not_shown_as_done(changes, tmp_path, monkeypatch):
    import os

    hand = changes()
    hand.tap(pin_line(hand, SIDES_AT_WAIST))

    def full(_handle):
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, "fsync", full)
    hand.tap(editor(hand).more)
    assert "No space left" in hand.ids.head.ids.trouble.text
    assert editor(hand).depth.text == "1/4"
    assert hand.ids.head.ids.undo.disabled


def test_a_change_that_cannot_be_worked_out_is_refused_and_never_saved(
    changes, tmp_path, monkeypatch
):
    from core.errors import WorkroomError
    from screens import shown

    hand = changes()

    def refuse(*_given, **_named):
        raise WorkroomError("These pins cannot be worked out")

    monkeypatch.setattr(shown, "make_plan", refuse)
    hand.tap(editor(hand)["more"])
    assert hand.ids.head.ids.trouble.text == "These pins cannot be worked out."
    assert stored(tmp_path / "data") == DEMO


def test_a_let_out_beyond_the_cloth_stays_as_pinned_and_is_told(changes):
    hand = changes()
    hand.tap(pin_line(hand, LEFT_HIP))
    assert "short" in hand.app.room.view.pin.beyond
    assert hand.app.room.view.pin.beyond in hand.texts()
    assert hand.app.room.view.pin.depth == "1 1/2"


def test_who_leads_is_kept_and_the_other_two_say_to_try_on_first(changes, tmp_path):
    hand = changes()
    assert hand.ids.lead_pins.chosen
    hand.tap(hand.ids.lead_tape)
    assert hand.ids.lead_tape.chosen
    assert not hand.ids.lead_pins.chosen
    assert stored_fitting(tmp_path / "data")["lead"] == "tape"
    assert hand.ids.lead_tape.second == hand.ids.lead_both.second == "try on first"
    assert changes().ids.lead_tape.chosen


def test_the_lining_has_levels_of_its_own(changes):
    from screens.parts.header import LayerChoice

    hand = changes()
    outer, lining = hand.all(LayerChoice)
    assert outer.chosen
    hand.tap(lining)
    assert lining.chosen
    assert not outer.chosen
    assert {row.layer for row in hand.app.room.view.levels} == {"lining"}


def test_the_lining_shows_what_is_planned_for_it_since_nothing_is_pinned_on_it(changes):
    from screens.parts.header import LayerChoice

    hand = changes()
    assert "pinned" in hand.texts()
    hand.tap(hand.all(LayerChoice)[1])
    assert "planned" in hand.texts()
    assert "pinned" not in hand.texts()
    assert level_row(hand, "waist").moved_mark == "take in"
    assert level_row(hand, "waist").verdict == "agrees"


def test_where_the_tape_leads_the_strip_shows_what_is_planned(changes):
    hand = changes()
    hand.tap(hand.ids.lead_both)
    assert "planned" in hand.texts()
    assert level_row(hand, "waist").verdict == "agrees"


def test_a_level_opens_its_sum_and_closes_it_again(changes):
    from screens.parts.levels import LevelLine

    hand = changes()
    line = next(line for line in hand.all(LevelLine) if line.row.level == "waist")
    assert line.row.sum
    assert line.row.sum not in hand.texts()
    hand.tap(line)
    assert line.row.sum in hand.texts()
    hand.tap(line)
    assert line.row.sum not in hand.texts()


def test_a_step_opens_why(changes):
    from screens.parts.steps import StepLine

    hand = changes()
    line = next(line for line in hand.all(StepLine) if line.row.sum)
    hand.tap(line)
    assert line.row.sum in hand.texts()


def test_the_list_is_the_whole_list_of_the_core_in_its_order(changes):
    hand = changes()
    plan = make_plan(read_document(DEMO))
    shown = [row.number for row in hand.app.room.view.steps]
    assert shown == [str(step.order) for step in plan.steps]
    shown = " ".join(hand.texts())
    for step in plan.steps:
        assert all(part in shown for part in step.text.split(". ", 1))
        assert all(caution in shown for caution in step.cautions)


def test_the_cautions_wait_behind_their_number_and_open_with_a_touch(changes):
    from screens.parts.caution import CautionBar

    hand = changes()
    plan = make_plan(read_document(DEMO))
    (bar,) = hand.all(CautionBar)
    assert bar.row == f"{len(hand.app.room.view.warnings)} cautions"
    hand.tap(bar)
    assert set(plan.warnings) <= set(hand.texts())
    hand.tap(bar)
    assert not set(hand.app.room.view.warnings) & set(hand.texts())


def test_a_fitting_begun_after_a_pinned_one_changes_nothing_and_leads_to_pinning(
    changes, tmp_path
):
    from core.fit.beginning import begin
    from screens.changes import ReadOffKey

    document = copy.deepcopy(DEMO)
    begin(document, document["garments"][0]["id"], "next", "2026-03-04")
    hand = start_on(changes, tmp_path, document)
    assert "Nothing is pinned at this fitting yet, so nothing is to change." in hand.texts()
    assert hand.ids.lead_pins.chosen
    assert not hand.app.room.view.steps
    assert hand.ids.to_sew.disabled
    (key,) = hand.all(ReadOffKey)
    assert key.text == "Pin"
    hand.tap(key)
    assert (hand.app.room.here, hand.app.room.view.page.moment) == ("fitting", "pin")


def test_a_level_whose_cloth_is_short_says_so_in_its_line(changes, tmp_path):
    """Her hip 1 1/2 more than it was: what the cloth gives is not inside the band any more."""
    document = copy.deepcopy(DEMO)
    document["garments"][0]["fittings"][0]["measurements"]["hip_girth"] = "46"
    hand = start_on(changes, tmp_path, document)
    assert level_row(hand, "hip").verdict == "would be tight by 1 1/2, 1/4 short"
    assert level_row(hand, "hip").mark == "caution"


def test_what_follows_is_told_under_the_list(changes):
    hand = changes()
    assert any("Zip in the centre back" in text for text in hand.texts())
    assert "What follows" in hand.texts()


def test_the_strip_shows_the_numbers_of_the_core(changes):
    from screens.rows import amount

    hand = changes()
    answers = [level for level in make_plan(read_document(DEMO)).levels if level.layer == "outer"]
    assert [row.level for row in hand.app.room.view.levels] == [level.level for level in answers]
    for row, answer in zip(hand.app.room.view.levels, answers, strict=True):
        assert row.as_sewn == amount(answer.as_sewn, "in")
        if answer.wanted is not None:
            assert row.wanted == f"= {amount(answer.wanted, 'in')}"
            assert row.body == amount(answer.body, "in")


def test_a_pin_not_read_yet_says_so_and_the_first_step_reads_it(changes, tmp_path):
    document = copy.deepcopy(DEMO)
    del document["garments"][0]["fittings"][0]["pins"][SIDES_AT_WAIST]["pinch"]
    hand = start_on(changes, tmp_path, document)
    hand.tap(pin_line(hand, SIDES_AT_WAIST))
    assert hand.app.room.view.pin.kind == "not read"
    hand.tap(editor(hand).more)
    assert stored_fitting(tmp_path / "data")["pins"][SIDES_AT_WAIST]["pinch"] == "1/8"


def test_what_the_screen_does_not_know_is_written_back_unharmed(changes, tmp_path):
    document = copy.deepcopy(DEMO) | {"from_somewhere_else": {"kept": True}}
    hand = start_on(changes, tmp_path, document)
    hand.tap(editor(hand).more)
    assert stored(tmp_path / "data")["from_somewhere_else"] == {"kept": True}


def test_a_garment_without_a_fitting_is_compared_as_drafted(changes, tmp_path):
    document = copy.deepcopy(DEMO)
    document["garments"][0]["fittings"] = []
    hand = start_on(changes, tmp_path, document)
    assert any("as drafted" in text for text in hand.texts())
    assert hand.app.room.view.levels
    assert not hand.app.room.view.pins
    assert hand.ids.editor.height == 0
    assert any("No fitting yet" in text for text in hand.texts())
    assert any("Nothing is to be altered" in text for text in hand.texts())
    assert hand.ids.lead_both.disabled
    hand.tap(hand.ids.lead_both)
    assert stored(tmp_path / "data") == document


def test_a_client_without_a_garment_says_what_to_do_first(changes, tmp_path):
    document = copy.deepcopy(DEMO) | {"garments": []}
    hand = start_on(changes, tmp_path, document)
    assert any("no garment yet" in text for text in hand.texts())
    assert hand.app.root.current == "day book"


def test_sixty_pins_scroll_and_the_last_one_can_be_changed(changes, tmp_path):
    document = copy.deepcopy(DEMO)
    pins = document["garments"][0]["fittings"][0]["pins"]
    pins[:] = [{"seam": "side", "side": "both", "down": str(11.5 + number / 4), "pinch": "1/8"}
               for number in range(60)]  # fmt: skip
    hand = start_on(changes, tmp_path, document)
    hand.tap(pin_line(hand, 59))
    assert hand.app.room.view.pin.index == 59
    hand.tap(editor(hand).more)
    assert stored_fitting(tmp_path / "data")["pins"][59]["pinch"] == "1/4"


def test_turning_the_tablet_keeps_the_pin_in_hand(changes):
    hand = changes("landscape")
    hand.tap(pin_line(hand, LEFT_HIP))
    hand.turn("portrait")
    assert not hand.screen.wide
    assert hand.app.room.view.pin.index == LEFT_HIP
    hand.tap(editor(hand).less)
    assert editor(hand).depth.text == "1 3/8"


def in_sight(hand, line, view):
    top, bottom = line.to_window(0, line.top)[1], line.to_window(0, line.y)[1]
    low = view.to_window(0, view.y)[1]
    return low - 1 <= bottom and top <= low + view.height + 1


def test_the_pin_that_undo_takes_back_in_hand_is_brought_into_sight(changes):
    hand = changes()
    last = len(hand.app.room.view.pins) - 1
    hand.tap(pin_line(hand, last))
    hand.tap(editor(hand).more)
    hand.tap(pin_line(hand, 0))
    hand.settle()
    assert not in_sight(hand, pin_line(hand, last), hand.ids.pins_view)
    hand.tap(hand.ids.head.ids.undo)
    hand.settle()
    assert in_sight(hand, pin_line(hand, last), hand.ids.pins_view)


def test_two_pins_stay_in_sight_on_a_low_window(changes):
    hand = changes()
    hand.window.size = (1366, 690)
    hand.tap(pin_line(hand, LEFT_HIP))
    hand.settle()
    assert hand.app.room.view.pin.beyond
    assert hand.ids.pins_view.height >= 2 * 56
    from screens.parts.levels import LevelLine

    level = next(line for line in hand.all(LevelLine) if line.row.level == "hip")
    assert in_sight(hand, level, level.parent.parent)


def test_the_back_key_goes_back_to_where_she_came_from(changes):
    hand = changes()
    hand.key("back")
    assert hand.app.root.current == "day book"
