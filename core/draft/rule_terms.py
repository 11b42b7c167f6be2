"""The terms of a draft's rules: what each one is worth, and how it is said.

A rule is a list of terms added up.  A term is one of

- ``body/4``, ``ease/4``: the level's body girth and ease, whole or divided;
- ``more``, ``-more``: what the front quarter has over the body's quarter (the back less);
- ``darts``: all darts of the piece there; ``seam:side``: the allowance of one edge;
- ``at:hip``: the piece's own net width at another level; ``-net:front``: less another
  piece's net width at this level;
- ``down:waist``: the height of a level above; ``drop``: how far the garment starts below
  the side neck point; ``crotch_ease``; ``fixed 1 1/2``; or any body measurement.

A minus before it takes it off.  With ``{"take": ..., "words": ...}`` it has words of its own;
``{}`` in the words of a fixed term stands for its length.
"""

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any

from core.body.measurements import label_of
from core.draft.marks import divided, marks_of, write_marks
from core.lengths import Unit, read_length
from core.records.fitting import Taken
from core.records.garment import Ease

_TERM = re.compile(r"(?P<sign>-?)(?P<name>\w+)(?::(?P<of>\w+))?(?:/(?P<parts>\d+))?")


@dataclass(frozen=True, slots=True)
class Term:
    """One term in whole marks with its words; ``sewn_away`` for allowances and darts."""

    marks: int
    words: str
    sewn_away: bool = False


@dataclass(slots=True)
class Sheet:
    """What the rules of one draft are worked from, and what was found on the way.

    ``missing`` gathers the measurements that a rule asked for and nobody took.
    """

    unit: Unit
    values: Mapping[str, Taken]
    drop: int
    ease: Mapping[str, Ease]
    more: Mapping[str, float]
    levels: Mapping[str, Mapping[str, Any]]
    down: dict[str, int] = field(default_factory=dict)
    missing: dict[str, None] = field(default_factory=dict)

    def taken(self, name: str) -> int | None:
        """Return a measurement in marks, the larger body side where the two differ."""
        value = self.values.get(name)
        there = [] if value is None else [
            side for side in (value.left, value.right) if side is not None
        ]  # fmt: skip
        return marks_of(max(there), self.unit) if there else None

    def asked(self, name: str) -> int:
        """Return a measurement in marks; notes it as missing where nobody took it."""
        found = self.taken(name)
        if found is None:
            self.missing[name] = None
        return found or 0

    def ease_at(self, level: str) -> int:
        """Return the ease of a level in marks."""
        ease = self.ease.get(level, Ease())
        if ease.share is None:
            return marks_of(ease.mm, self.unit)
        return divided(round(self.asked(self.levels[level]["body"]) * ease.share * 1000), 1000)

    def more_at(self, level: str) -> int:
        """Return (front arc - body / 2) / 2 in marks, or the kind's where none was taken."""
        entry = self.levels[level]
        arc = self.taken(entry.get("front_arc", ""))
        if arc is None:
            return marks_of(self.more.get(level, 0.0), self.unit)
        return divided(2 * arc - self.asked(entry["body"]), 4)

    def crotch_ease(self) -> int:
        """Return the crotch depth ease in marks: 1/2, 3/4 or 1 in by the hip.

        1/2 under a hip of 36, 1 over 38, 3/4 between: New Mexico State University
        guide C-209, whose scan misprints the middle one.
        """
        hip = self.asked("hip_girth")
        inches = 0.5 if hip < self._inches(36) else 1.0 if hip > self._inches(38) else 0.75
        return self._inches(inches)

    def said(self, marks: int) -> str:
        return write_marks(marks, self.unit)

    def _inches(self, inches: float) -> int:
        return marks_of(inches * 25.4, self.unit)


@dataclass(frozen=True, slots=True)
class Place:
    """Where a rule stands: its level, and for a width its piece and what lies in it (marks)."""

    level: str = ""
    darts: int = 0
    dart_count: int = 0
    allowances: Mapping[str, int] = field(default_factory=dict)
    seam_labels: Mapping[str, str] = field(default_factory=dict)
    own_net: Mapping[str, int] = field(default_factory=dict)
    other_nets: Mapping[str, int] = field(default_factory=dict)
    piece_labels: Mapping[str, str] = field(default_factory=dict)


def terms_of(rule: Sequence[Any], sheet: Sheet, place: Place) -> list[Term]:
    """Return the terms of a rule with their worth; one worth nothing is left out."""
    found = [_term(entry, sheet, place) for entry in rule]
    return [term for term in found if term.marks]


def total(terms: Sequence[Term]) -> int:
    """Return the sum of the terms in marks."""
    return sum(term.marks for term in terms)


def sum_in_words(terms: Sequence[Term], unit: Unit) -> str:
    """Return the sum as she would say it: ``7 1/2 (waist 30 / 4) + 1 (dart) = 8 1/2``."""
    said = ""
    for term in terms:
        sign = "-" if term.marks < 0 else "+"
        lead = f" {sign} " if said else "-" if term.marks < 0 else ""
        said += f"{lead}{write_marks(abs(term.marks), unit)} ({term.words})"
    return f"{said or '0'} = {write_marks(total(terms), unit)}"


def measurements_in(rule: Sequence[Any]) -> list[str]:
    """Return the body measurements that a rule asks for by name."""
    takes = [_split(entry)[0] for entry in rule]
    found = [_TERM.fullmatch(take) for take in takes if not take.startswith("fixed ")]
    return [term["name"] for term in found
            if term and not term["of"] and term["name"] not in _WORTH]  # fmt: skip


def _split(entry: Any) -> tuple[str, str]:
    return (entry, "") if isinstance(entry, str) else (entry["take"], entry["words"])


def _term(entry: Any, sheet: Sheet, place: Place) -> Term:
    take, words = _split(entry)
    if take.startswith("fixed "):
        marks = marks_of(read_length(take[6:], "in").mm, sheet.unit)
        return Term(marks, words.replace("{}", sheet.said(abs(marks))))
    found = _TERM.fullmatch(take)
    if found is None:
        raise ValueError(f"“{take}” is not a term")
    sign, parts = (-1 if found["sign"] else 1), int(found["parts"] or 1)
    if found["of"]:
        return _of_a_place(found["name"], found["of"], sign, words, sheet, place)
    if found["name"] in _WORTH:
        term: Term = _WORTH[found["name"]](sheet, place, sign, parts)
        return Term(term.marks, words or term.words, term.sewn_away)
    return _measured(found["name"], sign, parts, words, sheet)


def _of_a_place(
    name: str, of: str, sign: int, words: str, sheet: Sheet, place: Place
) -> Term:
    if name == "seam":
        label = words or f"{place.seam_labels[of].lower()} allowance"
        return Term(sign * place.allowances[of], label, sewn_away=True)
    if name == "net":
        return Term(sign * place.other_nets[of], words or f"less the {_lower(place, of)}")
    label = str(sheet.levels[of]["label"]).lower()
    if name == "at":
        return Term(sign * place.own_net[of], words or f"as at the {label}")
    if name == "down":
        return Term(sign * sheet.down[of], words or label)
    raise ValueError(f"“{name}:{of}” is not a term")


def _lower(place: Place, piece: str) -> str:
    return place.piece_labels[piece].lower()


def _measured(name: str, sign: int, parts: int, words: str, sheet: Sheet) -> Term:
    whole = sheet.asked(name)
    if parts == 1:
        return Term(sign * whole, words or label_of(name).lower())
    said = f"{words} {sheet.said(whole)}" if words else (
        f"{label_of(name).lower()} {sheet.said(whole)} / {parts}"
    )  # fmt: skip
    return Term(sign * divided(whole, parts), said)


def _over(parts: int) -> str:
    return "" if parts == 1 else f" / {parts}"


def _body(sheet: Sheet, place: Place, sign: int, parts: int) -> Term:
    entry = sheet.levels[place.level]
    whole = sheet.asked(entry["body"])
    words = f"{entry['label'].lower()} {sheet.said(whole)}{_over(parts)}"
    return Term(sign * divided(whole, parts), words)


def _ease(sheet: Sheet, place: Place, sign: int, parts: int) -> Term:
    whole = sheet.ease_at(place.level)
    return Term(sign * divided(whole, parts), f"ease {sheet.said(whole)}{_over(parts)}")


def _more(sheet: Sheet, place: Place, sign: int, parts: int) -> Term:
    more = sheet.more_at(place.level)
    front = "front is more" if more > 0 else "front is less"
    back = "back is less" if more > 0 else "back is more"
    return Term(sign * more, front if sign > 0 else back)


def _darts(sheet: Sheet, place: Place, sign: int, parts: int) -> Term:
    words = "dart" if place.dart_count == 1 else "darts"
    return Term(sign * place.darts, words, sewn_away=True)


def _drop(sheet: Sheet, place: Place, sign: int, parts: int) -> Term:
    return Term(sign * sheet.drop, "drop")


def _crotch_ease(sheet: Sheet, place: Place, sign: int, parts: int) -> Term:
    return Term(sign * sheet.crotch_ease(), "crotch depth ease")


_WORTH = {
    "body": _body, "ease": _ease, "more": _more, "darts": _darts, "drop": _drop,
    "crotch_ease": _crotch_ease,
}  # fmt: skip
