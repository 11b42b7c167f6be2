"""A new garment for a client: from a kind, from an earlier one, from another client's, or empty.

Each works on a document that is the caller's own and puts the garment at its end.
"""

from collections.abc import Mapping
from copy import deepcopy
from dataclasses import dataclass
from typing import Any

from core.client.her_defaults import with_defaults
from core.days import whole_day_of
from core.draft.by_hand import by_hand
from core.draft.document import CannotChange, Document, Part, garment_in, label_in, unit_of
from core.draft.drafting import work_out
from core.draft.kinds import Kind
from core.draft.made_from import template_of
from core.draft.needs import needs_of
from core.draft.own_kinds import Kept, kind_of, named_kind, read_own_kind
from core.draft.told_lengths import with_units
from core.errors import CannotDraft
from core.file.fitting_file import FittingFile, read_document
from core.lengths import read_length
from core.records.fitting import Taken
from core.records.garment import Ease
from core.sewn.compare import body_at
from core.wording import counted, sentence

_OF_ITS_DAY = ("fittings", "due", "uuid", "revision", "changed", "removed")
"""What a garment has of its own time: its copy begins without."""


@dataclass(frozen=True, slots=True)
class Begun:
    """A garment that was begun: its id, and what is to be said of it, each a sentence."""

    garment: str
    said: tuple[str, ...]


def begin_from_kind(
    document: Document, kind: str, *,
    id: str, name: str = "", drop: str = "", own_kinds: Kept = (),
    defaults: Mapping[str, Any] | None = None,
) -> Begun:  # fmt: skip
    """Work out a garment of a kind from her newest tape and the ease she likes.

    ``drop`` is typed; without it the neckline she wished serves a kind that begins below the
    shoulder.  ``defaults`` are the workroom's own turns, comforts and settings for kinds.
    Raises ``CannotDraft`` with every measurement that is missing and what can be left out,
    ``NotFound`` for an unknown kind; nothing is changed then.
    """
    usual, own = named_kind(kind, own_kinds)
    file = read_document(document)
    values = tape_of(file)
    garment = drafted(usual, values, file, drop=drop, name=name, id=id)
    if own:
        garment["own_kind"] = own
    garment = with_defaults(garment, defaults or {}, file.unit)
    _put(document, garment)
    left = needs_of(usual, list(values)).words
    return Begun(id, (f"Worked out from the tape of {_day(file)}.", *([left] if left else [])))


def begin_from_earlier(document: Document, garment: str, *, id: str, name: str = "") -> Begun:
    """Begin with a copy of an earlier garment of hers, without its fittings.

    Its numbers are as they were; working out again brings them to her tape of now.
    """
    copy = _copied(garment_in(document, garment), id, name)
    _put(document, copy)
    said = f"Copied from {label_in(garment_in(document, garment), garment)}, number by number."
    return Begun(id, (said,))


def begin_from_other(
    document: Document, other: Mapping[str, Any], garment: str, *,
    id: str, name: str = "", own_kinds: Kept = (),
) -> Begun:  # fmt: skip
    """Begin with another client's garment, worked out anew on this client's tape.

    What was changed there by hand stays a term of its own in the sums.  A garment of no kind
    is copied number by number, each with its unit where the files differ, and that is said.
    Raises ``CannotDraft`` where this client's tape is not enough.
    """
    source = garment_in(dict(other), garment)
    from_unit, unit = unit_of(other), unit_of(document)
    if kind_of(source, own_kinds) is None:
        copy = _copied(source, id, name)
        _put(document, copy if from_unit == unit else _without_sums(with_units(copy, from_unit)))
        return Begun(id, ("Its numbers are another client's: it came from no kind, so it could"
                          " not be worked out on this tape.",))  # fmt: skip
    data = template_of(source, id="copied", label="", unit=from_unit, own_kinds=own_kinds)
    file = read_document(document)
    usual = read_own_kind(data)
    begun = drafted(usual, tape_of(file), file, name=name or str(source.get("name", "")), id=id)
    _put(document, {**begun, **{key: source[key] for key in ("own_kind",) if key in source}})
    changed = len(by_hand(source, kind_of(source, own_kinds), from_unit).widths)
    kept = sentence(f"{counted(changed, 'width')} {'keeps' if changed == 1 else 'keep'}"
                    " what was changed by hand")  # fmt: skip
    said = f"Worked out anew from the tape of {_day(file)}."
    return Begun(id, (said, kept) if changed else (said,))


def begin_empty(document: Document, *, id: str, name: str) -> Begun:
    """Begin with nothing but an outer layer and a round to put pieces into."""
    ring = {"id": "body", "label": "Body", "kind": "half", "pieces": [], "seams": []}
    layer = {"id": "outer", "label": "Outer", "rings": [ring]}
    if not name.strip():
        raise CannotChange("A garment needs a name")
    _put(document, {"id": id, "name": name.strip(), "levels": [], "ease": {}, "layers": [layer],
                    "fittings": []})  # fmt: skip
    return Begun(id, ("Nothing in it yet: add a level and a piece first.",))


def tape_of(file: FittingFile) -> dict[str, Taken]:
    """Return the newest value of each of her measurements."""
    values = body_at(file.sittings, None).values
    return {name: taken for name, (taken, _) in values.items() if taken.on(None) is not None}


def drafted(
    usual: Kind, values: Mapping[str, Taken], file: FittingFile, *,
    drop: str = "", name: str = "", id: str = "garment", ease: Mapping[str, Ease] | None = None,
) -> Part:  # fmt: skip
    """Return a garment worked out; raises ``CannotDraft`` with everything that is missing."""
    wished = dict(file.client.ease) if ease is None else dict(ease)
    needs = needs_of(usual, list(values), wished)
    if needs.missing:
        raise CannotDraft(f"{usual.label} cannot be worked out yet. {needs.words}")
    drop_mm = _drop_mm(usual, values, drop, file)
    return work_out(usual, values, drop_mm=drop_mm, ease=wished, unit=file.unit, name=name, id=id)


def _drop_mm(
    usual: Kind, values: Mapping[str, Taken], typed: str, file: FittingFile
) -> float | None:  # fmt: skip
    """Return the drop typed; else the neckline she wished, where the kind starts below the neck."""
    if typed.strip():
        return read_length(typed, file.unit).mm
    wished = values.get("neckline_drop") if usual.template.get("drop") else None
    return None if wished is None else wished.on(None)


def _put(document: Document, garment: Part) -> None:
    """Put a garment at the end of the document, or raise with the document as it was."""
    if any(entry.get("id") == garment["id"] for entry in document.get("garments") or []):
        raise CannotChange("There is a garment with this id already")
    read_document({**document, "garments": [garment]})
    document["garments"] = [*(document.get("garments") or []), garment]


def _copied(garment: Mapping[str, Any], id: str, name: str) -> Part:
    kept = {key: value for key, value in garment.items() if key not in _OF_ITS_DAY}
    copy = {**deepcopy(kept), "id": id, "fittings": []}
    return {**copy, "name": name.strip()} if name.strip() else copy


def _without_sums(part: Any) -> Any:
    """Return a part without its printed sums, which are in another unit."""
    if isinstance(part, dict):
        return {key: _without_sums(value) for key, value in part.items() if key != "sum"}
    return [_without_sums(value) for value in part] if isinstance(part, list) else part


def _day(file: FittingFile) -> str:
    days = [sitting.on for sitting in file.sittings if sitting.on]
    return whole_day_of(max(days)) if days else "a day not noted"
