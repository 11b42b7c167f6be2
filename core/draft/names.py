"""Her own names for the parts of a draft; the printed sums say them too."""

from collections.abc import Callable, Iterator
from typing import Any

from core.draft.document import (
    CannotChange,
    Document,
    Part,
    change,
    darts_in,
    garment_in,
    label_in,
    named,
    pieces_in,
    unit_of,
)
from core.draft.printed_sum import read_sum, write_sum
from core.errors import NotFound
from core.lengths import Unit

LONGEST = 60


IN_GARMENT = ("levels", "layers", "joined", "lines", "inserts", "openings")


def rename_garment(document: Document, name: str, *, garment: str) -> None:
    """Give a garment another name; raises ``CannotChange`` for an empty or a long one."""
    name = good_name(name)
    change(document, garment, lambda after: after.update(name=name))


def rename(
    document: Document, label: str, *, garment: str, what: str, id: str, layer: str = ""
) -> None:
    """Give a part of a draft her own name; the sums say it from now on.

    ``what`` is the list it is in: ``levels``, ``layers``, ``pieces``, ``seams``, ``darts``,
    ``joined``, ``lines``, ``inserts`` or ``openings``.  A seam, piece or dart of the same id in
    several layers is named in all, or in the one told.  Raises ``CannotChange`` for an empty or
    a long name, or one with brackets, which stand for something else in a sum; ``NotFound``.
    """
    label = good_name(label)
    unit = unit_of(document)

    def edit(after: Part) -> None:
        if not put_name(after, what, id, label, unit, layer=layer):
            raise NotFound(f"There is nothing called “{id}” in this draft")

    garment_in(document, garment)
    change(document, garment, edit, label)


def put_name(
    garment: Part, what: str, of: str, label: str, unit: Unit, *, layer: str = ""
) -> bool:
    """Name every part of this id, and say it so in the sums; tell whether there was one."""
    found = [entry for name, entry in _parts(garment, what, layer) if name == of]
    for entry in found:
        before = label_in(entry, of).lower()
        entry["label"] = label
        _say(garment, _renaming(before, label.lower()), unit)
    return bool(found)


def good_name(label: str) -> str:
    """Return a name with its blanks put right; raises ``CannotChange`` where it is none."""
    label = " ".join(label.split())
    if not label:
        raise CannotChange("A name needs at least one letter. The draft is as it was.")
    if len(label) > LONGEST or set(label) & set("()=#"):
        raise CannotChange("A name is short and without brackets. The draft is as it was.")
    return label


def _parts(garment: Part, what: str, layer: str) -> Iterator[tuple[str, Part]]:
    if what in IN_GARMENT:
        yield from named(garment, what)
        return
    for name, one in named(garment, "layers"):
        if name != (layer or name):
            continue
        if what == "seams":
            for _, ring in named(one, "rings"):
                yield from named(ring, "seams")
        for _, piece_id, piece in pieces_in(one):
            yield from [(piece_id, piece)] if what == "pieces" else []
            yield from darts_in(piece_id, piece) if what == "darts" else []


def _renaming(before: str, after: str) -> Callable[[str], str]:
    """Return what a term's name becomes where a part's name stands in it."""

    def name(said: str) -> str:
        if said == before:
            return after
        for shape in ("{} allowance", "less the {}", "as at the {}"):
            if said == shape.format(before):
                return shape.format(after)
        return after + said[len(before) :] if _is_girth(said, before) else said

    return name


def _is_girth(said: str, label: str) -> bool:
    """Tell whether a term is a level's girth: its name, and then a number (``waist 30 / 4``)."""
    rest = said.removeprefix(f"{label} ")
    return rest != said and rest[:1].isdigit()


def _say(part: Any, name: Callable[[str], str], unit: Unit) -> None:
    if isinstance(part, dict):
        for key, value in part.items():
            if key == "sum":
                part[key] = _said(value, name, unit)
            elif key != "fittings":
                _say(value, name, unit)
    elif isinstance(part, list):
        for value in part:
            _say(value, name, unit)


def _said(said: Any, name: Callable[[str], str], unit: Unit) -> Any:
    if isinstance(said, dict):
        return {level: _said(one, name, unit) for level, one in said.items()}
    printed = read_sum(said, unit) if isinstance(said, str) else None
    return said if printed is None else write_sum(printed.renamed(name), unit)
