"""Every part of a client is a record: its own id for ever, a revision for each change."""

import re
from collections.abc import Callable, Iterator
from copy import deepcopy
from pathlib import Path
from typing import Any
from uuid import UUID

import pytest

from core.store.clients import Store
from core.store.records import unstamped
from tests.core.store.invented import (
    WILHELMINA,
    Clock,
    Document,
    client,
    save_with_photo,
    with_note,
)

Stamps = dict[str, tuple[str, int, str]]
OWN_ID = "22220000-0000-4000-8000-000000000001"


@pytest.fixture
def store(tmp_path: Path) -> Iterator[Store]:
    with Store(tmp_path, now=Clock()) as store:
        yield store


@pytest.fixture
def saved(store: Store) -> Document:
    """Return a client with two garments, three fittings and a photo, as she was saved."""
    document = client("first")
    (gown,) = document["garments"]
    gown["fittings"].append({"id": "second", "on": "2026-03-09"})
    document["garments"].append({"id": "coat", "name": "Coat", "fittings": [{"id": "only"}]})
    save_with_photo(store, document)
    return store.read(WILHELMINA)


def stamps(document: Document) -> Stamps:
    """Return id, revision and time of each record, by where it stands in the document."""
    found = {}

    def look(where: str, data: Any) -> None:
        if isinstance(data, dict):
            if "revision" in data and not where.startswith("removed"):
                found[where] = (data["uuid"], data["revision"], data["changed"])
            for key, value in data.items():
                look(f"{where}.{key}".strip("."), value)
        elif isinstance(data, list):
            for number, entry in enumerate(data):
                look(f"{where}[{number}]", entry)

    look("", document)
    return found


FITTING = "garments[0].fittings[0]"
PLACES = {
    "client", "measurements[0]", "garments[0]", "garments[1]", FITTING, f"{FITTING}.photos[0]",
    "garments[0].fittings[1]", "garments[1].fittings[0]",
}  # fmt: skip


def test_every_part_has_an_id_of_its_own_a_revision_and_a_time(saved: Document) -> None:
    found = stamps(saved)
    assert set(found) == PLACES
    assert len({uuid for uuid, _, _ in found.values()}) == len(PLACES)
    for uuid, revision, changed in found.values():
        assert str(UUID(uuid)) == uuid
        assert revision >= 1
        assert re.fullmatch(r"2026-03-02T\d\d:\d\d:\d\d\.\d{3}\+00:00", changed)
    assert found["client"][0] == WILHELMINA


def changed_places(before: Document, after: Document) -> set[str]:
    """Return where a revision is exactly one further, having checked that all else is as it was."""
    old, new = stamps(before), stamps(after)
    assert old.keys() == new.keys()
    places = {place for place in old if old[place] != new[place]}
    for place in places:
        assert new[place][0] == old[place][0]
        assert new[place][1] == old[place][1] + 1
        assert new[place][2] > old[place][2]
    return places


def _in_photo(document: Document) -> None:
    document["garments"][0]["fittings"][0]["photos"][0]["view"] = "back"


CHANGES: dict[str, Callable[[Document], Any]] = {
    "client": lambda document: document["client"].update(notes="new"),
    "measurements[0]": lambda document: document["measurements"][0]["values"].update(hip="40"),
    "garments[0]": lambda document: document["garments"][0].update(name="Blue gown"),
    "garments[1]": lambda document: document["garments"][1].pop("name"),
    FITTING: lambda document: document["garments"][0]["fittings"][0]["pins"].append({}),
    f"{FITTING}.photos[0]": _in_photo,
}


@pytest.mark.parametrize("place", CHANGES)
def test_a_change_raises_the_revision_of_the_record_it_is_in_and_of_no_other(
    store: Store, saved: Document, place: str
) -> None:
    document = deepcopy(saved)
    CHANGES[place](document)
    assert changed_places(saved, store.save(document)) == {place}


def test_saving_without_a_change_raises_nothing(store: Store, saved: Document) -> None:
    assert store.save(deepcopy(saved)) == saved


def test_the_stamps_are_the_same_after_a_restart(tmp_path: Path) -> None:
    with Store(tmp_path) as store:
        saved = store.save(client())
    with Store(tmp_path) as store:
        assert store.read(WILHELMINA) == saved


def test_taking_a_change_back_is_a_change_too(store: Store, saved: Document) -> None:
    changed = store.save(with_note(saved, "changed"))
    back = store.save(with_note(changed, "first"))
    again = store.save(saved)  # an older document, with its older stamps
    assert changed_places(changed, back) == {FITTING}
    assert again == back
    assert stamps(again)[FITTING][1] == stamps(saved)[FITTING][1] + 2


def test_a_new_part_changes_the_part_that_holds_it(store: Store, saved: Document) -> None:
    document = deepcopy(saved)
    document["garments"][1]["fittings"].append({"id": "new"})
    after = store.save(document)
    new = stamps(after).pop("garments[1].fittings[1]")
    assert new[1] == 1
    del after["garments"][1]["fittings"][1]
    assert changed_places(saved, after) == {"garments[1]"}


def test_what_is_taken_away_leaves_its_id_and_nothing_else(store: Store, saved: Document) -> None:
    document = deepcopy(saved)
    fitting = document["garments"][0]["fittings"].pop(0)
    after = store.save(document)
    clock = after["garments"][0]["changed"]
    gone = [fitting, *fitting["photos"]]
    assert after["removed"] == [
        {"kind": kind, "uuid": part["uuid"], "revision": part["revision"] + 1, "changed": clock}
        for kind, part in zip(("fitting", "photo"), gone, strict=True)
    ]
    assert store.save(deepcopy(after)) == after


def test_nothing_taken_away_stays_in_the_file(tmp_path: Path) -> None:
    with Store(tmp_path) as store:
        document = store.save(client("a secret"))
        document["garments"].clear()
        store.save(document)
    content = (tmp_path / "clients" / WILHELMINA / "client.json").read_bytes()
    assert b"a secret" not in content
    assert b"Silk gown" not in content


def test_what_was_taken_away_is_the_same_record_when_it_is_put_back(
    store: Store, saved: Document
) -> None:
    document = deepcopy(saved)
    del document["garments"][0]["fittings"][0]
    store.save(document)
    back = store.save(saved)
    assert unstamped(back) == unstamped(saved)
    assert "removed" not in back
    before, after = stamps(saved), stamps(back)
    for place in (FITTING, f"{FITTING}.photos[0]", "garments[0]"):
        assert after[place][0] == before[place][0]
        assert after[place][1] == before[place][1] + 2
    assert after["garments[1]"] == before["garments[1]"]


def test_a_part_moved_elsewhere_stays_the_record_it_is(store: Store, saved: Document) -> None:
    document = deepcopy(saved)
    fitting = document["garments"][0]["fittings"].pop(0)
    document["garments"][1]["fittings"].append(fitting)
    after = stamps(store.save(document))
    assert after["garments[1].fittings[1]"] == stamps(saved)[FITTING]


def test_of_two_parts_with_one_id_the_second_is_a_new_record(store: Store, saved: Document) -> None:
    document = deepcopy(saved)
    fitting = document["garments"][0]["fittings"][0]
    document["garments"][0]["fittings"].append({**fitting, "id": "copy"})
    after = stamps(store.save(document))
    assert after[FITTING] == stamps(saved)[FITTING]
    copy = after["garments[0].fittings[2]"]
    assert copy[0] != after[FITTING][0]
    assert copy[1] == 1
    assert after["garments[0].fittings[2].photos[0]"][0] != after[f"{FITTING}.photos[0]"][0]


def test_the_client_stays_one_record_whatever_the_document_says(store: Store) -> None:
    first = store.save(client(client_id="no uuid"))["client"]
    for wrong in ({}, {"uuid": "nonsense"}, {"uuid": OWN_ID}):
        document = client(client_id="no uuid")
        document["client"].update(wrong)
        saved = store.save(document)
        assert saved["client"]["uuid"] == first["uuid"]
        assert "client" not in {gone["kind"] for gone in saved.get("removed", ())}
