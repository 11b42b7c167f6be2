"""How she likes her garments made: settings and turns, comforts, minutes, words, kind by kind.

The workroom's own file keeps them as one document (``defaults``), every length with its unit::

    {"settings": {"step": "1/4 in"},
     "kinds": {"sheath_dress": {"settings": {"band": "6 mm"},
                                "seams": {"side": {"turn": 2, "comfort": "3/8 in"}},
                                "darts": {"front_waist": {"minutes": 20}},
                                "words": {"seams": {"side": "Flank seam"}}}}}

A garment begun from a kind takes them on; one that is there already is not touched.
"""

from collections.abc import Iterator, Mapping
from copy import deepcopy
from typing import Any

from core.draft.allowances import LENGTHS, behaviour
from core.draft.document import CannotChange, Part, darts_in, named, pieces_in
from core.draft.names import good_name, put_name
from core.draft.told_lengths import tell
from core.lengths import Unit, read_length

SETTINGS = ("step", "band", "keep", "comfort", "most", "leg_comfort", "deepest")


def set_setting(
    defaults: Part, what: str, typed: str, *, unit: Unit, kind: str = ""
) -> None:  # fmt: skip
    """Set a setting for every garment, or for one kind; kept as typed, with its unit.

    Raises ``CannotChange`` for no setting or one that is not more than nothing, ``BadLength``.
    """
    if what not in SETTINGS:
        raise CannotChange(f"“{what}” is not a setting of a garment")
    least = 0.1 if what == "step" else 0.0
    if read_length(typed, unit).mm < least:
        raise CannotChange(f"“{typed}” is too little for a {what}")
    _of(defaults, kind).setdefault("settings", {})[what] = tell(typed, unit)


def set_usual(
    defaults: Part, what: str, typed: str, *, unit: Unit, kind: str, seam: str = "", dart: str = ""
) -> None:  # fmt: skip
    """Set a seam's or a dart's usual ``turn``, ``comfort``, ``minutes``, ``keep`` for a kind."""
    value = behaviour(what, typed)
    if what in LENGTHS:
        if read_length(typed, unit).mm < 0:
            raise CannotChange(f"“{typed}” must not be negative")
        value = tell(typed, unit)
    part = _of(defaults, kind).setdefault("seams" if seam else "darts", {})
    part.setdefault(seam or dart, {})[what] = value


def set_word(defaults: Part, label: str, *, kind: str, what: str, id: str) -> None:
    """Set her own word for a kind's level, piece, seam or dart; an empty one takes it back.

    ``what`` is the list it is in: ``levels``, ``pieces``, ``seams`` or ``darts``.
    """
    words = _of(defaults, kind).setdefault("words", {}).setdefault(what, {})
    words.pop(id, None)
    if label.strip():
        words[id] = good_name(label)


def with_defaults(
    garment: Part, defaults: Mapping[str, Any], unit: Unit, *, words: bool = True
) -> Part:
    """Return a garment just worked out as she likes it; what she likes for its kind goes first.

    Without ``words`` its parts keep the names they have.
    """
    garment = deepcopy(garment)
    own = (defaults.get("kinds") or {}).get(garment.get("kind") or "", {})
    liked = {**(defaults.get("settings") or {}), **(own.get("settings") or {})}
    if liked:
        garment["settings"] = {
            **(garment.get("settings") or {}),
            **{name: _here(typed, unit) for name, typed in liked.items()},
        }
    for kind_of_part, name, entry in _parts(garment):
        usual = (own.get(kind_of_part) or {}).get(name, {})
        entry.update({what: _here(value, unit) for what, value in usual.items()})
    for what, hers in (own.get("words") or {}).items() if words else ():
        for name, label in hers.items():
            put_name(garment, what, name, label, unit)
    return garment


def _of(defaults: Part, kind: str) -> Part:
    if not kind:
        return defaults
    found: Part = defaults.setdefault("kinds", {}).setdefault(kind, {})
    return found


def _parts(garment: Part) -> Iterator[tuple[str, str, Part]]:
    for _, layer in named(garment, "layers"):
        for _, ring in named(layer, "rings"):
            for name, seam in named(ring, "seams"):
                yield "seams", name, seam
        for _, piece_id, piece in pieces_in(layer):
            for name, dart in darts_in(piece_id, piece):
                yield "darts", name, dart


def _here(value: Any, unit: Unit) -> Any:
    """Return a value for a file in ``unit``: its own unit need not be said there."""
    return value.removesuffix(f" {unit}") if isinstance(value, str) else value
