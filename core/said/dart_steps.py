"""Dart steps, deeper or shallower and how much on each leg; folds on a piece, as new darts."""

from core.changes.layer_plan import Amount, LayerPlan
from core.lengths import SMALLEST_MM
from core.records.answer import Side, Source, Step
from core.said.seam_steps import AGAIN
from core.said.sums import level_sum
from core.sewn.rounds import DartSide
from core.wording import Words, sentences, whose

_LEG_FROM: dict[Source, str] = {"pins": "the pins", "hand": "set by hand"}


def dart_steps(plan: LayerPlan, words: Words) -> list[Step]:
    """Return a step for each dart that moves; one for each side where they are unlike."""
    found: dict[str, list[tuple[DartSide, int, Amount, str]]] = {}
    for number, around in enumerate(plan.work.rounds):
        for index, dart in enumerate(around.darts):
            if _legs(plan, number, index):
                level, _, _ = told_at(plan, number, index)
                amount = plan.legs[number, index, level]
                found.setdefault(dart.dart.id, []).append((dart, number, amount, level))
    steps = []
    for sides in found.values():
        alike = len(sides) == 2 and all(
            abs(one - other) <= SMALLEST_MM
            for one, other in (
                (sides[0][2].move, sides[1][2].move),
                (sides[0][0].take_up[sides[0][3]], sides[1][0].take_up[sides[1][3]]),
            )
        )
        for entry in sides[:1] if alike else sides:
            steps.append(_dart_step(plan, entry, alike, words))
    return steps


def told_at(plan: LayerPlan, number: int, index: int) -> tuple[str, float, float]:
    """Return the level a dart that moves is told at, its take-up there, each leg's move (mm)."""
    dart, legs = plan.work.rounds[number].darts[index], _legs(plan, number, index)
    level = dart.widest if dart.widest in legs else next(iter(legs))
    return level, dart.take_up[level], legs[level]


def _legs(plan: LayerPlan, number: int, index: int) -> dict[str, float]:
    """Return how far each leg of a dart moves, by level in mm, where it does."""
    take_up = plan.work.rounds[number].darts[index].take_up
    return {level: amount.move for level in take_up
            if (amount := plan.legs.get((number, index, level))) and amount.move}  # fmt: skip


def _dart_step(
    plan: LayerPlan, entry: tuple[DartSide, int, Amount, str], alike: bool, words: Words
) -> Step:
    dart, number, amount, level = entry
    side = None if alike else dart.side
    first = plan.work.garment.layers[0].id == plan.work.layer.id
    title = dart.dart.label if first else f"{plan.work.layer.label}, {dart.dart.label.lower()}"
    before = dart.take_up[level]
    label = plan.work.garment.levels[level].label.lower()
    said = [
        ", ".join(filter(None, [title, "both sides alike" if alike else whose(side)])),
        "deeper" if amount.move < 0 else "shallower",
        f"at the {label}, {words.length(amount.move)} on each leg: {words.length(before)} becomes"
        f" {words.length(before - 2 * amount.move)}",
        "same top, same point",
        f"Why: {_leg_from(plan, amount)}",
    ]
    total = level_sum(plan, number, level, words)
    return Step(0, "darts", plan.work.layer.id, title, side, sentences(said), total)


def _leg_from(plan: LayerPlan, amount: Amount) -> str:
    again = plan.before is not None and plan.work.lead == "pins" and amount.source == "tape"
    return AGAIN if again else _LEG_FROM.get(amount.source, "the tape")


def fold_steps(plan: LayerPlan, words: Words) -> list[Step]:
    """Return a step for each fold pinned on a piece: a new dart, or for the nearest seam."""
    by_place: dict[tuple[str, str], dict[Side | None, tuple[int, float]]] = {}
    for (number, piece, side, level), move in plan.folds.items():
        if move:
            by_place.setdefault((piece, level), {})[side] = (number, move)
    steps = []
    for (piece, level), sides in by_place.items():
        moves = [move for _, move in sides.values()]
        if len(moves) == 2 and abs(moves[0] - moves[1]) <= SMALLEST_MM:
            steps.append(_fold_step(plan, piece, level, None, *sides["left"], words, alike=True))
        else:
            steps += [
                _fold_step(plan, piece, level, side, number, move, words)
                for side, (number, move) in sides.items()
            ]
    return steps


def _fold_step(
    plan: LayerPlan,
    piece: str,
    level: str,
    side: Side | None,
    number: int,
    move: float,
    words: Words,
    *,
    alike: bool = False,
) -> Step:
    ring = plan.work.rounds[number].ring
    label = ring.piece(piece).label
    place = ", ".join(filter(None, [label, "both sides alike" if alike else whose(side)]))
    where = plan.work.garment.levels[level].label.lower()
    seams = [seam.label.lower() for seam in ring.seams if piece in seam.joins]
    offered = f"or take it in at the nearest seam: {' or '.join(seams)}" if seams else ""
    said = [
        f"{place}: a fold at the {where}",
        f"{words.length(move)} deep, {words.length(2 * move)} off the round"
        f"{' each side' if alike else ''}",
        f"sew it as a new dart, to nothing above and below, {offered}".rstrip(", "),
        "Why: the pins",
    ]
    total = level_sum(plan, number, level, words)
    return Step(0, "darts", plan.work.layer.id, f"{label}, new dart", side, sentences(said), total)
