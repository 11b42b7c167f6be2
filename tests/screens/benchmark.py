"""How long the screens take: opening with many clients, a key of the tape, a touch on the figure.

    python -m tests.screens.benchmark [--clients 2000] [--runs 5]

Opening is measured beside an empty Kivy window in the same run, each in a process of its own and
in turn, from its start to what is drawn first, the app's name, to the day book, of one client and
of many, and to the list of clients in it, which comes a frame later.  All of them find their
modules compiled, as they are from the second start on.
A frame and a key are the app's own work, measured to the end of drawing into one pixel: filling
the others is the business of a graphics chip, which the tests do without (see ``tablet``). *The
same drawn again* is what of it software takes to draw what has not changed.
"""

import argparse
import copy
import os
import subprocess
import sys
import tempfile
from collections import defaultdict
from functools import partial
from pathlib import Path
from statistics import median
from time import perf_counter, time

from core.body.keypad import BACK
from tests.benchmark import fishtail_with_twelve_pins
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

SHOWN = (["TITLE"], ["SHOWN"], ["WHOLE"])
"""What a process says it has shown, and when."""

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
        if app is None:
            print("TITLE", time.time())
        elif app.root is not None and app.root.current == "day book":
            whole = app.root.current_screen.ids.clients.layout_manager.children
            print("WHOLE" if whole else "SHOWN", time.time())
            if whole:
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
    place = Path(tempfile.mkdtemp())
    folder = place / "clients"
    _fill(folder, given.clients)
    _fill(place / "one", 1)
    _print_opening({1: place / "one", given.clients: folder}, given.runs, place / "compiled")
    window = tablet.open_window()
    _print_frames(window, folder)
    _print_fittings(window, folder)


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


def _print_opening(folders: dict[int, Path], runs: int, compiled: Path) -> None:
    """Print the medians of as many runs; ``folders`` by how many clients they hold."""
    took = defaultdict(list)
    for run in range(runs + 1):
        shown = {"": _started(EMPTY, compiled=compiled)["SHOWN"]}
        for clients, folder in folders.items():
            opened = _started(OPENED, str(folder), compiled=compiled)
            shown["the app's name"] = opened["TITLE"]
            shown[f"day book, clients: {clients:5}"] = opened["SHOWN"]
            shown[f"and the list of them: {clients:3}"] = opened["WHOLE"]
        for name, seconds in shown.items() if run else ():  # the first ones fill the caches
            took[name].append(seconds)
    window = median(took.pop(""))
    print(f"empty Kivy window           {window:6.2f} s")
    for name, seconds in took.items():
        middle = median(seconds)
        print(f"{name:25}   {middle:6.2f} s   {middle / window:.2f} times as long")


def _started(code: str, *words: str, compiled: Path) -> dict[str, float]:
    """Return how many seconds a process took until it had shown what, by its name.

    Whatever it loads it finds in ``compiled``, Kivy's modules and ours alike.
    """
    environment = {key: value for key, value in os.environ.items() if not key.startswith("KIVY")}
    environment.pop("PYTHONDONTWRITEBYTECODE", None)
    environment |= {"PYTHONPYCACHEPREFIX": str(compiled),
                    "SDL_VIDEODRIVER": "offscreen", "LIBGL_ALWAYS_SOFTWARE": "1",
                    "KIVY_NO_ARGS": "1", "KIVY_NO_FILELOG": "1", "KIVY_NO_CONFIG": "1",
                    "KIVY_NO_CONSOLELOG": "1", "KIVY_HOME": tempfile.mkdtemp()}  # fmt: skip
    begun = time()
    done = subprocess.run([sys.executable, "-c", code, *words], cwd=ROOT, env=environment,
                          capture_output=True, text=True, check=True, timeout=120)  # fmt: skip
    told = [line.split() for line in done.stdout.splitlines()]
    return {words[0]: float(words[1]) - begun for words in told if words[:1] in SHOWN}


def _print_frames(window, folder: Path) -> None:
    from screens.app import PinsToSeamsApp

    running = tablet.Tablet(window, folder)
    hand = running(PinsToSeamsApp(folder))
    hand.settle()
    roll = hand.ids.clients
    steps = [number / 200 for number in range(200)]
    print(_said("scrolling, a frame", [_timed(hand, _scrolled(roll, step)) for step in steps]))
    field = hand.screen.search.ids.field
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


def _print_fittings(window, folder: Path) -> None:
    """Print what the demo takes at a fitting, and the fishtail gown with twelve pins."""
    from core.store.clients import Store

    gown = fishtail_with_twelve_pins().data
    with Store(folder) as store:
        store.save(gown)
    for name, client in (("demo", DEMO_ID), ("gown", gown["client"]["id"])):
        _print_fitting(window, folder, name, client)


def _print_fitting(window, folder: Path, name: str, client: str) -> None:
    from screens.app import PinsToSeamsApp
    from screens.fitting_page import Chosen

    running = tablet.Tablet(window, folder)
    hand = running(PinsToSeamsApp(folder))
    room = hand.app.room
    room.open_client(client, "fitting", Chosen(moment="pin"))
    hand.settle()
    places = _down_a_side_seam(hand.ids.desk.figure)
    print(_said(f"{name}: a pin placed", [_touched(hand, place) for place in places]))
    room.go("fitting", Chosen(moment="read"))
    hand.settle()
    again = [_timed(hand, hand.window.canvas.ask_update) for _ in range(20)]
    print(_said(f"{name}: the same drawn again", again))
    reads = [_timed(hand, partial(room.view.step_pin, steps)) for steps in (1, -1) * 10]
    print(_said(f"{name}: a step of a read pin", reads))
    heads = _heads(hand.ids.desk.figure)
    print(_said(f"{name}: a pin taken in hand", [_touched(hand, head) for head in heads]))
    room.go("sewing")
    hand.settle()
    done = []
    while not room.view.page.is_over:
        done.append(_timed(hand, room.view.done))
    print(_said(f"{name}: a step sewn", done))
    print(_said(f"{name}: a step back", [_timed(hand, room.view.back) for _ in done]))
    running.stop()


def _down_a_side_seam(figure, count: int = 10):
    """Return places down a side seam, in the figure's own coordinates."""
    seam = next(line for line in figure.worn.lines if line.place == "side")
    top, bottom = seam.points[0][1], seam.points[-1][1]
    heights = [top + (bottom - top) * (number + 1) / (count + 2) for number in range(count)]
    return [figure._faces[seam.face].at((seam.x(y), y)) for y in heights]


def _heads(figure):
    """Return where the heads of the pins are, in the figure's own coordinates."""
    return [figure._where(pin.where, pin.side)[0] for pin in figure.pins]


def _touched(hand, spot) -> float:
    """Return the seconds from a finger that lets go of the figure to the frame that shows it.

    What it placed is taken back again.
    """
    figure, view = hand.ids.desk.figure, hand.app.room.view
    finger = tablet.Finger(hand, *figure.to_window(*spot)).down()
    before = len(view.bench.fitting.pins)
    begun = perf_counter()
    finger.up()
    passed = perf_counter() - begun
    if len(view.bench.fitting.pins) > before:
        hand.app.room.undo()
    hand.frames(3)
    return passed


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
