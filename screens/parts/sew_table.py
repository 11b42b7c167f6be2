"""The amounts of a step from top to bottom, with its seam's new line drawn on the same rows."""

from collections.abc import Sequence
from itertools import pairwise
from pathlib import Path
from typing import Any

from kivy.clock import Clock
from kivy.graphics import Color, Line, Rectangle, Triangle
from kivy.lang import Builder
from kivy.metrics import dp, sp
from kivy.properties import ColorProperty, NumericProperty, ObjectProperty
from kivy.uix.widget import Widget

from core.said.step_shown import DartShown, RowShown, StepShown
from screens import tokens
from screens.parts.lettering import Hand, lines_of, width_of_line, width_of_word, words_of
from screens.parts.sew_amount import SewAmount
from screens.parts.sew_marks import SewMark
from screens.parts.words import Words

GAP, INSET = 24, 10
DRAWING, WIDEST = 168, 320
"""How wide the drawing of the line is at least and at most (dp), with the room at both sides."""

STILL, TALL, LOW, LOW_TWO = 60, 164, 98, 120
"""The height of a row (sp): without a move, with digits of the largest size, with smaller ones,
and with smaller ones and a direction of its own below its name."""

NEW = 9
"""How wide a new line is drawn (dp)."""

LOOSER = 1.15
"""Where there is room the rows are so much higher at most."""


class SewTable(Widget):
    """A step's rows; ``room_height`` (pixels) is what there is without scrolling.

    Its own ``height`` is what its rows need.
    """

    step = ObjectProperty(None, allownone=True)
    room_height = NumericProperty(0)
    ink = ColorProperty(tokens.LIGHT["ink"])
    soft = ColorProperty(tokens.LIGHT["soft"])
    rule = ColorProperty(tokens.LIGHT["rule"])
    take_in = ColorProperty(tokens.LIGHT["take_in"])
    let_out = ColorProperty(tokens.LIGHT["let_out"])

    def __init__(self, **kwargs: Any) -> None:
        self._rows: list[tuple[RowShown, list[Widget]]] = []
        self._heads: list[Words] = []
        self._middles: list[float] = []
        self._has_drawing = True
        super().__init__(**kwargs)
        self._place_soon = Clock.create_trigger(self._place, -1)
        self._build_soon = Clock.create_trigger(self._build, -1)
        for name in ("step", "room_height", "width", "ink", "soft", "take_in", "let_out"):
            self.fbind(name, self._build_soon)
        for name in ("pos", "height", "rule"):
            self.fbind(name, self._place_soon)
        self._build_soon()

    @property
    def heights(self) -> list[float]:
        """How high the names of the columns and each row are (pixels); nothing without rows."""
        return self._heights() if self._rows and self.step is not None else []

    @property
    def has_heads(self) -> bool:
        """Tell whether the columns have names."""
        return bool(self._heads)

    # -- the rows -------------------------------------------------------------

    def _build(self, *_: object) -> None:
        """Make the words and amounts of a step; the largest digits that there is room for."""
        self.clear_widgets()
        self._rows, self._heads = [], []
        step: StepShown | None = self.step
        if step is None or not step.rows or self.width < dp(tokens.TARGET):
            self.height = 0
            self._place_soon()
            return
        self._digits = tokens.GIANT if self._needs(step, TALL) <= self.room_height else tokens.KEY
        for head in step.columns:
            self._heads.append(self._words(head, self.ink, bold=True))
        for row in step.rows:
            self._rows.append((row, self._row(row, step)))
        self.height = sum(self._heights())
        self._place_soon()

    def _needs(self, step: StepShown, moving: float) -> float:
        heads = sp(tokens.LINE[tokens.KEY]) if step.columns else 0
        return heads + sum(sp(moving) if row.moves else sp(STILL) for row in step.rows)

    def _row(self, row: RowShown, step: StepShown) -> list[Widget]:
        parts: list[Widget] = [self._words(row.label, self.ink if row.moves else self.soft,
                                           bold=row.moves)]  # fmt: skip
        for amount in row.amounts:
            shown = SewAmount(
                text=amount.text, colour=self._colour(amount.way),
                whole=tokens.GIANT if amount.way else tokens.KEY,
                digits=self._digits if amount.way else tokens.KEY,
            )  # fmt: skip
            self.add_widget(shown)
            parts.append(shown)
        ways = list(dict.fromkeys(amount.way for amount in row.amounts if amount.way))
        if ways and not step.way:
            colour = self._colour(ways[0] if len(ways) == 1 else "")
            said = ways[0] if len(ways) == 1 else "in and out"
            parts.append(self._words(said, colour, bold=True))
            mark = SewMark(kind=ways[0] if len(ways) == 1 else "", colour=colour)
            self.add_widget(mark)
            parts.append(mark)
        return parts

    def _words(self, text: str, colour: Any, *, bold: bool) -> Words:
        words = Words(text=text, letter=tokens.KEY, bold=bold, colour=colour, wraps=True)
        self.add_widget(words)
        return words

    def _colour(self, way: str) -> Any:
        return {"take in": self.take_in, "let out": self.let_out}.get(way, self.soft)

    def _heights(self) -> list[float]:
        """Return how high each row is, the column names first."""
        label, amount = self._columns()
        for words in self._heads:
            words.width = amount
        heads = max((words.needed_height for words in self._heads), default=0)
        found = [heads]
        for row, parts in self._rows:
            two = len(parts) > 1 + len(row.amounts)
            tall = TALL if self._digits == tokens.GIANT else LOW_TWO if two else LOW
            lines = _lines(row.label, row.moves, label) + (1 if two else 0)
            words = lines * sp(tokens.LINE[tokens.KEY]) + dp(4)
            found.append(max(sp(tall if row.moves else STILL), words))
        spare = self.room_height / max(sum(found), 1)
        return [height * min(max(spare, 1.0), LOOSER) for height in found]

    def _columns(self) -> tuple[float, float]:
        """Return the widths of the names and of one amount.

        The line is drawn where they leave it room: no word is broken for it.
        """
        count = max((len(row.amounts) for row, _ in self._rows), default=1)
        widest = max((part.needed_width for _, parts in self._rows for part in parts
                      if isinstance(part, SewAmount)), default=0.0)  # fmt: skip
        widest = max([widest, *(words.needed_width for words in self._heads)])
        names = max(self._name_width(row, parts) for row, parts in self._rows)
        least = max(self._least_name_width(row, parts) for row, parts in self._rows)
        self._has_drawing = bool(self.step.lines or self.step.dart)
        for drawing in (dp(DRAWING), 0.0) if self._has_drawing else (0.0,):
            room = self.width - drawing
            amount = min(widest + dp(GAP), room * 0.62 / count)
            label = max(room - count * amount - dp(GAP), dp(60))
            self._has_drawing = drawing > 0
            if label >= least:
                break
        return min(names, label), amount

    def _least_name_width(self, row: RowShown, parts: Sequence[Widget]) -> float:
        """Return how wide a row's name is with a word on each line, and its direction below it."""
        hand = Hand(tokens.KEY, row.moves)
        words = (width_of_word(word, hand) for word in words_of(row.label))
        return max([*words, *(way.needed_width + dp(76)
                              for way in parts[1 + len(row.amounts) :][:1])])  # fmt: skip

    def _name_width(self, row: RowShown, parts: Sequence[Widget]) -> float:
        """Return how wide a row's name is on one line, with its direction below it."""
        ways = parts[1 + len(row.amounts) :]
        way = ways[0].needed_width + dp(76) if ways else 0.0
        return float(max(parts[0].needed_width, way))

    def _drawing(self) -> tuple[float, float]:
        """Return where the drawing of the line begins and ends."""
        label, amount = self._columns()
        count = max((len(row.amounts) for row, _ in self._rows), default=1)
        begins = self.x + label + dp(GAP) + count * amount
        return max(begins, self.right - dp(WIDEST)), self.right

    # -- where everything is --------------------------------------------------

    def _place(self, *_: object) -> None:
        self.canvas.before.clear()
        if not self._rows:
            return
        label, amount = self._columns()
        heights = self._heights()
        if abs(sum(heights) - self.height) > 1:
            self.height = sum(heights)
            return
        first = self.x + label + dp(GAP)
        for number, words in enumerate(self._heads):
            words.size = amount, heights[0]
            words.pos = first + number * amount, self.top - heights[0]
        y = self.top - heights[0]
        self._middles = []
        for (row, parts), height in zip(self._rows, heights[1:], strict=True):
            y -= height
            self._middles.append(y + height / 2)
            self._place_row(row, parts, (self.x, y, label, height), first, amount)
        self._draw(heights)

    def _place_row(
        self, row: RowShown, parts: Sequence[Widget], box: tuple[float, float, float, float],
        first: float, amount: float,
    ) -> None:  # fmt: skip
        x, y, label, height = box
        name, amounts = parts[0], parts[1 : 1 + len(row.amounts)]
        ways = parts[1 + len(row.amounts) :]
        for number, each in enumerate(amounts):
            each.size = amount - dp(8), height
            each.pos = first + number * amount, y
        if not ways:
            name.size, name.pos = (label, height), (x, y)
            return
        line = sp(tokens.LINE[tokens.KEY])
        name.width = label
        name.height = name.needed_height
        top = y + height / 2 + (name.needed_height + line) / 2
        name.pos = x, top - name.needed_height
        words, mark = ways
        words.size = min(words.needed_width, label - dp(72)), line
        words.pos = x, top - name.needed_height - line
        mark.size, mark.pos = (dp(72), line), (words.right + dp(4), words.y)

    # -- the drawing ----------------------------------------------------------

    def _draw(self, heights: Sequence[float]) -> None:
        with self.canvas.before:
            Color(*self.rule)
            y = self.top - heights[0]
            for height in (0.0, *heights[1:]):
                y -= height
                Rectangle(pos=(self.x, round(y)), size=(self.width, dp(1)))
            if self.step.lines and self._has_drawing:
                self._draw_lines()
            elif self.step.dart is not None and self._has_drawing:
                self._draw_dart(self.step.dart)

    def _draw_lines(self) -> None:
        step: StepShown = self.step
        way = -1 if step.mirrored else 1
        moves = [way * move for line in step.lines for _, move in line.points]
        least, most = min([0.0, *moves]), max([0.0, *moves])
        begins, ends = self._drawing()
        scale = (ends - begins - dp(64)) / max(most - least, 1e-6)
        middle = (begins + ends) / 2 - (least + most) / 2 * scale
        top, bottom = self._middles[0] + sp(26), self._middles[-1] - sp(26)
        Color(*self.ink)
        self._dashes(middle, top, bottom)
        for line in step.lines:
            self._draw_line([(middle + way * move * scale, self._y(down), move)
                             for down, move in line.points])  # fmt: skip
        self._arrows(middle, scale * way)

    def _draw_line(self, points: Sequence[tuple[float, float, float]]) -> None:
        """Draw a new line thick, in the colour of where it goes."""
        runs: list[tuple[int, list[float]]] = []
        for (x, y, move), (next_x, next_y, next_move) in pairwise(points):
            both = move + next_move
            sign = 0 if abs(both) < 0.1 else 1 if both > 0 else -1
            if runs and runs[-1][0] == sign:
                runs[-1][1].extend((next_x, next_y))
            else:
                runs.append((sign, [x, y, next_x, next_y]))
        for sign, run in runs:
            Color(*{1: self.let_out, -1: self.take_in}.get(sign, self.ink))
            Line(points=run, width=dp(NEW) / 2, cap="round", joint="round")
        if len(points) == 1:
            x, y, move = points[0]
            Color(*(self.let_out if move > 0 else self.take_in))
            Line(points=[x, y + sp(26), x, y - sp(26)], width=dp(NEW) / 2, cap="round")

    def _arrows(self, middle: float, scale: float) -> None:
        line = self.step.lines[0]
        for row, y in zip(self.step.rows, self._middles, strict=True):
            move = min(line.points, key=lambda point: abs(point[0] - row.down))[1]
            end = middle + move * scale
            way = 1 if end > middle else -1
            tip = end - way * dp(NEW)
            if abs(tip - middle) < dp(24) or not row.moves:
                continue
            Color(*(self.let_out if move > 0 else self.take_in))
            back = tip - way * dp(18)
            Line(points=[middle, y, back, y], width=dp(2.5))
            Triangle(points=[tip, y, back, y + dp(11), back, y - dp(11)])

    def _y(self, down: float) -> float:
        """Return where a height is drawn: even between two rows."""
        downs = [row.down for row in self.step.rows]
        if down <= downs[0] or len(downs) == 1:
            return self._middles[0]
        for number, (high, low) in enumerate(pairwise(downs)):
            if down <= low:
                share = (down - high) / max(low - high, 1e-6)
                return self._middles[number] + share * (
                    self._middles[number + 1] - self._middles[number]
                )
        return self._middles[-1]

    def _dashes(self, x: float, top: float, bottom: float) -> None:
        while top > bottom:
            Line(points=[x, top, x, max(top - dp(8), bottom)], width=1.01)
            top -= dp(14)

    def _draw_dart(self, dart: DartShown) -> None:
        """Draw the old legs thin and dashed, the new ones thick."""
        begins, ends = self._drawing()
        x, y = (begins + ends) / 2, self._middles[0]
        half, wide = sp(70) if self._digits == tokens.GIANT else sp(46), dp(DRAWING) / 2 - dp(36)
        widest = y + half - 2 * half * dart.widest
        most = max(dart.before, dart.after, 1e-6)
        for take_up, new in ((dart.before, False), (dart.after, True)):
            reach = wide * take_up / most
            Color(*((self.take_in if dart.after > dart.before else self.let_out)
                    if new else self.ink))  # fmt: skip
            for side in (-1, 1):
                legs = [x, y + half, x + side * reach, widest, x, y - half]
                if new:
                    Line(points=legs, width=dp(NEW) / 2, cap="round", joint="round")
                else:
                    Line(points=legs, width=1.01)


def _lines(text: str, bold: bool, width: float) -> int:
    return len(lines_of(text, Hand(tokens.KEY, bold), width))


def widest_word(text: str, bold: bool) -> float:
    """Return the width of a text on one line (pixels), in the size of the words."""
    hand = Hand(tokens.KEY, bold)
    return max((width_of_line(line, hand) for line in lines_of(text, hand, float("inf"))),
               default=0.0)  # fmt: skip


Builder.load_file(str(Path(__file__).with_suffix(".kv")))
