"""What is on the bench: a client, one of her garments, one of its fittings, and undo."""

import copy
import json

import pytest

from core.resources import RESOURCES
from core.store.clients import Store

DEMO = json.loads((RESOURCES / "demo" / "moss_green_sheath.json").read_text(encoding="utf-8"))
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
    store = Store(tmp_path)
    store.save(two_of_each())
    return store


@pytest.fixture
def bench(store):
    from screens.bench import Bench

    return Bench(store)


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
    kept, before = store.read(DEMO["client"]["id"]), two_of_each()
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
    assert store.read(DEMO["client"]["id"]) == two_of_each()


def test_undo_takes_the_pin_in_hand_that_it_changes_back(bench):
    bench.take_pin(1)
    bench.step_pin(1)
    bench.take_pin(0)
    bench.undo()
    assert (bench.pin.index, bench.pin.depth) == (1, "1/4")


def test_undo_with_nothing_to_undo_does_nothing(bench):
    bench.undo()
    assert bench.trouble == ""


def test_opening_another_client_forgets_what_could_be_undone(bench, store):
    other = copy.deepcopy(DEMO)
    other["client"] = {"id": SECOND, "name": "Zenobia Larkspur"}
    store.save(other)
    bench.step_pin(1)
    bench.open_client(SECOND)
    assert not bench.can_undo
    assert bench.title_line.startswith("Zenobia Larkspur")


def test_a_client_who_is_gone_is_told_and_the_open_one_stays(bench):
    bench.open_client("nobody")
    assert "not here any more" in bench.trouble
    assert bench.garment_name == "Moss green wool sheath"


def test_worn_inside_out_is_said(store, window):
    from screens.bench import Bench

    document = copy.deepcopy(DEMO)
    document["garments"][0]["fittings"][0]["worn"]["inside_out"] = True
    store.save(document)
    assert "worn inside out" in Bench(store).title_line


def test_a_copy_taken_for_a_spoilt_file_is_told(store, tmp_path, window):
    from screens.bench import Bench

    store.save(two_of_each())
    next((tmp_path / "clients").glob("*.json")).write_text("{")
    bench = Bench(Store(tmp_path))
    assert "look over the last change" in bench.trouble
    assert bench.garment_name == "Moss green wool sheath"
