"""The first look: a key for each side, the photos, one of them large beside last time's."""

from pathlib import Path
from typing import Any

from kivy.lang import Builder
from kivy.properties import ObjectProperty
from kivy.uix.boxlayout import BoxLayout

from screens.parts import fit_keys, panel, photo, upright
from screens.parts.fit_keys import FitPanel, FitWord

__all__ = ["LookPanel", "MarkedPhoto", "fit_keys", "panel", "photo", "upright"]


class ViewKey(FitWord):
    """Takes a photo of one side."""

    verb = "take_photo"


class LevelKey(FitWord):
    """Says whether the levels hang straight."""

    verb = "say_level"


class TieKey(FitWord):
    """A pin that the marks are tied to."""

    verb = "tie_to"


class MarkedPhoto(photo.LargePhoto):
    """A large photo; a touch marks the place."""

    def __init__(self, **kwargs: Any) -> None:
        self.register_event_type("on_mark")
        super().__init__(**kwargs)

    def on_mark(self, x: float, y: float) -> None:
        """Told where it was touched: shares from the top left."""

    def on_touch_down(self, touch: Any) -> bool:
        if self._texture is None or not self.collide_point(*touch.pos):
            return False
        touch.grab(self)
        return True

    def on_touch_up(self, touch: Any) -> bool:
        if touch.grab_current is not self:
            return False
        touch.ungrab(self)
        x, y, wide, high = self.box()
        across, down = (touch.x - x) / wide, 1 - (touch.y - y) / high
        if 0 <= across <= 1 and 0 <= down <= 1:
            self.dispatch("on_mark", across, down)
        return True


class PhotoBar(BoxLayout):
    """Which pin the marks belong to, and taking the photo out."""

    row = ObjectProperty(None, allownone=True)
    owner = ObjectProperty(None, allownone=True)


class LookPanel(FitPanel):
    """Photos of this fitting; one large stands beside last time's."""

    def marks_said(self, marks: Any) -> str:
        return "   ".join(f"{number}  {text}" for number, (_, _, text) in enumerate(marks, 1))


Builder.load_file(str(Path(__file__).with_suffix(".kv")))
