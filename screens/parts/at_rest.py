"""Drawing once a frame: a place may change with every pass of the layout, and drawing is slow."""

from collections.abc import Callable

from kivy.clock import Clock

Draw = Callable[[], None]


class _AtRest:
    """What waits to be drawn, until a pass goes by in which nothing more asks for it."""

    def __init__(self) -> None:
        self._waiting: dict[Draw, None] = {}
        self._moved = False
        self._look = Clock.create_trigger(self._looked, -1)

    def draw(self, draw: Draw) -> None:
        """Call ``draw`` before the next frame, once, however often it is asked for until then."""
        self._waiting[draw] = None
        self._moved = True
        self._look()

    def _looked(self, _passed: float) -> None:
        if self._moved:
            self._moved = False
            self._look()
            return
        try:
            while self._waiting:
                self._waiting.popitem()[0]()
        finally:
            if self._waiting:  # a fault in one must not leave out the others
                self._look()


draw_at_rest = _AtRest().draw
