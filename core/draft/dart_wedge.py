"""A dart as a wedge on its piece: where it lies, and its outline to scale (mm)."""

import re
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from core.curves import Point
from core.errors import BadLength
from core.lengths import SMALLEST_MM, Unit, read_length
from core.outline.piece_edges import PieceEdges
from core.records.garment import Dart, Level

_MEASURED = re.compile(r"(?P<length>\d[\d ./,]*?)(?: (?:in|cm|mm))? +(?P<words>[^\d\s].*)")


@dataclass(frozen=True, slots=True)
class Wedge:
    """A dart as it is drawn: a closed outline from top to point and back, and its middle line."""

    dart: str
    label: str
    outline: tuple[Point, ...]
    middle: tuple[Point, ...]


def wedge(
    edges: PieceEdges, dart: Dart, written: Mapping[str, Any], levels: Mapping[str, Level],
    unit: Unit,
) -> Wedge:  # fmt: skip
    """Return a dart's outline about its upright middle line.

    ``written`` is the dart in the document: where it lies stands there in words (``3 3/4 from
    the fold``).  Without words the darts of a piece share its width evenly.
    """
    corners = _corners(dart, levels, edges.side)
    x = _middle(edges, dart, str(written.get("centre_from", "")), corners, unit)
    right = [(x + depth / 2, y) for y, depth in corners]
    left = [(x - depth / 2, y) for y, depth in reversed(corners) if depth > SMALLEST_MM]
    ends = ((x, corners[0][0]), (x, corners[-1][0])) if corners else ()
    return Wedge(dart.id, dart.label, (*right, *left), ends)


def _corners(dart: Dart, levels: Mapping[str, Level], side: int) -> list[tuple[float, float]]:
    """Return height and take-up where the wedge has its corners, from top to bottom."""
    given = sorted((levels[level].down, pair[side]) for level, pair in dart.take_up.items())
    top, point = dart.top, dart.point
    if top is not None and (not given or given[0][0] > top + SMALLEST_MM):
        given.insert(0, (top, 0.0))
    if point is not None and (not given or given[-1][0] < point - SMALLEST_MM):
        given.append((point, 0.0))
    return given


def _middle(
    edges: PieceEdges, dart: Dart, words: str, corners: list[tuple[float, float]], unit: Unit
) -> float:
    """Return x of the dart's middle line: as its words say, else its share of the piece."""
    y = max(corners, key=lambda corner: corner[1])[0] if corners else edges.first.front_y
    left, right = (edges.curve(towards, cut=False).at(y) for towards in ("front", "back"))
    darts = edges.piece.darts
    share = (darts.index(dart) + 1) / (len(darts) + 1)
    found = _MEASURED.fullmatch(words.strip())
    if found is None:
        return left + share * (right - left)
    try:
        mm = read_length(found["length"].strip(), unit).mm
    except BadLength:
        return left + share * (right - left)
    from_back = edges.back.is_centre and not edges.front.is_centre
    if "side" in found["words"]:
        from_back = not from_back
    x = right - mm if from_back else left + mm
    deep = max((depth for _, depth in corners), default=0.0)
    return min(max(x, left + deep / 2), right - deep / 2)
