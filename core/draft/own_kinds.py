"""Her own kinds of garment, and a kind as one garment of hers has it.

The workroom's own file keeps her kinds as a list of documents (``kinds``), each in the shape of
``resources/kinds/*.json`` with one more field: ``based_on``, the kind it was made from.  A
garment begun from one has that as its ``kind``, whose turns and checks hold, and ``own_kind``.
"""

from collections.abc import Collection, Iterable, Mapping
from copy import deepcopy
from dataclasses import replace
from types import MappingProxyType
from typing import Any

from core.draft.by_hand import NOTHING_BY_HAND, ByHand
from core.draft.document import Part, darts_in, named, pieces_in
from core.draft.kinds import Kind, kind
from core.draft.told_lengths import tell, told
from core.errors import BadFile, NotFound
from core.file.field import Field
from core.file.reading_layers import read_seam
from core.file.reading_parts import read_ease, read_pair
from core.file.shaped import Shaped
from core.lengths import Unit
from core.records.garment import Dart, Level, Seam

_NO_KIND = Kind(
    id="", label="", ease={}, comfort={}, zip_keep=None, more={}, seams={}, darts={}, openings={},
    checks=(), side_set_forward={}, ease_as_drafted=(), template=MappingProxyType({}),
)  # fmt: skip
_OF_A_SEAM = ("label", "allowance", "keep", "most", "comfort", "weight", "turn", "minutes", "needs",
              "run", "zip", "levels")  # fmt: skip
_OF_A_DART = ("label", "turn", "minutes", "needs", "note", "comfort", "deepest")

Kept = Iterable[Mapping[str, Any]]
"""Her own kinds, as the workroom's file keeps them."""


def kind_of(garment: Mapping[str, Any], own_kinds: Kept = ()) -> Kind | None:
    """Return the kind a garment of the document was begun from: hers, or one that came with us."""
    own = garment.get("own_kind")
    found = next((entry for entry in own_kinds if own and entry.get("id") == own), None)
    return read_own_kind(found) if found is not None else kind(str(garment.get("kind") or ""))


def named_kind(name: str, own_kinds: Kept = ()) -> tuple[Kind, str]:
    """Return a kind by its id, and the id where it is one of hers; raises ``NotFound``."""
    found = next((entry for entry in own_kinds if entry.get("id") == name), None)
    if found is not None:
        return read_own_kind(found), name
    known = kind(name)
    if known is None:
        raise NotFound(f"There is no kind of garment called “{name}”")
    return known, ""


def read_own_kind(data: Mapping[str, Any]) -> Kind:
    """Return a kind of hers for drafting; its ``id`` is that of the kind it is based on.

    What the draft does not need (comforts, checks, openings) is that kind's.  Raises ``BadFile``.
    """
    source = Field(dict(data), f"kinds/{data.get('id')}", "in")
    base = kind(source["based_on"].text()) or _NO_KIND
    garment = source["garment"]
    if garment.missing or not garment.is_object():
        raise BadFile(garment.path, "must be an object with named fields")
    return replace(
        base,
        label=source["label"].text(base.label),
        ease=MappingProxyType(read_ease(garment["ease"])),
        ease_as_drafted=source["ease_as_drafted"].words(),
        seams=MappingProxyType(_seams(garment)),
        darts=MappingProxyType(_darts(garment)),
        template=MappingProxyType(garment.value),
    )


def as_she_made_it(
    usual: Kind, garment: Part, unit: Unit, hers: ByHand = NOTHING_BY_HAND, *, numbers: bool = True
) -> Kind:
    """Return a kind with this garment's own names, allowances, take-ups and layers in it.

    So a draft that is worked out again has what she chose for it: only the numbers that come
    from the tape are new.  Take-ups and dart ends that are ``hers`` are fixed in it.  Without
    ``numbers`` it takes on only her names, and which layers and parts there are.
    """
    template = deepcopy(dict(usual.template))
    _take_names(template, garment, "levels")
    made = dict(named(garment, "layers"))
    there = [name for name, _ in named(garment, "levels")]
    gone = [level["id"] for level in template["levels"] if level["id"] not in there]
    template["layers"] = [layer for layer in template["layers"] if layer["id"] in made]
    for layer in template["layers"]:
        own = made[layer["id"]]
        _take_layer(layer, own, gone, unit, hers if numbers else None)
    _take_parts(template, garment)
    source = Field(template, "kinds", "in")
    return replace(
        usual,
        seams=MappingProxyType(_seams(source)),
        darts=MappingProxyType(_darts(source)),
        template=MappingProxyType(template),
    )


def _take_layer(
    layer: Part, made: Part, gone: Collection[str], unit: Unit, hers: ByHand | None
) -> None:
    """Take on a layer's names, and without ``hers`` nothing else.

    ``gone`` are the kind's levels that her garment does not have.
    """
    layer["label"] = made.get("label", layer["label"])
    _take_names(layer, made, "rings")
    pieces = {name: piece for _, name, piece in pieces_in(made)}
    darts = {name: dart for piece_id, piece in pieces.items()
             for name, dart in darts_in(piece_id, piece)}  # fmt: skip
    seams = {(ring_id, name): seam for ring_id, ring in named(made, "rings")
             for name, seam in named(ring, "seams")}  # fmt: skip
    for ring in layer["rings"]:
        for seam in ring["seams"]:
            own = seams.get((ring["id"], seam["id"]), {})
            if hers is None:
                _take(seam, own, ("label",), unit)
            else:
                _take_seam(seam, own, gone, unit)
        for piece in ring["pieces"]:
            _take(piece, pieces.get(piece["id"], {}), ("label",), unit)
            for dart in piece.get("darts", []):
                own = darts.get(dart["id"], {})
                _take_dart(layer["id"], dart, own, gone, unit, hers)


def _take_dart(
    layer: str, dart: Part, own: Part, gone: Collection[str], unit: Unit, hers: ByHand | None
) -> None:
    """Take on a dart of hers: the take-ups she gave (others are read off anew), her own ends.

    At a level that her garment does not have the kind's take-up stays.
    """
    if hers is None or not own:
        _take(dart, own, ("label",), unit)
        return
    usual = dart["take_up"]
    depths = {level: depth for level, depth in usual.items() if level in gone}
    for level, typed in (own.get("take_up") or {}).items():
        if level in usual or (layer, dart["id"], level) in hers.take_ups:
            depths[level] = told("take_up", typed, unit)
    for end, typed in (own.get("ends") or {}).items():
        if (layer, dart["id"], end) in hers.ends:
            fixed = {"take": f"fixed {tell(typed, unit)}", "words": "by hand"}
            dart["ends"] = {**dart["ends"], end: [fixed]}
    _take(dart, own, _OF_A_DART, unit)
    dart["take_up"] = depths


def _take_parts(template: Part, garment: Part) -> None:
    """Keep the joined parts that she kept, with her names, turns and fullness."""
    made = dict(named(garment, "joined"))
    template["joined"] = [
        {**part, **{what: made[part["id"]][what] for what in ("label", "turns", "fullness", "level")
                    if what in made[part["id"]]}}
        for part in template.get("joined", []) if part["id"] in made
    ]  # fmt: skip


def _take(entry: Part, own: Part, what: tuple[str, ...], unit: Unit) -> None:
    entry.update({name: told(name, own[name], unit) for name in what if name in own})


def _take_seam(seam: Part, own: Part, gone: Collection[str], unit: Unit) -> None:
    """Take on a seam of hers; at a level that her garment does not have the kind's values stay."""
    usual = dict(seam)
    _take(seam, own, _OF_A_SEAM, unit)
    for name in ("allowance", "keep", "most", "comfort", "weight", "turn"):
        if isinstance(seam.get(name), Mapping) and name in usual:
            seam[name] = _filled(seam[name], usual[name], gone)


def _filled(hers: Mapping[str, Any], usual: Any, gone: Collection[str]) -> dict[str, Any]:
    """Return a value by level, or by piece and level, that says something at these levels too."""
    filled = {
        name: _filled(one, _of(usual, name), gone) if isinstance(one, Mapping) else one
        for name, one in hers.items()
    }
    by_piece = any(isinstance(one, Mapping) for one in hers.values())
    there = {} if by_piece else {level: _of(usual, level) for level in gone if level not in hers}
    return {**filled, **{level: one for level, one in there.items() if one is not None}}


def _of(usual: Any, name: str) -> Any:
    """Return what a kind gives for a piece or a level: one for all, its own, or any piece's."""
    if not isinstance(usual, Mapping):
        return usual
    pieces = [one[name] for one in usual.values() if isinstance(one, Mapping) and name in one]
    return usual.get(name, pieces[0] if pieces else None)


def _take_names(template: Part, garment: Part, of: str) -> None:
    labels = {name: entry["label"] for name, entry in named(garment, of) if "label" in entry}
    for entry in template.get(of, []):
        entry["label"] = labels.get(entry["id"], entry.get("label", ""))


def _seams(garment: Field) -> dict[tuple[str, str], Seam]:
    """Return the seams by layer and id; one that runs through two rings has both allowances."""
    levels = {name: Level(name, name, 0.0)
              for name in (entry["id"].word() for entry in garment["levels"].each())}  # fmt: skip
    found: dict[tuple[str, str], Seam] = {}
    for layer in garment["layers"].each():
        for ring in layer["rings"].each():
            pieces = [piece["id"].word() for piece in ring["pieces"].each()]
            for number, entry in enumerate(ring["seams"].each(), 1):
                seam = read_seam(entry, f"seam_{number}", pieces, levels)
                above = found.get((layer["id"].word(), seam.id), seam)
                both = {**seam.allowance.given, **above.allowance.given}
                once = seam.allowance.once if above is seam else None
                found[layer["id"].word(), seam.id] = replace(above, allowance=Shaped(both, once))
    return found


def _darts(garment: Field) -> dict[tuple[str, str], Dart]:
    return {
        (layer["id"].word(), entry["id"].word()): Dart(
            entry["id"].word(), entry["label"].text(),
            {level: read_pair(depth) for level, depth in entry["take_up"].items()},
        )
        for layer in garment["layers"].each()
        for ring in layer["rings"].each()
        for piece in ring["pieces"].each()
        for entry in piece["darts"].each()
    }  # fmt: skip
