"""What is on the bench: a client, one of her garments, one of its fittings, and undo."""

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
    """``put_on(store)`` is the bench with a store taken."""
    from screens.aside import Aside
    from screens.bench import Bench

    aside = Aside()

    def begin(store):
        bench = Bench(aside)
        bench.take_store(store)
        return bench

    yield begin
    aside.end()


@pytest.fixture
def bench(put_on, store):
    return put_on(store)


def on_disk(store, client_id=DEMO["client"]["id"]):
    return unstamped(store.read(client_id))


def test_the_last_fitting_of_the_last_garment_is_opened_first(bench):
    assert bench.garment_name == "Moss green wool sheath"
    assert "16 March 2026" in bench.title_line
    assert len(bench.pins) == 2


def test_another_garment_opens_at_its_own_last_fitting(bench):
    bench.open_garment(FIRST)
    assert bench.garment_name == "Grey skirt dress"
    assert "2 March 2026" in bench.title_line
    assert len(bench.pins) == 6


def test_another_fitting_of_the_same_garment(bench):
    bench.open_fitting(DEMO["garments"][0]["fittings"][0]["id"])
    assert bench.garment_name == "Moss green wool sheath"
    assert "2 March 2026" in bench.title_line


def test_a_change_goes_to_the_fitting_that_is_open_and_to_no_other(bench, store):
    bench.open_garment(FIRST)
    bench.take_pin(1)
    bench.step_pin(1)
    kept, before = on_disk(store), two_of_each()
    assert kept["garments"][0]["fittings"][0]["pins"][1]["pinch"] == "3/8"
    assert kept["garments"][1] == before["garments"][1]


def test_undo_goes_back_through_every_change_in_turn(bench, store):
    for index in (0, 1):
        bench.take_pin(index)
        bench.step_pin(1)
    bench.choose_lead("tape")
    for _ in range(3):
        assert bench.can_undo
        bench.undo()
    assert not bench.can_undo
    assert on_disk(store) == two_of_each()


def test_undo_takes_the_pin_in_hand_that_it_changes_back(bench):
    bench.take_pin(1)
    bench.step_pin(1)
    bench.take_pin(0)
    bench.undo()
    assert (bench.pin.index, bench.pin.depth) == (1, "1/4")


def test_undo_with_nothing_to_undo_does_nothing(bench):
    bench.undo()
    assert bench.trouble == ""


def depths(bench):
    return [row.depth for row in bench.pins]


def test_what_was_undone_is_done_again_in_turn(bench, store):
    for index in (0, 1):
        bench.take_pin(index)
        bench.step_pin(1)
    done, kept = depths(bench), on_disk(store)
    for _ in range(2):
        bench.undo()
    assert bench.can_redo
    for _ in range(2):
        bench.redo()
    assert not bench.can_redo
    assert (depths(bench), on_disk(store)) == (done, kept)
    bench.undo()
    assert bench.pin.index == 1


def test_a_new_change_cuts_off_what_could_be_done_again(bench):
    bench.step_pin(1)
    bench.undo()
    bench.choose_lead("tape")
    assert not bench.can_redo
    bench.redo()
    assert bench.lead == "tape"
    bench.undo()
    assert bench.lead == "pins"


@pytest.fixture
def two_clients(store):
    store.save(another())
    return store


def test_undo_goes_back_over_clients_and_shows_where_it_was(two_clients, put_on):
    bench = put_on(two_clients)
    bench.open_garment(FIRST)
    bench.take_pin(1)
    bench.step_pin(1)
    bench.open_client(OTHER_ID)
    bench.take_pin(2)
    bench.step_pin(1)

    bench.undo()
    assert (bench.client_id, bench.pin.index) == (OTHER_ID, 2)
    bench.undo()
    assert (bench.client_id, bench.garment_name) == (DEMO["client"]["id"], "Grey skirt dress")
    assert (bench.pin.index, bench.pin.depth) == (1, "1/4")
    assert not bench.can_undo
    assert on_disk(two_clients) == two_of_each()
    assert on_disk(two_clients, OTHER_ID) == another()


def test_redo_goes_forward_over_clients(two_clients, put_on):
    bench = put_on(two_clients)
    bench.step_pin(1)
    bench.open_client(OTHER_ID)
    bench.step_pin(1)
    kept = [on_disk(two_clients), on_disk(two_clients, OTHER_ID)]
    for verb in (bench.undo, bench.undo, bench.redo):
        verb()
    assert bench.client_id == DEMO["client"]["id"]
    bench.redo()
    assert bench.client_id == OTHER_ID
    assert [on_disk(two_clients), on_disk(two_clients, OTHER_ID)] == kept


def test_taking_back_is_a_change_like_any_other_to_another_tablet(bench, store):
    def revision():
        return store.read(DEMO["client"]["id"])["garments"][1]["fittings"][1]["revision"]

    before = revision()
    bench.step_pin(1)
    bench.undo()
    assert revision() == before + 2


def full(_handle):
    raise OSError(28, "No space left on device")


@pytest.mark.parametrize("verb", ["undo", "redo"])
def test_where_it_cannot_be_saved_nothing_is_taken_back_or_done_again(bench, store, verb):
    bench.step_pin(1)
    if verb == "redo":
        bench.undo()
    shown, kept, can = depths(bench), on_disk(store), (bench.can_undo, bench.can_redo)
    with pytest.MonkeyPatch.context() as patched:
        patched.setattr(os, "fsync", full)
        getattr(bench, verb)()
    assert "No space left" in bench.trouble
    assert (depths(bench), on_disk(store), (bench.can_undo, bench.can_redo)) == (shown, kept, can)
    getattr(bench, verb)()
    assert depths(bench) != shown


def test_a_deleted_client_is_gone_and_the_next_one_is_on_the_bench(two_clients, put_on):
    bench = put_on(two_clients)
    bench.step_pin(1)
    bench.delete_client(DEMO["client"]["id"])
    assert bench.client_id == OTHER_ID
    assert [row.id for row in two_clients.clients()] == [OTHER_ID]
    assert not bench.can_undo
    assert bench.trouble == ""


def test_deleting_a_client_leaves_what_was_done_to_others(two_clients, put_on):
    bench = put_on(two_clients)
    bench.step_pin(1)
    bench.open_client(OTHER_ID)
    bench.step_pin(1)
    bench.delete_client(OTHER_ID)
    assert bench.client_id == DEMO["client"]["id"]
    assert bench.can_undo
    bench.undo()
    assert on_disk(two_clients) == two_of_each()
    assert not bench.can_undo


def test_deleting_another_client_leaves_the_open_one(two_clients, put_on):
    bench = put_on(two_clients)
    bench.delete_client(OTHER_ID)
    assert bench.client_id == DEMO["client"]["id"]
    assert [row.id for row in two_clients.clients()] == [DEMO["client"]["id"]]


def test_after_the_last_client_nothing_of_her_is_shown(bench):
    bench.delete_client(DEMO["client"]["id"])
    assert bench.is_empty
    assert (bench.title_line, bench.garment_name, list(bench.pins)) == ("", "", [])
    assert bench.empty_words == "There is no client here yet"


def test_a_client_who_cannot_be_deleted_stays(bench, store, monkeypatch):
    from core.store import arrivals

    monkeypatch.setattr(arrivals, "replace_file", lambda *_: full(None))
    bench.delete_client(DEMO["client"]["id"])
    assert "No space left" in bench.trouble
    assert bench.garment_name == "Moss green wool sheath"
    assert on_disk(store) == two_of_each()


def test_deleting_a_client_who_is_gone_is_told(bench):
    bench.delete_client("nobody")
    assert "not here any more" in bench.trouble
    assert bench.garment_name == "Moss green wool sheath"


def test_a_client_who_is_gone_is_told_and_the_open_one_stays(bench):
    bench.open_client("nobody")
    assert "not here any more" in bench.trouble
    assert bench.garment_name == "Moss green wool sheath"


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
        bench = put_on(store)
        assert "look over the last changes" in bench.trouble
        assert bench.garment_name == "Moss green wool sheath"


def test_a_damaged_client_does_not_stand_in_the_way_of_the_others(tmp_path, put_on):
    folders.fill(tmp_path, DEMO, another())
    (tmp_path / "clients" / DEMO["client"]["id"] / "client.json").write_text("{")
    with Store(tmp_path) as store:
        bench = put_on(store)
        assert bench.client_id == OTHER_ID
        bench.open_client(DEMO["client"]["id"])
        assert "cannot be read" in bench.trouble
        assert bench.client_id == OTHER_ID


def test_without_a_store_nothing_can_be_done(store, put_on):
    bench = put_on(store)
    bench.step_pin(1)
    bench.put_away()
    assert (bench.is_empty, bench.title_line, bench.can_undo) == (True, "", False)
    kept = on_disk(store)
    bench.undo()
    bench.step_pin(1)
    assert bench.trouble != ""
    assert on_disk(store) == kept
