"""A deleted client is gone from the disk, every byte of her, and nobody else is touched."""

import os
import shutil
from collections.abc import Iterator
from pathlib import Path

import pytest

from core.errors import NotFound
from core.store import arrivals
from core.store.arrivals import NotAllGone
from core.store.clients import Store
from core.store.passcode import set_passcode
from core.store.stands import FILES
from tests.core.store.invented import (
    BEATRIX,
    BUST,
    NAME,
    OTHER_NAME,
    PASSCODE,
    WILHELMINA,
    client,
    current,
    everything_in,
    home,
    other,
    photo,
    save_with_photo,
    where_found,
    with_note,
)
from tests.core.store.steps import failing_at, steps_of

SECRET = "afraid of pins"


@pytest.fixture
def workroom(tmp_path: Path) -> Iterator[Store]:
    """Give a store where she left traces everywhere: older files, spoilt ones, photos, the list."""
    folder = tmp_path / "workroom"
    with Store(folder) as store:
        save_with_photo(store, client(SECRET))
        save_with_photo(store, other("stays"))
    current(folder).write_bytes(b"spoilt " + NAME.encode())
    with Store(folder) as store:
        store.save(with_note(store.read(WILHELMINA), SECRET + " again"))
        current(folder).write_bytes(current(folder).read_bytes() + b" ")  # another hand
        store.save(with_note(store.read(WILHELMINA), SECRET))
        store.clients()
        store.rest()
        names = {path.name for path in home(folder).iterdir()}
        assert {"client.1.json", "client.spoilt-1.json", "client.other-1.json", "photos"} <= names
        assert where_found(folder, NAME)
        yield store


def others_in(folder: Path) -> dict[str, bytes]:
    files = everything_in(folder)
    return {path: content for path, content in files.items() if BEATRIX in path or path in FILES}


def test_nothing_of_her_is_left_and_everything_of_the_others(workroom: Store) -> None:
    before = others_in(workroom.root)
    workroom.delete(WILHELMINA)
    for text in (NAME, WILHELMINA, SECRET):
        assert where_found(workroom.root, text) == []
    assert others_in(workroom.root) == before
    assert [row.id for row in workroom.clients()] == [BEATRIX]
    assert workroom.search("wilh") == ()
    with pytest.raises(NotFound):
        workroom.read(WILHELMINA)
    workroom.close()
    assert where_found(workroom.root, NAME) == []
    assert where_found(workroom.root, OTHER_NAME)


def test_nor_where_the_list_was_never_looked_at(workroom: Store) -> None:
    workroom.close()
    with Store(workroom.root) as store:
        store.delete(WILHELMINA)
        assert where_found(workroom.root, NAME) == []
    assert where_found(workroom.root, NAME) == []
    with Store(workroom.root) as store:
        assert [row.id for row in store.clients()] == [BEATRIX]


@pytest.mark.usefixtures("quick_passcode")
def test_nor_in_a_sealed_store(workroom: Store) -> None:
    set_passcode(workroom, PASSCODE)
    folder = workroom.folder_of(WILHELMINA)
    assert where_found(workroom.root, folder)
    workroom.delete(WILHELMINA)
    assert where_found(workroom.root, folder) == []
    assert len(list((workroom.root / "clients").iterdir())) == 1
    workroom.close()
    with Store(workroom.root, PASSCODE) as store:
        assert [row.id for row in store.clients()] == [BEATRIX]


def test_her_name_is_off_the_disk_before_she_goes(workroom: Store) -> None:
    steps = steps_of(lambda: workroom.delete(WILHELMINA))
    names = [(step.what, step.path.name) for step in steps]
    unlisted, goes = names.index(("unlink", "index.json")), names.index(("replace", WILHELMINA))
    assert ("fsync", workroom.root.name) in names[unlisted:goes]


def test_a_folder_deleted_by_hand_leaves_the_list_too(workroom: Store) -> None:
    workroom.close()
    shutil.rmtree(home(workroom.root))
    with Store(workroom.root) as store:
        assert [row.id for row in store.clients()] == [BEATRIX]
    assert where_found(workroom.root, NAME) == []


def test_a_deleted_client_brought_back_is_a_new_one(workroom: Store) -> None:
    workroom.delete(WILHELMINA)
    back = workroom.save(client("new"))
    assert back["client"]["revision"] == 1
    assert "removed" not in back
    assert not (home(workroom.root) / "client.1.json").exists()


def test_deleting_someone_who_is_not_there_is_said_and_changes_nothing(workroom: Store) -> None:
    before = others_in(workroom.root)
    with pytest.raises(NotFound, match="not here any more"):
        workroom.delete("nobody")
    with pytest.raises(NotFound, match="not here any more"):
        workroom.delete("../../" + BEATRIX)
    assert others_in(workroom.root) == before
    assert len(workroom.clients()) == 2


def test_a_count_that_cannot_be_written_down_does_not_say_that_she_is_still_there(
    workroom: Store,
) -> None:
    workroom.say(workroom.stands.with_backup(workroom.now(), 2))
    steps = [step.path.name for step in steps_of(lambda: workroom.delete(WILHELMINA))]
    with failing_at(steps.index("store.json.new")):
        workroom.delete(BEATRIX)
    assert workroom.clients() == ()


def test_what_cannot_be_deleted_now_is_at_the_next_opening(
    workroom: Store, monkeypatch: pytest.MonkeyPatch
) -> None:
    real = os.unlink

    def held(path: object, **named: object) -> None:
        if str(path).endswith(photo().name):
            raise PermissionError(13, "Permission denied")
        real(path, **named)  # type: ignore[call-overload]

    with monkeypatch.context() as patch:
        patch.setattr(os, "unlink", held)
        with pytest.raises(NotAllGone, match=r"off the list.*Permission denied.*opened"):
            workroom.delete(WILHELMINA)
        assert [row.id for row in workroom.clients()] == [BEATRIX]
        workroom.close()
        with Store(workroom.root) as store:  # opens all the same
            assert [row.id for row in store.clients()] == [BEATRIX]
        assert list((workroom.root / arrivals.LEAVING).rglob("*.jpg"))
    Store(workroom.root).close()
    assert not (workroom.root / arrivals.LEAVING).exists()
    assert all(BEATRIX in path for path in where_found(workroom.root, BUST))
