"""The way in to the clients: their folder is taken, its seal opened, and both given back."""

import time
from collections.abc import Callable
from functools import partial
from pathlib import Path
from typing import Any

from kivy.clock import Clock
from kivy.event import EventDispatcher
from kivy.properties import OptionProperty, StringProperty

from core.errors import WorkroomError
from core.seal import Seal, unwrap
from core.store.clients import Locked, Store
from core.store.stands import read_stands
from screens.aside import Aside, Progress
from screens.sentence import sentence
from screens.workroom import Workroom

LOOK_AFTER_S = 0.1
"""When the clients' files are looked at, after the first screen."""

LOCKED_AFTER_S = 5 * 60
"""How long the app may rest before a sealed store asks for the passcode again."""

STANDS = ("opening", "passcode", "refused", "open", "working")


class NotNow(WorkroomError):
    """Something else is being done, and must come to its end first."""


class Entry(EventDispatcher):
    """Holds the store while it is open; ``words`` say what stands in the way."""

    stands = OptionProperty("opening", options=STANDS)
    words = StringProperty("")

    def __init__(
        self,
        folder: Path,
        room: Workroom,
        aside: Aside,
        now: Callable[[], float] = time.time,
        **kwargs: Any,
    ) -> None:
        super().__init__(**kwargs)
        self.folder = folder
        self._room = room
        self._aside = aside
        self._now = now
        self._store: Store | None = None
        self._rested_at: float | None = None
        self._look_soon = Clock.create_trigger(self._look, LOOK_AFTER_S)
        room.way_in = self

    @property
    def may_be_secret(self) -> bool:
        """Tell whether what is shown may be written down nowhere but in the store."""
        return self._store is None or self._store.seal is not None

    def open(self) -> None:
        """Take the folder and open the first screen, or say what stands in the way."""
        self.leave()
        self._enter(partial(Store, self.folder, looks_later=True))

    def try_passcode(self, passcode: str) -> None:
        """Try a passcode aside; a wrong one is told, and nothing is changed by it."""
        if self._aside.busy:
            return
        try:
            stands = read_stands(self.folder)
        except WorkroomError as error:
            self._refuse(error)
            return
        if stands is None or stands.wrapped is None:
            self.open()
            return
        wrapped = stands.wrapped
        self.words = ""
        self._aside.run(
            "Trying the passcode", lambda _: unwrap(wrapped, passcode), self._unsealed, self._tell
        )

    def rest(self) -> None:
        """The device may stop the program now: everything is saved but the list of clients."""
        self._rested_at = self._now()
        if self._store is not None:
            self._store.rest()

    def wake(self) -> None:
        """Ask for the passcode again after a long rest; a clock set back counts as long."""
        rested_at, self._rested_at = self._rested_at, None
        if rested_at is None or self._store is None or self._store.seal is None:
            return
        if not 0 <= self._now() - rested_at <= LOCKED_AFTER_S:
            self.open()

    def work(
        self,
        words: str,
        work: Callable[[Store, Progress], Any],
        then: Callable[[Any], None],
        *,
        replaces: bool = False,
    ) -> None:
        """Do something with all clients aside; ``then`` is given what came of it.

        The folder is given to the thread that does it and taken back after, so that the two
        never share a store; meanwhile only its progress is shown.  ``replaces``: the clients may
        be others after it, and what was done before cannot be taken back.
        """
        store = self._store
        if store is None or self._aside.busy:
            self._room.say(NotNow("Something else is still being done: touch it again after"))
            return
        if not self._room.settle():
            return
        seal = store.seal
        self._store, self.words, self.stands = None, words, "working"
        store.close()

        def alone(progress: Progress) -> tuple[Any, Seal | None]:
            with Store(self.folder, seal=seal) as own:
                return work(own, progress), own.seal

        def done(answer: tuple[Any, Seal | None]) -> None:
            if self._take_back(answer[1], replaces):
                then(answer[0])

        def failed(error: WorkroomError) -> None:
            if self._take_back(seal, False):
                self._room.say(error)

        self._aside.run(words, alone, done, failed, lasting=True)

    def _take_back(self, seal: Seal | None, replaced: bool) -> bool:
        """Take the folder again; tell whether it could be had."""
        self.words = ""
        self._enter(partial(Store, self.folder, seal=seal), goes_on=not replaced)
        return self.stands == "open"

    def leave(self) -> None:
        """Give the folder back, and hold nothing of any client."""
        self._aside.cancel()
        if self._store is not None:
            self._room.settle()
        self._room.put_away()
        self.words, self.stands = "", "opening"
        store, self._store = self._store, None
        if store is not None:
            store.close()

    def _unsealed(self, seal: Seal) -> None:
        self._enter(partial(Store, self.folder, seal=seal, looks_later=True))

    def _tell(self, error: WorkroomError) -> None:
        self.words = sentence(error)

    def _enter(self, take: Callable[[], Store], *, goes_on: bool = False) -> None:
        try:
            self._store = take()
        except Locked:
            self._room.put_away()
            self.words, self.stands = "", "passcode"
        except WorkroomError as error:
            self._room.put_away()
            self._refuse(error)
        else:
            if goes_on:
                self._room.go_on_with(self._store)
            else:
                self._room.put_away()
                self._room.take_store(self._store)
            self.stands = "open"
            self._look_soon()

    def _look(self, _passed: float) -> None:
        """Look at the clients' files once the first screen is seen: there may be thousands."""
        store = self._store
        if store is None:
            return
        changed: list[bool] = []
        self._room.attempt(lambda: changed.append(store.look()), clears=False)
        if any(changed):
            self._room.refresh()

    def _refuse(self, error: WorkroomError) -> None:
        self._tell(error)
        self.stands = "refused"
