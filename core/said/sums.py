"""Every number opened to its sum, as she can check it on paper."""

from functools import lru_cache

from core.changes.layer_plan import Amount, LayerPlan
from core.records.answer import Side
from core.wording import Words, counted

_Giving = dict[tuple[str, float, str, str], list[tuple[Side | None, int]]]
"""By label, move, what moves (edge or leg) and what she set it from: each side, how many there."""


@lru_cache(maxsize=1024)
def told_apart(move_mm: float) -> float:
    """Return a move to a ten-thousandth of a mm: nearer ones are told as the same."""
    return round(move_mm, 4)


def explain_level(plan: LayerPlan, number: int, level: str, words: Words) -> str:
    """Return the whole sum of a level: body, ease, as sewn, and who gives what.

    ``28 1/2 body + 1 ease = 29 1/2 wanted; 32 as sewn; take in 2 1/2: side seams, four
    edges, 1/2 each; back darts, four legs, 1/8 each``
    """
    written = plan.sums.get((number, level))
    if written is None:
        written = plan.sums[number, level] = _explain(plan, number, level, words)
    return written


def level_sum(plan: LayerPlan, number: int, level: str, words: Words) -> str:
    """Return a level's sum; nothing where the round is not whole and has no girth."""
    if level not in plan.work.wanted[number]:
        return ""
    return f"{plan.work.garment.levels[level].label}: {explain_level(plan, number, level, words)}"


def _explain(plan: LayerPlan, number: int, level: str, words: Words) -> str:
    wanted = plan.work.wanted[number][level]
    parts = []
    if wanted.body is not None and wanted.wanted is not None:
        ease = f"{words.plus(wanted.ease)} ease"
        parts.append(
            f"{words.length(wanted.body)} body {ease} = {words.length(wanted.wanted)} wanted"
        )
    parts.append(f"{words.length(wanted.as_sewn)} as sewn")
    moving = _moving(plan, number, level, words)
    givers = _givers(moving, plan.planned(number, level), words)
    givers += _folds(plan, number, level, words)
    if givers:
        parts.append(f"{_in_all(plan, number, level, moving, words)}: " + "; ".join(givers))
    elif wanted.needed is not None:
        parts.append("nothing is moved")
    short = plan.short.get((number, level), 0.0)
    if short:
        parts.append(f"{words.length(short)} short")
    return "; ".join(parts)


def _givers(moving: _Giving, planned: float, words: Words) -> list[str]:
    """Return who moves at a level: ``side seams, four edges, 1/2 each``."""
    said = []
    for (label, move, noun, by_hand), givers in moving.items():
        sides = {side for side, _ in givers}
        count = sum(edges for _, edges in givers)
        name = label.lower()
        if len(sides) > 1:
            name = _many(name)
        elif (side := sides.pop()) is not None:
            name = f"her {side} {name}"
        each = " each" if count > 1 else ""
        amount = _toward(move, planned, words)
        said.append(f"{name}, {counted(count, noun)}, {amount}{each}{by_hand}")
    return said


def _in_all(plan: LayerPlan, number: int, level: str, moving: _Giving, words: Words) -> str:
    """Return ``take in 2 1/2``; ``about`` where the written amounts add up to a little else."""
    planned = plan.planned(number, level)
    written = sum(
        words.shown(move) * sum(edges for _, edges in givers)
        for (_, move, _, _), givers in moving.items()
    )
    for (at, _, _, where), move in plan.folds.items():
        written += 2 * words.shown(move) if at == number and where == level else 0.0
    about = "" if words.length(written) == words.length(planned) else "about "
    if not words.shows(planned):
        return f"{about}nothing in all"
    return f"{'take in' if planned < 0 else 'let out'} {about}{words.length(planned)}"


def _moving(plan: LayerPlan, number: int, level: str, words: Words) -> _Giving:
    around = plan.work.rounds[number]
    found: _Giving = {}
    for index, edge in enumerate(around.edges):
        amount = plan.edges.get((number, index, level))
        if amount is not None and (words.shows(amount.move) or amount.source == "hand"):
            before = plan.before.edges if plan.before is not None else {}
            by_hand = _by_hand(amount, before.get((number, index, level)), words)
            key = (edge.seam.label, told_apart(amount.move), "edge", by_hand)
            found.setdefault(key, []).append((edge.side, edge.count))
    for index, dart in enumerate(around.darts):
        amount = plan.legs.get((number, index, level))
        if amount is not None and (words.shows(amount.move) or amount.source == "hand"):
            before = plan.before.legs if plan.before is not None else {}
            by_hand = _by_hand(amount, before.get((number, index, level)), words)
            key = (dart.dart.label, told_apart(amount.move), "leg", by_hand)
            found.setdefault(key, []).append((dart.side, 2))
    return found


def _by_hand(amount: Amount, before: Amount | None, words: Words) -> str:
    """Return ``, set by hand (planned 1/2 in)`` where she set an amount."""
    if amount.source != "hand":
        return ""
    planned = before.move if before is not None else 0.0
    way = "in" if planned < 0 else "out"
    told = f"{way} {words.length(planned)}" if words.shows(planned) else "nothing"
    return f", set by hand (planned: {told})"


def _folds(plan: LayerPlan, number: int, level: str, words: Words) -> list[str]:
    deep: dict[float, int] = {}
    for (at, _, _, where), move in plan.folds.items():
        if at == number and where == level and move:
            deep[round(-move, 4)] = deep.get(round(-move, 4), 0) + 1
    return [
        f"{counted(count, 'fold')}, {words.length(depth)} deep = {words.length(2 * depth)}"
        + (" each" if count > 1 else "")
        for depth, count in deep.items()
    ]


def _toward(move: float, planned: float, words: Words) -> str:
    """Return the amount, with its direction where the round moves the other way."""
    if not words.shows(move):
        return "nothing"
    if move * planned < 0 or not words.shows(planned):
        return f"{words.length(move)} {'in' if move < 0 else 'out'}"
    return words.length(move)


def _many(label: str) -> str:
    """Return ``side seams`` for ``side seam``: a place that is there left and right."""
    first, comma, rest = label.partition(",")
    last = first.split()[-1] if first.split() else ""
    plural = first + "s" if last in ("seam", "dart", "pleat", "leg") else first
    return plural + comma + rest
