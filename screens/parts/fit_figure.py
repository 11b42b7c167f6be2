"""The neutral figure in this garment, front and back, to place pins on; never her own girths."""

from dataclasses import dataclass, replace
from math import inf
from typing import Any

from kivy.clock import Clock
from kivy.core.text import Label as Letters
from kivy.graphics import (
    Color,
    Ellipse,
    InstructionGroup,
    Line,
    Mesh,
    Rectangle,
    ScissorPop,
    ScissorPush,
)
from kivy.metrics import dp, sp
from kivy.properties import ObjectProperty
from kivy.uix.floatlayout import FloatLayout

from core.figure.figure import figure
from core.fit.laid_flat import LaidFlat
from core.fit.on_her import FACES, Face, LineOnHer, OnHer
from core.fit.pinning import Where
from core.records.fitting import LoggedSide
from screens import tokens
from screens.parts.figure import _draw_body, _triangles
from screens.parts.fit_zoom import NEARLY_WHOLE, Closer, Fingers
from screens.parts.lettering import Hand, lines_of, width_of_line
from screens.parts.press import Press
from screens.parts.words import Words
from screens.tokens import colours

REACH, HEAD, CLOSE, LEVEL, SWIPE = 44, 28, 14, 26, 64
"""How near a seam answers, a pin answers, two seams are too close, a level is taken, and how far a
finger goes for a swipe (dp)."""

HOLD_S = 0.45
ARM = 215.0
"""A seam further out than this (mm) is a sleeve's: only then are her arms drawn."""

RIM = 30.0
ABOVE, BELOW = 130.0, 70.0
"""How much of her is seen over and under the garment (mm)."""

NAMES = {"front": ("her right", "her left"), "back": ("her left", "her right")}


@dataclass(frozen=True, slots=True)
class Touched:
    """What lies under a finger: a place on the garment, her side, and what it is called."""

    where: Where
    side: LoggedSide
    words: str


@dataclass(frozen=True, slots=True)
class PinOnHer:
    """A pin as it is drawn: its number, how it was read, and whether it is in hand."""

    number: int
    where: Where
    side: LoggedSide
    kind: str
    in_hand: bool = False


class _Face:
    """Where millimetres of one face stand on the screen."""

    def __init__(self, face: Face, middle: float, foot: float, scale: float, bottom: float,
                 turn: float):
        self.face, self.scale = face, scale
        self._middle, self._foot, self._bottom = middle, foot, bottom
        self._turn = turn

    def at(self, point: tuple[float, float]) -> tuple[float, float]:
        x, y = point
        across = self._middle + self._turn * x * self.scale
        return across, self._foot + (self._bottom - y) * self.scale

    def flat(self, line: Any) -> list[float]:
        return [where for point in line for where in self.at(point)]

    def back(self, x: float, y: float) -> tuple[float, float]:
        """Return the place on her of a place on the screen."""
        across = (x - self._middle) / self.scale * self._turn
        return across, self._bottom - (y - self._foot) / self.scale


class FitFigure(FloatLayout):
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
        self._faces: dict[Face, _Face] = {}
        self._words: list[Words] = []
        self._cloth, self._pinned = InstructionGroup(), InstructionGroup()
        self.canvas.before.add(self._cloth)
        self.canvas.after.add(self._pinned)
        self._stands: object = None
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
            self._stands = stands
            self._draw_cloth(worn)
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
        tall = self.height - 2 * letters - dp(8)
        shapes = (*(line.points for line in worn.lines), *worn.outlines["front"])
        least = 380.0 if _has_arms(worn) else 230.0
        widest = max([abs(x) for points in shapes for x, _ in points] + [least]) + RIM
        scale = min(tall / (bottom - top), (self.width / 2 - dp(16)) / (2 * widest))
        foot = self.y + letters + dp(4) + (tall - (bottom - top) * scale) / 2
        self._faces = {
            face: _Face(face, *self._closer.seen(self.x + self.width * (number + 0.5) / 2, foot),
                        scale * self._closer.times, bottom,
                        1.0 if flat or face == "front" else -1.0)
            for number, face in enumerate(FACES)
        }
        if not self._closer.is_whole:
            foot, top, scale = self.y + letters + dp(4), bottom - tall, 1.0
        self._seen = (foot, foot + (bottom - top) * scale)

    def _span(self, left: float, right: float) -> tuple[float, float]:
        """Return where a stretch of the whole figure (shares of its width) is seen, and how wide.

        What is outside the figure's own place is not counted.
        """
        ends = (self._closer.seen(self.x + self.width * share, 0)[0] for share in (left, right))
        low, high = (min(max(end, self.x), self.right) for end in ends)
        return low, high - low

    def _draw_cloth(self, worn: OnHer) -> None:
        group, (low, high) = self._cloth, self._seen
        group.clear()
        group.add(ScissorPush(x=int(self.x), y=int(low), width=int(self.width),
                              height=int(high - low)))  # fmt: skip
        for face in FACES:
            self._draw_face(group, worn, face)
        group.add(ScissorPop())
        self._write_names(worn)

    def _draw_face(self, group: InstructionGroup, worn: OnHer, face: Face) -> None:
        place = self._faces[face]
        if isinstance(worn, LaidFlat):
            self._draw_pieces(group, worn, face)
            return
        her = figure(face)
        arms = _has_arms(worn)
        _draw_body(group, her if arms else replace(her, body=her.body[:2]), place)
        group.add(Color(*colours.rule))
        left, wide = self._span(FACES.index(face) / 2, FACES.index(face) / 2 + 0.5)
        for y in worn.levels.values() if wide > dp(16) else ():
            at = place.at((0, y))[1]
            group.add(Line(points=[left + dp(8), at, left + wide - dp(8), at], width=1.01))
        for outline in worn.outlines[face]:
            group.add(Color(*colours.sheet))
            group.add(_strip(outline, place))
            group.add(Color(*colours.ink))
            group.add(Line(points=place.flat(outline), close=True, width=dp(0.9)))
        for line in worn.lines:
            if line.face == face:
                group.add(Color(*(colours.soft if line.what == "dart" else colours.ink)))
                group.add(Line(points=place.flat(line.points), width=dp(1.3)))

    def _draw_pieces(self, group: InstructionGroup, worn: LaidFlat, face: Face) -> None:
        """Draw the pieces of one half as they are stitched, each seam and dart thick."""
        place = self._faces[face]
        for outline in worn.outlines[face]:
            group.add(Color(*colours.sheet))
            for corners in _triangles(outline):
                vertices = [part for x, y in map(place.at, corners) for part in (x, y, 0, 0)]
                group.add(Mesh(vertices=vertices, indices=range(len(corners)), mode="triangle_fan"))
            group.add(Color(*colours.edge))
            group.add(Line(points=place.flat(outline), close=True, width=1.01))
        for line in worn.lines:
            if line.face == face:
                group.add(Color(*(colours.soft if line.what == "dart" else colours.ink)))
                group.add(Line(points=place.flat(line.points), width=dp(1.5)))

    def _write_halves(self, worn: LaidFlat) -> None:
        """Name her two halves, and the pieces on them."""
        _, high = self._seen
        line = sp(tokens.LINE[tokens.SMALL])
        for number, text in enumerate(NAMES["front"]):
            left, wide = self._span(number / 2, number / 2 + 0.5)
            self._write(text, left, high, wide, line)
        for face, name, spot, width in worn.names:
            place = self._faces[face]
            x, y = place.at(spot)
            self._write_inside(name, x, y, width * place.scale)

    def _write_inside(self, text: str, x: float, y: float, wide: float) -> None:
        """Write a name on its piece, word under word; one that has no room is left out."""
        hand, words = Hand(tokens.SMALL, True), text.split()
        lines = [line for word in words for line in lines_of(word, hand, inf)]
        if max((width_of_line(line, hand) for line in lines), default=inf) < wide:
            high = len(words) * sp(tokens.LINE[tokens.SMALL])
            low, top = self._seen
            if low < y - high / 2 and y + high / 2 < top:
                self._write("\n".join(words), x - wide / 2, y - high / 2, wide, high)

    def _write_names(self, worn: OnHer) -> None:
        """Name her sides over each face, the faces under them, and the levels between."""
        for words in self._words:
            self.remove_widget(words)
        self._words = []
        if isinstance(worn, LaidFlat):
            self._write_halves(worn)
            return
        low, high = self._seen
        half, line = self.width / 2, sp(tokens.LINE[tokens.SMALL])
        for number, face in enumerate(FACES):
            narrow = half / 2 < sp(80)
            for side, text in enumerate(NAMES[face]):
                name = text.removeprefix("her ") if narrow else text
                left, wide = self._span(number / 2 + side / 4, number / 2 + side / 4 + 0.25)
                self._write(name, left, high, wide, line)
            left, wide = self._span(number / 2, number / 2 + 0.5)
            self._write(face.capitalize(), left, low - line, wide, line)
        last = None
        if half < sp(170):  # there is no room for them between the faces
            return
        for name, y in sorted(worn.levels.items(), key=lambda one: one[1]):
            at = self._faces["front"].at((0, y))[1]
            if low <= at <= high - line and (last is None or last - at >= line):
                label = worn.labels.get(name, name).partition(",")[0]
                between = self._closer.seen(self.center_x, 0)[0]
                between = min(max(between, self.x + sp(72)), self.right - sp(72))
                self._write(label, between - sp(72), at, sp(144), line)
                last = at

    def _write(self, text: str, x: float, y: float, wide: float, high: float) -> None:
        """Write words in the middle of a stretch; where they have no room they are left out."""
        outside = x < self.x - 1 or x + wide > self.right + 1
        if not self._closer.is_whole and (outside or wide < sp(72)):
            return
        words = Words(text=text, letter=tokens.SMALL, bold=True, colour=colours.ink,
                      halign="center", wraps=False, size_hint=(None, None), size=(wide, high),
                      pos=(x, y))  # fmt: skip
        self._words.append(words)
        self.add_widget(words)

    def _draw_pins(self) -> None:
        group = self._pinned
        group.clear()
        for pin in (*self.marks, *self.pins):
            for spot in self._where(pin.where, pin.side):
                if self._in_sight(spot):
                    _draw_pin(group, pin, spot)

    def _in_sight(self, spot: tuple[float, float]) -> bool:
        """Tell whether a pin's head is seen: closer up some of them lie outside."""
        room, (low, high) = dp(15), self._seen
        inside = self.x + room <= spot[0] <= self.right - room
        return self._closer.is_whole or (inside and low + room <= spot[1] <= high - room)

    def _where(self, where: Where, side: LoggedSide) -> list[tuple[float, float]]:
        """Return where a pin is drawn: once on each of its sides, in front where it shows."""
        sides = ("left", "right") if side == "both" else (side,)
        found = []
        for one in sides:
            spot = next(filter(None, (self._on_face(where, one, face) for face in FACES)), None)
            if spot is not None and spot not in found:
                found.append(spot)
        return found

    def _on_face(self, where: Where, side: str, face: Face) -> tuple[float, float] | None:
        worn: OnHer | LaidFlat = self.worn
        y = worn.levels.get(where.level)
        if y is None:
            y = worn.y_of(where.down_mm or 0.0)
        if where.what == "piece":
            cut = next((cut for cut in worn.cuts if (cut.place, cut.side) == (where.place, side)),
                       None)  # fmt: skip
            if cut is None or cut.face != face:
                return None
            if isinstance(worn, LaidFlat):
                spot = worn.middle(where.place, face, y)
                return self._faces[face].at(spot) if spot is not None else None
            middle = sum(cut.shares) / 2
            across = middle if face == "front" else 1 - middle
            x = worn.half_width.at(y) * min(across * 2, 0.92) * (1 if side == "left" else -1)
            return self._faces[face].at((x, y))
        for line in worn.lines:
            own = (line.what, line.place, line.face) == (where.what, where.place, face)
            if own and line.side in (side, "both") and (x := line.x(y)) is not None:
                return self._faces[face].at((x, y))
        return None

    def where(self, what: Any, place: str, level: str, side: LoggedSide) -> Any:
        """Return where a place is in the widget's own window coordinates; nothing if unseen."""
        found = self._where(Where(what, place, level=level), side)
        return found[0] if found else None

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

    def spots_at(self, x: float, y: float) -> tuple[Touched, ...]:
        """Return the pin under a finger, else the nearest seam or dart, or two close ones."""
        face = self._face_at(x)
        her_x, her_y = face.back(x, y)
        near: list[tuple[float, LineOnHer]] = []
        for line in self.worn.lines:
            at = line.x(her_y) if line.face == face.face else None
            if at is not None and abs(at - her_x) * face.scale <= dp(REACH):
                near.append((abs(at - her_x) * face.scale, line))
        near.sort(key=lambda one: one[0])
        pin, away = self._pin_at(x, y)
        if pin is not None and (not near or away <= near[0][0] + 1 or _same(pin, near[0][1])):
            return (pin,)
        taken = {
            (line.what, line.place): line
            for away, line in reversed(near)
            if away <= near[0][0] + dp(CLOSE)
        }  # a seam that two pieces meet at is one
        lines = sorted(taken.values(), key=lambda line: [one for _, one in near].index(line))
        return tuple(self._touched(line, her_y, face) for line in lines[:2])

    def piece_at(self, x: float, y: float) -> Touched | None:
        """Return the piece under a finger, at its nearest level."""
        face = self._face_at(x)
        her_x, her_y = face.back(x, y)
        cut = self.worn.cut_at(face.face, her_x, her_y)
        if cut is None or not cut.levels:
            return None
        level = min(cut.levels, key=lambda name: abs(self.worn.levels[name] - her_y))
        return Touched(Where("piece", cut.place, cut.layer, level), cut.side, cut.label)

    def _face_at(self, x: float) -> _Face:
        return self._faces["front" if x < self._closer.seen(self.center_x, 0)[0] else "back"]

    def _pin_at(self, x: float, y: float) -> tuple[Touched | None, float]:
        """Return the pin whose head is under a finger, and how far off it is across."""
        found = [
            (abs(at[0] - x), abs(at[1] - y), pin.number, pin)
            for pin in self.pins
            for at in self._where(pin.where, pin.side)
            if self._in_sight(at) and abs(at[0] - x) <= dp(HEAD) and abs(at[1] - y) <= dp(HEAD)
        ]
        if not found:
            return None, 0.0
        across, _, _, pin = min(found)
        return Touched(pin.where, pin.side, str(pin.number)), across

    def _touched(self, line: LineOnHer, her_y: float, face: _Face) -> Touched:
        level = min(line.at, key=lambda name: abs(line.at[name][1] - her_y))
        is_near = abs(line.at[level][1] - her_y) * face.scale <= dp(LEVEL)
        if is_near or line.what == "dart":
            where = Where(line.what, line.place, line.layer, level)
        else:
            where = Where(line.what, line.place, line.layer, "", self.worn.down_of(her_y))
        return Touched(where, line.side, line.label)


def _has_arms(worn: OnHer) -> bool:
    return any(abs(x) > ARM and y < 840 for line in worn.lines for x, y in line.points)


def _same(pin: Touched, line: LineOnHer) -> bool:
    return (pin.where.what, pin.where.place) == (line.what, line.place)


def _strip(outline: Any, place: _Face) -> Mesh:
    """Return a mirrored outline filled: its two edges meet height by height."""
    half = len(outline) // 2
    vertices: list[float] = []
    for one, other in zip(outline[:half], reversed(outline[half:]), strict=True):
        vertices += (*place.at(one), 0, 0, *place.at(other), 0, 0)
    return Mesh(vertices=vertices, indices=range(2 * half), mode="triangle_strip")


def _draw_pin(group: InstructionGroup, pin: PinOnHer, at: tuple[float, float]) -> None:
    """Draw a pin's head: solid for a pinch, open for a gap, and for one that is not read."""
    x, y = at
    meaning = {"pinch": colours.take_in, "edges": colours.take_in, "gap": colours.let_out,
               "mark": colours.caution}.get(pin.kind, colours.ink)  # fmt: skip
    solid = pin.kind in ("pinch", "edges", "mark")
    half = dp(15)
    if pin.in_hand:
        group.add(Color(*colours.ink))
        group.add(Line(circle=(x, y, dp(24)), width=dp(1.3)))
    group.add(Color(*(meaning if solid else colours.sheet)))
    group.add(Ellipse(pos=(x - half, y - half), size=(2 * half, 2 * half)))
    group.add(Color(*meaning))
    group.add(Line(circle=(x, y, half), width=dp(1.5)))
    if pin.number:
        ink = colours.paper if solid else colours.ink
        letters = Letters(text=str(pin.number), font_size=sp(tokens.SMALL), bold=True,
                          font_name=tokens.TEXT_FONT)  # fmt: skip
        letters.refresh()
        wide, high = letters.texture.size
        group.add(Color(*ink))
        group.add(Rectangle(texture=letters.texture, pos=(x - wide / 2, y - high / 2),
                            size=(wide, high)))  # fmt: skip


__all__ = ["FitFigure", "PinOnHer", "Touched"]
