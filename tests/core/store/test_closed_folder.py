"""A folder or file that the system does not let us at: told in words, nothing lost."""

import errno
import os
import shutil
import stat
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest

from core.store.clients import Store
from core.store.disk import NotSaved
from tests.core.store.invented import (
    WILHELMINA,
    current,
    everything_in,
    home,
    kept_note,
    note_of,
    save_with_photo,
    with_note,
)

NOBODY = 65534
pytestmark = pytest.mark.skipif(os.name == "nt", reason="files are closed otherwise there")


@pytest.fixture
def folder(workroom: Path) -> Iterator[Path]:
    """Give the workroom where anybody can reach it; everything in it is nobody's."""
    with tempfile.TemporaryDirectory() as place:
        folder = Path(shutil.copytree(workroom, Path(place) / "workroom"))
        if os.geteuid() == 0:
            for path in (Path(place), folder, *folder.rglob("*")):
                os.chown(path, NOBODY, NOBODY)
        yield folder
        for path in (folder, *folder.rglob("*")):
            if path.is_dir():
                path.chmod(0o700)


@contextmanager
def as_anybody() -> Iterator[None]:
    """Have no more rights than anybody has, whoever runs the tests."""
    if os.geteuid() != 0:
        yield
        return
    os.seteuid(NOBODY)
    try:
        yield
    finally:
        os.seteuid(0)


def test_a_folder_that_cannot_be_written_to_is_told_and_left_alone(folder: Path) -> None:
    before = everything_in(folder)
    for path in (folder, *folder.rglob("*")):
        path.chmod(0o500 if path.is_dir() else 0o400)
    with as_anybody(), pytest.raises(NotSaved, match=r"Permission denied.*is as it was"):
        Store(folder)
    assert everything_in(folder) == before


def test_a_client_s_folder_that_cannot_be_written_to_is_read_and_keeps_what_it_has(
    folder: Path,
) -> None:
    home(folder).chmod(0o500)
    with as_anybody(), Store(folder) as store:
        document = store.read(WILHELMINA)
        with pytest.raises(NotSaved, match=r"Permission denied.*is safe"):
            store.save(with_note(document, "refused"))
        with pytest.raises(NotSaved, match="Permission denied"):
            store.delete(WILHELMINA)
        assert len(store.clients()) == 2
    home(folder).chmod(0o700)
    with as_anybody(), Store(folder) as store:
        assert note_of(store.read(WILHELMINA)) == "now"
        store.save(with_note(store.read(WILHELMINA), "goes on"))
    assert kept_note(folder) == "goes on"


def test_a_file_that_cannot_be_read_gives_way_to_the_save_before(folder: Path) -> None:
    current(folder).chmod(0)
    with as_anybody(), Store(folder) as store:
        assert note_of(store.read(WILHELMINA)) in ("now", "before")
        assert store.recovered(WILHELMINA)
    aside = home(folder) / "client.spoilt-1.json"
    aside.chmod(0o600)
    assert b'"note":"now"' in aside.read_bytes()


def test_a_spoilt_file_that_cannot_be_put_aside_now_is_when_she_saves(folder: Path) -> None:
    current(folder).write_bytes(b"spoilt")
    home(folder).chmod(0o500)
    with as_anybody():
        with Store(folder) as store:
            document = store.read(WILHELMINA)
            assert store.recovered(WILHELMINA)
            with pytest.raises(NotSaved):
                store.save(with_note(document, "refused"))
            home(folder).chmod(0o700)
            store.save(with_note(document, "goes on"))
        with Store(folder) as store:
            assert note_of(store.read(WILHELMINA)) == "goes on"
    assert (home(folder) / "client.other-1.json").read_bytes() == b"spoilt"
    assert b'"note":"now"' in (home(folder) / "client.1.json").read_bytes()  # the older stays


def test_photos_that_cannot_be_kept_are_told(folder: Path) -> None:
    (home(folder) / "photos").chmod(0o500)
    with as_anybody(), Store(folder) as store:
        document = store.read(WILHELMINA)
        with pytest.raises(NotSaved, match="Permission denied"):
            save_with_photo(store, document, "crimson")
        assert note_of(store.read(WILHELMINA)) == "now"


def test_the_list_that_cannot_be_written_down_is_no_trouble(folder: Path) -> None:
    (folder / "index.json").unlink()
    with as_anybody(), Store(folder) as store:
        folder.chmod(0o500)
        assert len(store.clients()) == 2
        store.rest()
    folder.chmod(0o700)


@pytest.mark.parametrize("wrong", [errno.EINVAL, errno.ENOSYS, errno.ENOTSUP])
def test_a_disk_that_cannot_bring_a_folder_down_by_itself_is_used_all_the_same(
    workroom: Path, monkeypatch: pytest.MonkeyPatch, wrong: int
) -> None:
    real = os.fsync

    def fsync(handle: int) -> None:
        if stat.S_ISDIR(os.fstat(handle).st_mode):
            raise OSError(wrong, os.strerror(wrong))
        real(handle)

    monkeypatch.setattr(os, "fsync", fsync)
    with Store(workroom) as store:
        store.save(with_note(store.read(WILHELMINA), "new"))
    assert kept_note(workroom) == "new"
