"""The neutral figure in this garment, front and back, to place pins on; never her own girths."""

from typing import Any

from kivy.clock import Clock
from kivy.graphics import InstructionGroup
from kivy.metrics import dp, sp
from kivy.properties import ObjectProperty
from kivy.uix.floatlayout import FloatLayout

from core.fit.faces import FACES, Face
from core.fit.laid_flat import LaidFlat
from core.fit.on_her import OnHer
from screens import tokens
from screens.parts.fit_cloth import Cloth, draw_pin, has_arms
from screens.parts.fit_spots import FaceSeen, PinOnHer, Touched
from screens.parts.fit_zoom import NEARLY_WHOLE, Closer, Fingers
from screens.parts.press import Press
from screens.parts.words import Words
from screens.tokens import colours

SWIPE = 64
"""How far a finger goes across for a swipe (dp)."""

HOLD_S = 0.45

RIM = 30.0
ABOVE, BELOW = 130.0, 70.0
"""How much of her is seen over and under the garment (mm)."""


class FitFigure(Cloth, FloatLayout):
    """``on_pick(spots, piece)``: a touch; ``on_swipe(spots)``: across; ``on_hold``: a long touch.

    Two fingers bring it closer; then one that moves on moves it about, until *Whole* is touched.

    ``worn`` is an ``OnHer``, or the pieces ``LaidFlat``; ``pins`` what is pinned (``PinOnHer``),
    ``marks`` the same for marks.
    """

    worn = ObjectProperty(None, allownone=True)
    pins = ObjectProperty(())
    marks = ObjectProperty(())
    _flat = False

    def __init__(self, **kwargs: Any) -> None:
        for event in ("on_pick", "on_swipe", "on_hold"):
            self.register_event_type(event)
        super().__init__(**kwargs)
        self._faces: dict[Face, FaceSeen] = {}
        self._words: list[Words] = []
        self._cloth, self._pinned = InstructionGroup(), InstructionGroup()
        self.canvas.before.add(self._cloth)
        self.canvas.after.add(self._pinned)
        self._stands: object = None
        self._named: object = None
        self._draw_soon = Clock.create_trigger(self._draw, -1)
        for name in ("worn", "pins", "marks", "pos", "size"):
            self.fbind(name, self._draw_soon)
        colours.follow(self._draw)
        self._held: Any = None
        self._closer = Closer()
        self._fingers = Fingers(self._closer)
        self.whole = Press(text="Whole", size_hint=(None, None))
        self.whole.bind(on_release=self.show_whole)

    def show_whole(self, *_: object) -> None:
        """Show all of her again."""
        self._closer.show_whole()
        self._draw_soon()

    def on_pick(self, spots: Any, piece: Any) -> None:
        """Told what was touched: the nearest seam or two close ones, and the piece."""

    def on_swipe(self, spots: Any) -> None:
        """Told where a finger went across."""

    def on_hold(self, spots: Any, piece: Any) -> None:
        """Told what was touched for long."""

    # -- drawing --------------------------------------------------------------

    def _draw(self, *_: object) -> None:
        worn = self.worn
        if worn is None or self.width < dp(60) or self.height < dp(60):
            return
        if isinstance(worn, LaidFlat) != self._flat:
            self._flat = isinstance(worn, LaidFlat)
            self._closer.show_whole()
        self._closer.box = (*self.pos, *self.size)
        self._place(worn)
        closer = (self._closer.times, self._closer.at)
        stands = (worn, *self.pos, *self.size, closer, tuple(colours.cloth))
        if stands != self._stands:
            self._stands, self._named = stands, self._pinned_levels()
            self._draw_cloth(worn)
        elif self._named != self._pinned_levels():
            self._named = self._pinned_levels()
            self._write_names(worn)
        self._draw_pins()
        self._offer_whole()

    def _offer_whole(self) -> None:
        """Show the key that shows all of her, as long as she is seen closer."""
        key = self.whole
        high = max(dp(tokens.BUTTON), sp(tokens.LINE[tokens.TEXT]) + dp(12))
        key.size = (max(key.needed_width, dp(96)), high)
        key.pos = (self.right - key.width, self._seen[0] + dp(tokens.GRID))  # over the faces' names
        if self._closer.is_whole == (key.parent is self):
            (self.remove_widget if self._closer.is_whole else self.add_widget)(key)

    def _place(self, worn: OnHer) -> None:
        ys = [y for shape in worn.outlines["front"] for _, y in shape] or [*worn.levels.values()]
        flat = isinstance(worn, LaidFlat)
        top, bottom = min(ys) - ABOVE, max(*ys, *worn.levels.values()) + BELOW
        if flat:
            top, bottom = min(ys) - RIM, max(ys) + RIM
        letters = sp(tokens.LINE[tokens.SMALL])
        tall = self.height - (3 if worn.inside_out else 2) * letters - dp(8)
        shapes = (*(line.points for line in worn.lines), *worn.outlines["front"])
        least = 380.0 if has_arms(worn) else 230.0
        widest = max([abs(x) for points in shapes for x, _ in points] + [least]) + RIM
        scale = min(tall / (bottom - top), (self.width / 2 - dp(16)) / (2 * widest))
        foot = self.y + letters + dp(4) + (tall - (bottom - top) * scale) / 2
        self._faces = {
            face: FaceSeen(face, *self._closer.seen(self.x + self.width * (number + 0.5) / 2, foot),
                        scale * self._closer.times, bottom,
                        1.0 if flat or face == "front" else -1.0)
            for number, face in enumerate(FACES)
        }
        if not self._closer.is_whole:
            foot, top, scale = self.y + letters + dp(4), bottom - tall, 1.0
        self._seen = (foot, foot + (bottom - top) * scale)

    def _draw_pins(self) -> None:
        group = self._pinned
        group.clear()
        for pin in (*self.marks, *sorted(self.pins, key=lambda pin: pin.in_hand)):
            for spot in self._where(pin.where, pin.side):
                if self._in_sight(spot):
                    draw_pin(group, pin, spot)

    # -- touching -------------------------------------------------------------

    def on_touch_down(self, touch: Any) -> bool:
        if self.worn is None or not self.collide_point(*touch.pos):
            return False
        if self.whole.parent is self and self.whole.on_touch_down(touch):
            return True
        touch.grab(self)
        self._fingers.put(touch)
        self._stop_waiting()
        if self._fingers.count == 1:
            self._held = Clock.schedule_once(lambda _: self._hold(touch), HOLD_S)
        return True

    def _stop_waiting(self) -> None:
        if self._held is not None:
            self._held.cancel()

    def on_touch_move(self, touch: Any) -> bool:
        if touch.grab_current is not self:
            return False
        if self._fingers.move(touch):
            self._draw_soon()
        if self._far(touch) or self._fingers.have_moved_it:
            self._stop_waiting()
        return True

    def let_go(self, touch: Any) -> None:
        """Another screen is shown: the finger means nothing here any more."""
        self._fingers.lift(touch)
        self._stop_waiting()

    def on_touch_up(self, touch: Any) -> bool:
        if touch.grab_current is not self:
            return False
        touch.ungrab(self)
        self._fingers.lift(touch)
        waits = self._held is not None and self._held.is_triggered
        self._stop_waiting()
        if self._fingers.have_moved_it:
            if self._closer.times < NEARLY_WHOLE:
                self.show_whole()
        elif self._far(touch):
            self.dispatch("on_swipe", self.spots_at(*touch.opos))
        elif waits:
            self.dispatch("on_pick", self.spots_at(*touch.opos), self.piece_at(*touch.opos))
        return True

    def _hold(self, touch: Any) -> None:
        if touch.grab_current is not None or not self._far(touch):
            self.dispatch("on_hold", self.spots_at(*touch.opos), self.piece_at(*touch.opos))

    def _far(self, touch: Any) -> bool:
        return abs(touch.x - touch.ox) > dp(SWIPE)


__all__ = ["FitFigure", "PinOnHer", "Touched"]
