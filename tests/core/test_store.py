"""Whatever happens while it is being written, a client is kept as she was or as she is."""

import os
import signal
import subprocess
import sys
import time
from pathlib import Path
from typing import Any

import pytest

from core.errors import Damaged, NotFound, WorkroomError
from core.store import NotSaved, Store, WholeFileStorage

ANY = "11110000-0000-4000-8000-000000000001"


def document(note: str = "", client_id: str = ANY, name: str = "Wilhelmina Oatcake") -> Any:
    return {"format": "pins-to-seams/1", "unit": "in", "note": note,
            "client": {"id": client_id, "name": name}}  # fmt: skip


def file_of(folder: Path) -> Path:
    return folder / "clients" / f"{ANY}.json"


class Killed(BaseException):
    """The battery died here."""


def test_a_client_is_as_she_was_saved_after_a_restart(tmp_path: Path) -> None:
    Store(tmp_path).save(document("36 ½"))
    assert Store(tmp_path).read(ANY) == document("36 ½")


def test_a_field_taken_away_stays_away(tmp_path: Path) -> None:
    store = Store(tmp_path)
    store.save(document("first") | {"extra": 1})
    store.save(document("second"))
    assert Store(tmp_path).read(ANY) == document("second")


def test_what_was_handed_out_can_be_changed_without_changing_what_is_kept(tmp_path: Path) -> None:
    store = Store(tmp_path)
    store.save(document("kept"))
    store.read(ANY)["note"] = "changed"
    assert store.read(ANY)["note"] == "kept"


def test_clients_are_listed_by_name(tmp_path: Path) -> None:
    store = Store(tmp_path)
    store.save(document(name="Beech", client_id="b"))
    store.save(document(name="Alder", client_id="a"))
    assert [client.name for client in Store(tmp_path).clients()] == ["Alder", "Beech"]


def test_a_new_folder_has_no_clients_and_knows_that_it_is_new(tmp_path: Path) -> None:
    store = Store(tmp_path / "not" / "there")
    assert store.first_start
    assert store.clients() == ()


def test_the_demo_client_is_put_in_and_says_that_she_is_invented(tmp_path: Path) -> None:
    store = Store(tmp_path)
    demo = store.put_in_demo()
    assert "(demo, invented)" in store.read(demo)["client"]["name"]
    assert not Store(tmp_path).first_start


def test_an_id_with_a_slash_stays_in_the_folder(tmp_path: Path) -> None:
    store = Store(tmp_path / "data")
    store.save(document(client_id="../../out"))
    assert not list(tmp_path.glob("*.json"))
    assert Store(tmp_path / "data").read("../../out")["client"]["id"] == "../../out"


def test_a_client_who_is_not_there_is_told_in_words(tmp_path: Path) -> None:
    with pytest.raises(NotFound, match="not here any more"):
        Store(tmp_path).read("nobody")


def test_deleting_leaves_nothing_of_her_and_everything_of_the_others(tmp_path: Path) -> None:
    store = Store(tmp_path)
    for note in ("one", "two"):
        store.save(document(note))
        store.save(document(note, client_id=ANY + "1"))
    file_of(tmp_path).with_name(f"{ANY}.json.spoilt-7").write_text("spoilt")
    store.delete(ANY)
    assert [client.id for client in store.clients()] == [ANY + "1"]
    assert not [path for path in (tmp_path / "clients").iterdir() if f"{ANY}.json" in path.name]
    with pytest.raises(NotFound):
        store.read(ANY)


@pytest.mark.parametrize("call", ["fsync", "replace"])
@pytest.mark.parametrize("nth", [1, 2])
def test_a_kill_at_any_moment_of_a_write_keeps_the_old_or_the_new(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, call: str, nth: int
) -> None:
    store = Store(tmp_path)
    store.save(document("old"))
    real, calls = getattr(os, call), []

    def die(*given: Any) -> Any:
        calls.append(given)
        if len(calls) == nth:
            raise Killed
        return real(*given)

    with monkeypatch.context() as patch:
        patch.setattr(os, call, die)
        with pytest.raises(Killed):
            store.save(document("new"))
    again = Store(tmp_path)
    assert [client.id for client in again.clients()] == [ANY]
    assert again.read(ANY)["note"] in ("old", "new")
    again.save(document("next"))
    assert Store(tmp_path).read(ANY)["note"] == "next"


WRITER = """
import sys
from pathlib import Path
from core.store import Store
store = Store(Path(sys.argv[1]))
for count in range(100_000):
    store.save({"client": {"id": "k", "name": "K"}, "count": count, "fill": "x" * 20_000})
    print(count, flush=True)
"""


@pytest.mark.skipif(os.name == "nt", reason="needs a signal that cannot be caught")
@pytest.mark.parametrize("after", [0.0, 0.003, 0.011, 0.02])
def test_a_killed_process_loses_nothing_it_had_said_was_saved(tmp_path: Path, after: float) -> None:
    with subprocess.Popen([sys.executable, "-c", WRITER, str(tmp_path)], text=True,
                          stdout=subprocess.PIPE) as writer:  # fmt: skip
        assert writer.stdout is not None
        writer.stdout.readline()
        time.sleep(after)
        writer.send_signal(signal.SIGKILL)
        said = [line for line in writer.stdout.read().splitlines() if line]
    count = Store(tmp_path).read("k")["count"]
    assert count >= int(said[-1] if said else 0)


def test_a_spoilt_file_is_put_aside_and_its_copy_taken(tmp_path: Path) -> None:
    store = Store(tmp_path)
    store.save(document("first"))
    store.save(document("second"))
    file_of(tmp_path).write_text('{"half a fi')
    again = Store(tmp_path)
    assert again.read(ANY)["note"] == "first"
    assert again.recovered(ANY)
    assert [path.read_text() for path in (tmp_path / "clients").glob("*.spoilt-*")]


def test_a_file_damaged_with_its_copy_is_told_and_left_alone(tmp_path: Path) -> None:
    store = Store(tmp_path)
    store.save(document("first"))
    store.save(document("second"))
    copy = file_of(tmp_path).with_name(f"{ANY}.json.bak")
    for path in (file_of(tmp_path), copy):
        path.write_text("[")
    again = Store(tmp_path)
    assert [client.damaged for client in again.clients()] == [True]
    with pytest.raises(Damaged, match="Nothing was changed"):
        again.read(ANY)
    assert file_of(tmp_path).read_text() == copy.read_text() == "["


def test_an_empty_file_is_not_taken_for_a_new_client(tmp_path: Path) -> None:
    Store(tmp_path).save(document())
    file_of(tmp_path).write_text("")
    with pytest.raises(Damaged):
        Store(tmp_path).read(ANY)


def test_a_number_that_is_none_is_refused_and_the_old_file_stays(tmp_path: Path) -> None:
    store = Store(tmp_path)
    store.save(document("good"))
    with pytest.raises(NotSaved, match="safe"):
        store.save(document() | {"bust": float("nan")})
    assert store.read(ANY) == Store(tmp_path).read(ANY) == document("good")


def test_a_full_disk_is_told_in_words(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    store = Store(tmp_path)
    store.save(document("good"))

    def full(_handle: int) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, "fsync", full)
    with pytest.raises(WorkroomError, match="No space left"):
        store.save(document("new"))
    assert store.read(ANY)["note"] == "good"


def test_reading_goes_to_the_disk_once(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    storage = WholeFileStorage(tmp_path / "one.json")
    storage.write({"t": {"1": {"a": 1}}})
    (tmp_path / "one.json").unlink()
    assert storage.read() == {"t": {"1": {"a": 1}}}
