"""What a plan answers: the records that every screen, printout and file reads.

All lengths are millimetres.  A move is positive where the seam is let out and
negative where it is taken in; left and right are the wearer's own.  ``side`` is
``"left"``, ``"right"`` or ``None`` (a whole round; a centre seam, both halves).
"""

from dataclasses import dataclass, field
from typing import Literal

Side = Literal["left", "right"]
Lead = Literal["pins", "tape", "both"]
Sharing = Literal["by_turns", "fewest", "spread"]
Way = Literal["by_turns", "fewest", "spread", "pins"]
Source = Literal["pins", "tape", "carried", "hand"]
Verdict = Literal[
    "right as it is",
    "too loose",
    "too tight",
    "agrees",
    "still loose",
    "would be tight",
    "one side only",
    "not measured",
]


@dataclass(frozen=True, slots=True)
class LevelAnswer:
    """One level of one ring: the tape, the garment, the pins, and what is planned.

    ``wanted = body + ease``; ``needed = wanted - as_sewn``;
    ``after_pins = as_sewn + pinned``; ``left_over = wanted - after_pins``
    (negative: still loose).  ``planned`` is the sum of the rounded moves over the
    round; ``short`` is what no edge could give, with the sign of the need.  What
    depends on the body is ``None`` where it was not measured.
    """

    layer: str
    ring: str
    side: Side | None
    level: str
    label: str
    body: float | None
    body_on: str
    ease: float
    ease_from: str
    wanted: float | None
    as_sewn: float
    needed: float | None
    pinned: float
    after_pins: float
    left_over: float | None
    planned: float
    short: float
    verdict: Verdict
    sum: str = ""


@dataclass(frozen=True, slots=True)
class Move:
    """One cut edge (or dart leg, or fold) at one level.

    ``exact`` is before rounding and before the cloth's limit, ``move`` what is
    sewn.  ``edges`` says how many cut edges this record stands for (a centre seam
    two, a dart's two legs two), so that ``planned`` is the sum of
    ``move * edges``.  A fold pinned on a piece has neither seam nor dart.  Where she set it
    ``by_hand``, ``planned`` is what was planned there, and ``source`` where that came from.
    """

    layer: str
    ring: str
    seam: str | None
    dart: str | None
    side: Side | None
    edge: str
    level: str
    exact: float
    move: float
    allowance_left: float | None
    source: Source
    edges: int = 1
    by_hand: bool = False
    planned: float | None = None


@dataclass(frozen=True, slots=True)
class Option:
    """One way to give a ring what it needs; ``open`` names seams and darts."""

    layer: str
    ring: str
    side: Side | None
    way: Way
    open: tuple[str, ...]
    minutes: float
    largest_move: float
    short: float
    chosen: bool


@dataclass(frozen=True, slots=True)
class Step:
    """One step of the list, in sewing order.

    ``group`` is the moment of the work (``mark``, ``open``, ``darts`` ...), ``title``
    the place, ``side`` whose side (``None``: both or no side), ``text`` the whole
    step as it is read out, ``sum`` why the amounts are what they are, ``line`` the amounts
    between the levels, for marking the cloth.
    """

    order: int
    group: str
    layer: str
    title: str
    side: Side | None
    text: str
    sum: str = ""
    cautions: tuple[str, ...] = ()
    line: str = ""


@dataclass(frozen=True, slots=True)
class Consequence:
    """Something that follows: a joined part, a line, the zip, an insert, the hem."""

    what: str
    change: float
    text: str
    sum: str = ""


@dataclass(frozen=True, slots=True)
class HandTotal:
    """What the moves give at a level where she set some by hand, beside what it needs (mm).

    ``needed`` is what the tape asks for, or the pins where they lead alone; ``given`` what the
    moves give together.  ``text`` says both and the difference; ``agrees`` inside the band.
    """

    layer: str
    ring: str
    side: Side | None
    level: str
    needed: float
    given: float
    agrees: bool
    text: str


@dataclass(frozen=True, slots=True)
class Plan:
    """Everything the dressmaker asked for, for one garment at one fitting.

    ``way`` is how what is not pinned was shared out.
    """

    garment: str
    fitting: str | None
    lead: Lead
    heading: str
    levels: tuple[LevelAnswer, ...] = ()
    moves: tuple[Move, ...] = ()
    options: tuple[Option, ...] = ()
    steps: tuple[Step, ...] = ()
    follows: tuple[Consequence, ...] = ()
    warnings: tuple[str, ...] = field(default=())
    hand_totals: tuple[HandTotal, ...] = ()
    way: Sharing = "by_turns"
