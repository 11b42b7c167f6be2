"""The draft's table: each level's sum, the cut width of every piece, and what it comes to.

Where there is room a level is one line; else the cut widths stand under its sum.
"""

from collections.abc import Iterator
from pathlib import Path

from kivy.clock import Clock
from kivy.graphics import Color, Rectangle, RoundedRectangle
from kivy.lang import Builder
from kivy.metrics import dp
from kivy.properties import BooleanProperty, ListProperty, NumericProperty, ObjectProperty
from kivy.uix.boxlayout import BoxLayout
from kivy.uix.widget import Widget

from screens import looks, tokens
from screens.parts.draft_cell import NumberCell
from screens.parts.draft_columns import APART, Columns, columns_for
from screens.parts.lettering import Hand, lines_of
from screens.parts.marks import Meant
from screens.parts.row_list import RowList
from screens.parts.upright import bring_into_sight
from screens.parts.words import Words
from screens.tokens import colours

__all__ = ["DraftLine", "DraftTable", "RowList", "looks"]

HEADS = ("", "down", "body", "ease", "wanted", "finished")


class DraftLine(Widget):
    """A level of the table: ``row`` is its ``LevelRow``, ``owner`` the table it is in."""

    row = ObjectProperty(None, allownone=True)
    owner = ObjectProperty(None, allownone=True)

    def __init__(self, row: object = None, owner: object = None, **kwargs: object) -> None:
        super().__init__(size_hint_y=None, **kwargs)
        self.label = Words(bold=True, shrinks=True)
        self.sums = [NumberCell(plain=True) for _ in range(3)]
        self.wanted, self.finished = Words(bold=True, wraps=False), Words(wraps=False)
        self.mark, self.off = Meant(), Words(letter=tokens.SMALL, wraps=False)
        self.cells: list[NumberCell] = []
        for part in (self.label, *self.sums, self.wanted, self.finished, self.mark, self.off):
            self.add_widget(part)
        self.arrange = Clock.create_trigger(self._arrange, -1)
        for name in ("pos", "size"):
            self.fbind(name, self.arrange)
        self.off.fbind("text", self.arrange)
        self.mark.fbind("kind", self.arrange)
        self.finished.fbind("text", self.arrange)
        colours.follow(self._fill)
        colours.follow(self._arrange)
        self.fbind("row", self._fill)
        self.fbind("owner", self._fill)
        self.owner, self.row = owner, row

    def _fill(self, *_: object) -> None:
        row = self.row
        if row is None or self.owner is None:
            return
        self.label.text, self.label.colour = row.label, colours.ink
        for cell, one in zip(self.sums, (row.down, row.body, row.ease), strict=True):
            cell.owner, cell.row = self.owner.owner, one
        self.wanted.text, self.wanted.colour = row.wanted, colours.ink
        self.mark.kind, self.mark.otherwise = row.mark, colours.ink
        self.finished.text, self.finished.bold = row.finished, bool(row.mark)
        inks = {"agrees": colours.agrees, "caution": colours.caution_ink}
        self.finished.colour = self.off.colour = inks.get(row.mark, colours.ink)
        self.off.text, self.mark.ground = row.second, colours.caution
        self._fill_cells()

    def _fill_cells(self) -> None:
        wanted = len(self.row.cells)
        for spare in self.cells[wanted:]:
            self.remove_widget(spare)
        del self.cells[wanted:]
        while len(self.cells) < wanted:
            self.cells.append(NumberCell(bold=True, halign="center"))
            self.add_widget(self.cells[-1])
            self.arrange()
        for cell, one in zip(self.cells, self.row.cells, strict=True):
            cell.owner, cell.row = self.owner.owner, one

    def _arrange(self, *_: object) -> None:
        """Put every number into its column; the line above is decoration."""
        columns = self.owner.columns if self.owner else None
        if columns is None or len(columns.starts) != len(self.cells):
            return  # the table measures its columns anew, and then this is asked for again
        self._fit_label(columns)
        for part in self.sums:
            part.letter = columns.letters.source
        for part in (self.wanted, self.finished, *self.cells):
            part.letter = columns.letters.result
        off = self.finished.needed_height + self.off.needed_height if self.off.text else 0.0
        first = columns.first_height(self.label.needed_height, off)
        self.height = columns.height_of(first)
        top = self.top - dp(tokens.GRID)
        for part, (x, wide) in zip(
            (self.label, *self.sums, self.wanted, self.finished), columns.sums, strict=True
        ):
            high = first - dp(tokens.GRID) if part in self.sums else first
            part.size, part.pos = (wide, high), (self.x + x, top - (first + high) / 2)
        self._arrange_verdict(top - first, first)
        for cell, (x, down) in zip(self.cells, columns.cells(first), strict=True):
            cell.size = columns.cell, dp(tokens.BUTTON)
            cell.pos = self.x + x, top - down - cell.height
        self._rule_off()

    def _fit_label(self, columns: Columns) -> None:
        """Letter a level's name small where it would need more than two lines."""
        wide = columns.sums[0][1]
        lines = lines_of(self.label.text, Hand(columns.letters.result, bold=True), wide)
        self.label.letter = columns.letters.result if len(lines) <= 2 else tokens.SMALL
        self.label.width = wide

    def _arrange_verdict(self, y: float, high: float) -> None:
        """Put the mark beside what the level comes to, and under it how far that is off."""
        off = self.off.needed_height if self.off.text else 0.0
        self.finished.width = min(self.finished.needed_width, self.finished.width)
        self.finished.y, self.finished.height = y + off, high - off
        self.mark.height, self.mark.pos = high - off, (self.finished.right + dp(4), y + off)
        self.off.size, self.off.pos = (self.off.needed_width, off), (self.finished.x, y)

    def _rule_off(self) -> None:
        """Draw the line above, and the caution's ground under what is off."""
        self.canvas.before.clear()
        with self.canvas.before:
            if self.mark.kind == "caution":
                Color(*colours.caution)
                right = max(self.mark.right, self.off.right) + dp(4)
                x, y = self.finished.x - dp(6), self.off.y if self.off.text else self.finished.y
                RoundedRectangle(pos=(x, y), size=(right - x, self.finished.top - y),
                                 radius=[dp(tokens.CORNER)])  # fmt: skip
            Color(*colours.rule)
            Rectangle(pos=(self.x, self.top - dp(1)), size=(self.width, dp(1)))


class DraftHead(Widget):
    """The names of the columns; folded, the pieces stand on lines of their own."""

    owner = ObjectProperty(None, allownone=True)

    def __init__(self, **kwargs: object) -> None:
        super().__init__(size_hint_y=None, **kwargs)
        self.arrange = Clock.create_trigger(self._arrange, -1)
        for name in ("pos", "size", "owner"):
            self.fbind(name, self.arrange)
        colours.follow(self._arrange)

    def _arrange(self, *_: object) -> None:
        columns = self.owner.columns if self.owner else None
        if columns is None:
            return
        named = list(self._named(columns))
        while len(self.children) < len(named):
            self.add_widget(Words(letter=tokens.SMALL, valign="middle"))
        for spare in self.children[len(named) :]:
            self.remove_widget(spare)
        self.height = columns.head_height
        for words, (text, x, down, wide, high) in zip(self.children, named, strict=True):
            words.text, words.size, words.colour = text, (wide, high), colours.soft
            words.pos = self.x + x, self.top - down - high

    def _named(self, columns: Columns) -> Iterator[tuple[str, float, float, float, float]]:
        """Yield each name with its x, how far down, and its size."""
        first = columns.head_first
        for text, (x, wide) in zip(HEADS, columns.sums, strict=True):
            yield text, x, 0.0, max(wide, columns.head_width(text)), first
        for piece, (x, down) in zip(columns.pieces, columns.cells_in_head(), strict=True):
            yield columns.head_of(piece), x, down, columns.cell, columns.head_cell


class DraftTable(BoxLayout):
    """The table under the names of its columns; it scrolls where it is higher than its room.

    ``pieces`` are the names of the pieces, ``owner`` opens the numbers.  Where it ``flows`` it
    does not scroll: it lies in what does.
    """

    rows = ListProperty()
    pieces = ListProperty()
    owner = ObjectProperty(None, allownone=True)
    columns = ObjectProperty(None, allownone=True)
    needed_height = NumericProperty(0)
    flows = BooleanProperty(False)

    def __init__(self, **kwargs: object) -> None:
        super().__init__(**kwargs)
        self._measure_soon = Clock.create_trigger(self._measure, -1)
        for name in ("rows", "pieces", "width"):
            self.fbind(name, self._measure_soon)
        self._bring_soon = Clock.create_trigger(self._bring_lit_into_sight, 0)
        self.fbind("rows", self._bring_soon)
        self.ids.rows.fbind("height", self._bring_soon)
        self._view, self._lines = self.ids.view.__self__, self.ids.rows.__self__
        self._view.fbind("height", self._bring_soon)

    def on_flows(self, *_: object) -> None:
        """Take the levels out of what scrolls them, or put them back."""
        self._lines.parent.remove_widget(self._lines)
        if self.flows:
            self.remove_widget(self._view)
            self.add_widget(self._lines)
        else:
            self._view.add_widget(self._lines)
            self.add_widget(self._view)

    def _measure(self, *_: object) -> None:
        columns = columns_for(self.rows, self.pieces, self.width - (0 if self.flows else dp(APART)))
        if columns == self.columns:
            return
        self.columns = columns
        self.ids.head.arrange()
        for line in self.ids.rows.children:
            line.arrange()

    def _bring_lit_into_sight(self, *_: object) -> None:
        """Scroll to the level whose number lies open, once its place has settled."""
        for line in self.ids.rows.children:
            row = line.row
            if row and any(cell.lit for cell in (*row.cells, row.down, row.ease)):
                bring_into_sight(line)


Builder.load_file(str(Path(__file__).with_suffix(".kv")))
