"""What she set by hand, told: what each level needs, what the moves give, and the difference."""

from collections.abc import Iterator, Sequence

from core.changes.laid_by_hand import asked_of, changed_levels
from core.changes.layer_plan import LayerPlan
from core.lengths import SMALLEST_MM
from core.records.answer import HandTotal
from core.wording import Words, sentence, whose


def hand_totals(plans: Sequence[LayerPlan], words: Words) -> tuple[HandTotal, ...]:
    """Return a total for each level whose moves are not as planned, because she set some."""
    return tuple(total for plan in plans for total in _totals(plan, words))


def hand_cautions(totals: Sequence[HandTotal]) -> list[str]:
    """Return the totals that the band does not hold."""
    return [total.text for total in totals if not total.agrees]


def lost_caution(lost: int) -> list[str]:
    """Tell of amounts set by hand that name nothing in the draft any more."""
    if not lost:
        return []
    amounts = "1 amount that was set by hand names" if lost == 1 else (
        f"{lost} amounts that were set by hand name")  # fmt: skip
    return [f"{amounts} nothing in the draft any more; it is kept in the file, and not counted."]


def at_level(plan: LayerPlan, number: int, level: str) -> str:
    """Return ``outer, waist`` or ``outer, sleeve, her left, wrist``."""
    around = plan.work.rounds[number]
    side = [around.ring.label.lower(), whose(around.side)] if around.side else []
    parts = [plan.work.layer.label.lower(), *side]
    return ", ".join([*parts, plan.work.garment.levels[level].label.lower()])


def _totals(plan: LayerPlan, words: Words) -> Iterator[HandTotal]:
    for number, around in enumerate(plan.work.rounds):
        for level in changed_levels(plan, number):
            needed, given = asked_of(plan, number, level), plan.planned(number, level)
            agrees = abs(needed - given) <= plan.work.settings.band + SMALLEST_MM
            yield HandTotal(
                plan.work.layer.id, around.ring.id, around.side, level, needed, given, agrees,
                _text(plan, number, level, needed, given, words),
            )  # fmt: skip


def _text(
    plan: LayerPlan, number: int, level: str, needed: float, given: float, words: Words
) -> str:
    """Return ``Outer, waist, set by hand: needed, take in 2 1/2; these moves take in 2: ...``."""
    tape = plan.work.lead != "pins" and plan.work.judged(number, level)
    asked = "needed" if tape else "pinned" if plan.work.lead == "pins" else "planned"
    gives = f"these moves {words.way(given) if words.shows(given) else 'give nothing'}"
    where = sentence(at_level(plan, number, level)).rstrip(".")
    return (
        f"{where}, set by hand: {asked}, {words.way(needed)}; {gives}:"
        f" {_difference(plan, needed, given, words)}."
    )


def _difference(plan: LayerPlan, needed: float, given: float, words: Words) -> str:
    """Return ``1/4 short`` or ``1/4 too much``, seen from what is needed."""
    band = plan.work.settings.band
    apart = needed - given
    if not words.shows(apart):
        return "that agrees"
    short = apart * needed > 0 if words.shows(needed) else False
    said = f"{words.length(apart)} {'short' if short else 'too much'}"
    if abs(apart) <= band + SMALLEST_MM:
        said += f", within the {words.length(band)} that is left as it is"
    return said
