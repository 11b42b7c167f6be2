"""The settings: each counts at once and stays; what is done with all clients is done or is not."""

import json
import threading

import pytest

from core.settings import read_settings
from core.store.bundles import send
from core.store.clients import Store
from tests.screens import folders
from tests.screens.folders import DEMO, DEMO_ID, PASSCODE, another
from tests.screens.kept import kept


@pytest.fixture
def folder(tmp_path):
    return tmp_path / "data"


@pytest.fixture
def card(tmp_path, monkeypatch):
    """A folder outside the clients', where the choosing of a folder begins."""
    from screens import settings_view

    card = tmp_path / "card"
    card.mkdir()
    monkeypatch.setattr(settings_view, "beginning", lambda: card)
    return card


@pytest.fixture
def begin(start, folder, card):
    """``begin(part)`` opens the app on a part of the settings."""

    def opened(part, screen="landscape", *, documents=(DEMO,)):
        if documents:
            folders.fill(folder, *documents)
        hand = start(screen)
        return go(hand, part)

    return opened


def go(hand, part):
    hand.app.room.go("settings")
    hand.app.room.view.open_part(part)
    hand.frames(3)
    return hand


@pytest.fixture(autouse=True)
def worn_as_before():
    """Letters and colours are the process's: leave them as they were."""
    yield
    from screens.tokens import colours, sizes

    colours.theme, sizes.scale = "light", 1.0


def test_what_is_out_of_sight_comes_back_however_often_memory_is_tidied(begin):
    import gc

    hand = begin("look", "portrait")
    gc.collect()
    hand.turn("landscape")
    gc.collect()
    hand.turn("portrait")
    hand.key("back")
    hand.frames(3)
    assert "Look and hand" in hand.texts()


def touch(hand, label):
    """Touch the key that says so."""
    from screens.parts.press import Press

    hand.tap(next(key for key in hand.all(Press) if key.text == label))
    hand.frames(3)


def type_secrets(hand, *secrets):
    from screens.parts.panel import SecretBox

    for box, typed in zip(hand.all(SecretBox), secrets, strict=True):
        box.ids.field.text = typed


def take(hand, name):
    from screens.parts.panel import BrowsedLine

    hand.tap(next(line for line in hand.all(BrowsedLine) if line.row.title == name))
    hand.wait()
    hand.frames(3)


def done(hand):
    hand.wait()
    hand.frames(5)
    assert hand.app.root.current == "settings"


def trouble(hand):
    return hand.ids.head.ids.trouble.text


# -- what is chosen -----------------------------------------------------------


def test_the_unit_counts_for_the_next_new_client(begin, folder):
    hand = begin("measuring")
    touch(hand, "Centimetres")
    assert read_settings(folder).unit == "cm"
    hand.key("back")
    hand.key("back")
    hand.app.room.view.add_client("Tamsin Verrault")
    assert hand.app.room.document["unit"] == "cm"
    assert kept(folder, DEMO_ID) == DEMO


def test_what_was_chosen_is_there_after_a_restart(begin, folder):
    hand = begin("look")
    touch(hand, "Left")
    hand = begin("backup", documents=())
    touch(hand, "Never")
    assert (read_settings(folder).left_handed, read_settings(folder).remind_after) == (True, 0)
    again = begin("look", documents=())
    assert again.app.room.settings.left_handed
    assert again.screen.left_handed


def test_never_is_never_reminded(begin, folder):
    folders.due_for_backup(folder)
    hand = begin("backup", documents=())
    assert hand.app.room.view_of("day book").reminder
    touch(hand, "Never")
    hand.key("back")
    hand.key("back")
    assert hand.app.root.current == "day book"
    assert hand.app.room.view.reminder == ""


@pytest.mark.parametrize("screen", ["landscape", "portrait"])
def test_larger_letters_are_larger_at_once_everywhere(begin, screen):
    from screens.parts.words import Words

    hand = begin("look", screen)
    line = next(words for words in hand.all(Words) if words.text == "Letters")
    before = line.needed_height
    touch(hand, "Largest")
    line = next(words for words in hand.all(Words) if words.text == "Letters")
    assert line.needed_height == pytest.approx(1.3 * before)
    hand.key("back")
    hand.key("back")
    assert hand.app.root.current == "day book"
    touch_back = [words for words in hand.all(Words) if words.text == "Clients"]
    assert touch_back[0].needed_height == pytest.approx(1.3 * before)


def test_dark_is_worn_at_once(begin):
    from screens.tokens import DARK

    hand = begin("look")
    touch(hand, "Dark")
    paper = tuple(int(DARK["paper"][i : i + 2], 16) for i in (1, 3, 5))
    assert hand.picture().getpixel((5, 400)) == paper
    touch(hand, "Light")
    assert hand.picture().getpixel((5, 400)) != paper


def test_as_the_device_follows_the_device(window):
    from core.settings import Settings
    from screens.tokens import colours
    from screens.worn import wear

    for dark, theme in ((True, "dark"), (False, "light")):
        wear(Settings(), lambda dark=dark: dark)
        assert colours.theme == theme
    wear(Settings(light="light"), lambda: True)
    assert colours.theme == "light"


def test_the_step_counts_for_new_garments_and_keeps_its_unit(begin, folder):
    hand = begin("measuring")
    touch(hand, "1/4 in")
    assert read_settings(folder).liked("step") == "1/4 in"
    chosen = [choice.label for line in hand.app.room.view.lines for choice in line.choices
              if choice.chosen]  # fmt: skip
    assert "1/4 in" in chosen


def test_an_allowance_is_stepped_and_goes_back_to_the_usual(begin, folder):
    from screens.settings import LengthStepper

    def stepper(hand):
        return next(each for each in hand.all(LengthStepper) if each.row.what == "keep")

    hand = begin("garments")
    assert stepper(hand).ids.length.text == "3/8 in"
    hand.tap(stepper(hand).ids.more)
    assert stepper(hand).ids.length.text == "1/2 in"
    assert read_settings(folder).liked("keep") == "1/2 in"
    hand.tap(stepper(hand).ids.usual)
    assert read_settings(folder).liked("keep") == ""
    for _ in range(6):
        hand.tap(stepper(hand).ids.less)
    assert stepper(hand).ids.length.text == "0 in"
    assert trouble(hand) == ""


def test_settings_that_cannot_be_kept_count_now_and_that_is_told(begin, monkeypatch):
    import os

    hand = begin("look")

    def full(_handle):
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, "fsync", full)
    touch(hand, "Left")
    assert "No space left" in trouble(hand)
    assert hand.app.room.settings.left_handed


def test_tall_the_parts_lead_to_their_lines_and_back_leads_out_again(start, folder):
    from screens.settings import PartLine, SettingLine

    hand = start("portrait")
    hand.app.room.go("settings")
    hand.frames(3)
    assert hand.all(SettingLine) == []
    hand.tap(next(line for line in hand.all(PartLine) if line.title == "About"))
    hand.frames(3)
    assert hand.all(PartLine) == []
    assert any("Nothing leaves this device" in text for text in hand.texts())
    hand.key("back")
    hand.frames(3)
    assert len(hand.all(PartLine)) == 9
    hand.key("back")
    assert hand.app.root.current == "day book"


# -- the passcode -------------------------------------------------------------


def test_a_passcode_seals_everything_and_the_app_goes_on(begin, folder, start):
    hand = begin("passcode")
    touch(hand, "Set a passcode")
    assert any("Nobody can bring back a lost passcode" in text for text in hand.texts())
    type_secrets(hand, PASSCODE, PASSCODE)
    touch(hand, "Seal everything")
    done(hand)
    assert "Your clients are sealed." in hand.texts()
    for path in (path for path in folder.rglob("*") if path.is_file()):
        assert b"Ottoline" not in path.read_bytes(), path
    hand.key("back")
    hand.key("back")
    assert DEMO["client"]["name"] in hand.texts()
    assert start().app.root.current == "passcode"


@pytest.mark.parametrize(
    ("secrets", "said"), [((PASSCODE, "green robbin"), "not the same"), (("short", "short"), "6")]
)
def test_a_passcode_that_will_not_do_is_told_and_nothing_is_sealed(begin, folder, secrets, said):
    hand = begin("passcode")
    touch(hand, "Set a passcode")
    type_secrets(hand, *secrets)
    touch(hand, "Seal everything")
    done(hand)
    assert said in trouble(hand)
    assert hand.app.room.store.seal is None


def test_the_passcode_is_changed_and_taken_off(begin, folder, start):
    from tests.screens.test_entry import enter

    folders.sealed(folder)
    hand = start()
    enter(hand, PASSCODE)
    go(hand, "passcode")
    touch(hand, "Change the passcode")
    type_secrets(hand, "wrong ribbon", "blue ribbon", "blue ribbon")
    touch(hand, "Change it")
    done(hand)
    assert "does not open it" in trouble(hand)
    touch(hand, "Change the passcode")
    type_secrets(hand, PASSCODE, "blue ribbon", "blue ribbon")
    touch(hand, "Change it")
    done(hand)
    assert trouble(hand) == ""
    touch(hand, "Take the seal off")
    type_secrets(hand, "blue ribbon")
    touch(hand, "Take the seal off")
    done(hand)
    assert hand.app.room.store.seal is None
    assert start().app.root.current == "day book"


def test_while_everything_is_sealed_its_progress_shows_and_it_can_be_broken_off(
    begin, folder, monkeypatch
):  # fmt: skip
    from screens import settings_view

    begun, go_on = threading.Event(), threading.Event()

    def slow(store, passcode, progress):
        progress(1, 3)
        begun.set()
        assert go_on.wait(20)
        progress(2, 3)

    monkeypatch.setattr(settings_view, "set_passcode", slow)
    hand = begin("passcode")
    touch(hand, "Set a passcode")
    type_secrets(hand, PASSCODE, PASSCODE)
    touch(hand, "Seal everything")
    assert begun.wait(20)
    hand.frames(40)
    assert hand.app.root.current == "working"
    assert "Sealing everything" in hand.texts()
    assert "Sealing everything: 1 of 3" in hand.texts()
    hand.tap(hand.ids.stop)
    go_on.set()
    done(hand)
    assert "broken off" in trouble(hand)
    assert hand.app.room.store.seal is None
    assert kept(folder, DEMO_ID) == DEMO


def test_what_was_done_before_can_still_be_taken_back_after_a_backup(begin, folder, card):
    hand = begin("backup")
    hand.app.room.open_client(DEMO_ID)
    hand.app.room.view.rename("Ottoline B.")
    go(hand, "backup")
    touch(hand, "Back up now")
    touch(hand, "Take this folder")
    done(hand)
    hand.tap(hand.ids.head.ids.undo)
    assert kept(folder, DEMO_ID) == DEMO


# -- backup, restore, bringing in, checking -----------------------------------


def test_a_backup_is_written_where_she_says_and_brings_everything_back(begin, folder, card):
    hand = begin("backup", documents=(DEMO, another()))
    touch(hand, "Back up now")
    touch(hand, "Take this folder")
    done(hand)
    (backup,) = card.glob("*.zip")
    assert any(backup.name in text for text in hand.texts())
    hand.app.room.delete_client(DEMO_ID)
    go(hand, "backup")
    touch(hand, "Choose a backup")
    take(hand, backup.name)
    assert any("goes, and this is not taken back" in text for text in hand.texts())
    touch(hand, "Put everything back")
    done(hand)
    assert "Everything is back: 2 clients." in hand.texts()
    assert kept(folder, DEMO_ID) == DEMO
    assert not hand.app.room.can_undo


def test_what_is_no_backup_is_told_and_nothing_is_changed(begin, folder, card):
    (card / "holiday.zip").write_bytes(b"PK\x03\x04 nothing of ours")
    hand = begin("backup")
    touch(hand, "Choose a backup")
    take(hand, "holiday.zip")
    touch(hand, "Put everything back")
    done(hand)
    assert trouble(hand) != ""
    assert kept(folder, DEMO_ID) == DEMO


def test_a_backup_beside_the_clients_is_refused(begin, folder, card, monkeypatch):
    from screens import settings_view

    monkeypatch.setattr(settings_view, "beginning", lambda: folder)
    hand = begin("backup")
    touch(hand, "Back up now")
    touch(hand, "Take this folder")
    done(hand)
    assert "would be lost with them" in trouble(hand)


def bundle_of(tmp_path, card, document, passcode=None):
    with Store(tmp_path / "elsewhere") as store:
        store.save(document)
        send(store, card / "sent.zip", passcode=passcode)


def changed():
    document = json.loads(json.dumps(DEMO))
    document["client"]["notes"] = "From the other tablet"
    return document


@pytest.mark.parametrize(
    ("answer", "names", "notes"),
    [("Keep both", 2, DEMO["client"].get("notes")),
     ("Replace what is here", 1, "From the other tablet"),
     ("Change nothing", 1, DEMO["client"].get("notes"))],
)  # fmt: skip
def test_a_client_who_is_here_already_is_asked_about(
    begin, folder, card, tmp_path, answer, names, notes
):
    bundle_of(tmp_path, card, changed())
    hand = begin("bring in")
    touch(hand, "Choose a file")
    take(hand, "sent.zip")
    assert "Here already, and not the same" in hand.texts()
    touch(hand, answer)
    done(hand)
    assert len(hand.app.room.store.clients()) == names
    assert kept(folder, DEMO_ID)["client"].get("notes") == notes
    assert trouble(hand) == ""


def test_who_was_replaced_does_not_come_back_by_undo_nor_by_the_next_change(
    begin, folder, card, tmp_path
):
    from core.client.edits import rename

    bundle_of(tmp_path, card, changed())
    hand = begin("bring in")
    hand.app.room.open_client(DEMO_ID)
    hand.app.room.change(lambda document: rename(document, "As she was before"))
    go(hand, "bring in")
    touch(hand, "Choose a file")
    take(hand, "sent.zip")
    touch(hand, "Replace what is here")
    done(hand)
    assert not hand.app.room.can_undo
    hand.app.room.open_client(DEMO_ID)
    hand.app.room.change(lambda document: rename(document, "Brought in, then renamed"))
    client = kept(folder, DEMO_ID)["client"]
    assert (client["name"], client["notes"]) == (
        "Brought in, then renamed", "From the other tablet"
    )  # fmt: skip


def test_a_sealed_bundle_asks_for_its_passcode_and_the_question_after_it_remembers_it(
    begin, folder, card, tmp_path
):
    bundle_of(tmp_path, card, changed(), "blue ribbon")
    hand = begin("bring in")
    touch(hand, "Choose a file")
    take(hand, "sent.zip")
    assert "sent.zip is sealed" in hand.texts()
    type_secrets(hand, "blue ribbon")
    touch(hand, "Open it")
    done(hand)
    touch(hand, "Replace what is here")
    done(hand)
    assert kept(folder, DEMO_ID)["client"]["notes"] == "From the other tablet"
    assert any("Replaced: Ottoline" in text for text in hand.texts())


def test_checking_says_what_was_read_and_what_is_wrong(begin, folder):
    hand = begin("check", documents=(DEMO, another()))
    touch(hand, "Check now")
    done(hand)
    assert "2 clients and 0 photos were read" in hand.texts()
    assert "Everything is as it should be." in hand.texts()
    (folder / "clients" / DEMO_ID / "stranger.txt").write_text("?")
    touch(hand, "Check now")
    done(hand)
    assert any("stranger.txt lies beside it" in text for text in hand.texts())
