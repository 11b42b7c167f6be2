"""The parts joined to a draft: bands, flounces and other parts cut on the round, godets."""

import re
from typing import Any

from core.draft.document import (
    CannotChange,
    Document,
    Part,
    change,
    find,
    garment_in,
    label_in,
    length_mm,
    named,
    read_draft,
    record_of,
    unit_of,
)
from core.draft.joined_edges import radius_for, write_radius
from core.draft.printed_sum import PrintedSum, SumTerm, read_sum, write_exactly, write_sum
from core.lengths import Unit, read_length
from core.records.garment import Garment

LENGTHS = ("depth", "inner_radius", "cut", "length", "foot", "allowance")
SHARES = ("turns", "fullness", "count", "minutes")
LEVELS = ("level", "from", "to")
_NO_WORD = re.compile(r"\W+", re.ASCII)


def set_part(
    document: Document, what: str, typed: str, *, garment: str, part: str, of: str = "joined"
) -> None:
    """Set one value of a joined part or an insert (``of`` is ``joined`` or ``inserts``).

    Joined: ``depth``, ``inner_radius``, ``cut``, ``turns`` (``1/2``), ``fullness``, ``level``.
    Inserts: ``length``, ``foot``, ``allowance``, ``count``, ``from``, ``to``.  Lengths and turns
    are kept as typed.  A radius that was worked out follows its turns and its edge; one that is
    typed is hers.  Raises ``CannotChange``, ``NoCircle`` or ``BadLength`` with nothing changed.
    """

    def edit(after: Part) -> None:
        find(after, of, part)[what] = _value(document, after, what, typed.strip())

    entry = find(garment_in(document, garment), of, part)
    change(document, garment, edit, label_in(entry, part))


def work_out_radius(document: Document, *, garment: str, part: str) -> None:
    """Give a circular part the radius of the edge it joins, in place of one of her own.

    Raises ``CannotChange`` where that edge is not known.
    """
    unit = unit_of(document)

    def edit(after: Part) -> None:
        record = record_of(after, unit)
        joined = next(one for one in record.joined if one.id == part)
        radius = radius_for(record, joined)
        if radius is None:
            raise CannotChange("The edge it joins is not known yet. The draft is as it was.")
        find(after, "joined", part)["inner_radius"] = write_radius(radius, unit)

    find(garment_in(document, garment), "joined", part)
    change(document, garment, edit)


def add_circular_part(
    document: Document, label: str, *,
    garment: str, layer: str, ring: str, level: str, turns: str, depth: str,
) -> str:  # fmt: skip
    """Join a part cut on the round (a flounce, a circular skirt) at a level; returns its id.

    Its radius is worked out from the edge it joins: r = round / (2 pi turns).  Raises
    ``CannotChange`` or ``NotFound`` where the level is not there, ``BadLength``.
    """
    told = {"layer": layer, "ring": ring, "level": level, "turns": turns, "depth": depth}
    return _add(document, "joined", label, garment, told)


def add_band(
    document: Document, label: str, *,
    garment: str, layer: str, ring: str, level: str, cut: str, depth: str,
) -> str:  # fmt: skip
    """Join a straight band (waistband, cuff) so long and so deep at a level; returns its id."""
    told = {"layer": layer, "ring": ring, "level": level, "cut": cut, "depth": depth}
    return _add(document, "joined", label, garment, told)


def add_godet(
    document: Document, label: str, *,
    garment: str, layer: str, seam: str, start: str, end: str, length: str, foot: str,
    allowance: str,
) -> str:  # fmt: skip
    """Set a godet into a seam between two levels; returns its id.

    ``length`` is from its point to the hem, ``foot`` what it adds to the hem, along its curve.
    """
    told = {"layer": layer, "seam": seam, "from": start, "to": end, "length": length,
            "foot": foot, "allowance": allowance}  # fmt: skip
    return _add(document, "inserts", label, garment, told)


def remove_part(document: Document, *, garment: str, part: str, of: str = "joined") -> None:
    """Take a joined part or an insert out of the draft; raises ``NotFound``."""

    def edit(after: Part) -> None:
        after[of] = [entry for name, entry in named(after, of) if name != part]

    find(garment_in(document, garment), of, part)
    change(document, garment, edit)


def follow_levels(after: Part, before: Garment, unit: Unit) -> None:
    """Make lengths that reach from level to level (a flounce's depth, a godet) reach anew.

    A number that was hers stays as far off its sum as it was.
    """
    now = read_draft({**after, "layers": [], "fittings": []}, unit).levels
    moved = {level.label.lower(): now[name].down - level.down
             for name, level in before.levels.items()}  # fmt: skip
    for of, what in (("joined", "depth"), ("inserts", "length")):
        for _, part in named(after, of):
            printed = read_sum(part["sum"], unit) if isinstance(part.get("sum"), str) else None
            if what in part and printed is not None:
                reaching = _reaching(printed, moved)
                part["sum"] = write_sum(reaching, unit)
                length = read_length(part[what], unit).mm
                longer = reaching.result_mm - printed.result_mm
                part[what] = write_exactly(length + longer, unit) if longer else part[what]


def new_id(label: str, taken: list[str]) -> str:
    """Return an id of letters, digits and ``_`` for a label, unlike those there are.

    >>> new_id("Side front, left", ["side_front_left"])
    'side_front_left_2'
    """
    word = _NO_WORD.sub("_", label.strip().lower()).strip("_") or "part"
    tries = [word, *(f"{word}_{number}" for number in range(2, len(taken) + 3))]
    return next(name for name in tries if name not in taken)


def _add(document: Document, of: str, label: str, garment: str, told: dict[str, str]) -> str:
    written = garment_in(document, garment)
    name = new_id(label, [found for found, _ in named(written, of)])

    def edit(after: Part) -> None:
        layer = find(after, "layers", told["layer"])
        if "ring" in told:
            find(layer, "rings", told["ring"])
        values = {what: _value(document, after, what, typed.strip())
                  for what, typed in told.items()}  # fmt: skip
        after[of] = [*(after.get(of) or []), {"id": name, "label": label.strip(), **values}]

    change(document, garment, edit, label)
    return name


def _value(document: Document, garment: Part, what: str, typed: str) -> Any:
    """Return a value as the file keeps it; raises where it can't be one."""
    if what in LEVELS:
        find(garment, "levels", typed)
    elif what in LENGTHS:
        length_mm(typed, document)
    elif what in SHARES:
        number = read_length(typed, "mm").mm
        if number <= 0:
            raise CannotChange(f"“{typed}” must be more than nothing. The draft is as it was.")
        return typed if what == "turns" else int(number) if number == int(number) else number
    elif what not in ("layer", "ring", "seam"):
        raise CannotChange(f"“{what}” is nothing that a part has. The draft is as it was.")
    return typed


def _reaching(printed: PrintedSum, moved: dict[str, float]) -> PrintedSum:
    """Return a sum with every level's height in it where the level is now."""
    terms = []
    for term in printed.terms:
        by = moved.get(term.name, 0.0)
        terms.append(SumTerm(term.mm + (by if term.mm >= 0 else -by), term.name))
    grown = sum(term.mm for term in terms) - printed.worth_mm
    return PrintedSum(tuple(terms), printed.result_mm + grown)
