"""The app: it wires the way in, the shared bench and the screens together."""

import time
from collections.abc import Callable
from pathlib import Path
from typing import Any

from kivy.app import App
from kivy.clock import Clock
from kivy.core.window import Window
from kivy.uix.screenmanager import NoTransition, ScreenManager

from core.memory import settle
from screens.aside import Aside
from screens.bench import Bench
from screens.changes import ChangesScreen
from screens.closed import ClosedScreen
from screens.empty import EmptyScreen
from screens.entry import Entry
from screens.keys import verb_of
from screens.passcode import PasscodeScreen

TITLE = "Pins to Seams"


class PinsToSeamsApp(App):
    """The whole app on one folder of data; ``now`` is the clock on the wall, in seconds."""

    def __init__(self, folder: Path, now: Callable[[], float] = time.time, **kwargs: Any) -> None:
        super().__init__(title=TITLE, **kwargs)
        self.aside = Aside()
        self.bench = Bench(self.aside)
        self.entry = Entry(folder, self.bench, self.aside, now)

    def build(self) -> ScreenManager:
        Window.softinput_mode = "below_target"
        bench, entry, aside = self.bench, self.entry, self.aside
        screens = ScreenManager(transition=NoTransition())
        screens.add_widget(ClosedScreen(name="closed", bench=bench, entry=entry))
        screens.add_widget(PasscodeScreen(name="passcode", bench=bench, entry=entry, aside=aside))
        screens.add_widget(EmptyScreen(name="empty", bench=bench))
        screens.add_widget(ChangesScreen(name="changes", bench=bench, aside=aside))
        bench.bind(is_empty=self._turn)
        entry.bind(stands=self._turn)
        self.root = screens
        self._turn()
        return screens

    def on_start(self) -> None:
        Window.bind(on_keyboard=self._key)
        Clock.schedule_once(self._open)  # from there a fault nobody foresaw is survived

    def on_pause(self) -> bool:
        self.entry.rest()
        return True  # everything else is saved at each touch

    def on_resume(self) -> None:
        self.entry.wake()

    def on_stop(self) -> None:
        Window.unbind(on_keyboard=self._key)
        self.aside.end()
        self.entry.leave()

    def _open(self, _passed: float) -> None:
        self.entry.open()
        settle()

    def _turn(self, *_: object) -> None:
        opened = "empty" if self.bench.is_empty else "changes"
        self.root.current = {"open": opened, "passcode": "passcode"}.get(
            self.entry.stands, "closed"
        )

    def _key(
        self, _window: object, key: int, _scan: int, _text: str, modifiers: list[str]
    ) -> bool:  # fmt: skip
        verb = verb_of(key, modifiers, self.bench)
        if verb is None or self.entry.stands != "open":
            return False
        verb()
        return True
