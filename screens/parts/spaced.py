"""Parts below each other with a space between those that show something."""

from typing import Any

from kivy.properties import NumericProperty, VariableListProperty
from kivy.uix.layout import Layout


class Spaced(Layout):
    """As wide as it is told and as high as its parts are.

    A part without a height has nothing to show, and takes no space either.
    """

    padding = VariableListProperty([0, 0, 0, 0])
    spacing = NumericProperty(0)

    def __init__(self, **kwargs: Any) -> None:
        kwargs.setdefault("size_hint_y", None)
        super().__init__(**kwargs)
        for name in ("pos", "size", "padding", "spacing", "children"):
            self.fbind(name, self._trigger_layout)

    def do_layout(self, *_: object) -> None:
        left, top, right, bottom = self.padding
        shown = [part for part in reversed(self.children) if part.height]
        between = max(0, len(shown) - 1) * self.spacing
        self.height = top + sum(part.height for part in shown) + between + bottom
        y = self.top - top
        for part in reversed(self.children):
            part.width = self.width - left - right
            part.pos = self.x + left, y - part.height
            if part.height:
                y -= part.height + self.spacing
