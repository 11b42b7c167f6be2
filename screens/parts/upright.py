"""A view that scrolls up and down, and can be asked to bring a line into sight."""

from kivy.clock import Clock
from kivy.uix.scrollview import ScrollView
from kivy.uix.widget import Widget


class Upright(ScrollView):
    """Scrolls only up and down; what is lower than its place stands at the top of it."""

    def update_from_scroll(self, *_: object) -> None:
        super().update_from_scroll()
        shown = self.children[0] if self.children else None
        if shown is not None and shown.height < self.height:
            self.g_translate.y = self.top - shown.height


def bring_into_sight(line: Widget) -> None:
    """Scroll the view that a line is in until it shows, once its size has settled."""
    Clock.schedule_once(lambda _: _bring(line), 0)


def _bring(line: Widget) -> None:
    parent = line.parent
    while parent is not None and not isinstance(parent, ScrollView):
        parent = parent.parent if isinstance(parent.parent, Widget) else None
    if parent is not None and parent.viewport_size[1] > parent.height:
        parent.scroll_to(line, padding=0, animate=False)
