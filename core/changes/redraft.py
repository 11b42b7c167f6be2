"""After a toile nothing is unpicked: the same moves change the draft for the real cloth."""

from collections.abc import Sequence

from core.changes.layer_plan import LayerPlan, Spot
from core.lengths import SMALLEST_MM
from core.records.answer import Side, Step
from core.records.garment import SIDES, Piece
from core.sewn.rounds import Edge, Round
from core.wording import Words, sentences, whose

_Edge = tuple[Round, Edge, tuple[int, int]]
"""An edge of a piece with its round, and the places of both."""


def redraft_steps(plans: Sequence[LayerPlan], words: Words) -> tuple[Step, ...]:
    """Return a step for each piece with an edge or a dart that moves.

    It tells the sum of each width, then at which edge; each by itself where there are more: where
    one goes out as much as another goes in, the width stays and the edges move all the same.  A
    pin between the levels has a line of its own.
    """
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
    edges = _edges_of(plan, piece, side)
    moving = {level for around, edge, spot in edges for level in edge.levels
              if any(map(words.shows, _moves(plan, edge, (*spot, level))))}  # fmt: skip
    said = [_width_told(plan, piece, side, level, words, moves=level in moving)
            for level in piece.width]  # fmt: skip
    said += _edges_told(plan, edges, words)
    said += _between_told(plan, edges, words)
    said += _dart_changes(plan, piece, side, words) + _new_darts(plan, piece, side, words)
    return [one for one in said if one]


def _width_told(
    plan: LayerPlan, piece: Piece, side: Side, level: str, words: Words, *, moves: bool
) -> str:
    """Return ``Waist: cut 10 1/4 - 5/8 = 9 5/8``; nothing where no edge moves there."""
    sewn, change = width_changes(plan, piece, side, level)
    drafted = piece.width[level][SIDES.index(side)]
    label = plan.work.garment.levels[level].label
    hers = ", set by hand" if _set_by_hand(plan, piece, side, level) else ""
    if not words.shows(sewn) and not words.shows(change):
        return f"{label}: cut {words.length(drafted)} as before{hers}" if moves else ""
    terms = [words.length(drafted)]
    terms += [f"{words.plus(sewn)} sewn since"] if words.shows(sewn) else []
    terms += [words.plus(change)] if words.shows(change) else []
    total = words.length(drafted + sewn + change)
    return f"{label}: cut {' '.join(terms)} = {total}{hers}"


def _edges_of(plan: LayerPlan, piece: Piece, side: Side) -> list[_Edge]:
    """Return the edges of a piece on one side, a centre seam's too."""
    return [
        (around, edge, (number, index))
        for number, around in enumerate(plan.work.rounds)
        if around.side in (None, side)
        for index, edge in enumerate(around.edges)
        if edge.piece == piece.id and edge.side in (None, side)
    ]


def _moves(plan: LayerPlan, edge: Edge, spot: Spot) -> tuple[float, float]:
    """Return what an edge was sewn at a level since the draft, and what it moves now (mm)."""
    amount = plan.edges.get(spot)
    return edge.moved.get(spot[2], 0.0), amount.move if amount is not None else 0.0


def _edges_told(plan: LayerPlan, edges: Sequence[_Edge], words: Words) -> list[str]:
    """Return what each edge does; of a single one only which it is, as its amounts are told."""
    told = [(around, edge, said) for around, edge, spot in edges
            if (said := _amounts(plan, edge, spot, words))]  # fmt: skip
    if len(told) == 1 and not _is_doubled(*told[0][:2]):
        return [f"all of this at the {told[0][1].seam.label.lower()}"]
    return [f"{_edge_label(around, edge)}: {said}" for around, edge, said in told]


def _amounts(plan: LayerPlan, edge: Edge, spot: tuple[int, int], words: Words) -> str:
    """Return ``waist take in 5/8, hip let out 1/4``."""
    said = []
    for level in edge.levels:
        sewn, now = _moves(plan, edge, (*spot, level))
        terms = [f"{words.way(sewn)} sewn since"] if words.shows(sewn) else []
        terms += [words.way(now)] if words.shows(now) else []
        if terms:
            label = plan.work.garment.levels[level].label.lower()
            said.append(f"{label} {' and '.join(terms)}")
    return ", ".join(said)


def _between_told(plan: LayerPlan, edges: Sequence[_Edge], words: Words) -> list[str]:
    """Return a line for each pin that stands between the levels."""
    return [
        f"{_edge_label(around, edge)}, between the levels, {words.length(down)} down:"
        f" {words.way(amount.move)}; the line passes through this point"
        for around, edge, spot in edges
        for (number, index, down), amount in plan.between.items()
        if (number, index) == spot and words.shows(amount.move)
    ]


def _edge_label(around: Round, edge: Edge) -> str:
    return f"{edge.seam.label}{', on either side' if _is_doubled(around, edge) else ''}"


def _is_doubled(around: Round, edge: Edge) -> bool:
    """Tell whether an edge stands for both of a piece that a closed ring joins to itself."""
    return edge.count == 2 and around.ring.kind == "closed"


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
