"""The app: it wires the way in, the shared workroom and the screens together."""

import time
from collections.abc import Callable
from pathlib import Path
from typing import Any

from kivy.app import App
from kivy.clock import Clock
from kivy.core.window import Window
from kivy.uix.screenmanager import NoTransition, ScreenManager

from core.memory import settle
from core.settings import read_settings
from screens.aside import Aside
from screens.drawn_lines import forget_drawn
from screens.entry import Entry
from screens.fingers import let_go
from screens.focus import Focus
from screens.keys import BACK, verb_of
from screens.places import screen_of, ways
from screens.title import TITLE
from screens.tokens import colours, sizes
from screens.workroom import Workroom
from screens.worn import wear

SETTLED_AFTER_S = 1.0

ROUNDS = 60
"""How often boxes within boxes may be laid out before a frame is drawn; Kivy's own is 20."""

WAY_IN = ("passcode", "closed", "working")
"""Screens that show nothing of any client."""


class PinsToSeamsApp(App):
    """The whole app on one folder of data; ``now`` is the clock on the wall, in seconds."""

    def __init__(self, folder: Path, now: Callable[[], float] = time.time, **kwargs: Any) -> None:
        super().__init__(title=TITLE, **kwargs)
        self.aside = Aside()
        self.room = Workroom(self.aside, ways(), now)
        self.entry = Entry(folder, self.room, self.aside, now)
        self._opening_soon = Clock.create_trigger(self._show_opening)

    def build(self) -> ScreenManager:
        Window.softinput_mode = "below_target"
        Clock.max_iteration = ROUNDS  # a new screen is laid out within the frame that shows it
        self.room.settings = read_settings(self.entry.folder)
        self._wear()
        self.root = ScreenManager(transition=NoTransition())
        self.focus = Focus(self.root)
        self.room.bind(here=self._turn, settings=self._wear)
        sizes.bind(scale=self._make_anew)
        self.entry.bind(stands=self._turn)
        return self.root

    def on_start(self) -> None:
        Window.bind(on_keyboard=self._key)
        Clock.schedule_once(self._open)  # from there a fault nobody foresaw is survived
        self._turn()

    def on_pause(self) -> bool:
        self.room.settle()
        self.entry.rest()
        return True  # everything else is saved at each touch

    def on_resume(self) -> None:
        self.entry.wake()
        self._wear()
        if self.entry.stands == "open":
            self.room.refresh()  # the day may have turned meanwhile

    def on_stop(self) -> None:
        Window.unbind(on_keyboard=self._key)
        self.focus.leave()
        sizes.unbind(scale=self._make_anew)
        self.aside.end()
        self.entry.leave()

    def _open(self, _passed: float) -> None:
        self.entry.open()
        Clock.schedule_once(lambda _: settle(), SETTLED_AFTER_S)  # the first screen comes first

    def _turn(self, *_: object) -> None:
        """Show the screen that is due; each is made when it is first shown."""
        stands = self.entry.stands
        name = {"open": self.room.here, "opening": "", "refused": "closed"}.get(stands, stands)
        if stands not in ("open", "working"):
            self._clear_away()
        if stands == "opening":
            self._opening_soon()
        if name:
            self._show(name)

    def _show_opening(self, _passed: float) -> None:
        """Show that the clients are being opened, where that did not come to an end at once."""
        if self.entry.stands == "opening":
            self._show("closed")

    def _show(self, name: str) -> None:
        if not self.root.has_screen(name):
            self.root.add_widget(self._made(name))
        if self.root.current != name:
            self.focus.put_away()
            let_go()
        self.root.current = name

    def _made(self, name: str) -> Any:
        if name == "passcode":
            from screens.passcode import PasscodeScreen

            return PasscodeScreen(name=name, room=self.room, entry=self.entry)
        if name == "working":
            from screens.working import WorkingScreen

            return WorkingScreen(name=name, room=self.room, entry=self.entry)
        if name == "closed":
            from screens.closed import ClosedScreen

            return ClosedScreen(name=name, room=self.room, entry=self.entry)
        return screen_of(name, self.room)

    def _wear(self, *_: object) -> None:
        wear(self.room.settings)
        Window.clearcolor = colours.paper

    def _make_anew(self, *_: object) -> None:
        """Make the screens anew, for letters of another size."""
        self.root.clear_widgets()
        self._turn()

    def _clear_away(self) -> None:
        """Keep no screen that showed clients: what was typed there goes with it."""
        for screen in list(self.root.screens):
            if screen.name not in WAY_IN:
                self.root.remove_widget(screen)
        forget_drawn()

    def _key(
        self, _window: object, key: int, _scan: int, text: str, modifiers: list[str]
    ) -> bool:  # fmt: skip
        if key == BACK:
            self._back()
            return True
        verb = verb_of(key, modifiers, self.room)
        if verb is not None and self.entry.stands == "open":
            verb()
            return True
        if self.focus.key(key, modifiers):
            return True
        return self._key_of_screen(key, text, modifiers)

    def _key_of_screen(self, key: int, text: str, modifiers: list[str]) -> bool:
        """Offer a key to the screen: ``on_key(key, text)`` tells whether it was for it.

        What is typed into a field is not.
        """
        held = set(modifiers) - {"shift", "capslock", "numlock"}
        if held or self.focus.typing() is not None:
            return False
        return bool(self.root.current_screen.on_key(key, text or ""))

    def _back(self) -> None:
        """Go back; at the first screen a tablet shows what it showed before, and the app rests."""
        if self.entry.stands == "working":
            self.aside.cancel()
        elif self.entry.stands != "open" or not self.room.back():
            self.pause()
