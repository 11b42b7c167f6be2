"""Kill the store while it works, again and again, and look whether all it had said is there.

    python -m tests.killing [TIMES] [--own] [--seed SEED]

A process saves pins, adds photos, makes, deletes, seals and brings in clients, and says each
act before and after.  It is killed (SIGKILL) at a moment nobody knows; then the store is opened
and everything in it read: what was said to be done must be there, of what was only begun all
or nothing.  The next process goes on in the same folder.  ``--own`` does the same to TinyDB's
own storage, to show that such a loss would be seen.
"""

import argparse
import hashlib
import json
import os
import random
import shutil
import signal
import subprocess
import sys
import tempfile
import time
from collections import Counter
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from dataclasses import dataclass, field
from itertools import islice
from pathlib import Path
from typing import Any

from core.store.bundles import send
from core.store.clients import Store
from core.store.photos import read_photo, read_thumbnail
from tests.core.store.at_work import BUNDLE, new_client, opened, quick_passcode

MOST_LINES, LONGEST_S = 12, 0.06
"""A process is killed after so many lines of what it says, and so long after the last, at most."""

SEALED = b"\x93SEALED"
BROUGHT_IN = {f"33330000-0000-4000-8000-00000000000{number}": 0 for number in (1, 2)}
Clients = dict[str, int]
"""How far each client's count has come, by her id."""


class Lost(Exception):
    """Something that was said to be done is not there, or something is mixed."""


@dataclass
class Tally:
    """``during`` counts what was going on when it was killed, ``acts`` all that was done."""

    kills: int = 0
    acts: int = 0
    during: Counter[str] = field(default_factory=Counter)
    lost: list[str] = field(default_factory=list)


def kill_ours(folder: Path, times: int, seed: int) -> Tally:
    """Kill our store; raises ``Lost`` at the first trouble."""
    quick_passcode()
    with Store(folder / "elsewhere") as elsewhere:
        for client_id in BROUGHT_IN:
            elsewhere.save(new_client(client_id, 0))
        send(elsewhere, folder / BUNDLE)
    tally, kept = Tally(), Clients()
    for said in _killed("ours", folder, times, seed, tally):
        may_be = _may_be(kept, said)
        kept = look_over(folder / "store")
        if kept not in may_be:
            raise Lost(f"kill {tally.kills} (seed {seed}): {kept} is none of {may_be}")
    return tally


def kill_own(folder: Path, times: int, seed: int, *, go_on: bool = True) -> Tally:
    """Kill TinyDB's own storage, beginning anew after each loss; one is enough unless ``go_on``."""
    tally, kept, path = Tally(), Clients(), folder / "tinydb.json"
    for said in _killed("own", folder, times, seed, tally):
        may_be = _may_be(kept, said)
        try:
            tables = json.loads(path.read_text() or "{}") if path.exists() else {}
            found = {one["id"]: one["document"]["count"]
                     for one in tables.get("_default", {}).values()}  # fmt: skip
        except ValueError as wrong:
            tally.lost.append(f"kill {tally.kills}: the file cannot be read ({wrong})")
        else:
            if found in may_be:
                kept = found
                continue
            tally.lost.append(f"kill {tally.kills}: clients are missing or older")
        if not go_on:
            break
        path.unlink()
        kept = Clients()
    return tally


def _killed(which: str, folder: Path, times: int, seed: int, tally: Tally) -> Iterator[list[str]]:
    """Let a process work and kill it, so many times; yield what it said each time."""
    chance = random.Random(seed)
    with _launcher() as launcher:
        assert launcher.stdin is not None
        assert launcher.stdout is not None
        for _ in range(times):
            launcher.stdin.write(f"{which} {chance.getrandbits(32)} {folder}\n")
            launcher.stdin.flush()
            said = iter(launcher.stdout.readline, "ended\n")
            worker = int(next(said).removeprefix("working "))
            words = list(islice(said, chance.randrange(MOST_LINES)))
            time.sleep(LONGEST_S * chance.random() ** 2)
            with suppress(ProcessLookupError):
                os.kill(worker, signal.SIGKILL)
            words += said
            if words[-1:] and words[-1].startswith("wrong"):
                raise Lost(json.loads(words[-1].removeprefix("wrong ")))
            tally.kills += 1
            tally.acts += words.count("did\n")
            begun = words[-1:] and words[-1].startswith("will")
            tally.during[json.loads(words[-1][5:])["do"] if begun else "opening"] += 1
            yield words


@contextmanager
def _launcher() -> Iterator[subprocess.Popen[str]]:
    run = [sys.executable, "-m", "tests.core.store.at_work"]
    pipe = subprocess.PIPE
    root = Path(__file__).resolve().parents[1]
    with subprocess.Popen(run, stdin=pipe, stdout=pipe, text=True, cwd=root) as launcher:
        try:
            yield launcher
        finally:
            launcher.kill()


def _may_be(kept: Clients, said: list[str]) -> list[Clients]:
    """Return what may be there: all that was done, and perhaps what was begun last."""
    states = [dict(kept)]
    for line in said:
        if line.startswith("will"):
            states.append(_after(states[-1], json.loads(line[5:])))
    return states[-2:] if said and said[-1].startswith("will") else states[-1:]


def _after(clients: Clients, act: dict[str, Any]) -> Clients:
    after = dict(clients)
    if act["do"] == "delete":
        del after[act["id"]]
    elif act["do"] == "bring in":
        after |= BROUGHT_IN
    elif "count" in act:
        after[act["id"]] = act["count"]
    return after


def look_over(folder: Path) -> Clients:
    """Open a store, read all of it and close it; return how far each client's count has come.

    Raises ``Lost`` where anything is mixed, damaged, missing or left over.
    """
    found = {}
    with opened(folder) as store:
        sealed = store.seal is not None
        for row in store.clients():
            document = store.read(row.id)
            if row.damaged or store.recovered(row.id):
                raise Lost(f"{row.name}: {store.recovered(row.id) or 'damaged'}")
            found[row.id] = _count(document)
            for taken in document["garments"][0]["fittings"][0].get("photos", ()):
                content = read_photo(store, row.id, taken["file"])
                if hashlib.sha256(content).hexdigest() not in taken["file"]:
                    raise Lost(f"{row.name}: {taken['file']} is another photo")
                read_thumbnail(store, row.id, taken["file"])
    _see_that_it_is_tidy(folder, sealed=sealed)
    return found


def _count(document: dict[str, Any]) -> int:
    garment = document["garments"][0]
    parts = (document, document["measurements"][0], garment, garment["fittings"][0])
    counts = {part["count"] for part in parts}
    if len(counts) != 1:
        raise Lost(f"{document['client']['name']}: saves are mixed, {sorted(counts)}")
    return int(counts.pop())


def _see_that_it_is_tidy(folder: Path, *, sealed: bool) -> None:
    left = [path for path in folder.rglob("*") if path.suffix == ".new" or "spare" in path.name]
    left += [folder / name for name in ("coming", "leaving") if (folder / name).exists()]
    if left:
        raise Lost(f"left over: {left}")
    for path in (folder / "clients").rglob("*"):
        if path.is_file() and path.read_bytes().startswith(SEALED) is not sealed:
            raise Lost(f"{path} is {'not ' if sealed else ''}sealed")


def main(words: list[str]) -> int:
    parser = argparse.ArgumentParser(prog="python -m tests.killing", description=__doc__)
    parser.add_argument("times", nargs="?", type=int, default=1000, metavar="TIMES")
    parser.add_argument("--own", action="store_true", help="TinyDB's own storage instead")
    parser.add_argument("--seed", type=int, default=1)
    asked = parser.parse_args(words)
    start, folder = time.perf_counter(), Path(tempfile.mkdtemp())
    try:
        tally = (kill_own if asked.own else kill_ours)(folder, asked.times, asked.seed)
    except Lost as wrong:
        print(f"{wrong}\nThe folder is kept to look at: {folder}")
        return 1
    shutil.rmtree(folder)
    took = time.perf_counter() - start
    print(f"killed {tally.kills} times in {took:.0f} s, after {tally.acts} acts were done")
    print("while:", ", ".join(f"{what} {count}" for what, count in tally.during.most_common()))
    print(f"lost or spoilt: {len(tally.lost)}")
    for words_of_loss in tally.lost[:3]:
        print(f"  {words_of_loss}")
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
