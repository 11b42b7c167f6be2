"""The levels of a plan, one row each, and every move: what the answer's records hold."""

from collections.abc import Iterable

from core.changes.layer_plan import Amount, LayerPlan, Spot, Work
from core.lengths import SMALLEST_MM
from core.records.answer import LevelAnswer, Move, Source
from core.records.garment import SIDES
from core.said.sums import explain_level
from core.sewn.compare import verdict_of
from core.wording import Words


def levels_of(plan: LayerPlan, words: Words) -> list[LevelAnswer]:
    """Return a row for each level whose girth is known, round by round."""
    rows = []
    work = plan.work
    has_pins = work.pinned.any
    for number, around in enumerate(work.rounds):
        for level, wanted in work.wanted[number].items():
            pinned, sides = pinned_at(work, number, level)
            left = None if wanted.needed is None else wanted.needed - pinned
            verdict = verdict_of(wanted, left, work.settings.band, pinned=has_pins)
            if len(sides) == 1 and around.ring.kind == "half" and verdict != "not measured":
                verdict = "one side only"
            rows.append(
                LevelAnswer(
                    layer=work.layer.id,
                    ring=around.ring.id,
                    side=around.side,
                    level=level,
                    label=work.garment.levels[level].label,
                    body=wanted.body,
                    body_on=wanted.body_on,
                    ease=wanted.ease,
                    ease_from=wanted.ease_from,
                    wanted=wanted.wanted,
                    as_sewn=wanted.as_sewn,
                    needed=wanted.needed,
                    pinned=pinned,
                    after_pins=wanted.as_sewn + pinned,
                    left_over=left,
                    planned=plan.planned(number, level),
                    short=plan.short.get((number, level), 0.0),
                    verdict=verdict,
                    sum=explain_level(plan, number, level, words),
                )
            )
    return rows


def pinned_at(work: Work, number: int, level: str) -> tuple[float, set[str]]:
    """Return what the pins say of a round at a level (mm), and which sides are pinned."""
    around, total = work.rounds[number], 0.0
    if not work.pinned.any:
        return 0.0, set()
    sides: set[str] = set()
    for edge in around.edges:
        move = work.pinned.edge(edge, work.down(level)) if level in edge.levels else None
        if move is not None:
            total += edge.count * move
            sides |= set(SIDES if edge.side is None else (edge.side,))
    for dart in around.darts:
        leg = work.pinned.leg(dart, level)
        if leg is not None:
            total += 2 * leg
            sides |= set(SIDES if dart.side is None else (dart.side,))
    pieces = {piece.id for piece in around.ring.pieces}
    for (piece, side), levels in work.pinned.folds.items():
        if piece in pieces and side in around.sides() and level in levels:
            total += 2 * levels[level]
            sides |= set(SIDES if side is None else (side,))
    return total, sides


def ease_as_pinned(rows: Iterable[LevelAnswer], words: Words) -> dict[str, float]:
    """Return by level the ease that the pins leave on her, after pins - body (mm).

    Of a layer's rows, where a whole round was measured and pinned on both sides: half a pinned
    round says nothing of what she wants.
    """
    return {
        row.level: row.after_pins - row.body
        for row in rows
        if row.body is not None and row.side is None and row.verdict != "one side only"
        and words.shows(row.pinned)
    }  # fmt: skip


def moves_of(plan: LayerPlan) -> list[Move]:
    """Return every edge, leg and fold that moves, with what is left inside."""
    found = [_edge_move(plan, spot, plan.edges[spot]) for spot in sorted(plan.edges)]
    found += [_leg_move(plan, spot, plan.legs[spot]) for spot in sorted(plan.legs)]
    for (number, piece, side, level), depth in sorted(plan.folds.items()):
        ring = plan.work.rounds[number].ring.id
        layer = plan.work.layer.id
        found.append(
            Move(layer, ring, None, None, side, piece, level, depth, depth, None, "pins", 2)
        )
    return [move for move in found if abs(move.exact) > SMALLEST_MM or move.by_hand]


def _edge_move(plan: LayerPlan, spot: Spot, amount: Amount) -> Move:
    number, index, level = spot
    around, layer = plan.work.rounds[number], plan.work.layer.id
    edge = around.edges[index]
    ring, seam, left = around.ring.id, edge.seam.id, edge.allowance[level] - amount.move
    before = plan.before.edges.get(spot) if plan.before is not None else None
    return Move(
        layer, ring, seam, None, edge.side, edge.piece, level, amount.exact, amount.move, left,
        *_from(plan, amount, before, edge.count),
    )  # fmt: skip


def _leg_move(plan: LayerPlan, spot: Spot, amount: Amount) -> Move:
    number, index, level = spot
    around, layer = plan.work.rounds[number], plan.work.layer.id
    dart = around.darts[index]
    ring, name = around.ring.id, dart.dart.id
    before = plan.before.legs.get(spot) if plan.before is not None else None
    return Move(
        layer, ring, None, name, dart.side, dart.piece, level, amount.exact, amount.move, None,
        *_from(plan, amount, before, 2),
    )  # fmt: skip


def _from(
    plan: LayerPlan, amount: Amount, before: Amount | None, edges: int
) -> tuple[Source, int, bool, float | None]:
    """Return where a move comes from, how many edges it stands for, and what she set it from.

    One set by hand comes from what was planned there, or else from who leads.
    """
    if amount.source != "hand":
        return amount.source, edges, False, None
    leads: Source = "pins" if plan.work.lead == "pins" else "tape"
    source = before.source if before is not None else leads
    return source, edges, True, before.move if before is not None else 0.0
