"""Read a garment's records from the fields of a fitting file."""

from collections.abc import Mapping
from dataclasses import replace

from core.file.field import Field
from core.file.reading_fittings import read_fitting
from core.file.reading_joined import read_insert, read_joined, read_line, read_opening
from core.file.reading_layers import read_layer
from core.file.reading_parts import maybe_mm, read_each, read_ease
from core.records.garment import INCH_SETTINGS, METRIC_SETTINGS, Garment, Level, Settings

LEVEL_APART_MM = 100.0
"""Levels without a height lie this far below one another, only to keep their order."""

PLACES = ("front", "side", "back", "left", "right")


def read_garment(source: Field, number: int) -> Garment:
    """Return the garment in ``source``; raises ``BadFile`` naming what is wrong."""
    levels = _read_levels(source["levels"])
    layers = read_each(source["layers"], "layer", "layers", lambda f, n: read_layer(f, n, levels))
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
        heel_of_the_day=maybe_mm(source["heel_of_the_day"]),
        openings={
            entry.id: entry
            for entry in read_each(source["openings"], "opening", "openings", read_opening)
        },
        joined=read_each(
            source["joined"], "joined", "joined parts", lambda f, n: read_joined(f, n, first)
        ),
        lines=read_each(source["lines"], "line", "lines", lambda f, n: read_line(f, n, first)),
        inserts=read_each(
            source["inserts"], "insert", "inserts", lambda f, n: read_insert(f, n, first)
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
