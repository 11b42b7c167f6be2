"""Parts put into a draft and taken out of it: each begins with a usual number, to be changed."""

from collections.abc import Callable, Mapping
from typing import Any

from core.draft.building import (
    add_dart,
    add_level,
    add_piece,
    add_seam,
    remove_dart,
    remove_level,
    remove_piece,
    remove_seam,
)
from core.draft.document import CannotChange, find, find_piece, garment_in, levels_of_ring, named
from core.draft.layers import put_layer_on, take_layer_off
from core.draft.own_kinds import Kept
from core.draft.parts import add_band, add_circular_part, add_godet, remove_part
from screens.parts.draft_chosen import Drafting, Opened

Document = dict[str, Any]

USUAL = {"in": {"gap": "6", "allowance": "5/8", "take_up": "1", "band": "1 1/2", "deep": "12"},
         "cm": {"gap": "15", "allowance": "1.5", "take_up": "2.5", "band": "4", "deep": "30"},
         "mm": {"gap": "150", "allowance": "15", "take_up": "25", "band": "40",
                "deep": "300"}}  # fmt: skip
"""What a part begins with, by unit: bench practice, changed at once."""

NO_LEVEL = "Add a level first: a part needs somewhere to be. The draft is as it was."


def build(document: Document, chosen: Drafting, verb: str, own_kinds: Kept = ()) -> Opened:
    """Do what a key of the details says; return what to open of it, nothing for what is gone."""
    what, _, of = verb.partition(":")
    act = _BUILD.get(what) or _TAKE.get(what)
    if act is not None:
        return act(document, chosen, of) or Opened()
    if what == "layer on":
        put_layer_on(document, garment=chosen.garment, layer=of, own_kinds=own_kinds)
    elif what == "layer off":
        take_layer_off(document, garment=chosen.garment, layer=of)
    return Opened()


def _place(document: Document, chosen: Drafting) -> dict[str, str]:
    return {"garment": chosen.garment, "layer": chosen.layer, "ring": chosen.ring}


def _levels(document: Document, chosen: Drafting) -> list[str]:
    """Return the levels of the round in hand; the garment's where it has no widths yet."""
    garment = garment_in(document, chosen.garment)
    ring = find(find(garment, "layers", chosen.layer), "rings", chosen.ring)
    found = levels_of_ring(garment, ring) or [name for name, _ in named(garment, "levels")]
    if not found:
        raise CannotChange(NO_LEVEL)
    return found


def _usual(document: Document, what: str) -> str:
    return USUAL[str(document.get("unit", "in"))][what]


def _add_level(document: Document, chosen: Drafting, _of: str) -> Opened:
    garment = garment_in(document, chosen.garment)
    count = len(list(named(garment, "levels")))
    down = str(int(_usual(document, "gap")) * count)
    name = add_level(document, f"Level {count + 1}", garment=chosen.garment, down=down)
    return Opened("name", name, "", "levels")


def _add_piece(document: Document, chosen: Drafting, _of: str, *, fold: bool = False) -> Opened:
    ring = find(find(garment_in(document, chosen.garment), "layers", chosen.layer), "rings",
                chosen.ring)  # fmt: skip
    label = "Front" if fold and not ring.get("pieces") else f"Piece {len(ring['pieces']) + 1}"
    name = add_piece(document, label, **_place(document, chosen), fold=fold)
    return Opened("name", name, "", "pieces")


def _add_fold(document: Document, chosen: Drafting, of: str) -> Opened:
    return _add_piece(document, chosen, of, fold=True)


def _add_dart(document: Document, chosen: Drafting, piece: str) -> Opened:
    garment = garment_in(document, chosen.garment)
    _, entry = find_piece(find(garment, "layers", chosen.layer), piece)
    order = [name for name, _ in named(garment, "levels")]
    there = [level for level in order if level in (entry.get("width") or {})]
    level = there[len(there) // 2] if len(there) > 2 else there[0]
    downs = [str(find(garment, "levels", name).get("down", "0")) for name in order]
    at = order.index(level)
    top, point = downs[max(0, at - 1)], downs[min(len(downs) - 1, at + 1)]
    name = add_dart(document, "Dart", garment=chosen.garment, layer=chosen.layer, piece=piece,
                    level=level, take_up=_usual(document, "take_up"), top=top,
                    point=point)  # fmt: skip
    return Opened("take up", name, level)


def _add_seam(document: Document, chosen: Drafting, of: str) -> Opened:
    one, _, other = of.partition(":")
    label = "Centre seam" if one == other else "Seam"
    name = add_seam(document, label, **_place(document, chosen), joins=(one, other),
                    allowance=_usual(document, "allowance"))  # fmt: skip
    return Opened("allowance", name)


def _add_flounce(document: Document, chosen: Drafting, _of: str) -> Opened:
    name = add_circular_part(document, "Flounce", **_place(document, chosen),
                             level=_levels(document, chosen)[-1], turns="1",
                             depth=_usual(document, "deep"))  # fmt: skip
    return Opened("joined", name, "", "depth")


def _add_band(document: Document, chosen: Drafting, _of: str) -> Opened:
    name = add_band(document, "Band", **_place(document, chosen),
                    level=_levels(document, chosen)[0], cut=_usual(document, "deep"),
                    depth=_usual(document, "band"))  # fmt: skip
    return Opened("joined", name, "", "cut")


def _add_godet(document: Document, chosen: Drafting, _of: str) -> Opened:
    levels = _levels(document, chosen)
    garment = garment_in(document, chosen.garment)
    ring = find(find(garment, "layers", chosen.layer), "rings", chosen.ring)
    seam = next((name for name, _ in named(ring, "seams")), "")
    if not seam or len(levels) < 2:
        raise CannotChange("A godet is set into a seam between two levels. The draft is as it was.")
    deep = _usual(document, "deep")
    name = add_godet(document, "Godet", garment=chosen.garment, layer=chosen.layer, seam=seam,
                     start=levels[-2], end=levels[-1], length=deep, foot=deep,
                     allowance=_usual(document, "allowance"))  # fmt: skip
    return Opened("inserts", name, "", "length")


def _remove_level(document: Document, chosen: Drafting, of: str) -> None:
    remove_level(document, garment=chosen.garment, level=of)


def _remove_piece(document: Document, chosen: Drafting, of: str) -> None:
    remove_piece(document, garment=chosen.garment, layer=chosen.layer, piece=of)


def _remove_dart(document: Document, chosen: Drafting, of: str) -> None:
    remove_dart(document, garment=chosen.garment, layer=chosen.layer, dart=of)


def _remove_seam(document: Document, chosen: Drafting, of: str) -> None:
    ring, _, seam = of.partition(":")
    remove_seam(document, garment=chosen.garment, layer=chosen.layer, ring=ring, seam=seam)


def _remove_joined(document: Document, chosen: Drafting, of: str) -> None:
    remove_part(document, garment=chosen.garment, part=of)


def _remove_insert(document: Document, chosen: Drafting, of: str) -> None:
    remove_part(document, garment=chosen.garment, part=of, of="inserts")


Act = Callable[[Document, Drafting, str], Opened | None]

_BUILD: Mapping[str, Act] = {
    "add level": _add_level, "add piece": _add_piece, "add fold": _add_fold,
    "add dart": _add_dart, "add seam": _add_seam, "add flounce": _add_flounce,
    "add band": _add_band, "add godet": _add_godet,
}  # fmt: skip
_TAKE: Mapping[str, Act] = {
    "remove level": _remove_level, "remove piece": _remove_piece, "remove dart": _remove_dart,
    "remove seam": _remove_seam, "remove joined": _remove_joined, "remove inserts": _remove_insert,
}  # fmt: skip
