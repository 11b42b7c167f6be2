"""A closed line filled: cut at the height of every corner into slices that are four-cornered.

A piece is looked at again and again while one beside it changes, so its slices are kept.
"""

from collections.abc import Iterator
from functools import lru_cache
from itertools import pairwise

Point = tuple[float, float]
Outline = tuple[Point, ...]


@lru_cache(maxsize=128)
def triangles(outline: Outline) -> tuple[tuple[float, ...], tuple[int, ...]]:
    """Return the vertices (x, y and two more, as a mesh wants them) and indices that fill it.

    The line may turn inwards, as a neckline does; it does not cross itself.

    >>> vertices, indices = triangles(((0.0, 0.0), (2.0, 0.0), (2.0, 1.0), (0.0, 1.0)))
    >>> vertices[0:2], vertices[4:6], len(indices)
    ((0.0, 0.0), (2.0, 0.0), 6)
    """
    vertices: list[float] = []
    indices: list[int] = []
    for high, low, left, right in _slices(outline):
        first = len(vertices) // 4
        for x, y in ((left[0], high), (right[0], high), (left[1], low), (right[1], low)):
            vertices += (x, y, 0.0, 0.0)
        indices += (first, first + 1, first + 2, first + 1, first + 3, first + 2)
    return tuple(vertices), tuple(indices)


def _slices(outline: Outline) -> Iterator[tuple[float, float, Point, Point]]:
    """Yield each slice: its two heights, and its left and right x at both."""
    edges = sorted(
        (min(one[1], other[1]), max(one[1], other[1]), *sorted((one, other), key=_down))
        for one, other in zip(outline, (*outline[1:], outline[0]), strict=True)
        if one[1] != other[1]
    )
    heights = sorted({point[1] for point in outline})
    at, live = 0, []
    for high, low in pairwise(heights):
        while at < len(edges) and edges[at][0] <= high:
            live.append(edges[at])
            at += 1
        live = [edge for edge in live if edge[1] > high]
        sides = sorted(_at(edge, high, low) for edge in live)
        for left, right in zip(sides[::2], sides[1::2], strict=False):
            yield high, low, left[1:], right[1:]


def _down(point: Point) -> float:
    return point[1]


def _at(edge: tuple[float, float, Point, Point], high: float, low: float) -> tuple[float, ...]:
    """Return where an edge is in the middle of a slice, at its top and at its bottom."""
    start, _, (x, _), (end_x, _) = edge
    lean = (end_x - x) / (edge[1] - start)
    top, bottom = x + (high - start) * lean, x + (low - start) * lean
    return (top + bottom) / 2, top, bottom
