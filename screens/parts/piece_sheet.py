"""Pieces drawn to one scale, with the numbers of the table on their level lines.

The widget takes points and gives names back: what they mean is the core's business.
"""

from collections.abc import Sequence
from dataclasses import replace
from math import hypot

from kivy.clock import Clock
from kivy.graphics import (
    Canvas,
    Color,
    Line,
    Mesh,
    PopMatrix,
    PushMatrix,
    RoundedRectangle,
    Scale,
    Translate,
)
from kivy.metrics import dp
from kivy.properties import ColorProperty, ListProperty, ObjectProperty
from kivy.uix.widget import Widget

from screens import tokens
from screens.parts.lettering import draw_word, lines_of, space, width_of_line
from screens.parts.piece_fill import triangles
from screens.parts.piece_label import label_lines, room_under
from screens.parts.piece_layout import Number, Placed, place_all_numbers, place_pieces

NEAR = 28
"""A touch this near (dp) to a dart or a number takes it; the nearest wins."""


class PieceSheet(Widget):
    """All pieces of a round, side by side; ``lit`` is the piece and level that is chosen.

    Dispatches ``on_take_number`` with a piece and a level, ``on_take_dart`` with a dart's id.
    """

    pieces = ListProperty()
    lit = ObjectProperty(("", ""))
    lit_dart = ObjectProperty("")
    ink = ColorProperty(tokens.LIGHT["ink"])
    soft = ColorProperty(tokens.LIGHT["soft"])
    edge = ColorProperty(tokens.LIGHT["edge"])
    sheet = ColorProperty(tokens.LIGHT["sheet"])
    paper = ColorProperty(tokens.LIGHT["paper"])

    __events__ = ("on_take_number", "on_take_dart")

    def __init__(self, **kwargs: object) -> None:
        super().__init__(**kwargs)
        self.placed: tuple[Placed, ...] = ()
        self.numbers: tuple[Number, ...] = ()
        self._drawn: dict[tuple[object, ...], Canvas] = {}
        self._draw_soon = Clock.create_trigger(self._draw, -1)  # once, before the next frame
        for name in ("pieces", "lit", "lit_dart", "ink", "soft", "edge", "sheet", "paper", "pos",
                     "size"):  # fmt: skip
            self.fbind(name, self._draw_soon)
        self._draw_soon()

    # -- touch ----------------------------------------------------------------

    def on_take_number(self, piece: str, level: str) -> None:
        """Somebody touched a level line or its number."""

    def on_take_dart(self, dart: str) -> None:
        """Somebody touched a dart."""

    def on_touch_down(self, touch: object) -> bool:
        if not self.collide_point(*touch.pos):
            return False
        touch.grab(self)
        return True

    def on_touch_up(self, touch: object) -> bool:
        if touch.grab_current is not self:
            return False
        touch.ungrab(self)
        if hypot(touch.x - touch.ox, touch.y - touch.oy) < dp(NEAR):
            self._take(touch.pos)
        return True

    def _take(self, where: tuple[float, float]) -> None:
        """Take the number, level line or dart that is nearest, if one is near enough."""
        found = [
            *((_to_number(number, where), ("on_take_number", number.piece, number.level))
              for number in self.numbers),
            *((_to_level(placed, mark, where), ("on_take_number", placed.piece.id, mark.id))
              for placed in self.placed for mark in placed.piece.levels),
            *((_to_dart(placed.line(points), where), ("on_take_dart", dart))
              for placed in self.placed for dart, points in placed.piece.darts),
        ]  # fmt: skip
        away, taken = min(found, default=(dp(NEAR) + 1, ()), key=lambda one: one[0])
        if away <= dp(NEAR):
            self.dispatch(*taken)

    # -- drawing --------------------------------------------------------------

    def _draw(self, *_: object) -> None:
        """Draw the numbers anew, and of the pieces those that changed."""
        self.placed = place_pieces(self.pieces, self.pos, self.size)
        under = max((room_under(one) for one in self.placed), default=0.0)
        if under:
            self.placed = place_pieces(self.pieces, self.pos, self.size, under)
        self.numbers = tuple(place_all_numbers(self.placed, self.lit[1]))
        drawn = [self._as_drawn(placed) for placed in self.placed]
        self._drawn = dict(drawn)
        self.canvas.clear()
        with self.canvas:
            for placed, (_, group) in zip(self.placed, drawn, strict=True):
                PushMatrix()
                Translate(placed.x, placed.top)
                self.canvas.add(group)
                PopMatrix()
            for number in self.numbers:
                self._draw_number(number)

    def _as_drawn(self, placed: Placed) -> tuple[tuple[object, ...], Canvas]:
        """Return a piece drawn at (0, 0); one that was drawn like this before is drawn already."""
        at_home = replace(placed, x=0.0, top=0.0)
        looks = (at_home, *(dart == self.lit_dart for dart, _ in placed.piece.darts),
                 tuple(self.ink), tuple(self.sheet))  # fmt: skip
        group = self._drawn.get(looks)
        if group is None:
            group = Canvas()
            with group:
                self._draw_piece(at_home)
        return looks, group

    def _draw_piece(self, placed: Placed) -> None:
        piece, corners = placed.piece, placed.line(placed.piece.cut)
        Color(*self.sheet)
        _fill(placed)
        Color(*self.edge)
        for mark in piece.levels:
            Line(points=placed.line((mark.start, mark.end)), width=1.01)
        Color(*self.soft)
        Line(points=corners, close=True, width=1.01)
        Color(*self.ink)
        Line(points=placed.line(piece.sewn), close=True, width=dp(1.01))
        for dart, line in piece.darts:
            width = dp(1.5 if dart == self.lit_dart else 0.8)
            Line(points=placed.line(line), width=max(1.01, width), close=True, joint="round")
        if piece.fold:
            self._draw_fold(placed.line(piece.fold))
        self._letter(placed)

    def _draw_fold(self, points: list[float]) -> None:
        """Draw long and short strokes over the edge that lies on the fold."""
        Color(*self.sheet)
        Line(points=points, width=dp(1.2), cap="none")
        Color(*self.ink)
        _dashes(points)

    def _letter(self, placed: Placed) -> None:
        """Write the piece's name and how it is cut."""
        for line, hand, middle, y in label_lines(placed):
            x = middle - width_of_line(line, hand) / 2
            for word in line:
                x = draw_word(word, hand, x, y) + space(hand)

    def _draw_number(self, number: Number) -> None:
        lit = (number.piece, number.level) == tuple(self.lit)
        corner = (number.x - number.width / 2, number.y - number.height / 2)
        size = (number.width, number.height)
        if number.beside and abs(number.y - number.end[1]) > dp(2):
            side = min(corner[0], corner[0] + number.width, key=lambda x: abs(x - number.end[0]))
            Color(*self.edge)
            Line(points=[*number.end, side, number.y], width=1.01)
        if lit or not number.beside:
            Color(*(self.ink if lit else self.sheet))
            RoundedRectangle(pos=corner, size=size, radius=[dp(6)])
        Color(*(self.paper if lit else self.ink))
        (line,) = lines_of(number.words, number.hand, float("inf"))
        x = number.x - width_of_line(line, number.hand) / 2
        for word in line:
            x = draw_word(word, number.hand, x, number.y) + space(number.hand)


def _fill(placed: Placed) -> None:
    """Fill a piece: its slices are in millimetres, and laid where it lies."""
    vertices, indices = triangles(placed.piece.cut)
    PushMatrix()
    Translate(placed.x, placed.top)
    Scale(placed.scale, -placed.scale, 1)
    Mesh(vertices=vertices, indices=indices, mode="triangles")
    PopMatrix()


def _dashes(points: list[float]) -> None:
    """Draw a fold's line: long and short strokes; Kivy's own dashes are one pixel only."""
    if len(points) != 4:
        return
    x, y, end_x, end_y = points
    whole = hypot(end_x - x, end_y - y)
    at, strokes = 0.0, (14, 3)
    number = 0
    while at < whole:
        stop = min(whole, at + dp(strokes[number % 2]))
        ends = [share / whole for share in (at, stop)]
        line = [where for share in ends
                for where in (x + (end_x - x) * share, y + (end_y - y) * share)]  # fmt: skip
        Line(points=line, width=dp(1.01), cap="none")
        at, number = stop + dp(5), number + 1


def _to_number(number: Number, where: tuple[float, float]) -> float:
    """Return how far a touch is from a number's block."""
    away_x = max(0.0, abs(where[0] - number.x) - number.width / 2)
    away_y = max(0.0, abs(where[1] - number.y) - number.height / 2)
    return hypot(away_x, away_y)


def _to_level(placed: Placed, mark: object, where: tuple[float, float]) -> float:
    """Return how far a touch is from a level line."""
    return _to_line(placed.at(mark.start), placed.at(mark.end), where)


def _to_dart(points: Sequence[float], where: tuple[float, float]) -> float:
    """Return how far a touch is from the middle of a dart's nearest leg."""
    corners = list(zip(points[::2], points[1::2], strict=True))
    return min((_to_line(one, two, where)
                for one, two in zip(corners, corners[1:] + corners[:1], strict=True)),
               default=float("inf"))  # fmt: skip


def _to_line(
    one: tuple[float, float], two: tuple[float, float], where: tuple[float, float]
) -> float:
    along = (two[0] - one[0], two[1] - one[1])
    length = hypot(*along) or 1.0
    share = ((where[0] - one[0]) * along[0] + (where[1] - one[1]) * along[1]) / length**2
    share = min(1.0, max(0.0, share))
    return hypot(one[0] + share * along[0] - where[0], one[1] + share * along[1] - where[1])
