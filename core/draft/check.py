"""The check before cutting, in lines: what agrees, what to look at, what is only told."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Literal

from core.draft.before_cutting import Check, before_cutting
from core.draft.kinds import kind
from core.draft.marks import MARK_MM
from core.draft.printed_sum import read_sum
from core.draft.sums import said
from core.file.fitting_file import FittingFile
from core.lengths import Unit
from core.records.fitting import Taken
from core.records.garment import Garment, Layer, Piece, Ring
from core.sewn.compare import body_at
from core.wording import listed

Told = Literal["agrees", "caution", "note"]


@dataclass(frozen=True, slots=True)
class CheckLine:
    """One line of the check: ``what`` was compared, and the comparison in words."""

    told: Told
    what: str
    text: str


@dataclass(frozen=True, slots=True)
class DraftCheck:
    """The check as a whole: one headline, then its lines, those to look at first."""

    agrees: bool
    headline: str
    lines: tuple[CheckLine, ...]


def check_draft(file: FittingFile, garment: Garment) -> DraftCheck:
    """Return what the draft says against her newest tape, before the cloth is cut.

    Finished girths, fronts by their own arc, heights less the drop, sitting and walking.  A
    width that she set by hand is told, not judged against its sum; what was not taken is named.
    """
    values = {name: taken for name, (taken, _) in body_at(file.sittings, None).values.items()}
    own = dict(_set_by_hand(garment, file.unit))
    checks = [check for check in before_cutting(
        garment, values, unit=file.unit, kind=kind(garment.kind), client_ease=file.client.ease,
    ) if not _is_sum(check) or not (check.ok or check.what in own)]  # fmt: skip
    cautions = [CheckLine("caution", check.what, check.text) for check in checks if not check.ok]
    agreeing = [CheckLine("agrees", check.what, check.text) for check in checks if check.ok]
    notes = [CheckLine("note", what, text) for what, text in own.items()]
    notes += _not_taken(garment, values)
    return DraftCheck(
        not cautions, _headline(garment, cautions, checks), (*cautions, *agreeing, *notes)
    )


def _headline(garment: Garment, cautions: Sequence[CheckLine], checks: Sequence[Check]) -> str:
    if cautions:
        things = "One thing" if len(cautions) == 1 else f"{len(cautions)} things"
        return f"{things} to look at before cutting"
    first = garment.layers[0] if garment.layers else None
    whats = {check.what for check in checks}
    levels = dict.fromkeys(
        garment.levels[level].label.lower().partition(",")[0]
        for ring in (first.rings if first else ()) for level in ring.levels
        if whats & _girths_at(_place(garment, first, ring, level))
    ) if first else {}  # fmt: skip
    if not levels:
        return "Nothing to check yet: nothing she has taken is in this draft"
    return f"Agrees with the tape at {listed(list(levels))}"


def _place(garment: Garment, layer: Layer, ring: Ring, level: str) -> str:
    """Return a place as the check names it: ``Outer, body, waist``."""
    return f"{layer.label}, {ring.label.lower()}, {garment.levels[level].label.lower()}"


def _girths_at(place: str) -> set[str]:
    """Return what the check calls the girths at a place: the round's, or each side's."""
    return {place, f"{place}, left", f"{place}, right"}


def _is_sum(check: Check) -> bool:
    """Tell whether a check only works a printed sum again: one that is right needs no line."""
    return check.text.startswith("width ")


def _set_by_hand(garment: Garment, unit: Unit) -> Iterator[tuple[str, str]]:
    for layer in garment.layers:
        for ring in layer.rings:
            for piece in ring.pieces:
                for level in piece.width:
                    text = _by_hand(piece, level, unit)
                    if text:
                        place = _place(garment, layer, ring, level)
                        yield f"{place}, {piece.label.lower()}", text


def _by_hand(piece: Piece, level: str, unit: Unit) -> str:
    printed = read_sum(piece.sums.get(level, ""), unit)
    off = [width for width in piece.width[level]
           if printed and abs(width - printed.result_mm) > MARK_MM[unit] / 2]  # fmt: skip
    if printed is None or not off:
        return ""
    return f"{said(off[0], unit)} set by hand; worked out it is {said(printed.result_mm, unit)}"


def _not_taken(garment: Garment, values: Mapping[str, Taken]) -> list[CheckLine]:
    """Return a line for each level that is judged by a girth nobody took."""
    return [
        CheckLine("note", level.label, "not measured, so not judged")
        for level in garment.levels.values()
        if level.body and (level.body not in values or values[level.body].on(None) is None)
    ]
