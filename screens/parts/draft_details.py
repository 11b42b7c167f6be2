"""Everything of a draft beside its widths: levels, pieces, darts, seams, layers and parts."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from itertools import pairwise
from typing import Any

from core.draft.document import darts_in, label_in, named, pieces_in
from core.draft.layers import layers_to_put_on
from core.draft.own_kinds import Kept
from core.draft.sums import said
from core.draft.width_shift import sides_of
from core.lengths import read_length
from screens.parts.draft_at import OnTheTable
from screens.parts.draft_chosen import Opened
from screens.parts.draft_opened import COUNTED
from screens.parts.draft_rows import CellRow

SEAM_VALUES = {"turn": "turn", "minutes": "minutes", "keep": "stays inside",
               "comfort": "comfort"}  # fmt: skip
DART_VALUES = {"turn": "turn", "minutes": "minutes", "deepest": "at most"}
JOINED_VALUES = {"depth": "deep", "inner_radius": "radius", "turns": "of a circle",
                 "fullness": "fullness", "cut": "cut length", "minutes": "minutes"}  # fmt: skip
INSERT_VALUES = {"length": "long", "foot": "at the hem", "allowance": "allowance",
                 "count": "how many"}  # fmt: skip


UNNAMED = CellRow("")
DO = "do"
"""Opened, it is no number but something to be done at once."""


@dataclass(frozen=True, slots=True)
class DetailRow:
    """One part of the draft: its name, its numbers, and what can be done with it as a whole.

    A row with only a ``heading`` begins a group.  What can be done stands behind the numbers.
    """

    heading: str = ""
    name: CellRow = UNNAMED
    second: str = ""
    cells: tuple[CellRow, ...] = ()


def details(on: OnTheTable, own_kinds: Kept = ()) -> tuple[DetailRow, ...]:
    """Return the groups of a garment and what is in them, for the layer in hand.

    One that is put together by hand begins with its levels and pieces.
    """
    layer = on.layer.label.lower()
    shape = (("Levels", _levels(on)), (f"Pieces, {layer}", _pieces(on)))
    work = (
        (f"Darts, {layer}", _darts(on)),
        (f"Seams, {layer}", _seams(on)),
        ("Parts joined to it", _parts(on)),
        ("This garment", _garment(on)),
        ("Layers", _layers(on, own_kinds)),
    )
    begun = on.ring is not None and bool(on.ring.levels)
    return tuple(row for heading, rows in ((*work, *shape) if begun else (*shape, *work))
                 for row in _group(heading, rows))  # fmt: skip


def _group(heading: str, rows: Iterator[DetailRow]) -> Iterator[DetailRow]:
    found = list(rows)
    if found:
        yield DetailRow(heading)
        yield from found


def _does(*verbs: tuple[str, str]) -> tuple[CellRow, ...]:
    """Return verbs with their words as cells to touch."""
    return tuple(CellRow(words, Opened(DO, verb)) for verb, words in verbs)


def _name(on: OnTheTable, what: str, id: str, label: str) -> CellRow:
    opened = Opened("name", id, "", what)
    return CellRow(label, opened, lit=on.chosen.opened == opened)


def _cell(on: OnTheTable, words: str, opened: Opened, caption: str) -> CellRow:
    return CellRow(words or "–", opened, caption, lit=on.chosen.opened == opened)


def _length(on: OnTheTable, typed: Any) -> str:
    return "" if typed is None else said(read_length(typed, on.unit).mm, on.unit)


def _garment(on: OnTheTable) -> Iterator[DetailRow]:
    drop = _cell(on, said(on.garment.drop, on.unit), Opened("drop"), "drop of the top")
    yield DetailRow(name=_name(on, "garment", "", on.garment.name), cells=(drop, *_does(
        ("own", "Keep this as my own kind"), ("clients", "Copy to another client"),
        ("afresh", "Work out afresh"),
    )))  # fmt: skip


def _layers(on: OnTheTable, own_kinds: Kept) -> Iterator[DetailRow]:
    for number, layer in enumerate(on.garment.layers):
        keys = _does((f"layer off:{layer.id}", "Take off")) if number else ()
        yield DetailRow(name=_name(on, "layers", layer.id, layer.label), cells=keys)
    put_on = layers_to_put_on(on.written, own_kinds)
    if put_on:
        yield DetailRow(cells=_does(*((f"layer on:{name}", f"Put on: {label}")
                                      for name, label in put_on)))  # fmt: skip


def _levels(on: OnTheTable) -> Iterator[DetailRow]:
    for name, _ in named(on.written, "levels"):
        level = on.garment.levels[name]
        places = tuple(
            _cell(on, said(level.downs[place], on.unit), Opened("height", "", name, place), place)
            for place in ("front", "side", "back") if place in level.downs
        )  # fmt: skip
        places = places or (
            _cell(on, said(level.down, on.unit), Opened("height", "", name), "down"),
        )
        yield DetailRow(
            name=_name(on, "levels", name, level.label),
            cells=(*places, *_does((f"remove level:{name}", "Take away"))),
        )
    yield DetailRow(cells=_does(("add level", "Add a level")))


def _pieces(on: OnTheTable) -> Iterator[DetailRow]:
    for _, name, piece in pieces_in(on.layer_written):
        fold = "on fold" if piece.get("fold") else ""
        yield DetailRow(name=_name(on, "pieces", name, label_in(piece, name)), second=fold,
                        cells=_does((f"remove piece:{name}", "Take away")))  # fmt: skip
    yield DetailRow(cells=_does(("add piece", "Add a piece"),
                                ("add fold", "Add a piece on the fold")))  # fmt: skip


def _darts(on: OnTheTable) -> Iterator[DetailRow]:
    for _, piece_id, piece in pieces_in(on.layer_written):
        for name, dart in darts_in(piece_id, piece):
            yield DetailRow(
                name=_name(on, "darts", name, label_in(dart, name)),
                second=label_in(piece, piece_id).lower(),
                cells=(*_dart_cells(on, name, dart),
                       *_does((f"remove dart:{name}", "Take away"))),
            )
    keys = tuple(
        (f"add dart:{name}", f"Add one to the {label_in(piece, name).lower()}")
        for _, name, piece in pieces_in(on.layer_written) if piece.get("width")
    )  # fmt: skip
    if keys:
        yield DetailRow(cells=_does(*keys))


def _dart_cells(on: OnTheTable, name: str, dart: Mapping[str, Any]) -> Iterator[CellRow]:
    for level, typed in (dart.get("take_up") or {}).items():
        at = on.garment.levels[level].label.lower()
        amounts = dict.fromkeys(_length(on, one) for one in sides_of(typed))
        yield _cell(on, " | ".join(amounts), Opened("take up", name, level), f"at the {at}")
    for end, words in (("top", "top"), ("point", "point")):
        typed = (dart.get("ends") or {}).get(end)
        if typed is not None:
            yield _cell(on, _length(on, typed), Opened("end", name, "", end), words)
    yield from _values(on, dart, name, DART_VALUES, "dart")


def _seams(on: OnTheTable) -> Iterator[DetailRow]:
    told: set[str] = set()
    for ring_id, ring in named(on.layer_written, "rings"):
        for name, seam in named(ring, "seams"):
            if name not in told:
                told.add(name)
                yield DetailRow(
                    name=_name(on, "seams", name, label_in(seam, name)),
                    cells=(*_allowances(on, name), *_values(on, seam, name, SEAM_VALUES, "seam"),
                           *_does((f"remove seam:{ring_id}:{name}", "Take away"))),
                )  # fmt: skip
    keys = tuple((f"add seam:{one}:{other}", words) for one, other, words in _to_join(on))
    if keys:
        yield DetailRow(cells=_does(*keys))


def _to_join(on: OnTheTable) -> Iterator[tuple[str, str, str]]:
    """Yield the neighbours in the round that no seam joins yet."""
    if on.ring is None or not on.ring.pieces:
        return
    pieces, last = on.ring.pieces, on.ring.pieces[-1]
    joined = {frozenset(seam.joins) for seam in on.ring.seams}
    pairs = list(pairwise(pieces))
    pairs += [(last, last)] if on.ring.kind == "half" and not last.fold else []
    for one, other in pairs:
        if frozenset((one.id, other.id)) not in joined:
            words = (f"Join {one.label.lower()} and {other.label.lower()}" if one is not other
                     else f"Centre seam of the {one.label.lower()}")  # fmt: skip
            yield one.id, other.id, words


def _allowances(on: OnTheTable, name: str) -> Iterator[CellRow]:
    """Yield a seam's allowance once, or at each level where they are unlike."""
    rings = [(ring, seam) for ring in on.layer.rings for seam in ring.seams if seam.id == name]
    found = []
    for ring, seam in rings:
        downs = [(level, on.garment.levels[level].down) for level in ring.levels]
        found += [(level, seam.allowance.between(seam.joins[0], level, downs) or 0.0)
                  for level in ring.levels_of(seam)]  # fmt: skip
    if found and len({round(mm, 2) for _, mm in found}) == 1:
        yield _cell(on, said(found[0][1], on.unit), Opened("allowance", name), "allowance")
        return
    for level, mm in found:
        at = on.garment.levels[level].label.lower()
        yield _cell(on, said(mm, on.unit), Opened("allowance", name, level), f"at the {at}")


def _values(
    on: OnTheTable, entry: Mapping[str, Any], name: str, values: Mapping[str, str], owner: str
) -> Iterator[CellRow]:
    for what, caption in values.items():
        typed = entry.get(what)
        if typed is not None and not isinstance(typed, Mapping):
            words = str(typed) if what in COUNTED else _length(on, typed)
            yield _cell(on, words, Opened("behaviour", name, "", f"{what}:{owner}"), caption)


def _parts(on: OnTheTable) -> Iterator[DetailRow]:
    for of, values in (("joined", JOINED_VALUES), ("inserts", INSERT_VALUES)):
        for name, part in named(on.written, of):
            cells = tuple(
                _cell(on, str(part[what]) if what in COUNTED else _length(on, part[what]),
                      Opened(of, name, "", what), caption)
                for what, caption in values.items() if part.get(what) is not None
            )  # fmt: skip
            places = tuple(
                _cell(on, on.garment.levels[level].label, Opened(of, name, "", what), what)
                for what in ("level", "from", "to")
                if (level := str(part.get(what, ""))) in on.garment.levels
            )
            yield DetailRow(name=_name(on, of, name, label_in(part, name)),
                            second=_where(on, part), cells=(
                                *places, *cells, *_does((f"remove {of}:{name}", "Take away"))
                            ))  # fmt: skip
    if on.ring is not None and on.ring.levels:
        yield DetailRow(cells=_does(
            ("add flounce", "Add a part cut on the round"), ("add band", "Add a band"),
            ("add godet", "Add a godet"),
        ))  # fmt: skip


def _where(on: OnTheTable, part: Mapping[str, Any]) -> str:
    """Return where a part is joined: ``at the waist``, ``in the side seam``."""
    level = on.garment.levels.get(str(part.get("level", "")))
    if level is not None:
        return f"at the {level.label.lower()}"
    seam = next((seam.label.lower() for ring in on.layer.rings for seam in ring.seams
                 if seam.id == part.get("seam")), "")  # fmt: skip
    return f"in the {seam}" if seam else ""
