"""A neutral figure with the tape drawn where it goes; never the client's own shape."""

from collections.abc import Iterable, Sequence
from functools import cache
from itertools import pairwise
from math import hypot

from kivy.clock import Clock
from kivy.graphics import Color, Ellipse, InstructionGroup, Line, Mesh, SmoothLine
from kivy.graphics.tesselator import TYPE_POLYGONS, WINDING_NONZERO, Tesselator
from kivy.metrics import dp
from kivy.properties import StringProperty
from kivy.uix.widget import Widget

from core.errors import NotFound
from core.figure.figure import Figure as Body
from core.figure.figure import figure
from core.figure.tape_on_figure import tape_on_figure
from core.figure.tape_path import TAPE_MM, TapeOnFigure
from screens.tokens import colours

Polyline = Sequence[tuple[float, float]]

LEAST_HIGH_MM = 1680.0
"""She is drawn no larger sitting than standing."""

OUTLINE, DASH, GAP, THIN, RIM, END = 1.8, 5.0, 5.0, 1.2, 2.0, 5.0
"""Strokes (dp): half the line round her, a dash and its gap, a leader, the tape's rim, its ends."""

SEEN_FROM = {"front": "from the front", "back": "from behind",
             "left": "from her left", "right": "from her right"}  # fmt: skip


def drawn(measurement: str, side: str) -> TapeOnFigure:
    """Return where the tape goes; what has no drawing is the figure alone."""
    try:
        return tape_on_figure(measurement, side or None)
    except NotFound:
        return TapeOnFigure("front", "standing", ())


class Figure(Widget):
    """The figure for one measurement, as large as its place allows; ``seen_from`` says whence."""

    measurement = StringProperty("")
    side = StringProperty("")
    seen_from = StringProperty("")

    def __init__(self, **kwargs: object) -> None:
        super().__init__(**kwargs)
        self._body, self._tape = InstructionGroup(), InstructionGroup()
        self.canvas.add(self._body)
        self.canvas.add(self._tape)
        self._stands: object = None
        self._draw_soon = Clock.create_trigger(self._draw, -1)  # once, before the next frame
        for name in ("measurement", "side", "pos", "size"):
            self.fbind(name, self._draw_soon)
        colours.follow(self._draw)
        self._draw_soon()

    def _draw(self, *_: object) -> None:
        """Draw the tape anew, and the body where it stands otherwise than before."""
        tape = drawn(self.measurement, self.side)
        body = figure(tape.view, tape.pose)
        self.seen_from = SEEN_FROM[tape.view] if self.measurement else ""
        place = _Place(self, body, tape)
        stands = (tape.view, tape.pose, place.key, tuple(colours.cloth))
        if stands != self._stands:
            self._stands = stands
            self._body.clear()
            _draw_body(self._body, body, place)
        self._tape.clear()
        if place.scale > 0:
            _draw_tape(self._tape, tape, place)


class _Place:
    """Where millimetres of the figure stand on the screen: in the middle, her feet at the foot."""

    def __init__(self, widget: Widget, body: Body, tape: TapeOnFigure) -> None:
        left, top, right, bottom = body.bounds
        xs = [x for line in (*tape.near, *tape.leaders) for x, _ in line]
        left, right = min([left, *xs]), max([right, *xs])
        high = max(bottom - top, LEAST_HIGH_MM)
        rim = dp(END + 2 * RIM)
        tall, wide = widget.height - 2 * rim, widget.width - 2 * rim
        self.scale = min(tall / high, wide / (right - left))
        self._x = widget.center_x - (left + right) / 2 * self.scale
        self._y = widget.y + rim + bottom * self.scale
        self.key = (self.scale, self._x, self._y)

    def at(self, point: tuple[float, float]) -> tuple[float, float]:
        return self._x + point[0] * self.scale, self._y - point[1] * self.scale

    def flat(self, line: Iterable[tuple[float, float]]) -> list[float]:
        return [where for point in line for where in self.at(point)]


def _draw_body(group: InstructionGroup, body: Body, place: _Place) -> None:
    """Every outline first and every area over them leaves one line round all."""
    if place.scale <= 0:
        return
    for shapes in (body.body, body.over):
        group.add(Color(*colours.soft))
        for shape in shapes:
            group.add(SmoothLine(points=place.flat(shape), close=True, width=dp(OUTLINE)))
        group.add(Color(*colours.cloth))
        for shape in shapes:
            for corners in _triangles(shape):
                vertices = [part for x, y in map(place.at, corners) for part in (x, y, 0, 0)]
                group.add(Mesh(vertices=vertices, indices=range(len(corners)), mode="triangle_fan"))
    group.add(Color(*colours.edge))
    for line in body.props:
        group.add(SmoothLine(points=place.flat(line), width=dp(OUTLINE)))


def _draw_tape(group: InstructionGroup, tape: TapeOnFigure, place: _Place) -> None:
    """The far half broken, the near one a band with ticks across it, and where it ends."""
    group.add(Color(*colours.soft))
    for line in tape.leaders:
        group.add(SmoothLine(points=place.flat(line), width=dp(THIN)))
    group.add(Color(*colours.ink))
    dashes = [dash for line in tape.far for dash in _dashes([place.at(point) for point in line])]
    _add_strokes(group, dashes, dp(RIM))
    half = place.scale * TAPE_MM / 2
    near = [place.flat(line) for line in tape.near if len(line) > 1]
    for colour, width in ((colours.ink, half + dp(RIM)), (colours.sheet, half)):
        group.add(Color(*colour))
        for points in near:
            group.add(Line(points=points, width=width, cap="round", joint="round"))
    group.add(Color(*colours.ink))
    _add_strokes(group, [(place.at(one), place.at(other)) for one, other in tape.ticks], dp(RIM))
    for x, y in map(place.at, tape.ends):
        group.add(Ellipse(pos=(x - dp(END), y - dp(END)), size=(dp(2 * END), dp(2 * END))))


def _dashes(line: Polyline) -> Iterable[tuple[tuple[float, float], tuple[float, float]]]:
    """Yield the dashes of a broken line (pixels)."""
    left, drawing = dp(DASH), True
    for start, end in pairwise(line):
        here, rest = start, hypot(end[0] - start[0], end[1] - start[1])
        while rest > 0:
            part = min(left, rest)
            share = part / rest
            there = here[0] + (end[0] - here[0]) * share, here[1] + (end[1] - here[1]) * share
            if drawing:
                yield here, there
            here, rest, left = there, rest - part, left - part
            if left <= 0:
                drawing = not drawing
                left = dp(DASH if drawing else GAP)


def _add_strokes(
    group: InstructionGroup,
    strokes: Iterable[tuple[tuple[float, float], tuple[float, float]]],
    width: float,
) -> None:
    """Draw many short strokes as one mesh of small rectangles."""
    vertices: list[float] = []
    indices: list[int] = []
    for (x0, y0), (x1, y1) in strokes:
        length = hypot(x1 - x0, y1 - y0)
        if not length:
            continue
        x, y = -(y1 - y0) / length * width / 2, (x1 - x0) / length * width / 2
        first = len(vertices) // 4
        for corner in ((x0 + x, y0 + y), (x0 - x, y0 - y), (x1 - x, y1 - y), (x1 + x, y1 + y)):
            vertices += (*corner, 0, 0)
        indices += (first, first + 1, first + 2, first, first + 2, first + 3)
    if indices:
        group.add(Mesh(vertices=vertices, indices=indices, mode="triangles"))


@cache
def _triangles(shape: Polyline) -> tuple[tuple[tuple[float, float], ...], ...]:
    """Return a closed shape as fans of points, in its own millimetres."""
    tesselator = Tesselator()
    tesselator.add_contour([part for point in shape for part in point])
    if not tesselator.tesselate(WINDING_NONZERO, TYPE_POLYGONS):
        return ()
    return tuple(
        tuple(zip(vertices[::4], vertices[1::4], strict=True))
        for vertices, _indices in tesselator.meshes
    )
