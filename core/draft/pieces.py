"""The pieces of a draft: each width as the sum of its rule, darts with their ends."""

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from typing import Any

from core.draft.marks import marks_of, mm_of, write_marks
from core.draft.rule_terms import Place, Sheet, sum_in_words, terms_of, total
from core.errors import CannotDraft
from core.lengths import SMALLEST_MM, read_length
from core.records.garment import Dart, Level, Seam
from core.sewn.shape import take_up_at


@dataclass(frozen=True, slots=True)
class DraftedRing:
    """A ring as it goes into the file, with its net widths in marks by piece and level."""

    written: dict[str, Any]
    nets: Mapping[str, Mapping[str, int]]

    def half_round(self, level: str) -> int:
        """Return the sum of the net widths at a level: one half, or one copy (marks)."""
        return sum(net.get(level, 0) for net in self.nets.values())


@dataclass(slots=True)
class _Work:
    """One ring while it is worked out; ``darts`` and ``nets`` fill up piece by piece."""

    sheet: Sheet
    ring: Mapping[str, Any]
    seams: Mapping[str, Seam]
    levels: Mapping[str, Level]
    nets: dict[str, dict[str, int]] = field(default_factory=dict)
    widths: dict[str, dict[str, str]] = field(default_factory=dict)
    sums: dict[str, dict[str, str]] = field(default_factory=dict)
    darts: dict[str, list[Dart]] = field(default_factory=dict)

    def piece(self, name: str) -> Mapping[str, Any]:
        found: Mapping[str, Any] = next(
            entry for entry in self.ring["pieces"] if entry["id"] == name
        )
        return found


def draft_ring(
    ring: Mapping[str, Any], sheet: Sheet, seams: Mapping[str, Seam], levels: Mapping[str, Level]
) -> DraftedRing:
    """Return a ring of a kind worked out for the measurements in the sheet.

    ``seams`` are the kind's, by id; ``levels`` have their heights.  Raises
    ``CannotDraft`` where a piece would have less than no width.
    """
    work = _Work(sheet, ring, seams, levels)
    for piece in ring["pieces"]:
        work.darts[piece["id"]] = [_dart(entry, work) for entry in piece.get("darts", [])]
    for piece in ring["pieces"]:
        for level in piece["rule"]:
            _net(piece["id"], level, work)
    pieces = [_written_piece(piece, work) for piece in ring["pieces"]]
    return DraftedRing({**ring, "pieces": pieces}, work.nets)


def _net(piece: str, level: str, work: _Work) -> int:
    """Return a piece's net width in marks, working out first what its rule leans on."""
    known = work.nets.setdefault(piece, {})
    if level in known:
        return known[level]
    rule = work.piece(piece)["rule"][level]
    place = _place(piece, level, rule, work)
    terms = terms_of(rule, work.sheet, place)
    net = sum(term.marks for term in terms if not term.sewn_away)
    if net < 0 and not work.sheet.missing:
        raise CannotDraft(_nothing_left(piece, level, work))
    known[level] = net
    work.widths.setdefault(piece, {})[level] = write_marks(total(terms), work.sheet.unit)
    work.sums.setdefault(piece, {})[level] = sum_in_words(terms, work.sheet.unit)
    return net


def _nothing_left(piece: str, level: str, work: _Work) -> str:
    label = work.piece(piece)["label"]
    at = work.sheet.levels[level]["label"].lower()
    return (f"{label} would have less than no width at the {at}:"
            " look at the measurements again, or choose another kind")  # fmt: skip


def _place(piece: str, level: str, rule: list[Any], work: _Work) -> Place:
    takes = [entry if isinstance(entry, str) else entry["take"] for entry in rule]
    own = {take[3:]: _net(piece, take[3:], work) for take in takes if take.startswith("at:")}
    others = {take[5:]: _net(take[5:], level, work) for take in takes if take.startswith("-net:")}
    ids = [take[5:] for take in takes if take.startswith("seam:")]
    darts = work.darts[piece]
    return Place(
        level=level,
        darts=sum(_take_up(dart, level, work) for dart in darts),
        dart_count=len(darts),
        allowances={name: _allowance(name, piece, level, work) for name in ids},
        seam_labels={entry["id"]: entry["label"] for entry in work.ring["seams"]},
        own_net=own,
        other_nets=others,
        piece_labels={entry["id"]: entry["label"] for entry in work.ring["pieces"]},
    )


def _allowance(seam: str, piece: str, level: str, work: _Work) -> int:
    names = work.ring.get("levels", list(work.levels))
    downs = [(name, work.levels[name].down) for name in names]
    found = work.seams[seam].allowance.between(piece, level, downs)
    if found is None:
        raise ValueError(f"{seam} has no allowance at {level}")
    return marks_of(found, work.sheet.unit)


def _take_up(dart: Dart, level: str, work: _Work) -> int:
    return marks_of(take_up_at(dart, work.levels, level)[0], work.sheet.unit)


def _dart(entry: Mapping[str, Any], work: _Work) -> Dart:
    top, point = (_height(entry["ends"][end], work) for end in ("top", "point"))
    if top >= point and not work.sheet.missing:
        raise CannotDraft(f"{entry['label']} would have no length: take the heights again")
    dart = Dart(entry["id"], entry["label"], {}, top=top, point=point)
    unit = work.sheet.unit
    given = {level: mm_of(marks_of(read_length(typed, "in").mm, unit), unit)
             for level, typed in entry["take_up"].items()}  # fmt: skip
    inside = {level: (mm, mm) for level, mm in given.items()
              if top - SMALLEST_MM <= work.levels[level].down <= point + SMALLEST_MM}  # fmt: skip
    return replace(dart, take_up=inside)


def _height(rule: list[Any], work: _Work) -> float:
    return mm_of(total(terms_of(rule, work.sheet, Place())), work.sheet.unit)


def _written_piece(piece: Mapping[str, Any], work: _Work) -> dict[str, Any]:
    name = piece["id"]
    written = {key: value for key, value in piece.items() if key not in ("rule", "darts")}
    written["width"] = {level: work.widths[name][level] for level in piece["rule"]}
    written["sum"] = {level: work.sums[name][level] for level in piece["rule"]}
    if work.darts[name]:
        written["darts"] = [
            _written_dart(entry, dart, piece["rule"], work)
            for entry, dart in zip(piece["darts"], work.darts[name], strict=True)
        ]
    return written


def _written_dart(
    entry: Mapping[str, Any], dart: Dart, levels: Mapping[str, Any], work: _Work
) -> dict[str, Any]:
    unit = work.sheet.unit
    depths = {level: _take_up(dart, level, work) for level in levels}
    written = {key: value for key, value in entry.items() if key != "centre"}
    written["take_up"] = {level: write_marks(depth, unit) for level, depth in depths.items()
                          if depth}  # fmt: skip
    written["ends"] = {
        "top": write_marks(marks_of(dart.top or 0.0, unit), unit),
        "point": write_marks(marks_of(dart.point or 0.0, unit), unit),
    }
    centre = _centre(entry["centre"], work.sheet)
    return {**written, "centre_from": centre} if centre else written


def _centre(centre: Mapping[str, Any], sheet: Sheet) -> str:
    """Return where the dart lies, in words; nothing where its measurement was not taken."""
    if "rule" not in centre:
        return str(centre["words"])
    name = str(centre["rule"][0]).partition("/")[0]
    if not name.startswith("fixed") and sheet.taken(name) is None:
        return ""
    marks = total(terms_of([_worded(centre["rule"][0])], sheet, Place()))
    return f"{write_marks(marks, sheet.unit)} {centre['words']}"


def _worded(take: str) -> dict[str, str]:
    return {"take": take, "words": ""}
