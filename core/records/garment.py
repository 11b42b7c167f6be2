"""The garment as it was drafted: levels, layers, rings, pieces, seams and darts.

Lengths are millimetres.  A pair ``(left, right)`` holds the wearer's own sides.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from typing import Any, Literal

from core.file.shaped import NOT_GIVEN, Shaped
from core.records.answer import Side

Pair = tuple[float, float]
"""A value for her left and her right."""

SIDES: tuple[Side, Side] = ("left", "right")
NOTHING = "nothing"
CARRY = "carry"


@dataclass(frozen=True, slots=True)
class Ease:
    """What the garment has over the body: a length in mm, or a share of the girth."""

    mm: float = 0.0
    share: float | None = None

    def of(self, body_mm: float) -> float:
        return self.mm if self.share is None else self.share * body_mm


@dataclass(frozen=True, slots=True)
class Level:
    """A height at which the garment is measured round.

    ``down`` is the distance below the garment's top edge (or below what ``origin``
    names), ``downs`` the distances of front, side and back where they differ;
    ``down_body`` the measurement each of them is checked against.
    """

    id: str
    label: str
    down: float
    downs: Mapping[str, float] = field(default_factory=dict)
    origin: str = ""
    body: str = ""
    front_arc: str = ""
    down_body: Mapping[str, str] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Dart:
    """A wedge: ``take_up`` by level, nothing at ``top`` and ``point`` (mm down)."""

    id: str
    label: str
    take_up: Mapping[str, Pair]
    top: float | None = None
    point: float | None = None
    turn: int | None = None
    weight: float = 1.0
    comfort: float | None = None
    deepest: float | None = None
    minutes: float = 0.0
    needs: tuple[str, ...] = ()
    slashed: bool = False
    note: str = ""


@dataclass(frozen=True, slots=True)
class Piece:
    """A pattern piece: cut width by level, for left and right."""

    id: str
    label: str
    width: Mapping[str, Pair]
    darts: tuple[Dart, ...] = ()
    fold: bool = False
    sums: Mapping[str, str] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Seam:
    """A seam with every value that may be shaped; empty ones take the default."""

    id: str
    label: str
    joins: tuple[str, str]
    allowance: Shaped = NOT_GIVEN
    keep: Shaped = NOT_GIVEN
    most: Shaped = NOT_GIVEN
    comfort: Shaped = NOT_GIVEN
    weight: Shaped = NOT_GIVEN
    turn: Shaped = NOT_GIVEN
    minutes: float = 0.0
    needs: tuple[str, ...] = ()
    zip: bool = False
    run_up: str = ""
    run_down: str = ""
    levels: tuple[str, ...] | None = None
    clipped: tuple[str, ...] = ()

    @property
    def joins_itself(self) -> bool:
        return self.joins[0] == self.joins[1]


@dataclass(frozen=True, slots=True, eq=False)
class Ring:
    """A closed round of pieces; a half ring is one half of a garment with a centre.

    Told apart by identity, so that what follows from it can be kept.
    """

    id: str
    label: str
    kind: Literal["half", "closed"]
    copies: int
    levels: tuple[str, ...]
    pieces: tuple[Piece, ...]
    seams: tuple[Seam, ...]
    side_line: str = "side"
    side_set_forward: float = 0.0

    def piece(self, name: str) -> Piece:
        return next(piece for piece in self.pieces if piece.id == name)

    def seam(self, name: str) -> Seam | None:
        return next((seam for seam in self.seams if seam.id == name), None)

    def holds(self, what: str, name: str) -> bool:
        """Tell whether a seam, dart or piece of this name belongs to the ring."""
        if what == "seam":
            return self.seam(name) is not None
        if what == "piece":
            return any(piece.id == name for piece in self.pieces)
        return any(dart.id == name for piece in self.pieces for dart in piece.darts)

    def label_of(self, what: str, name: str) -> str:
        """Return what a seam, dart or piece of the ring is called; nothing where it has none."""
        parts: Iterable[Seam | Dart | Piece] = self.seams if what == "seam" else self.pieces
        if what == "dart":
            parts = (dart for piece in self.pieces for dart in piece.darts)
        return next((one.label for one in parts if one.id == name), "")

    def levels_of(self, seam: Seam) -> tuple[str, ...]:
        """Return where the seam is: both pieces have widths, and its own levels allow."""
        first, second = (self.piece(name).width for name in seam.joins)
        own = self.levels if seam.levels is None else seam.levels
        return tuple(
            level for level in self.levels if level in first and level in second and level in own
        )

    def front_pieces(self) -> tuple[Piece, ...]:
        """Return the pieces of a half ring in front of its side line; none where it has none."""
        line = self.seam(self.side_line)
        if self.kind != "half" or line is None or line.joins_itself:
            return ()
        names = [piece.id for piece in self.pieces]
        return self.pieces[: min(names.index(name) for name in line.joins) + 1]

    def whole_at(self, level: str) -> bool:
        """Tell whether every piece has a width there, so that the girth is known."""
        return all(level in piece.width for piece in self.pieces)


@dataclass(frozen=True, slots=True)
class Layer:
    """The outer cloth, a lining, a foundation: rings with an ease of their own."""

    id: str
    label: str
    rings: tuple[Ring, ...]
    ease: Mapping[str, Ease] = field(default_factory=dict)
    stretch: bool = False
    shows_marks: bool = False


@dataclass(frozen=True, slots=True)
class Settings:
    """What is rounded to, what counts as right, and how far an edge may go (mm)."""

    step: float
    band: float
    keep: float
    comfort: float
    most: float
    leg_comfort: float
    deepest: float
    finest: float


INCH_SETTINGS = Settings(3.175, 6.35, 9.525, 12.7, 25.4, 6.35, 38.1, 1.5875)
METRIC_SETTINGS = Settings(5.0, 6.0, 10.0, 12.0, 25.0, 6.0, 38.0, 1.0)


@dataclass(frozen=True, slots=True)
class Opening:
    """What must be opened to reach a seam, with the minutes it takes; a fastening comes first."""

    id: str
    label: str
    minutes: float
    fastening: bool = False


@dataclass(frozen=True, slots=True)
class Joined:
    """A part joined at a level: a waistband, a facing, a flounce, a skirt."""

    id: str
    label: str
    layer: str
    ring: str
    level: str
    fullness: float = 1.0
    turns: float | None = None
    inner_radius: float | None = None
    depth: float = 0.0
    minutes: float = 0.0


@dataclass(frozen=True, slots=True)
class LineChange:
    """How a line's length answers a seam's move: ``factor`` for each edge's move."""

    seam: str
    level: str
    factor: float


@dataclass(frozen=True, slots=True)
class Line:
    """A length that moves change: armhole, cap, neckline, strap, crotch, stay."""

    id: str
    label: str
    layer: str = ""
    sewn: Pair | None = None
    body: str = ""
    ease: float | None = None
    changes: tuple[LineChange, ...] = ()


@dataclass(frozen=True, slots=True)
class Insert:
    """A godet or gusset set into a seam from a level down."""

    id: str
    label: str
    layer: str
    seam: str
    level: str
    allowance: float | None = None


@dataclass(frozen=True, slots=True, eq=False)
class Garment:
    """One garment of one client, as drafted, with its fittings; told apart by identity."""

    id: str
    name: str
    kind: str
    drop: float
    settings: Settings
    levels: Mapping[str, Level]
    layers: tuple[Layer, ...]
    ease: Mapping[str, Ease] = field(default_factory=dict)
    heel_of_the_day: float | None = None
    openings: Mapping[str, Opening] = field(default_factory=dict)
    joined: tuple[Joined, ...] = ()
    lines: tuple[Line, ...] = ()
    inserts: tuple[Insert, ...] = ()
    fittings: tuple[Any, ...] = ()
    path: str = ""

    def layer(self, name: str) -> Layer | None:
        return next((layer for layer in self.layers if layer.id == name), None)

    def label_of(self, what: str, name: str, layer: str = "") -> str:
        """Return what a seam, dart or piece is called; its id where there is none.

        In the layer told, else in the first that has it.
        """
        labels = (
            ring.label_of(what, name)
            for one in self.layers if layer in ("", one.id) for ring in one.rings
        )  # fmt: skip
        return next(filter(None, labels), name)

    def level_called(self, name: str) -> str:
        """Return a level as it is called: the first part of its label, if that is its own."""
        firsts = [level.label.partition(",")[0].lower() for level in self.levels.values()]
        full = self.levels[name].label
        short = full.partition(",")[0]
        return short if firsts.count(short.lower()) == 1 else full
