"""A client's file written by a newer or an older program, or by another hand meanwhile."""

import shutil
from pathlib import Path

import pytest

from core.store import generations, stands
from core.store.clients import Store
from core.store.generations import NEWEST, Tables, TooNew, tables_in, written
from tests.core.store.invented import (
    WILHELMINA,
    client,
    current,
    everything_in,
    home,
    kept,
    kept_note,
    note_of,
    with_note,
)


def _newer() -> bytes:
    """Return a client's file as a program a format ahead would write it."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(generations, "NEWEST", NEWEST + 1)
        return written({"things": {"1": {"new": True}}})


def test_a_file_of_a_newer_format_is_refused_by_number_and_never_written_over(
    workroom: Path,
) -> None:
    current(workroom).write_bytes(_newer())
    before = everything_in(home(workroom))
    with Store(workroom) as store:
        for act in (lambda: store.read(WILHELMINA), lambda: store.save(client("over it"))):
            with pytest.raises(TooNew, match=rf"format {NEWEST + 1}.*up to {NEWEST}"):
                act()
        assert [row.damaged for row in store.clients()] == [False, True]
    assert everything_in(home(workroom)) == before


def test_a_whole_folder_of_a_newer_format_is_refused_by_number(
    workroom: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    with monkeypatch.context() as patch:
        patch.setattr(stands, "NEWEST", NEWEST + 1)
        stands.write_stands(workroom, stands.Stands("a tablet"))
    before = everything_in(workroom)
    with pytest.raises(TooNew, match=rf"format {NEWEST + 1}.*up to {NEWEST}.*Nothing was changed"):
        Store(workroom)
    assert everything_in(workroom) == before


def test_an_older_format_is_brought_up_step_by_step(
    workroom: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def second(tables: Tables) -> Tables:
        return {"records": tables["records"], "steps": {"1": {"taken": [2]}}}

    def third(tables: Tables) -> Tables:
        tables["steps"]["1"]["taken"].append(3)
        return tables

    monkeypatch.setattr(generations, "UPGRADES", {NEWEST: second, NEWEST + 1: third})
    monkeypatch.setattr(generations, "NEWEST", NEWEST + 2)
    with Store(workroom) as store:
        store.save(with_note(store.read(WILHELMINA), "brought up"))
    content = current(workroom).read_bytes()
    assert b"pins-to-seams-store/%d" % (NEWEST + 2) in content[:40]
    assert tables_in(content)["steps"] == {"1": {"taken": [2, 3]}}
    assert kept_note(workroom) == "brought up"


def test_what_another_hand_wrote_meanwhile_is_kept_aside_and_nothing_is_mixed(
    workroom: Path,
) -> None:
    with Store(workroom.with_name(workroom.name + " elsewhere")) as elsewhere:
        elsewhere.save(client("another hand's", extra="theirs"))
        theirs = current(elsewhere.root).read_bytes()
    with Store(workroom) as store:
        document = store.read(WILHELMINA)
        current(workroom).write_bytes(theirs)
        store.save(with_note(document, "ours"))
        store.save(with_note(document, "ours again"))
    found = kept(workroom)
    assert note_of(found) == "ours again"
    assert "extra" not in found
    assert (home(workroom) / "client.other-1.json").read_bytes() == theirs


def test_a_file_taken_out_meanwhile_is_written_again(workroom: Path) -> None:
    with Store(workroom) as store:
        document = store.read(WILHELMINA)
        shutil.rmtree(home(workroom))
        store.save(with_note(document, "still hers"))
    assert kept_note(workroom) == "still hers"
