"""Words said aloud by the device itself, beside the touch thread; nothing leaves the device.

The voice of the platform does it (through plyer): Android and iOS have one, a desktop may.
"""

import threading
from collections.abc import Callable
from typing import Literal

from kivy.clock import Clock
from kivy.event import EventDispatcher
from kivy.properties import BooleanProperty
from plyer import tts
from plyer.facades import TTS

Said = Literal["done", "not here", "refused"]


def can_speak() -> bool:
    """Tell whether the device seems to have a voice; only trying it shows whether it speaks."""
    try:
        return type(tts.speak.__self__) is not TTS
    except Exception:  # whatever the platform lacks: then there is no voice
        return False


def say(text: str) -> Said:
    """Say a text and wait until it is said; never raises.

    ``not here``: this device has no voice; ``refused``: it has one that would not speak.
    """
    try:
        tts.speak(message=text)
    except NotImplementedError:
        return "not here"
    except Exception:  # a voice fails in as many ways as there are platforms
        return "refused"
    return "done"


class Voice(EventDispatcher):
    """One voice for the whole app: the newest words wait, older ones that wait are dropped.

    ``is_here`` turns false, on the touch thread, when the device turns out to have no voice.
    """

    is_here = BooleanProperty(False)

    def __init__(
        self,
        say: Callable[[str], Said] = say,
        can_speak: Callable[[], bool] = can_speak,
        **kwargs: object,
    ) -> None:
        super().__init__(**kwargs)
        self._say = say
        self._waiting = ""
        self._lock = threading.Lock()
        self._thread: threading.Thread | None = None
        self.is_here = can_speak()

    def say(self, text: str) -> None:
        """Say these words as soon as what is being said is over."""
        with self._lock:
            self._waiting = text
            if self.is_here and self._thread is None:
                self._thread = threading.Thread(target=self._speak, name="voice", daemon=True)
                self._thread.start()

    def hush(self) -> None:
        """Say nothing of what waits; the words under way are said to the end."""
        with self._lock:
            self._waiting = ""

    def _speak(self) -> None:
        while text := self._next():
            if self._say(text) == "not here":
                Clock.schedule_once(self._is_not_here)

    def _next(self) -> str:
        with self._lock:
            text, self._waiting = self._waiting, ""
            if not text:
                self._thread = None
            return text

    def _is_not_here(self, _passed: float) -> None:
        self.is_here = False
