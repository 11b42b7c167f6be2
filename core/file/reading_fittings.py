"""Read a fitting's log: what she wore, the pins, the tucks, the hem, what was sewn."""

from collections.abc import Mapping
from dataclasses import replace

from core.file.field import Field
from core.file.reading_parts import read_ease
from core.records.fitting import (
    Fitting,
    HemLog,
    HemReading,
    LoggedSide,
    Pin,
    Sewn,
    Taken,
    Tuck,
    known_stage,
)
from core.records.garment import Garment, Layer, Ring, Seam


def read_fitting(source: Field, name: str, garment: Garment) -> Fitting:
    """Return the fitting; raises ``BadFile`` where a pin cannot be what it says."""
    worn = source["worn"]
    lead = source["lead"]
    fitting = Fitting(
        id=source["id"].text(name),
        on=source["on"].date(),
        stage=known_stage(source["stage"].text()),
        inside_out=worn["inside_out"].yes(),
        heel_worn=None if worn["heel"].missing else worn["heel"].mm(),
        foundation=worn["foundation"].text(),
        measurements=read_values(source["measurements"]),
        sewn_girths=_girths(source["sewn_girths"], garment),
        ease=read_ease(source["ease"]),
        lead=None if lead.missing else lead.one_of("pins", "tape", "both"),  # type: ignore[arg-type]
        pins=tuple(_pin(entry, garment) for entry in source["pins"].each()),
        tucks=tuple(_tuck(entry, garment) for entry in source["tucks"].each()),
        hem=None if source["hem"].missing else _hem(source["hem"]),
        done=tuple(_sewn(entry, garment) for entry in source["done"].each()),
        path=source.path,
    )
    _refuse_twice(fitting, garment, source)
    return fitting


def read_values(source: Field) -> dict[str, Taken]:
    """Return body measurements in mm by id; a null one was skipped."""
    return {name: _taken(entry) for name, entry in source.items() if not entry.missing}


def _taken(source: Field) -> Taken:
    if not source.is_object():
        value = source.positive_mm()
        return Taken(value, value)
    if not source.is_sided():
        source.refuse("must be one length, or one for left and one for right")
    left, right = (
        None if source[side].missing else source[side].positive_mm() for side in ("left", "right")
    )
    return Taken(left, right, sided=True)


def _girths(source: Field, garment: Garment) -> dict[tuple[str, str, str], Taken]:
    girths = {}
    for layer_id, rings in source.items():
        layer = _layer(rings, layer_id, garment)
        for ring_id, levels in rings.items():
            ring = next((ring for ring in layer.rings if ring.id == ring_id), None)
            if ring is None:
                levels.refuse(f"no ring of this layer is called “{ring_id}”")
            for level, entry in levels.items():
                if level not in ring.levels:
                    entry.refuse(f"this ring has no level “{level}”")
                if not entry.missing:
                    girths[layer_id, ring_id, level] = _taken(entry)
    return girths


def _layer(source: Field, name: str, garment: Garment) -> Layer:
    layer = garment.layer(name)
    if layer is None:
        source.refuse(f"no layer is called “{name}”")
    return layer


def _side(source: Field) -> LoggedSide:
    side = source.one_of("left", "right", "both", default="both")
    return "left" if side == "left" else "right" if side == "right" else "both"


def _pin(source: Field, garment: Garment) -> Pin:
    named = [what for what in ("seam", "dart", "piece") if not source[what].missing]
    if len(named) != 1:
        source.refuse("a pin names one of seam, dart or piece")
    what = named[0]
    layer = _layer(source["layer"], source["layer"].text(_first(source, garment)), garment)
    amounts = [name for name in ("pinch", "gap", "edges") if not source[name].missing]
    if len(amounts) > 1:
        source.refuse(f"a pin has one of pinch, gap or edges, not {' and '.join(amounts)}")
    pin = Pin(
        what=what,  # type: ignore[arg-type]
        place=source[what].text(),
        side=_side(source["side"]),
        level=source["level"].text(),
        down=None if source["down"].missing else source["down"].mm(),
        layer=layer.id,
        through=source["through"].yes(),
        pinch=source["pinch"].positive_mm() if "pinch" in amounts else None,
        gap=source["gap"].positive_mm() if "gap" in amounts else None,
        edges={name: entry.mm() for name, entry in source["edges"].items()}
        if "edges" in amounts
        else None,
        note=source["note"].text(),
        id=source["id"].text(),
        path=source.path,
    )
    _check_pin(source, pin, layer)
    return pin if pin.edges is None else replace(pin, edges=_each_edge(pin, layer))


def _each_edge(pin: Pin, layer: Layer) -> dict[str, float]:
    """Return the moves of both edges of a seam: the one that is not given stays."""
    given = pin.edges or {}
    joined = [piece for _, seam in seams_of(layer, pin.place) if set(seam.joins) & set(given)
              for piece in seam.joins]  # fmt: skip
    return {piece: given.get(piece, 0.0) for piece in dict.fromkeys(joined)}


def _first(source: Field, garment: Garment) -> str:
    if not garment.layers:
        source.refuse("the garment has no layer to pin")
    return garment.layers[0].id


def _check_pin(source: Field, pin: Pin, layer: Layer) -> None:
    if pin.down is None and not pin.level:
        source.refuse("a pin needs a level, or down")
    if pin.what == "seam":
        _check_seam_pin(source, pin, layer)
    elif pin.what == "dart":
        _check_dart_pin(source, pin, layer)
    else:
        _check_fold(source, pin, layer)


def _check_seam_pin(source: Field, pin: Pin, layer: Layer) -> None:
    found = seams_of(layer, pin.place)
    if not found:
        source["seam"].refuse(f"no seam of layer “{layer.id}” is called “{pin.place}”")
    if pin.down is None and not any(pin.level in ring.levels_of(seam) for ring, seam in found):
        source["level"].refuse(f"{found[0][1].label} does not reach level “{pin.level}”")
    ring, seam = found[0]
    if pin.side != "both" and ring.kind == "half" and seam.joins_itself:
        source["side"].refuse(f"{seam.label} is a centre seam and has no side")
    joined = {
        piece
        for ring, seam in found
        if pin.down is not None or pin.level in ring.levels_of(seam)
        for piece in seam.joins
    }
    for name, entry in source["edges"].items():
        if name not in joined:
            entry.refuse(f"{seam.label} does not join a piece “{name}” there")


def _check_dart_pin(source: Field, pin: Pin, layer: Layer) -> None:
    found = next(
        (
            (ring, piece, dart)
            for ring in layer.rings
            for piece in ring.pieces
            for dart in piece.darts
            if dart.id == pin.place
        ),
        None,
    )
    if found is None:
        source["dart"].refuse(f"no dart of layer “{layer.id}” is called “{pin.place}”")
    if pin.edges is not None:
        source["edges"].refuse("a dart is pinched deeper or released, not given apart")
    if not pin.level:
        source["down"].refuse("a dart is pinned at a level")
    ring, piece, _ = found
    if pin.level not in ring.levels or pin.level not in piece.width:
        source["level"].refuse(f"the piece of this dart does not reach level “{pin.level}”")


def _check_fold(source: Field, pin: Pin, layer: Layer) -> None:
    piece = next(
        (piece for ring in layer.rings for piece in ring.pieces if piece.id == pin.place), None
    )
    if piece is None:
        source["piece"].refuse(f"no piece of layer “{layer.id}” is called “{pin.place}”")
    if pin.gap is not None or pin.edges is not None:
        source.refuse("a fold on a piece is pinched; it has no gap and no edges")
    if not pin.level:
        source["down"].refuse("a fold on a piece is pinned at a level")
    if pin.level not in piece.width:
        source["level"].refuse(f"{piece.label} does not reach level “{pin.level}”")


def seams_of(layer: Layer, name: str) -> list[tuple[Ring, Seam]]:
    """Return every stretch of a seam: one per ring that it runs through."""
    return [(ring, seam) for ring in layer.rings for seam in ring.seams if seam.id == name]


def _refuse_twice(fitting: Fitting, garment: Garment, source: Field) -> None:
    """Refuse two pins for one side and place, whether said by its level or how far down.

    A dart or a fold is at its level, however far down it says; a closed ring of one copy has no
    side, so that left and right are one place there.
    """
    seen: set[tuple[str, str, str, float | str, str]] = set()
    for pin, entry in zip(fitting.pins, source["pins"].each(), strict=True):
        down = garment.levels[pin.level].down if pin.down is None else pin.down
        where = round(down, 6) if pin.what == "seam" else pin.level
        sided = pin.side == "both" or _has_sides(garment, pin)
        key = (pin.layer, pin.what, pin.place, where, pin.side if sided else "")
        if key in seen and sided:
            entry.refuse("two pins for the same side and place; take one out")
        if key in seen:
            entry.refuse("two pins for one place, which has no left and no right; take one out")
        seen.add(key)


def _has_sides(garment: Garment, pin: Pin) -> bool:
    """Tell whether a pin's place is there on her left and on her right."""
    layer = garment.layer(pin.layer)
    rings = [ring for ring in layer.rings if ring.holds(pin.what, pin.place)] if layer else []
    return any(ring.copies == 2 for ring in rings)


def _tuck(source: Field, garment: Garment) -> Tuck:
    level = source["level"].text()
    if level not in garment.levels:
        source["level"].refuse(f"no level is called “{level}”")
    depth = source["depth"]
    depths: Mapping[str, float] = (
        {place: entry.positive_mm() for place, entry in depth.items()}
        if depth.is_object()
        else {"all round": depth.positive_mm()}
    )
    return Tuck(level, depths, source["into"].text())


def _hem(source: Field) -> HemLog:
    points = tuple(
        HemReading(
            at=entry["at"].text("point"),
            floor=None if entry["floor"].missing else entry["floor"].mm(),
            train=entry["train"].yes(),
        )
        for entry in source["points"].each()
    )
    return HemLog(source["wanted"].positive_mm(), source["holds"].positive_mm(), points)


def _sewn(source: Field, garment: Garment) -> Sewn:
    what = "dart" if not source["dart"].missing else "seam"
    layer = _layer(source["layer"], source["layer"].text(_first(source, garment)), garment)
    place = source[what].text()
    darts = {dart.id for ring in layer.rings for piece in ring.pieces for dart in piece.darts}
    known = place in darts if what == "dart" else bool(seams_of(layer, place))
    if not known:
        source[what].refuse(f"no {what} of layer “{layer.id}” is called “{place}”")
    if what == "seam":
        _check_sewn_edges(source, layer, place)
    return Sewn(
        layer=layer.id,
        what="dart" if what == "dart" else "seam",
        place=place,
        side=_side(source["side"]),
        moves=tuple(_sewn_move(entry, garment) for entry in source["moves"].each()),
        trimmed={name: entry.positive_mm() for name, entry in source["trimmed"].items()},
        on=source["on"].date(),
    )


def _check_sewn_edges(source: Field, layer: Layer, place: str) -> None:
    """Refuse an edge that the seam does not have: what was sewn must never be lost."""
    joined = {piece for _, seam in seams_of(layer, place) for piece in seam.joins}
    named = [(entry["edge"], entry["edge"].text()) for entry in source["moves"].each()]
    named += [(entry, name) for name, entry in source["trimmed"].items()]
    for field, name in named:
        if name and name not in joined:
            field.refuse(f"this seam does not join a piece “{name}”")


def _sewn_move(source: Field, garment: Garment) -> tuple[str, str, float]:
    level = source["level"].text()
    if level not in garment.levels:
        source["level"].refuse(f"no level is called “{level}”")
    return source["edge"].text(), level, source["move"].mm()
