"""What she must be told before she unpicks: what is missing, unlike, unread or would wave."""

from collections.abc import Sequence

from core.changes.laid_by_hand import changed_levels
from core.changes.layer_plan import LayerPlan
from core.lengths import SMALLEST_MM
from core.records.fitting import Fitting
from core.records.garment import Garment
from core.said.front_arc import front_arc_cautions
from core.said.hand_told import at_level
from core.said.line_cautions import line_cautions
from core.said.shortages import cut_and_beyond, shortages
from core.said.unlike_sides import unlike_sides
from core.wording import Words, listed, sentence, whose

_DRIFT_MM = 0.8
"""Less than half a sixteenth is reading the tape, not drift."""


def cautions_of(
    plans: Sequence[LayerPlan], garment: Garment, fitting: Fitting | None, words: Words
) -> list[str]:
    """Return whole sentences, the most pressing first."""
    said: list[str] = []
    if fitting is not None:
        said += _unread(garment, fitting)
    for plan in plans:
        said += shortages(plan, words)
        said += cut_and_beyond(plan, words)
        said += unlike_sides(plan, words)
        said += _outside(plan, words)
        said += front_arc_cautions(plan, words)
        said += _drift(plan, words)
        said += line_cautions(plan, words)
        said += _own_turns(plan)
        said += _people(plan)
        said += _smaller_than_her(plan, words)
    return said


def _own_turns(plan: LayerPlan) -> list[str]:
    """Tell where another layer could not follow the outer and was shared on its own."""
    work = plan.work
    levels = dict.fromkeys(
        level for _, level in sorted(plan.own, key=lambda entry: work.down(entry[1]))
    )
    labels = [work.garment.levels[level].label.lower() for level in levels]
    if not labels:
        return []
    moved = any(
        work.rounds[number].sewn and plan.planned(number, level) for number, level in plan.own
    )
    then = "there it moves by its own need" if moved else "it stays as it is there"
    return [
        f"{work.layer.label}: moved as the outer is at the {listed(labels)}, it would be too tight"
        f" or too loose; {then}."
    ]


def _unread(garment: Garment, fitting: Fitting) -> list[str]:
    said = []
    for number, pin in enumerate(fitting.pins, 1):
        if not pin.read:
            level = garment.levels.get(pin.level)
            where = level.label.lower() if level else "where it stands"
            place = garment.label_of(pin.what, pin.place, pin.layer).lower()
            side = "both sides" if pin.side == "both" else whose(pin.side)
            said.append(
                f"Pin {number} ({place}, {side}, {where}) is placed"
                " but not read: read it before the list is made."
            )
    return said


def _outside(plan: LayerPlan, words: Words) -> list[str]:
    """Tell what rounding, a wedge or carried amounts leave outside the band."""
    said = []
    band = plan.work.settings.band
    for number, levels in enumerate(plan.work.wanted):
        for level, wanted in levels.items():
            if wanted.needed is None or plan.work.lead == "pins":
                continue
            if level in changed_levels(plan, number):
                continue  # told with what she set by hand
            left = (
                wanted.needed - plan.planned(number, level) - plan.short.get((number, level), 0.0)
            )
            if abs(left) > band + SMALLEST_MM:
                loose = "loose" if left < 0 else "tight"
                said.append(
                    f"{sentence(at_level(plan, number, level)).rstrip('.')}: rounding leaves it"
                    f" {words.length(left)} {loose}."
                )
    return said + _pushed(plan, words)


def _pushed(plan: LayerPlan, words: Words) -> list[str]:
    said = []
    band = plan.work.settings.band
    for number, levels in enumerate(plan.work.wanted):
        around = plan.work.rounds[number]
        for level, wanted in levels.items():
            carried = sum(
                edge.count * amount.move
                for index, edge in enumerate(around.edges)
                if (amount := plan.edges.get((number, index, level))) and amount.source == "carried"
            )
            carried += sum(
                2 * amount.move
                for index in range(len(around.darts))
                if (amount := plan.legs.get((number, index, level))) and amount.source == "carried"
            )
            if wanted.needed is None or not carried:
                continue
            left = wanted.needed - plan.planned(number, level)
            if abs(left) > band + SMALLEST_MM and abs(left + carried) <= band + SMALLEST_MM:
                said.append(
                    f"{sentence(at_level(plan, number, level)).rstrip('.')}: what is carried"
                    f" there leaves it {words.length(left)}"
                    f" {'loose' if left < 0 else 'tight'}."
                )
    return said


def _drift(plan: LayerPlan, words: Words) -> list[str]:
    """Tell where the girth taped inside the garment differs from the sum of its widths."""
    said = []
    for number, around in enumerate(plan.work.rounds):
        for level, taped in around.taped.items():
            drift = taped - around.sewn[level]
            if abs(drift) > _DRIFT_MM:
                said.append(
                    f"{sentence(at_level(plan, number, level)).rstrip('.')}: taped"
                    f" {words.length(taped)}, the widths add up to"
                    f" {words.length(around.sewn[level])}; the tape counts."
                )
    return said


def _smaller_than_her(plan: LayerPlan, words: Words) -> list[str]:
    """Tell where the moves leave a cloth that does not stretch smaller than the body."""
    if plan.work.layer.stretch:
        return []
    said = []
    for number, levels in enumerate(plan.work.wanted):
        for level, wanted in levels.items():
            planned = plan.planned(number, level)
            if wanted.body is None or planned >= 0 or wanted.ease < 0:
                continue
            after = wanted.as_sewn + planned
            if after < wanted.body - SMALLEST_MM and words.shows(wanted.body - after):
                where = sentence(at_level(plan, number, level)).rstrip(".")
                said.append(
                    f"{where}: {words.length(after)} after this,"
                    f" {words.length(wanted.body - after)} smaller than she is; this cloth"
                    " does not stretch."
                )
    return said


def _people(plan: LayerPlan) -> list[str]:
    """Tell what negative ease means for the person inside."""
    tight = any(
        entry.body is not None and entry.ease < -SMALLEST_MM
        for levels in plan.work.wanted
        for entry in levels.values()
    )
    if not tight:
        return []
    return [
        f"{plan.work.layer.label}: smaller than the body. She must be able to breathe and to sit;"
        " no longer than she is comfortable in it."
    ]
