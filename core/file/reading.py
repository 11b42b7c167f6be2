"""Read a garment's records from the fields of a fitting file."""

from collections.abc import Collection, Mapping
from dataclasses import replace

from core.file.field import Field, check_unique
from core.file.reading_fittings import read_fitting
from core.file.reading_parts import read_each, read_ease
from core.file.shaped import Shaped, read_shaped
from core.records.garment import (
    INCH_SETTINGS,
    METRIC_SETTINGS,
    Dart,
    Garment,
    Insert,
    Joined,
    Layer,
    Level,
    Line,
    LineChange,
    Opening,
    Pair,
    Piece,
    Ring,
    Seam,
    Settings,
)

LEVEL_APART_MM = 100.0
"""Levels without a height lie this far below one another, only to keep their order."""

PLACES = ("front", "side", "back", "left", "right")


def read_garment(source: Field, number: int) -> Garment:
    """Return the garment in ``source``; raises ``BadFile`` naming what is wrong."""
    levels = _read_levels(source["levels"])
    layers = read_each(source["layers"], "layer", "layers", lambda f, n: _layer(f, n, levels))
    first = layers[0].id if layers else ""
    garment = Garment(
        id=source["id"].text(f"garment_{number}"),
        name=source["name"].text("Garment"),
        kind=source["kind"].text(),
        drop=source["drop"].mm(),
        settings=read_settings(source["settings"]),
        levels=levels,
        layers=layers,
        ease=read_ease(source["ease"]),
        heel_of_the_day=_maybe_mm(source["heel_of_the_day"]),
        openings={
            entry.id: entry
            for entry in read_each(source["openings"], "opening", "openings", read_opening)
        },
        joined=read_each(
            source["joined"], "joined", "joined parts", lambda f, n: _joined(f, n, first)
        ),
        lines=read_each(source["lines"], "line", "lines", lambda f, n: _line(f, n, first)),
        inserts=read_each(
            source["inserts"], "insert", "inserts", lambda f, n: _insert(f, n, first)
        ),
        path=source.path,
    )
    fittings = read_each(
        source["fittings"], "fitting", "fittings", lambda f, n: read_fitting(f, n, garment)
    )
    return replace(garment, fittings=fittings)


def read_settings(source: Field) -> Settings:
    base = INCH_SETTINGS if source.unit == "in" else METRIC_SETTINGS
    given = {
        name: source[name].positive_mm()
        for name in ("step", "band", "keep", "comfort", "most", "leg_comfort", "deepest")
        if not source[name].missing
    }
    if given.get("step", 1.0) < 0.1:
        source["step"].refuse("a step is at least a tenth of a millimetre")
    return replace(base, **given)


def read_pair(source: Field, *, negative: bool = False) -> Pair:
    """Return a length for left and right; one length serves both."""
    if not source.is_object():
        one = source.mm() if negative else source.positive_mm()
        return one, one
    if set(source.value) != {"left", "right"}:
        source.refuse("must be one length, or one for left and one for right")
    left, right = read_pair(source["left"]), read_pair(source["right"])
    return left[0], right[0]


def _maybe_mm(source: Field) -> float | None:
    return None if source.missing else source.mm()


def _read_levels(source: Field) -> dict[str, Level]:
    levels: dict[str, Level] = {}
    down = -LEVEL_APART_MM
    for number, entry in enumerate(source.each(), 1):
        name = entry["id"].word(f"level_{number}")
        if name in levels:
            entry["id"].refuse(f"two levels are called “{name}”")
        levels[name] = _level(entry, name, down + LEVEL_APART_MM, levels)
        down = levels[name].down
    return levels


def _level(source: Field, name: str, default: float, above: Mapping[str, Level]) -> Level:
    origin = source["from"].text()
    start = above[origin].down if origin in above else 0.0
    downs = {place: start + entry.mm() for place, entry in _by_place(source["down"])}
    down = sum(downs.values()) / len(downs) if downs else start + source["down"].mm(default - start)
    body = source["down_body"]
    return Level(
        id=name,
        label=source["label"].text(name.replace("_", " ").capitalize()),
        down=down,
        downs=downs,
        origin="" if origin in above else origin,
        body=source["body"].text(),
        front_arc=source["front_arc"].text(),
        down_body={place: entry.text() for place, entry in _by_place(body)}
        if body.is_object()
        else {"": body.text()}
        if body.text()
        else {},
    )


def _by_place(source: Field) -> list[tuple[str, Field]]:
    if not source.is_object():
        return []
    entries = list(source.items())
    for place, entry in entries:
        if place not in PLACES:
            entry.refuse(f"“{place}” must be front, side, back, left or right")
    return entries


def _layer(source: Field, name: str, levels: Mapping[str, Level]) -> Layer:
    name = source["id"].word(name)
    rings = read_each(source["rings"], "ring", "rings", lambda f, n: _ring(f, n, levels))
    pieces = [
        (entry, entry["id"].word(f"piece_{number}"))
        for ring in source["rings"].each()
        for number, entry in enumerate(ring["pieces"].each(), 1)
    ]
    check_unique(pieces, "pieces of this layer")
    check_unique(
        [
            (dart, dart["id"].word(f"dart_{piece}_{number}"))
            for entry, piece in pieces
            for number, dart in enumerate(entry["darts"].each(), 1)
        ],
        "darts of this layer",
    )
    return Layer(
        id=name,
        label=source["label"].text(name.replace("_", " ").capitalize()),
        rings=rings,
        ease=read_ease(source["ease"]),
        stretch=source["stretch"].yes(),
        shows_marks=source["shows_marks"].yes(),
    )


def _ring(source: Field, name: str, levels: Mapping[str, Level]) -> Ring:
    kind = source["kind"].one_of("half", "closed", default="half")
    copies = source["copies"].whole(1)
    if copies not in (1, 2):
        source["copies"].refuse("a closed ring has 1 or 2 copies")
    pieces = read_each(source["pieces"], "piece", "pieces", lambda f, n: _piece(f, n, levels))
    for field, piece in zip(source["pieces"].each(), pieces, strict=True):
        if piece.id in levels:
            field["id"].refuse(f"a piece must not have the id of a level, “{piece.id}”")
    names = {piece.id for piece in pieces}
    seams = read_each(source["seams"], "seam", "seams", lambda f, n: read_seam(f, n, names, levels))
    return Ring(
        id=source["id"].word(name),
        label=source["label"].text(name.replace("_", " ").capitalize()),
        kind="half" if kind == "half" else "closed",
        copies=copies if kind == "closed" else 2,
        levels=_ring_levels(source, pieces, levels),
        pieces=pieces,
        seams=seams,
        side_line=source["side_line"].text("side"),
        side_set_forward=source["side_set_forward"].mm(),
    )


def _ring_levels(
    source: Field, pieces: Collection[Piece], levels: Mapping[str, Level]
) -> tuple[str, ...]:
    if source["levels"].missing:
        return tuple(name for name in levels if any(name in piece.width for piece in pieces))
    for entry in source["levels"].each():
        _known(entry, levels)
    return source["levels"].words()


def _known(source: Field, levels: Collection[str]) -> str:
    name = source.text()
    if name not in levels:
        source.refuse(f"no level is called “{name}”")
    return name


def _by_level(source: Field, levels: Collection[str]) -> dict[str, Pair]:
    for name, entry in source.items():
        if name not in levels:
            entry.refuse(f"no level is called “{name}”")
    return {name: read_pair(entry) for name, entry in source.items() if not entry.missing}


def _piece(source: Field, name: str, levels: Mapping[str, Level]) -> Piece:
    name = source["id"].word(name)
    return Piece(
        id=name,
        label=source["label"].text(name.replace("_", " ").capitalize()),
        width=_by_level(source["width"], levels),
        darts=read_each(source["darts"], f"dart_{name}", "darts", lambda f, n: _dart(f, n, levels)),
        fold=source["fold"].yes(),
        sums={level: entry.text() for level, entry in source["sum"].items()},
    )


def _dart(source: Field, name: str, levels: Mapping[str, Level]) -> Dart:
    name = source["id"].word(name)
    top, point = (_maybe_mm(source["ends"][end]) for end in ("top", "point"))
    if top is not None and point is not None and top >= point:
        source["ends"].refuse("the point must lie below the top")
    return Dart(
        id=name,
        label=source["label"].text(name.replace("_", " ").capitalize()),
        take_up=_by_level(source["take_up"], levels),
        top=top,
        point=point,
        turn=read_turn(source),
        weight=source["weight"].number(1.0),
        comfort=_maybe_mm(source["comfort"]),
        deepest=_maybe_mm(source["deepest"]),
        minutes=source["minutes"].number(0.0),
        needs=source["needs"].words(),
        slashed=source["slashed"].yes(),
        note=source["note"].text(),
    )


def read_turn(source: Field) -> int | None:
    if source["fixed"].yes():
        return 0
    return None if source["turn"].missing else source["turn"].whole(1)


def read_seam(
    source: Field, name: str, pieces: Collection[str], levels: Mapping[str, Level]
) -> Seam:
    """Return a seam of a ring with these pieces."""
    name = source["id"].word(name)
    joins = source["joins"].words()
    if len(joins) != 2:
        source["joins"].refuse("must name the two pieces that the seam joins")
    for number, piece in enumerate(joins):
        if piece not in pieces:
            Field(piece, f"{source.path}.joins[{number}]", source.unit).refuse(
                f"no piece of this ring is called “{piece}”"
            )

    def lengths(key: str) -> Shaped:
        return read_shaped(source[key], Field.positive_mm, joins, levels)

    turn = read_shaped(source["turn"], lambda f: float(f.whole(1)), joins, levels)
    fixed = read_shaped(Field(0, "", source.unit), lambda f: 0.0, joins, levels)
    return Seam(
        id=name,
        label=source["label"].text(name.replace("_", " ").capitalize()),
        joins=(joins[0], joins[1]),
        allowance=lengths("allowance"),
        keep=lengths("keep"),
        most=lengths("most"),
        comfort=lengths("comfort"),
        weight=read_shaped(source["weight"], lambda f: f.number(1.0), joins, levels),
        turn=fixed if source["fixed"].yes() else turn,
        minutes=source["minutes"].number(0.0),
        needs=source["needs"].words(),
        zip=source["zip"].yes(),
        run_up=_run(source["run"]["up"], levels),
        run_down=_run(source["run"]["down"], levels),
        levels=None
        if source["levels"].missing
        else tuple(_known(entry, levels) for entry in source["levels"].each()),
        clipped=tuple(_known(entry, levels) for entry in source["clipped"].each()),
    )


def _run(source: Field, levels: Collection[str]) -> str:
    if source.missing:
        return ""
    return source.one_of("nothing", "carry", *levels)


def read_opening(source: Field, name: str) -> Opening:
    name = source["id"].word(name)
    label = source["label"].text(name.replace("_", " ").capitalize())
    return Opening(name, label, source["minutes"].number(0.0), source["fastening"].yes())


def _joined(source: Field, name: str, first: str) -> Joined:
    name = source["id"].word(name)
    return Joined(
        id=name,
        label=source["label"].text(name.replace("_", " ").capitalize()),
        layer=source["layer"].text(first),
        ring=source["ring"].text("body"),
        level=source["level"].text(),
        fullness=source["fullness"].number(1.0),
        turns=None if source["turns"].missing else _plain_number(source["turns"]),
        inner_radius=_maybe_mm(source["inner_radius"]),
        depth=source["depth"].mm(),
        minutes=source["minutes"].number(0.0),
    )


def _plain_number(source: Field) -> float:
    """Return a bare number that may be typed as a fraction (half a turn)."""
    if not isinstance(source.value, str):
        return source.number(1.0)
    return Field(source.value, source.path, "mm").positive_mm()


def _line(source: Field, name: str, first: str) -> Line:
    name = source["id"].word(name)
    return Line(
        id=name,
        label=source["label"].text(name.replace("_", " ").capitalize()),
        layer=source["layer"].text(first),
        sewn=None if source["sewn"].missing else read_pair(source["sewn"]),
        body=source["body"].text(),
        ease=_maybe_mm(source["ease"]),
        changes=tuple(
            LineChange(entry["seam"].text(), entry["level"].text(), _factor(entry["factor"]))
            for entry in source["changes"].each()
        ),
    )


def _factor(source: Field) -> float:
    value = source.value
    if isinstance(value, (int, float)) and not isinstance(value, bool) and value < 0:
        return -Field(-value, source.path, source.unit).number(1.0)
    return source.number(1.0)


def _insert(source: Field, name: str, first: str) -> Insert:
    name = source["id"].word(name)
    at = source["level"] if not source["level"].missing else source["from"]
    return Insert(
        id=name,
        label=source["label"].text(name.replace("_", " ").capitalize()),
        layer=source["layer"].text(first),
        seam=source["seam"].text(),
        level=at.text(),
        allowance=_maybe_mm(source["allowance"]),
    )
