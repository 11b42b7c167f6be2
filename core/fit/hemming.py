"""The hem, at the last: floor to hem at points round her, one after the other.

What each point asks for, in the shoes of the day, is worked out by ``core.said.hem``.
"""

from collections.abc import Mapping
from typing import Any

from core.client.facts import entries
from core.fit.written import CannotLog, Part, length_typed, listed, put
from core.lengths import Unit, mm_written

POINTS = ("front", "front left", "left side", "back left", "back", "back right", "right side",
          "front right")  # fmt: skip
"""Eight points, going round by her left; a point of another name is kept and comes after them."""

TRIP_MM = 25.0
"""A hem nearer the floor than this is one to trip over: the caution of the workroom."""


def set_floor(fitting: Part, unit: Unit, at: str, typed: str) -> None:
    """Write down floor to hem at a point, as typed; empty: it is not measured any more.

    A point that is measured is no train point.  Raises ``BadLength``, ``CannotLog``.
    """
    text = length_typed(typed, unit) if typed.strip() else None
    point = _point(fitting, at)
    point.pop("train", None)
    point.pop("floor", None)
    if text is not None:
        point["floor"] = text
    _tidy(fitting, unit)


def set_train(fitting: Part, unit: Unit, at: str, train: bool) -> None:
    """Say that a point lies on the train, so that it is skipped; or no longer."""
    point = _point(fitting, at)
    point.pop("floor", None)
    put(point, "train", train or None)
    _tidy(fitting, unit)


def set_wanted(fitting: Part, unit: Unit, typed: str) -> None:
    """Write down how far off the floor the hem is wanted, as typed.  Raises ``BadLength``."""
    _hem(fitting)["wanted"] = length_typed(typed or "0", unit)


def set_holds(fitting: Part, unit: Unit, typed: str) -> None:
    """Write down how much the hem holds to let down, as typed.  Raises ``BadLength``."""
    _hem(fitting)["holds"] = length_typed(typed or "0", unit)


def set_heel_of_the_day(garment: Part, unit: Unit, typed: str) -> None:
    """Write down the heel of the day, on the garment; empty for none said."""
    put(garment, "heel_of_the_day", length_typed(typed, unit) if typed.strip() else "")


def names(fitting: Mapping[str, Any]) -> tuple[str, ...]:
    """Return the points of the ring in order: the eight, then any of another name."""
    own = [str(point.get("at") or "point") for point in _points(fitting)]
    return (*POINTS, *(name for name in dict.fromkeys(own) if name not in POINTS))


def next_point(fitting: Mapping[str, Any], unit: Unit, after: str = "") -> str | None:
    """Return the next point to measure after one, going round; nothing when all are done."""
    done = {
        str(point.get("at"))
        for point in _points(fitting)
        if point.get("train") or mm_written(point.get("floor"), unit) is not None
    }
    ring = names(fitting)
    at = ring.index(after) + 1 if after in ring else 0
    return next((name for name in ring[at:] + ring[:at] if name not in done), None)


def floor_typed(fitting: Mapping[str, Any], at: str) -> str:
    """Return what is written for a point; empty where it is not measured."""
    found = next((point for point in _points(fitting) if point.get("at") == at), {})
    floor = found.get("floor")
    return "" if floor is None else str(floor)


def is_train(fitting: Mapping[str, Any], at: str) -> bool:
    return any(bool(point.get("train")) for point in _points(fitting) if point.get("at") == at)


# -- how ------------------------------------------------------------------------------


def _points(fitting: Mapping[str, Any]) -> list[Mapping[str, Any]]:
    hem = fitting.get("hem")
    return entries(hem, "points") if isinstance(hem, Mapping) else []


def _hem(fitting: Part) -> Part:
    hem = fitting.get("hem")
    if not isinstance(hem, dict):
        hem = fitting["hem"] = {}
    return hem


def _point(fitting: Part, at: str) -> Part:
    if not at.strip():
        raise CannotLog("Touch a point of the hem first. The fitting is as it was")
    points = listed(_hem(fitting), "points")
    found = next((point for point in points if point.get("at") == at), None)
    if found is None:
        found = {"at": at}
        points.append(found)
    return found


def _tidy(fitting: Part, unit: Unit) -> None:
    """Keep the points in the order of the ring; one that says nothing is taken away."""
    hem, ring = _hem(fitting), names(fitting)
    said = [point for point in hem["points"] if set(point) - {"at"}]
    hem["points"] = sorted(said, key=lambda point: ring.index(str(point.get("at") or "point")))
    if not hem["points"] and set(hem) == {"points"}:
        del fitting["hem"]
