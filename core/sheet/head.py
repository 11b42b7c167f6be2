"""The beginning of a sheet: who and what, the body and its changes, the levels, what to mind."""

from collections.abc import Sequence

from core.file.fitting_file import FittingFile
from core.lengths import Unit
from core.records.answer import LevelAnswer, Plan
from core.records.fitting import Fitting
from core.records.garment import Garment
from core.sheet.body_rows import body_rows, day_in_full
from core.sheet.flow import BODY, SMALL, STRONG, Column, Flow
from core.sheet.paper import Style
from core.wording import Words, direction, sentence, whose

TITLE = Style(22, bold=True)
CLIENT = Style(14)
UNIT_NAMES: dict[Unit, str] = {"in": "inches", "cm": "centimetres", "mm": "millimetres"}

_OF_PINS = ("agrees", "still loose", "would be tight")

_SHORT = " short to "
"""What a caution that tells of a shortage says; its ways out stand in the same sentence."""


def write_head(
    flow: Flow, plan: Plan, file: FittingFile, garment: Garment, fitting: Fitting | None, unit: Unit
) -> None:
    """Write the title, what the fitting was, and what she wore."""
    paper = flow.paper
    for text, style in ((garment.name, TITLE), (f"for {file.client.name}", CLIENT)):
        for line in paper.wrapped(text, flow.width, style):
            flow.y = paper.write_lines(flow.left, flow.y, [line], style)
    flow.gap(1.5)
    flow.paragraph(sentence(plan.heading), STRONG)
    for label, value in _facts(garment, fitting, unit):
        _fact(flow, label, value)
    flow.gap(2.0)


def _facts(garment: Garment, fitting: Fitting | None, unit: Unit) -> list[tuple[str, str]]:
    facts = [("Lengths", f"all in {UNIT_NAMES[unit]}")]
    if fitting is None:
        return [("Fitting", "none yet: compared as drafted"), *facts]
    when = ", ".join(filter(None, [fitting.stage, day_in_full(fitting.on)])) or "not dated"
    words = Words(unit)
    worn = [fitting.foundation]
    worn += [] if fitting.heel_worn is None else [f"heel {words.length(fitting.heel_worn)}"]
    if garment.heel_of_the_day is not None:
        worn.append(f"heel of the day {words.length(garment.heel_of_the_day)}")
    worn.append("the garment inside out" if fitting.inside_out else "the garment right side out")
    return [("Fitting", when), ("She wore", "; ".join(filter(None, worn))), *facts]


def _fact(flow: Flow, label: str, value: str) -> None:
    indent = 24.0
    lines = flow.paper.wrapped(value, flow.width - indent, BODY)
    flow.need(BODY.line_mm)
    flow.paper.write_lines(flow.left, flow.y, [label], BODY._replace(tone="soft"))
    for line in lines:
        flow.need(BODY.line_mm)
        flow.y = flow.paper.write_lines(flow.left + indent, flow.y, [line], BODY)


def write_body(
    flow: Flow, file: FittingFile, garment: Garment, fitting: Fitting | None, unit: Unit
) -> None:
    """Write the measurements the garment is held against, with their changes."""
    rows = body_rows(file, garment, fitting, unit)
    if not rows:
        return
    flow.section("Her measurements")
    columns = [Column("measurement", 46), Column("now", 20, bold=True), Column("taken", 35)]
    if any(row[3] for row in rows):
        columns.append(Column("since last time", 52))
    if any(row[4] for row in rows):
        columns.append(Column("since the first", 52))
    flow.table(columns, [row[: len(columns)] for row in rows])


def write_levels(flow: Flow, plan: Plan, garment: Garment, unit: Unit) -> None:
    """Write each level's sum, layer by layer: body and ease, as sewn, what is done, after."""
    words = Words(unit)
    layers = list(dict.fromkeys(row.layer for row in plan.levels))
    for layer in layers:
        rows = [row for row in plan.levels if row.layer == layer]
        verdict = "as pinned" if any(row.verdict in _OF_PINS for row in rows) else "as it is"
        label = next(own.label for own in garment.layers if own.id == layer)
        flow.section("The levels" if len(layers) == 1 else f"The levels: {label.lower()}")
        flow.table(
            [Column("level", 44), Column("body", 20), Column("ease", 16), Column("wanted", 20),
             Column("as sewn", 20), Column("change", 30, bold=True), Column("after", 20),
             Column(verdict, 36)],
            [_level_cells(row, garment, words) for row in rows],
        )  # fmt: skip


def _level_cells(row: LevelAnswer, garment: Garment, words: Words) -> list[str]:
    ring = next(ring for layer in garment.layers if layer.id == row.layer
                for ring in layer.rings if ring.id == row.ring)  # fmt: skip
    place = [row.label, *([ring.label.lower(), whose(row.side)] if row.side else [])]
    change = f"{direction(row.planned)} {words.length(row.planned)}"
    return [
        ", ".join(place),
        "" if row.body is None else words.length(row.body),
        "" if row.body is None else words.signed(row.ease),
        "" if row.wanted is None else words.length(row.wanted),
        words.length(row.as_sewn),
        change if words.shows(row.planned) else "nothing",
        words.length(words.shown(row.as_sewn) + words.shown(row.planned)),
        _verdict(row, words),
    ]


def _verdict(row: LevelAnswer, words: Words) -> str:
    left = row.left_over
    told = row.verdict in ("too loose", "too tight", "still loose", "would be tight")
    return f"{row.verdict} by {words.length(left)}" if left is not None and told else row.verdict


def write_minding(flow: Flow, warnings: Sequence[str], beside_steps: Sequence[str]) -> None:
    """Write what is short of cloth with its ways out, then what else to mind."""
    short = [said for said in warnings if _SHORT in said]
    others = [said for said in warnings if said not in short and said not in beside_steps]
    for title, said in (("Short of cloth, and the ways out", short), ("To mind", others)):
        if said:
            flow.section(title)
            for entry in said:
                flow.item(entry, urgent=True)
    if beside_steps:
        flow.paragraph("More to mind stands beside its step.", SMALL)
