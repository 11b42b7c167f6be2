"""The workroom: one client open, one screen shown, the way back, and one door for changes."""

import copy
import os

import pytest

from core.store.clients import Store
from core.store.records import unstamped
from tests.screens import folders
from tests.screens.folders import DEMO, OTHER_ID, another

FIRST, SECOND = "11110000-0000-4000-8000-000000000001", "11110000-0000-4000-8000-000000000002"


def two_of_each():
    """Two garments of one client, the second with two fittings."""
    document = copy.deepcopy(DEMO)
    garments = document["garments"]
    garments.insert(0, copy.deepcopy(garments[0]) | {"id": FIRST, "name": "Grey skirt dress"})
    fitting = garments[1]["fittings"][0]
    garments[1]["fittings"].append(
        copy.deepcopy(fitting) | {"id": SECOND, "on": "2026-03-16", "pins": fitting["pins"][:2]}
    )
    return document


@pytest.fixture
def store(window, tmp_path):
    with Store(tmp_path) as store:
        store.save(two_of_each())
        yield store


@pytest.fixture
def put_on(window):
    """``put_on(store)`` is the changes of the first client in a workroom with a store taken."""
    from screens.aside import Aside
    from screens.places import ways
    from screens.workroom import Workroom

    aside = Aside()

    def begin(store):
        room = Workroom(aside, ways())
        room.take_store(store)
        rows = [row for row in store.clients() if not row.damaged]
        room.open_client(rows[0].id, "changes")
        return room.view_of("changes")

    yield begin
    aside.end()


@pytest.fixture
def changes(put_on, store):
    return put_on(store)


def on_disk(store, client_id=DEMO["client"]["id"]):
    return unstamped(store.read(client_id))


def test_the_last_fitting_of_the_last_garment_is_opened_first(changes):
    assert changes.garment_name == "Moss green wool sheath"
    assert "16 March 2026" in changes.title_line
    assert len(changes.pins) == 2


def test_another_garment_opens_at_its_own_last_fitting(changes):
    changes.open_garment(FIRST)
    assert changes.garment_name == "Grey skirt dress"
    assert "2 March 2026" in changes.title_line
    assert len(changes.pins) == 6


def test_another_fitting_of_the_same_garment(changes):
    changes.open_fitting(DEMO["garments"][0]["fittings"][0]["id"])
    assert changes.garment_name == "Moss green wool sheath"
    assert "2 March 2026" in changes.title_line


def test_a_change_goes_to_the_fitting_that_is_open_and_to_no_other(changes, store):
    changes.open_garment(FIRST)
    changes.take_pin(1)
    changes.step_pin(1)
    kept, before = on_disk(store), two_of_each()
    assert kept["garments"][0]["fittings"][0]["pins"][1]["pinch"] == "3/8"
    assert kept["garments"][1] == before["garments"][1]


def test_undo_goes_back_through_every_change_in_turn(changes, store):
    for index in (0, 1):
        changes.take_pin(index)
        changes.step_pin(1)
    changes.choose_lead("tape")
    for _ in range(3):
        assert changes.room.can_undo
        changes.room.undo()
    assert not changes.room.can_undo
    assert on_disk(store) == two_of_each()


def test_undo_takes_the_pin_in_hand_that_it_changes_back(changes):
    changes.take_pin(1)
    changes.step_pin(1)
    changes.take_pin(0)
    changes.room.undo()
    assert (changes.pin.index, changes.pin.depth) == (1, "1/4")


def test_undo_with_nothing_to_undo_does_nothing(changes):
    changes.room.undo()
    assert changes.room.trouble == ""


def depths(changes):
    return [row.depth for row in changes.pins]


def test_what_was_undone_is_done_again_in_turn(changes, store):
    for index in (0, 1):
        changes.take_pin(index)
        changes.step_pin(1)
    done, kept = depths(changes), on_disk(store)
    for _ in range(2):
        changes.room.undo()
    assert changes.room.can_redo
    for _ in range(2):
        changes.room.redo()
    assert not changes.room.can_redo
    assert (depths(changes), on_disk(store)) == (done, kept)
    changes.room.undo()
    assert changes.pin.index == 1


def test_a_new_change_cuts_off_what_could_be_done_again(changes):
    changes.step_pin(1)
    changes.room.undo()
    changes.choose_lead("tape")
    assert not changes.room.can_redo
    changes.room.redo()
    assert changes.lead == "tape"
    changes.room.undo()
    assert changes.lead == "pins"


@pytest.fixture
def two_clients(store):
    store.save(another())
    return store


def test_undo_goes_back_over_clients_and_shows_where_it_was(two_clients, put_on):
    changes = put_on(two_clients)
    changes.open_garment(FIRST)
    changes.take_pin(1)
    changes.step_pin(1)
    changes.room.open_client(OTHER_ID, "changes")
    changes.take_pin(2)
    changes.step_pin(1)

    changes.room.undo()
    assert (changes.room.client_id, changes.pin.index) == (OTHER_ID, 2)
    changes.room.undo()
    assert changes.room.client_id == DEMO["client"]["id"]
    assert changes.garment_name == "Grey skirt dress"
    assert (changes.pin.index, changes.pin.depth) == (1, "1/4")
    assert not changes.room.can_undo
    assert on_disk(two_clients) == two_of_each()
    assert on_disk(two_clients, OTHER_ID) == another()


def test_redo_goes_forward_over_clients(two_clients, put_on):
    changes = put_on(two_clients)
    changes.step_pin(1)
    changes.room.open_client(OTHER_ID, "changes")
    changes.step_pin(1)
    kept = [on_disk(two_clients), on_disk(two_clients, OTHER_ID)]
    for verb in (changes.room.undo, changes.room.undo, changes.room.redo):
        verb()
    assert changes.room.client_id == DEMO["client"]["id"]
    changes.room.redo()
    assert changes.room.client_id == OTHER_ID
    assert [on_disk(two_clients), on_disk(two_clients, OTHER_ID)] == kept


def test_taking_back_is_a_change_like_any_other_to_another_tablet(changes, store):
    def revision():
        return store.read(DEMO["client"]["id"])["garments"][1]["fittings"][1]["revision"]

    before = revision()
    changes.step_pin(1)
    changes.room.undo()
    assert revision() == before + 2


def stands(changes, store):
    """What is shown, what is kept, and what can be taken back or done again."""
    return depths(changes), on_disk(store), changes.room.can_undo, changes.room.can_redo


def full(_handle):
    raise OSError(28, "No space left on device")


@pytest.mark.parametrize("verb", ["undo", "redo"])
def test_where_it_cannot_be_saved_nothing_is_taken_back_or_done_again(changes, store, verb):
    changes.step_pin(1)
    if verb == "redo":
        changes.room.undo()
    before = stands(changes, store)
    with pytest.MonkeyPatch.context() as patched:
        patched.setattr(os, "fsync", full)
        getattr(changes.room, verb)()
    assert "No space left" in changes.room.trouble
    assert stands(changes, store) == before
    getattr(changes.room, verb)()
    assert stands(changes, store) != before


def test_a_deleted_client_is_gone_and_the_day_book_is_open(two_clients, put_on):
    changes = put_on(two_clients)
    changes.step_pin(1)
    changes.room.delete_client(DEMO["client"]["id"])
    assert changes.room.here == "day book"
    assert changes.room.client_id == ""
    assert [row.id for row in two_clients.clients()] == [OTHER_ID]
    assert not changes.room.can_undo
    assert changes.room.trouble == ""


def test_deleting_a_client_leaves_what_was_done_to_others(two_clients, put_on):
    changes = put_on(two_clients)
    changes.step_pin(1)
    changes.room.open_client(OTHER_ID, "changes")
    changes.step_pin(1)
    changes.room.delete_client(OTHER_ID)
    assert changes.room.can_undo
    changes.room.undo()
    assert changes.room.client_id == DEMO["client"]["id"]
    assert on_disk(two_clients) == two_of_each()
    assert not changes.room.can_undo


def test_deleting_another_client_leaves_the_open_one(two_clients, put_on):
    changes = put_on(two_clients)
    changes.room.delete_client(OTHER_ID)
    assert changes.room.client_id == DEMO["client"]["id"]
    assert [row.id for row in two_clients.clients()] == [DEMO["client"]["id"]]


def test_a_client_who_cannot_be_deleted_stays(changes, store, monkeypatch):
    from core.store import arrivals

    monkeypatch.setattr(arrivals, "replace_file", lambda *_: full(None))
    changes.room.delete_client(DEMO["client"]["id"])
    assert "No space left" in changes.room.trouble
    assert changes.garment_name == "Moss green wool sheath"
    assert on_disk(store) == two_of_each()


def test_deleting_a_client_who_is_gone_is_told(changes):
    changes.room.delete_client("nobody")
    assert "not here any more" in changes.room.trouble
    assert changes.garment_name == "Moss green wool sheath"


def test_a_client_who_is_gone_is_told_and_the_open_one_stays(changes):
    changes.room.open_client("nobody", "changes")
    assert "not here any more" in changes.room.trouble
    assert changes.garment_name == "Moss green wool sheath"


def test_worn_inside_out_is_said(store, put_on):
    document = copy.deepcopy(DEMO)
    document["garments"][0]["fittings"][0]["worn"]["inside_out"] = True
    store.save(document)
    assert "worn inside out" in put_on(store).title_line


def test_a_copy_taken_for_a_spoilt_file_is_told(tmp_path, put_on):
    with Store(tmp_path) as store:
        for document in (two_of_each(), two_of_each() | {"note": "so that there is one before"}):
            store.save(document)
    (tmp_path / "clients" / DEMO["client"]["id"] / "client.json").write_text("{")
    with Store(tmp_path) as store:
        changes = put_on(store)
        assert "look over the last changes" in changes.room.trouble
        assert changes.garment_name == "Moss green wool sheath"


def test_a_damaged_client_does_not_stand_in_the_way_of_the_others(tmp_path, put_on):
    folders.fill(tmp_path, DEMO, another())
    (tmp_path / "clients" / DEMO["client"]["id"] / "client.json").write_text("{")
    with Store(tmp_path) as store:
        changes = put_on(store)
        assert changes.room.client_id == OTHER_ID
        changes.room.open_client(DEMO["client"]["id"], "changes")
        assert "cannot be read" in changes.room.trouble
        assert changes.room.client_id == OTHER_ID


def test_without_a_store_nothing_can_be_done_and_nothing_is_shown(store, put_on):
    changes = put_on(store)
    changes.step_pin(1)
    changes.room.put_away()
    assert (changes.room.here, changes.room.can_undo) == ("", False)
    assert (changes.title_line, changes.garment_name, list(changes.pins)) == ("", "", [])
    kept = on_disk(store)
    changes.room.undo()
    changes.step_pin(1)
    assert changes.room.trouble != ""
    assert on_disk(store) == kept


# -- from screen to screen ----------------------------------------------------


def test_back_leads_the_way_she_came_and_ends_at_the_day_book(changes):
    room = changes.room
    room.choose(None)
    assert room.back()
    assert room.here == "day book"
    assert not room.back()
    assert room.here == "day book"


def test_back_closes_what_lies_open_over_a_screen_first(changes, monkeypatch):
    opened = [True]
    monkeypatch.setattr(type(changes), "close", lambda _: opened.pop() if opened else False)
    assert changes.room.back()
    assert changes.room.here == "changes"
    changes.room.back()
    assert changes.room.here == "day book"


def test_where_undo_leads_to_another_screen_back_leads_to_where_she_was(changes):
    changes.step_pin(1)
    changes.room.back()
    changes.room.undo()
    assert changes.room.here == "changes"
    changes.room.back()
    assert changes.room.here == "day book"


def test_a_screen_that_cannot_be_shown_is_told_and_she_stays(store, put_on):
    document = another(3, "Zora Without a Garment") | {"garments": []}
    store.save(document)
    room = put_on(store).room
    room.open_client(document["client"]["id"], "changes")
    assert "no garment yet" in room.trouble
    assert room.client_id == DEMO["client"]["id"]
