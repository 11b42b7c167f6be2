"""The reminder of a backup: a quiet line that never stands in the way, put off with one touch."""

import pytest

from core.store.backups import back_up
from core.store.clients import Store
from tests.screens import folders
from tests.screens.folders import open_changes
from tests.screens.test_changes import editor
from tests.screens.test_every_screen import assert_nothing_cut_off


@pytest.fixture
def folder(tmp_path):
    return tmp_path / "data"


def reminders(hand):
    from screens.parts.notice import ReminderLine

    return hand.all(ReminderLine)


def test_where_a_backup_is_due_a_line_says_so_and_work_goes_on(start, folder):
    folders.due_for_backup(folder)
    hand = start()
    (line,) = reminders(hand)
    assert line.row.startswith("10 fittings")
    assert line.row in hand.texts()
    assert hand.app.room.trouble == ""
    open_changes(hand)
    hand.tap(editor(hand).more)
    assert hand.app.room.can_undo
    hand.key("back")
    assert reminders(hand) == [line]


def test_where_none_is_due_there_is_no_line(start):
    assert reminders(start()) == []


def test_after_a_backup_there_is_no_line(start, folder, tmp_path):
    folders.due_for_backup(folder)
    (tmp_path / "card").mkdir()
    with Store(folder) as store:
        back_up(store, tmp_path / "card")
    assert reminders(start()) == []


def test_later_puts_it_away_until_the_app_is_opened_anew(start, folder):
    folders.due_for_backup(folder)
    hand = start()
    (line,) = reminders(hand)
    hand.tap(line.ids.key)
    assert reminders(hand) == []
    open_changes(hand)
    hand.tap(editor(hand).more)
    hand.key("back")
    assert reminders(hand) == []
    assert len(reminders(start())) == 1


def test_put_off_it_stays_put_off_when_sealed_clients_were_locked_meanwhile(start, folder):
    folders.due_for_backup(folder)
    hand = start()
    (line,) = reminders(hand)
    hand.tap(line.ids.key)
    hand.app.entry.open()
    hand.frames(3)
    assert hand.app.root.current == "day book"
    assert reminders(hand) == []


def test_the_reminder_waits_while_something_more_urgent_is_said(start, folder):
    folders.due_for_backup(folder)
    hand = start()
    hand.app.room.open_client("nobody", "changes")
    hand.frames(3)
    assert hand.ids.trouble.height > 0
    assert reminders(hand) == []
    hand.app.room.choose(None)
    hand.frames(3)
    assert len(reminders(hand)) == 1


@pytest.mark.parametrize("screen", ["landscape", "portrait", "dense", "dense portrait"])
def test_the_line_and_its_key_find_room(start, folder, screen):
    from kivy.metrics import dp

    folders.due_for_backup(folder)
    hand = start(screen)
    (line,) = reminders(hand)
    assert min(line.ids.key.size) >= dp(48)
    assert line.height >= line.ids.key.height
    assert_nothing_cut_off(hand)
