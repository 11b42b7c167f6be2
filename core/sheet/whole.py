"""The whole sheet of a plan as a PDF: made from records alone, and stoppable between its parts."""

import json
from collections.abc import Callable
from dataclasses import asdict

from core.file.fitting_file import FittingFile, fitting_of
from core.lengths import Unit
from core.records.answer import Plan
from core.said.piece_moves import moved_pieces
from core.said.step_places import StepPlaces, step_places
from core.sheet.flow import Flow
from core.sheet.head import write_body, write_head, write_levels, write_minding
from core.sheet.paper import Paper, PaperSize
from core.sheet.pictures import PhotoOf, photos_of, write_photos
from core.sheet.piece_page import write_pieces
from core.sheet.step_block import write_step
from core.sheet.strip_page import strip_pages, write_strips
from core.sheet.strips import strips_of

Told = Callable[[int, int], None]
"""Hears how many parts are done, of how many; it may raise ``Cancelled`` to stop the work."""


def _nobody(done: int, of: int) -> None:
    """Tell nobody of the progress."""


def _none_at_hand(name: str) -> bytes | None:
    """Return no photo."""
    return None


def sheet_pdf(
    plan: Plan,
    file: FittingFile,
    *,
    paper: PaperSize = "a4",
    unit: Unit | None = None,
    strips: bool = False,
    photo_of: PhotoOf = _none_at_hand,
    told: Told = _nobody,
) -> bytes:
    """Return the sheet of a plan as a PDF; the same plan gives the same bytes.

    ``unit`` is the one the plan was made with, the file's unless told.  ``strips`` adds the move
    strips at full size.  ``photo_of`` hands over a photo by the name the file has for it.
    ``told`` hears of the progress and may raise ``core.bundle.refusals.Cancelled``.  Raises
    ``NotFound`` where the plan's garment or fitting is not in the file.
    """
    unit = unit or file.unit
    work = _Work(plan, file, unit, paper, told, strips=strips)
    with work.paper:
        work.write_beginning()
        work.write_steps()
        work.write_ending(photo_of)
        return work.content()


class _Work:
    """A sheet that is being made, and how much of it is done."""

    def __init__(
        self, plan: Plan, file: FittingFile, unit: Unit, paper: PaperSize, told: Told, *,
        strips: bool,
    ) -> None:  # fmt: skip
        self.plan, self.file, self.unit, self.told = plan, file, unit, told
        self.found: StepPlaces = step_places(plan, file, unit)
        self.garment = self.found.garment
        self.fitting = None if plan.fitting is None else fitting_of(self.garment, plan.fitting)
        name = f"{self.garment.name}, for {file.client.name}"
        signs = json.dumps([file.data, asdict(plan)], ensure_ascii=False)
        self.paper = Paper(paper, name, signs)
        self.photos = photos_of(file, self.garment, self.fitting)
        laid = strips_of(self.found.layers, unit) if strips else []
        self.strip_pages = strip_pages(self.paper, laid)
        self.parts = len(plan.steps) + len(self.found.layers) + len(self.photos)
        self.parts += len(self.strip_pages) + 2
        self.done = 0
        self.flow = Flow(self.paper, self.garment.name, file.client.name)

    def step(self) -> None:
        """Tell that one more part is done."""
        self.done += 1
        self.told(self.done, self.parts)

    def write_beginning(self) -> None:
        flow, garment, fitting = self.flow, self.garment, self.fitting
        write_head(flow, self.plan, self.file, garment, fitting, self.unit)
        beside = [caution for step in self.plan.steps for caution in step.cautions]
        write_minding(flow, self.plan.warnings, beside)
        write_body(flow, self.file, garment, fitting, self.unit)
        write_levels(flow, self.plan, garment, self.unit)
        self.step()

    def write_steps(self) -> None:
        steps = self.plan.steps
        if not steps:
            self.flow.section("The steps")
            self.flow.paragraph("Nothing is to be moved.")
            return
        self.flow.section(f"The steps, in the order they are sewn: {len(steps)}")
        for step in steps:
            place = self.found.of(step)
            write_step(self.flow, step, place, self.plan, self.garment, self.unit)
            self.step()

    def write_ending(self, photo_of: PhotoOf) -> None:
        flow = self.flow
        for layer in self.found.layers:
            pieces = moved_pieces(layer, self.plan, self.file, self.garment, self.unit)
            label = layer.work.layer.label.lower()
            write_pieces(flow, f"The pieces and their moves: {label}", pieces)
            self.step()
        if self.plan.follows:
            flow.section("What follows")
            for entry in self.plan.follows:
                flow.item(entry.text)
        write_photos(flow, self.photos, photo_of, self.step)
        write_strips(flow, self.strip_pages, self.unit, self.step)

    def content(self) -> bytes:
        self.flow.finish()
        content = self.paper.content()
        self.step()
        return content
