"""One step on paper: a box to tick, the place, what to do, the amounts in large figures."""

from collections.abc import Sequence

from core.changes.seam_line import SeamLine
from core.lengths import SMALLEST_MM, Unit
from core.records.answer import Plan, Step
from core.records.garment import Garment
from core.said.dart_steps import told_at
from core.said.step_places import Place, dart_of
from core.said.step_words import words_of
from core.sheet.amounts import (
    AMOUNT,
    INDENT_MM,
    LABEL,
    QUIET,
    WORD,
    Cell,
    Columns,
    amounts_mm,
    write_amounts,
)
from core.sheet.drawing import SeamDrawing, draw_dart
from core.sheet.flow import BODY, SMALL, TOP_MM, Flow
from core.sheet.paper import Style
from core.wording import Words, direction, listed, sentence

NUMBER = Style(15, bold=True)
TAG = Style(11, bold=True)
DRAWING_MM = 46.0
BOX_MM = 6.5


def write_step(
    flow: Flow, step: Step, place: Place | None, plan: Plan, garment: Garment, unit: Unit
) -> None:
    """Write a step; its head and its amounts stay on one page where they can."""
    block = _Block(flow, step, place, plan, garment, Words(unit))
    block.write()


class _Block:
    """A step that is being written."""

    def __init__(
        self, flow: Flow, step: Step, place: Place | None, plan: Plan, garment: Garment,
        words: Words,
    ) -> None:  # fmt: skip
        self.flow, self.step, self.place = flow, step, place
        self.plan, self.garment, self.words = plan, garment, words

    def write(self) -> None:
        flow = self.flow
        said, why = words_of(self.step, self.place, self.words)
        lines = flow.paper.wrapped(said, flow.width - INDENT_MM, BODY) if said else []
        after = self._after_lines(why)
        whole = NUMBER.line_mm + 4 + len(lines) * BODY.line_mm + self._table_mm()
        whole += sum(len(told) for _, told in after) * SMALL.line_mm + 2
        flow.need(whole if whole < flow.bottom - TOP_MM else 60.0)
        self._title()
        for line in lines:
            flow.need(BODY.line_mm)
            flow.y = flow.paper.write_lines(flow.left + INDENT_MM, flow.y, [line], BODY)
        flow.gap(1.2)
        self._table()
        self._after(after)
        flow.gap(4.0)

    # The words

    def _title(self) -> None:
        flow, paper = self.flow, self.flow.paper
        middle = flow.y + NUMBER.line_mm / 2
        paper.box(flow.left, middle - BOX_MM / 2, BOX_MM, BOX_MM, 0.6)
        number = f"{self.step.order}"
        x = flow.left + INDENT_MM
        paper.write_lines(x, flow.y, [number], NUMBER)
        x += max(paper.width_of("88", NUMBER), paper.width_of(number, NUMBER)) + 3.0
        tag, rest = self._tags()
        room = flow.right - x - (paper.width_of(tag, TAG) + 8 if tag else 0)
        lines = paper.wrapped(self.step.title, room, NUMBER)
        bottom = paper.write_lines(x, flow.y, lines, NUMBER)
        x += max(paper.width_of(line, NUMBER) for line in lines) + 3.0
        if tag:
            wide = paper.width_of(tag, TAG) + 4.0
            paper.box(x, middle - 3.4, wide, 6.8, 0.5)
            paper.write(x + 2.0, middle + TAG.capital_mm / 2, tag, TAG)
            x += wide + 3.0
        if rest and x + paper.width_of(rest, SMALL) <= flow.right:
            paper.write(x, middle + SMALL.capital_mm / 2, rest, SMALL)
        flow.y = bottom + 1.0

    def _tags(self) -> tuple[str, str]:
        """Return whose side it is, boxed, and what is said smaller beside it."""
        if self.step.side is not None:
            other = "right" if self.step.side == "left" else "left"
            return f"her {self.step.side}", f"not like her {other}"
        return ("both sides alike", "") if self.place is not None and self.place.both else ("", "")

    def _after_lines(self, why: str) -> list[tuple[bool, list[str]]]:
        """Return what stands small below: whether it is urgent, and its lines."""
        step = self.step
        told = [f"Between the levels: {step.line}."] if step.line else []
        told += [why] if why else []
        told += [sentence(step.sum)] if step.group == "open" and step.sum else []
        told += step.sum.split(" | ") if step.group == "hem" and step.sum else []
        urgent = [(True, caution) for caution in step.cautions]
        room = self.flow.width - INDENT_MM
        return [(is_urgent, self.flow.paper.wrapped(text, room, SMALL))
                for is_urgent, text in [*((False, text) for text in told), *urgent]]  # fmt: skip

    def _after(self, after: Sequence[tuple[bool, list[str]]]) -> None:
        flow = self.flow
        for is_urgent, lines in after:
            flow.need(SMALL.line_mm)
            if is_urgent:
                flow.mark_urgent(flow.left + 1.2, flow.y + SMALL.line_mm / 2)
            style = SMALL._replace(tone="ink") if is_urgent else SMALL
            for line in lines:
                flow.need(SMALL.line_mm)
                flow.y = flow.paper.write_lines(flow.left + INDENT_MM, flow.y, [line], style)
            flow.gap(0.6)

    # The amounts

    def _table_mm(self) -> float:
        found = self._content()
        return 0.0 if found is None else amounts_mm(self.flow, *found)

    def _table(self) -> None:
        found = self._content()
        if found is None:
            return
        columns, rows, row_mm = found
        what = "check" if self.place is None else self.place.what
        draw = {"seam": self._draw_seam, "dart": self._draw_dart}.get(what, self._draw_check)
        write_amounts(self.flow, columns, rows, draw, row_mm)

    def _content(self) -> tuple[Columns, list[list[Cell]], float] | None:
        if self.place is None:
            return self._check() if self.step.group == "baste and check" else None
        if self.place.what == "seam":
            return self._seam(self.place)
        return self._dart(self.place) if self.place.what == "dart" else None

    def _seam(self, place: Place) -> tuple[Columns, list[list[Cell]], float]:
        room = self.flow.width - INDENT_MM - DRAWING_MM
        alike = place.alike
        kinds = ("solid line", "broken line") if len(place.edges) > 1 else ("",)
        heads = [self._alike_head(place)] if alike else [
            ", ".join(filter(None, [edge.lower(), kind]))
            for edge, kind in zip(place.edges, kinds, strict=True)
        ]
        word, down = (30.0 if alike else 0.0), 17.0
        each = 38.0 if alike else 38.0 if len(heads) == 1 else 34.0
        level = room - word - down - each * len(heads)
        rows = [self._seam_row(place, number) for number in range(len(self._rows(place)))]
        names = ("at the", "down", *([""] if alike else []), *heads)
        widths = (level, down, *([word] if alike else []), *[each] * len(heads))
        return Columns(names, widths), rows, 10.0 if alike else 12.5

    def _rows(self, place: Place) -> list[tuple[str, float, tuple[float | None, ...]]]:
        """Return the levels that move, and those where the line runs out to nothing."""
        rows = [(row.label, row.down, row.moves) for row in place.rows]
        nothing = (0.0,) * len(place.edges)
        line = place.longest_line
        for end in (line.above, line.below) if line else ():
            for level in self.garment.levels.values():
                if end is not None and abs(level.down - end) <= SMALLEST_MM:
                    rows.append((level.label, level.down, nothing))
        return sorted(rows, key=lambda row: row[1])

    def _seam_row(self, place: Place, number: int) -> list[Cell]:
        label, down, moves = self._rows(place)[number]
        height = Cell(self.words.length(down), QUIET)
        if not any(moves):
            more = 1 if place.alike else len(place.edges) - 1
            quiet = [Cell("nothing", QUIET), *[Cell("0", QUIET)] * more]
            return [Cell(label, QUIET), height, *quiet]
        if place.alike:
            move = moves[0] or 0.0
            return [Cell(label, LABEL), height, Cell(_arrowed(move), WORD),
                    Cell(self.words.length(move), AMOUNT)]  # fmt: skip
        cells = [Cell("stays", QUIET) if move is None
                 else Cell(f"{direction(move)} {self.words.length(move)}", Style(14, bold=True))
                 for move in moves]  # fmt: skip
        return [Cell(label, LABEL), height, *cells]

    def _alike_head(self, place: Place) -> str:
        ring, seam = place.seam
        if seam.joins_itself:
            return "each half" if ring.kind == "half" else "each edge"
        if seam.id == ring.side_line:
            return "front and back alike"
        return f"{listed([label.lower() for label in place.edges])} alike"

    def _draw_seam(self, placed: Sequence[tuple[int, float]]) -> None:
        place = self.place
        if place is None:
            return
        lines: list[SeamLine | None] = [place.line(number) for number in range(len(place.edges))]
        SeamDrawing(
            self.flow.paper, lines[:1] if place.alike else lines,
            [down for _, down, _ in self._rows(place)],
            self.flow.right - DRAWING_MM, self.flow.right, mirrored=place.side == "right",
        ).draw(placed)  # fmt: skip

    def _dart(self, place: Place) -> tuple[Columns, list[list[Cell]], float]:
        level, before, move = told_at(place.plan, *dart_of(place)[1:])
        row = [
            Cell(self.garment.levels[level].label, LABEL),
            Cell("deeper" if move < 0 else "shallower"),
            Cell(self.words.length(move), AMOUNT),
            Cell(self.words.length(before), WORD),
            Cell(self.words.length(before - 2 * move), AMOUNT),
        ]
        room = self.flow.width - INDENT_MM - 36.0
        widths = tuple(room * share for share in (0.24, 0.21, 0.19, 0.17, 0.19))
        return Columns(("at the", "", "each leg", "was", "becomes"), widths), [row], 25.0

    def _draw_dart(self, placed: Sequence[tuple[int, float]]) -> None:
        if self.place is None or not placed:
            return
        level, before, move = told_at(self.place.plan, *dart_of(self.place)[1:])
        dart, _, _ = dart_of(self.place)
        top, point = dart.dart.top, dart.dart.point
        where = 0.5
        if top is not None and point is not None and point > top:
            where = (self.garment.levels[level].down - top) / (point - top)
        middle = (self.flow.right - 16.0, placed[0][1])
        where = min(max(where, 0.1), 0.9)
        draw_dart(self.flow.paper, middle, 10.5, before, before - 2 * move, where)

    def _check(self) -> tuple[Columns, list[list[Cell]], float] | None:
        rows = []
        for row in self.plan.levels:
            if row.layer == self.step.layer and abs(row.planned) > SMALLEST_MM:
                label = ", ".join(filter(None, [row.label, f"her {row.side}" if row.side else ""]))
                after = self.words.shown(row.as_sewn) + self.words.shown(row.planned)
                rows.append([
                    Cell(label, LABEL), Cell(self.words.length(row.as_sewn)),
                    Cell(self.words.plus(row.planned)), Cell(self.words.length(after), AMOUNT),
                    Cell(""),
                ])  # fmt: skip
        if not rows:
            return None
        room = self.flow.width - INDENT_MM
        widths = tuple(room * share for share in (0.30, 0.16, 0.16, 0.19, 0.19))
        heads = ("at the", "as sewn", "change", "should be", "what you have")
        return Columns(heads, widths), rows, 10.0

    def _draw_check(self, placed: Sequence[tuple[int, float]]) -> None:
        """Draw a box to write into beside each girth."""
        wide = (self.flow.width - INDENT_MM) * 0.19 - 2.0
        for _, middle in placed:
            self.flow.paper.box(self.flow.right - wide, middle - 3.8, wide, 7.6, 0.3)


def _arrowed(move: float) -> str:
    """Return the direction with its sign: arrows to a line, or away from it."""
    return "take in →|←" if move < 0 else "let out ←|→"
