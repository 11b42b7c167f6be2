"""A draft worked out from the tape: a kind's rules and one client's measurements."""

from collections.abc import Mapping, Sequence
from itertools import pairwise
from typing import Any

from core.body.measurements import label_of
from core.draft.circles import inner_radius_mm
from core.draft.kind_template import in_unit, left_out, without_levels
from core.draft.kinds import Kind
from core.draft.marks import marks_of, mm_of, write_marks
from core.draft.pieces import DraftedRing, draft_ring
from core.draft.rule_terms import Place, Sheet, sum_in_words, terms_of, total
from core.errors import CannotDraft
from core.lengths import MM_PER_UNIT, Unit, read_length
from core.records.fitting import Taken
from core.records.garment import Ease, Level

Drafted = Mapping[tuple[str, str], DraftedRing]
"""Every ring worked out, by layer and ring."""


def work_out(
    kind: Kind,
    values_mm: Mapping[str, Taken],
    *,
    drop_mm: float | None = None,
    ease: Mapping[str, Ease] | None = None,
    unit: Unit = "in",
    name: str = "",
    id: str = "garment_1",
) -> dict[str, Any]:
    """Return a garment of this kind in the fitting file's shape, lengths in ``unit``.

    ``values_mm`` are her measurements in mm; where left and right differ the larger
    serves.  ``drop_mm`` is how far the garment starts below the side neck point (the
    kind's own where not given); ``ease`` by level beats the kind's.  Every term is
    rounded to what can be marked, 1/32 in or 0.5 mm, and each width is the sum of its
    rounded terms.  Raises ``CannotDraft`` naming every measurement that is missing, or
    the piece that would have no width.  An optional level that was not taken is left out.
    """
    taken = [name for name, value in values_mm.items() if value.on(None) is not None]
    template = without_levels(dict(kind.template), left_out(kind.template, taken))
    template = in_unit(template, unit)
    sheet = _sheet(kind, template, values_mm, drop_mm, ease or {}, unit)
    levels = _levels(template, sheet)
    drafted = {
        (layer["id"], ring["id"]): draft_ring(
            ring, sheet, {seam: entry for (of, seam), entry in kind.seams.items()
                          if of == layer["id"]}, levels)
        for layer in template["layers"] for ring in layer["rings"]
    }  # fmt: skip
    _refuse_missing(sheet)
    _refuse_heights(template, sheet)
    garment = _written(kind, template, drafted, sheet, ease or {})
    return {"id": id, "name": name or kind.label, "kind": kind.id, **garment}


def _sheet(
    kind: Kind,
    template: Mapping[str, Any],
    values_mm: Mapping[str, Taken],
    drop_mm: float | None,
    ease: Mapping[str, Ease],
    unit: Unit,
) -> Sheet:
    if drop_mm is None:
        drop_mm = read_length(template.get("drop", "0"), "in").mm
    return Sheet(
        unit=unit,
        values=values_mm,
        drop=marks_of(drop_mm, unit),
        ease={**kind.ease, **ease},
        more=kind.more,
        levels={level["id"]: level for level in template["levels"]},
    )


def _levels(template: Mapping[str, Any], sheet: Sheet) -> dict[str, Level]:
    """Return the levels at their heights, each rule leaning only on those listed before it."""
    for level in template["levels"]:
        sheet.down[level["id"]] = total(terms_of(level["rule"], sheet, Place()))
    return {
        name: Level(name, str(entry["label"]), mm_of(sheet.down[name], sheet.unit))
        for name, entry in sheet.levels.items()
    }


def _refuse_missing(sheet: Sheet) -> None:
    if sheet.missing:
        labels = ", ".join(label_of(name) for name in sheet.missing)
        raise CannotDraft(f"Not taken yet: {labels}")


def _refuse_heights(template: Mapping[str, Any], sheet: Sheet) -> None:
    for ring in (ring for layer in template["layers"] for ring in layer["rings"]):
        names = ring.get("levels", list(sheet.levels))
        for above, below in pairwise(names):
            if sheet.down[below] <= sheet.down[above]:
                upper, lower = (sheet.levels[name]["label"] for name in (above, below))
                raise CannotDraft(f"{lower} would not lie below {upper}: take the heights again")


def _written(
    kind: Kind,
    template: Mapping[str, Any],
    drafted: Drafted,
    sheet: Sheet,
    ease: Mapping[str, Ease],
) -> dict[str, Any]:
    heel = sheet.taken("heel_of_the_day")
    return {
        **template,
        "drop": sheet.said(sheet.drop),
        **({} if heel is None else {"heel_of_the_day": sheet.said(heel)}),
        "levels": [_written_level(level, sheet) for level in template["levels"]],
        "ease": _written_ease(kind, template, drafted, sheet, ease),
        "layers": [
            {**layer, "rings": [drafted[layer["id"], ring["id"]].written
                                for ring in layer["rings"]]}
            for layer in template["layers"]
        ],
        "joined": [_written_joined(part, drafted, sheet) for part in template.get("joined", [])],
        "lines": [_written_line(line, sheet) for line in template.get("lines", [])],
        "inserts": [_with_rule(part, "length", sheet) for part in template.get("inserts", [])],
        "across_darts": _written_across(template, sheet),
        "fittings": [],
    }  # fmt: skip


def _written_level(level: Mapping[str, Any], sheet: Sheet) -> dict[str, Any]:
    written = {key: value for key, value in level.items() if key not in ("rule", "optional")}
    written["down"] = sheet.said(sheet.down[level["id"]])
    terms = terms_of(level["rule"], sheet, Place())
    return {**written, "sum": sum_in_words(terms, sheet.unit)} if terms else written


def _written_ease(
    kind: Kind,
    template: Mapping[str, Any],
    drafted: Drafted,
    sheet: Sheet,
    given: Mapping[str, Ease],
) -> dict[str, str]:
    """Return the ease by level; where the kind says so it is what the draft came to have."""
    first = template["layers"][0]["id"]
    rings = [ring for (layer, _), ring in drafted.items() if layer == first]
    written = dict(template["ease"])
    for level in kind.ease_as_drafted:
        body = sheet.taken(sheet.levels[level]["body"])
        if body is not None:
            finished = sum(2 * ring.half_round(level) for ring in rings)
            written[level] = sheet.said(finished - body)
    said = {level: _said_ease(one, sheet) for level, one in given.items() if level in sheet.levels}
    return {**written, **said}


def _said_ease(ease: Ease, sheet: Sheet) -> str:
    if ease.share is not None:
        return f"{ease.share * 100:g}%"
    return sheet.said(marks_of(ease.mm, sheet.unit))


def _with_rule(part: Mapping[str, Any], key: str, sheet: Sheet) -> dict[str, Any]:
    """Return a part with the length its rule gives; without it where something is not taken."""
    found = _if_taken(part[key], sheet, Place(level=part.get("level", "")))
    rest = {name: value for name, value in part.items() if name != key}
    if found is None:
        return rest
    marks, said = found
    return {**rest, key: write_marks(marks, sheet.unit), "sum": said}


def _written_line(line: Mapping[str, Any], sheet: Sheet) -> dict[str, Any]:
    if isinstance(line.get("ease"), list):
        found = _if_taken(line["ease"], sheet, Place())
        line = {**line, "ease": None if found is None else sheet.said(found[0])}
    return _with_rule(line, "sewn", sheet)


def _if_taken(rule: Sequence[Any], sheet: Sheet, place: Place) -> tuple[int, str] | None:
    terms = terms_of(rule, sheet, place)
    missing = bool(sheet.missing)
    sheet.missing.clear()
    return None if missing else (total(terms), sum_in_words(terms, sheet.unit))


def _written_joined(
    part: Mapping[str, Any], drafted: Drafted, sheet: Sheet
) -> dict[str, Any]:
    """Return a joined part: a band with its cut length, or a circular part with its radius."""
    if "cut" in part:
        return _with_rule(part, "cut", sheet)
    if "turns" not in part:
        return dict(part)
    joined = _with_rule(part, "depth", sheet)
    half = drafted[part["layer"], part["ring"]].half_round(part["level"])
    turns = read_length(part["turns"], "mm").mm
    radius = inner_radius_mm(2 * mm_of(half, sheet.unit), turns)
    return {**joined, "inner_radius": round(radius / MM_PER_UNIT[sheet.unit], 2)}


def _written_across(template: Mapping[str, Any], sheet: Sheet) -> list[dict[str, Any]]:
    """Return the darts that lie across, which no width counts; only those with a depth."""
    darts = template.get("across_darts", [])
    depths = [_if_taken(dart["take_up"], sheet, Place()) or (0, "") for dart in darts]
    return [_with_rule(dart, "take_up", sheet)
            for dart, (depth, _) in zip(darts, depths, strict=True) if depth > 0]  # fmt: skip
