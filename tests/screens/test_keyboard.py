"""A desktop's keyboard: Tab moves a ring that is seen, Enter presses, Escape goes back."""

import pytest

from tests.screens.folders import DEMO, another, fill


@pytest.fixture
def hand(start, tmp_path):
    fill(tmp_path / "data", DEMO, another())
    return start()


def tab(hand, times=1, *held):
    for _ in range(times):
        hand.key("tab", *held)
    hand.frames(3)
    return hand.app.focus.at


def lit(hand, widget):
    """Tell whether the ring is drawn round a widget."""
    x, y = widget.to_window(widget.x, widget.center_y)
    height = hand.window.height
    picture = hand.picture()
    return picture.getpixel((round(x - 4), round(height - y)))


def test_tab_leads_through_everything_in_the_order_it_is_read_and_round_again(hand):
    from screens.focus import targets

    there = list(targets(hand.screen))
    assert len(there) > 4
    seen = []
    for _ in there:
        hand.key("tab")
        seen.append(hand.app.focus.at or hand.app.focus.typing())
    assert seen == there
    hand.key("tab")
    assert hand.app.focus.at is there[0]
    tab(hand, 1, "shift")
    assert (hand.app.focus.at or hand.app.focus.typing()) is there[-1]


def test_the_ring_is_seen_and_a_touch_puts_it_away(hand):
    from screens.tokens import LIGHT

    ink = tuple(int(LIGHT["ink"][at : at + 2], 16) for at in (1, 3, 5))
    assert lit(hand, hand.ids.settings) != ink
    while tab(hand) != hand.ids.settings:
        pass
    assert lit(hand, hand.ids.settings) == ink
    hand.tap((5, 5))
    hand.frames(2)
    assert lit(hand, hand.ids.settings) != ink


@pytest.mark.parametrize("key", ["enter", "space"])
def test_enter_presses_and_escape_goes_back(hand, key):
    while tab(hand) != hand.ids.settings:
        pass
    hand.key(key)
    hand.frames(10)
    assert hand.app.root.current == "settings"
    hand.key("back")
    assert hand.app.root.current == "day book"


def test_what_cannot_be_pressed_is_passed_by(hand):
    from screens.focus import targets

    hand.app.room.open_client(DEMO["client"]["id"], "changes")
    hand.frames(3)
    assert hand.ids.head.ids.undo.disabled
    assert hand.ids.head.ids.undo not in list(targets(hand.screen))


def test_a_field_is_typed_into_when_tab_reaches_it_and_left_with_tab(hand):
    field = hand.screen.search.ids.field
    while not field.focus:
        tab(hand)
    assert hand.app.focus.at is None
    hand.type("zen")
    hand.frames(3)
    assert [row.line.name for row in hand.ids.clients.rows] == ["Zenobia Larkspur"]
    first = tab(hand)
    assert not field.focus
    hand.key("enter")
    hand.frames(10)
    assert hand.app.room.client_name == "Zenobia Larkspur"
    assert first is not None


def test_a_screen_that_is_left_leaves_no_ring_behind(hand):
    tab(hand)
    hand.app.room.open_client(DEMO["client"]["id"])
    hand.frames(3)
    assert hand.app.focus.at is None
    hand.key("enter")
    assert hand.app.root.current == "client"


def test_a_page_down_scrolls_the_list(hand):
    hand.app.room.open_client(DEMO["client"]["id"])
    hand.frames(5)
    (page,) = hand.ids.place.children
    assert page.ids.measured.scroll_y == 1
    hand.key("page down")
    assert page.ids.measured.scroll_y < 1
    hand.key("page up")
    assert page.ids.measured.scroll_y == 1


def test_digits_go_to_the_keys_of_the_tape(hand):
    hand.app.room.open_client(DEMO["client"]["id"])
    hand.app.room.go("tape")
    hand.frames(3)
    before = hand.app.room.view.page
    for digit in "38":
        hand.key(digit)
    assert hand.app.room.view.page != before
    assert hand.app.room.can_undo


def test_the_passcode_is_left_and_opened_with_the_keyboard_alone(start, tmp_path):
    from tests.screens import folders

    folders.sealed(tmp_path / "sealed")
    hand = start(folder=tmp_path / "sealed")
    hand.type(folders.PASSCODE)
    assert tab(hand) == hand.ids.show
    assert tab(hand) == hand.ids.open
    hand.key("enter")
    hand.frames(10)
    hand.wait()
    assert hand.app.root.current == "day book"
