"""The girths taped inside after basting: what each should be, what it is, and whether they agree.

They are kept in the fitting's ``checked_girths``, an optional field of ours in the shape of
``sewn_girths``: what was found after this fitting's changes, not what she came in.  While the
check is not ticked any more they lie in ``girths_laid_aside``, so that the next fitting does not
begin with them.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any, Literal

from core.fit.girths import set_girth
from core.lengths import SMALLEST_MM, Unit, mm_written
from core.records.answer import LevelAnswer, Move, Plan, Side, Step
from core.records.garment import Garment
from core.wording import Words, listed

Judged = Literal["", "agrees", "larger", "smaller"]


@dataclass(frozen=True, slots=True)
class CheckedGirth:
    """One girth to tape: what it should be and what it is (mm).

    ``apart_mm`` is positive where it is larger than it should be.  ``look`` says where the
    difference may come from.
    """

    layer: str
    ring: str
    level: str
    label: str
    side: Side | None
    should_mm: float
    should: str
    typed: str
    is_mm: float | None
    judged: Judged = ""
    said: str = ""
    look: str = ""

    @property
    def apart_mm(self) -> float:
        return 0.0 if self.is_mm is None else self.is_mm - self.should_mm


def checked_girths(
    plan: Plan, step: Step, garment: Garment, fitting: Mapping[str, Any], unit: Unit
) -> tuple[CheckedGirth, ...]:
    """Return the girths a step asks for, from top to bottom; none where it asks for none."""
    if step.group != "baste and check":
        return ()
    words = Words(unit)
    return tuple(
        _girth(row, plan, garment, fitting, words)
        for row in plan.levels
        if row.layer == step.layer and abs(row.planned) > SMALLEST_MM
    )


def keep_girth(fitting: dict[str, Any], girth: CheckedGirth, typed: str, unit: Unit) -> None:
    """Write down what a girth is, as typed; empty takes it away.

    Raises ``BadLength`` or ``CannotLog`` with nothing changed.
    """
    _forget(fitting, girth)
    held = {"sewn_girths": fitting["checked_girths"]} if fitting.get("checked_girths") else {}
    set_girth(held, unit, layer=girth.layer, ring=girth.ring, level=girth.level,
              side=girth.side, typed=typed)  # fmt: skip
    if held.get("sewn_girths"):
        fitting["checked_girths"] = held["sewn_girths"]
    else:
        fitting.pop("checked_girths", None)


def lay_aside(fitting: dict[str, Any]) -> None:
    """Let the girths count no more: the check was unticked."""
    if fitting.get("checked_girths"):
        fitting["girths_laid_aside"] = fitting.pop("checked_girths")


def take_up(fitting: dict[str, Any]) -> None:
    """Let the girths that were laid aside count again, but for those that were taped anew."""
    laid = fitting.pop("girths_laid_aside", None)
    if isinstance(laid, dict):
        fitting["checked_girths"] = _over(laid, fitting.get("checked_girths") or {})


def _over(laid: Mapping[str, Any], anew: Mapping[str, Any]) -> dict[str, Any]:
    """Return both, level by level; where both have one, the new one."""
    both = {**laid, **anew}
    for name, held in laid.items():
        if isinstance(held, dict) and isinstance(anew.get(name), dict):
            both[name] = _over(held, anew[name])
    return both


def _girth(
    row: LevelAnswer, plan: Plan, garment: Garment, fitting: Mapping[str, Any], words: Words
) -> CheckedGirth:
    should = words.shown(row.as_sewn) + words.shown(row.planned)
    typed = _typed(fitting, row)
    is_mm = mm_written(typed, words.unit)
    label = row.label or row.level
    girth = (row.layer, row.ring, row.level, label, row.side, should, words.length(should))
    if is_mm is None:
        return CheckedGirth(*girth, typed="", is_mm=None)
    apart = is_mm - should
    if abs(apart) <= garment.settings.band + SMALLEST_MM:
        said = "Agrees" if not words.shows(apart) else f"Agrees, {_more(apart, words)}"
        return CheckedGirth(*girth, typed, is_mm, "agrees", said)
    judged: Judged = "larger" if apart > 0 else "smaller"
    return CheckedGirth(
        *girth, typed, is_mm, judged, _more(apart, words), _where(row, plan, garment, apart, words)
    )


def _more(apart: float, words: Words) -> str:
    return f"{words.length(apart)} {'too large' if apart > 0 else 'too small'}"


def _where(
    row: LevelAnswer, plan: Plan, garment: Garment, apart: float, words: Words
) -> str:
    """Return where a difference is to be looked for: what was moved there, and how many edges."""
    moved = [move for move in plan.moves
             if (move.layer, move.ring, move.level) == (row.layer, row.ring, row.level)
             and row.side in (None, move.side) and words.shows(move.move)]  # fmt: skip
    count = sum(move.edges for move in moved)
    places = dict.fromkeys(_called(move, garment) for move in moved)
    if not places:
        return ""
    each = f", about {words.length(apart / count)} on each" if count else ""
    return f"Look at: {listed(list(places))}. {count} sewing lines were moved here{each}."


def _called(move: Move, garment: Garment) -> str:
    what, name = ("seam", move.seam) if move.seam else ("dart", move.dart)
    return garment.label_of(what, name, move.layer).lower() if name else "the new dart"


def _forget(fitting: dict[str, Any], girth: CheckedGirth) -> None:
    """Take a girth that is taped anew from those laid aside."""
    held: Any = fitting.get("girths_laid_aside")
    names = [girth.layer, girth.ring, girth.level, *([girth.side] if girth.side else [])]
    for name in names[:-1]:
        held = held.get(name) if isinstance(held, dict) else None
    if isinstance(held, dict):
        held.pop(names[-1], None)


def _typed(fitting: Mapping[str, Any], row: LevelAnswer) -> str:
    for kept in ("checked_girths", "girths_laid_aside"):
        held: Any = fitting.get(kept)
        for name in (row.layer, row.ring, row.level):
            held = held.get(name) if isinstance(held, dict) else None
        if isinstance(held, dict):
            held = held.get(row.side) if row.side else None
        if isinstance(held, str | int | float):
            return str(held)
    return ""
