"""A garment as a kind of her own: its numbers turned back into rules that fit another client."""

from collections.abc import Mapping, Sequence
from typing import Any

from core.draft.by_hand import by_hand
from core.draft.document import Part, darts_in, label_in, named, record_of
from core.draft.made_rules import (
    Made,
    end_rule,
    fixed,
    height_rule,
    leans_on,
    off_sum,
    usual_dart,
    width_rule,
)
from core.draft.own_kinds import Kept, as_she_made_it, kind_of
from core.draft.told_lengths import told, with_units
from core.lengths import Unit, read_length
from core.records.garment import Dart, Layer, Piece, Ring
from core.resources import read_resource

_OF_THE_KIND = ("comfort", "zip_keep", "more", "top", "checks")
_OF_THE_DRAFT = ("openings", "across_darts", "vent", "hang_hours_before_the_hem")


def template_of(
    garment: Part, *, id: str, label: str, unit: Unit, own_kinds: Kept = ()
) -> dict[str, Any]:
    """Return a garment of the document as a kind of her own, for the workroom's ``kinds``.

    ``own_kinds.read_own_kind`` reads it back, and ``core.draft.kinds`` could: it has the shape of
    the kinds that came with us, and ``based_on``.  What she changed by hand is a term of its own.
    Raises ``BadFile`` where the garment cannot be read.
    """
    usual = kind_of(garment, own_kinds)
    base = read_resource(f"kinds/{usual.id}") if usual is not None and usual.id else {}
    template = dict(as_she_made_it(usual, garment, unit).template) if usual is not None else {}
    made = Made(garment, record_of(garment, unit), template, by_hand(garment, usual, unit), unit)
    as_drafted = list(usual.ease_as_drafted) if usual is not None else []
    return {
        **{key: base[key] for key in _OF_THE_KIND if key in base},
        "id": id,
        "label": label or str(garment.get("name", "")),
        "unit": "in",
        "based_on": usual.id if usual is not None else "",
        "ease_as_drafted": [level for level in as_drafted if level in made.record.levels],
        "garment": _template(made, as_drafted),
    }


def _template(made: Made, as_drafted: Sequence[str]) -> dict[str, Any]:
    written, unit = made.written, made.unit
    layers = zip(made.record.layers, named(written, "layers"), strict=True)
    usual = made.template.get("ease", {})
    drafted = {level: usual[level] for level in as_drafted if level in usual}
    settings = with_units({"ease": written.get("settings") or {}}, unit)["ease"]
    return {
        **{key: made.template[key] for key in _OF_THE_DRAFT if key in made.template},
        **({"openings": written["openings"]} if "openings" in written else {}),
        **({"settings": settings} if settings else {}),
        "drop": told("drop", written.get("drop", "0"), unit),
        "levels": _levels(made),
        "ease": {**told("ease", written.get("ease") or {}, unit), **drafted},
        "layers": [_layer(made, layer, entry) for layer, (_, entry) in layers],
        "joined": [_part(made, "joined", name, part, ("depth", "cut"))
                   for name, part in named(written, "joined")
                   if part.get("level") in made.record.levels],
        "lines": [_part(made, "lines", name, line, ("sewn",))
                  for name, line in named(written, "lines") if "sewn" in line],
        "inserts": [_part(made, "inserts", name, part, ("length",))
                    for name, part in named(written, "inserts") if "length" in part],
    }  # fmt: skip


def _levels(made: Made) -> list[Part]:
    above: list[str] = []
    found: list[Part] = []
    for name, entry in named(made.written, "levels"):
        level: Part = {"id": name, "label": label_in(entry, name)}
        level.update((key, entry[key]) for key in ("body", "front_arc", "down_body")
                     if key in entry)  # fmt: skip
        level["rule"] = height_rule(made, name, above)
        if made.usual("", "levels", name).get("optional"):
            level["optional"] = True
        found.append(level)
        above.append(name)
    return found


def _layer(made: Made, layer: Layer, written: Part) -> Part:
    rings = zip(layer.rings, named(written, "rings"), strict=True)
    kept = {key: value for key, value in written.items() if key not in ("rings", "ease")}
    return {
        **kept, "id": layer.id, "label": layer.label,
        **({"ease": told("ease", written["ease"], made.unit)} if written.get("ease") else {}),
        "rings": [_ring(made, layer, ring, entry) for ring, (_, entry) in rings],
    }  # fmt: skip


def _ring(made: Made, layer: Layer, ring: Ring, written: Part) -> Part:
    pieces = zip(ring.pieces, written.get("pieces") or [], strict=True)
    seams = zip(ring.seams, named(written, "seams"), strict=True)
    kept = {key: told(key, value, made.unit) for key, value in written.items()}
    return {
        **kept, "id": ring.id, "label": ring.label,
        "pieces": [_piece(made, layer.id, ring, piece, entry) for piece, entry in pieces],
        "seams": [
            {**{key: told(key, value, made.unit) for key, value in entry.items()},
             "id": name, "label": seam.label}
            for seam, (name, entry) in seams
        ],
    }  # fmt: skip


def _piece(made: Made, layer: str, ring: Ring, piece: Piece, written: Part) -> Part:
    darts = zip(piece.darts, darts_in(piece.id, written), strict=True)
    kept = {key: value for key, value in written.items() if key not in ("width", "sum", "darts")}
    found = {
        **kept, "id": piece.id, "label": piece.label,
        "rule": {level: width_rule(made, layer, ring, piece, level, written)
                 for level in piece.width},
        "darts": [_dart(made, layer, piece.id, dart, entry) for dart, (_, entry) in darts],
    }  # fmt: skip
    return found if piece.darts else {key: value for key, value in found.items() if key != "darts"}


def _dart(made: Made, layer: str, piece: str, dart: Dart, written: Part) -> Part:
    usual = usual_dart(made, layer, piece, dart.id)
    given = [level for level in dart.take_up
             if level in usual.get("take_up", dart.take_up)
             or (layer, dart.id, level) in made.hers.take_ups]  # fmt: skip
    kept = {key: told(key, value, made.unit) for key, value in written.items()
            if key not in ("ends", "take_up", "centre_from", "sum")}  # fmt: skip
    depths = {level: written["take_up"][level] for level in given}
    return {
        **kept, "id": dart.id, "label": dart.label,
        "take_up": {level: told("take_up", _one(depth, made.unit), made.unit)
                    for level, depth in depths.items()},
        "ends": {end: end_rule(made, layer, piece, dart, end) for end in ("top", "point")},
        "centre": usual.get("centre") or {"words": str(written.get("centre_from", ""))},
    }  # fmt: skip


def _part(made: Made, of: str, name: str, written: Part, what: tuple[str, ...]) -> Part:
    """Return a joined part, a line or an insert with a rule for its length."""
    usual = made.usual("", of, name)
    kept = {key: told(key, value, made.unit) for key, value in written.items()
            if key not in (*what, "sum", "inner_radius")}  # fmt: skip
    if "ease" in usual:
        kept["ease"] = usual["ease"]
    rules: dict[str, Any] = {}
    levels = made.record.levels.keys()
    for key in what:
        if isinstance(usual.get(key), list) and leans_on(usual[key], "down") <= levels:
            rules[key] = off_sum(list(usual[key]), written.get(key), written.get("sum"), made.unit)
        elif key in written and (key != "depth" or "turns" in written):
            mm = read_length(_one(written[key], made.unit), made.unit).mm
            rules[key] = fixed(mm, "as drawn", made.unit)
        elif key in written:
            kept[key] = told(key, written[key], made.unit)
    if "turns" in written:
        rules.setdefault("depth", [])  # on the round, and how deep nobody has said yet
    return {**kept, "id": name, **rules}


def _one(typed: Any, unit: Unit) -> Any:
    """Return one length for left and right: the larger."""
    if not isinstance(typed, Mapping):
        return typed
    return max(typed.values(), key=lambda one: read_length(one, unit).mm)
