"""A draft worked out again from her tape of now, with what she changed by hand or without it."""

from collections.abc import Mapping
from copy import deepcopy
from typing import Any

from core.client.her_defaults import with_defaults
from core.draft.by_hand import NOTHING_BY_HAND, ByHand, by_hand
from core.draft.darts import follow_heights
from core.draft.document import (
    CannotChange,
    Document,
    Part,
    change,
    find,
    garment_in,
    named,
    record_of,
)
from core.draft.kinds import Kind
from core.draft.own_kinds import Kept, as_she_made_it, kind_of
from core.draft.parts import follow_levels
from core.draft.poured import pour
from core.draft.start import drafted, tape_of
from core.file.fitting_file import FittingFile, read_document
from core.lengths import Unit

_LOGGED = ("pins", "tucks", "done", "sewn_girths", "marks", "hem")


def work_out_again(document: Document, *, garment: str, own_kinds: Kept = ()) -> None:
    """Bring a draft to her tape of now and keep what she changed by hand.

    Widths, heights, take-ups and dart ends that are hers (``core.draft.by_hand`` says which) stay
    as typed, above a sum that shows what they would be.  Her ease, allowances, drop, names, layers
    and parts stay, and the rest is worked out with them.  Raises ``CannotDraft`` with what is
    missing, ``CannotChange`` where the garment is of no kind or was fitted already.
    """
    written, usual, file = _ready(document, garment, own_kinds)
    hers = by_hand(written, usual, file.unit)
    new = worked_out_as_hers(written, usual, file, hers)
    change(document, garment, lambda after: pour(after, new, hers, usual, file.unit, keep=True))


def work_out_afresh(
    document: Document, *,
    garment: str, own_kinds: Kept = (), defaults: Mapping[str, Any] | None = None,
) -> None:  # fmt: skip
    """Work a draft out as if for the first time: every number as the kind and her tape have it.

    Widths, heights, ease, darts, allowances and the drop are new; names, the layers and parts
    she kept, fittings and notes stay.  Raises as ``work_out_again``.
    """
    written, usual, file = _ready(document, garment, own_kinds)
    made = as_she_made_it(usual, written, file.unit, numbers=False)
    new = drafted(made, tape_of(file), file)
    new = with_defaults(new, defaults or {}, file.unit, words=False)

    change(
        document,
        garment,
        lambda after: pour(after, new, NOTHING_BY_HAND, usual, file.unit, keep=False),
    )


def _ready(
    document: Document, garment: str, own_kinds: Kept
) -> tuple[Part, Kind, FittingFile]:  # fmt: skip
    written = garment_in(document, garment)
    usual = kind_of(written, own_kinds)
    if usual is None:
        raise CannotChange(
            "This garment came from no kind, so there is nothing to work it out from."
            " Change its numbers by hand."
        )
    if any(fitting.get(what) for fitting in written.get("fittings") or [] for what in _LOGGED):
        raise CannotChange(
            "This garment has been fitted: its draft says how it was cut, and stays so."
            " Start a new garment from it, and work that out."
        )
    return written, usual, read_document({**document, "garments": [written]})


def worked_out_as_hers(written: Part, usual: Kind, file: FittingFile, hers: ByHand) -> Part:
    """Return a draft on her tape of now with this garment's choices, its levels where she put them.

    ``file`` holds that garment alone.  Raises ``CannotDraft`` with what is missing.
    """
    made = as_she_made_it(usual, written, file.unit, hers)
    ease = {level: one for level, one in file.garments[0].ease.items()
            if level not in usual.ease_as_drafted}  # fmt: skip
    new = drafted(
        made, tape_of(file), file,
        drop=str(written.get("drop", "0")), ease={**file.client.ease, **ease},
    )  # fmt: skip
    return _at_her_heights(new, written, made, hers, file.unit)


def _at_her_heights(new: Part, written: Part, usual: Kind, hers: ByHand, unit: Unit) -> Part:
    """Return a draft with its levels where she put them: darts and parts reach there as well."""
    raised = deepcopy(new)
    there = dict(named(raised, "levels"))
    for level in hers.heights & there.keys():
        there[level]["down"] = find(written, "levels", level)["down"]
    before = record_of(new, unit)
    follow_heights(raised, before, usual, NOTHING_BY_HAND, unit)
    follow_levels(raised, before, unit)
    return raised
