"""What she set by hand, told: what each level needs, what the moves give, and the difference."""

from collections.abc import Iterator, Sequence

from core.changes.laid_by_hand import asked_of, changed_levels
from core.changes.layer_plan import LayerPlan
from core.lengths import SMALLEST_MM
from core.records.answer import HandTotal, Move, Plan
from core.records.garment import Garment
from core.wording import Words, direction, sentence, whose


def hand_totals(plans: Sequence[LayerPlan], words: Words) -> tuple[HandTotal, ...]:
    """Return a total for each level whose moves are not as planned, because she set some."""
    return tuple(total for plan in plans for total in _totals(plan, words))


def hand_cautions(totals: Sequence[HandTotal]) -> list[str]:
    """Return the totals that the band does not hold."""
    return [total.text for total in totals if not total.agrees]


def hand_told(plan: Plan, garment: Garment, words: Words) -> list[str]:
    """Return each amount set by hand: ``Side seam, her left, waist: take in 1/4 an edge, ...``.

    Sides and edges that were set alike are told once.
    """
    alike: dict[tuple[str, str, str, str, float, float], list[Move]] = {}
    for move in plan.moves:
        if move.by_hand:
            planned = round(move.planned or 0.0, 4)
            place = (move.layer, move.seam or "", move.dart or "", move.level)
            alike.setdefault((*place, round(move.move, 4), planned), []).append(move)
    return [_told(moves, garment, words) for moves in alike.values()]


def _told(moves: Sequence[Move], garment: Garment, words: Words) -> str:
    move = moves[0]
    layer = next(one for one in garment.layers if one.id == move.layer)
    rings = [ring for ring in layer.rings if ring.id == move.ring]
    pieces = {piece.id: piece for ring in rings for piece in ring.pieces}
    named = {one.id: one.label for ring in rings
             for one in (ring.seams if move.seam else
                         [dart for piece in ring.pieces for dart in piece.darts])}  # fmt: skip
    sides, edges = {one.side for one in moves}, {one.edge for one in moves}
    where = [
        "" if layer is garment.layers[0] else layer.label,
        named.get(move.seam or move.dart or "", ""),
        whose(move.side) if len(sides) == 1 else "",
        pieces[move.edge].label.lower() if move.seam and len(edges) == 1 else "",
        garment.levels[move.level].label.lower(),
    ]
    each = "an edge" if move.seam else "a leg"
    planned = _way(move.planned or 0.0, words)
    return f"{', '.join(filter(None, where))}: {_way(move.move, words)} {each}, planned: {planned}."


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
    gives = f"these moves {_way(given, words) if words.shows(given) else 'give nothing'}"
    where = sentence(at_level(plan, number, level)).rstrip(".")
    return (
        f"{where}, set by hand: {asked}, {_way(needed, words)}; {gives}:"
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


def _way(mm: float, words: Words) -> str:
    return f"{direction(mm)} {words.length(mm)}" if words.shows(mm) else "nothing"
