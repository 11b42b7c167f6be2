"""A tablet for tests: its sizes, its clock, a finger, a hand that uses it, and pictures.

The environment is set before Kivy is first imported, so import this module first.
"""

import atexit
import gc
import os
import shutil
import tempfile
import time
from pathlib import Path

_home = tempfile.mkdtemp(prefix="tablet-")
atexit.register(shutil.rmtree, _home, ignore_errors=True)
os.environ.update(
    KIVY_HOME=_home,
    KIVY_NO_ARGS="1",  # or Kivy eats the test runner's command line
    KIVY_NO_CONFIG="1",
    KIVY_NO_FILELOG="1",
    KIVY_LOG_MODE="PYTHON",
    KIVY_WINDOW="sdl2",
    KIVY_TEXT="sdl2",
    KIVY_CLIPBOARD="dummy",
    KIVY_METRICS_FONTSCALE="1",
    SDL_AUDIODRIVER="dummy",
)
if not os.environ.get("KIVY_TEST_SHOW"):
    os.environ["SDL_VIDEODRIVER"] = "offscreen"
    os.environ["LIBGL_ALWAYS_SOFTWARE"] = "1"  # the same pixels everywhere

SCREENS = {
    "landscape": (1280, 800, 1.0),
    "portrait": (800, 1280, 1.0),
    "dense": (2560, 1600, 2.0),
    "dense portrait": (1600, 2560, 2.0),
}
"""Pixels wide, pixels high, density."""

FRAME = 1 / 60

KEYS = {"back": 27, "enter": 13, "tab": 9, "space": 32, "page up": 280, "page down": 281,
        "backspace": 8, "delete": 127}  # fmt: skip


class StepClock:
    """Time that moves only when a test lets a frame pass.

    Kivy's own clock and the few modules that read the wall clock are given this one.
    """

    WALL = ("kivy.effects.kinetic", "kivy.effects.scroll", "kivy.input.motionevent",
            "kivy.input.postproc.doubletap", "kivy.input.postproc.tripletap",
            "kivy.uix.behaviors.button")  # fmt: skip

    def __init__(self):
        self.now = 1000.0

    def __call__(self):
        return self.now

    def install(self):
        import importlib

        from kivy.clock import Clock

        Clock._max_fps = 0
        Clock.time = self
        Clock._start_tick = Clock._last_tick = self.now
        for name in self.WALL:
            module = importlib.import_module(name)
            assert hasattr(module, "time"), name
            module.time = self


def _configure():
    """Say how large the window is to be, before anything imported can open it in Kivy's own size.

    It is as large as the largest screen: its buffer never grows again.  Kivy's rules are those
    that the app has.
    """
    from screens.kivy_rules import read_few_rules

    read_few_rules()
    from kivy.config import Config

    side = max(max(width, height) for width, height, _ in SCREENS.values())
    Config.set("graphics", "width", str(side))
    Config.set("graphics", "height", str(side))
    Config.set("graphics", "maxfps", "0")
    Config.set("graphics", "multisamples", "0")
    Config.remove_section("input")
    Config.add_section("input")


_configure()


def open_window():
    """Open the one window of the process."""
    from kivy.base import EventLoop, ExceptionHandler, ExceptionManager
    from kivy.core.window import Window

    class Fail(ExceptionHandler):
        """An error inside the app fails the test."""

        def handle_exception(self, inst):
            return ExceptionManager.RAISE

    ExceptionManager.add_handler(Fail())
    EventLoop.ensure_window()
    Window.close = lambda *_: None  # an app must not take the only window with it
    Window.flips = 0
    Window.bind(on_flip=_count_flip, on_draw=_draw_small)
    Window.looked_at = bool(os.environ.get("KIVY_TEST_SHOW"))
    Window.step_clock = StepClock()
    Window.step_clock.install()
    _settle_once()
    return Window


def _settle_once():
    """Freeze what lives as long as the tests; an app that froze its own would never go."""
    import screens.app

    screens.app.settle = lambda: None
    gc.collect()
    gc.freeze()


def _count_flip(window):
    window.flips += 1


def _draw_small(window):
    """Draw what nobody looks at into one pixel: all the work of the app, none of the filling.

    Software fills the millions of pixels of a dense screen; a picture is filled whole.
    """
    from kivy.graphics.opengl import glViewport

    glViewport(0, 0, *(window.system_size if window.looked_at else (1, 1)))


class Finger:
    """One finger; its touches take the same road as those of a real screen."""

    _count = 0

    def __init__(self, hand, x, y):
        from kivy.input.motionevent import MotionEvent

        class FingerTouch(MotionEvent):
            def depack(self, args):
                self.sx, self.sy = args[:2]
                self.profile = ("pos",)
                super().depack(args)

        Finger._count += 1
        self.hand = hand
        self.touch = FingerTouch("finger", Finger._count, self._share(x, y),
                                 is_touch=True, type_id="touch")  # fmt: skip

    def _share(self, x, y):
        width, height = self.hand.window.size
        return x / max(width - 1.0, 1.0), y / max(height - 1.0, 1.0)

    def _send(self, kind):
        self.hand.loop._dispatch_input(kind, self.touch)
        self.hand.frames(1)
        return self

    def down(self):
        return self._send("begin")

    def move(self, x, y):
        self.touch.move(self._share(x, y))
        return self._send("update")

    def up(self):
        self.touch.update_time_end()
        return self._send("end")


class Hand:
    """What a test holds: the app, its window, a hand to use it and an eye on it."""

    def __init__(self, app, window, loop, pictures):
        self.app, self.window, self.loop, self.pictures = app, window, loop, pictures

    @property
    def screen(self):
        return self.app.root.current_screen

    @property
    def ids(self):
        return self.screen.ids

    def frames(self, count=1):
        from kivy.graphics.opengl import glFinish

        for _ in range(count):
            self.window.step_clock.now += FRAME
            before = self.window.flips
            self.loop.idle()
            if self.window.flips != before:
                glFinish()  # or software drawing queues up and is paid for later

    def settle(self, quiet=5, most=600):
        """Let frames pass until nothing has been redrawn for a few of them."""
        still = 0
        for _ in range(most):
            before = self.window.flips
            self.frames(1)
            still = 0 if self.window.flips != before else still + 1
            if still >= quiet:
                return
        raise AssertionError("still moving")

    def see(self, widget):
        """Scroll until the widget is in sight, as a person would before touching it."""
        from kivy.uix.recycleview import RecycleView  # its rows are in sight or nowhere
        from kivy.uix.scrollview import ScrollView

        parent = widget.parent
        while parent is not None and parent is not self.window:
            if isinstance(parent, ScrollView) and not isinstance(parent, RecycleView):
                parent.scroll_to(widget, padding=0, animate=False)
                self.frames(2)
            parent = parent.parent

    def tap(self, target, hold=FRAME):
        """Touch a widget at its middle, or a place in the window."""
        if not isinstance(target, tuple):
            self.see(target)
            target = target.to_window(*target.center)
        finger = Finger(self, *target).down()
        self.frames(max(0, round(hold / FRAME) - 1))
        finger.up()
        self.frames(2)

    def drag(self, start, end, steps=8):
        finger = Finger(self, *start).down()
        for step in range(1, steps + 1):
            finger.move(*(a + (b - a) * step / steps for a, b in zip(start, end, strict=True)))
        finger.up()
        self.frames(2)

    def all(self, kind, root=None):
        """Every widget of a kind, as it stands on the screen."""
        return [widget for widget in (root or self.screen).walk() if isinstance(widget, kind)]

    def texts(self):
        """Every text that can be seen, or scrolled to."""
        from screens.parts.words import Words

        return [words.text for words in self.all(Words) if words.text]

    def key(self, name, *held):
        """Press a key while others are held, on the road a real keyboard takes."""
        code, window = KEYS.get(name) or ord(name), self.loop.window
        text = chr(code) if code < 128 else ""
        window._modifiers = list(held)
        if not window.dispatch("on_key_down", code, 0, text, list(held)):
            window.dispatch("on_keyboard", code, 0, text, list(held))
        window.dispatch("on_key_up", code, 0)
        window._modifiers = []
        self.frames(1)

    def type(self, text):
        """Type into whatever has the keyboard."""
        for sign in text:
            self.loop.window.dispatch("on_textinput", sign)
        self.frames(1)

    def wait(self, most=3000):
        """Let frames pass until nothing is done aside any more."""
        for _ in range(most):
            if not self.app.aside.busy:
                self.frames(2)
                return
            time.sleep(0.005)  # the thread aside keeps real time
            self.frames(1)
        raise AssertionError("still busy aside")

    def turn(self, screen):
        """Turn the tablet; whatever nobody holds any more goes before and after."""
        gc.collect()
        self.window.size = SCREENS[screen][:2]
        self.settle()
        gc.collect()

    def picture(self, name=""):
        """Return what the window shows as a picture, and keep it where it is asked for."""
        from kivy.graphics.opengl import GL_RGBA, GL_UNSIGNED_BYTE, glFinish, glReadPixels
        from PIL import Image

        self.frames(2)
        looked_at, self.window.looked_at = self.window.looked_at, True
        self.window.canvas.ask_update()
        self.window.dispatch("on_draw")
        glFinish()
        self.window.looked_at = looked_at
        width, height = self.window.system_size
        raw = glReadPixels(0, 0, width, height, GL_RGBA, GL_UNSIGNED_BYTE)
        image = Image.frombytes("RGBA", (width, height), raw)
        image = image.transpose(Image.Transpose.FLIP_TOP_BOTTOM).convert("RGB")
        if name:
            self.pictures.mkdir(parents=True, exist_ok=True)
            image.save(self.pictures / f"{name}.png")
        return image


class Tablet:
    """Starts an app as ``App.run`` does, without its loop, and clears away after it."""

    def __init__(self, window, folder):
        from kivy.clock import Clock

        keep = os.environ.get("KEEP_PICTURES")
        self.window = window
        self.pictures = Path(keep) if keep else folder / "pictures"
        self.app = self.hand = None
        self._events_before = set(map(id, Clock.get_events()))

    def __call__(self, app, screen="landscape"):
        from kivy.base import EventLoop, runTouchApp
        from kivy.metrics import Metrics

        assert self.app is None, "stop the app before it first"
        width, height, density = SCREENS[screen]
        Metrics.density = density
        Metrics.dpi = 160 * density if density > 1 else 96
        if tuple(self.window.system_size) != (width, height):
            self.window.size = (width, height)
        EventLoop.quit = False
        app._run_prepare()
        runTouchApp(embedded=True)
        self.app = app
        self.hand = hand = Hand(app, self.window, EventLoop, self.pictures)
        hand.frames(3)
        assert tuple(self.window.system_size) == (width, height)
        return hand

    def stop(self):
        if self.app is None:
            return
        try:
            self.app.dispatch("on_stop")
        finally:
            self._clear_away()  # or one test that fails takes every later one with it

    def kill(self):
        """End the app as a dead battery does: it is told nothing, and its folder is free."""
        store = self.app.entry._store
        self.window.unbind(on_keyboard=self.app._key)
        self._clear_away()
        if store is not None:
            store._lock.release(force=True)  # the system does that for a process that is gone

    def _clear_away(self):
        from kivy.app import App
        from kivy.base import EventLoop

        self.app = None
        for child in list(self.window.children):
            self.window.remove_widget(child)
        self.window.release_all_keyboards()
        self._forget_touches(EventLoop)
        self._cancel_what_was_planned()
        App._running_app = None
        EventLoop.stop()
        gc.collect()

    def _forget_touches(self, loop):
        loop.input_events.clear()
        loop.me_list.clear()
        for module in loop.postproc_modules:
            for name in ("touches", "last_touches"):
                if hasattr(module, name):
                    getattr(module, name).clear()

    def _cancel_what_was_planned(self):
        """Whatever outlives its app would run inside the next test."""
        from kivy.animation import Animation
        from kivy.clock import Clock

        for animation in list(Animation._instances):
            for widget in [entry["widget"] for entry in animation._widgets.values()]:
                animation.cancel(widget)
        for event in Clock.get_events():
            if id(event) not in self._events_before:
                event.cancel()
