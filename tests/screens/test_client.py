"""A client's page: what she measures, her garments and wishes, photos, and going for good."""

import csv
import json
import zipfile
from datetime import datetime

import pytest
from PIL import Image

from core.store.bundles import bring_in
from core.store.clients import Store
from tests.screens import folders
from tests.screens.folders import DEMO, DEMO_ID, another
from tests.screens.kept import kept

DAY = datetime(2026, 3, 5, 10, 5)


@pytest.fixture
def folder(tmp_path):
    return tmp_path / "data"


@pytest.fixture
def begin(launch, folder):
    """``begin(document)`` opens the app on that client's page."""
    from screens.app import PinsToSeamsApp

    def opened(document=DEMO, screen="landscape"):
        launch.stop()
        folders.fill(folder, document)
        hand = launch(PinsToSeamsApp(folder, DAY.timestamp), screen)
        hand.app.room.open_client(document["client"]["id"])
        hand.frames(3)
        assert hand.app.root.current == "client"
        return hand

    return opened


def page(hand):
    (shown,) = hand.ids.place.children
    return shown.ids


def stored(folder, client_id=DEMO_ID):
    return kept(folder, client_id)


def rows(hand):
    return {each.row.label: each.row for each in hand.app.room.view.measured}


def answer(hand, label):
    from screens.parts.panel import AnswerKey

    hand.tap(next(key for key in hand.all(AnswerKey) if key.row.label == label))
    hand.frames(3)


# -- what she measures --------------------------------------------------------


def test_each_measurement_says_how_it_changed(begin):
    """The demo was taped on 9 February and on 2 March; the waist went from 33 to 32."""
    hand = begin()
    waist = rows(hand)["Waist"]
    assert (waist.value, waist.since_last.words) == ("32", "1 less")
    assert "1 less" in hand.texts()
    assert "taken 2 March" in hand.texts()
    assert "since 9 February" in hand.texts()


def test_the_small_line_falls_where_she_became_less(begin):
    from screens.parts.over_time import OverTime

    hand = begin()
    line = next(line for line in hand.all(OverTime) if list(line.points) == list(
        rows(hand)["Waist"].line))  # fmt: skip
    (x_first, y_first), (x_last, y_last) = line.places()
    assert x_first < x_last
    assert y_first > y_last
    assert line.y < y_last < y_first < line.top


def test_a_touch_on_a_measurement_opens_the_tape_at_it(begin):
    from screens.client import MeasuredLine

    hand = begin()
    line = next(line for line in hand.all(MeasuredLine) if line.row.row.label == "Waist")
    hand.tap(line)
    assert hand.app.root.current == "tape"
    assert hand.app.room.view.chosen.number.measurement == "waist_girth"
    hand.key("back")
    assert hand.app.root.current == "client"


def test_a_new_client_says_what_to_do_first_and_measure_does_it(begin):
    document = another(7, "Winnifer Oduya-Strand") | {"measurements": [], "garments": []}
    hand = begin(document)
    assert any("Not measured yet" in text for text in hand.texts())
    assert any("New begins one" in text for text in hand.texts())
    hand.tap(hand.ids.measure)
    assert hand.app.root.current == "tape"


# -- garments and days --------------------------------------------------------


def test_a_garment_opens_its_changes_and_before_a_fitting_its_draft(begin):
    from screens.client import GarmentLine

    hand = begin()
    hand.tap(hand.all(GarmentLine)[0])
    assert hand.app.root.current == "changes"
    document = another(8, "Tamsin Verrault")
    document["garments"][0]["fittings"] = []
    hand = begin(document)
    hand.tap(hand.all(GarmentLine)[0])
    assert hand.app.root.current == "draft"


def open_plan(hand):
    from screens.client import GarmentKeys, HerGarmentBlock

    hand.tap(hand.all(HerGarmentBlock)[0].ids.plan)
    hand.frames(2)
    (keys,) = hand.all(GarmentKeys)
    return keys.key


def touch_day(hand, number):
    from screens.parts.day_picker import DayKey

    hand.tap(next(key for key in hand.all(DayKey)
                  if key.row.inside and key.row.words == str(number)))  # fmt: skip
    hand.frames(2)


@pytest.mark.parametrize("screen", ["landscape", "portrait"])
def test_a_fitting_is_planned_with_its_time_and_is_in_the_day_book(begin, folder, screen):
    hand = begin(screen=screen)
    hand.tap(open_plan(hand)("next fitting"))
    hand.frames(2)
    touch_day(hand, 14)
    assert stored(folder)["garments"][0]["next_fitting"] == "2026-03-14"
    from screens.parts.day_picker import TimeLine

    (time,) = hand.all(TimeLine)
    hand.tap(time.ids.later)
    hand.tap(time.ids.later)
    assert stored(folder)["garments"][0]["next_fitting"] == "2026-03-14T10:15"
    touch_day(hand, 15)
    assert stored(folder)["garments"][0]["next_fitting"] == "2026-03-15T10:15"
    hand.tap(page(hand).done)
    assert "Moss green wool sheath" in hand.texts()
    hand.key("back")
    assert hand.app.root.current == "day book"
    assert "10:15" in hand.texts()


def test_a_month_on_a_day_it_is_due_is_picked_and_undone(begin, folder):
    hand = begin()
    hand.tap(open_plan(hand)("due"))
    hand.frames(2)
    hand.tap(page(hand).after)
    assert "April 2026" in hand.texts()
    touch_day(hand, 2)
    assert stored(folder)["garments"][0]["due"] == "2026-04-02"
    assert hand.app.room.view.panel == ""
    hand.tap(hand.ids.head.ids.undo)
    assert stored(folder) == DEMO
    assert hand.app.room.view.panel == ""


def test_no_day_takes_a_day_away(begin, folder):
    hand = begin()
    hand.tap(open_plan(hand)("collected"))
    touch_day(hand, 4)
    assert stored(folder)["garments"][0]["collected"] == "2026-03-04"
    hand.app.room.view.ask_day("collected", DEMO["garments"][0]["id"])
    hand.frames(2)
    hand.tap(page(hand).none.children[0])
    assert "collected" not in stored(folder)["garments"][0]


# -- wishes, notes, name ------------------------------------------------------


def test_the_ease_she_likes_is_typed_stepped_and_taken_away(begin, folder):
    hand = begin()
    hand.app.room.view.open_ease("waist")
    hand.frames(2)
    hand.tap(page(hand).more)
    assert stored(folder)["client"]["ease"] == {"waist": "1/8"}
    field = page(hand).typed.ids.field
    field.text = "4%"
    hand.tap(page(hand).less)
    assert stored(folder)["client"]["ease"] == {"waist": "3%"}
    page(hand).typed.ids.field.text = "1 1/2"
    hand.tap(page(hand).done)
    assert stored(folder)["client"]["ease"] == {"waist": "1 1/2"}
    assert "1 1/2" in hand.texts()
    hand.app.room.view.open_ease("waist")
    hand.frames(2)
    page(hand).typed.ids.field.text = ""
    hand.tap(page(hand).done)
    assert "ease" not in stored(folder)["client"]


def test_ease_that_is_no_length_is_told_and_nothing_is_changed(begin, folder):
    hand = begin()
    hand.app.room.view.open_ease("waist")
    hand.frames(2)
    page(hand).typed.ids.field.text = "a little"
    hand.tap(page(hand).done)
    assert "a little" in hand.ids.head.ids.trouble.text
    assert hand.app.room.view.panel == "ease"
    assert stored(folder) == DEMO


def test_notes_are_kept_when_they_rest_and_when_they_are_left(begin, folder):
    hand = begin()
    notes = page(hand).notes
    hand.tap(notes)
    notes.text = "Likes the waist close"
    assert stored(folder) == DEMO
    hand.window.step_clock.now += 2
    hand.frames(2)
    assert stored(folder)["client"]["notes"] == "Likes the waist close"
    notes.text = "Likes the waist close, and room to sit"
    hand.key("back")  # leaves the field
    assert stored(folder)["client"]["notes"].endswith("room to sit")
    hand.tap(hand.ids.head.ids.undo)
    assert notes.text == "Likes the waist close"


def test_her_name_is_changed_and_an_empty_one_is_refused(begin, folder):
    hand = begin()
    hand.tap(page(hand).rename)
    hand.frames(3)
    page(hand).name.ids.field.text = "  "
    hand.tap(page(hand).done)
    assert "Type a name first" in hand.ids.head.ids.trouble.text
    page(hand).name.ids.field.text = "Ottoline B."
    hand.tap(page(hand).done)
    assert stored(folder)["client"]["name"] == "Ottoline B."
    assert hand.ids.head.title == "Ottoline B."


# -- photos -------------------------------------------------------------------


@pytest.fixture
def picture(tmp_path, monkeypatch):
    from screens import browsing, client_sent

    photos = tmp_path / "pictures"
    photos.mkdir()
    Image.new("RGB", (80, 60), "navy").save(photos / "front.png")
    monkeypatch.setattr(client_sent, "beginning", lambda: photos)
    assert browsing.ENDINGS["photo"]
    return photos / "front.png"


def add(hand):
    from screens.parts.panel import BrowsedLine

    hand.tap(next(line for line in hand.all(BrowsedLine) if line.row.title == "front.png"))
    hand.frames(3)
    answer(hand, "Her left")
    hand.wait()
    hand.frames(3)


def test_before_the_first_photo_she_is_asked_and_the_day_is_written_down(begin, folder, picture):
    hand = begin()
    hand.tap(page(hand).add_photo)
    hand.frames(2)
    assert any("Has Ottoline" in text for text in hand.texts())
    assert not (folder / "clients" / DEMO_ID / "photos").exists()
    answer(hand, "She agreed today")
    assert stored(folder)["client"]["photo_consent"] == "2026-03-05"
    add(hand)
    (photo,) = stored(folder)["garments"][0]["fittings"][0]["photos"]
    assert photo["view"] == "her left"
    assert "consent given 5 March" in hand.texts()


def test_agreed_before_any_fitting_nothing_else_is_asked_for(begin, folder):
    hand = begin({**DEMO, "garments": []})
    hand.tap(page(hand).consent)
    hand.frames(2)
    answer(hand, "She agreed today")
    assert stored(folder)["client"]["photo_consent"] == "2026-03-05"
    assert hand.app.room.trouble == ""
    assert hand.app.room.view.chosen.panel == ""


def test_a_photo_is_shown_large_with_its_marks_and_removed_and_back_again(begin, folder, picture):
    from screens.parts.photo import LargePhoto, Thumbnail

    hand = begin()
    hand.app.room.view.ask_consent()
    hand.frames(2)
    answer(hand, "She agreed on another day")
    touch_day(hand, 3)
    assert stored(folder)["client"]["photo_consent"] == "2026-03-03"
    hand.app.room.view.add_photo()
    hand.frames(3)
    add(hand)
    (small,) = hand.all(Thumbnail)
    hand.tap(small)
    hand.frames(3)
    (large,) = hand.all(LargePhoto)
    x, y, wide, high = large.box()
    blue = hand.picture().getpixel((round(large.to_window(x + wide / 2, 0)[0]),
                                    round(hand.window.height - (y + high / 2))))  # fmt: skip
    assert blue[2] > 100 > blue[0]
    hand.tap(page(hand).take_out)
    assert stored(folder)["garments"][0]["fittings"][0]["photos"] == []
    hand.tap(hand.ids.head.ids.undo)
    assert len(hand.app.room.view.photos) == 1


def test_withdrawn_no_new_photo_is_taken_without_asking_again(begin, folder, picture):
    hand = begin()
    hand.app.room.view.ask_consent()
    hand.frames(2)
    answer(hand, "She agreed today")
    hand.app.room.view.ask_consent()
    hand.frames(2)
    answer(hand, "She withdraws it")
    assert "photo_consent" not in stored(folder)["client"]
    hand.tap(page(hand).add_photo)
    hand.frames(2)
    assert any("Has Ottoline" in text for text in hand.texts())


def test_without_a_fitting_a_photo_has_no_place_and_that_is_told(begin):
    document = another(8, "Tamsin Verrault")
    document["garments"][0]["fittings"] = []
    hand = begin(document)
    hand.tap(page(hand).add_photo)
    assert "kept with a fitting" in hand.ids.head.ids.trouble.text


# -- taking along, and going for good -----------------------------------------


def choose_folder(hand, tmp_path, monkeypatch, key="export"):
    from screens import client_sent

    (tmp_path / "card").mkdir()
    monkeypatch.setattr(client_sent, "beginning", lambda: tmp_path)
    hand.tap(page(hand)[key])
    hand.frames(3)
    from screens.parts.panel import BrowsedLine, HereKey

    hand.tap(next(line for line in hand.all(BrowsedLine) if line.row.title == "card"))
    hand.frames(3)
    hand.tap(hand.all(HereKey)[0])
    hand.wait()
    hand.frames(5)


def test_she_is_exported_to_a_folder_and_can_be_brought_in_elsewhere(
    begin, tmp_path, monkeypatch
):  # fmt: skip
    hand = begin()
    choose_folder(hand, tmp_path, monkeypatch)
    (bundle,) = (tmp_path / "card").glob("*.zip")
    assert zipfile.is_zipfile(bundle)
    assert hand.app.root.current == "client"
    assert bundle.name in page(hand).said.text
    with Store(tmp_path / "elsewhere") as store:
        assert bring_in(store, bundle).new == (DEMO["client"]["name"],)


def test_her_measurements_are_written_as_a_table(begin, tmp_path, monkeypatch):
    hand = begin()
    choose_folder(hand, tmp_path, monkeypatch, "table")
    (table,) = (tmp_path / "card").glob("*.csv")
    rows = list(csv.reader(table.read_text("utf-8-sig").splitlines()))
    (waist,) = [row for row in rows if row[0] == "Waist"]
    assert {"33", "32"} <= set(waist)  # on 9 February and on 2 March
    assert table.name in page(hand).said.text


def test_a_sealed_client_is_asked_about_before_she_leaves(start, folder, tmp_path, monkeypatch):
    from tests.screens.test_entry import enter

    folders.sealed(folder)
    hand = start()
    enter(hand, folders.PASSCODE)
    hand.app.room.open_client(DEMO_ID)
    hand.frames(3)
    choose_folder(hand, tmp_path, monkeypatch)
    assert any("How is Ottoline" in text for text in hand.texts())
    assert list((tmp_path / "card").iterdir()) == []
    from screens.parts.panel import SecretBox

    for box, typed in zip(hand.all(SecretBox), ("blue ribbon", "blue robbin"), strict=True):
        box.ids.field.text = typed
    answer(hand, "Seal it with this passcode")
    assert "not the same" in hand.ids.head.ids.trouble.text
    assert list((tmp_path / "card").iterdir()) == []
    for box in hand.all(SecretBox):
        box.ids.field.text = "blue ribbon"
    answer(hand, "Seal it with this passcode")
    hand.wait()
    (bundle,) = (tmp_path / "card").glob("*.zip")
    assert "Ottoline" not in bundle.name
    assert b"Ottoline" not in bundle.read_bytes()
    with Store(tmp_path / "elsewhere") as store:
        assert bring_in(store, bundle, "blue ribbon").new == (DEMO["client"]["name"],)


def test_everything_about_her_goes_after_two_questions(begin, folder):
    hand = begin()
    hand.tap(page(hand).delete)
    hand.frames(2)
    assert any("Backups and bundles that were sent stay" in text for text in hand.texts())
    answer(hand, "Delete everything")
    assert hand.app.room.store.has(DEMO_ID)
    answer(hand, "Delete for good")
    assert hand.app.root.current == "day book"
    assert not (folder / "clients" / DEMO_ID).exists()
    assert not hand.app.room.can_undo
    for path in (path for path in folder.rglob("*") if path.is_file()):
        assert b"Ottoline" not in path.read_bytes(), path


def test_she_is_kept_where_either_question_is_answered_so(begin, folder):
    hand = begin()
    for asked_twice in (False, True):
        hand.tap(page(hand).delete)
        hand.frames(2)
        if asked_twice:
            answer(hand, "Delete everything")
        answer(hand, "Keep her")
        assert hand.app.room.view.panel == ""
    assert json.dumps(stored(folder)) == json.dumps(DEMO)
