"""Checks before the cloth is cut: the draft against the body it was drafted for."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from core.body.measurements import label_of
from core.draft.kinds import BodyCheck, Kind
from core.draft.marks import MARK_MM
from core.draft.spoken_sum import work_again
from core.file.checking import net_width
from core.lengths import SMALLEST_MM, Unit, write_length
from core.records.answer import Side
from core.records.fitting import Taken
from core.records.garment import SIDES, Ease, Garment, Layer, Level, Piece, Ring


@dataclass(frozen=True, slots=True)
class Check:
    """One thing that was compared: what, whether it agrees, and the comparison in words."""

    what: str
    ok: bool
    text: str


@dataclass(frozen=True, slots=True)
class _Bench:
    """What every check reads."""

    garment: Garment
    values: Mapping[str, Taken]
    unit: Unit
    kind: Kind | None
    client_ease: Mapping[str, Ease]

    def said(self, mm: float) -> str:
        return write_length(mm, self.unit, fraction=32)

    def within(self, found: float, wanted: float) -> bool:
        """Tell whether the difference lies inside the band, its edge belonging to it."""
        return abs(found - wanted) <= self.garment.settings.band + SMALLEST_MM

    def body(self, name: str, side: Side | None) -> float | None:
        taken = self.values.get(name) if name else None
        return None if taken is None else taken.on(side)

    def ease(self, layer: Layer, level: str, body: float) -> float:
        """Return the ease (mm): the layer's beats the garment's, the client's, the kind's."""
        usual = self.kind.ease if self.kind else {}
        for eases in (layer.ease, self.garment.ease, self.client_ease, usual):
            if level in eases:
                return eases[level].of(body)
        return 0.0

    def set_forward(self, layer: Layer, ring: Ring) -> float:
        """Return how far each side seam lies before the side line (mm)."""
        usual = self.kind.side_set_forward if self.kind else {}
        return ring.side_set_forward or usual.get((layer.id, ring.id), 0.0)


def before_cutting(
    garment: Garment,
    values: Mapping[str, Taken],
    *,
    unit: Unit = "in",
    kind: Kind | None = None,
    client_ease: Mapping[str, Ease] | None = None,
) -> tuple[Check, ...]:
    """Return every check that the measurements allow, in the garment's order.

    ``values`` are her measurements (mm); ``unit`` is the one the printed sums are in;
    ``kind`` brings its usual ease and what she must be able to do in the garment.
    What was not taken is not checked.  Finished girths and fronts agree inside the band,
    heights inside one step, widths with their own sum to the finest mark.
    """
    bench = _Bench(garment, values, unit, kind, client_ease or {})
    checks = [*_sums(bench), *_girths(bench), *_front_arcs(bench), *_heights(bench)]
    if kind is not None:
        checks += [check for wanted in kind.checks for check in _movement(bench, wanted)]
    return tuple(checks)


def _rings(bench: _Bench) -> Iterator[tuple[Layer, Ring, str]]:
    for layer in bench.garment.layers:
        for ring in layer.rings:
            for level in ring.levels:
                yield layer, ring, level


def _name(bench: _Bench, layer: Layer, ring: Ring, level: str) -> str:
    label = bench.garment.levels[level].label
    return f"{layer.label}, {ring.label.lower()}, {label.lower()}"


def _sums(bench: _Bench) -> Iterator[Check]:
    """Work each printed sum again: its terms, its result and the width must be one number."""
    for layer, ring, level in _rings(bench):
        for piece in ring.pieces:
            if level in piece.width and level in piece.sums:
                yield from _sum(bench, f"{_name(bench, layer, ring, level)}", piece, level)


def _sum(bench: _Bench, name: str, piece: Piece, level: str) -> Iterator[Check]:
    worked = work_again(piece.sums[level], bench.unit)
    if worked is None:
        return
    finest = MARK_MM[bench.unit] / 2
    widths = piece.width[level]
    off = [width for width in widths if abs(width - worked.result) > finest]
    ok = not off and abs(worked.terms - worked.result) <= finest
    width = off[0] if off else widths[0]
    yield Check(
        f"{name}, {piece.label.lower()}",
        ok,
        f"width {bench.said(width)}, its sum gives {bench.said(worked.terms)}",
    )


def _girths(bench: _Bench) -> Iterator[Check]:
    for layer, ring, level in _rings(bench):
        if not ring.whole_at(level):
            continue
        for side in SIDES if ring.kind == "closed" and ring.copies == 2 else (None,):
            body = bench.body(bench.garment.levels[level].body, side)
            if body is not None:
                yield _girth(bench, layer, ring, level, side, body)


def _girth(
    bench: _Bench, layer: Layer, ring: Ring, level: str, side: Side | None, body: float
) -> Check:
    finished = finished_girth(bench.garment, ring, level, side)
    ease = bench.ease(layer, level, body)
    where = f"{_name(bench, layer, ring, level)}{f', {side}' if side else ''}"
    return Check(
        where,
        bench.within(finished, body + ease),
        f"{bench.said(body)} body {_plus(bench, ease)} ease = {bench.said(body + ease)}"
        f" wanted; finished {bench.said(finished)}",
    )


def _plus(bench: _Bench, mm: float) -> str:
    return f"{'-' if mm < 0 else '+'} {bench.said(abs(mm))}"


def finished_girth(garment: Garment, ring: Ring, level: str, side: Side | None) -> float:
    """Return the finished girth of a ring at a level (mm), one side of two copies or the round."""
    halves = [sum(net_width(garment, ring, piece, level, index) for piece in ring.pieces)
              for index in (0, 1)]  # fmt: skip
    if ring.kind == "half":
        return sum(halves)
    return halves[SIDES.index(side)] if side else halves[0]


def _front_arcs(bench: _Bench) -> Iterator[Check]:
    """Set the front pieces against front arc + ease / 2, less what the side was set forward."""
    for layer, ring, level in _rings(bench):
        entry = bench.garment.levels[level]
        arc, body = bench.body(entry.front_arc, None), bench.body(entry.body, None)
        front = ring.front_pieces()
        if arc is None or body is None or not front or not ring.whole_at(level):
            continue
        finished = sum(net_width(bench.garment, ring, piece, level, index)
                       for piece in front for index in (0, 1))  # fmt: skip
        half_ease = bench.ease(layer, level, body) / 2
        forward = 2 * bench.set_forward(layer, ring)
        wanted = arc + half_ease - forward
        less = f" - {bench.said(forward)} (side seams set forward)" if forward else ""
        yield Check(
            f"{_name(bench, layer, ring, level)}, front",
            bench.within(finished, wanted),
            f"{bench.said(arc)} front arc {_plus(bench, half_ease)} half the ease{less}"
            f" = {bench.said(wanted)} wanted; finished {bench.said(finished)}",
        )


def _heights(bench: _Bench) -> Iterator[Check]:
    for level in bench.garment.levels.values():
        for place, measurement in level.down_body.items():
            taken = bench.values.get(measurement)
            sides = () if taken is None else (taken.left, taken.right)
            there = [value for value in sides if value is not None]
            if there:
                yield _height(bench, level, place, measurement, there)


def _height(
    bench: _Bench, level: Level, place: str, measurement: str, there: list[float]
) -> Check:
    """Set one height against its measurement; left and right both serve where they differ."""
    down = level.downs.get(place, level.down)
    start = _start(bench.garment, level, measurement)
    wanted = [value + start for value in there]
    nearest = min(max(down, min(wanted)), max(wanted))
    off = abs(down - nearest)
    less = f" {_plus(bench, start)}" if start else ""
    return Check(
        f"{level.label}{f', {place}' if place else ''}, height",
        off <= bench.garment.settings.step + SMALLEST_MM,
        f"{bench.said(nearest - start)} {label_of(measurement).lower()}{less}"
        f" = {bench.said(nearest)} wanted; drafted {bench.said(down)}",
    )


def _start(garment: Garment, level: Level, measurement: str) -> float:
    """Return where a vertical measurement begins, as a distance down (mm).

    From the waist it begins at the garment's waist level, from the neck at the drop
    above the top edge; a level with a reference of its own begins there.
    """
    if level.origin:
        return 0.0
    if measurement.startswith("waist_to_") and "waist" in garment.levels:
        return garment.levels["waist"].down
    return -garment.drop


def _movement(bench: _Bench, wanted: BodyCheck) -> Iterator[Check]:
    """Set a finished girth against the body that sits, steps, or passes a hand through."""
    for layer, ring, level in _rings(bench):
        if ring.id != wanted.ring or level != wanted.level or not ring.whole_at(level):
            continue
        for side in SIDES if ring.copies == 2 and ring.kind == "closed" else (None,):
            body = bench.body(wanted.against, side)
            if body is None:
                continue
            finished = finished_girth(bench.garment, ring, level, side)
            reaches = finished >= body + wanted.plus - SMALLEST_MM
            plus = f" + {bench.said(wanted.plus)}" if wanted.plus else ""
            note = f", with the {wanted.opens}" if wanted.opens and not reaches else ""
            where = f"{_name(bench, layer, ring, level)}{f', {side}' if side else ''}"
            yield Check(
                f"{where}, {wanted.words}",
                reaches or bool(wanted.opens),
                f"{bench.said(body)} {label_of(wanted.against).lower()}{plus}{note};"
                f" finished {bench.said(finished)}",
            )
