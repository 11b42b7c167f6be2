"""Looking over everything that is kept: all that is wrong is said, and nothing is changed."""

from pathlib import Path

import pytest

from core.store.checks import check
from core.store.clients import Store
from core.store.passcode import set_passcode
from tests.core.test_carrying import (
    DEMO,
    OTTOLINE,
    PASSCODE,
    everything_in,
    other,
    picture,
    with_photo,
)


@pytest.fixture(params=[None, PASSCODE], ids=["plain", "sealed"])
def store(request: pytest.FixtureRequest, tmp_path: Path) -> Store:
    with Store(tmp_path / "store") as store:
        with_photo(store)
        store.save(other("Wilhelmina Oatcake", "w"))
        if request.param:
            set_passcode(store, request.param)
        store.save({**store.read(OTTOLINE), "note": "so that there is an older file"})
    return Store(tmp_path / "store", request.param)


def shelf(store: Store):  # type: ignore[no-untyped-def]
    return store.file(OTTOLINE).shelf


def photo(store: Store) -> str:
    return str(store.read(OTTOLINE)["garments"][0]["fittings"][0]["photos"][0]["file"])


def looked_over(store: Store) -> str:
    before = everything_in(store.root)
    found = check(store)
    assert everything_in(store.root) == before
    return "\n".join(found.troubles)


def test_where_all_is_well_everything_was_read_and_nothing_is_said(store: Store) -> None:
    found = check(store)
    assert (found.clients, found.photos, found.troubles) == (2, 1, ())


def test_a_spoilt_file_is_said_though_an_older_one_is_good(store: Store) -> None:
    path = shelf(store).path("client.json")
    path.write_bytes(path.read_bytes()[:-40])
    assert "client.json cannot be read" in looked_over(store)


def test_a_spoilt_older_file_is_said_too(store: Store) -> None:
    shelf(store).path("client.1.json").write_bytes(b"spoilt")
    assert "client.1.json cannot be read" in looked_over(store)


def test_a_missing_photo_is_said(store: Store) -> None:
    shelf(store).path(photo(store)).unlink()
    assert f"{photo(store)} is missing" in looked_over(store)


def test_a_photo_that_is_not_what_its_name_says_is_said(store: Store) -> None:
    shelf(store).write(photo(store), picture("red").content)
    assert "is not the photo that its name says" in looked_over(store)


def test_a_photo_with_one_byte_changed_is_said(store: Store) -> None:
    path = shelf(store).path(photo(store))
    content = bytearray(path.read_bytes())
    content[len(content) // 2] ^= 1
    path.write_bytes(content)
    assert photo(store) in looked_over(store)


def test_what_belongs_to_nothing_is_said(store: Store) -> None:
    (shelf(store).folder / "left over").write_bytes(b"?")
    assert "belongs to nothing" in looked_over(store)


def test_what_cannot_be_used_is_said_by_its_field(store: Store) -> None:
    store.save({**DEMO, "unit": "ell", "client": {"id": "e", "name": "Euphemia Garnett"}})
    assert "unit" in looked_over(store)
    assert "Euphemia" in looked_over(store)
