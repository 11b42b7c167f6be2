"""Photos of a fitting: read aside, kept only where the client agreed, marked, removed, undone."""

import hashlib
import json

import pytest
from PIL import Image

from tests.screens import folders
from tests.screens.folders import DEMO_ID, OTHER_ID, another
from tests.screens.kept import kept

DAY = "2026-03-02"


@pytest.fixture
def folder(tmp_path):
    return tmp_path / "data"


@pytest.fixture
def hand(start, folder):
    folders.fill(folder, folders.DEMO, another())
    return start()


@pytest.fixture
def bench(hand):
    """The bench of a running app, at the fitting of a client who agreed."""
    hand.app.bench.open_client(DEMO_ID)
    hand.app.bench.agree_to_photos(DAY)
    return hand.app.bench


@pytest.fixture
def taken(tmp_path):
    return picture(tmp_path / "taken.png", "navy")


def picture(path, colour):
    Image.new("RGB", (64, 48), colour).save(path)
    return path


def fitting(folder, client_id=DEMO_ID):
    return kept(folder, client_id)["garments"][0]["fittings"][0]


def photos(folder, client_id=DEMO_ID):
    return fitting(folder, client_id).get("photos", [])


def files(folder, client_id=DEMO_ID):
    return sorted((folder / "clients" / client_id / "photos").glob("*"))


def test_a_photo_is_kept_in_the_folder_and_named_in_the_fitting(hand, bench, folder, taken):
    bench.add_photo(taken, "back")
    hand.wait()
    (photo,) = photos(folder)
    assert photo["view"] == "back"
    (file,) = files(folder)
    assert photo["file"] == f"photos/{file.name}"
    assert file.name == f"{hashlib.sha256(file.read_bytes()).hexdigest()}.jpg"
    with Image.open(file) as image:
        assert image.size == (64, 48)
    assert bench.trouble == ""


def test_several_photos_in_a_row_are_all_kept_in_their_order(hand, bench, folder, tmp_path):
    for view, colour in (("front", "red"), ("her left", "green"), ("back", "blue")):
        bench.add_photo(picture(tmp_path / f"{colour}.png", colour), view)
    hand.wait()
    assert [photo["view"] for photo in photos(folder)] == ["front", "her left", "back"]
    assert len(files(folder)) == 3


def test_a_photo_is_there_after_a_restart(hand, bench, folder, taken, start):
    bench.add_photo(taken, "back")
    hand.wait()
    start()
    assert len(photos(folder)) == len(files(folder)) == 1


def test_without_her_agreement_no_photo_is_kept(hand, folder, taken):
    hand.app.bench.add_photo(taken, "back")
    hand.wait()
    assert "has not agreed to photos" in hand.app.bench.trouble
    assert hand.ids.trouble.text == hand.app.bench.trouble
    assert photos(folder) == []
    assert files(folder) == []


def test_the_day_she_agreed_is_written_down(bench, folder):
    assert kept(folder, DEMO_ID)["client"]["photo_consent"] == DAY


def test_a_day_that_is_none_is_told_and_not_written_down(bench, folder):
    bench.agree_to_photos("soon")
    assert "“soon” is not a day" in bench.trouble
    assert kept(folder, DEMO_ID)["client"]["photo_consent"] == DAY


def test_withdrawn_the_photos_stay_until_removed_and_no_new_ones_come(
    hand, bench, folder, taken, tmp_path
):
    bench.add_photo(taken, "back")
    hand.wait()
    bench.withdraw_agreement()
    assert "photo_consent" not in kept(folder, DEMO_ID)["client"]
    assert len(photos(folder)) == 1
    bench.add_photo(picture(tmp_path / "next.png", "red"), "front")
    hand.wait()
    assert "has not agreed" in bench.trouble
    assert len(photos(folder)) == 1
    bench.remove_photo(0)
    assert photos(folder) == []


def test_what_is_no_photo_is_told_by_its_name(hand, bench, folder, tmp_path):
    (tmp_path / "notes.jpg").write_text("no picture at all")
    bench.add_photo(tmp_path / "notes.jpg", "back")
    hand.wait()
    assert "“notes.jpg”" in bench.trouble
    assert photos(folder) == []


def test_undo_takes_a_photo_out_and_redo_puts_it_back(hand, bench, folder, taken):
    bench.add_photo(taken, "back")
    hand.wait()
    with_photo = photos(folder)
    bench.undo()
    assert photos(folder) == []
    bench.redo()
    assert photos(folder) == with_photo
    assert [f"photos/{file.name}" for file in files(folder)] == [with_photo[0]["file"]]


def test_a_photo_belongs_to_the_client_who_was_open_when_it_was_taken(hand, bench, folder, taken):
    bench.add_photo(taken, "back")
    bench.open_client(OTHER_ID)
    hand.wait()
    assert bench.client_id == OTHER_ID
    assert photos(folder, OTHER_ID) == []
    assert len(photos(folder)) == 1
    bench.undo()
    assert bench.client_id == DEMO_ID
    assert photos(folder) == []


def test_a_touch_while_a_photo_is_read_is_kept_with_it(hand, bench, folder, taken):
    bench.take_pin(1)
    bench.add_photo(taken, "back")
    bench.step_pin(1)
    hand.wait()
    assert fitting(folder)["pins"][1]["pinch"] == "3/8"
    assert len(photos(folder)) == 1
    assert bench.pin.depth == "3/8"


def test_what_could_not_be_done_meanwhile_stays_told(hand, bench, taken):
    bench.add_photo(taken, "back")
    bench.open_client("nobody")
    hand.wait()
    assert "not here any more" in bench.trouble


def test_a_photo_of_a_client_deleted_meanwhile_is_not_kept(hand, bench, folder, taken):
    bench.add_photo(taken, "back")
    bench.delete_client(DEMO_ID)
    hand.wait()
    assert "not here any more" in bench.trouble
    assert not (folder / "clients" / DEMO_ID).exists()


def test_without_a_fitting_there_is_nothing_to_keep_a_photo_at(hand, bench, folder, taken):
    document = another(2, "Without a fitting")
    document["garments"][0]["fittings"] = []
    hand.app.bench.store.save(document)
    bench.open_client(document["client"]["id"])
    bench.add_photo(taken, "back")
    assert "no fitting" in bench.trouble
    assert not hand.app.aside.busy


def test_a_mark_is_kept_where_it_was_touched(hand, bench, folder, taken):
    bench.add_photo(taken, "back")
    hand.wait()
    bench.mark_photo(0, 0.41, 0.36, "drags here")
    bench.mark_photo(0, 1.2, -0.1, "beyond the picture")
    assert photos(folder)[0]["marks"] == [
        {"x": 0.41, "y": 0.36, "text": "drags here"},
        {"x": 1.0, "y": 0.0, "text": "beyond the picture"},
    ]
    bench.undo()
    assert len(photos(folder)[0]["marks"]) == 1


@pytest.mark.parametrize("index", [-1, 1])
def test_a_photo_that_is_not_there_is_told(hand, bench, folder, taken, index):
    bench.add_photo(taken, "back")
    hand.wait()
    for verb in (lambda: bench.mark_photo(index, 0, 0, ""), lambda: bench.remove_photo(index)):
        verb()
        assert "photo is not here any more" in bench.trouble
    assert len(photos(folder)) == 1


def test_of_two_photos_alike_the_one_that_was_meant_is_removed(hand, bench, folder, taken):
    for view in ("back", "front", "back"):
        bench.add_photo(taken, view)
    hand.wait()
    bench.mark_photo(2, 0.5, 0.5, "the second")
    bench.remove_photo(0)
    assert [photo["view"] for photo in photos(folder)] == ["front", "back"]
    assert photos(folder)[1]["marks"]


def test_a_removed_photo_is_deleted_when_the_app_is_closed(hand, bench, folder, taken, launch):
    bench.add_photo(taken, "back")
    hand.wait()
    bench.remove_photo(0)
    assert len(files(folder)) == 1  # undo could still bring it back
    launch.stop()
    assert files(folder) == []


def test_deleting_a_client_deletes_her_photos(hand, bench, folder, taken):
    bench.add_photo(taken, "back")
    hand.wait()
    bench.delete_client(DEMO_ID)
    assert not (folder / "clients" / DEMO_ID).exists()
    assert bench.client_id == OTHER_ID


def test_an_agreement_taken_back_by_undo_is_taken_back(bench, folder):
    bench.undo()
    assert "photo_consent" not in kept(folder, DEMO_ID)["client"]
    assert json.dumps(kept(folder, DEMO_ID)) == json.dumps(folders.DEMO)
