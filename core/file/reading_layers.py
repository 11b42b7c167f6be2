"""Read a garment's layers: rounds, pieces, darts and seams, from the fields of a fitting file."""

from collections.abc import Collection, Mapping

from core.file.field import Field, check_unique
from core.file.reading_parts import maybe_mm, read_each, read_ease, read_pair
from core.file.shaped import Shaped, read_shaped
from core.records.garment import Dart, Layer, Level, Pair, Piece, Ring, Seam


def read_layer(source: Field, name: str, levels: Mapping[str, Level]) -> Layer:
    """Return the layer in ``source``; raises ``BadFile`` naming what is wrong."""
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
    top, point = (maybe_mm(source["ends"][end]) for end in ("top", "point"))
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
        comfort=maybe_mm(source["comfort"]),
        deepest=maybe_mm(source["deepest"]),
        minutes=source["minutes"].number(0.0),
        needs=source["needs"].words(),
        slashed=source["slashed"].yes(),
        note=source["note"].text(),
    )


def read_turn(source: Field) -> int | None:
    """Return whose turn it is, 0 where it is fixed; nothing where it is not said."""
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
