"""Every number opened to its sum, as she can check it on paper."""

from core.layer_plan import LayerPlan
from core.wording import Words, counted


def explain_level(plan: LayerPlan, number: int, level: str, words: Words) -> str:
    """Return the whole sum of a level: body, ease, as sewn, and who gives what.

    ``28 1/2 body + 1 ease = 29 1/2 wanted; 32 as sewn; take in 2 1/2: side seams, four
    edges, 1/2 each; back darts, four legs, 1/8 each``
    """
    written = plan.sums.get((number, level))
    if written is None:
        written = plan.sums[number, level] = _explain(plan, number, level, words)
    return written


def _explain(plan: LayerPlan, number: int, level: str, words: Words) -> str:
    wanted = plan.work.wanted[number][level]
    parts = []
    if wanted.body is not None and wanted.wanted is not None:
        ease = f"{words.plus(wanted.ease)} ease"
        parts.append(
            f"{words.length(wanted.body)} body {ease} = {words.length(wanted.wanted)} wanted"
        )
    parts.append(f"{words.length(wanted.as_sewn)} as sewn")
    planned = plan.planned(number, level)
    givers = givers_at(plan, number, level, words)
    if givers:
        way = "take in" if planned < 0 else "let out"
        parts.append(f"{way} {words.length(planned)}: " + "; ".join(givers))
    elif wanted.needed is not None:
        parts.append("nothing is moved")
    short = plan.short.get((number, level), 0.0)
    if short:
        parts.append(f"{words.length(short)} short")
    return "; ".join(parts)


def givers_at(plan: LayerPlan, number: int, level: str, words: Words) -> list[str]:
    """Return who moves at a level: ``side seams, four edges, 1/2 each``."""
    around = plan.work.rounds[number]
    edges: dict[tuple[str, float], tuple[str, int]] = {}
    for index, edge in enumerate(around.edges):
        amount = plan.edges.get((number, index, level))
        if amount is not None and words.shows(amount.move):
            key = (edge.seam.id, round(amount.move, 4))
            label = edge.seam.label if edge.side is None else _many(edge.seam.label)
            edges[key] = (label, edges.get(key, ("", 0))[1] + edge.count)
    legs: dict[tuple[str, float], tuple[str, int]] = {}
    for index, dart in enumerate(around.darts):
        amount = plan.legs.get((number, index, level))
        if amount is not None and words.shows(amount.move):
            key = (dart.dart.id, round(amount.move, 4))
            legs[key] = (_many(dart.dart.label), legs.get(key, ("", 0))[1] + 2)
    said = [(label, count, move, "edge") for (_, move), (label, count) in edges.items()]
    said += [(label, count, move, "leg") for (_, move), (label, count) in legs.items()]
    folds = [
        move
        for (at, _, _, where), move in plan.folds.items()
        if at == number and where == level and move
    ]
    found = [
        f"{label.lower()}, {counted(count, noun)}, {_toward(move, plan, number, level, words)} each"
        for label, count, move, noun in said
    ]
    if folds:
        deep = sorted({words.length(move) for move in folds})
        found.append(f"{counted(len(folds), 'fold')}, {' and '.join(deep)} deep")
    return found


def _toward(move: float, plan: LayerPlan, number: int, level: str, words: Words) -> str:
    """Return the amount, with its direction where the round moves the other way."""
    planned = plan.planned(number, level)
    if move * planned < 0:
        return f"{words.length(move)} {'in' if move < 0 else 'out'}"
    return words.length(move)


def _many(label: str) -> str:
    """Return ``side seams`` for ``side seam``: a place that is there left and right."""
    first, comma, rest = label.partition(",")
    last = first.split()[-1] if first.split() else ""
    plural = first + "s" if last in ("seam", "dart", "pleat", "leg") else first
    return plural + comma + rest
