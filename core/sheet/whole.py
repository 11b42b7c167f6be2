"""The whole sheet of a plan as a PDF: made from records alone, and stoppable between its parts."""

import json
from collections.abc import Callable

from core.answer import Plan
from core.fitting_file import FittingFile, fitting_of
from core.lengths import Unit
from core.sheet.flow import Flow
from core.sheet.head import write_body, write_head, write_levels, write_minding
from core.sheet.paper import Paper, PaperSize
from core.sheet.piece_moves import moved_pieces
from core.sheet.piece_page import write_pieces
from core.sheet.step_block import write_step
from core.sheet.step_places import step_places

Told = Callable[[int, int], None]


def sheet_pdf(
    plan: Plan,
    file: FittingFile,
    *,
    paper: PaperSize = "a4",
    unit: Unit | None = None,
    strips: bool = False,
    told: Told = lambda done, of: None,
) -> bytes:
    unit = unit or file.unit
    found = step_places(plan, file, unit)
    garment = found.garment
    fitting = None if plan.fitting is None else fitting_of(garment, plan.fitting)
    signs = json.dumps(file.data, ensure_ascii=False)
    page = Paper(paper, f"{garment.name}, {file.client.name}", signs)
    flow = Flow(page, f"{garment.name}, for {file.client.name}")
    write_head(flow, plan, file, garment, fitting, unit)
    write_body(flow, file, garment, fitting, unit)
    write_levels(flow, plan, garment, unit)
    beside = [c for s in plan.steps for c in s.cautions]
    write_minding(flow, plan.warnings, beside)
    flow.section(f"The steps, in the order they are sewn: {len(plan.steps)}")
    for step in plan.steps:
        write_step(flow, step, found.of(step), plan, garment, unit)
    for layer in found.layers:
        pieces = moved_pieces(layer, plan, file, garment, unit)
        write_pieces(flow, f"The pieces: {layer.work.layer.label.lower()}", pieces)
    flow.finish()
    return page.content()
