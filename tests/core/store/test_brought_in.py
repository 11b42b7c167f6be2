"""What a document from elsewhere says of its records: believed of a new one, if it can be."""

from pathlib import Path
from typing import Any

import pytest

from core.store.clients import Store
from core.store.records import PARTS, unstamped
from tests.core.store.invented import WILHELMINA, Clock, client, kept

OWN_ID = "22220000-0000-4000-8000-000000000001"
GONE_ID = "22220000-0000-4000-8000-000000000002"
THEN = "2025-12-24T08:00:00.000+00:00"
STAMP = {"uuid": OWN_ID, "revision": 7, "changed": THEN}
GONE = {"kind": "photo", "uuid": GONE_ID, "revision": 3, "changed": THEN}


def brought(folder: Path, stamp: dict[str, Any], **more: Any) -> dict[str, Any]:
    """Save a new client whose garment has a stamp of its own; return the document as kept."""
    document = client(**more)
    document["garments"][0].update(stamp)
    with Store(folder, now=Clock()) as store:
        return store.save(document)


def test_the_records_of_a_new_client_keep_their_ids_revisions_and_times(tmp_path: Path) -> None:
    saved = brought(tmp_path, STAMP, removed=[GONE])
    assert {key: saved["garments"][0][key] for key in STAMP} == STAMP
    assert saved["removed"] == [GONE]
    assert saved["client"]["uuid"] == WILHELMINA


def test_what_is_said_of_a_record_that_is_here_already_does_not_count(tmp_path: Path) -> None:
    with Store(tmp_path, now=Clock()) as store:
        saved = store.save(client())
        told = {**saved["garments"][0], "revision": 99, "changed": "2099-01-01T00:00:00+00:00"}
        same = store.save({**saved, "garments": [told], "removed": [GONE]})
        assert same == saved
        changed = store.save({**saved, "garments": [{**told, "name": "Other"}]})
        assert changed["garments"][0]["revision"] == saved["garments"][0]["revision"] + 1
        assert changed["garments"][0]["changed"] < "2026-03-03"


@pytest.mark.parametrize(
    "wrong",
    [
        {"revision": 0}, {"revision": -1}, {"revision": True}, {"revision": "7"},
        {"revision": 7.0}, {"revision": None}, {"changed": 7}, {"changed": ""},
        {"changed": "yesterday"}, {"changed": "2025-12-24"}, {"changed": None},
        {"changed": "2025-12-24T08:00:00"}, {"changed": []},
    ],
)  # fmt: skip
def test_a_stamp_that_cannot_be_right_is_made_anew(tmp_path: Path, wrong: dict[str, Any]) -> None:
    garment = brought(tmp_path, {**STAMP, **wrong})["garments"][0]
    assert garment["uuid"] == OWN_ID
    assert garment["revision"] == 1
    assert garment["changed"].startswith("2026-03-02T")


@pytest.mark.parametrize(
    "wrong", ["", "7", 7, None, [], {}, OWN_ID.replace("2222", "abcd").upper(), f"{{{OWN_ID}}}",
              OWN_ID.replace("-", ""), f" {OWN_ID}", WILHELMINA],
)  # fmt: skip
def test_an_id_that_is_none_or_another_s_is_made_anew(tmp_path: Path, wrong: Any) -> None:
    garment = brought(tmp_path, {**STAMP, "uuid": wrong})["garments"][0]
    assert garment["uuid"] != wrong
    assert garment["revision"] == 1


@pytest.mark.parametrize(
    "wrong", ["", "text", 7, {}, [7], [None], [[]], [{}], [{**GONE, "kind": []}],
              [{**GONE, "kind": "client"}], [{**GONE, "kind": "seam"}], [{**GONE, "uuid": "x"}],
              [{**GONE, "uuid": None}], [{**GONE, "revision": True}], [{**GONE, "revision": 0}],
              [{**GONE, "changed": "x"}]],
)  # fmt: skip
def test_nonsense_about_what_was_taken_away_is_left_out(tmp_path: Path, wrong: Any) -> None:
    assert "removed" not in brought(tmp_path, STAMP, removed=wrong)
    assert kept(tmp_path) == client()


def test_what_is_said_to_be_gone_and_is_there_is_there(tmp_path: Path) -> None:
    saved = brought(tmp_path, STAMP, removed=[{**GONE, "kind": "garment", "uuid": OWN_ID}])
    assert saved["garments"][0]["uuid"] == OWN_ID
    assert saved["garments"][0]["revision"] == 4  # after the third, when it was gone
    assert "removed" not in saved


@pytest.mark.parametrize("name", ["photos", "fittings", "garments", "measurements"])
@pytest.mark.parametrize(
    "wrong",
    [WILHELMINA, 7, None, {}, "", [WILHELMINA], [OWN_ID], ["text", 7], [{"id": "x"}, "text"],
     [[{}]]],
)  # fmt: skip
def test_a_list_of_parts_that_is_none_is_kept_as_it_came(
    tmp_path: Path, name: str, wrong: Any
) -> None:
    document = client()
    holder = document
    if name in ("photos", "fittings"):
        holder = document["garments"][0]
        holder.update(STAMP)
    if name == "photos":
        holder = holder["fittings"][0]
    holder[name] = wrong
    plain = unstamped(document)
    with Store(tmp_path) as store:
        store.save(document)
        store.save(store.read(WILHELMINA))
        (row,) = store.clients()
        assert not row.damaged
    assert kept(tmp_path) == plain


def test_every_kind_of_part_has_a_place_in_another() -> None:
    held = {part for parts in PARTS.values() for part in parts.values()}
    assert held == PARTS.keys() - {"client"}
