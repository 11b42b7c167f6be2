"""The ways to give a round what it needs, each with what it opens, minutes and largest move."""

from collections.abc import Iterable

from core.changes.between_levels import missing_at
from core.changes.laid_by_hand import lay_hand
from core.changes.layer_plan import Given, LayerPlan
from core.changes.laying import lay_pins
from core.changes.planning import share_round
from core.lengths import SMALLEST_MM
from core.records.answer import Option, Sharing, Way
from core.share.rules import Rules

WAYS: tuple[Sharing, ...] = ("by_turns", "fewest", "spread")


def options_of(plan: LayerPlan, chosen: Sharing) -> list[Option]:
    """Return each round's chosen way and, where they differ from it, the others."""
    options = []
    first = plan.work.garment.layers[0].id == plan.work.layer.id
    shared = first and plan.work.lead != "pins"
    for number in range(len(plan.work.rounds)):
        opened = plan.opened(number)
        if opened:
            way: Way = chosen if shared or _by_tape(plan, number) else "pins"
            options.append(
                _option(
                    plan,
                    number,
                    way,
                    opened,
                    plan.largest(number),
                    _short(plan, number),
                    chosen=True,
                )
            )
        if shared:
            options += _others(plan, number, chosen)
    return options


def _by_tape(plan: LayerPlan, number: int) -> bool:
    """Tell whether the tape moves anything in a round: under the pins, another layer's own need."""
    moves = (*plan.edges.items(), *plan.legs.items())
    return plan.work.lead != "pins" or any(
        at == number and amount.source == "tape" and amount.move for (at, _, _), amount in moves
    )


def minutes_of(rules: Rules, opened: Iterable[str]) -> float:
    """Return the minutes of what is opened, once each, and of what is in the way, once."""
    opened = set(opened)
    ahead: set[str] = set()
    for place in opened:
        ahead |= set(rules.needs(place)) - opened
    return sum(map(rules.minutes, opened)) + sum(map(rules.opening_minutes, ahead))


def _others(plan: LayerPlan, number: int, chosen: Sharing) -> list[Option]:
    pins = LayerPlan(plan.work)
    lay_pins(pins)
    if plan.work.hand.shared_again:
        lay_hand(pins)
    opened_by_pins, largest_pinned = pins.opened(number), pins.largest(number)
    seen = [_result(plan.given[number])]
    options = []
    for way in WAYS:
        given = share_round(pins, number, way) if way != chosen else None
        if given is None or _result(given) in seen:
            continue
        seen.append(_result(given))
        opened = tuple(sorted(_opened(plan, number, given).union(opened_by_pins)))
        if opened:
            largest = max([*_sizes(given), largest_pinned])
            short = _together(plan, number, given.short.values())
            options.append(_option(plan, number, way, opened, largest, short, chosen=False))
    return options


def _result(given: Given) -> tuple[list[tuple[str, int, float, float]], dict[int, float]]:
    """Return what a sharing moves, so that two of them can be told apart."""
    return (
        [
            (level, gift.member.indexes[0], gift.first, gift.second)
            for level, gifts in given.seams.items()
            for gift in gifts
            if gift.first or gift.second
        ],
        {key: move for key, move in given.legs.items() if move},
    )


def _sizes(given: Given) -> list[float]:
    """Return how large each move of a sharing is, in mm."""
    sizes = [abs(leg) for leg in given.legs.values()]
    for gifts in given.seams.values():
        sizes += [max(abs(gift.first), abs(gift.second)) for gift in gifts]
    return sizes


def _opened(plan: LayerPlan, number: int, given: Given) -> set[str]:
    around = plan.work.rounds[number]
    seams = {
        around.edges[gift.member.indexes[0]].seam.id
        for gifts in given.seams.values()
        for gift in gifts
        if max(abs(gift.first), abs(gift.second)) > SMALLEST_MM
    }
    return seams | {
        around.darts[index].dart.id for index, move in given.legs.items() if abs(move) > SMALLEST_MM
    }


def _short(plan: LayerPlan, number: int) -> float:
    return _together(plan, number, [lacks for (at, _), lacks in plan.short.items() if at == number])


def _together(plan: LayerPlan, number: int, short: Iterable[float]) -> float:
    """Return what levels are missing together, with the pins between them (mm).

    What is short to take in and to let out never cancels; negative where all is to take in.
    """
    every = [*short, *missing_at(plan, number).values()]
    total = sum(map(abs, every))
    return total if any(lacks > 0 for lacks in every) else -total


def _option(
    plan: LayerPlan,
    number: int,
    way: Way,
    opened: tuple[str, ...],
    largest: float,
    short: float,
    *,
    chosen: bool,
) -> Option:
    work = plan.work
    around = work.rounds[number]
    return Option(
        work.layer.id,
        around.ring.id,
        around.side,
        way,
        opened,
        minutes_of(work.rules, opened),
        largest,
        short,
        chosen,
    )
