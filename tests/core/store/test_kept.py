"""What she records is there again after a restart, and hers to change."""

from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from core.errors import NotFound
from core.store.clients import Store
from core.store.disk import NotSaved
from core.store.records import unstamped
from tests.core.store.invented import (
    BEATRIX,
    WILHELMINA,
    client,
    everything_in,
    kept,
    kept_note,
    note_of,
    other,
    with_note,
)


@pytest.fixture
def store(tmp_path: Path) -> Iterator[Store]:
    with Store(tmp_path / "store") as store:
        yield store


def test_a_client_is_as_she_was_saved_after_a_restart(tmp_path: Path) -> None:
    with Store(tmp_path) as store:
        store.save(client("36 ½, ⅝ and “so”"))
    assert kept(tmp_path) == client("36 ½, ⅝ and “so”")


def test_a_field_taken_away_stays_away(tmp_path: Path) -> None:
    with Store(tmp_path) as store:
        document = store.save(client("first", extra={"kept": "no"}))
        del document["extra"]
        del document["garments"][0]["fittings"][0]["pins"]
        store.save(document)
    found = kept(tmp_path)
    assert "extra" not in found
    assert "pins" not in found["garments"][0]["fittings"][0]


def test_a_field_the_program_does_not_know_is_kept(tmp_path: Path) -> None:
    unknown = {"deep": [{"list": [1, 1.0, True, None, "1"]}]}
    with Store(tmp_path) as store:
        store.save(client(another=unknown))
    assert repr(kept(tmp_path)["another"]) == repr(unknown)


@pytest.mark.parametrize(("before", "after"), [(1, True), (1, 1.0), (0, False), (True, 1)])
def test_a_change_that_is_equal_to_python_only_is_saved(
    tmp_path: Path, before: Any, after: Any
) -> None:
    with Store(tmp_path) as store:
        document = store.save(client(number=before))
        document["number"] = after
        store.save(document)
    assert repr(kept(tmp_path)["number"]) == repr(after)


def test_what_was_handed_out_can_be_changed_without_changing_what_is_kept(store: Store) -> None:
    given = client("kept")
    saved = store.save(given)
    for document in (given, saved, store.read(WILHELMINA)):
        document["garments"][0]["fittings"][0]["note"] = "changed"
        document["garments"].clear()
    assert unstamped(store.read(WILHELMINA)) == client("kept")


def test_what_is_saved_is_given_back_as_it_will_be_read(store: Store) -> None:
    assert store.save(client("one")) == store.read(WILHELMINA)


def test_clients_do_not_get_into_each_other(tmp_path: Path) -> None:
    with Store(tmp_path) as store:
        store.save(client("hers"))
        store.save(other("the other's"))
        store.save(with_note(store.read(WILHELMINA), "hers again"))
    assert kept_note(tmp_path) == "hers again"
    assert kept_note(tmp_path, BEATRIX) == "the other's"


def test_a_new_folder_has_no_clients_and_knows_that_it_is_new(tmp_path: Path) -> None:
    with Store(tmp_path / "not" / "there") as store:
        assert store.first_start
        assert store.clients() == ()
        assert not store.has(WILHELMINA)


def test_looking_into_a_new_folder_leaves_it_new(tmp_path: Path) -> None:
    with Store(tmp_path) as store, pytest.raises(NotFound):
        store.read(WILHELMINA)
    with Store(tmp_path) as store:
        assert store.first_start


def test_a_folder_with_clients_is_not_new(tmp_path: Path) -> None:
    with Store(tmp_path) as store:
        store.save(client())
        assert not store.first_start
    with Store(tmp_path) as store:
        assert not store.first_start


def test_the_demo_client_is_put_in_and_says_that_she_is_invented(tmp_path: Path) -> None:
    with Store(tmp_path) as store:
        demo = store.put_in_demo()
        assert "(demo, invented)" in store.read(demo)["client"]["name"]
    with Store(tmp_path) as store:
        assert not store.first_start
        assert [row.id for row in store.clients()] == [demo]


@pytest.mark.parametrize(
    "client_id", ["../../out", "/out", "a/b", "..", "", "folder:../../out", "Ottoline ½", "x" * 300]
)
def test_any_id_stays_in_the_folder(tmp_path: Path, client_id: str) -> None:
    inside = tmp_path / "within" / "data"
    with Store(inside) as store:
        store.save(client("found", client_id=client_id))
    assert kept_note(inside, client_id) == "found"
    outside = [path for path in tmp_path.rglob("*") if inside not in (path, *path.parents)]
    assert outside == [tmp_path / "within"]


def test_an_id_that_names_another_clients_folder_is_not_taken_for_her(store: Store) -> None:
    store.save(client("hers"))
    store.save(client("strange", client_id=f"folder:{WILHELMINA}"))
    assert note_of(store.read(WILHELMINA)) == "hers"
    assert note_of(store.read(f"folder:{WILHELMINA}")) == "strange"


def test_a_client_who_is_not_there_is_told_in_words(store: Store) -> None:
    with pytest.raises(NotFound, match="not here any more"):
        store.read("nobody")


@pytest.mark.parametrize("wrong", [float("nan"), float("inf"), {1, 2}, b"bytes", "\ud800", object])
def test_what_cannot_be_written_is_refused_and_the_old_stays(tmp_path: Path, wrong: Any) -> None:
    with Store(tmp_path) as store:
        good = store.save(client("good"))
        before = everything_in(tmp_path)
        for place in (client(bust=wrong), {**good, "bust": wrong}):
            with pytest.raises(NotSaved, match="is safe"):
                store.save(place)
        assert everything_in(tmp_path) == before
        assert store.read(WILHELMINA) == good
        store.save(with_note(good, "better"))
    assert kept_note(tmp_path) == "better"


def test_a_file_is_read_from_the_disk_once(tmp_path: Path) -> None:
    with Store(tmp_path) as store:
        store.save(client("held"))
    with Store(tmp_path) as store:
        store.read(WILHELMINA)
        (tmp_path / "clients" / WILHELMINA / "client.json").unlink()
        assert note_of(store.read(WILHELMINA)) == "held"


def test_a_closed_store_takes_nothing_more(store: Store) -> None:
    store.save(client("safe"))
    store.close()
    store.close()
    for act in (lambda: store.save(client("lost")), lambda: store.read(WILHELMINA)):
        with pytest.raises(RuntimeError, match="closed"):
            act()
