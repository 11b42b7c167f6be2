"""The hem: what floor to hem will be in the shoes of the day, and what to let down or take up."""

from dataclasses import dataclass, replace

from core.lengths import SMALLEST_MM
from core.records.answer import Consequence
from core.records.fitting import Fitting, HemLog
from core.records.garment import Garment
from core.wording import Words, sentence, whose


@dataclass(frozen=True, slots=True)
class HemChange:
    """One point of the hem; all in mm.

    ``change_mm`` is what the point asks for, positive let down, negative taken up;
    ``move_mm`` what the hem can give of it; ``short_mm`` the rest that it cannot
    (never negative).
    """

    at: str
    floor_mm: float
    on_the_day_mm: float
    change_mm: float
    move_mm: float
    short_mm: float


def on_the_day_mm(
    floor_mm: float, heel_worn_mm: float | None, heel_of_the_day_mm: float | None
) -> float:
    """Return floor to hem as it will be on the day: floor now + heel of the day - heel worn.

    A higher heel on the day lifts the hem off the floor.  Where either heel is not
    known they are taken as the same; the caller says so.  Source: arithmetic.
    """
    if heel_worn_mm is None or heel_of_the_day_mm is None:
        return floor_mm
    return floor_mm + heel_of_the_day_mm - heel_worn_mm


def hem_changes(
    hem: HemLog, heel_worn_mm: float | None, heel_of_the_day_mm: float | None
) -> tuple[HemChange, ...]:
    """Return the change at each point that was measured, in the order it was logged.

    ``change = on the day - wanted``: positive is let down, and only what the hem holds;
    negative is taken up.  Train points, and points not measured yet, are left out.

    Nothing is rounded here; the wanted clearance of a whole hem is one number.
    """
    changes = []
    for point in hem.points:
        if point.train or point.floor is None:
            continue
        day = on_the_day_mm(point.floor, heel_worn_mm, heel_of_the_day_mm)
        change = day - hem.wanted
        move = min(change, hem.holds)
        changes.append(HemChange(point.at, point.floor, day, change, move, change - move))
    return tuple(changes)


ALL_ROUND = frozenset({"front", "left side", "back", "right side"})
"""Points that are all round where each of them is measured and none is the train."""


def heel_not_said(worn_mm: float | None, of_the_day_mm: float | None) -> str:
    """Say which heel is not known; nothing where both are."""
    heels = {"the heel she wears now": worn_mm, "the heel of the day": of_the_day_mm}
    missing = [name for name, heel in heels.items() if heel is None]
    if not missing:
        return ""
    return f"{' and '.join(missing)} {'is' if len(missing) == 1 else 'are'} not said"


def hem_follows(garment: Garment, fitting: Fitting, words: Words) -> list[Consequence]:
    """At each point: on the day = floor now + heel of the day - heel worn, against the wanted.

    Where every point all round measures the same, and none is the train, it is said once.
    """
    if fitting.hem is None:
        return []
    found = []
    day, worn = garment.heel_of_the_day, fitting.heel_worn
    heel = ""
    if missing := heel_not_said(worn, day):
        found.append(Consequence("hem", 0.0, f"Hem: {missing}; the floor is counted as it is."))
    if day is not None and worn is not None:
        heel = f" {words.plus(day)} heel of the day - {words.length(worn)} heel worn"
    points = hem_changes(fitting.hem, worn, day)
    alike = len({point.floor_mm for point in points}) == 1
    measured = {point.at for point in fitting.hem.points
                if point.floor is not None and not point.train}  # fmt: skip
    if alike and measured == {point.at for point in fitting.hem.points} >= ALL_ROUND:
        points = (replace(points[0], at="all round"),)
    for point in points:
        found.append(_hem_point(point, heel, fitting.hem.wanted, words))
    return found


def _hem_point(point: HemChange, heel: str, wanted: float, words: Words) -> Consequence:
    at = whose(point.at) if point.at in ("left", "right") else point.at
    said = f"Hem, {at}: stays"
    if words.shows(point.change_mm):
        verb = "let down" if point.change_mm > 0 else "take up"
        said = f"Hem, {at}: {verb} {words.length(point.move_mm)}"
    if point.short_mm > SMALLEST_MM:
        said += f"; {words.length(point.short_mm)} more is wanted than the hem holds"
    total = (
        f"{at}: {words.length(point.floor_mm)} floor to hem{heel} ="
        f" {words.signed(point.on_the_day_mm)}; {words.length(wanted)} wanted"
    )
    return Consequence("hem", point.move_mm, sentence(said), total)
