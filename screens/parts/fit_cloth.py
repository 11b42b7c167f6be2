"""The garment drawn on the figure, or its pieces, with their names; and the heads of pins."""

from collections import Counter
from dataclasses import replace
from math import inf
from typing import Any

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
    SmoothLine,
)
from kivy.metrics import dp, sp

from core.figure.figure import figure
from core.fit.faces import FACES, Band, Face
from core.fit.laid_flat import LaidFlat
from core.fit.on_her import OnHer
from screens import tokens
from screens.parts.figure import _draw_body, _triangles
from screens.parts.fit_spots import FaceSeen, PinOnHer, Spots
from screens.parts.lettering import Hand, lines_of, width_of_line
from screens.parts.words import Words
from screens.tokens import colours

ARM = 215.0
"""A seam further out than this (mm) is a sleeve's: only then are her arms drawn."""

NAMES = {"front": ("her right", "her left"), "back": ("her left", "her right")}
TURNED = {
    "her right": ("the garment's left", "garment's left", "its left"),
    "her left": ("the garment's right", "garment's right", "its right"),
}
"""Worn inside out: what of the garment lies on each side of hers, in fewer and fewer words."""


class Cloth(Spots):
    """What a figure draws of the garment; it is a widget that has its faces placed."""

    _cloth: InstructionGroup
    _words: list[Words]

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
        arms = has_arms(worn)
        _draw_body(group, her if arms else replace(her, body=her.body[:2]), place)
        group.add(Color(*colours.rule))
        left, wide = self._span(FACES.index(face) / 2, FACES.index(face) / 2 + 0.5)
        for y in worn.levels.values() if wide > dp(16) else ():
            at = place.at((0, y))[1]
            group.add(Line(points=[left + dp(8), at, left + wide - dp(8), at], width=1.01))
        group.add(Color(*colours.ink))
        for outline in worn.outlines[face]:  # every area over them leaves one line round all
            group.add(SmoothLine(points=place.flat(outline), close=True, width=dp(2)))
        group.add(Color(*colours.sheet))
        for outline in worn.outlines[face]:
            group.add(_strip(outline, place))
        for band in worn.bands[face]:
            self._draw_band(group, band, place)
        for line in worn.lines:
            if line.face == face:
                group.add(Color(*(colours.soft if line.what == "dart" else colours.ink)))
                group.add(SmoothLine(points=place.flat(line.points), width=dp(1.6)))

    def _draw_band(self, group: InstructionGroup, band: Band, place: FaceSeen) -> None:
        """Draw an allowance that lies outside: cloth, with the edge it was cut at."""
        vertices: list[float] = []
        for one, other in zip(*band, strict=True):
            vertices += (*place.at(one), 0, 0, *place.at(other), 0, 0)
        group.add(Color(*colours.cloth))
        group.add(Mesh(vertices=vertices, indices=range(2 * len(band[0])), mode="triangle_strip"))
        group.add(Color(*colours.edge))
        around = [band[0][0], *band[1], band[0][-1]]
        group.add(SmoothLine(points=place.flat(around), width=1.2))

    def _draw_pieces(self, group: InstructionGroup, worn: LaidFlat, face: Face) -> None:
        """Draw the pieces of one half as they are stitched, each seam and dart thick."""
        place = self._faces[face]
        for outline in worn.cut_outlines[face]:
            self._fill(group, outline, place, colours.cloth)
        for outline in worn.outlines[face]:
            self._fill(group, outline, place, colours.sheet)
        for line in worn.lines:
            if line.face == face:
                group.add(Color(*(colours.soft if line.what == "dart" else colours.ink)))
                group.add(SmoothLine(points=place.flat(line.points), width=dp(1.8)))

    def _fill(self, group: InstructionGroup, outline: Any, place: FaceSeen, colour: Any) -> None:
        group.add(Color(*colour))
        for corners in _triangles(outline):
            vertices = [part for x, y in map(place.at, corners) for part in (x, y, 0, 0)]
            group.add(Mesh(vertices=vertices, indices=range(len(corners)), mode="triangle_fan"))
        group.add(Color(*colours.edge))
        group.add(SmoothLine(points=place.flat(outline), close=True, width=1.01))

    def _write_halves(self, worn: LaidFlat) -> None:
        """Name her two halves, and the pieces on them."""
        low, high = self._seen
        line = sp(tokens.LINE[tokens.SMALL])
        self._write(worn.named, self.x, low - line, self.width, line)
        for number, text in enumerate(NAMES["front"]):
            left, wide = self._span(number / 2, number / 2 + 0.5)
            self._write_side(text, left, high, wide, worn.inside_out)
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
            for side, text in enumerate(NAMES[face]):
                left, wide = self._span(number / 2 + side / 4, number / 2 + side / 4 + 0.25)
                self._write_side(text, left, high, wide, worn.inside_out)
            left, wide = self._span(number / 2, number / 2 + 0.5)
            named = f"{face}, {worn.named.lower()}" if worn.named else face
            self._write(named.capitalize(), left, low - line, wide, line)
        if half >= sp(170):  # else there is no room for them between the faces
            self._write_levels(worn, low, high)

    def _pinned_levels(self) -> tuple[str, ...]:
        """Return the levels that pins are on, that of the pin in hand first."""
        in_order = sorted(self.pins, key=lambda pin: not pin.in_hand)
        return tuple(dict.fromkeys(pin.where.level for pin in in_order if pin.where.level))

    def _write_levels(self, worn: OnHer, low: float, high: float) -> None:
        """Name the levels between the faces, each on its line.

        Of two too close the one that a pin is on is named, else the one more seams pass.
        """
        passed = Counter(name for line in worn.lines for name in line.at)
        pinned = self._pinned_levels()
        order = [*pinned, *(name for name, _ in sorted(
            worn.levels.items(), key=lambda one: (-passed[one[0]], one[1])))]  # fmt: skip
        line, written = sp(tokens.LINE[tokens.SMALL]), list[float]()
        between = self._closer.seen(self.center_x, 0)[0]
        between = min(max(between, self.x + sp(72)), self.right - sp(72))
        for name in dict.fromkeys(order):
            if name not in worn.levels:
                continue
            at = self._faces["front"].at((0, worn.levels[name]))[1]
            has_room = low <= at <= high - line / 2
            if has_room and all(abs(at - other) >= line for other in written):
                label = worn.labels.get(name, name).partition(",")[0]
                self._write(label, between - sp(72), at - line / 2, sp(144), line, on_line=True)
                written.append(at)

    def _write_side(self, text: str, x: float, y: float, wide: float, turned: bool) -> None:
        """Name a side of hers over it; worn inside out with the garment's side that lies there."""
        line, hand = sp(tokens.LINE[tokens.SMALL]), Hand(tokens.SMALL, True)
        name = text if wide > sp(80) else text.removeprefix("her ")
        self._write(name, x, y + line * turned, wide, line)
        for number, longest in enumerate(TURNED["her left"]) if turned else ():
            if width_of_line(lines_of(longest, hand, inf)[0], hand) < wide - dp(4):
                self._write(TURNED[text][number], x, y, wide, line)
                return

    def _write(
        self, text: str, x: float, y: float, wide: float, high: float, *, on_line: bool = False
    ) -> None:
        """Write words in the middle of a stretch; where they have no room they are left out.

        Words ``on_line`` stand on a ground of paper, which covers the line.
        """
        outside = x < self.x - 1 or x + wide > self.right + 1
        if not self._closer.is_whole and (outside or wide < sp(72)):
            return
        words = Words(text=text, letter=tokens.SMALL, bold=True, colour=colours.ink,
                      halign="center", wraps=False, size_hint=(None, None), size=(wide, high),
                      pos=(x, y))  # fmt: skip
        self._words.append(words)
        self.add_widget(words)
        if on_line:
            ground = words.needed_width + 2 * dp(tokens.GRID)
            with words.canvas.before:
                Color(*colours.paper)
                Rectangle(pos=(x + (wide - ground) / 2, y), size=(ground, high))

    def _span(self, left: float, right: float) -> tuple[float, float]:
        """Return where a stretch of the whole figure (shares of its width) is seen, and how wide.

        What is outside the figure's own place is not counted.
        """
        ends = (self._closer.seen(self.x + self.width * share, 0)[0] for share in (left, right))
        low, high = (min(max(end, self.x), self.right) for end in ends)
        return low, high - low


def has_arms(worn: OnHer) -> bool:
    return any(abs(x) > ARM and y < 840 for line in worn.lines for x, y in line.points)


def _strip(outline: Any, place: FaceSeen) -> Mesh:
    """Return a mirrored outline filled: its two edges meet height by height."""
    half = len(outline) // 2
    vertices: list[float] = []
    for one, other in zip(outline[:half], reversed(outline[half:]), strict=True):
        vertices += (*place.at(one), 0, 0, *place.at(other), 0, 0)
    return Mesh(vertices=vertices, indices=range(2 * half), mode="triangle_strip")


def draw_pin(group: InstructionGroup, pin: PinOnHer, at: tuple[float, float]) -> None:
    """Draw a pin's head: solid for a pinch, open for a gap, and for one that is not read."""
    x, y = at
    meaning = {"pinch": colours.take_in, "edges": colours.take_in, "gap": colours.let_out,
               "mark": colours.caution}.get(pin.kind, colours.ink)  # fmt: skip
    solid = pin.kind in ("pinch", "edges", "mark")
    half = dp(15)
    if pin.in_hand:
        group.add(Color(*colours.ink))
        group.add(SmoothLine(circle=(x, y, dp(24)), width=dp(1.6)))
    group.add(Color(*(meaning if solid else colours.sheet)))
    group.add(Ellipse(pos=(x - half, y - half), size=(2 * half, 2 * half)))
    group.add(Color(*meaning))
    group.add(SmoothLine(circle=(x, y, half), width=dp(1.8)))
    if pin.number:
        ink = colours.paper if solid else colours.ink
        letters = Letters(text=str(pin.number), font_size=sp(tokens.SMALL), bold=True,
                          font_name=tokens.TEXT_FONT)  # fmt: skip
        letters.refresh()
        wide, high = letters.texture.size
        group.add(Color(*ink))
        group.add(Rectangle(texture=letters.texture, pos=(x - wide / 2, y - high / 2),
                            size=(wide, high)))  # fmt: skip


__all__ = ["Cloth", "draw_pin", "has_arms"]
