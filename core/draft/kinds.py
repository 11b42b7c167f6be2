"""The kinds of garment she makes: their usual ease, turns, comforts and openings, as data."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from functools import cache
from types import MappingProxyType
from typing import Any

from core.body.measurements import kinds as kind_ids
from core.file.field import Field
from core.file.reading_joined import read_opening
from core.file.reading_layers import read_seam, read_turn
from core.file.reading_parts import read_each, read_ease, read_pair
from core.file.shaped import Shaped
from core.records.garment import Dart, Ease, Level, Opening, Seam
from core.resources import read_resource


@dataclass(frozen=True, slots=True)
class BodyCheck:
    """A finished girth that must be at least a body girth and something more (mm).

    ``opens`` names what lets her move all the same (a vent, a slit), or is empty.
    """

    id: str
    ring: str
    level: str
    against: str
    plus: float
    words: str
    opens: str


@dataclass(frozen=True, slots=True)
class Kind:
    """A kind of garment: what is usual for it where the garment itself says nothing.

    Lengths are millimetres.  ``comfort`` and ``more`` are by level; ``more`` is what
    each front quarter has over the body's quarter where no front arc was taken;
    ``side_set_forward`` is by layer and ring.  Seams and darts are by layer and id; a
    seam in two rings is one.  ``template`` is the garment in the fitting file's shape
    with rules in place of lengths: it is shared, change nothing in it.  Bench practice
    without a published source.
    """

    id: str
    label: str
    ease: Mapping[str, Ease]
    comfort: Mapping[str, float]
    zip_keep: float | None
    more: Mapping[str, float]
    seams: Mapping[tuple[str, str], Seam]
    darts: Mapping[tuple[str, str], Dart]
    openings: Mapping[str, Opening]
    checks: tuple[BodyCheck, ...]
    side_set_forward: Mapping[tuple[str, str], float]
    ease_as_drafted: tuple[str, ...]
    template: Mapping[str, Any]


@cache
def kind(name: str) -> Kind | None:
    """Return a kind by its id; ``None`` where there is none of that name."""
    return _read(name) if name in kind_ids() else None


def all_kinds() -> tuple[Kind, ...]:
    """Return every kind, in the order of the list of measurements."""
    return tuple(found for name in kind_ids() if (found := kind(name)) is not None)


def _read(name: str) -> Kind:
    data = read_resource(f"kinds/{name}")
    source = Field(data, f"kinds/{name}", "in")
    garment = source["garment"]
    openings = read_each(garment["openings"], "opening", "openings", read_opening)
    return Kind(
        id=source["id"].word(),
        label=source["label"].text(None),
        ease=MappingProxyType(read_ease(garment["ease"])),
        comfort=_lengths(source["comfort"]),
        zip_keep=None if source["zip_keep"].missing else source["zip_keep"].mm(),
        more=_lengths(source["more"]),
        seams=MappingProxyType(_seams(garment)),
        darts=MappingProxyType(_darts(garment)),
        openings=MappingProxyType({opening.id: opening for opening in openings}),
        checks=tuple(_check(entry) for entry in source["checks"].each()),
        side_set_forward=MappingProxyType({
            (layer, ring["id"].word()): ring["side_set_forward"].mm()
            for layer, ring in _rings(garment)
        }),
        ease_as_drafted=source["ease_as_drafted"].words(),
        template=MappingProxyType(data["garment"]),
    )


def _lengths(source: Field) -> Mapping[str, float]:
    return MappingProxyType({name: entry.mm() for name, entry in source.items()})


def _check(source: Field) -> BodyCheck:
    return BodyCheck(
        id=source["id"].word(),
        ring=source["ring"].word(),
        level=source["level"].word(),
        against=source["against"].word(),
        plus=source["plus"].mm(),
        words=source["words"].text(),
        opens=source["opens"].text(),
    )


def _rings(garment: Field) -> Iterator[tuple[str, Field]]:
    for layer in garment["layers"].each():
        for ring in layer["rings"].each():
            yield layer["id"].word(), ring


def _seams(garment: Field) -> dict[tuple[str, str], Seam]:
    levels = {name: Level(name, name, 0.0)
              for name in (entry["id"].word() for entry in garment["levels"].each())}  # fmt: skip
    seams: dict[tuple[str, str], Seam] = {}
    for layer, ring in _rings(garment):
        pieces = [piece["id"].word() for piece in ring["pieces"].each()]
        for number, entry in enumerate(ring["seams"].each(), 1):
            seam = read_seam(entry, f"seam_{number}", pieces, levels)
            above = seams.get((layer, seam.id))
            seams[layer, seam.id] = seam if above is None else _continued(above, seam)
    return seams


def _continued(above: Seam, below: Seam) -> Seam:
    """Return one seam for the two halves of a seam that runs through two rings."""

    def both(name: str) -> Shaped:
        upper, lower = getattr(above, name), getattr(below, name)
        return Shaped({**lower.given, **upper.given})

    return replace(
        above,
        allowance=both("allowance"),
        keep=both("keep"),
        most=both("most"),
        comfort=both("comfort"),
        weight=both("weight"),
        turn=both("turn"),
        needs=tuple(dict.fromkeys(above.needs + below.needs)),
        run_up=above.run_up or below.run_up,
        run_down=below.run_down or above.run_down,
    )


def _darts(garment: Field) -> dict[tuple[str, str], Dart]:
    """Return the darts with their take-ups; where they end is a rule of the draft."""
    return {
        (layer, entry["id"].word()): Dart(
            id=entry["id"].word(),
            label=entry["label"].text(),
            take_up={level: read_pair(depth) for level, depth in entry["take_up"].items()},
            turn=read_turn(entry),
            minutes=entry["minutes"].number(0.0),
            needs=entry["needs"].words(),
            note=entry["note"].text(),
        )
        for layer, ring in _rings(garment)
        for piece in ring["pieces"].each()
        for entry in piece["darts"].each()
    }
