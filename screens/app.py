"""The app: it wires the store, the shared bench and the screens together."""

from pathlib import Path
from typing import Any

from kivy.app import App
from kivy.core.window import Window
from kivy.uix.screenmanager import NoTransition, ScreenManager

from core.memory import settle
from core.store.clients import Store
from screens.bench import Bench
from screens.changes import ChangesScreen
from screens.empty import EmptyScreen

TITLE = "Pins to Seams"


class PinsToSeamsApp(App):
    """The whole app on one folder of data."""

    def __init__(self, folder: Path, **kwargs: Any) -> None:
        super().__init__(title=TITLE, **kwargs)
        self.bench = Bench(Store(folder))

    def build(self) -> ScreenManager:
        Window.softinput_mode = "below_target"
        screens = ScreenManager(transition=NoTransition())
        screens.add_widget(EmptyScreen(name="empty", bench=self.bench))
        screens.add_widget(ChangesScreen(name="changes", bench=self.bench))
        self.bench.bind(is_empty=self._turn)
        self.root = screens
        self._turn()
        return screens

    def on_start(self) -> None:
        settle()

    def on_pause(self) -> bool:
        return True  # everything is saved at each touch

    def _turn(self, *_: object) -> None:
        self.root.current = "empty" if self.bench.is_empty else "changes"
