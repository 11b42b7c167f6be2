"""Slow work beside the touch thread: one thing after the other, with progress, and cancelled.

Only what shares nothing with the screens goes aside: a photo that is read, a passcode that is
tried.  What comes of it is handed back on the touch thread, which alone stores and shows.
"""

from collections import deque
from collections.abc import Callable
from concurrent.futures import CancelledError, Future, ThreadPoolExecutor
from typing import Any

from kivy.clock import Clock
from kivy.event import EventDispatcher
from kivy.properties import BooleanProperty, StringProperty

from core.errors import WorkroomError

Progress = Callable[[int, int], None]
"""Told how much is done, and of how much."""

SHOWN_AFTER_S = 0.4
"""What is over sooner is never shown: a line that comes and goes at once only startles."""


class Stopped(WorkroomError):
    """Work that may be broken off was broken off."""


class _Cancelled(Exception):
    """Ends work that was cancelled, the next time it tells its progress."""


class _Task:
    """One piece of work; all but its progress is touched by the touch thread only."""

    def __init__(
        self,
        words: str,
        then: Callable[[Any], None],
        otherwise: Callable[[WorkroomError], None],
        lasting: bool,
    ) -> None:
        self.lasting = lasting
        self._words = words
        self._then = then
        self._otherwise = otherwise
        self._done, self._of = 0, 0
        self._cancelled = False
        self._future: Future[Any] | None = None

    def begin(self, worker: ThreadPoolExecutor, work: Callable[[Progress], Any]) -> None:
        self._future = worker.submit(work, self._tell)

    def _tell(self, done: int, of: int) -> None:
        if self._cancelled:
            raise _Cancelled
        self._done, self._of = done, of

    @property
    def over(self) -> bool:
        return self._future is not None and self._future.done()

    @property
    def words(self) -> str:
        return f"{self._words}: {self._done} of {self._of}" if self._of else f"{self._words} …"

    def cancel(self) -> None:
        self._cancelled = True
        if self._future is not None:
            self._future.cancel()

    def hand_over(self) -> None:
        """Hand on what came of it; a fault nobody foresaw rises here, on the touch thread."""
        try:
            result = self._future.result() if self._future is not None else None
        except (_Cancelled, CancelledError):
            self._otherwise(Stopped("It was broken off, and nothing was changed by it"))
        except WorkroomError as error:
            self._otherwise(error)
        else:
            self._then(result)


class Aside(EventDispatcher):
    """The one thread aside; ``words`` say what it does once that takes a while."""

    busy = BooleanProperty(False)
    words = StringProperty("")

    def __init__(self, **kwargs: Any) -> None:
        super().__init__(**kwargs)
        self._worker = ThreadPoolExecutor(max_workers=1, thread_name_prefix="aside")
        self._tasks: deque[_Task] = deque()
        self._look = Clock.create_trigger(self._looked, 0, interval=True)
        self._for_s = 0.0

    def run(
        self,
        words: str,
        work: Callable[[Progress], Any],
        then: Callable[[Any], None],
        otherwise: Callable[[WorkroomError], None],
        *,
        lasting: bool = False,
    ) -> None:
        """Do ``work`` when its turn comes, then hand its result to one or its trouble to other.

        ``work`` is given a way to tell its progress.  What is ``lasting`` is handed back in any
        case: cancelled, as ``Stopped`` once it has come to an end.
        """
        task = _Task(words, then, otherwise, lasting)
        task.begin(self._worker, work)
        self._tasks.append(task)
        self._look()
        self._show()

    def cancel(self) -> None:
        """Hand nothing over of what was begun or waits; what cannot be broken off runs out."""
        for task in self._tasks:
            task.cancel()
        self._tasks = deque(task for task in self._tasks if task.lasting)
        self._show()

    def end(self) -> None:
        """Cancel everything and wait until the thread is done: nothing is handed over after."""
        self.cancel()
        self._tasks.clear()
        self._show()
        self._worker.shutdown()

    def _looked(self, passed_s: float) -> None:
        self._for_s += passed_s
        over = self._tasks.popleft() if self._tasks and self._tasks[0].over else None
        self._show()
        if over is not None:
            over.hand_over()

    def _show(self) -> None:
        self.busy = bool(self._tasks)
        if not self.busy:
            self._look.cancel()
            self._for_s = 0.0
        shown = self.busy and self._for_s >= SHOWN_AFTER_S
        self.words = self._tasks[0].words if shown else ""
