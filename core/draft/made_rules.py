"""Numbers of a draft turned back into rules: the kind's own where it has one, else a new one.

What she changed by hand is one more term of the kind's rule.  Without a rule the piece beside
the side line takes the body's quarter and what is left of it, the others their own width; a
round without a side line gives a single piece the whole girth, two pieces half of it each.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from core.draft.by_hand import ByHand
from core.draft.document import Part, find, pieces_in
from core.draft.marks import marks_of, mm_of
from core.draft.printed_sum import read_sum, write_exactly
from core.draft.width_shift import sides_of
from core.errors import NotFound
from core.file.checking import net_width
from core.lengths import SMALLEST_MM, Unit, read_length
from core.records.garment import Dart, Garment, Piece, Ring
from core.sewn.shape import take_up_at

BY_HAND = "changed by hand"
Rule = list[Any]


@dataclass(frozen=True, slots=True)
class Made:
    """One garment while it is turned into rules; ``template`` is its kind's, or empty."""

    written: Part
    record: Garment
    template: Mapping[str, Any]
    hers: ByHand
    unit: Unit

    def usual(self, layer: str, of: str, name: str) -> Part:
        """Return what the kind has under this id, or nothing; without a layer a garment's part."""
        try:
            owner = find(dict(self.template), "layers", layer) if layer else self.template
            if of == "pieces":
                return next((entry for _, found, entry in pieces_in(owner) if found == name), {})
            return find(owner, of, name)
        except NotFound:
            return {}


def fixed(mm: float, words: str, unit: Unit) -> Rule:
    """Return the term of a fixed length, or none where it comes to nothing."""
    marks = marks_of(mm, unit)
    if not marks:
        return []
    said = write_exactly(mm_of(marks, unit), unit)
    return [{"take": f"fixed {said}{'' if unit == 'in' else f' {unit}'}", "words": words}]


def off_sum(rule: Rule, typed: Any, said: Any, unit: Unit) -> Rule:
    """Return a rule with what a number lies off its printed sum as a term of its own."""
    printed = read_sum(said, unit) if isinstance(said, str) else None
    if printed is None or typed is None or (isinstance(typed, Mapping) and "left" not in typed):
        return rule
    sides = [read_length(side, unit).mm for side in sides_of(typed)]
    return [*rule, *fixed(sum(sides) / 2 - printed.result_mm, BY_HAND, unit)]


def height_rule(made: Made, level: str, above: Sequence[str]) -> Rule:
    """Return the rule of a level's height; ``above`` are the levels listed before it."""
    written, record = find(made.written, "levels", level), made.record.levels[level]
    usual = made.usual("", "levels", level)
    if "rule" in usual and leans_on(usual["rule"], "down") <= set(above):
        return off_sum(list(usual["rule"]), written.get("down"), written.get("sum"), made.unit)
    body = record.down_body.get("", "")
    if body.startswith("waist_to_") and "waist" in above:
        return ["down:waist", body]
    if body.startswith("side_neck_to_"):
        return [body, "-drop"]
    if not above:
        return fixed(record.down, "below the top edge", made.unit)
    return _from_level(made, above[-1], record.down)


def end_rule(made: Made, layer: str, piece: str, dart: Dart, end: str) -> Rule:
    """Return the rule of a dart's end; without ends it reaches an inch past where it is given."""
    down = dart.top if end == "top" else dart.point
    usual = usual_dart(made, layer, piece, dart.id)
    given = [made.record.levels[level].down for level in dart.take_up]
    if down is None:
        down = min(given, default=0.0) - 25.0 if end == "top" else max(given, default=0.0) + 25.0
    rule = list(usual["ends"][end]) if "ends" in usual else []
    is_hers = (layer, dart.id, end) in made.hers.ends
    if rule and not is_hers and leans_on(rule, "down") <= made.record.levels.keys():
        return rule
    nearest = min(made.record.levels.values(), key=lambda level: abs(level.down - down))
    return _from_level(made, nearest.id, down)


def width_rule(made: Made, layer: str, ring: Ring, piece: Piece, level: str, written: Part) -> Rule:
    """Return the rule of a cut width: its net, its darts, its allowances."""
    usual = made.usual(layer, "pieces", piece.id).get("rule", {}).get(level)
    edges = _edges(ring, piece, level)
    said = (written.get("sum") or {}).get(level)
    by_rule = (layer, piece.id, level) not in made.hers.widths
    summed = isinstance(said, str) and read_sum(said, made.unit) is not None
    if usual and (summed or by_rule) and _holds(made, usual, ring, piece, level, edges):
        return off_sum(list(usual), written["width"][level], said, made.unit)
    darts = ["darts"] if piece.darts else []
    return [*_net_rule(made, ring, piece, level), *darts, *edges]


def leans_on(rule: Rule, what: str) -> set[str]:
    """Return the names a rule leans on: levels (``down``, ``at``), pieces (``net``), seams."""
    takes = [term if isinstance(term, str) else term["take"] for term in rule]
    parts = [take.lstrip("-").partition(":") for take in takes]
    return {name.partition("/")[0] for found, _, name in parts if found == what and name}


def _edges(ring: Ring, piece: Piece, level: str) -> list[str]:
    """Return the terms of a piece's allowances at a level, one for each edge."""
    return [
        f"seam:{seam.id}" for seam in ring.seams
        if piece.id in seam.joins and level in ring.levels_of(seam)
        for _ in range(2 if ring.kind == "closed" and seam.joins_itself else 1)
    ]  # fmt: skip


def _holds(
    made: Made, rule: Rule, ring: Ring, piece: Piece, level: str, edges: list[str]
) -> bool:  # fmt: skip
    """Tell whether the kind's rule still says what this piece is: its seams, darts, neighbours."""
    takes = [term if isinstance(term, str) else term["take"] for term in rule]
    there = {one.id for one in ring.pieces if level in one.width and one is not piece}
    crossed = any(max(take_up_at(dart, made.record.levels, level)) > SMALLEST_MM
                  for dart in piece.darts)  # fmt: skip
    return (
        sorted(take for take in takes if take.startswith("seam:")) == sorted(edges)
        and leans_on(rule, "at") <= piece.width.keys()
        and leans_on(rule, "net") <= there
        and (not crossed or "darts" in takes)
    )


def _net_rule(made: Made, ring: Ring, piece: Piece, level: str) -> Rule:
    own = _net(made, ring, piece, level)
    if not made.record.levels[level].body or not ring.whole_at(level):
        return fixed(own, f"{piece.label.lower()} as drawn", made.unit)
    if ring.kind == "closed":
        return _of_closed(made, ring, piece, level)
    front, back = _halves(ring)
    mine, others = (front, back) if piece in front else (back, front)
    if not others or piece is not (mine[-1] if mine is front else mine[0]):
        return fixed(own, f"{piece.label.lower()} as drawn", made.unit)
    more = sum(_net(made, ring, one, level) for one in mine)
    more -= sum(_net(made, ring, one, level) for one in others)
    side = "front" if mine is front else "back"
    words = f"{side} is {'more' if more > 0 else 'less'}"
    rest = [f"-net:{one.id}" for one in mine if one is not piece]
    return ["body/4", "ease/4", *fixed(more / 2, words, made.unit), *rest]


def _of_closed(made: Made, ring: Ring, piece: Piece, level: str) -> Rule:
    if len(ring.pieces) == 1:
        return ["body", "ease"]
    own = _net(made, ring, piece, level)
    if len(ring.pieces) == 2:
        other = next(one for one in ring.pieces if one is not piece)
        more = (own - _net(made, ring, other, level)) / 2
        words = f"{piece.label.lower()} is {'wider' if more > 0 else 'narrower'}"
        return ["body/2", "ease/2", *fixed(more, words, made.unit)]
    if piece is not ring.pieces[-1]:
        return fixed(own, f"{piece.label.lower()} as drawn", made.unit)
    return ["body", "ease", *(f"-net:{one.id}" for one in ring.pieces[:-1])]


def _halves(ring: Ring) -> tuple[tuple[Piece, ...], tuple[Piece, ...]]:
    """Return the pieces before and behind the side line; none behind where there is no line."""
    line = ring.seam(ring.side_line)
    if line is None or line.joins_itself:
        return ring.pieces, ()
    names = [piece.id for piece in ring.pieces]
    at = max(names.index(name) for name in line.joins)
    return ring.pieces[:at], ring.pieces[at:]


def _net(made: Made, ring: Ring, piece: Piece, level: str) -> float:
    return sum(net_width(made.record, ring, piece, level, side) for side in (0, 1)) / 2


def _from_level(made: Made, level: str, down: float) -> Rule:
    """Return a height as so much below or above a level."""
    more = down - made.record.levels[level].down
    label = made.record.levels[level].label.lower()
    words = f"{'below' if more > 0 else 'above'} the {label}"
    return [f"down:{level}", *fixed(more, words, made.unit)]


def usual_dart(made: Made, layer: str, piece: str, dart: str) -> Part:
    """Return what the kind has of a dart, or nothing."""
    darts = made.usual(layer, "pieces", piece).get("darts") or []
    return next((entry for entry in darts if entry.get("id") == dart), {})
