"""Layers of a draft put on and taken off: a lining from the kind, one kept aside as it was."""

from copy import deepcopy
from typing import Any

from core.draft.again import worked_out_as_hers
from core.draft.by_hand import by_hand
from core.draft.document import (
    CannotChange,
    Document,
    Part,
    change,
    find,
    garment_in,
    label_in,
    named,
    pieces_in,
)
from core.draft.kinds import Kind
from core.draft.own_kinds import Kept, kind_of
from core.file.fitting_file import read_document

ASIDE = "layers_off"
"""Where a garment keeps the layers that were taken off, with the parts joined to them."""

_PARTS = ("joined", "lines", "inserts")


def layers_to_put_on(garment: Part, own_kinds: Kept = ()) -> tuple[tuple[str, str], ...]:
    """Return the layers that could be put on: id and label, the ones kept aside first."""
    there = {name for name, _ in named(garment, "layers")}
    aside = [(str(layer["id"]), label_in(layer, str(layer["id"])))
             for layer in garment.get(ASIDE) or []]  # fmt: skip
    usual = kind_of(garment, own_kinds)
    of_kind = [(name, label_in(layer, name))
               for name, layer in named(usual.template if usual else {}, "layers")]  # fmt: skip
    found = dict([*of_kind, *aside])
    return tuple((name, label) for name, label in found.items() if name not in there)


def take_layer_off(document: Document, *, garment: str, layer: str) -> None:
    """Take a layer off, with the parts joined to it; all is kept aside as it is.

    Raises ``CannotChange`` for the first layer, which is the garment itself, and for one that a
    fitting has something noted of.
    """
    written = garment_in(document, garment)
    entry = find(written, "layers", layer)
    if entry is written["layers"][0]:
        raise CannotChange("The first layer is the garment itself. The draft is as it was.")
    if any(_is_noted(fitting, layer) for fitting in written.get("fittings") or []):
        label = label_in(entry, layer)
        raise CannotChange(f"A fitting has something noted of the {label.lower()}: it stays.")

    def edit(after: Part) -> None:
        gone = find(after, "layers", layer)
        after["layers"] = [one for one in after["layers"] if one is not gone]
        parts = {of: [part for part in after.get(of) or [] if part.get("layer") == layer]
                 for of in _PARTS}  # fmt: skip
        for of in _PARTS:
            if parts[of]:
                after[of] = [part for part in after[of] if part.get("layer") != layer]
        kept = [one for one in after.get(ASIDE) or [] if one.get("id") != layer]
        after[ASIDE] = [*kept, {**gone, "id": layer, "parts": parts}]

    change(document, garment, edit)


def put_layer_on(document: Document, *, garment: str, layer: str, own_kinds: Kept = ()) -> None:
    """Put a layer on: as it was when it was taken off, or worked out from the kind.

    From the kind it has this garment's ease, drop and heights and her tape of now.  Raises
    ``CannotChange`` where there is no such layer, ``CannotDraft`` with what is missing.
    """
    written = garment_in(document, garment)
    if any(name == layer for name, _ in named(written, "layers")):
        raise CannotChange("This layer is on already. The draft is as it was.")
    usual = kind_of(written, own_kinds)
    aside = next((one for one in written.get(ASIDE) or [] if one.get("id") == layer), None)
    new = deepcopy(aside) if aside is not None else _from_kind(document, written, usual, layer)

    def edit(after: Part) -> None:
        parts = new.pop("parts", {})
        after["layers"] = _in_order([*after["layers"], new], usual)
        for of in _PARTS:
            there = {name for name, _ in named(after, of)}
            fresh = [part for part in parts.get(of) or [] if part.get("id") not in there]
            if fresh:
                after[of] = [*(after.get(of) or []), *fresh]
        left = [one for one in after.pop(ASIDE, None) or [] if one.get("id") != layer]
        after |= {ASIDE: left} if left else {}

    change(document, garment, edit)


def _from_kind(document: Document, written: Part, usual: Kind | None, layer: str) -> Part:
    if usual is None or all(name != layer for name, _ in named(usual.template, "layers")):
        raise CannotChange("The kind of this garment has no such layer. The draft is as it was.")
    file = read_document({**document, "garments": [written]})
    parts_there = [*usual.template.get("joined", []), *(written.get("joined") or [])]
    layers = [*written["layers"], {"id": layer, "rings": []}]
    stub = {**written, "layers": layers, "joined": parts_there}
    new = worked_out_as_hers(stub, usual, file, by_hand(written, usual, file.unit))
    found = find(new, "layers", layer)
    _keep_levels(found, {name for name, _ in named(written, "levels")})
    parts = {of: [part for part in new.get(of) or [] if part.get("layer") == layer]
             for of in _PARTS}  # fmt: skip
    return {**found, "parts": parts}


def _keep_levels(layer: Part, levels: set[str]) -> None:
    """Leave out of a new layer what she has no level for in this garment."""
    for _, ring in named(layer, "rings"):
        if ring.get("levels") is not None:
            ring["levels"] = [level for level in ring["levels"] if level in levels]
        for seam in ring["seams"]:
            for what, given in seam.items():
                if isinstance(given, dict) and what != "run":
                    seam[what] = _only(given, levels, ring)
    for _, _, piece in pieces_in(layer):
        for part in (piece, *piece.get("darts", [])):
            for what in ("width", "sum", "take_up"):
                if what in part:
                    part[what] = {name: one for name, one in part[what].items() if name in levels}


def _only(given: dict[str, Any], levels: set[str], ring: Part) -> dict[str, Any]:
    pieces = {piece["id"] for piece in ring["pieces"]}
    return {name: _only(one, levels, ring) if isinstance(one, dict) else one
            for name, one in given.items() if name in levels or name in pieces}  # fmt: skip


def _in_order(layers: list[Part], usual: Kind | None) -> list[Part]:
    """Return layers as the kind has them; one of her own stays behind those before it."""
    order = [name for name, _ in named(usual.template, "layers")] if usual else []
    known = sorted((one for one in layers if one.get("id") in order),
                   key=lambda one: order.index(one["id"]))  # fmt: skip
    return [known.pop(0) if one.get("id") in order else one for one in layers]


def _is_noted(fitting: Part, layer: str) -> bool:
    logged = [*(fitting.get("pins") or []), *(fitting.get("done") or [])]
    return layer in (fitting.get("sewn_girths") or {}) or any(
        entry.get("layer") == layer for entry in logged
    )
