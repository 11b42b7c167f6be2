"""Circular parts and flare: skirts and flounces cut on the round, godets, gores.

``turns`` is the share of a full circle (1 full, 1/2 half; a flounce of several
circles has more than 1).  All lengths are millimetres, though any one unit used
throughout gives the same numbers.
"""

from dataclasses import dataclass
from math import isfinite, pi, radians

from core.errors import WorkroomError


class NoCircle(WorkroomError):
    """A circular part cannot be worked out from these numbers; says which is wrong."""


@dataclass(frozen=True, slots=True)
class Wedge:
    """What is taken out of a circular part's seams, at its top and bottom edge (mm)."""

    top_mm: float
    bottom_mm: float


def inner_radius_mm(
    round_mm: float, turns: float, *, seams_mm: float = 0.0, edge_mm: float = 0.0
) -> float:
    """Return the radius to cut for an edge that joins ``round_mm``: r = W / (2 pi f).

    ``seams_mm`` is every seam allowance the round loses, both edges of each seam;
    ``edge_mm`` the allowance on the joined edge, which lies inside the sewn radius.
    Raises ``NoCircle`` for no turns, a negative round, or an allowance beyond the radius.
    Source: circle geometry.

    >>> round(inner_radius_mm(26 * 25.4, 1) / 25.4, 2)
    4.14
    """
    _need("The round", round_mm, least=0)
    _need("The seam allowances", seams_mm, least=0)
    radius = (round_mm + seams_mm) / (2 * pi * _turns(turns))
    if edge_mm > radius:
        raise NoCircle("The allowance at the edge is wider than the radius: cut fewer turns")
    return radius - edge_mm


def sweep_mm(round_mm: float, turns: float, length_mm: float) -> float:
    """Return the hem round of a circular part: sweep = W + 2 pi f L.

    ``round_mm`` is its upper edge as sewn, ``length_mm`` its depth from there.
    Raises ``NoCircle`` for no turns or a negative length.  Source: circle geometry.
    """
    _need("The round", round_mm, least=0)
    _need("The length", length_mm, least=0)
    return round_mm + 2 * pi * _turns(turns) * length_mm


def flounce_radius_mm(depth_mm: float, top_mm: float, bottom_mm: float) -> float:
    """Return a flounce's inner radius: r = top x depth / (bottom - top).

    ``top_mm`` and ``bottom_mm`` are its two edges measured round.  Raises ``NoCircle``
    where the bottom is not longer than the top: that is a straight strip.
    Source: BALDT (L. I. Baldt, Clothing for Women: Selection, Design, Construction, 1916).
    """
    return top_mm * depth_mm / _flare(depth_mm, top_mm, bottom_mm)


def flounce_turns(depth_mm: float, top_mm: float, bottom_mm: float) -> float:
    """Return how much of a circle a flounce is: f = (bottom - top) / (2 pi depth).

    Raises ``NoCircle`` as ``flounce_radius_mm`` does.  Source: circle geometry.
    """
    return _flare(depth_mm, top_mm, bottom_mm) / (2 * pi * depth_mm)


def cut_down_mm(longer_mm: float, turns: float) -> float:
    """Return what to trim off an inner edge to make it ``longer_mm`` longer.

    It is longer / (2 pi f), the same all along the edge; the part's depth is less
    by as much.  A circular part can only grow this way: a negative ``longer_mm``
    raises ``NoCircle`` (take a wedge instead).  Source: circle geometry.
    """
    _need("What the edge grows by", longer_mm, least=0)
    return longer_mm / (2 * pi * _turns(turns))


def edge_gain_mm(lowered_mm: float, turns: float) -> float:
    """Return how much longer an edge lowered all round becomes: 2 pi f x lowered.

    The reverse of ``cut_down_mm``: why a circular skirt's waist is never
    trimmed to level its hem.  Negative or no turns raise ``NoCircle``.
    """
    _need("What the edge is lowered by", lowered_mm, least=0)
    return 2 * pi * _turns(turns) * lowered_mm


def wedge(shorter_mm: float, radius_mm: float, depth_mm: float) -> Wedge:
    """Return the wedge that makes a circular part's inner edge ``shorter_mm`` shorter.

    All of it is taken at the top, and (r + depth) / r times that at the bottom, so
    that the part keeps its curve.  Both are totals over all its seams and never
    negative.  Raises ``NoCircle`` for a negative change or no radius.
    Source: circle geometry.
    """
    _need("What the edge loses", shorter_mm, least=0)
    _need("The depth", depth_mm, least=0)
    _need("The radius", radius_mm, above=0)
    return Wedge(shorter_mm, shorter_mm * (radius_mm + depth_mm) / radius_mm)


def godet_hem_mm(slit_mm: float, angle_degrees: float) -> float:
    """Return what a godet adds to the hem: its slit times its angle (in radians).

    ``slit_mm`` is the radius, from its point to the hem.  Raises ``NoCircle`` for an
    angle of nothing or beyond a full circle.  Source: circle geometry.
    """
    _need("The slit", slit_mm, above=0)
    _need("The angle", angle_degrees, above=0)
    if angle_degrees > 360:
        raise NoCircle("A godet is at most a full circle: set two")
    return slit_mm * radians(angle_degrees)


def gore_widths_mm(round_mm: float, gores: int, front_mm: float | None = None) -> tuple[float, ...]:
    """Return how wide each gore is at a level, the front first, summing to ``round_mm``.

    All alike unless the front's width is given; the others then share the rest.
    Raises ``NoCircle`` for fewer than two gores or a front that leaves nothing.
    Source of the five-gored case: BENN (E. A. Bennett, 1914).
    """
    if gores < 2:
        raise NoCircle("A gored skirt has two gores or more")
    alike = _need("The round", round_mm, above=0) / gores
    front = alike if front_mm is None else front_mm
    if not 0 <= front < round_mm:
        raise NoCircle("The front gore leaves nothing for the others")
    return (front, *[(round_mm - front) / (gores - 1)] * (gores - 1))


def _flare(depth_mm: float, top_mm: float, bottom_mm: float) -> float:
    _need("The depth", depth_mm, above=0)
    _need("The top", top_mm, above=0)
    if not top_mm < bottom_mm < float("inf"):
        raise NoCircle("The bottom of a flounce is longer than its top, or it is a straight strip")
    return bottom_mm - top_mm


def _turns(turns: float) -> float:
    return _need("The number of turns", turns, above=0)


def _need(what: str, value: float, *, least: float | None = None, above: float = 0.0) -> float:
    """Return ``value``, or raise ``NoCircle`` where it is below ``least`` or not ``above``."""
    if not isfinite(value) or (value < least if least is not None else value <= above):
        raise NoCircle(f"{what} must be {'at least' if least is not None else 'more than'} nothing")
    return value
