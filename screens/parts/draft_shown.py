"""Everything the draft's screen shows of one garment, ready as words."""

from collections.abc import Iterator
from dataclasses import dataclass, replace

from core.days import day_month_of
from core.draft.check import DraftCheck, check_draft
from core.draft.table import Cut, RingTable, Row, draft_table
from core.records.garment import SIDES
from core.wording import listed
from screens.parts.draft_at import OnTheTable
from screens.parts.draft_chosen import Drafting, Opened
from screens.parts.draft_drawn import drawn_with_note, lit_of
from screens.parts.draft_opened import open_number
from screens.parts.draft_rows import CellRow, CheckRow, LevelRow, SumRow
from screens.parts.piece_layout import DrawnPiece

NOT_TAKEN = "–"
MARKS = {"agrees": "agrees", "caution": "caution", "note": ""}
Choice = tuple[str, str, bool]
"""An id, its words, and whether it is chosen."""


@dataclass(frozen=True, slots=True)
class WidthsShown:
    """The table of one round, its pieces, the open number and the check."""

    chosen: Drafting
    title_line: str = ""
    title: str = ""
    layers: tuple[Choice, ...] = ()
    rings: tuple[Choice, ...] = ()
    columns: tuple[str, ...] = ()
    rows: tuple[LevelRow, ...] = ()
    opened: SumRow | None = None
    drawn: tuple[DrawnPiece, ...] = ()
    drawn_note: str = ""
    lit: tuple[str, str] = ("", "")
    lit_dart: str = ""
    headline: CheckRow | None = None
    checks: tuple[CheckRow, ...] = ()
    empty: str = ""


def show_widths(on: OnTheTable) -> WidthsShown:
    """Return the table of the round in hand with everything beside it."""
    tables = {(layer.id, ring.id): ring for layer in draft_table(on.file, on.garment)
              for ring in layer.rings}  # fmt: skip
    table = tables.get((on.layer.id, on.ring.id if on.ring else ""))
    opened, checked = on.chosen.opened, check_draft(on.file, on.garment)
    drawn, note = drawn_with_note(on)
    return WidthsShown(
        chosen=on.chosen,
        title_line=title_line(on),
        title="A new garment" if on.chosen.page == "start" else on.garment.name,
        layers=tuple((layer.id, layer.label, layer is on.layer) for layer in on.garment.layers),
        rings=tuple((ring.id, ring.label, ring is on.ring) for ring in on.layer.rings),
        columns=tuple(label for _, label in table.columns) if table else (),
        rows=tuple(_level(on, table, row) for row in table.rows) if table else (),
        opened=open_number(on),
        drawn=drawn,
        drawn_note=note,
        lit=lit_of(opened, drawn),
        lit_dart=opened.of if opened.what in ("take up", "end") else "",
        headline=_headline(checked, on),
        checks=tuple(check_rows(checked, on)),
        empty="" if table and table.rows else _empty(on),
    )  # fmt: skip


def title_line(on: OnTheTable) -> str:
    """Return whose garment it is, and from which day's tape."""
    days = [sitting.on for sitting in on.file.sittings if sitting.values]
    newest = max(days, default="")
    tape = f", tape of {day_month_of(newest, on.today)}" if newest else ", not measured yet"
    return f"{on.file.client.name}{tape}"


def _level(on: OnTheTable, table: RingTable, row: Row) -> LevelRow:
    level, side = on.garment.levels[row.level], row.side
    opened = on.chosen.opened
    side_words = f", her {side}" if side else ""
    heights = Opened("height", "", row.level)
    ease_at = Opened("ease", on.layer.id if row.level in on.layer.ease else "", row.level)
    sign = row.ease_sign if row.ease and row.body else ""
    return LevelRow(
        id=f"{row.level}:{side or ''}",
        label=f"{row.label}{side_words}",
        down=CellRow(row.down, heights, lit=_same(opened, heights)),
        body=CellRow(row.body or NOT_TAKEN, Opened("tape", level.body) if level.body else Opened()),
        ease=CellRow(f"{sign} {row.ease}".strip() if row.ease else "",
                     ease_at if row.ease else Opened(), lit=_same(opened, ease_at)),
        wanted=f"= {row.wanted}" if row.wanted else "",
        cells=tuple(_cell(on, piece, row, cuts)
                    for (piece, _), cuts in zip(table.columns, row.cuts, strict=True)),
        finished=row.finished,
        mark={"agrees": "agrees", "more": "caution", "less": "caution"}.get(row.verdict, ""),
        second=_off(row),
    )  # fmt: skip


def _off(row: Row) -> str:
    """Return how far a girth is from what is wanted: ``1 more``."""
    return f"{row.off} {row.verdict}" if row.off else ""


def _same(one: Opened, other: Opened) -> bool:
    return (one.what, one.of, one.level) == (other.what, other.of, other.level)


def _cell(on: OnTheTable, piece: str, row: Row, cuts: tuple[Cut, ...]) -> CellRow:
    opened = on.chosen.opened
    here = Opened("width", piece, row.level, row.side or "")
    lit = _same(opened, here) and (not row.side or opened.which in ("", row.side))
    if not cuts:
        return CellRow(NOT_TAKEN, here, lit=lit)
    if len(cuts) > 1 and not row.side:
        here = replace(here, which=opened.which or SIDES[0])
    words = " | ".join(cut.amount for cut in cuts)
    return CellRow(words, here, lit=lit, hers=any(cut.by_hand for cut in cuts))


def _headline(checked: DraftCheck, on: OnTheTable) -> CheckRow:
    """Return the check in one line: what agrees, or the first thing to look at."""
    first = checked.lines[0] if checked.lines else None
    missing = [line.what.lower() for line in checked.lines
               if line.told == "note" and line.text.startswith("not measured")]  # fmt: skip
    second = f"Not measured: {listed(missing)}." if missing else ""
    if not checked.agrees and first is not None:
        second = f"{first.what}: {first.text}"
    return CheckRow(checked.headline, second, "agrees" if checked.agrees else "caution")


def check_rows(checked: DraftCheck, on: OnTheTable) -> Iterator[CheckRow]:
    """Yield every line of the check; one that was not measured leads to the tape."""
    by_label = {level.label: level.body for level in on.garment.levels.values()}
    for line in checked.lines:
        missing = line.text.startswith("not measured")
        yield CheckRow(line.what, line.text, MARKS[line.told],
                       by_label.get(line.what, "") if missing else "")  # fmt: skip


def _empty(on: OnTheTable) -> str:
    if not on.garment.levels:
        return "Nothing is drafted yet. Add the levels first, then the pieces: touch Details"
    return "No piece has a width yet. Add pieces, then type their widths: touch Details"
