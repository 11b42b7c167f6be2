"""Clients kept by the first version, in one flat file each, are brought into folders."""

import json
import shutil
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from core.errors import Damaged
from core.store.arrivals import Unfinished
from core.store.clients import Store
from core.store.disk import NotSaved
from core.store.passcode import set_passcode
from core.store.records import unstamped
from core.whole_file import make_folder, write_whole
from tests.core.store.invented import (
    NAME,
    OTHER_NAME,
    PASSCODE,
    WILHELMINA,
    current,
    everything_in,
    home,
    kept,
    where_found,
)
from tests.core.store.power import Disk, lay_down
from tests.core.store.steps import Step, each_copy, failing_at, killed_at, watched

FIRST_VERSION = Path(__file__).resolve().parents[2] / "data" / "store" / "first_version"
PLOVER = "Mrs Plover/½"


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """Return a folder as the first version left it."""
    return Path(shutil.copytree(FIRST_VERSION, tmp_path / "store"))


def flat(folder: Path, ending: str = ".json") -> Path:
    return folder / "clients" / f"{WILHELMINA}{ending}"


def document_of(path: Path) -> dict[str, Any]:
    document: dict[str, Any] = json.loads(path.read_bytes())["_default"]["1"]["document"]
    return document


def last_note(document: dict[str, Any]) -> str:
    return str(document["garments"][0]["fittings"][1]["note"])


def test_every_client_is_there_as_she_was(folder: Path) -> None:
    expected = document_of(flat(folder))
    assert last_note(expected) == "the last save"
    with Store(folder) as store:
        assert not store.first_start
        assert [row.name for row in store.clients()] == [OTHER_NAME, NAME]
        assert repr(unstamped(store.read(WILHELMINA))) == repr(expected)
        assert store.read(PLOVER)["client"]["id"] == PLOVER
        assert store.recovered(WILHELMINA) == store.recovered(PLOVER) == ""
    assert [path for path in (folder / "clients").iterdir() if path.is_file()] == []


def test_it_is_done_once_and_the_records_keep_their_ids(folder: Path) -> None:
    with Store(folder) as store:
        first = store.read(WILHELMINA)
    with Store(folder) as store:
        assert store.read(WILHELMINA) == first
        first["notes"] = "more"
        store.save(first)
    assert kept(folder)["notes"] == "more"


def test_the_copy_of_the_save_before_becomes_the_older_file(folder: Path) -> None:
    Store(folder).close()
    current(folder).write_bytes(b"")
    with Store(folder) as store:
        assert last_note(store.read(WILHELMINA)) == "the save before"
        assert store.recovered(WILHELMINA)


SPOILT: dict[str, Callable[[Path], object]] = {
    "missing": Path.unlink,
    "empty": lambda path: path.write_bytes(b""),
    "half": lambda path: path.write_bytes(path.read_bytes()[:200]),
    "another JSON": lambda path: path.write_bytes(b'{"_default": {"1": [7]}}'),
}


@pytest.mark.parametrize("how", SPOILT)
def test_a_spoilt_file_gives_way_to_its_copy_and_that_is_said(folder: Path, how: str) -> None:
    SPOILT[how](flat(folder))
    spoilt = flat(folder).read_bytes() if flat(folder).exists() else None
    with Store(folder) as store:
        assert last_note(store.read(WILHELMINA)) == "the save before"
        assert store.recovered(WILHELMINA)
        assert store.read(PLOVER)
    aside = home(folder) / "client.spoilt-1.json"
    assert (aside.read_bytes() if aside.exists() else None) == spoilt


@pytest.mark.parametrize("how", SPOILT)
def test_a_spoilt_copy_does_no_harm(folder: Path, how: str) -> None:
    SPOILT[how](flat(folder, ".json.bak"))
    with Store(folder) as store:
        assert last_note(store.read(WILHELMINA)) == "the last save"
        assert store.recovered(WILHELMINA) == ""


def test_a_client_whose_files_are_all_spoilt_keeps_them_and_is_listed_as_damaged(
    folder: Path,
) -> None:
    flat(folder).write_bytes(b"[spoilt")
    flat(folder, ".json.bak").write_bytes(b"[spoilt too")
    with Store(folder) as store:
        assert [row.damaged for row in store.clients()] == [True, False]
        with pytest.raises(Damaged, match="Nothing was changed"):
            store.read(WILHELMINA)
    assert set(everything_in(home(folder)).values()) == {b"[spoilt", b"[spoilt too"}


def test_what_the_first_version_had_put_aside_is_kept(folder: Path) -> None:
    flat(folder, ".json.spoilt-17").write_bytes(b"put aside")
    flat(folder, ".json.new").write_bytes(b"never finished")
    assert last_note(kept(folder)) == "the last save"
    kept_beside = set(everything_in(home(folder)).values())
    assert b"put aside" in kept_beside
    assert b"never finished" not in kept_beside


def test_cut_off_anywhere_every_client_is_there_at_the_next_opening(folder: Path) -> None:
    for copy, _ in each_copy(folder, Store, killed_at):
        with Store(copy) as store:
            assert [row.name for row in store.clients()] == [OTHER_NAME, NAME]
            assert last_note(store.read(WILHELMINA)) == "the last save"
            assert store.recovered(WILHELMINA) == ""
        assert [path for path in (copy / "clients").iterdir() if path.is_file()] == []
        assert not (copy / "coming").exists()
        assert not (copy / "leaving").exists()


@pytest.mark.parametrize("spoilt", [False, True])
def test_a_power_cut_at_any_step_loses_no_client(tmp_path: Path, spoilt: bool) -> None:
    folder, steps = tmp_path / "work" / "store", list[Step]()
    (tmp_path / "work").mkdir()
    with watched(steps.append):
        for name, content in everything_in(FIRST_VERSION).items():
            make_folder((folder / name).parent)
            whole = not (spoilt and name.endswith("1.json"))
            write_whole(folder / name, content if whole else content[:100])
        before = len(steps)
        Store(folder).close()
    disk = Disk(tmp_path / "work")
    for number, step in enumerate(steps):
        for case in disk.worst() if number >= before else ():
            lay_down(case, tmp_path / "cut")
            note = "the save before" if spoilt else "the last save"
            assert last_note(kept(tmp_path / "cut" / "store")) == note
            assert kept(tmp_path / "cut" / "store", PLOVER)
            shutil.rmtree(tmp_path / "cut")
        disk.take(step)


def test_on_a_full_disk_it_is_told_and_done_at_the_next_opening(folder: Path) -> None:
    told = 0

    def open_it(copy: Path) -> None:
        nonlocal told
        try:
            Store(copy).close()
        except (NotSaved, Unfinished) as wrong:
            told += 1
            words, changed = str(wrong), len(everything_in(copy / "clients")) != 3
        else:
            return
        assert "No space left on device" in words
        assert not changed or "Nothing is lost" in words

    for copy, _ in each_copy(folder, open_it, failing_at):
        with Store(copy) as store:
            assert last_note(store.read(WILHELMINA)) == "the last save"
            assert store.read(PLOVER)
    assert told > 10


@pytest.mark.usefixtures("quick_passcode")
def test_a_flat_file_put_into_a_sealed_folder_is_sealed(folder: Path, tmp_path: Path) -> None:
    sealed = tmp_path / "sealed"
    with Store(sealed) as store:
        store.put_in_demo()
        set_passcode(store, PASSCODE)
    shutil.copy(flat(folder), sealed / "clients")
    with Store(sealed, PASSCODE) as store:
        assert last_note(store.read(WILHELMINA)) == "the last save"
    assert where_found(sealed, NAME) == []
