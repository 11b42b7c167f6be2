"""One measurement at a time, in few touches, and whatever happens nothing of it is lost."""

from uuid import UUID

import pytest

from core.body.measurements import kinds, numbers_to_take
from core.errors import WorkroomError
from tests.screens import test_every_screen as every
from tests.screens.kept import kept
from tests.screens.tape_pictures import (
    DAY,
    MARCH,
    NOON,
    SOME,
    client,
    find,
    key_of,
    show,
)

LONG_NAME = "Wilhelmina Quellin-Adomako of the Upper Harbour"
FISHTAIL, SKIRT, BODICE = "fishtail_gown", "gored_skirt", "sleeved_bodice"
TODAY = DAY.isoformat()


class Counted:
    """A hand on the tape that counts what it touches."""

    def __init__(self, hand):
        self.hand, self.touches = hand, 0

    def __getattr__(self, name):
        return getattr(self.hand, name)

    @property
    def page(self):
        return self.view.page

    @property
    def number(self):
        return self.view.chosen.number.key

    def tap(self, target):
        self.touches += 1
        self.hand.tap(target)

    def touch(self, name):
        self.tap(find(self.hand, name))

    def press(self, *signs):
        for sign in signs:
            self.tap(key_of(self.hand, sign))

    def go(self, key):
        """Touch a number of the list."""
        self.tap(next(row for row in self.rows() if row.row.key == key))
        assert self.number == key

    def rows(self):
        from screens.parts.taken_list import TakenRow

        return sorted(self.all(TakenRow), key=lambda row: -row.y)

    def shown(self, name):
        return find(self.hand, name).text

    def asked(self):
        from screens.tape import AskBar

        return next((bar for bar in self.all(AskBar)), None)


@pytest.fixture
def folder(tmp_path):
    return tmp_path / "data"


@pytest.fixture
def tape(launch, folder):
    """``tape(client, values)`` opens the app on the tape of a client."""
    from screens.tokens import sizes

    def begin(document=None, values=(), screen="landscape", chosen=None, **settings):
        given = document or client(FISHTAIL, MARCH)
        return Counted(show(launch, folder, given, dict(values), screen, chosen, **settings))

    yield begin
    sizes.scale = 1.0


@pytest.fixture
def again(launch, folder):
    """``again()`` opens another app on the same folder, as after the battery died."""

    def begin():
        from screens.app import PinsToSeamsApp

        if launch.app is not None:
            launch.kill()
        hand = launch(PinsToSeamsApp(folder, lambda: NOON))
        hand.app.room.open_client(client()["client"]["id"], "tape")
        hand.frames(2)
        hand.view = hand.screen.view
        return Counted(hand)

    return begin


def today(folder):
    """What is on the disk of today's sitting at this moment."""
    document = kept(folder, client()["client"]["id"])
    return next((each for each in document["measurements"] if each["on"] == TODAY), {})


def values(folder):
    return today(folder).get("values", {})


# -- the keys -----------------------------------------------------------------


def test_two_digits_and_an_eighth_are_four_touches_with_next(tape, folder):
    tape = tape(values=SOME)
    tape.go("waist_girth")
    tape.touches = 0
    tape.press("3", "3", "1/8")
    tape.touch("next")
    assert tape.touches <= 4
    assert values(folder)["waist_girth"] == "33 1/8"
    assert tape.shown("measurement") == "High hip"


def test_a_whole_number_is_three_touches_with_next(tape, folder):
    tape = tape()
    tape.go("waist_girth")
    tape.touches = 0
    tape.press("3", "3")
    tape.touch("next")
    assert tape.touches == 3
    assert values(folder)["waist_girth"] == "33"


def test_every_key_is_on_the_disk_before_the_next_one(tape, folder):
    tape = tape()
    tape.go("waist_girth")
    for sign, on_disk in (("3", "3"), ("2", "32"), ("1/4", "32 1/4"), ("3/8", "32 3/8"),
                          ("back", "32"), ("back", "3")):  # fmt: skip
        tape.press(sign)
        assert values(folder)["waist_girth"] == on_disk
        assert tape.shown("value") == on_disk
    tape.press("clear")
    assert "waist_girth" not in values(folder)
    assert tape.shown("value") == ""


def test_with_sixteenths_a_second_touch_on_an_eighth_is_one_more(tape, folder):
    tape = tape(sixteenths=True)
    tape.go("waist_girth")
    tape.press("3", "3", "1/8", "1/8")
    assert values(folder)["waist_girth"] == "33 3/16"


def test_a_number_touched_elsewhere_is_the_one_shown(tape, folder):
    from core.body.tape_order import Number
    from screens.tape_chosen import Chosen

    tape = tape(client(BODICE, MARCH), chosen=Chosen(number=Number("wrist_girth")))
    assert tape.number == "wrist_girth:left"
    tape.app.room.go("tape", Chosen(number=Number("height")))
    tape.frames(2)
    tape.press("6", "6")
    assert values(folder) == {"height": "66"}
    tape.touch("next")
    assert tape.number == "heel_of_the_day"


def test_the_number_the_line_of_help_and_last_time_stand_beside_it(tape):
    tape = tape()
    tape.go("waist_girth")
    tape.press("3", "2", "1/2")
    assert tape.shown("measurement") == "Waist"
    assert tape.shown("how").startswith("Level round over the cord")
    assert tape.shown("unit") == "inches"
    assert tape.shown("last_caption") == "last time, 2 March"
    assert (tape.shown("last_value"), tape.shown("change")) == ("33", "1/2 less")
    tape.go("top_hip_girth")
    assert (tape.shown("last_caption"), tape.shown("last_value")) == ("first time", "")


def test_the_key_of_the_part_is_lit(tape):
    tape = tape()
    tape.go("waist_girth")
    tape.press("3", "1", "5/8")
    assert [key.sign for key in every.buttons(tape) if getattr(key, "chosen", False)
            and hasattr(key, "sign")] == ["5/8"]  # fmt: skip


def test_digits_point_and_enter_of_a_keyboard_do_the_same(tape, folder):
    tape = tape()
    tape.go("waist_girth")
    for sign in "3", "2":
        tape.key(sign)
    assert values(folder)["waist_girth"] == "32"
    tape.hand.loop.window.dispatch("on_keyboard", 8, 0, "", [])
    tape.frames(1)
    assert values(folder)["waist_girth"] == "3"
    tape.key("4")
    tape.key("enter")
    assert (values(folder)["waist_girth"], tape.number) == ("34", "top_hip_girth")
    tape.touch("other_unit")
    for sign in "8", "6", ".", "5":
        tape.key(sign)
    assert values(folder)["top_hip_girth"] == "86.5 cm"


# -- leaving and coming back ---------------------------------------------------


def test_a_dead_battery_in_the_middle_of_a_number_loses_nothing(tape, again, folder):
    first = tape(values=SOME)
    first.go("waist_girth")
    first.press("3", "2")
    second = again()
    assert (second.number, second.shown("value")) == ("waist_girth", "32")
    second.press("1/4")
    assert values(folder)["waist_girth"] == "32 1/4"
    assert second.page.progress == "5 of 40 taken"


def test_a_dead_battery_after_next_comes_back_to_the_number_that_was_next(tape, again):
    first = tape(values=SOME)
    first.go("waist_girth")
    first.press("3", "3")
    first.touch("next")
    assert again().number == "top_hip_girth"


def test_a_new_sitting_begins_at_the_first_number_and_writes_nothing_by_itself(tape, folder):
    tape = tape()
    assert tape.number == "heel_of_the_day"
    tape.touch("next")
    assert tape.number == "upper_chest_girth"
    assert today(folder) == {}


def test_leaving_the_screen_and_coming_back_lands_on_the_same_number(tape):
    tape = tape(values=SOME)
    tape.go("waist_girth")
    tape.press("3", "3")
    tape.touch("other_unit")
    tape.go("hip_girth")
    room = tape.app.room
    room.back()
    assert room.here != "tape"
    room.open_client(client()["client"]["id"], "tape")
    tape.frames(2)
    assert (tape.number, tape.page.unit) == ("hip_girth", "cm")


def test_the_day_of_a_sitting_stays_though_midnight_passes(tape, folder, monkeypatch):
    tape = tape(values=SOME)
    tape.go("waist_girth")
    tape.press("3")
    monkeypatch.setattr(tape.app.room, "_wall", lambda: NOON + 86_400)
    tape.press("3")
    tape.app.room.refresh()
    tape.press("1/4")
    assert values(folder)["waist_girth"] == "33 1/4"
    assert kept(folder, client()["client"]["id"])["measurements"][-1]["on"] == TODAY


def test_undo_takes_back_one_touch_and_shows_where_it_was(tape, folder):
    tape = tape(values=SOME)
    tape.go("waist_girth")
    tape.press("3", "3", "1/4")
    tape.touch("next")
    undo = find(tape, "head").ids.undo
    tape.tap(undo)
    assert (tape.number, tape.shown("value")) == ("waist_girth", "33 1/4")
    tape.tap(undo)
    assert values(folder)["waist_girth"] == "33"
    tape.press("1")
    assert values(folder)["waist_girth"] == "331"
    tape.tap(undo)
    tape.tap(undo)
    assert values(folder)["waist_girth"] == "3"
    tape.tap(find(tape, "head").ids.redo)
    assert tape.shown("value") == "33"


def test_what_cannot_be_saved_is_told_and_the_number_stays_as_it_was(tape, folder, monkeypatch):
    tape = tape(values=SOME)
    tape.go("waist_girth")
    tape.press("3")

    def full(_document):
        raise WorkroomError("There is no room left on this device")

    with monkeypatch.context() as patched:
        patched.setattr(tape.app.room.store, "save", full)
        tape.press("3")
        assert find(tape, "head").ids.trouble.text == "There is no room left on this device."
        assert tape.shown("value") == "3"
        tape.touch("next")  # which asks whether 3 is right
        tape.touch("next")
        assert tape.number == "waist_girth"
    assert values(folder)["waist_girth"] == "3"
    tape.press("3", "3")
    assert (tape.app.room.trouble, values(folder)["waist_girth"]) == ("", "33")


# -- units --------------------------------------------------------------------


def test_the_other_unit_shows_what_was_typed_and_keeps_it(tape, folder):
    """31 1/4 in = 79.375 cm; 33 in = 83.82 cm."""
    tape = tape()
    tape.go("waist_girth")
    tape.press("3", "1", "1/4")
    tape.touch("other_unit")
    assert (tape.shown("value"), tape.page.unit_words) == ("79.4", "cm")
    assert tape.shown("last_value") == "83.8"
    assert values(folder)["waist_girth"] == "31 1/4"
    assert find(tape, "other_unit").text == "Use inches"
    tape.touch("next")
    tape.press("9", "4", ".5")
    assert values(folder)["top_hip_girth"] == "94.5 cm"
    tape.view.turn_unit()
    assert tape.shown("value") == "37 3/16"
    assert values(folder)["top_hip_girth"] == "94.5 cm"


def test_in_the_middle_of_a_number_the_unit_can_be_changed_and_changed_back(tape, folder):
    tape = tape()
    tape.go("waist_girth")
    tape.press("3", "2")
    tape.view.turn_unit()
    tape.view.turn_unit()
    tape.frames(2)
    assert tape.shown("value") == "32"
    tape.press("1/2")
    assert values(folder)["waist_girth"] == "32 1/2"


def test_a_file_in_millimetres_has_digits_alone(tape, folder):
    tape = tape(client("trousers", unit="mm"))
    tape.go("waist_girth")
    tape.press("7", "9", "5")
    assert values(folder)["waist_girth"] == "795"
    assert {key.sign for key in every.buttons(tape) if hasattr(key, "sign")} == {
        *"0123456789", "back", "clear"}  # fmt: skip


# -- quiet questions ----------------------------------------------------------


def test_far_from_last_time_is_asked_once_and_never_again(tape, again, folder):
    first = tape()
    first.go("waist_girth")
    first.press("3")
    assert first.asked() is None
    first.press("1", "1/4")
    assert first.page.asking.words == "1 3/4 less than last time"
    first.tap(first.asked().ids.answer)
    assert first.asked() is None
    first.go("hip_girth")
    first.go("waist_girth")
    assert first.asked() is None
    second = again()
    assert second.number == "waist_girth"
    assert second.asked() is None
    assert values(folder)["waist_girth"] == "31 1/4"


def test_typing_again_is_the_other_answer(tape):
    tape = tape()
    tape.go("waist_girth")
    tape.press("3", "1", "1/4")
    assert tape.asked() is not None
    tape.press("3", "3", "1/4")
    assert tape.asked() is None


def test_going_on_is_an_answer_and_going_elsewhere_is_none(tape):
    tape = tape()
    tape.go("waist_girth")
    tape.press("3", "1", "1/4")
    tape.go("hip_girth")
    tape.go("waist_girth")
    assert tape.asked() is not None
    tape.touch("next")
    tape.go("waist_girth")
    assert tape.asked() is None


def test_two_questions_are_asked_one_after_the_other(tape):
    """85 in is over the usual range, and far from last time's 33."""
    tape = tape()
    tape.go("waist_girth")
    tape.press("8", "5")
    assert "usually between" in tape.page.asking.words
    tape.tap(tape.asked().ids.answer)
    assert tape.page.asking.words == "52 more than last time"
    tape.tap(tape.asked().ids.answer)
    assert tape.asked() is None


@pytest.mark.parametrize(("unit", "typed", "right"), [("in", "3", "38"), ("cm", "9", "97")])
def test_a_number_left_half_typed_is_asked_about_before_the_next_one(tape, unit, typed, right):
    tape = tape()
    tape.go("bust_girth")
    if unit == "cm":
        tape.touch("other_unit")
    tape.press(*typed)
    assert tape.page.asking is None  # more digits may follow
    tape.touch("next")
    assert tape.number == "bust_girth"
    assert "usually between" in tape.page.asking.words
    tape.press(*right)  # another number begins
    assert tape.page.asking is None
    tape.touch("next")
    assert tape.number != "bust_girth"
    tape.go("bust_girth")
    tape.press(*typed)
    tape.touch("next")
    tape.touch("next")  # it is right all the same
    assert tape.number != "bust_girth"


# -- readings and sides -------------------------------------------------------


def test_a_second_reading_is_kept_beside_the_first(tape, folder):
    """Between 33 and 33 1/4 lies 33 1/8."""
    tape = tape()
    tape.go("waist_girth")
    assert find(tape, "read_again").disabled
    tape.press("3", "3")
    tape.touch("read_again")
    assert (tape.shown("value"), tape.shown("reading")) == ("", "second reading")
    tape.press("3", "3", "1/4")
    assert today(folder)["readings"] == {"waist_girth": ["33", "33 1/4"]}
    assert values(folder)["waist_girth"] == "33 1/8"
    assert tape.shown("reading") == "second reading: 33 1/8 is kept"


def test_readings_far_apart_ask_for_a_third(tape, folder):
    tape = tape()
    tape.go("waist_girth")
    tape.press("3", "3")
    tape.touch("read_again")
    tape.press("3", "3", "1/2")
    assert tape.page.asking.words == "The two readings are 1/2 apart: read it a third time"
    tape.tap(tape.asked().ids.answer)
    tape.press("3", "3")
    assert today(folder)["readings"]["waist_girth"] == ["33", "33 1/2", "33"]
    assert values(folder)["waist_girth"] == "33"
    tape.touch("read_again")
    assert (tape.shown("value"), tape.shown("reading")) == ("33", "first reading: 33 is kept")


def test_clearing_one_of_two_readings_to_type_it_anew_keeps_the_other(tape, folder):
    tape = tape()
    tape.go("waist_girth")
    tape.press("3", "3")
    tape.touch("read_again")
    tape.press("3", "3", "1/4")
    tape.touch("read_again")
    tape.touch("read_again")
    assert (tape.shown("value"), tape.view.chosen.reading) == ("33", 0)
    tape.press("clear", "3", "4")
    assert today(folder)["readings"]["waist_girth"] == ["34", "33 1/4"]
    tape.press("clear")
    tape.touch("next")
    assert "readings" not in today(folder)
    assert values(folder)["waist_girth"] == "33 1/4"


def test_left_and_right_are_each_taken_and_named(tape, folder):
    from screens.tape import SideKey

    tape = tape(client(BODICE, MARCH))
    tape.go("upper_arm_girth:left")
    assert tape.shown("measurement") == "Upper arm, her left"
    tape.press("1", "1", "1/8")
    tape.touch("next")
    assert tape.shown("measurement") == "Upper arm, her right"
    tape.press("1", "1")
    assert values(folder)["upper_arm_girth"] == {"left": "11 1/8", "right": "11"}
    left, right = sorted(tape.all(SideKey), key=lambda key: key.x, reverse=True)
    assert (left.text, right.text) == ("her left\n11 1/8", "her right\n11")
    tape.tap(left)
    assert tape.number == "upper_arm_girth:left"


def test_left_and_right_can_be_taken_where_one_number_would_do(tape, folder):
    from screens.tape import SideKey

    tape = tape()
    tape.go("waist_to_hip")
    tape.press("8")
    (both,) = tape.all(SideKey)
    tape.tap(both)
    assert tape.shown("measurement") == "Waist to hip, her left"
    assert values(folder)["waist_to_hip"] == {"left": "8"}
    assert tape.page.total == 41


# -- the list and the order ---------------------------------------------------


def test_the_list_says_what_is_taken_skipped_and_missing(tape, folder):
    tape = tape(client(SKIRT))
    assert tape.page.progress == "0 of 12 taken"
    tape.go("waist_girth")
    tape.press("3", "3")
    tape.touch("next")
    tape.touch("skip")
    assert tape.number == "hip_girth"
    assert tape.page.progress == "1 of 12 taken, 1 skipped"
    said = {row.row.label: row.row.words for row in tape.rows()}
    assert (said["Waist"], said["High hip"], said["Hip"]) == ("33", "skipped", "to take")
    assert today(folder)["skipped"] == ["top_hip_girth"]


@pytest.mark.parametrize("screen", ["landscape", "portrait"])
def test_of_forty_the_number_in_hand_is_always_in_sight(tape, screen):
    tape = tape(screen=screen)
    view = find(tape, "list")
    for key in ("train_behind_heel", "seated_hip_girth", "heel_of_the_day", "waist_girth"):
        tape.view.go_to(key)
        tape.settle()
        row = next(row for row in tape.rows() if row.row.here)
        _, low, _, high = every.box(row)
        _, bottom, _, top = every.box(view)
        assert bottom - 1 <= low
        assert high <= top + 1


@pytest.mark.parametrize("kind", kinds())
def test_next_goes_through_every_number_of_a_kind_and_done_leads_back(tape, kind, folder):
    tape = tape(client(kind))
    for _ in range(numbers_to_take(kind)):
        assert not tape.page.is_last or tape.page.taken == tape.page.total - 1
        tape.view.press("5")
        if tape.page.asks_at_next:
            tape.view.next()
            assert tape.page.asking is not None
        tape.view.next()
        tape.frames(1)
    assert tape.app.room.here != "tape"
    assert len(every_value(today(folder))) == numbers_to_take(kind)


def every_value(sitting):
    return [value for each in sitting["values"].values()
            for value in (each.values() if isinstance(each, dict) else [each])]  # fmt: skip


def test_a_measurement_is_moved_by_touch_and_hers_stays_hers(tape, again, folder):
    from screens.tape_order import OrderRow

    def order_row(tape, name):
        return next(row for row in tape.all(OrderRow) if row.row.key == name)

    first = tape(client(SKIRT))
    first.touch("order")
    first.tap(order_row(first, "waist_to_hip"))
    assert first.shown("advice") == "Touch where “Waist to hip” goes, or move it with the keys."
    first.tap(order_row(first, "waist_girth"))
    first.tap(order_row(first, "hip_girth"))
    first.touch("up")
    first.touch("down")
    first.touch("down")
    first.touch("done")
    shown = [row.row.key for row in first.rows()]
    expected = ["heel_of_the_day", "waist_to_hip", "waist_girth", "top_hip_girth",
                "waist_front_arc", "hip_girth", "hip_front_arc", "waist_to_top_hip"]  # fmt: skip
    assert shown[:8] == expected
    assert kept(folder, client()["client"]["id"])["client"]["order"][SKIRT][:8] == expected
    second = again()
    assert [row.row.key for row in second.rows()][:8] == expected
    second.touch("order")
    second.touch("usual")
    assert "order" not in kept(folder, client()["client"]["id"])["client"]


def test_the_way_back_closes_the_order_first(tape):
    tape = tape(client(SKIRT))
    tape.touch("order")
    assert tape.page.arranging
    tape.key("back")
    assert (tape.app.room.here, tape.page.arranging) == ("tape", False)


def test_only_what_the_garment_needs_is_asked_and_another_is_a_touch_away(tape):
    from screens.tape_order import KindKey

    tape = tape(client(SKIRT))
    assert tape.page.total == 12
    tape.touch("order")
    tape.tap(next(key for key in tape.all(KindKey) if key.row.key == "pencil_skirt"))
    tape.touch("done")
    assert tape.page.total > 15


# -- what she wears -----------------------------------------------------------


def test_what_she_wears_is_noted_at_the_start_and_taken_over_from_last_time(tape, folder):
    tape = tape()
    assert tape.page.foundation == "strapless long-line bra, half slip"
    tape.touch("foundation")
    find(tape, "foundation").do_cursor_movement("cursor_end", control=True)
    tape.type(", cincher")
    assert today(folder)["worn"] == {
        "foundation": "strapless long-line bra, half slip, cincher", "heel": "2 1/2"}  # fmt: skip
    tape.touch("heel")
    assert tape.shown("measurement") == "Heel worn now"
    tape.press("3")
    assert today(folder)["worn"]["heel"] == "3"
    tape.touch("next")
    assert tape.shown("measurement") == "Heel of the day"
    tape.press("3", "1/2")
    assert values(folder) == {"heel_of_the_day": "3 1/2"}
    assert today(folder)["worn"]["heel"] == "3"


def test_digits_typed_into_the_foundation_do_not_reach_the_number(tape, folder):
    tape = tape()
    tape.touch("foundation")
    tape.key("3")
    assert values(folder) == {}


def test_how_the_waist_was_found_is_kept_with_it(tape, folder):
    from screens.tape import WaistKey

    tape = tape()
    tape.go("waist_girth")
    keys = {key.text: key for key in tape.all(WaistKey)}
    assert [text for text, key in keys.items() if key.chosen] == ["natural"]
    tape.tap(keys["narrowest"])
    assert today(folder)["waist_found"] == "narrowest"
    assert tape.shown("last_caption") == "first time"  # waists found otherwise are not compared


# -- nothing to take ----------------------------------------------------------


def test_without_a_garment_it_says_what_to_do_first(tape, folder):
    from screens.tape_order import KindKey

    tape = tape(client(""))
    assert "What is it for?" in tape.texts()
    tape.tap(next(key for key in tape.all(KindKey) if key.row.key == SKIRT))
    assert tape.page.progress == "0 of 12 taken"
    tape.press("3")
    assert values(folder) == {"heel_of_the_day": "3"}


def test_nothing_of_a_client_stays_when_the_clients_are_put_away(tape):
    tape = tape(values=SOME)
    view = tape.view
    tape.app.room.put_away()
    assert (view.page.title_line, view.page.rows, view.chosen, view._left) == ("", (), None, {})


# -- every size ---------------------------------------------------------------

STATES = {
    "asking": (client(FISHTAIL, MARCH), "waist_girth", ("8", "5", "7/8")),
    "sides": (client(BODICE, MARCH), "upper_arm_girth:left", ("1", "1", "7/8")),
    "longest": (client(FISHTAIL), "waist_to_floor_side:right", ("1", "0", "9", "7/8")),
    "worn": (client(FISHTAIL, MARCH), "heel_of_the_day", ("1", "0", "9", "7/8")),
    "widest name": (client(FISHTAIL), "off_shoulder_girth", ("9", "9", "7/8")),
    "empty": (client(""), "", ()),
    "order": (client(FISHTAIL), "", ()),
}


def each_state(tape):
    """Show every state of the screen, one client each, for the right hand and for the left."""
    ids = {state: str(UUID(int=number)) for number, state in enumerate(STATES, 1)}
    for state, (document, _, _) in STATES.items():
        tape.app.room.store.save({**document, "client": {"id": ids[state], "name": LONG_NAME}})
    for state, (_, key, signs) in STATES.items():
        tape.app.room.open_client(ids[state], "tape")
        if key:
            tape.view.go_to(key)
            for sign in signs:
                tape.view.press(sign)
        elif state == "order":
            tape.view.arrange()
            tape.view.pick("hip_girth")
        for left_handed in (False, True):
            tape.screen.left_handed = left_handed
            tape.settle()
            yield f"{state}, {'left' if left_handed else 'right'}"


@pytest.mark.parametrize(
    ("screen", "text"),
    [("landscape", "normal"), ("portrait", "normal"), ("dense", "normal"),
     ("dense portrait", "normal"), ("landscape", "largest"), ("portrait", "largest")],
)  # fmt: skip
def test_fingers_fit_and_nothing_is_cut_off_in_every_size(tape, screen, text):
    tape = tape(screen=screen, text=text)
    wrong = {}
    for state in each_state(tape):
        for check in (
            every.test_every_touch_target_fits_a_finger,
            every.test_two_touch_targets_are_never_nearer_than_eight,
            every.assert_nothing_cut_off,
            every.test_only_the_four_sizes_of_letters_are_used,
            every.test_every_sign_that_is_shown_is_in_the_font_that_shows_it,
        ):
            try:
                check(tape)
            except AssertionError as error:
                wrong[state, check.__name__] = str(error).splitlines()[0]
    assert not wrong


@pytest.mark.parametrize("screen", ["landscape", "portrait"])
def test_every_key_and_row_can_be_brought_into_sight(tape, screen):
    tape = tape(client(SKIRT, MARCH), screen=screen)
    tape.view.go_to("waist_girth")
    tape.view.press("8")
    tape.view.press("1/2")
    tape.settle()
    every.test_every_touch_target_can_be_brought_into_the_window(tape)
    tape.touch("order")
    every.test_every_touch_target_can_be_brought_into_the_window(tape)


@pytest.mark.parametrize(("screen", "size"), [("landscape", (88, 88)), ("portrait", (104, 96))])
def test_the_keys_are_as_large_as_a_thumb_likes_them(tape, screen, size):
    tape = tape(screen=screen)
    keys = [key for key in every.buttons(tape) if hasattr(key, "sign")]
    assert len(keys) == 20
    assert {(round(key.width), round(key.height)) for key in keys} == {size}


def test_left_handed_the_keys_stand_at_the_left(tape):
    tape = tape(left_handed=True)
    assert every.box(find(tape, "key_block"))[2] < every.box(find(tape, "figure"))[0]
    assert every.box(find(tape, "next"))[0] < every.box(key_of(tape, "1"))[0]


def test_right_handed_the_keys_stand_at_the_right(tape):
    tape = tape()
    assert every.box(find(tape, "key_block"))[0] > every.box(find(tape, "figure"))[2]


def test_turning_the_tablet_keeps_the_number(tape):
    tape = tape()
    tape.go("waist_girth")
    tape.press("3", "1")
    tape.turn("portrait")
    assert tape.shown("value") == "31"
    every.assert_nothing_cut_off(tape)


# -- speech -------------------------------------------------------------------


class Heard:
    """A device's voice that writes down what it was told."""

    def __init__(self):
        self.words = []

    def speak(self, message):
        self.words.append(message)


def test_without_a_voice_there_is_no_key_for_it(tape):
    tape = tape()
    assert "Speak" not in tape.texts()


def test_each_number_is_said_once_she_asks_for_it(tape, monkeypatch):
    from screens import speech
    from screens.tape import SpeakKey

    heard = Heard()
    monkeypatch.setattr(speech, "tts", heard)
    tape = tape()
    tape.go("waist_girth")
    assert heard.words == []
    (speak,) = tape.all(SpeakKey)
    tape.tap(speak)
    tape.touch("next")
    tape.press("3")
    wait_for(tape, lambda: len(heard.words) == 2)
    assert heard.words[0] == "Waist. Level round over the cord. Last time thirty-three."
    assert heard.words[1].startswith("High hip. Level round, four inches below the cord")
    tape.tap(speak)
    tape.touch("next")
    tape.frames(5)
    assert len(heard.words) == 2


def wait_for(hand, there):
    import time

    for _ in range(600):
        if there():
            return
        time.sleep(0.005)  # the voice keeps real time
        hand.frames(1)
    raise AssertionError("it never came")


# -- where everything stands --------------------------------------------------


@pytest.mark.parametrize("left_handed", [False, True], ids=["right", "left"])
@pytest.mark.parametrize("letters", [1.0, 1.3])
@pytest.mark.parametrize(
    "size", [(1280, 727), (800, 1207), (960, 530), (600, 880), (853, 460), (1920, 1127),
             (1200, 1847)],
)  # fmt: skip
def test_on_every_tablet_each_part_has_a_place_of_its_own(size, letters, left_handed):
    """Sizes of tablets from 7 to 13 inches less the head of the screen, in dp."""
    from itertools import combinations

    from screens.tape_desk import Room, places

    wide = size[0] > size[1]
    room = Room(*size, wide, left_handed, letters, 304 * letters, 88 * letters, 32 * letters,
                32 * letters)  # fmt: skip
    assert room.key_width >= 48
    assert room.key_height >= 48
    boxes = places(room)
    for name, box in boxes.items():
        assert box.width > 0, name
        assert box.height > 0, name
        assert 0 <= box.x <= box.x + box.width <= size[0], name
        assert 0 <= box.y <= box.y + box.height <= size[1], name
    for (one, a), (other, b) in combinations(boxes.items(), 2):
        beside = a.x + a.width <= b.x or b.x + b.width <= a.x
        over = a.y + a.height <= b.y or b.y + b.height <= a.y
        assert beside or over, (one, other)
