"""A view that scrolls up and down, and can be asked to bring a line into sight."""

from kivy.clock import Clock
from kivy.uix.scrollview import ScrollView
from kivy.uix.widget import Widget


class Upright(ScrollView):
    """Scrolls only up and down."""


def bring_into_sight(line: Widget) -> None:
    """Scroll the view that a line is in until it shows, once its size has settled."""
    Clock.schedule_once(lambda _: _bring(line), 0)


def _bring(line: Widget) -> None:
    parent = line.parent
    while parent is not None and not isinstance(parent, ScrollView):
        parent = parent.parent if isinstance(parent.parent, Widget) else None
    if parent is not None and parent.viewport_size[1] > parent.height:
        parent.scroll_to(line, padding=0, animate=False)
