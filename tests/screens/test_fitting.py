"""A fitting by touch: one touch a pin, two a pin read, and whatever happens nothing is lost."""

import errno
import json
import os
from dataclasses import replace
from io import BytesIO

import pytest
from PIL import Image

from core.changes.plan import make_plan
from core.file.fitting_file import parse, read_document
from tests.screens.fitting_hand import last, pins, stored, unfitted
from tests.screens.fitting_pictures import FULL, GARMENT, client, put_photos, today
from tests.screens.folders import DEMO, DEMO_ID
from tests.screens.kept import kept
from tests.screens.tablet import Finger


@pytest.fixture
def folder(tmp_path):
    return tmp_path / "data"


def test_a_garment_never_fitted_says_what_to_do_first_and_one_touch_begins(fitting, folder, again):
    hand = fitting(unfitted())
    assert any("No fitting of this garment yet" in text for text in hand.texts())
    hand.word("Begin the first fitting")
    made = last(folder)
    assert (made["on"], made["stage"]) == ("2026-03-20", "basted")
    assert made["worn"]["heel"] == "2 1/2"
    assert hand.page.moment == "before"
    hand.tap(hand.ids.head.ids.undo)
    assert stored(folder)["fittings"] == []
    hand.tap(hand.ids.head.ids.redo)
    assert again().page.moment == "before"


def test_a_garment_without_pieces_says_so_and_nothing_is_begun(fitting, folder):
    document = unfitted()
    document["garments"][0] |= {"layers": [], "levels": []}
    hand = fitting(document)
    assert any("nothing to pin" in text for text in hand.texts())
    assert not hand.desk.panel.ids.begin.children


def test_a_fitting_of_a_garment_whose_pieces_are_gone_opens_at_every_moment(fitting, folder):
    from screens.fitting_page import MOMENTS

    document = unfitted()
    worn = {"id": "f", "on": "2026-03-20", "notes": "kept"}
    document["garments"][0] |= {"layers": [], "joined": [], "lines": [], "fittings": [worn]}
    hand = fitting(document)
    for moment in MOMENTS:
        hand.app.room.view.go_to(moment)
        hand.frames(1)
        assert hand.page.moment == moment
        assert hand.page.figure is None
    hand.app.room.view.go_to("marks")
    hand.app.room.view.take_mark("tuck")
    hand.app.room.view.take_tuck_place("left")
    hand.app.room.view.press("1")
    assert last(folder)["tucks"][0]["depth"] == {"left": "1"}


def test_a_stage_of_her_own_may_begin_as_one_with_a_key_does(fitting, folder):
    hand = fitting(client(today()), {"moment": "before"})
    field = hand.desk.panel.ids.own_stage
    field.focus = True
    for sign in "final look":
        field.insert_text(sign)
        hand.frames(1)
    assert field.text == "final look"
    assert last(folder)["stage"] == "final look"


def test_from_her_page_a_garments_key_leads_to_its_fitting(fitting):
    hand = fitting(client())
    hand.app.room.open_client(DEMO_ID)
    hand.frames(2)
    hand.app.room.view.plan(GARMENT)
    hand.frames(2)
    from screens.client import PlanKey

    hand.tap(next(key for key in hand.all(PlanKey) if key.row[0] == "fitting"))
    assert hand.app.root.current == "fitting"
    assert hand.page.title == DEMO["garments"][0]["name"]


# -- reading off ----------------------------------------------------------------------


def unread(*more):
    return client(today(pins=[
        {"id": "pin_1", "seam": "side", "side": "both", "level": "waist"},
        {"id": "pin_2", "seam": "side", "side": "left", "level": "hip"},
        {"id": "pin_3", "dart": "back_waist", "side": "both", "level": "waist"},
        *more]))  # fmt: skip


@pytest.mark.parametrize("screen", ["landscape", "portrait"])
def test_a_usual_pin_is_read_in_two_touches_and_the_next_one_comes(fitting, folder, screen):
    hand = fitting(unread(), {"moment": "read"}, screen)
    assert hand.page.body.pin.heading == "Pin 1: side seam, both sides, waist"
    assert hand.page.body.counted == "0 of 3 places read"
    hand.touches = 0
    hand.press("3/8")
    row = hand.page.body.pin
    assert (row.depth, row.times, row.total) == ("3/8", "× 2 a fold\n× 2 sides", "1 1/2")
    assert pins(folder)[0]["pinch"] == "3/8"
    hand.go_on()
    assert hand.touches == 2
    assert hand.page.body.pin.heading == "Pin 2: her left side seam, hip"
    hand.word("Gap")
    hand.press("1", "1/4")
    assert pins(folder)[1]["gap"] == "1 1/4"
    hand.go_on()
    hand.word("Released")
    hand.press("1/8")
    assert pins(folder)[2]["gap"] == "1/8"
    assert hand.page.body.counted == "3 of 3 places read"
    hand.tap(hand.desk.panel.ids.changes)
    assert hand.app.root.current == "changes"
    assert hand.app.room.view.chosen.fitting == "today"


def test_the_list_is_not_there_before_every_pin_is_read(fitting):
    hand = fitting(unread(), {"moment": "read"})
    assert hand.desk.panel.ids.changes.disabled
    hand.tap(hand.desk.panel.ids.changes)
    assert hand.app.root.current == "fitting"


def test_plus_and_minus_go_by_the_garments_step_and_never_below_nothing(fitting, folder):
    hand = fitting(unread(), {"moment": "read"})
    (editor,) = hand.desk.panel.ids.editor.children
    for key in ("more", "more", "less", "less"):
        hand.tap(editor.ids[key])
    assert pins(folder)[0]["pinch"] == "0"
    hand.tap(editor.ids.less)
    assert "cannot be less" in hand.ids.head.ids.trouble.text
    assert pins(folder)[0]["pinch"] == "0"


def test_edges_given_apart_are_read_one_after_the_other(fitting, folder):
    hand = fitting(unread(), {"moment": "read", "pin": 1})
    hand.press("1/4")
    hand.word("Edges apart")
    hand.word("Back")
    hand.press("1/2")
    assert pins(folder)[1]["edges"] == {"front": "-1/4", "back": "-1/2"}
    row = hand.page.body.pin
    assert (row.depth, row.kind, row.times, row.total) == (
        "1/2", "back edge", "in 1/4 + in 1/2", "3/4")  # fmt: skip
    hand.word("Gap")
    assert pins(folder)[1]["edges"]["back"] == "1/2"


def test_the_strip_is_live_and_is_the_plans_to_the_last_digit(fitting, folder):
    hand = fitting(client(FULL), {"moment": "read"})
    hand.press("1/8")
    file = read_document(kept(folder, DEMO_ID))
    plan = make_plan(file, GARMENT, "today", "pins")
    from screens.rows import amount

    for row in hand.page.body.levels:
        answer = next(one for one in plan.levels
                      if (one.layer, one.level) == (row.layer, row.level))  # fmt: skip
        assert row.as_sewn == amount(answer.as_sewn, "in")
        assert row.moved in (amount(answer.pinned, "in"), "–")
        assert row.sum == answer.sum.replace(" | ", "\n")


def test_a_pin_beyond_the_cloth_stays_as_pinned_and_says_what_is_missing(fitting, folder):
    hand = fitting(unread(), {"moment": "read", "pin": 1})
    hand.word("Gap")
    hand.press("3")
    assert pins(folder)[1]["gap"] == "3"
    assert "short of what is pinned" in hand.page.body.pin.beyond
    assert hand.page.body.pin.beyond in hand.texts()


def test_an_emptied_amount_is_not_read_any_more_and_a_keyboard_types_too(fitting, folder):
    hand = fitting(unread(), {"moment": "read"})
    hand.key("2")
    assert pins(folder)[0]["pinch"] == "2"
    hand.key("backspace")
    assert "pinch" not in pins(folder)[0]
    hand.key("1")
    hand.key("enter")
    assert hand.page.body.pin.index == 1
    hand.key("z", "ctrl")
    assert "pinch" not in pins(folder)[0]
    hand.key("z", "ctrl")
    assert pins(folder)[0]["pinch"] == "2"


def test_a_pin_is_taken_out_and_put_back(fitting, folder):
    hand = fitting(unread(), {"moment": "read", "pin": 1})
    hand.word("Remove")
    assert len(pins(folder)) == 2
    hand.tap(hand.ids.head.ids.undo)
    assert pins(folder)[1]["level"] == "hip"


# -- before, hem, marks, movements, photos, out -----------------------------------------


def test_the_second_fitting_begins_with_what_was_asked_and_came_back(fitting):
    document = client(today(pins=[{"seam": "side", "side": "both", "level": "waist"}]))
    document["garments"][0]["fittings"][0]["done"] = [
        {"layer": "outer", "seam": "side", "side": "both",
         "moves": [{"edge": "front", "level": "waist", "move": "-1/4"}]}]  # fmt: skip
    hand = fitting(document, {"moment": "before"})
    texts = hand.texts()
    assert "Asked on 2 March 2026" in texts
    assert "Side seam, both sides, waist: deep 1/4" in texts
    assert "done, came back" in texts
    assert "not done" in texts


def test_what_she_wears_and_the_garments_girths_are_kept_as_typed(fitting, folder, again):
    hand = fitting(client(today()), {"moment": "before"})
    hand.word("Inside out")
    hand.word("Heel worn now")
    hand.press("clear", "3")
    hand.go_on()
    from screens.parts.fit_before import GirthLine

    girth = next(line for line in hand.all(GirthLine) if line.row.label == "Waist")
    hand.tap(girth)
    hand.press("3", "5", "1/4")
    hand.word("Toile")
    assert last(folder)["worn"] | {"foundation": ""} == {
        "foundation": "", "heel": "3", "inside_out": True}  # fmt: skip
    assert last(folder)["sewn_girths"] == {"outer": {"body": {"waist": "35 1/4"}}}
    assert last(folder)["stage"] == "toile"
    assert again(moment="before").page.line.endswith("worn inside out, in inches")


def test_eight_hem_points_take_two_touches_each_and_step_on_by_themselves(fitting, folder):
    hand = fitting(client(today(), heel_of_the_day="4"), {"moment": "hem"})
    hand.word("Off the floor, wanted")
    hand.press("9")
    hand.word("Front")
    hand.touches = 0
    typed = [("9", "1/4"), ("9", "whole"), ("8", "3/4"), ("9", "whole"), ("9", "1/4"), ("9", "1/8"),
             ("9", "whole"), ("9", "whole")]  # fmt: skip
    for keys in typed:
        hand.press(*keys)
    assert hand.touches == 16
    points = last(folder)["hem"]["points"]
    assert [point["floor"] for point in points] == [
        "9 1/4", "9", "8 3/4", "9", "9 1/4", "9 1/8", "9", "9"]  # fmt: skip
    assert hand.page.body.words == "Every point is measured."
    # a heel 1 1/2 higher on the day: 9 1/4 becomes 10 3/4, wanted 9
    assert hand.page.body.points[0].change == "down 1 3/4"
    hand.word("Back")
    hand.word("Train: skip")
    assert last(folder)["hem"]["points"][4] == {"at": "back", "train": True}
    assert hand.page.body.points[4].value == "train"


def test_a_tuck_is_given_its_depth_at_each_place(fitting, folder):
    hand = fitting(client(today()), {"moment": "marks"})
    for label in ("Tuck", "Waist", "Centre back"):
        hand.word(label)
    hand.press("3/8")
    hand.word("Her left")
    hand.press("1/8")
    hand.word("Into the waist seam")
    assert last(folder)["tucks"] == [
        {"level": "waist", "depth": {"centre_back": "3/8", "left": "1/8"}, "into": "waist_seam"}
    ]


def test_movements_are_ticked_by_one_touch_each(fitting, folder):
    hand = fitting(client(today()), {"moment": "move"})
    hand.touches = 0
    for label in ("Sit", "Walk", "Arms up", "Breathe", "Stairs"):
        hand.word(label)
    assert hand.touches == 5
    assert [each["what"] for each in last(folder)["movements"]] == [
        "sit", "walk", "arms_up", "breathe", "stairs"]  # fmt: skip


def test_a_drag_lines_meaning_is_told_when_it_is_asked_with_its_source(fitting, folder):
    document = client(today(marks=[{"what": "drag", "piece": "back", "level": "hip"}]))
    hand = fitting(document, {"moment": "marks", "marked": 0})
    assert not hand.page.body.asks
    hand.word("Across")
    assert last(folder)["marks"][0]["direction"] == "across"
    assert not hand.page.body.meanings
    hand.word("What does it usually mean?")
    assert any("hip is too small: let out the sides" in text and "1946" in text
               for text in hand.texts())  # fmt: skip


def test_two_photos_chosen_from_the_device_are_kept_and_marked_with_a_finger(
    fitting, folder, tmp_path, monkeypatch
):
    from screens import fitting_photos

    Image.new("RGB", (64, 48), "navy").save(tmp_path / "taken.png")
    monkeypatch.setattr(fitting_photos, "beginning", lambda: tmp_path)
    hand = fitting(client(FULL), {"moment": "look"})
    hand.word("Back")
    from screens.parts.panel import BrowsedLine

    line = next(line for line in hand.all(BrowsedLine) if line.row.title == "taken.png")
    hand.tap(line)
    hand.wait()
    (photo,) = last(folder)["photos"]
    assert photo["view"] == "back"
    hand.word("2", hand.desk.panel.ids.bar)
    large = hand.desk.panel.ids.large
    x, y, wide, high = large.box()
    hand.tap((x + wide * 0.25, y + high * 0.75))
    (mark,) = last(folder)["photos"][0]["marks"]
    assert (mark["x"], mark["y"]) == (pytest.approx(0.25, abs=0.02), pytest.approx(0.25, abs=0.02))
    assert mark["pin"] == "pin_2"
    hand.key("back")
    assert hand.page.body.photo is None
    hand.word("Front")
    hand.tap(next(line for line in hand.all(BrowsedLine) if line.row.title == "taken.png"))
    hand.wait()
    hand.word("2", hand.desk.panel.ids.bar)  # the marks belong to no pin any more
    hand.tap((x + wide * 0.5, y + high * 0.5))
    front = last(folder)["photos"][1]
    assert (front["view"], len(front["marks"]), "pin" in front["marks"][0]) == ("front", 1, False)


def test_what_the_camera_took_is_kept_and_its_own_file_is_gone(
    fitting, folder, tmp_path, monkeypatch
):
    from screens import fitting_photos

    taken = tmp_path / "camera" / "taken.jpg"
    taken.parent.mkdir()
    Image.new("RGB", (64, 48), "navy").save(taken)
    monkeypatch.setattr(fitting_photos, "can_take", lambda: True)
    monkeypatch.setattr(fitting_photos, "take", lambda then: then(taken))
    hand = fitting(client(today()), {"moment": "look"})
    hand.word("Her left")
    hand.wait()
    assert [photo["view"] for photo in last(folder)["photos"]] == ["her left"]
    assert not taken.exists()


def test_of_sixty_pins_the_last_is_seen_and_read(fitting, folder):
    many = [{"seam": "side", "side": "both", "down": str(12 + number / 4)} for number in range(60)]
    hand = fitting(client(today(pins=many)), {"moment": "pin"})
    assert hand.page.body.last.startswith("60: side seam, both sides, ")
    hand.moment("Read off")
    assert hand.page.body.counted == "0 of 60 places read"
    hand.app.room.view.choose(pin=59)
    hand.frames(1)
    hand.press("1/8")
    hand.go_on()
    assert pins(folder)[59]["pinch"] == "1/8"
    assert hand.page.body.pin.index == 0


def test_in_centimetres_a_tenth_closes_the_number_and_the_hem_steps_on(fitting, folder):
    hand = fitting(client(today()) | {"unit": "cm"}, {"moment": "hem"})
    hand.press("2", "3", ".5")
    hand.press("2", "3", ".0")
    assert [point["floor"] for point in last(folder)["hem"]["points"]] == ["23.5", "23"]
    assert hand.page.keys.title == "Floor to hem, her left"


def test_the_photos_of_two_fittings_stand_beside_each_other(fitting, folder):
    document = client(FULL)
    put_photos(folder, document)
    hand = fitting(document, {"moment": "look", "photo": 0})
    ids = hand.desk.panel.ids
    assert ids.large.file != ids.before.file
    assert "On 2 March 2026" in hand.texts()
    assert ids.large.right < ids.before.x


def test_without_her_agreement_the_photo_keys_are_off_and_say_why(fitting, folder):
    hand = fitting(client(today(), agreed=False), {"moment": "look"})
    assert any("has not agreed to photos" in text for text in hand.texts())
    views = hand.desk.panel.ids.views.children
    assert len(views) == 4
    assert all(key.disabled for key in views)


def test_before_she_steps_out_three_lines_say_what_is_missing(fitting, folder):
    hand = fitting(client(FULL), {"moment": "out"})
    texts = hand.texts()
    assert "7 pins in, 4 of 5 places read" in texts
    assert "Photos missing: front, her left, back and her right" in texts
    assert any("she may trip" in text for text in texts)
    field = hand.desk.panel.ids.notes
    field.focus = True
    hand.frames(1)
    field.text = "Bring the ivory shoes"
    hand.frames(1)
    assert last(folder)["notes"] == "Bring the ivory shoes"


def test_what_the_screen_does_not_know_is_written_back_unharmed(fitting, folder):
    hand = fitting(client(FULL | {"from_elsewhere": {"kept": True}}), {"moment": "read"})
    hand.press("1/8")
    assert last(folder)["from_elsewhere"] == {"kept": True}


# -- placing --------------------------------------------------------------------------


def test_one_touch_places_a_pin_and_the_last_one_stands_in_big_words(fitting, folder):
    hand = fitting(client(today()), {"moment": "pin"})
    hand.touches = 0
    hand.touch("seam", "side", "waist", "left")
    assert hand.touches == 1
    assert pins(folder) == [{"seam": "side", "side": "left", "level": "waist"}]
    assert hand.page.body.last == "1: her left side seam, waist, not read"
    assert hand.page.body.last in hand.texts()
    assert "Lets out 5/8 an edge at most" in hand.texts()
    hand.tap(hand.ids.head.ids.undo)
    assert pins(folder) == []


def test_a_swipe_across_sets_both_sides(fitting, folder):
    hand = fitting(client(today()), {"moment": "pin"})
    hand.drag(hand.place("seam", "side", "hip", "right"), hand.place("seam", "side", "hip", "left"))
    assert pins(folder) == [{"seam": "side", "side": "both", "level": "hip"}]


def test_a_long_touch_opens_the_amount_at_once_and_nothing_of_her_body_is_shown(fitting, folder):
    hand = fitting(client(today()), {"moment": "pin"})
    hand.touch("seam", "side", "waist", "left", hold=0.8)
    hand.press("3/8")
    assert pins(folder) == [{"seam": "side", "side": "left", "level": "waist", "pinch": "3/8"}]
    assert "off the round" in hand.texts()
    body = {row.body for row in _levels(folder)}
    assert not body & set(hand.texts())
    hand.go_on()
    assert hand.page.keys is None
    assert hand.page.body.last == "1: her left side seam, waist, deep 3/8"


def _levels(folder):
    from screens.rows import level_rows

    plan = make_plan(read_document(kept(folder, DEMO_ID)), GARMENT, "today")
    return [row for row in level_rows(plan.levels, "outer", "in") if row.wanted]


def test_on_the_pieces_laid_flat_a_touch_on_an_edge_places_a_pin_too(fitting, folder):
    hand = fitting(client(today()), {"moment": "pin"})
    hand.word("Pieces")
    assert {"her right", "her left", "Front", "Back"} <= set(hand.texts())
    hand.touch("seam", "side", "hip", "right")
    hand.touch("dart", "back_waist", "waist", "left")
    hand.drag(*(hand.place("seam", "side", "waist", side) for side in ("right", "left")))
    assert pins(folder) == [
        {"seam": "side", "side": "right", "level": "hip"},
        {"dart": "back_waist", "side": "left", "level": "waist"},
        {"seam": "side", "side": "both", "level": "waist"},
    ]
    hand.word("Pieces")
    assert hand.place("seam", "side", "hip", "right")


def test_two_fingers_bring_her_closer_one_moves_her_and_a_key_shows_her_whole(fitting, folder):
    from screens.parts.press import Press

    hand = fitting(client(today()), {"moment": "pin"})
    before = hand.place("seam", "side", "waist", "left")
    wholes = [key for key in hand.all(Press) if key.text == "Whole"]
    assert wholes == []
    x, y = before
    one, other = Finger(hand, x - 20, y).down(), Finger(hand, x + 20, y).down()
    one.move(x - 50, y)
    other.move(x + 50, y)  # two and a half times as far apart
    hand.frames(1)
    assert hand.place("seam", "side", "waist", "left") == pytest.approx(before, abs=3)
    waist_to_hip = [hand.place("seam", "side", level, "left")[1] for level in ("waist", "hip")]
    one.up()
    other.up()
    hand.frames(40)  # longer than a long touch
    assert pins(folder) == []
    hand.drag(before, (x, y + 100))
    moved = [hand.place("seam", "side", level, "left")[1] for level in ("waist", "hip")]
    assert moved == pytest.approx([at + 100 for at in waist_to_hip], abs=3)
    assert pins(folder) == []
    hand.touch("seam", "side", "hip", "left")
    assert pins(folder) == [{"seam": "side", "side": "left", "level": "hip"}]
    (whole,) = [key for key in hand.all(Press) if key.text == "Whole"]
    hand.tap(whole)
    assert len(pins(folder)) == 1
    assert hand.place("seam", "side", "waist", "left") == pytest.approx(before)
    assert not [key for key in hand.all(Press) if key.text == "Whole"]
    drop = before[1] - hand.place("seam", "side", "hip", "left")[1]
    assert waist_to_hip[0] - waist_to_hip[1] == pytest.approx(2.5 * drop, abs=3)


def test_a_second_touch_on_a_pin_takes_it_in_hand_and_places_no_other(fitting, folder):
    hand = fitting(client(today()), {"moment": "pin"})
    hand.touch("seam", "side", "waist", "left")
    hand.touch("seam", "side", "hip", "left")
    hand.touch("seam", "side", "waist", "left")
    assert len(pins(folder)) == 2
    assert hand.page.body.last.startswith("1: ")
    hand.word("Both")
    assert pins(folder)[0]["side"] == "both"
    hand.word("Through all")
    assert pins(folder)[0]["through"] is True
    hand.word("Remove")
    assert len(pins(folder)) == 1


def test_of_two_close_seams_their_names_are_picked_from_beside_the_figure(fitting, folder):
    from types import SimpleNamespace

    from core.fit.pinning import Where

    hand = fitting(client(today()), {"moment": "pin"})
    near = [SimpleNamespace(where=Where("seam", "side", level="waist"), side="left",
                            words="Side seam"),
            SimpleNamespace(where=Where("dart", "front_waist", level="waist"), side="left",
                            words="Front waist dart")]  # fmt: skip
    hand.app.room.view.place(near)
    hand.frames(2)
    assert pins(folder) == []
    hand.word("Front waist dart")
    assert pins(folder) == [{"dart": "front_waist", "side": "left", "level": "waist"}]


# -- the whole errand --------------------------------------------------------------------


@pytest.fixture
def camera(tmp_path, monkeypatch):
    """A camera that takes another picture each time: the list of what it took."""
    from screens import fitting_photos

    took = []

    def take(then):
        path = tmp_path / f"camera {len(took)}" / "taken.jpg"
        path.parent.mkdir()
        Image.new("RGB", (60, 80), ("navy", "maroon")[len(took) % 2]).save(path)
        took.append(path)
        then(path)

    monkeypatch.setattr(fitting_photos, "can_take", lambda: True)
    monkeypatch.setattr(fitting_photos, "take", take)
    return took


def take_and_mark(hand, view, pin, x, y):
    """Take a photo of a view, tie its marks to a pin and mark a place on it."""
    from screens.parts.photo import Thumbnail

    hand.word(view)
    hand.wait()
    hand.tap(max(hand.all(Thumbnail), key=lambda shown: shown.row.index))
    hand.wait()
    hand.word(pin, hand.desk.panel.ids.bar)
    left, low, wide, high = hand.desk.panel.ids.large.box()
    hand.tap((left + wide * x, low + high * (1 - y)))


def photos_kept(folder):
    """What the file says of the photos, and the colour in the middle of each kept picture."""
    from core.store.clients import Store
    from core.store.photos import read_photo

    with Store(folder) as store:
        found = [(photo, Image.open(BytesIO(read_photo(store, DEMO_ID, photo["file"]))))
                 for photo in last(folder)["photos"]]  # fmt: skip
        return [(photo["view"], [(mark["pin"], mark["text"]) for mark in photo["marks"]],
                 [round(mark[at], 1) for mark in photo["marks"] for at in "xy"],
                 picture.getpixel((30, 40)).index(max(picture.getpixel((30, 40)))))
                for photo, picture in found]  # fmt: skip


TAKEN = [("front", [("pin_2", "2: her left side seam, hip")], [0.8, 0.6], 2),
         ("back", [("pin_6", "6: centre back, waist")], [0.5, 0.4], 0)]  # fmt: skip
"""A blue picture and a red one, each marked once where a pin is."""


def test_a_first_fitting_from_the_first_touch_to_the_list(fitting, folder, again, launch, camera):
    """Eight pins placed one touch each, two photos marked, killed in the middle; read off later."""
    document = unfitted()
    hand = fitting(document)
    hand.word("Begin the first fitting")
    hand.word("Inside out")
    hand.moment("Pin")
    hand.touches = 0
    hand.touch("seam", "side", "waist", "left")  # one side only
    hand.touch("seam", "side", "hip", "left")  # with it a run; a gap
    hand.touch("seam", "side", "hip", "right")  # uneven edges
    hand.touch("seam", "side", "waist", "right")
    hand.touch("dart", "back_waist", "waist", "left")
    hand.touch("seam", "centre_back", "waist", "left")
    hand.touch("dart", "front_waist", "waist", "right")
    assert hand.touches == len(pins(folder)) == 7
    hand.moment("Look")
    hand.touches = 0
    take_and_mark(hand, "Front", "2", 0.8, 0.6)
    hand.key("back")
    take_and_mark(hand, "Back", "6", 0.5, 0.4)
    assert hand.touches == 8  # four a photo: take it, see it large, the pin, the place

    launch.kill()  # the battery died: every pin is there, and both photos with their marks
    assert photos_kept(folder) == TAKEN
    assert not any(path.exists() for path in camera)
    hand = again(moment="marks")
    assert len(pins(folder)) == 7
    hand.word("Fold")
    hand.touch("piece", "back", "bust", "left")
    assert pins(folder)[7] == {"piece": "back", "side": "left", "level": "bust"}
    hand.word("Tuck")
    hand.word("Waist")
    hand.word("Centre back")
    hand.press("3/8")

    hand.moment("Hem")
    for _ in range(8):
        hand.press("1", "1/4")
    hand.moment("Read off")
    amounts = {
        "her left side seam, waist": ["3/8"], "her left side seam, hip": ["gap", "1/2"],
        "her right side seam, hip": ["1/4", "apart", "1/2"], "her right side seam, waist": ["1/8"],
        "her left back waist dart": ["1/8"], "centre back, waist": ["1/8"],
        "her right front waist dart": ["gap", "1/8"], "her left back, bust": ["1/4"],
    }  # fmt: skip
    for _ in range(8):
        heading = hand.page.body.pin.heading
        (wanted,) = [keys for name, keys in amounts.items() if name in heading]
        hand.touches = 0
        for key in wanted:
            if key == "gap":
                hand.word("Gap" if "seam" in heading else "Released")
            elif key == "apart":
                hand.word("Edges apart")
                hand.word("Back")
            else:
                hand.press(key)
        hand.go_on()
        assert hand.touches == 2 or len(wanted) > 1
    assert hand.page.body.counted == "8 of 8 pins read"
    read = {json.dumps({name: pin.get(name) for name in ("seam", "dart", "piece", "side", "level")
                        if pin.get(name)}): pin for pin in pins(folder)}  # fmt: skip
    assert len(read) == 8
    assert sorted(str(pin.get("pinch") or pin.get("gap") or pin.get("edges"))
                  for pin in read.values()) == sorted(
        ["3/8", "1/2", "{'front': '-1/4', 'back': '-1/2'}", *["1/8"] * 4, "1/4"])  # fmt: skip

    launch.kill()  # and once more, with everything read: nothing typed is lost
    assert photos_kept(folder) == TAKEN
    assert [point["floor"] for point in last(folder)["hem"]["points"]] == ["1 1/4"] * 8
    assert last(folder)["tucks"][0]["depth"] == {"centre_back": "3/8"}
    hand = again(moment="read")
    assert hand.page.body.counted.startswith("8 of 8 pins read")
    exported = parse(json.dumps(kept(folder, DEMO_ID)).encode(), "client.json")
    plan = make_plan(read_document(exported))
    rows = {(row.layer, row.level): row for row in hand.page.body.levels}
    shown = [level for level in plan.levels if (level.layer, level.level) in rows]
    assert len(shown) == len(rows) > 3
    for level in shown:
        assert rows[level.layer, level.level].sum == level.sum.replace(" | ", "\n")
        assert level.pinned == pytest.approx(PINNED.get(level.level, level.pinned))
    right = next(move for move in plan.moves if (move.seam, move.side, move.level, move.edge)
                 == ("side", "right", "waist", "front"))  # fmt: skip
    assert right.exact == pytest.approx(-0.375 * IN)  # worn inside out: pinned on her left
    hand.tap(hand.desk.panel.ids.changes)
    assert hand.app.root.current == "changes"
    assert [row.number for row in hand.app.room.view.steps] == [
        str(step.order) for step in plan.steps]  # fmt: skip


IN = 25.4
PINNED = {
    # bust: the fold alone, 1/4 deep: 1/2 off
    # waist: sides 3/8 deep (3/4) and 1/8 deep (1/4), back dart 1/8 (1/4), centre back 1/8 (1/4),
    # front dart released 1/8 (+1/8), together 1 3/8 off
    "waist": -1.375 * IN,
    # hip: gap 1/2 on, edges 1/4 + 1/2 off: 1/4 off
    "hip": -0.25 * IN,
    "bust": -0.5 * IN,
}


def test_a_hem_of_which_nothing_is_said_but_the_floor_says_what_is_counted(fitting):
    document = client(today(hem={"points": [{"at": "front", "floor": "1"}]}))
    document["garments"][0].pop("heel_of_the_day", None)
    hand = fitting(document, {"moment": "hem"}, "portrait")
    assert hand.page.body.caution.count("is not said") == 3
    for key, value in (("Off the floor, wanted", "1"), ("Turned up inside", "2")):
        hand.word(key)
        hand.press(value)
        hand.go_on()
    assert hand.page.body.caution == (
        "The heel of the day is not said: the floor is counted as it is today")


def test_a_name_she_passes_over_is_the_nearest_seam_and_no_pin_is_lost(fitting, folder):
    from core.fit.pinning import Where
    from screens.parts.fit_spots import Touched

    hand = fitting(client(today()), {"moment": "pin"})
    side, dart = (
        Touched(Where(what, place, "outer", "waist"), "left", words)
        for what, place, words in (("seam", "side", "Side seam"), ("dart", "back_waist", "Dart"))
    )
    hand.app.room.view.place([side, dart])
    assert pins(folder) == []  # two names to pick from
    hand.app.room.view.place([dart])  # touched again, nearer to one of them
    assert [pin.get("dart") for pin in pins(folder)] == ["back_waist"]
    hand.app.room.view.place([side, dart])
    hand.touch("seam", "side", "hip", "left")
    assert [(pin.get("seam"), pin["level"]) for pin in pins(folder)] == [
        (None, "waist"), ("side", "waist"), ("side", "hip")]  # fmt: skip


@pytest.mark.parametrize(
    "on", ["her right", "hem", "read off", "changes", "nothing", "the rest", "the end"]
)
def test_two_names_left_open_are_a_pin_wherever_she_goes_on(fitting, folder, on):
    from core.fit.pinning import Where
    from screens.parts.fit_spots import Touched

    hand = fitting(client(today()), {"moment": "pin"})
    side, dart = (
        Touched(Where(what, place, "outer", "waist"), "left", words)
        for what, place, words in (("seam", "side", "Side seam"), ("dart", "back_waist", "Dart"))
    )
    view = hand.app.room.view
    view.place([side, dart])
    assert pins(folder) == []
    {
        "her right": lambda: view.place([replace(side, side="right"), dart]),
        "hem": lambda: view.go_to("hem"),
        "read off": lambda: view.go_to("read"),
        "changes": lambda: hand.app.room.beside("changes"),
        "nothing": lambda: view.place([]),
        "the rest": hand.app.on_pause,
        "the end": hand.app.stop,
    }[on]()
    first = pins(folder)[0]
    assert (first["seam"], first["side"], first["level"]) == ("side", "left", "waist")


@pytest.mark.parametrize("on", ["settings", "hem"])
def test_a_pin_of_two_names_that_cannot_be_kept_keeps_her_there(fitting, folder, on, monkeypatch):
    from core.fit.pinning import Where
    from screens.parts.fit_spots import Touched

    def full(_handle):
        raise OSError(errno.ENOSPC, "No space left on device")

    hand = fitting(client(today()), {"moment": "pin"})
    view, room = hand.app.room.view, hand.app.room
    view.place(
        Touched(Where("seam", place, "outer", "waist"), "left", place)
        for place in ("side", "centre_back")
    )
    go_on = {"settings": lambda: room.go("settings"), "hem": lambda: view.go_to("hem")}[on]
    with monkeypatch.context() as patched:
        patched.setattr(os, "fsync", full)
        go_on()
        assert (room.here, view.page.moment) == ("fitting", "pin")
        assert "No space left on device" in room.trouble
        assert "Which one?" in hand.texts()
    go_on()
    assert [pin["seam"] for pin in pins(folder)] == ["side"]
    assert room.trouble == ""


def test_back_takes_no_pin_of_two_names(fitting, folder):
    from core.fit.pinning import Where
    from screens.parts.fit_spots import Touched

    hand = fitting(client(today()), {"moment": "pin"})
    hand.app.room.view.place(
        Touched(Where("seam", place, "outer", "waist"), "left", place)
        for place in ("side", "centre_back")
    )
    hand.key("back")
    assert "Which one?" not in hand.texts()
    assert pins(folder) == []


def test_a_finger_still_on_the_glass_does_nothing_once_another_screen_is_shown(fitting, folder):
    from screens.fitting import MomentKey
    from screens.fitting_page import Chosen
    from tests.screens.tablet import Finger

    hand = fitting(client(today()), {"moment": "pin"})
    key = next(key for key in hand.all(MomentKey) if key.row.key == "out")
    on_key = Finger(hand, *key.to_window(*key.center)).down()
    figure = hand.ids.desk.figure
    place = figure.where("seam", "side", "waist", "left")
    on_figure = Finger(hand, *figure.to_window(*place)).down()
    hand.app.room.beside("changes")
    hand.frames(60)  # longer than a hold
    on_key.up()
    on_figure.up()
    assert hand.app.room.here == "changes"
    assert pins(folder) == []
    hand.app.room.beside("fitting", Chosen(moment="pin"))
    hand.frames(3)
    assert key.state == "normal"
    hand.touch("seam", "side", "waist", "left")  # one finger is one finger again
    assert [pin["seam"] for pin in pins(folder)] == ["side"]
