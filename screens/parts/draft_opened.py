"""The number of the draft that lies open, with its sum and what can be done with it."""

from collections.abc import Callable, Iterator, Mapping
from typing import Any

from core.draft.document import (
    darts_in,
    find,
    find_dart,
    find_piece,
    label_in,
    named,
    pieces_in,
)
from core.draft.printed_sum import read_sum
from core.draft.sums import OpenedSum, ShownTerm, open_sum, said, shown_terms
from core.draft.width_shift import sides_of
from core.errors import NotFound
from core.lengths import read_length
from screens.parts.draft_at import OnTheTable
from screens.parts.draft_chosen import Opened
from screens.parts.draft_rows import CellRow, SumRow, TermRow
from screens.parts.draft_terms import leads_to

PLACES = ("front", "side", "back")

VALUES = {
    "depth": "deep", "inner_radius": "radius at its upper edge", "cut": "cut length",
    "turns": "of a full circle", "fullness": "times as full", "length": "long",
    "foot": "added to the hem", "allowance": "allowance", "count": "how many",
    "minutes": "minutes", "turn": "whose turn", "comfort": "given gladly an edge",
    "keep": "stays inside", "most": "taken in at most an edge", "deepest": "taken up at most",
}  # fmt: skip
"""What each value of a seam, dart or part is called under its number."""

COUNTED = frozenset({"turns", "fullness", "count", "minutes", "turn"})
"""Values that are no lengths: they are typed, not stepped by the garment's step."""


def open_number(on: OnTheTable) -> SumRow | None:
    """Return the number that is open, or nothing where it is not there any more."""
    opened = on.chosen.opened
    show = _SHOWS.get(opened.what)
    if show is None:
        return None
    try:
        return show(on, opened)
    except (NotFound, KeyError, StopIteration):  # taken away meanwhile: nothing lies open
        return None


def _width(on: OnTheTable, opened: Opened) -> SumRow:
    if on.ring is None:
        raise NotFound("There is no round here")
    piece = on.ring.piece(opened.of)
    _, entry = find_piece(on.layer_written, opened.of)
    if opened.level not in piece.width:
        at = on.garment.levels[opened.level].label.lower()
        return SumRow(opened, f"{piece.label} at the {at}", (), "–", "no width here",
                      "This piece does not reach here. Type a width and it does.", steps=False)
    side = "left" if opened.which == "left" else "right" if opened.which == "right" else None
    found = open_sum(on.garment, on.layer, on.ring, piece, opened.level, on.unit, side)
    typed = sides_of(entry["width"][opened.level])[side == "right"]
    return SumRow(
        opened, found.title, _terms(on, opened, found.terms), found.result, found.starts,
        note=_by_hand(found), typed=str(typed), keys=tuple(_width_keys(on, opened, found)),
        sides=_sides(on, opened, piece.width[opened.level]),
    )  # fmt: skip


def _by_hand(found: OpenedSum) -> str:
    return f"Set by hand. Worked out it is {found.worked_out}." if found.worked_out else ""


def _width_keys(on: OnTheTable, opened: Opened, found: OpenedSum) -> Iterator[tuple[str, str]]:
    if found.worked_out:
        yield f"set:{found.worked_out}", "As worked out"
    if not opened.which and on.ring and (on.ring.kind == "half" or on.ring.copies == 2):
        yield "which:left", "Left and right apart"
    if opened.which:
        yield "which:", "Both alike"
    yield "clear", "Does not reach here"


def _sides(on: OnTheTable, opened: Opened, pair: tuple[float, float]) -> tuple[CellRow, ...]:
    """Return her left and her right where they are typed apart."""
    if not opened.which:
        return ()
    return tuple(
        CellRow(said(mm, on.unit), Opened("width", opened.of, opened.level, side),
                f"her {side}", lit=opened.which == side)
        for side, mm in zip(("left", "right"), pair, strict=True)
    )  # fmt: skip


def _height(on: OnTheTable, opened: Opened) -> SumRow:
    entry = find(on.written, "levels", opened.level)
    level = on.garment.levels[opened.level]
    printed = read_sum(str(entry.get("sum", "")), on.unit)
    at = level.downs.get(opened.which, level.down)
    hers = printed is not None and abs(printed.result_mm - at) > 0.4
    caption = "down from the top edge" if not level.origin else f"down from the {level.origin}"
    down = entry.get("down", "0")
    typed = down.get(opened.which, down.get("side", "0")) if isinstance(down, Mapping) else down
    return SumRow(
        opened, f"{level.label}, height",
        _terms(on, opened, shown_terms(printed.terms, on.unit)) if printed else (),
        said(at, on.unit), caption,
        note=f"Set by hand. Worked out it is {said(printed.result_mm, on.unit)}."
        if hers and printed else "",
        typed=str(typed), steps=not level.downs or bool(opened.which),
        keys=(("which:front", "Front, side, back apart"),) if not opened.which else
        (("which:", "All round alike"),),
        sides=tuple(
            CellRow(said(level.downs.get(place, level.down), on.unit),
                    Opened("height", "", opened.level, place), place, lit=place == opened.which)
            for place in PLACES
        ) if opened.which or level.downs else (),
    )  # fmt: skip


def _ease(on: OnTheTable, opened: Opened) -> SumRow:
    level = on.garment.levels[opened.level]
    owner = on.layer_written if opened.of else on.written
    typed = str((owner.get("ease") or {}).get(opened.level, "0"))
    share = typed.strip().endswith("%")
    where = f"in the {on.layer.label.lower()} only" if opened.of else "more than the body"
    other = (("layer:", "For every layer"),) if opened.of else (
        ("layer:" + on.layer.id, f"For the {on.layer.label.lower()} only"),
    )  # fmt: skip
    less = typed.strip().startswith("-")
    caption = where if not less else where.replace("more", "less")
    words = typed if share else said(abs(read_length(typed, on.unit).mm), on.unit)
    return SumRow(
        opened, f"Ease at the {level.label.lower()}", (), f"-{words}" if less else words, caption,
        typed=typed, steps=not share,
        keys=(("turn", "More than the body" if less else "Less than the body"),
              ("share", "As a share of the girth"), *other),
    )  # fmt: skip


def _drop(on: OnTheTable, opened: Opened) -> SumRow:
    typed = str(on.written.get("drop", "0"))
    return SumRow(
        opened, "Drop of the top edge", (), said(on.garment.drop, on.unit),
        "below the side neck point", typed=typed,
        note="Heights taken from the side neck are less by it.",
    )  # fmt: skip


def _take_up(on: OnTheTable, opened: Opened) -> SumRow:
    _, piece_id, piece, entry = find_dart(on.layer_written, opened.of)
    typed = str((entry.get("take_up") or {}).get(opened.level, "0"))
    typed = str(sides_of(entry["take_up"][opened.level])[0]) if typed != "0" else typed
    at = on.garment.levels[opened.level].label.lower()
    return SumRow(
        opened, f"{label_in(entry, opened.of)} at the {at}", (),
        said(read_length(typed, on.unit).mm, on.unit), "taken up, both legs together",
        typed=typed, note=f"The {label_in(piece, piece_id).lower()} is cut wider by as much.",
    )  # fmt: skip


def _end(on: OnTheTable, opened: Opened) -> SumRow:
    _, _, _, entry = find_dart(on.layer_written, opened.of)
    typed = str((entry.get("ends") or {}).get(opened.which, "0"))
    end = "top" if opened.which == "top" else "point"
    return SumRow(
        opened, f"{label_in(entry, opened.of)}, {end}", (),
        said(read_length(typed, on.unit).mm, on.unit), "down from the top edge", typed=typed,
    )  # fmt: skip


def _allowance(on: OnTheTable, opened: Opened) -> SumRow:
    ring, seam = next((ring, seam) for ring in on.layer.rings for seam in ring.seams
                      if seam.id == opened.of)  # fmt: skip
    downs = [(name, on.garment.levels[name].down) for name in ring.levels]
    level = opened.level or next(iter(ring.levels_of(seam)), "")
    piece = opened.which or seam.joins[0]
    mm = seam.allowance.between(piece, level, downs) or 0.0
    at = f" at the {on.garment.levels[level].label.lower()}" if opened.level else ""
    edge = f", {ring.piece(piece).label.lower()}" if opened.which else ""
    text = said(mm, on.unit)
    return SumRow(
        opened, f"{seam.label}{at}{edge}", (), text, "inside the seam, each edge", typed=text,
        note="The pieces are cut wider by as much; the finished garment stays.",
        keys=tuple(_allowance_keys(opened, level)),
    )  # fmt: skip


def _allowance_keys(opened: Opened, level: str) -> Iterator[tuple[str, str]]:
    if opened.level:
        yield "level:", "The whole seam alike"
    elif level:
        yield "level:" + level, "Level by level"


def _behaviour(on: OnTheTable, opened: Opened) -> SumRow:
    what, _, kind = opened.which.partition(":")
    entry = _seam(on, opened.of) if kind == "seam" else find_dart(on.layer_written, opened.of)[3]
    typed = entry.get(what, "")
    typed = "" if isinstance(typed, Mapping) else str(typed)
    return SumRow(
        opened, label_in(entry, opened.of), (), _plain(typed, what, on), VALUES[what],
        typed=typed, steps=what not in COUNTED and bool(typed), counted=what in COUNTED,
    )  # fmt: skip


def _seam(on: OnTheTable, name: str) -> dict[str, Any]:
    return next(find(ring, "seams", name) for ring in on.layer_written["rings"]
                if any(seam.get("id") == name for seam in ring.get("seams") or []))  # fmt: skip


def _part(on: OnTheTable, opened: Opened) -> SumRow:
    entry = find(on.written, opened.what, opened.of)
    if opened.which in ("level", "from", "to"):
        return _part_level(on, opened, entry)
    typed = str(entry.get(opened.which, ""))
    printed = read_sum(str(entry.get("sum", "")), on.unit) if opened.which == "depth" else None
    keys = (("radius", "From the edge it joins"),) if opened.which == "inner_radius" else ()
    return SumRow(
        opened, label_in(entry, opened.of),
        _terms(on, opened, shown_terms(printed.terms, on.unit)) if printed else (),
        _plain(typed, opened.which, on), VALUES.get(opened.which, opened.which), typed=typed,
        steps=opened.which not in COUNTED and bool(typed), counted=opened.which in COUNTED,
        keys=keys,
    )  # fmt: skip


def _part_level(on: OnTheTable, opened: Opened, entry: Mapping[str, Any]) -> SumRow:
    """Return at which level a part is joined, with every other to choose from."""
    level = on.garment.levels[str(entry[opened.which])]
    keys = tuple((f"set:{one.id}", one.label) for one in on.garment.levels.values()
                 if one is not level)  # fmt: skip
    return SumRow(opened, label_in(entry, opened.of), (), level.label, opened.which, steps=False,
                  keys=keys, types=False)  # fmt: skip


def _plain(typed: str, what: str, on: OnTheTable) -> str:
    if not typed:
        return "–"
    return typed if what in COUNTED else said(read_length(typed, on.unit).mm, on.unit)


def _terms(
    on: OnTheTable, opened: Opened, terms: tuple[ShownTerm, ...]
) -> tuple[TermRow, ...]:  # fmt: skip
    return tuple(
        TermRow(term.sign, term.amount, term.name.removesuffix(" allowance"),
                leads_to(on, opened, term.name))
        for term in terms
    )  # fmt: skip


def _name(on: OnTheTable, opened: Opened) -> SumRow:
    """Return a name to be changed; ``words`` is what the part is called now."""
    if opened.which == "garment":
        return SumRow(opened, "What this garment is called", (), on.garment.name, "")
    label = dict(_labels(on, opened.which))[opened.of]
    return SumRow(opened, "Your word for it", (), label, "")


def _labels(on: OnTheTable, what: str) -> Iterator[tuple[str, str]]:
    """Yield the ids and labels of the parts in one list of the garment or of its layer."""
    if what in ("pieces", "darts"):
        for _, piece_id, piece in pieces_in(on.layer_written):
            if what == "pieces":
                yield piece_id, label_in(piece, piece_id)
            for name, dart in darts_in(piece_id, piece) if what == "darts" else ():
                yield name, label_in(dart, name)
    elif what == "seams":
        for _, ring in named(on.layer_written, "rings"):
            yield from ((name, label_in(seam, name)) for name, seam in named(ring, "seams"))
    else:
        yield from ((name, label_in(entry, name)) for name, entry in named(on.written, what))


_SHOWS: Mapping[str, Callable[[OnTheTable, Opened], SumRow]] = {
    "width": _width, "height": _height, "ease": _ease, "drop": _drop, "take up": _take_up,
    "end": _end, "allowance": _allowance, "behaviour": _behaviour, "joined": _part,
    "inserts": _part, "name": _name,
}  # fmt: skip
