"""A client's photos: kept with her consent, as long as anything names them."""

from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from core.errors import NotFound
from core.store.clients import Store
from core.store.photo_names import PHOTOS, THUMBNAILS, named_in, thumbnail_of_name
from core.store.photos import NoConsent, add_photo, read_photo, read_thumbnail
from tests.core.store.invented import (
    BEATRIX,
    WILHELMINA,
    client,
    current,
    everything_in,
    home,
    other,
    photo,
    save_with_photo,
    with_note,
)


@pytest.fixture
def store(tmp_path: Path) -> Iterator[Store]:
    with Store(tmp_path) as store:
        yield store


def on_disk(folder: Path, client_id: str = WILHELMINA) -> set[str]:
    paths = [path for part in (PHOTOS, THUMBNAILS) for path in (home(folder, client_id) / part)
             .glob("*")]  # fmt: skip
    return {f"{path.parent.name}/{path.name}" for path in paths}


def without_photos(store: Store) -> dict[str, Any]:
    document = store.read(WILHELMINA)
    document["garments"][0]["fittings"][0]["photos"] = []
    return store.save(document)


def test_a_photo_and_its_thumbnail_are_there_after_a_restart(tmp_path: Path) -> None:
    with Store(tmp_path) as store:
        name = save_with_photo(store, client())
    assert name == f"photos/{photo().name}"
    with Store(tmp_path) as store:
        assert read_photo(store, WILHELMINA, name) == photo().content
        assert read_thumbnail(store, WILHELMINA, name) == photo().thumbnail


@pytest.mark.parametrize("consent", [None, "", False, "missing"])
def test_no_photo_is_kept_without_her_consent(
    store: Store, tmp_path: Path, consent: object
) -> None:
    document = client()
    document["client"]["photo_consent"] = consent
    if consent == "missing":
        del document["client"]["photo_consent"]
    store.save(document)
    with pytest.raises(NoConsent, match=r"none is kept\. Ask her first"):
        add_photo(store, WILHELMINA, photo())
    assert on_disk(tmp_path) == set()


def test_a_photo_is_on_the_disk_before_anything_names_it(store: Store, tmp_path: Path) -> None:
    store.save(client())
    name = add_photo(store, WILHELMINA, photo())
    assert (home(tmp_path) / name).read_bytes() == photo().content
    assert add_photo(store, WILHELMINA, photo()) == name  # the same once more is no other


def test_a_photo_taken_out_can_be_put_back_until_the_program_is_closed(tmp_path: Path) -> None:
    with Store(tmp_path) as store:
        name = save_with_photo(store, client())
        before = store.read(WILHELMINA)
        without_photos(store)
        assert read_photo(store, WILHELMINA, name)
        store.save(before)
    with Store(tmp_path) as store:
        assert read_photo(store, WILHELMINA, name)
        without_photos(store)
    assert on_disk(tmp_path) == set()


def test_a_photo_nothing_names_is_deleted_when_she_is_opened_next(tmp_path: Path) -> None:
    store = Store(tmp_path)
    kept = save_with_photo(store, client())
    add_photo(store, WILHELMINA, photo("crimson"))
    save_with_photo(store, other())
    del store  # the tablet died: nothing was closed
    assert len(on_disk(tmp_path)) == 4
    with Store(tmp_path) as store:
        store.read(WILHELMINA)
    assert on_disk(tmp_path) == {kept, kept.replace(PHOTOS, THUMBNAILS)}
    assert len(on_disk(tmp_path, BEATRIX)) == 2


def test_no_photo_is_deleted_where_an_older_file_had_to_be_taken(tmp_path: Path) -> None:
    with Store(tmp_path) as store:
        save_with_photo(store, client())  # the save before it names none
    current(tmp_path).write_bytes(b"spoilt")
    with Store(tmp_path) as store:
        assert list(named_in(store.read(WILHELMINA))) == []
        assert store.recovered(WILHELMINA)
    assert len(on_disk(tmp_path)) == 2


def test_a_photo_that_is_gone_is_told_and_the_client_opens_all_the_same(store: Store) -> None:
    name = save_with_photo(store, client())
    for path in (home(store.root) / PHOTOS).iterdir():
        path.unlink()
    with pytest.raises(NotFound, match="photo is not here any more"):
        read_photo(store, WILHELMINA, name)
    assert store.read(WILHELMINA)


@pytest.mark.parametrize(
    "name",
    [f"../{BEATRIX}/client.json", f"photos/../../{BEATRIX}/client.json", "client.json", "photos/",
     "photos", "", "/etc/hostname", f"photos/../../{BEATRIX}/photos/{photo().name}",
     f"photos\\..\\..\\{BEATRIX}\\client.json"],
)  # fmt: skip
def test_a_photo_s_name_leads_to_nothing_else(tmp_path: Path, name: str) -> None:
    with Store(tmp_path) as store:
        save_with_photo(store, other())
        document = client()
        document["garments"][0]["fittings"][0]["photos"] = [{"file": name}]
        store.save(document)
        before = everything_in(home(tmp_path, BEATRIX))
        for read in (read_photo, read_thumbnail):
            with pytest.raises(NotFound):
                read(store, WILHELMINA, name)
        assert list(named_in(document)) == []
    with Store(tmp_path) as store:
        store.read(WILHELMINA)
    assert everything_in(home(tmp_path, BEATRIX)) == before


@pytest.mark.parametrize(
    "photos", [None, "x", 7, {}, ["x"], [None], [[]], [{}], [{"file": 7}], [{"file": None}]]
)
def test_a_list_of_photos_that_is_none_stops_nothing(tmp_path: Path, photos: object) -> None:
    with Store(tmp_path) as store:
        document = client()
        document["garments"][0]["fittings"][0]["photos"] = photos
        store.save(document)
    with Store(tmp_path) as store:
        store.save(with_note(store.read(WILHELMINA), "more"))
        assert list(named_in(store.read(WILHELMINA))) == []


def test_a_lost_or_damaged_thumbnail_is_made_again(store: Store) -> None:
    name = save_with_photo(store, client())
    shelf = store.file(WILHELMINA).shelf
    shelf.drop(thumbnail_of_name(name))
    assert read_thumbnail(store, WILHELMINA, name) == photo().thumbnail


def test_photos_of_a_spoilt_file_stay_while_it_is_kept_aside(tmp_path: Path) -> None:
    with Store(tmp_path) as store:
        store.save(client("before"))
        name = save_with_photo(store, client())
    path = home(tmp_path) / "client.json"
    path.write_bytes(path.read_bytes()[:-9])
    for _ in range(3):
        with Store(tmp_path) as store:
            assert not list(named_in(store.read(WILHELMINA)))
    assert (home(tmp_path) / name).exists()
