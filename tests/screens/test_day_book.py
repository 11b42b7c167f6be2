"""The day book: who comes next, what is to sew, finding a client, taking up a new one."""

import copy
from datetime import datetime

import pytest

from core.store.clients import Store
from tests.screens import folders
from tests.screens.folders import DEMO, DEMO_ID, another

MORNING = datetime(2026, 3, 5, 10, 5)


class Wall:
    """A clock on the wall that a test sets."""

    def __init__(self, at=MORNING):
        self.at = at

    def __call__(self):
        return self.at.timestamp()


@pytest.fixture
def wall():
    return Wall()


@pytest.fixture
def folder(tmp_path):
    return tmp_path / "data"


@pytest.fixture
def begin(launch, folder, wall):
    """``begin(*documents)`` opens the app on these clients, at five past ten."""
    from screens.app import PinsToSeamsApp

    def opened(*documents, screen="landscape"):
        launch.stop()
        if documents:
            folders.fill(folder, *documents)
        return launch(PinsToSeamsApp(folder, wall), screen)

    return opened


def client(number, who, **garment):
    document = another(number, who)
    document["garments"][0] |= garment
    return document


def lines(hand, kind):
    from screens import day_book

    return hand.all(getattr(day_book, kind))


def names(hand):
    from screens.day_book import ClientLine

    return [line.row.line.name for line in hand.all(ClientLine)]


def test_the_next_fitting_is_the_largest_and_the_others_follow_in_order(begin):
    hand = begin(
        client(1, "Odalys Brandreth", next_fitting="2026-03-05T14:00"),
        client(2, "Tamsin Verrault", next_fitting="2026-03-05T10:30"),
        client(3, "Perpetua Lindqvane", next_fitting="2026-03-06T09:00"),
    )
    (following,) = lines(hand, "NextFitting")
    assert (following.row.name, following.row.time) == ("Tamsin Verrault", "10:30")
    assert "in 25 min" in hand.texts()
    assert [line.title for line in lines(hand, "FittingLine")] == [
        "Odalys Brandreth", "Perpetua Lindqvane"]  # fmt: skip
    hand.tap(following)  # it is today's, to be held
    assert hand.app.root.current == "fitting"
    assert hand.app.room.client_name == "Tamsin Verrault"
    assert any("Begin" in text for text in hand.texts())
    hand.key("back")
    tomorrow = next(line for line in lines(hand, "FittingLine") if line.title.startswith("Perp"))
    hand.tap(tomorrow)
    assert hand.app.root.current == "client"
    assert hand.app.room.client_name == "Perpetua Lindqvane"


def test_the_day_turns_over_while_the_app_rests(begin, wall):
    hand = begin(client(1, "Odalys Brandreth", next_fitting="2026-03-06T09:00"))
    assert "Thursday 5 March" in hand.texts()
    assert "tomorrow" in hand.texts()
    hand.app.dispatch("on_pause")
    wall.at = datetime(2026, 3, 6, 8, 0)
    hand.app.dispatch("on_resume")
    hand.frames(2)
    assert "Friday 6 March" in hand.texts()
    assert "in 1 h" in hand.texts()


def test_the_minutes_go_by_while_it_is_looked_at(begin, wall):
    hand = begin(client(1, "Odalys Brandreth", next_fitting="2026-03-05T10:30"))
    wall.at = datetime(2026, 3, 5, 10, 15)
    hand.window.step_clock.now += 31
    hand.frames(2)
    assert "in 15 min" in hand.texts()


def test_what_is_still_to_sew_opens_its_changes(begin):
    hand = begin(client(1, "Odalys Brandreth", name="Ivory silk gown", due="2026-03-05"))
    (line,) = lines(hand, "SewingLine")
    assert (line.title, line.end, line.chip) == ("Ivory silk gown", "6 pins", "today")
    hand.tap(line)
    assert hand.app.root.current == "changes"
    assert hand.app.room.view.garment_name == "Ivory silk gown"
    hand.key("back")
    hand.key("back")
    assert hand.app.root.current == "day book"


def test_what_is_over_stands_out_in_words(begin):
    hand = begin(client(1, "Odalys Brandreth", due="2026-03-03", fittings=[]))
    (line,) = lines(hand, "DueLine")
    assert line.chip == "2 days over"


def test_a_client_is_found_as_she_types(begin):
    hand = begin(DEMO, client(1, "Odalys Brandreth-Kim"), client(2, "Tamsin Verrault"))
    assert len(names(hand)) == 3
    hand.tap(hand.screen.search.ids.field)
    hand.type("bra")
    hand.frames(3)
    assert names(hand) == ["Odalys Brandreth-Kim", DEMO["client"]["name"]]
    hand.type("x")
    hand.frames(3)
    assert names(hand) == []
    assert any("Nobody here" in text for text in hand.texts())
    hand.key("back")  # leaves the field
    hand.key("back")  # shows everyone again
    assert len(hand.app.room.view.clients) == 3
    assert hand.screen.search.text == ""


def test_letters_on_a_keyboard_begin_to_search(begin):
    hand = begin(DEMO, client(1, "Tamsin Verrault"))
    hand.key("t")
    hand.type("t")
    hand.frames(3)
    assert names(hand) == ["Tamsin Verrault"]


@pytest.mark.parametrize("screen", ["landscape", "portrait"])
def test_a_new_client_is_taken_up_with_her_name_alone(begin, folder, screen):
    hand = begin(DEMO, screen=screen)
    hand.tap(hand.ids.new)
    hand.frames(2)
    (panel,) = hand.ids.naming.children
    assert panel.ids.go_on.disabled
    hand.type("Winnifer  Oduya-Strand ")  # the field has the keyboard already
    hand.tap(panel.ids.go_on)
    assert hand.app.root.current == "client"
    assert "Winnifer Oduya-Strand" in hand.texts()
    again = begin(screen=screen)
    assert "Winnifer Oduya-Strand" in names(again)


def test_a_name_of_blanks_takes_nobody_up(begin):
    hand = begin(DEMO)
    hand.app.room.view.add_client("  ")
    assert "Type a name first" in hand.app.room.trouble
    assert len(hand.app.room.store.clients()) == 1


def test_taking_up_can_be_left(begin):
    hand = begin(DEMO)
    hand.tap(hand.ids.new)
    (panel,) = hand.ids.naming.children
    hand.tap(panel.ids.leave)
    assert not hand.ids.naming.children
    hand.tap(hand.ids.new)
    hand.app.room.back()
    hand.frames(2)
    assert not hand.ids.naming.children


def test_the_demo_client_is_marked_and_goes_after_a_second_touch(begin):
    hand = begin(DEMO, client(1, "Tamsin Verrault"))
    (key,) = lines(hand, "RemoveKey")
    assert "demo client" in hand.texts()
    hand.tap(key)
    hand.frames(3)
    (key,) = lines(hand, "RemoveKey")
    assert key.text == "Remove for good"
    assert len(hand.app.room.store.clients()) == 2
    hand.tap(key)
    hand.frames(3)
    assert names(hand) == ["Tamsin Verrault"]
    assert lines(hand, "RemoveKey") == []
    assert not hand.app.room.store.has(DEMO_ID)


def test_nobody_here_says_what_to_do_first_and_a_touch_does_it(begin, folder):
    folders.empty(folder)
    hand = begin()
    assert "There is no client here yet" in hand.texts()
    (key,) = hand.ids.demo.children
    hand.tap(key)
    hand.frames(3)
    assert names(hand) == [DEMO["client"]["name"]]
    assert "There is no client here yet" not in hand.texts()


def test_a_damaged_client_is_listed_and_told_in_words(begin, folder):
    folders.fill(folder, DEMO, client(1, "Tamsin Verrault"))
    with Store(folder) as store:
        assert store.clients()
    file = folder / "clients" / DEMO_ID / "client.json"
    file.write_text("{")
    hand = begin()
    hand.frames(10)  # the files are looked at after the first screen
    assert "cannot be read: touch to see why" in hand.texts()
    line = next(line for line in lines(hand, "ClientLine") if line.row.line.damaged)
    hand.tap(line)
    assert hand.app.root.current == "day book"
    assert "Nothing was changed" in hand.ids.trouble.text
    assert file.read_text() == "{"


def test_two_thousand_clients_scroll_and_the_last_one_opens(begin, folder):
    document = copy.deepcopy(DEMO) | {"garments": []}
    with Store(folder) as store:
        for number in range(1, 2001):
            document["client"] = another(number, f"Client {number:04}")["client"]
            store.save(copy.deepcopy(document))
    hand = begin()
    assert hand.ids.clients.rows[-1].line.name == "Client 2000"
    assert len(lines(hand, "ClientLine")) < 30
    hand.ids.clients.scroll_y = 0
    hand.frames(3)
    last = next(line for line in lines(hand, "ClientLine") if line.row.line.name == "Client 2000")
    hand.tap(last.to_window(*last.center))
    assert hand.app.room.client_name == "Client 2000"


def test_settings_are_a_touch_away(begin):
    hand = begin(DEMO)
    hand.tap(hand.ids.settings)
    assert hand.app.root.current == "settings"
    hand.key("back")
    assert hand.app.root.current == "day book"


def test_at_the_first_screen_the_way_back_leaves_the_app_resting(begin, monkeypatch):
    hand = begin(DEMO)
    rested = []
    monkeypatch.setattr(hand.app, "pause", lambda: rested.append(True))
    hand.key("back")
    assert rested == [True]
    assert hand.app.root.current == "day book"


def test_a_letter_typed_before_the_search_stands_there_does_no_harm(begin):
    hand = begin(client(1, "Odalys Brandreth"))
    screen = hand.screen
    screen.ids.searching.clear_widgets()  # as in the first frame
    assert screen.search is None
    assert screen.on_key(ord("o"), "o") is False
