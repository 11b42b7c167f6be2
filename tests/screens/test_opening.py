"""Opening from the command line: the app, the list, help, and no display."""

import os
import subprocess
import sys
from pathlib import Path

import pytest

from core.store.clients import Store
from tests.screens import folders

ROOT = Path(__file__).resolve().parents[2]
DEMO_FILE = ROOT / "resources" / "demo" / "moss_green_sheath.json"


def run(*words, code=None, **environment):
    """Run main.py, or ``code``, as from a terminal with nothing of this test's Kivy in it."""
    plain = {key: value for key, value in os.environ.items()
             if not key.startswith(("KIVY", "SDL", "DISPLAY", "WAYLAND"))}  # fmt: skip
    what = ["-c", code] if code else ["main.py"]
    return subprocess.run([sys.executable, *what, *map(str, words)], cwd=ROOT, text=True,
                          capture_output=True, env=plain | environment, timeout=120)  # fmt: skip


@pytest.mark.parametrize(
    "environment",
    [{}, {"SDL_VIDEODRIVER": "impossible"}, {"DISPLAY": ":4711"}],
    ids=["none", "impossible driver", "display gone"],
)
@pytest.mark.skipif(not sys.platform.startswith("linux"), reason="how Linux finds a display")
def test_without_a_display_there_is_one_sentence_and_an_exit_code(tmp_path, environment):
    done = run("--folder", tmp_path, **environment)
    assert done.returncode == 3
    assert done.stderr.count("\n") == 1
    assert "needs a display" in done.stderr
    assert done.stdout == ""


def test_help_says_how_to_start():
    done = run("--help")
    assert done.returncode == 0
    assert "plan FILE" in done.stdout


def test_words_that_are_not_understood_are_repeated():
    done = run("draw", "me")
    assert done.returncode == 2
    assert "draw me" in done.stderr


LOOKED_AT = """
import sys
import main
from screens import opening

open_window = opening.open_window

def then_look():
    open_window()
    from kivy.app import App
    from kivy.clock import Clock

    frames = iter(range(1000))

    def each_frame(_):
        if next(frames) == 10:  # everything has its place by now
            app = App.get_running_app()
            print([part.text for part in app.root.current_screen.walk() if hasattr(part, "text")])
            app.stop()

    Clock.schedule_interval(each_frame, 0)

opening.open_window = then_look
sys.exit(main.main(sys.argv[1:]))
"""
OFFSCREEN = {"SDL_VIDEODRIVER": "offscreen", "LIBGL_ALWAYS_SOFTWARE": "1"}


def test_a_folder_that_cannot_be_made_is_told_on_the_screen(tmp_path):
    (tmp_path / "file").write_text("")
    done = run("--folder", tmp_path / "file" / "clients", code=LOOKED_AT, **OFFSCREEN)
    assert done.returncode == 0, done.stderr
    assert "The folder of the clients cannot be changed" in done.stdout
    assert "Try again" in done.stdout
    assert done.stderr == ""


def test_a_second_copy_on_the_same_clients_is_told_on_the_screen(tmp_path):
    with folders.in_use(tmp_path) as store:
        done = run("--folder", tmp_path, code=LOOKED_AT, **OFFSCREEN)
        assert store.clients()
    assert done.returncode == 0, done.stderr
    assert "open already" in done.stdout
    assert done.stderr == ""


def test_without_a_folder_the_clients_lie_where_this_device_keeps_such_things(tmp_path):
    done = run(code=LOOKED_AT, HOME=str(tmp_path),
               XDG_DATA_HOME=str(tmp_path / "kept" / "here"), **OFFSCREEN)  # fmt: skip
    assert done.returncode == 0, done.stderr
    assert folders.DEMO["client"]["name"] in done.stdout
    assert list(tmp_path.glob("**/pins-to-seams/clients/*/client.json"))
    with Store(next(tmp_path.glob("**/pins-to-seams"))) as store:  # the app has let go of it
        assert store.clients()


BROKEN_OPENING = LOOKED_AT.replace(
    "    frames =",
    """    from screens import entry

    def broken(folder, **_):
        raise RuntimeError("a fault nobody foresaw")

    entry.Store = broken
    frames =""",
)


def test_a_fault_nobody_foresaw_in_opening_is_told_on_the_screen(tmp_path):
    done = run("--folder", tmp_path, code=BROKEN_OPENING, **OFFSCREEN)
    assert done.returncode == 0, done.stderr
    assert "Something went wrong inside the app" in done.stdout
    assert "Try again" in done.stdout
    assert "RuntimeError" in (tmp_path / "faults-sealed.txt").read_text(encoding="utf-8")


def test_the_list_is_printed_without_any_screen():
    code = (
        "import sys, main\n"
        "code = main.main(['plan', sys.argv[1]])\n"
        "sys.exit(code or 9 * ('kivy' in sys.modules))"
    )
    done = run(DEMO_FILE, code=code)
    assert done.returncode == 0, done.stderr
    assert "side seam" in done.stdout.lower()


FAULTY = """
import sys
from pathlib import Path
from tests.screens import folders, tablet
window = tablet.open_window()
from kivy.base import ExceptionManager
from kivy.clock import Clock
from screens import opening
from screens.app import PinsToSeamsApp
from screens.changes_view import ChangesView
from screens.last_resort import LastResort

folder = Path(sys.argv[1])
app = PinsToSeamsApp(folder)
ExceptionManager.add_handler(LastResort(app.entry, app.room))

def broken(self, steps):
    try:
        {}["Ottoline"]
    except KeyError:
        raise RuntimeError(f"a fault nobody foresaw, with {app.room.view.title_line}")

since = iter(range(100_000))  # frames since there is something to touch

def each_frame(_):
    if app.entry.stands == "passcode" and not app.aside.busy:
        app.entry.try_passcode(folders.PASSCODE)
    if app.entry.stands != "open":
        return
    frame = next(since)
    if frame == 0:
        app.room.open_client(folders.DEMO_ID, "changes")
    if frame == 10:  # everything has its place by now
        touch()
    elif frame == 20:
        print("TROUBLE", app.room.trouble)
        app.stop()

def touch():
    from kivy.base import EventLoop
    ChangesView.step_pin = broken
    key = app.root.current_screen.ids.editor.children[0].ids.more
    hand = tablet.Hand(app, window, EventLoop, folder)
    finger = tablet.Finger(hand, *key.to_window(*key.center))
    for kind in ("begin", "end"):
        EventLoop.input_events.append((kind, finger.touch))

Clock.time = __import__("time").perf_counter
Clock.schedule_interval(each_frame, 0)
app.run()
print("CLOSED")
"""


def test_a_touch_that_raises_is_written_down_said_plainly_and_survived(tmp_path):
    done = run(tmp_path, code=FAULTY)
    assert done.returncode == 0, done.stderr
    assert "TROUBLE Something went wrong" in done.stdout
    assert "CLOSED" in done.stdout
    assert "a fault nobody foresaw" in (tmp_path / "faults.txt").read_text(encoding="utf-8")
    assert list((tmp_path / "clients").glob("*/client.json"))


def test_of_sealed_clients_a_fault_tells_where_it_was_and_nothing_of_them(tmp_path):
    folders.sealed(tmp_path)
    (tmp_path / "faults.txt").write_text("from before there was a passcode: Ottoline")
    done = run(tmp_path, code=FAULTY)
    assert done.returncode == 0, done.stderr
    assert "TROUBLE Something went wrong" in done.stdout
    told = (tmp_path / "faults-sealed.txt").read_text(encoding="utf-8")
    assert "RuntimeError" in told
    assert "KeyError" in told
    assert "in broken" in told
    for path in (path for path in tmp_path.rglob("*") if path.is_file()):
        assert b"Ottoline" not in path.read_bytes(), path


@pytest.mark.skipif(os.name != "posix", reason="a pipe that is closed early")
def test_words_that_nobody_reads_to_the_end_end_quietly():
    """As under ``| head``: what it writes into is closed already."""
    read, write = os.pipe()
    os.close(read)
    try:
        done = subprocess.run([sys.executable, "main.py", "--help"], cwd=ROOT,
                              stdout=write, stderr=subprocess.PIPE, timeout=60)  # fmt: skip
    finally:
        os.close(write)
    assert (done.returncode, done.stderr) == (0, b"")
