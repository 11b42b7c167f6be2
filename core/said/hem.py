"""The hem: what floor to hem will be in the shoes of the day, and what to let down or take up."""

from dataclasses import dataclass

from core.records.fitting import HemLog


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
