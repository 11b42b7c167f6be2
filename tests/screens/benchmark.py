"""How long the screens take: opening with many clients, scrolling them, a key of the tape.

    python -m tests.screens.benchmark [--clients 2000] [--runs 5]

Opening is measured beside an empty Kivy window in the same run, each in a process of its own and
in turn, from its start to its first screen drawn.  A frame and a key are the app's own work,
measured to the end of drawing into one pixel: filling the others is the business of a graphics
chip, which the tests do without (see ``tablet``).
"""

import argparse
import copy
import os
import subprocess
import sys
import tempfile
from functools import partial
from pathlib import Path
from statistics import median
from time import perf_counter, time

from core.body.keypad import BACK
from tests.screens import tablet
from tests.screens.folders import DEMO, DEMO_ID

ROOT = Path(__file__).resolve().parents[2]

EMPTY = """
import time
from kivy.config import Config
Config.set("graphics", "width", "1280")
Config.set("graphics", "height", "800")
from kivy.base import runTouchApp, stopTouchApp
from kivy.core.window import Window
from kivy.uix.widget import Widget

def flipped(*_):
    print("SHOWN", time.time())
    stopTouchApp()

Window.bind(on_flip=flipped)
runTouchApp(Widget())
"""

OPENED = """
import sys, time
from screens import opening
from kivy.app import App
from screens.display import open_window as really

def then_watch():
    really()
    from kivy.core.window import Window

    def flipped(*_):
        app = App.get_running_app()
        if app.root is not None and app.root.current == "day book":
            print("SHOWN", time.time())
            app.stop()

    Window.bind(on_flip=flipped)

opening.open_window = then_watch
opening.run(sys.argv[1])
"""


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--clients", type=int, default=2000)
    parser.add_argument("--runs", type=int, default=5)
    given = parser.parse_args()
    folder = Path(tempfile.mkdtemp()) / "clients"
    _fill(folder, given.clients)
    _print_opening(folder, given.clients, given.runs)
    _print_frames(folder)


def _fill(folder: Path, clients: int) -> None:
    """Keep as many clients, every second one with the demo's garment."""
    from core.store.clients import Store

    with Store(folder) as store:
        store.save(DEMO)
        for number in range(1, clients):
            document = copy.deepcopy(DEMO) if number % 2 else {**DEMO, "garments": []}
            document["client"] = {"id": f"00000000-0000-4000-8000-{number:012}",
                                  "name": f"Client {number:05}"}  # fmt: skip
            store.save(document)
        store.clients()


def _print_opening(folder: Path, clients: int, runs: int) -> None:
    empty, opened = [], []
    for _ in range(runs + 1):
        empty.append(_started(EMPTY))
        opened.append(_started(OPENED, str(folder)))
    window, app = median(empty[1:]), median(opened[1:])  # the first ones fill the caches
    print(f"empty Kivy window           {window:6.2f} s")
    print(f"day book, {clients:5} clients    {app:6.2f} s   {app / window:.2f} times as long")


def _started(code: str, *words: str) -> float:
    """Return how many seconds a process took until it had shown something."""
    environment = {key: value for key, value in os.environ.items() if not key.startswith("KIVY")}
    environment |= {"SDL_VIDEODRIVER": "offscreen", "LIBGL_ALWAYS_SOFTWARE": "1",
                    "KIVY_NO_ARGS": "1", "KIVY_NO_FILELOG": "1", "KIVY_NO_CONFIG": "1",
                    "KIVY_NO_CONSOLELOG": "1", "KIVY_HOME": tempfile.mkdtemp()}  # fmt: skip
    begun = time()
    done = subprocess.run([sys.executable, "-c", code, *words], cwd=ROOT, env=environment,
                          capture_output=True, text=True, check=True, timeout=120)  # fmt: skip
    shown = next(line for line in done.stdout.splitlines() if line.startswith("SHOWN"))
    return float(shown.split()[1]) - begun


def _print_frames(folder: Path) -> None:
    from screens.app import PinsToSeamsApp

    running = tablet.Tablet(tablet.open_window(), folder)
    hand = running(PinsToSeamsApp(folder))
    hand.settle()
    roll = hand.ids.clients
    steps = [number / 200 for number in range(200)]
    print(_said("scrolling, a frame", [_timed(hand, _scrolled(roll, step)) for step in steps]))
    field = hand.ids.search.ids.field
    field.focus = True
    letters = [_timed(hand, lambda letter=letter: hand.loop.window.dispatch("on_textinput", letter))
               for letter in "client 0199"]  # fmt: skip
    print(_said("searching, a letter", letters))
    hand.app.room.open_client(DEMO_ID)
    hand.app.room.go("tape")
    hand.settle()
    view = hand.app.room.view
    keys = [_timed(hand, lambda key=key: view.press(key)) for key in ("3", "8", BACK, BACK) * 8]
    print(_said("a key of the tape", keys))
    for screen in ("client", "changes", "draft", "settings"):
        print(_said(f"going to {screen}", [_timed(hand, partial(hand.app.room.go, screen))]))
        hand.settle()
    running.stop()


def _scrolled(roll, step):
    def scroll() -> None:
        roll.scroll_y = 1 - step

    return scroll


def _timed(hand, act) -> float:
    """Return the seconds from an act to the end of the frame that shows it."""
    begun = perf_counter()
    act()
    hand.frames(1)
    return perf_counter() - begun


def _said(name: str, seconds: list[float]) -> str:
    ordered = sorted(1000 * second for second in seconds)
    late = ordered[min(len(ordered) - 1, round(0.95 * len(ordered)))]
    return f"{name:26} {median(ordered):7.1f} ms   19 of 20 within {late:.1f} ms"


if __name__ == "__main__":
    main()
