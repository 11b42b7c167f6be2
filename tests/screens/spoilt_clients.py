"""Open clients with one field wrong on every screen: each is shown, or refused in words.

    python -m tests.screens.spoilt_clients [--count 1000] [--seed 1]

The documents are those of ``tests/core/test_bad_input.py`` with a field replaced or taken out;
what the store cannot read it lists as damaged, and that is left alone.
"""

import argparse
import random
import tempfile
import traceback
from pathlib import Path
from uuid import UUID

from core.errors import WorkroomError
from core.file.fitting_file import read_document
from tests.core.test_bad_input import DELETED, FILES, WRONG, spoilt, spots
from tests.screens import tablet
from tests.screens.fitting_pictures import NOON

SCREENS = ("client", "tape", "draft", "fitting", "changes", "sewing")


def documents(count, seed):
    """Yield so many readable documents with one field wrong, and what was done to each."""
    chance = random.Random(seed)
    files = {name: make() for name, make in FILES.items()}
    while count:
        name = chance.choice(list(files))
        path = chance.choice(list(spots(files[name]))[1:])  # not the whole of it
        wrong = chance.choice((*WRONG, DELETED))
        document = spoilt(files[name], path, wrong)
        try:
            read_document(document)
        except WorkroomError:
            continue
        if isinstance(document.get("client"), dict):
            document["client"]["id"] = str(UUID(int=count))
            count -= 1
            yield (name, path, wrong), document


def look_at(hand, client_id):
    """Open a client on every screen, and her fitting at every moment."""
    from screens.fitting_page import MOMENTS

    room = hand.app.room
    for screen in SCREENS:
        room.open_client(client_id, screen)
        hand.frames(2)
        if room.here == "fitting":
            for moment in MOMENTS:
                room.view.go_to(moment)
                hand.frames(1)


def faults(running, folder, count, seed, say=print):
    """Return how many of the documents could not be shown, and say which."""
    from core.store.clients import Store
    from screens.app import PinsToSeamsApp

    found, made = 0, list(documents(count, seed))
    with Store(folder) as store:
        for _, document in made:
            store.save(document)
    hand = running(PinsToSeamsApp(folder, lambda: NOON))
    for what, document in made:
        try:
            look_at(hand, document["client"]["id"])
        except Exception:
            found += 1
            say(what, traceback.format_exc(limit=-3))
    running.stop()
    return found


def main():
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--count", type=int, default=1000)
    parser.add_argument("--seed", type=int, default=1)
    given = parser.parse_args()
    with tempfile.TemporaryDirectory() as folder:
        running = tablet.Tablet(tablet.open_window(), Path(folder))
        wrong = faults(running, Path(folder) / "clients", given.count, given.seed)
    print(f"{given.count} clients with a field wrong, {wrong} could not be shown")


if __name__ == "__main__":
    main()
