"""What the cloth cannot give, with the ways out; what was cut to it, or goes beyond the usual."""

from collections.abc import Iterator

from core.changes.layer_plan import Amount, LayerPlan, Spot
from core.lengths import SMALLEST_MM
from core.records.answer import Source
from core.said.hand_told import at_level
from core.said.line_cautions import seam_label
from core.sewn.rounds import Edge
from core.wording import Words, listed, sentence, whose

_FAR_MM = 25.4
"""More than 1 in an edge is far beyond what a seam gives in comfort, whatever it was allowed."""

_CUT_FROM: dict[Source, str] = {"pins": "pinned", "hand": "set by hand"}
_SEWN_AS: dict[Source, str] = {"pins": "sewn as pinned", "hand": "sewn as set by hand"}


def shortages(plan: LayerPlan, words: Words) -> list[str]:
    """Return what each level is short, with the ways out of it."""
    said = []
    for (number, level), short in plan.short.items():
        if abs(short) <= SMALLEST_MM:
            continue
        way, amount = (
            ("let out", words.length(short)) if short > 0 else ("take in", words.length(short))
        )
        outs = ways_out(plan, number, level, short, words)
        said.append(
            f"{sentence(at_level(plan, number, level)).rstrip('.')}: {amount} short to {way};"
            f" {listed(outs, 'or')}."
        )
        if (number, level) in plan.freer:
            said.append(
                f"{sentence(at_level(plan, number, level)).rstrip('.')}: left and right differ"
                " inside, and one side alone could give more."
            )
    return said


def ways_out(plan: LayerPlan, number: int, level: str, short: float, words: Words) -> list[str]:
    """Return the ways out of a shortage (mm, positive to let out) that apply."""
    if short < 0:
        return ["a new dart", "recutting the piece"]
    keep = plan.work.settings.keep
    strip = words.length(short + 2 * keep)
    outs = [
        f"less ease by {words.length(short)}",
        f"a strip or gusset {strip} wide, its allowances included",
        "recutting the piece",
    ]
    around = plan.work.rounds[number]
    if any(level in edge.seam.clipped for edge in around.edges):
        return outs
    return [*outs, f"keeping less than {words.length(keep)} with the edge taped"]


def cut_and_beyond(plan: LayerPlan, words: Words) -> list[str]:
    """Tell pins cut to the cloth there is, and edges moved further than is usual."""
    said: list[str] = []
    for spot, amount in plan.edges.items():
        if amount.source != "tape":
            said += _edge_cautions(plan, spot, amount, words)
        elif abs(amount.move) > _FAR_MM + SMALLEST_MM:
            said.append(_far_caution(plan, spot, amount, words))
    for spot, amount in plan.legs.items():
        if amount.source != "tape":
            said += _leg_cautions(plan, spot, amount, words)
    return list(dict.fromkeys(said))


def _edge_cautions(plan: LayerPlan, spot: Spot, amount: Amount, words: Words) -> Iterator[str]:
    number, index, level = spot
    edge = plan.work.rounds[number].edges[index]
    where = f"{seam_label(plan, edge.seam.id)}, {_side_and_level(plan, edge, level)}"
    cut = plan.cut.get(spot, 0.0)
    if cut:
        what = _CUT_FROM.get(amount.source, "carried")
        yield (
            f"{where}: {what} {words.length(amount.exact)} an edge, the cloth gives"
            f" {words.length(amount.move)}; {words.length(cut)} an edge is missing."
        )
    most = plan.work.rules.most(edge.seam, edge.piece, level)
    if amount.source in _SEWN_AS and amount.move < -most - SMALLEST_MM:
        yield (
            f"{where}: taken in {words.length(amount.move)} an edge, more than"
            f" {words.length(most)}; {_SEWN_AS[amount.source]}, try it on first."
        )


def _far_caution(plan: LayerPlan, spot: Spot, amount: Amount, words: Words) -> str:
    number, index, level = spot
    edge = plan.work.rounds[number].edges[index]
    label = plan.work.garment.levels[level].label.lower()
    return (
        f"{seam_label(plan, edge.seam.id)}, {label}: {words.length(amount.move)} an edge is"
        " far beyond comfort; recutting may be better, try it on first."
    )


def _leg_cautions(plan: LayerPlan, spot: Spot, amount: Amount, words: Words) -> Iterator[str]:
    number, index, level = spot
    dart = plan.work.rounds[number].darts[index]
    limit = plan.work.rules.leg_limit(dart, level, amount.exact)
    told = amount.source in _SEWN_AS or level == dart.widest  # a wedge is told where it is deepest
    if told and abs(amount.exact) > limit + SMALLEST_MM:
        whole = abs(amount.exact - amount.move) <= SMALLEST_MM
        rest = _SEWN_AS.get(amount.source, "sewn as pinned") if whole else "cut to it"
        yield (
            f"{dart.dart.label}: {words.length(amount.exact)} a leg is more than"
            f" {words.length(limit)}; {rest}."
        )


def _side_and_level(plan: LayerPlan, edge: Edge, level: str) -> str:
    return ", ".join(
        filter(None, [whose(edge.side), plan.work.garment.levels[level].label.lower()])
    )
