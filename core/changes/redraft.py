"""After a toile nothing is unpicked: the same moves change the draft for the real cloth."""

from collections.abc import Sequence

from core.changes.layer_plan import LayerPlan
from core.lengths import SMALLEST_MM
from core.records.answer import Side, Step
from core.records.garment import SIDES, Piece
from core.wording import Words, sentences, whose


def redraft_steps(plans: Sequence[LayerPlan], words: Words) -> tuple[Step, ...]:
    """Return a step for each piece whose cut width or darts change, with the sum of each width."""
    steps: list[Step] = []
    for plan in plans:
        for ring in plan.work.layer.rings:
            for piece in ring.pieces:
                steps += _piece_steps(plan, piece, words, len(steps))
    return tuple(steps)


def _piece_steps(plan: LayerPlan, piece: Piece, words: Words, before: int) -> list[Step]:
    sides = {side: _changes(plan, piece, side, words) for side in SIDES}
    layer = plan.work.layer
    title = f"{layer.label}, {piece.label.lower()}"
    steps: list[Step] = []
    if sides["left"] == sides["right"]:
        told: list[tuple[Side | None, list[str]]] = [(None, sides["left"])]
    else:
        told = [(side, sides[side]) for side in SIDES]
    for side, changes in told:
        if changes:
            said = [", ".join(filter(None, [title, whose(side)])), *changes]
            steps.append(
                Step(before + len(steps) + 1, "draft", layer.id, title, side, sentences(said))
            )
    return steps


def _changes(plan: LayerPlan, piece: Piece, side: Side, words: Words) -> list[str]:
    index = SIDES.index(side)
    said = []
    for level, widths in piece.width.items():
        sewn, change = width_changes(plan, piece, side, level)
        if words.shows(sewn) or words.shows(change):
            label = plan.work.garment.levels[level].label
            terms = [words.length(widths[index])]
            terms += [f"{words.plus(sewn)} sewn since"] if words.shows(sewn) else []
            terms += [words.plus(change)] if words.shows(change) else []
            total = words.length(widths[index] + sewn + change)
            hers = ", set by hand" if _set_by_hand(plan, piece, side, level) else ""
            said.append(f"{label}: cut {' '.join(terms)} = {total}{hers}")
    return said + _dart_changes(plan, piece, side, words) + _new_darts(plan, piece, side, words)


def width_changes(plan: LayerPlan, piece: Piece, side: Side, level: str) -> tuple[float, float]:
    """Return what a piece's width was sewn since the draft, and what changes now (mm).

    Allowances stay; both belong in the draft for the real cloth.
    """
    sewn = change = 0.0
    for number, around in enumerate(plan.work.rounds):
        if around.side not in (None, side):
            continue
        for index, edge in enumerate(around.edges):
            if edge.piece == piece.id and edge.side in (None, side):
                count = 2 if edge.count == 2 and around.ring.kind == "closed" else 1
                amount = plan.edges.get((number, index, level))
                sewn += count * edge.moved.get(level, 0.0)
                change += count * amount.move if amount is not None else 0.0
    return sewn, change


def _set_by_hand(plan: LayerPlan, piece: Piece, side: Side, level: str) -> bool:
    """Tell whether she set an edge of a piece by hand at a level."""
    return plan.before is not None and any(
        amount.source == "hand" and at == level
        and (edge := plan.work.rounds[number].edges[index]).piece == piece.id
        and edge.side in (None, side)
        and plan.work.rounds[number].side in (None, side)
        for (number, index, at), amount in plan.edges.items()
    )  # fmt: skip


def _new_darts(plan: LayerPlan, piece: Piece, side: Side, words: Words) -> list[str]:
    """A fold pinned on the toile is a new dart in the draft."""
    return [
        f"New dart at the {plan.work.garment.levels[level].label.lower()}:"
        f" {words.length(2 * move)} taken up, to nothing above and below"
        for (_, name, on, level), move in plan.folds.items()
        if name == piece.id and on in (None, side) and words.shows(move)
    ]


def _dart_changes(plan: LayerPlan, piece: Piece, side: Side, words: Words) -> list[str]:
    said = []
    for number, around in enumerate(plan.work.rounds):
        for index, dart in enumerate(around.darts):
            moving = [level for level in dart.take_up
                      if (number, index, level) in plan.legs]  # fmt: skip
            level = dart.widest if dart.widest in moving else next(iter(moving), dart.widest)
            amount = plan.legs.get((number, index, level))
            leg = amount.move if amount is not None else 0.0
            sewn = dart.moved.get(level, 0.0)
            moves = abs(leg) > SMALLEST_MM or abs(sewn) > SMALLEST_MM
            if moves and dart.piece == piece.id and dart.side in (None, side):
                before = dart.take_up[level]
                hers = ", set by hand" if amount is not None and amount.source == "hand" else ""
                said.append(
                    f"{dart.dart.label}: {words.length(before + 2 * sewn)} becomes"
                    f" {words.length(before - 2 * leg)}{hers}"
                )
    return said
