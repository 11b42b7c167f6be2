"""Photos: a small one to touch, and a large one with its marks."""

from collections.abc import Callable
from io import BytesIO
from pathlib import Path
from typing import Any

from kivy.clock import Clock
from kivy.core.image import Image as Picture
from kivy.core.text import Label as Letters
from kivy.graphics import Color, Ellipse, Rectangle
from kivy.lang import Builder
from kivy.metrics import dp, sp
from kivy.properties import ColorProperty, ListProperty, ObjectProperty, StringProperty
from kivy.uix.behaviors import ButtonBehavior
from kivy.uix.widget import Widget

from core.errors import WorkroomError
from screens import tokens
from screens.parts import panel

__all__ = ["LargePhoto", "PhotoPanel", "Shown", "Thumbnail", "panel"]


class Shown(Widget):
    """A photo as large as its place allows, on a quiet ground; one that is gone leaves that."""

    file = StringProperty("")
    read = ObjectProperty(None, allownone=True)
    ground = ColorProperty(tokens.LIGHT["well"])
    marks = ListProperty()
    fills = False

    def __init__(self, **kwargs: Any) -> None:
        super().__init__(**kwargs)
        self._texture: Any = None
        self._draw_soon = Clock.create_trigger(self._draw, -1)
        for name in ("file", "read"):
            self.fbind(name, self._load)
        for name in ("pos", "size", "ground", "marks"):
            self.fbind(name, self._draw_soon)
        self._load()

    def _load(self, *_: object) -> None:
        self._texture = _texture(self.read, self.file)
        self._draw_soon()

    def box(self) -> tuple[float, float, float, float]:
        """Return where the picture lies: x, y, width, height."""
        wide, high = self._texture.size
        scale = (max if self.fills else min)(self.width / wide, self.height / high)
        return (self.center_x - wide * scale / 2, self.center_y - high * scale / 2,
                wide * scale, high * scale)  # fmt: skip

    def _draw(self, *_: object) -> None:
        self.canvas.clear()
        with self.canvas:
            Color(*self.ground)
            Rectangle(pos=self.pos, size=self.size)
            if self._texture is None:
                return
            Color(1, 1, 1, 1)
            x, y, wide, high = self.box()
            if self.fills:
                self._fill(x, y, wide, high)
            else:
                Rectangle(texture=self._texture, pos=(x, y), size=(wide, high))
                for number, (share_x, share_y, _) in enumerate(self.marks, 1):
                    _mark(number, x + share_x * wide, y + (1 - share_y) * high)

    def _fill(self, x: float, y: float, wide: float, high: float) -> None:
        """Show the middle of it, as much as the place holds."""
        left, low = (self.x - x) / wide, (self.y - y) / high
        region = self._texture.get_region(
            left * self._texture.width, low * self._texture.height,
            self.width / wide * self._texture.width, self.height / high * self._texture.height,
        )  # fmt: skip
        Rectangle(texture=region, pos=self.pos, size=self.size)


class Thumbnail(ButtonBehavior, Shown):
    """A small photo; a touch shows it large."""

    fills = True
    row = ObjectProperty(None, allownone=True)
    owner = ObjectProperty(None, allownone=True)

    def on_row(self, *_: object) -> None:
        self.read = self.owner.thumbnail if self.owner else None
        self.file = self.row.file if self.row else ""

    def on_owner(self, *_: object) -> None:
        self.on_row()

    def on_release(self) -> None:
        self.owner.show_photo(self.row.at)


class LargePhoto(Shown):
    """A photo with its marks."""


class PhotoPanel(panel.Panel):
    """One photo, large; what was marked on it stands below."""

    def marks_said(self, marks: Any) -> str:
        return "   ".join(f"{number}  {text}" for number, (_, _, text) in enumerate(marks, 1))


def _texture(read: Callable[[str], bytes] | None, file: str) -> Any:
    if read is None or not file:
        return None
    try:
        return Picture(BytesIO(read(file)), ext="jpg").texture
    except WorkroomError:
        return None  # checking everything says which photo it is


def _mark(number: int, x: float, y: float) -> None:
    """Draw a numbered disc that stands out from any photo."""
    half = dp(16)
    Color(*_rgba(tokens.LIGHT["ink"]))
    Ellipse(pos=(x - half, y - half), size=(2 * half, 2 * half))
    Color(*_rgba(tokens.LIGHT["caution"]))
    Ellipse(pos=(x - half + dp(2), y - half + dp(2)), size=(2 * half - dp(4), 2 * half - dp(4)))
    letters = Letters(text=str(number), font_size=sp(tokens.SMALL), font_name=tokens.TEXT_FONT,
                      bold=True)  # fmt: skip
    letters.refresh()
    Color(*_rgba(tokens.LIGHT["ink"]))
    wide, high = letters.texture.size
    Rectangle(texture=letters.texture, pos=(x - wide / 2, y - high / 2), size=(wide, high))


def _rgba(colour: str) -> tuple[float, ...]:
    return (*(int(colour[at : at + 2], 16) / 255 for at in (1, 3, 5)), 1.0)


Builder.load_file(str(Path(__file__).with_suffix(".kv")))
