"""A fitting as it was logged: what she wore, taped, pinned, tucked, and what was sewn."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Literal

from core.records.answer import Lead, Side
from core.records.garment import Ease, Pair

LoggedSide = Literal["left", "right", "both"]

TOILE = "toile"
STAGES = (TOILE, "basted", "second", "final")
"""The stages with a key; any other word of her own may be typed."""


def known_stage(typed: str) -> str:
    """Return a stage as it is known, whatever its letters (``Toile``: ``toile``); else as typed."""
    word = " ".join(typed.split())
    return word.casefold() if word.casefold() in STAGES else typed


@dataclass(frozen=True, slots=True)
class Taken:
    """One body measurement in mm, for each side where the body has two."""

    left: float | None
    right: float | None
    sided: bool = False

    def on(self, side: Side | None) -> float | None:
        """Return the value for a side; for a whole round the mean of what there is."""
        if side == "left":
            return self.left
        if side == "right":
            return self.right
        there = [value for value in (self.left, self.right) if value is not None]
        return sum(there) / len(there) if there else None


@dataclass(frozen=True, slots=True)
class Sitting:
    """Measurements taken on one day."""

    on: str
    values: Mapping[str, Taken]


@dataclass(frozen=True, slots=True)
class Pin:
    """One pinned change; with no amount it is placed and not read yet.

    ``place`` is the id of a seam, dart or piece, as ``what`` says.  ``edges`` are
    moves per edge (negative takes in); ``down`` replaces the level (mm).
    """

    what: Literal["seam", "dart", "piece"]
    place: str
    side: LoggedSide
    level: str
    down: float | None
    layer: str
    through: bool
    pinch: float | None = None
    gap: float | None = None
    edges: Mapping[str, float] | None = None
    note: str = ""
    id: str = ""
    path: str = ""

    @property
    def read(self) -> bool:
        return self.pinch is not None or self.gap is not None or self.edges is not None


@dataclass(frozen=True, slots=True)
class Tuck:
    """A horizontal tuck: its depth at each place it was pinned (mm)."""

    level: str
    depth: Mapping[str, float]
    into: str


@dataclass(frozen=True, slots=True)
class HemReading:
    """Floor to hem at one point (mm); a train point is skipped."""

    at: str
    floor: float | None
    train: bool = False


@dataclass(frozen=True, slots=True)
class HemLog:
    """The hem as measured at the fitting: clearance wanted and what the hem holds."""

    wanted: float
    holds: float
    points: tuple[HemReading, ...]


@dataclass(frozen=True, slots=True)
class Sewn:
    """An alteration ticked off: the moves as sewn, and what an edge was trimmed to."""

    layer: str
    what: Literal["seam", "dart"]
    place: str
    side: LoggedSide
    moves: tuple[tuple[str, str, float], ...]
    trimmed: Mapping[str, float] = field(default_factory=dict)
    on: str = ""


@dataclass(frozen=True, slots=True)
class Fitting:
    """One fitting of one garment; ``stage`` is one of ``STAGES`` or a word of her own."""

    id: str
    on: str = ""
    stage: str = ""
    inside_out: bool = False
    heel_worn: float | None = None
    foundation: str = ""
    measurements: Mapping[str, Taken] = field(default_factory=dict)
    sewn_girths: Mapping[tuple[str, str, str], Taken] = field(default_factory=dict)
    ease: Mapping[str, Ease] = field(default_factory=dict)
    lead: Lead | None = None
    pins: tuple[Pin, ...] = ()
    tucks: tuple[Tuck, ...] = ()
    hem: HemLog | None = None
    done: tuple[Sewn, ...] = ()
    path: str = ""


@dataclass(frozen=True, slots=True)
class Client:
    """The person the garments are for."""

    id: str
    name: str
    ease: Mapping[str, Ease] = field(default_factory=dict)


__all__ = [
    "STAGES",
    "TOILE",
    "Client",
    "Fitting",
    "HemLog",
    "HemReading",
    "LoggedSide",
    "Pair",
    "Pin",
    "Sewn",
    "Sitting",
    "Taken",
    "Tuck",
    "known_stage",
]
