"""The desk of a fitting: the figure, the moment's own part and the number keys, each in its place.

Parts are built when their moment is first shown and kept.
"""

from importlib import import_module
from typing import Any

from kivy.clock import Clock
from kivy.factory import Factory
from kivy.metrics import dp
from kivy.properties import BooleanProperty, ObjectProperty
from kivy.uix.floatlayout import FloatLayout
from kivy.uix.widget import Widget

from screens import tokens

PANELS = {
    "begin": ("fit_before", "BeginPanel"), "before": ("fit_before", "BeforePanel"),
    "look": ("fit_look", "LookPanel"), "pin": ("fit_pin", "PinPanel"),
    "marks": ("fit_marks", "MarksPanel"), "move": ("fit_move", "MovePanel"),
    "hem": ("fit_hem", "HemPanel"), "out": ("fit_out", "OutPanel"),
    "read": ("fit_read", "ReadPanel"), "browse": ("panel", "BrowsePanel"),
}  # fmt: skip
"""By moment, where its part is written and what it is called."""

HAND = 440
"""How wide the column with the number keys is (dp)."""

OPENED = 560
"""How wide a pin's amount is while she pins."""

LEAST_FIGURE = 190
"""A figure less high than this (dp) shows nothing: its pins lie one on another."""

KEYS_SHARE, LOW_KEYS = 0.55, 0.33
"""Tall, the keys take so much of the height at most; with larger letters while she reads off."""


class FitDesk(FloatLayout):
    """Shows ``page``; wide the parts stand beside one another, tall one under another."""

    page = ObjectProperty(None, allownone=True)
    view = ObjectProperty(None, allownone=True)
    wide = BooleanProperty(True)
    left_handed = BooleanProperty(False)

    def __init__(self, **kwargs: Any) -> None:
        super().__init__(**kwargs)
        self._panels: dict[str, Widget] = {}
        self._figure: Any = None
        self.figure: Any = None
        self._keys: Any = None
        self._lay_soon = Clock.create_trigger(self._lay, -1)
        for name in ("page", "view"):
            self.fbind(name, self._fill)
        for name in ("pos", "size", "wide", "left_handed"):
            self.fbind(name, self._lay_soon)

    # -- what is shown --------------------------------------------------------

    def _fill(self, *_: object) -> None:
        page = self.page
        if page is None or self.view is None or not page.moment:
            return
        self._show_panel(page)
        self._show_figure(page)
        self._show_keys(page.keys)
        self._lay_soon()

    def _show_panel(self, page: Any) -> None:
        browsing = page.moment == "look" and page.body.browsing is not None
        name = "browse" if browsing else page.moment
        panel = self._panels.get(name) or self._made(name)
        for other in self._panels.values():
            if other is not panel and other.parent is self:
                self.remove_widget(other)
        if panel.parent is None:
            self.add_widget(panel)
        self.panel = panel
        if name != "browse":
            panel.wide, panel.row = self.wide, page.body

    def _made(self, name: str) -> Widget:
        module, kind = PANELS[name]
        import_module(f"screens.parts.{module}")
        given = {"view": self.view} if name == "browse" else {"owner": self.view}
        panel = Factory.get(kind)(size_hint=(None, None), **given)
        self._panels[name] = panel
        return panel

    def _show_figure(self, page: Any) -> None:
        if page.figure is None:
            if self._figure is not None and self._figure.parent is self:
                self.remove_widget(self._figure)
            self.figure = None
            return
        self.figure = self._figure = self._figure or self._figure_made()
        if self.figure.parent is None:
            self.add_widget(self.figure)
        shown = page.figure
        self.figure.worn, self.figure.pins, self.figure.marks = shown.worn, shown.pins, shown.marks

    def _figure_made(self) -> Any:
        from screens.parts.fit_figure import FitFigure

        figure = FitFigure(size_hint=(None, None))
        figure.bind(on_pick=self._picked, on_swipe=self._swiped, on_hold=self._held)
        return figure

    def _picked(self, _figure: object, spots: Any, piece: Any = None) -> None:
        self.view.touch(spots, piece)

    def _swiped(self, _figure: object, spots: Any) -> None:
        self.view.swipe(spots)

    def _held(self, _figure: object, spots: Any, piece: Any = None) -> None:
        self.view.hold(spots, piece)

    def _show_keys(self, row: Any) -> None:
        if row is None:
            if self._keys is not None and self._keys.parent is self:
                self.remove_widget(self._keys)
            return
        if self._keys is None:
            from screens.parts.fit_keys import FitKeys

            self._keys = FitKeys(owner=self.view, size_hint=(None, None))
            self._keys.bind(height=self._lay_soon)
        if self._keys.parent is None:
            self.add_widget(self._keys)
        self._keys.row, self._keys.left_handed = row, self.left_handed

    @property
    def keys(self) -> Any:
        """The number keys where they are shown."""
        return self._keys if self._keys is not None and self._keys.parent is self else None

    # -- where ----------------------------------------------------------------

    def _lay(self, *_: object) -> None:
        if self.page is None or not self.page.moment or self.width < dp(100):
            return
        if hasattr(self.panel, "wide"):
            self.panel.wide = self.wide
        (self._lay_wide if self.wide else self._lay_tall)()

    def _lay_wide(self) -> None:
        gap, moment = dp(tokens.MARGIN), self.page.moment
        if moment == "read":
            self._beside(dp(HAND), self.panel, self.figure, self.keys)
        elif self.figure is not None:
            width = dp(OPENED if self.keys is not None else 420)
            if moment == "marks":
                width = dp(500)
            figure_width = self.width - width - gap
            left = self.x + (width + gap if self.left_handed else 0)
            _put(self.figure, left, self.y, figure_width, self.height)
            side = self.x if self.left_handed else self.x + figure_width + gap
            self._column(side, width, self.panel, self.keys)
        elif self.keys is not None:
            self._beside(dp(HAND), self.panel, None, self.keys)
        else:
            _put(self.panel, self.x, self.y, self.width, self.height)

    def _beside(self, width: float, panel: Any, over: Any, keys: Any) -> None:
        """Put a part beside a column for the hand, with something over its keys."""
        gap = dp(tokens.MARGIN)
        hand = self.x if self.left_handed else self.right - width
        rest = self.x + (width + gap if self.left_handed else 0)
        _put(panel, rest, self.y, self.width - width - gap, self.height)
        self._column(hand, width, over, keys)

    def _column(self, x: float, width: float, over: Any, keys: Any) -> None:
        high = 0.0
        if keys is not None:
            keys.most = self.height - (dp(LEAST_FIGURE + tokens.GRID) if over is not None else 0)
            keys.width, keys.pos = width, (x, self.y)
            high = keys.height + dp(tokens.GRID)
        if over is not None and over is self.figure:
            least = keys.height_in(keys.most) + dp(tokens.GRID) if keys is not None else 0.0
            self._show_or_leave_out(over, keys, self.height - least)
        if over is not None:
            _put(over, x, self.y + high, width, max(self.height - high, dp(40)))

    def _show_or_leave_out(self, figure: Any, keys: Any, room: float) -> None:
        """Leave the figure out where the keys leave it no room to be seen in."""
        is_seen = room >= dp(LEAST_FIGURE)
        if is_seen == (figure.parent is None):
            (self.add_widget if is_seen else self.remove_widget)(figure)
        if not is_seen and keys is not None:
            keys.most = self.height

    def _lay_tall(self) -> None:
        keys, figure, gap = self.keys, self.figure, dp(tokens.GRID)
        if self.page.moment == "read" and keys is not None and figure is not None:
            self._lay_reading(dp(tokens.GRID))
            return
        low = 0.0
        if keys is not None:
            keys.most = self.height * KEYS_SHARE
            keys.width, keys.pos = self.width, self.pos
            low = keys.height + gap
        room = self.height - low
        words = 0.46 if tokens.letters_are_larger() else 0.33
        share = {"pin": words if keys is None else 0.5, "marks": 0.42, "move": 0.34,
                 "read": 0.7}.get(self.page.moment, 1.0)  # fmt: skip
        panel_high = room * share if figure is not None else room
        _put(self.panel, self.x, self.y + low, self.width, panel_high)
        if figure is not None:
            _put(figure, self.x, self.y + low + panel_high + gap, self.width,
                 max(room - panel_high - gap, dp(40)))  # fmt: skip

    def _lay_reading(self, gap: float) -> None:
        """Tall, at the table: the figure beside the keys, the pin and its strip over both."""
        keys, width = self.keys, min(dp(HAND), self.width * 0.58)
        keys.most = self.height * (LOW_KEYS if tokens.letters_are_larger() else KEYS_SHARE)
        left = self.x if self.left_handed else self.right - width
        keys.width, keys.pos = width, (left, self.y)
        beside = self.x + (width + gap if self.left_handed else 0)
        _put(self.figure, beside, self.y, self.width - width - gap, keys.height)
        low = self.y + keys.height + gap
        _put(self.panel, self.x, low, self.width, self.top - low)


def _put(widget: Any, x: float, y: float, width: float, height: float) -> None:
    widget.pos, widget.size = (x, y), (width, height)
