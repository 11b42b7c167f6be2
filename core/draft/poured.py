"""The numbers of a draft just worked out, poured into one that is there.

What the old one has beside its numbers stays where it is: names, notes, fittings, fields that
nobody here knows, pieces and levels of her own.
"""

from core.draft.by_hand import ByHand, is_hers
from core.draft.document import Part, darts_in, named, pieces_in
from core.draft.kinds import Kind
from core.lengths import Unit

_PARTS = {"joined": ("depth", "cut"), "lines": ("sewn", "ease"), "inserts": ("length",)}
_BY_LEVEL = ("allowance", "keep", "most", "comfort", "turn", "weight")


def pour(after: Part, new: Part, hers: ByHand, usual: Kind, unit: Unit, *, keep: bool) -> None:
    """Pour the numbers of ``new`` into ``after``; what is hers stays as typed.

    ``keep`` leaves ease, allowances and the drop as they are; else they are the new ones.
    A level is added only where the kind has it as one that may be left out: one that she took
    away stays away.
    """
    _pour_levels(after, new, hers, usual)
    _pour_ease(after, new, usual, keep=keep)
    for key in ("heel_of_the_day", "across_darts", *(() if keep else ("drop",))):
        if key in new:
            after[key] = new[key]
    there = dict(named(new, "layers"))
    for name, layer in named(after, "layers"):
        if name in there:
            _pour_layer(after, name, layer, there[name], hers, keep=keep)
    for of, what in _PARTS.items():
        made = dict(named(new, of))
        for name, part in named(after, of):
            _pour_part(part, made.get(name, {}), what, unit, keep=keep)


def _pour_levels(after: Part, new: Part, hers: ByHand, usual: Kind) -> None:
    optional = {level["id"] for level in usual.template["levels"] if level.get("optional")}
    there = dict(named(after, "levels"))
    before = ""
    for name, level in named(new, "levels"):
        if name in there:
            _pour_number(there[name], level, "down", is_hers=name in hers.heights)
            before = name
        elif name in optional:
            names = [found for found, _ in named(after, "levels")]
            after["levels"].insert(names.index(before) + 1 if before else 0, dict(level))
            before = name


def _pour_ease(after: Part, new: Part, usual: Kind, *, keep: bool) -> None:
    """Leave her ease, but where it is what the draft came to have."""
    kept = after.get("ease") or {}
    fresh = new.get("ease") or {}
    if keep:
        drafted = {level: fresh[level] for level in usual.ease_as_drafted if level in fresh}
        after["ease"] = {**fresh, **kept, **drafted}
    else:
        after["ease"] = {**kept, **fresh}


def _pour_layer(
    garment: Part, layer: str, after: Part, new: Part, hers: ByHand, *, keep: bool
) -> None:
    levels = [name for name, _ in named(garment, "levels")]
    rings = dict(named(new, "rings"))
    fresh = {name: piece for _, name, piece in pieces_in(new)}
    for name, piece in [(name, piece) for _, name, piece in pieces_in(after)]:
        if name in fresh:
            _pour_piece(layer, name, piece, fresh[name], levels, hers)
    for ring_id, ring in named(after, "rings"):
        made = rings.get(ring_id, {})
        if ring.get("levels") is not None:
            reached = {*ring["levels"], *(made.get("levels") or ())}
            ring["levels"] = [level for level in levels if level in reached]
        seams = dict(named(made, "seams"))
        for name, seam in named(ring, "seams"):
            _pour_seam(seam, seams.get(name, {}), levels, keep=keep)


def _pour_piece(
    layer: str, name: str, after: Part, new: Part, levels: list[str], hers: ByHand
) -> None:
    width, said = dict(after.get("width") or {}), dict(after.get("sum") or {})
    for level, typed in new["width"].items():
        if level in levels and (layer, name, level) not in hers.widths:
            width[level] = typed
        if level in width:
            said[level] = new["sum"][level]
    after["width"] = {level: width[level] for level in levels if level in width}
    after["sum"] = {level: said[level] for level in levels if level in said}
    darts = dict(darts_in(name, new))
    for dart, entry in darts_in(name, after):
        if dart in darts:
            _pour_dart(layer, dart, entry, darts[dart], levels, hers)


def _pour_dart(
    layer: str, name: str, after: Part, new: Part, levels: list[str], hers: ByHand
) -> None:
    depths = dict(after.get("take_up") or {})
    kept = {level: typed for level, typed in depths.items()
            if (layer, name, level) in hers.take_ups}  # fmt: skip
    fresh = {level: typed for level, typed in new["take_up"].items() if level in levels}
    after["take_up"] = {level: {**fresh, **kept}[level] for level in levels
                        if level in fresh or level in kept}  # fmt: skip
    ends = after.get("ends") or {}
    after["ends"] = {end: ends[end] if (layer, name, end) in hers.ends else typed
                     for end, typed in new["ends"].items()}  # fmt: skip
    if "centre_from" in new:
        after["centre_from"] = new["centre_from"]


def _pour_seam(after: Part, new: Part, levels: list[str], *, keep: bool) -> None:
    """Give a seam its new allowance, or only what it lacks at a level that was added."""
    if not keep and "allowance" in new:
        after["allowance"] = new["allowance"]
    for what in _BY_LEVEL:
        own, fresh = after.get(what), new.get(what)
        if isinstance(own, dict) and isinstance(fresh, dict) and set(own) <= set(levels):
            after[what] = {level: {**fresh, **own}[level] for level in levels
                           if level in own or level in fresh}  # fmt: skip


def _pour_part(after: Part, new: Part, what: tuple[str, ...], unit: Unit, *, keep: bool) -> None:
    for key in what:
        if key in new:
            off = keep and "sum" in after and key in after and is_hers(
                after[key], after["sum"], unit
            )  # fmt: skip
            after[key] = after[key] if off and key != "ease" else new[key]
    if "sum" in new:
        after["sum"] = new["sum"]


def _pour_number(after: Part, new: Part, what: str, *, is_hers: bool) -> None:
    if not is_hers:
        after[what] = new[what]
    if "sum" in new:
        after["sum"] = new["sum"]
    elif not is_hers:
        after.pop("sum", None)
