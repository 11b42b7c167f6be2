"""A keyboard instead of a finger: Tab leads from key to key, Enter presses, a ring shows where."""

from collections.abc import Iterator
from typing import Any

from kivy.clock import Clock
from kivy.core.window import Window
from kivy.graphics import Color, Line
from kivy.metrics import dp
from kivy.uix.behaviors import ButtonBehavior, FocusBehavior
from kivy.uix.recycleview import RecycleView
from kivy.uix.recycleview.layout import RecycleLayoutManagerBehavior
from kivy.uix.scrollview import ScrollView
from kivy.uix.widget import Widget

from screens.parts.upright import bring_into_sight
from screens.tokens import CORNER, colours

TAB, ENTER, SPACE, PAGE_UP, PAGE_DOWN = 9, (13, 271), 32, 280, 281
AWAY, STROKE = 4, 3
"""How far the ring lies from what it is round, and how thick it is (dp)."""


class Focus:
    """Where the keyboard is on the screen that ``root`` shows; a touch puts it away."""

    def __init__(self, root: Any) -> None:
        self._root = root
        self.at: Widget | None = None
        self._follow = Clock.create_trigger(self._draw, 0, interval=True)
        with root.canvas.after:
            self._colour = Color(0, 0, 0, 0)
            self._ring = Line(width=1)
        Window.bind(on_touch_down=self._away)

    def leave(self) -> None:
        Window.unbind(on_touch_down=self._away)
        self.put_away()

    def put_away(self) -> None:
        """Show no ring any more."""
        self.at = None
        self._follow.cancel()
        self._colour.rgba = (0, 0, 0, 0)

    def key(self, key: int, modifiers: list[str]) -> bool:
        """Do what a key means to the ring; tell whether it means anything."""
        if key == TAB:
            self.move(-1 if "shift" in modifiers else 1)
        elif key in (*ENTER, SPACE) and self.at is not None and self._is_here(self.at):
            self.press()
        elif key in (PAGE_UP, PAGE_DOWN):
            self._page(1 if key == PAGE_UP else -1)
        else:
            return False
        return True

    def typing(self) -> FocusBehavior | None:
        """Return the field that has the keyboard, if one has."""
        screen = self._root.current_screen
        for each in screen.walk() if screen else ():
            if isinstance(each, FocusBehavior) and each.focus:
                return each
        return None

    def move(self, steps: int) -> None:
        """Go on to the next thing that can be touched, or back to the one before."""
        there = list(targets(self._root.current_screen))
        if not there:
            return
        field = self.typing()
        now = field or self.at
        at = there.index(now) + steps if now in there else (0 if steps > 0 else -1)
        if field is not None:
            field.focus = False
        self._light(there[at % len(there)])

    def press(self) -> None:
        """Press what the ring is round, as a finger would; at once, before she is elsewhere."""
        self.at.trigger_action(0)

    def _light(self, target: Widget) -> None:
        if isinstance(target, FocusBehavior):
            self.put_away()
            target.focus = True  # it shows by itself that it has the keyboard
            return
        self.at = target
        if not _in_a_roll(target):
            bring_into_sight(target)
        self._draw()
        self._follow()

    def _is_here(self, target: Widget) -> bool:
        return not target.disabled and target in list(targets(self._root.current_screen))

    def _draw(self, *_: object) -> None:
        if self.at is None or self.at.get_root_window() is None:
            self.put_away()
            return
        x, y = self.at.to_window(*self.at.pos)
        box = (x - dp(AWAY), y - dp(AWAY), self.at.width + dp(2 * AWAY),
               self.at.height + dp(2 * AWAY), dp(CORNER + AWAY))  # fmt: skip
        ink = tuple(colours.ink)
        if tuple(self._colour.rgba) != ink:
            self._colour.rgba = ink
            self._ring.width = dp(STROKE) / 2
        if getattr(self, "_box", None) != box:
            self._box = box
            self._ring.rounded_rectangle = box

    def _page(self, way: int) -> None:
        """Scroll the list that the ring is in, or else the largest one, by almost a page."""
        view = _scrolled(self.at) or _largest(self._root.current_screen)
        if view is None or view.viewport_size[1] <= view.height:
            return
        share = 0.9 * view.height / (view.viewport_size[1] - view.height)
        view.scroll_y = min(1.0, max(0.0, view.scroll_y + way * share))

    def _away(self, *_: object) -> None:
        self.put_away()


def targets(widget: Widget | None) -> Iterator[Widget]:
    """Yield what can be touched on a screen, in the order it is read."""
    if widget is None or widget.disabled or not widget.opacity:
        return
    if isinstance(widget, ButtonBehavior | FocusBehavior) and widget.width and widget.height:
        yield widget
    children = list(reversed(widget.children))
    if isinstance(widget, RecycleLayoutManagerBehavior):
        children.sort(key=lambda child: -child.y)  # they are handed on in any order
    for child in children:
        yield from targets(child)


def _in_a_roll(widget: Widget) -> bool:
    return isinstance(_scrolled(widget), RecycleView)


def _scrolled(widget: Widget | None) -> ScrollView | None:
    while widget is not None and not isinstance(widget, ScrollView):
        widget = widget.parent if isinstance(widget.parent, Widget) else None
    return widget


def _largest(screen: Widget) -> ScrollView | None:
    views = [each for each in screen.walk() if isinstance(each, ScrollView)]
    return max(views, key=lambda view: view.width * view.height, default=None)
