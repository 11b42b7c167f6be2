"""A seam's allowance changed by hand, the cut widths after it; and how a seam or dart behaves."""

from collections.abc import Iterator, Mapping
from typing import Any

from core.draft.document import (
    CannotChange,
    Document,
    Part,
    change,
    find,
    find_dart,
    find_piece,
    garment_in,
    label_in,
    length_mm,
    named,
    read_draft,
    record_of,
    unit_of,
)
from core.draft.marks import marks_of, mm_of
from core.draft.printed_sum import write_exactly
from core.draft.width_shift import between_marks_mm, shift_width, worth
from core.errors import NotFound
from core.lengths import Unit
from core.records.garment import Garment, Ring, Seam
from core.sewn.shape import allowance_at

NUMBERS = ("turn", "minutes", "weight")
LENGTHS = ("keep", "comfort", "most", "deepest")


def set_allowance(
    document: Document, typed: str, *,
    garment: str, layer: str, seam: str, level: str = "", piece: str = "",
) -> None:  # fmt: skip
    """Set a seam's allowance: the whole seam's, a level's, or one piece's edge; kept as typed.

    The cut widths grow or shrink with it, so that the finished garment stays.  Every other
    place keeps the allowance it had.  Raises ``BadLength`` or ``CannotChange``.
    """
    length_mm(typed, document)
    unit = unit_of(document)

    def edit(after: Part) -> None:
        before = record_of(after, unit)
        written = find(after, "layers", layer)
        for ring, record, entry in _rings_of(before, layer, written, seam, level):
            entry["allowance"] = _with(
                before, ring, record, entry.get("allowance"), typed.strip(), level, piece, unit
            )
        _bring_widths(after, before, layer, seam, unit)

    entry = seam_in(find(garment_in(document, garment), "layers", layer), seam)
    change(document, garment, edit, label_in(entry, seam))


def set_behaviour(
    document: Document, what: str, typed: str, *,
    garment: str, layer: str, seam: str = "", dart: str = "",
) -> None:  # fmt: skip
    """Set how a seam or a dart behaves: its ``turn``, ``minutes``, ``comfort``, ``keep``, ``most``.

    A length is kept as typed, a turn is a whole number.  Raises ``CannotChange``.
    """

    def edit(after: Part) -> None:
        written = find(after, "layers", layer)
        entries = [find_dart(written, dart)[3]] if dart else [
            entry for _, ring in named(written, "rings") for name, entry in named(ring, "seams")
            if name == seam
        ]  # fmt: skip
        for entry in entries:
            entry[what] = behaviour(what, typed)

    if not dart:
        seam_in(find(garment_in(document, garment), "layers", layer), seam)
    change(document, garment, edit)


def behaviour(what: str, typed: str) -> Any:
    """Return a behaviour as the file keeps it; raises ``CannotChange`` for what is none."""
    if what in LENGTHS:
        return typed.strip()
    if what not in NUMBERS:
        raise CannotChange(f"“{what}” is nothing that a seam has. The draft is as it was.")
    try:
        number = float(typed.strip().replace(",", "."))
    except ValueError:
        raise CannotChange(f"“{typed}” is not a number. The draft is as it was.") from None
    return int(number) if number == int(number) else number


def seam_in(layer: Part, name: str) -> Part:
    """Return a seam's entry in the first ring that has it; raises ``NotFound``."""
    for _, ring in named(layer, "rings"):
        for found, entry in named(ring, "seams"):
            if found == name:
                return entry
    raise NotFound(f"There is no seam “{name}” in this layer")


def edge_count(ring: Ring, seam: Seam) -> int:
    """Return how many edges of one piece the seam takes up: both, round a single piece."""
    return 2 if ring.kind == "closed" and seam.joins_itself else 1


def _rings_of(
    garment: Garment, layer: str, written: Part, seam: str, level: str
) -> Iterator[tuple[Ring, Seam, Part]]:
    """Yield where a seam runs, at this level where one is told: ring, record, and as written."""
    record = garment.layer(layer)
    rings = zip(record.rings if record else (), named(written, "rings"), strict=True)
    found = [
        (ring, one, find(entry, "seams", seam)) for ring, (_, entry) in rings
        if (one := ring.seam(seam)) and (not level or level in ring.levels_of(one))
    ]  # fmt: skip
    if not found:
        raise CannotChange("The seam does not reach this level. The draft is as it was.")
    yield from found


def _with(
    garment: Garment, ring: Ring, seam: Seam, before: Any, typed: str, level: str, piece: str,
    unit: Unit,
) -> Any:  # fmt: skip
    """Return the allowance with one place of it anew and every other said outright."""
    if not level and not piece:
        return typed
    pieces = dict.fromkeys(seam.joins)
    said = {
        name: {
            at: typed if at == (level or at) and name == (piece or name)
            else _as_it_is(garment, ring, seam, before, name, at, unit)
            for at in ring.levels_of(seam)
        }
        for name in pieces
    }  # fmt: skip
    first = next(iter(said.values()))
    return first if all(one == first for one in said.values()) else said


def _as_it_is(
    garment: Garment, ring: Ring, seam: Seam, before: Any, piece: str, level: str, unit: Unit
) -> Any:
    """Return an allowance as it was typed, or written out where it was read off."""
    typed = before
    for key in (piece, level):
        if isinstance(typed, Mapping):
            typed = typed.get(key, typed if key == piece else None)
    if typed is not None and not isinstance(typed, Mapping):
        return typed
    return write_exactly(allowance_at(garment, ring, seam, piece, level) or 0.0, unit)


def _bring_widths(after: Part, before: Garment, layer: str, seam: str, unit: Unit) -> None:
    """Make every piece wider by what its allowances grew, and its sums with it."""
    now = read_draft(after, unit)
    old, new = before.layer(layer), now.layer(layer)
    for ring, ring_now in zip(old.rings if old else (), new.rings if new else (), strict=True):
        was, is_now = ring.seam(seam), ring_now.seam(seam)
        if was is None or is_now is None:
            continue
        for name in dict.fromkeys(was.joins):
            piece = find_piece(find(after, "layers", layer), name)[1]
            for level in ring.levels_of(was):
                sizes = (allowance_at(before, ring, was, name, level) or 0.0,
                         allowance_at(now, ring_now, is_now, name, level) or 0.0)  # fmt: skip
                for _ in range(edge_count(ring, was)):
                    _bring_edge(piece, level, sizes, f"{was.label.lower()} allowance", unit)


def _bring_edge(
    piece: Part, level: str, sizes: tuple[float, float], name: str, unit: Unit
) -> None:  # fmt: skip
    before, after = sizes
    mm = between_marks_mm(before, after, unit)
    term = worth(mm_of(marks_of(before, unit), unit), name)
    shift_width(piece, level, (mm, mm), term, unit)
