"""One running copy on a folder; the second is told, and a copy that died is no obstacle."""

import os
import signal
import subprocess
import sys
from pathlib import Path

import pytest

from core.store.clients import Locked, Store
from core.store.occupied import InUse
from core.store.passcode import set_passcode
from tests.core.store.invented import PASSCODE, WILHELMINA, client, everything_in, kept_note

HOLDER = """
import sys, time
from pathlib import Path
from core.store.clients import Store
store = Store(Path(sys.argv[1]))
document = store.read(sys.argv[2])
document["garments"][0]["fittings"][0]["note"] = "the other copy's"
store.save(document)
print("open", flush=True)
time.sleep(60)
"""


def test_a_second_store_in_the_same_program_is_told(workroom: Path) -> None:
    with Store(workroom) as store:
        before = everything_in(workroom)
        with pytest.raises(InUse, match=r"open already.*Nothing was changed"):
            Store(workroom)
        assert everything_in(workroom) == before
        store.save(client("goes on"))
    assert kept_note(workroom) == "goes on"


def test_a_second_program_is_told_until_the_first_is_killed(workroom: Path) -> None:
    run = [sys.executable, "-c", HOLDER, str(workroom), WILHELMINA]
    with subprocess.Popen(run, stdout=subprocess.PIPE, text=True) as first:
        assert first.stdout is not None
        assert first.stdout.readline() == "open\n"
        with pytest.raises(InUse):
            Store(workroom)
        first.send_signal(signal.SIGKILL if os.name != "nt" else signal.SIGTERM)
        first.wait()
        assert kept_note(workroom) == "the other copy's"


def test_a_store_that_was_closed_or_let_go_of_is_free(workroom: Path) -> None:
    for _ in range(3):
        Store(workroom)  # let go of without being closed
    with Store(workroom):
        pass
    store = Store(workroom)
    store.close()
    assert kept_note(workroom) == "now"


def test_closing_twice_does_not_close_the_next_one(workroom: Path) -> None:
    first = Store(workroom)
    first.close()
    with Store(workroom):
        first.close()
        with pytest.raises(InUse):
            Store(workroom)


@pytest.mark.usefixtures("quick_passcode")
def test_a_store_that_could_not_be_opened_is_free(workroom: Path) -> None:
    with Store(workroom) as store:
        set_passcode(store, PASSCODE)
    with pytest.raises(Locked):
        Store(workroom)
    assert kept_note(workroom, passcode=PASSCODE) == "now"


def test_two_folders_are_two_stores(workroom: Path, tmp_path: Path) -> None:
    with Store(workroom) as one, Store(tmp_path / "another") as two:
        two.save(client("two"))
        one.save(client("one"))
    assert kept_note(workroom) == "one"
    assert kept_note(tmp_path / "another") == "two"
