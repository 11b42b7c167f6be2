"""Photos of a fitting: read aside, kept only where the client agreed, marked, removed, undone."""

import hashlib
import json

import pytest
from PIL import Image

from core.client.edits import give_consent, withdraw_consent
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
def changes(hand):
    """The changes in a running app, at the fitting of a client who agreed."""
    hand.app.room.open_client(DEMO_ID, "changes")
    hand.app.room.change(lambda document: give_consent(document, DAY))
    return hand.app.room.view


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


def test_a_photo_is_kept_in_the_folder_and_named_in_the_fitting(hand, changes, folder, taken):
    changes.add_photo(taken, "back")
    hand.wait()
    (photo,) = photos(folder)
    assert photo["view"] == "back"
    (file,) = files(folder)
    assert photo["file"] == f"photos/{file.name}"
    assert file.name == f"{hashlib.sha256(file.read_bytes()).hexdigest()}.jpg"
    with Image.open(file) as image:
        assert image.size == (64, 48)
    assert changes.room.trouble == ""


def test_several_photos_in_a_row_are_all_kept_in_their_order(hand, changes, folder, tmp_path):
    for view, colour in (("front", "red"), ("her left", "green"), ("back", "blue")):
        changes.add_photo(picture(tmp_path / f"{colour}.png", colour), view)
    hand.wait()
    assert [photo["view"] for photo in photos(folder)] == ["front", "her left", "back"]
    assert len(files(folder)) == 3


def test_a_photo_is_there_after_a_restart(hand, changes, folder, taken, start):
    changes.add_photo(taken, "back")
    hand.wait()
    start()
    assert len(photos(folder)) == len(files(folder)) == 1


def test_without_her_agreement_no_photo_is_kept(hand, folder, taken):
    folders.open_changes(hand, DEMO_ID)
    hand.app.room.view.add_photo(taken, "back")
    hand.wait()
    assert "has not agreed to photos" in hand.app.room.trouble
    assert hand.ids.head.ids.trouble.text == hand.app.room.trouble
    assert photos(folder) == []
    assert files(folder) == []


def test_the_day_she_agreed_is_written_down(changes, folder):
    assert kept(folder, DEMO_ID)["client"]["photo_consent"] == DAY


def test_withdrawn_the_photos_stay_until_removed_and_no_new_ones_come(
    hand, changes, folder, taken, tmp_path
):
    changes.add_photo(taken, "back")
    hand.wait()
    changes.room.change(withdraw_consent)
    assert "photo_consent" not in kept(folder, DEMO_ID)["client"]
    assert len(photos(folder)) == 1
    changes.add_photo(picture(tmp_path / "next.png", "red"), "front")
    hand.wait()
    assert "has not agreed" in changes.room.trouble
    assert len(photos(folder)) == 1
    changes.remove_photo(0)
    assert photos(folder) == []


def test_what_is_no_photo_is_told_by_its_name(hand, changes, folder, tmp_path):
    (tmp_path / "notes.jpg").write_text("no picture at all")
    changes.add_photo(tmp_path / "notes.jpg", "back")
    hand.wait()
    assert "“notes.jpg”" in changes.room.trouble
    assert photos(folder) == []


def test_undo_takes_a_photo_out_and_redo_puts_it_back(hand, changes, folder, taken):
    changes.add_photo(taken, "back")
    hand.wait()
    with_photo = photos(folder)
    changes.room.undo()
    assert photos(folder) == []
    changes.room.redo()
    assert photos(folder) == with_photo
    assert [f"photos/{file.name}" for file in files(folder)] == [with_photo[0]["file"]]


def test_a_photo_belongs_to_the_client_who_was_open_when_it_was_taken(hand, changes, folder, taken):
    changes.add_photo(taken, "back")
    changes.room.open_client(OTHER_ID, "changes")
    hand.wait()
    assert changes.room.client_id == OTHER_ID
    assert photos(folder, OTHER_ID) == []
    assert len(photos(folder)) == 1
    changes.room.undo()
    assert changes.room.client_id == DEMO_ID
    assert photos(folder) == []


def test_a_touch_while_a_photo_is_read_is_kept_with_it(hand, changes, folder, taken):
    changes.take_pin(1)
    changes.add_photo(taken, "back")
    changes.step_pin(1)
    hand.wait()
    assert fitting(folder)["pins"][1]["pinch"] == "3/8"
    assert len(photos(folder)) == 1
    assert changes.pin.depth == "3/8"


def test_what_could_not_be_done_meanwhile_stays_told(hand, changes, taken):
    changes.add_photo(taken, "back")
    changes.room.open_client("nobody", "changes")
    hand.wait()
    assert "not here any more" in changes.room.trouble


def test_a_photo_of_a_client_deleted_meanwhile_is_not_kept(hand, changes, folder, taken):
    changes.add_photo(taken, "back")
    changes.room.delete_client(DEMO_ID)
    hand.wait()
    assert "not here any more" in changes.room.trouble
    assert not (folder / "clients" / DEMO_ID).exists()


def test_without_a_fitting_there_is_nothing_to_keep_a_photo_at(hand, changes, folder, taken):
    document = another(2, "Without a fitting")
    document["garments"][0]["fittings"] = []
    hand.app.room.store.save(document)
    changes.room.open_client(document["client"]["id"], "changes")
    changes.add_photo(taken, "back")
    assert "no fitting" in changes.room.trouble
    assert not hand.app.aside.busy


def test_a_mark_is_kept_where_it_was_touched(hand, changes, folder, taken):
    changes.add_photo(taken, "back")
    hand.wait()
    changes.mark_photo(0, 0.41, 0.36, "drags here")
    changes.mark_photo(0, 1.2, -0.1, "beyond the picture")
    assert photos(folder)[0]["marks"] == [
        {"x": 0.41, "y": 0.36, "text": "drags here"},
        {"x": 1.0, "y": 0.0, "text": "beyond the picture"},
    ]
    changes.room.undo()
    assert len(photos(folder)[0]["marks"]) == 1


@pytest.mark.parametrize("index", [-1, 1])
def test_a_photo_that_is_not_there_is_told(hand, changes, folder, taken, index):
    changes.add_photo(taken, "back")
    hand.wait()
    for verb in (lambda: changes.mark_photo(index, 0, 0, ""), lambda: changes.remove_photo(index)):
        verb()
        assert "photo is not here any more" in changes.room.trouble
    assert len(photos(folder)) == 1


def test_of_two_photos_alike_the_one_that_was_meant_is_removed(hand, changes, folder, taken):
    for view in ("back", "front", "back"):
        changes.add_photo(taken, view)
    hand.wait()
    changes.mark_photo(2, 0.5, 0.5, "the second")
    changes.remove_photo(0)
    assert [photo["view"] for photo in photos(folder)] == ["front", "back"]
    assert photos(folder)[1]["marks"]


def test_a_removed_photo_is_deleted_when_the_app_is_closed(hand, changes, folder, taken, launch):
    changes.add_photo(taken, "back")
    hand.wait()
    changes.remove_photo(0)
    assert len(files(folder)) == 1  # undo could still bring it back
    launch.stop()
    assert files(folder) == []


def test_deleting_a_client_deletes_her_photos(hand, changes, folder, taken):
    changes.add_photo(taken, "back")
    hand.wait()
    changes.room.delete_client(DEMO_ID)
    assert not (folder / "clients" / DEMO_ID).exists()
    assert changes.room.here == "day book"


def test_an_agreement_taken_back_by_undo_is_taken_back(changes, folder):
    changes.room.undo()
    assert "photo_consent" not in kept(folder, DEMO_ID)["client"]
    assert json.dumps(kept(folder, DEMO_ID)) == json.dumps(folders.DEMO)
