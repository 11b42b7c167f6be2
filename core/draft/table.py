"""The table of a draft, ready to be shown: body and ease, cut widths, finished girths, verdicts.

All amounts are texts in the file's unit, written to the finest mark.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal

from core.draft.before_cutting import finished_girth
from core.draft.kinds import kind
from core.draft.marks import MARK_MM
from core.draft.printed_sum import read_sum
from core.draft.sums import said
from core.file.fitting_file import FittingFile
from core.lengths import SMALLEST_MM, Unit
from core.records.answer import Side
from core.records.garment import SIDES, Ease, Garment, Layer, Piece, Ring
from core.sewn.compare import Body, body_at, ease_at

Verdict = Literal["agrees", "more", "less", "not judged"]


@dataclass(frozen=True, slots=True)
class Cut:
    """One cut width: ``side`` where left and right are unlike; ``by_hand`` where it is hers."""

    piece: str
    level: str
    side: Side | None
    amount: str
    by_hand: bool


@dataclass(frozen=True, slots=True)
class Row:
    """One level of a ring, for one side of two copies that are unlike.

    ``cuts`` go with the ring's columns: one width each, two where left and right are unlike,
    none where the piece does not reach.  ``ease`` has its sign beside it.  What was not taken
    is an empty text.  ``off`` is how much the finished girth is more or less than wanted.
    """

    level: str
    label: str
    side: Side | None
    down: str
    body: str
    body_on: str
    ease_sign: str
    ease: str
    ease_from: str
    wanted: str
    cuts: tuple[tuple[Cut, ...], ...]
    finished: str
    verdict: Verdict
    off: str


@dataclass(frozen=True, slots=True)
class RingTable:
    """A ring's rows from top to bottom; ``columns`` are its pieces' ids and labels in order."""

    id: str
    label: str
    columns: tuple[tuple[str, str], ...]
    rows: tuple[Row, ...]


@dataclass(frozen=True, slots=True)
class LayerTable:
    """A layer's rings."""

    id: str
    label: str
    rings: tuple[RingTable, ...]


def draft_table(file: FittingFile, garment: Garment) -> tuple[LayerTable, ...]:
    """Return the tables of a garment as drafted, against the newest tape.

    The ease is the layer's, else the garment's, the client's or the kind's, as everywhere.  A
    girth agrees inside the band, whose edge belongs to it; a level without a body measurement,
    or where a piece does not reach, is not judged.
    """
    body = body_at(file.sittings, None)
    return tuple(
        LayerTable(layer.id, layer.label, tuple(
            RingTable(
                ring.id, ring.label, tuple((piece.id, piece.label) for piece in ring.pieces),
                tuple(_rows(_Bench(file, garment, layer, ring, body))),
            )
            for ring in layer.rings
        ))
        for layer in garment.layers
    )  # fmt: skip


@dataclass(frozen=True, slots=True)
class _Bench:
    """What every row of one ring reads."""

    file: FittingFile
    garment: Garment
    layer: Layer
    ring: Ring
    body: Body

    def said(self, mm: float | None) -> str:
        return "" if mm is None else said(mm, self.file.unit)


def _rows(bench: _Bench) -> Iterator[Row]:
    for level in bench.ring.levels:
        if bench.ring.kind == "closed" and bench.ring.copies == 2 and _unlike(bench, level):
            for side in SIDES:
                yield _row(bench, level, side)
        else:
            yield _row(bench, level, None)


def _unlike(bench: _Bench, level: str) -> bool:
    """Tell whether the two copies differ, or the body's two sides."""
    name = bench.garment.levels[level].body
    left, right = (bench.body.of(name, side)[0] for side in SIDES)
    return left != right or any(
        abs(width[0] - width[1]) > SMALLEST_MM
        for piece in bench.ring.pieces if (width := piece.width.get(level))
    )  # fmt: skip


def _row(bench: _Bench, level: str, side: Side | None) -> Row:
    garment, file = bench.garment, bench.file
    entry = garment.levels[level]
    body, on = bench.body.of(entry.body, side)
    ease, source = ease_at(level, bench.layer, garment, file.client, kind(garment.kind), None)
    ease_mm = ease.of(body) if body is not None else None if ease.share is not None else ease.mm
    whole = bench.ring.whole_at(level)
    finished = finished_girth(garment, bench.ring, level, side) if whole else None
    wanted = None if body is None or ease_mm is None else body + ease_mm
    verdict, off = _judged(finished, wanted, garment.settings.band)
    return Row(
        level=level, label=entry.label, side=side, down=bench.said(entry.down),
        body=bench.said(body), body_on=on,
        ease_sign="-" if (ease_mm or 0.0) < 0 else "+",
        ease=_ease(ease, ease_mm, bench) if entry.body else "", ease_from=source,
        wanted=bench.said(wanted), cuts=tuple(_cuts(bench, level, side)),
        finished=bench.said(finished), verdict=verdict, off=bench.said(off),
    )  # fmt: skip


def _ease(ease: Ease, mm: float | None, bench: _Bench) -> str:
    """Return the ease as a length without its sign; a share of a girth nobody took as a share."""
    return f"{abs(ease.share or 0.0) * 100:g}%" if mm is None else bench.said(abs(mm))


def _judged(
    finished: float | None, wanted: float | None, band: float
) -> tuple[Verdict, float | None]:  # fmt: skip
    if finished is None or wanted is None:
        return "not judged", None
    if abs(finished - wanted) <= band + SMALLEST_MM:
        return "agrees", None
    return ("more" if finished > wanted else "less"), abs(finished - wanted)


def _cuts(bench: _Bench, level: str, side: Side | None) -> Iterator[tuple[Cut, ...]]:
    for piece in bench.ring.pieces:
        widths = piece.width.get(level)
        if widths is None:
            yield ()
            continue
        alike = abs(widths[0] - widths[1]) < SMALLEST_MM
        sides = (side,) if side else (None,) if alike else SIDES
        yield tuple(_cut(piece, level, one, bench.file.unit) for one in sides)


def _cut(piece: Piece, level: str, side: Side | None, unit: Unit) -> Cut:
    width = piece.width[level][SIDES.index(side or "left")]
    printed = read_sum(piece.sums.get(level, ""), unit)
    own = printed is None or abs(width - printed.result_mm) > MARK_MM[unit] / 2
    return Cut(piece.id, level, side, said(width, unit), own)
