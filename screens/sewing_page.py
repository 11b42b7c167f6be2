"""One step of the sewing table in ready-to-show words, and how it stands."""

import re
from collections.abc import Sequence
from dataclasses import dataclass, replace

from core.body.keypad import Keypad, keypad_of
from core.changes.plan import make_plan
from core.errors import NotFound
from core.file.fitting_file import FittingFile
from core.fit.written import At, Part
from core.lengths import write_length
from core.records.answer import Plan
from core.records.fitting import Fitting
from core.records.garment import Garment
from core.said.spoken import aloud
from core.said.step_drawn import PieceDrawn, pieces_drawn
from core.said.step_places import StepPlaces, step_places
from core.said.step_shown import StepShown, steps_shown
from core.sewn.ticked_drafts import has_new_dart
from core.sewn.ticked_girths import CheckedGirth, checked_girths
from core.sewn.ticked_steps import Tick, plan_first_layer, ticks_of, with_side
from core.sewn.trimming import Trim, trims_of
from screens.changes_ways import way_in
from screens.rows import day

NOTHING = (
    "There is nothing to sew at this fitting: no pin was read off, and every level that was"
    " measured is right as it is. Pins are set at the fitting, and read off there."
)
NO_FITTING = "This garment has no fitting yet. What was pinned at one is sewn here, step by step."
TO_TRIM = ("Where you do trim, say to what. A seam left empty keeps all it has.",)
FROM_TOILE = (
    "Done, it counts as cut at the next fitting. The draft stays as it is: do not change it too."
)
NEW_DART = "A new dart is not counted at the next fitting: put it into the draft yourself."
SLASH = "\u200b/"
"""Between the numbers of a fraction that is not stacked: a space of no width keeps it in a line."""

_FRACTION = re.compile(r"(\d+)/(\d+)")
NO_GARMENT = "This client has no garment yet: start one from her measurements."


@dataclass(frozen=True, slots=True)
class AtStep:
    """What is chosen: empty ids stand for the last garment and its last fitting.

    ``step`` counts from 0, -1 is the first that is not done; ``why`` shows the sums; ``girth``
    is the one whose number is on the keys.
    """

    garment: str = ""
    fitting: str = ""
    step: int = -1
    why: bool = False
    girth: int = -1
    keys: Keypad | None = None


@dataclass(frozen=True, slots=True)
class GirthRow:
    """A girth to tape: what it should be, what it is, and what that means."""

    label: str
    should: str
    found: str
    said: str
    mark: str
    look: str
    index: int
    here: bool


@dataclass(frozen=True, slots=True)
class SewingPage:
    """Everything that is shown of one step; without ``step`` there are ``words`` instead."""

    title: str = ""
    line: str = ""
    progress: str = ""
    step: StepShown | None = None
    way: str = ""
    way_words: str = ""
    alike: str = ""
    pieces: tuple[PieceDrawn, ...] = ()
    told: tuple[str, ...] = ()
    kept: tuple[str, ...] = ()
    reasons: tuple[str, ...] = ()
    cautions: tuple[str, ...] = ()
    has_why: bool = False
    warned: bool = False
    stands: str = ""
    can_untick: bool = False
    done: bool = False
    held: str = ""
    spoken: str = ""
    girths: tuple[GirthRow, ...] = ()
    heads: tuple[str, ...] = ()
    next_word: str = ""
    keys: Keypad | None = None
    words: str = ""
    is_over: bool = False
    can_go_back: bool = False


@dataclass(frozen=True, slots=True)
class Table:
    """A plan on the table: its steps, what each is about and how it stands."""

    file: FittingFile
    garment: Garment
    fitting: Fitting
    at: At
    plan: Plan
    found: StepPlaces
    steps: tuple[StepShown, ...]

    @property
    def first_layer(self) -> str:
        return plan_first_layer(self.found)

    @property
    def written(self) -> Part:
        """The fitting as it is in the document, not to be changed."""
        return self.at.fitting_in(self.file.data)

    def ticks(self) -> tuple[Tick, ...]:
        return ticks_of(self.plan, self.found, self.written, self.file.unit)

    def trims(self, number: int) -> tuple[Trim, ...]:
        step = self.plan.steps[number]
        return trims_of(self.plan, step, self.garment, self.written, self.file.unit)

    def girths(self, number: int) -> tuple[CheckedGirth, ...]:
        step = self.plan.steps[number]
        return checked_girths(self.plan, step, self.garment, self.written, self.file.unit)


def full_height(text: str) -> str:
    """Return words with their fractions written with a slash, as tall as the letters."""
    return _FRACTION.sub(rf"\1{SLASH}\2", text)


def named(file: FittingFile, chosen: AtStep) -> AtStep:
    """Return what is chosen by its ids: the last garment with a fitting, its last fitting."""
    garments = [one for one in file.garments if one.id == chosen.garment]
    fitted = [one for one in file.garments if one.fittings]
    garment = (garments or fitted[-1:] or list(file.garments[-1:]) or [None])[0]
    if garment is None:
        return replace(chosen, garment="", fitting="")
    own = [one for one in garment.fittings if one.id == chosen.fitting]
    fitting = (own or list(garment.fittings[-1:]) or [None])[0]
    return replace(chosen, garment=garment.id, fitting=fitting.id if fitting else "")


def table_of(file: FittingFile, chosen: AtStep) -> Table | None:
    """Return the plan of the chosen fitting; nothing where there is no fitting."""
    if not chosen.garment or not chosen.fitting:
        return None
    garment = file.garment(chosen.garment)
    at = At(chosen.garment, chosen.fitting)
    fitting = next((one for one in garment.fittings if one.id == chosen.fitting), None)
    if fitting is None:
        raise NotFound("This fitting is not here any more")
    way = way_in(at.fitting_in(file.data))
    plan = make_plan(file, garment.id, fitting.id, way=way)
    found = step_places(plan, file, file.unit)
    steps = steps_shown(plan, file, found, file.unit)
    return Table(file, garment, fitting, at, plan, found, steps)


def first_to_do(ticks: Sequence[Tick]) -> int:
    """Return the first step that is not done and has not to wait; the end where all are done."""
    for number, tick in enumerate(ticks):
        if not tick.done:
            return number
    return len(ticks)


def page(file: FittingFile, table: Table | None, chosen: AtStep, *, sixteenths: bool) -> SewingPage:
    """Return what is shown; ``chosen.step`` is known by now."""
    if table is None or not table.steps:
        return _nothing(file, table)
    line = _line(file, table)
    ticks = table.ticks()
    if chosen.step >= len(table.steps):
        return _over(table, ticks, line)
    step, tick = table.steps[chosen.step], ticks[chosen.step]
    place = table.found.of(table.plan.steps[chosen.step])
    girths = table.girths(chosen.step)
    trims = table.trims(chosen.step)
    rows = [*_girth_rows(girths, chosen, table), *_trim_rows(trims, chosen, table)]
    reasons = (step.why, *step.sums, f"Between the levels: {step.between}." if step.between else "")
    return SewingPage(
        title=table.garment.name, line=line, progress=f"{step.order} of {step.of}", step=step,
        way="" if chosen.why else step.way,
        way_words="" if chosen.why else step.way_words,
        alike="" if chosen.why else step.alike,
        pieces=pieces_drawn(place, table.plan, file, table.garment, file.unit),
        told=() if chosen.why else (*_told(step, has_girths=bool(girths)), *TO_TRIM[:len(trims)],
                                    *_of_toile(tick, table.plan)),
        kept=() if chosen.why else step.kept,
        reasons=tuple(one for one in reasons if one) if chosen.why else (),
        cautions=step.cautions if chosen.why else (), warned=bool(step.cautions),
        has_why=any(reasons) or bool(step.cautions),
        stands=_stands(tick), can_untick=tick.done, done=tick.done and not tick.otherwise,
        held=_held(tick), spoken=aloud(step.spoken),
        girths=() if chosen.why else tuple(rows),
        heads=("inside", "cut to") if trims else ("should be", "is"),
        next_word="Next seam" if trims else "Next girth",
        keys=keys_for(table, chosen, [one.typed for one in (*girths, *trims)], sixteenths),
        can_go_back=chosen.step > 0,
    )  # fmt: skip


def keys_for(
    table: Table, chosen: AtStep, typed: Sequence[str], sixteenths: bool
) -> Keypad | None:
    """Return the keys for the girth or seam in hand, with what was typed there."""
    if not 0 <= chosen.girth < len(typed) or chosen.why:
        return None
    unit = table.file.unit
    return chosen.keys or keypad_of(typed[chosen.girth], unit, unit, sixteenths=sixteenths)


def _trim_rows(trims: Sequence[Trim], chosen: AtStep, table: Table) -> list[GirthRow]:
    """Return what is inside each moved seam, and to what it was trimmed."""
    rows = []
    for number, trim in enumerate(trims):
        here = number == chosen.girth
        found = "" if trim.to_mm is None else write_length(trim.to_mm, table.file.unit, fine=True)
        found = chosen.keys.shown if here and chosen.keys is not None else found
        mark = "caution" if trim.said else ""
        rows.append(GirthRow(trim.label, full_height(trim.inside), full_height(found),
                             full_height(trim.said), mark, "", number, here))  # fmt: skip
    return rows


def _girth_rows(girths: Sequence[CheckedGirth], chosen: AtStep, table: Table) -> list[GirthRow]:
    return [
        GirthRow(
            f"{girth.label.partition(',')[0]}{f', her {girth.side}' if girth.side else ''}",
            full_height(girth.should),
            full_height(_found(girth, number == chosen.girth, chosen, table)),
            *_judged(girth, number == chosen.girth, chosen), number, number == chosen.girth,
        )
        for number, girth in enumerate(girths)
    ]  # fmt: skip


def _judged(girth: CheckedGirth, here: bool, chosen: AtStep) -> tuple[str, str, str]:
    """Return what a girth means, its mark and where to look; nothing while it is being typed."""
    keys = chosen.keys if here else None
    if keys is not None and keys.may_go_on(girth.should_mm * 0.8, girth.should_mm * 1.2):
        return "", "", ""
    mark = {"agrees": "agrees", "": ""}.get(girth.judged, "caution")
    return full_height(girth.said), mark, full_height(girth.look)


def _found(girth: CheckedGirth, here: bool, chosen: AtStep, table: Table) -> str:
    if here and chosen.keys is not None:
        return chosen.keys.shown
    return "" if girth.is_mm is None else write_length(girth.is_mm, table.file.unit, fine=True)


def _told(step: StepShown, *, has_girths: bool) -> tuple[str, ...]:
    """Return a step's words; the girths of a check stand in their own rows."""
    if not has_girths:
        return step.told
    asked = ("It should be", "What do you have")
    return tuple(one for one in step.told if not one.startswith(asked))


def _of_toile(tick: Tick, plan: Plan) -> tuple[str, ...]:
    """Return what ticking a piece's new widths does, and what it cannot."""
    if tick.piece is None:
        return ()
    return (FROM_TOILE, NEW_DART) if has_new_dart(tick.piece, plan) else (FROM_TOILE,)


def _stands(tick: Tick) -> str:
    if tick.otherwise:
        return "Sewn before, with other amounts"
    return "Done" if tick.done else ""


def _held(tick: Tick) -> str:
    """Return what a step waits for, by its first and how many more."""
    if not tick.waits_for:
        return ""
    more = len(tick.waits_for) - 1
    first = with_side(tick.waits_for[0]).lower()
    return f"Waits for: {first}{f', and {more} more' if more else ''}"


def _line(file: FittingFile, table: Table) -> str:
    fitting = table.fitting
    when = " ".join(word for word in (fitting.stage, "fitting", day(fitting.on)) if word)
    return f"{file.client.name}, {when}"


def _nothing(file: FittingFile, table: Table | None) -> SewingPage:
    if table is not None:
        return SewingPage(table.garment.name, _line(file, table), words=NOTHING)
    if file.garments:
        return SewingPage(file.garments[-1].name, file.client.name, words=NO_FITTING)
    return SewingPage("Sewing table", file.client.name, words=NO_GARMENT)


def _over(table: Table, ticks: Sequence[Tick], line: str) -> SewingPage:
    """Return what stands after the last step: what is left, or that all is done."""
    left = [with_side(step) for step, tick in zip(table.plan.steps, ticks, strict=True)
            if not tick.done]  # fmt: skip
    if left:
        words = f"Not done yet: {', '.join(left).lower()}."
        return SewingPage("Not all is done", line, words=words, is_over=True, can_go_back=True)
    count = len(table.steps)
    words = f"All {count} steps are done. The next fitting begins with the garment as it is now."
    return SewingPage("All is done", line, words=words, is_over=True, can_go_back=True)

