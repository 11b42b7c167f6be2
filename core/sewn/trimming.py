"""What was trimmed: to which allowance each moved seam was cut, kept with what was sewn there.

What she says is kept in the fitting's ``trim_to``, an optional field of ours:
``{"outer": {"side": "3/4"}}``.  Ticking the trimming writes it into ``trimmed`` of the ``done``
entries of that seam, at each edge that moved; unticking takes exactly that back.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from core.errors import WorkroomError
from core.lengths import SMALLEST_MM, Unit, mm_written
from core.records.answer import Move, Plan, Step
from core.records.garment import Garment
from core.wording import Words

Entry = dict[str, Any]


class CannotTrim(WorkroomError):
    """More is to be left than there is; says where, and that nothing was ticked."""


@dataclass(frozen=True, slots=True)
class Trim:
    """A moved seam, what is inside where least is left (mm), and to what it was trimmed."""

    layer: str
    seam: str
    label: str
    inside_mm: float
    inside: str
    typed: str
    to_mm: float | None
    said: str = ""

    @property
    def too_much(self) -> bool:
        """Tell whether it would leave more than there is inside."""
        return self.to_mm is not None and self.to_mm > self.inside_mm + SMALLEST_MM


def trims_of(
    plan: Plan, step: Step, garment: Garment, fitting: Mapping[str, Any], unit: Unit
) -> tuple[Trim, ...]:
    """Return each seam that moves, for the step that trims; none for another step."""
    if step.group != "trim":
        return ()
    moved: dict[tuple[str, str], list[Move]] = {}
    for move in plan.moves:
        if move.seam is not None and move.move and move.allowance_left is not None:
            moved.setdefault((move.layer, move.seam), []).append(move)
    return tuple(_trim(at, moves, garment, fitting, Words(unit)) for at, moves in moved.items())


def keep_trim(fitting: Entry, trim: Trim, typed: str) -> None:
    """Write down to what a seam is trimmed, as typed; empty takes it away."""
    held = fitting.get("trim_to")
    to = {layer: dict(seams) for layer, seams in held.items() if isinstance(seams, dict)
          } if isinstance(held, dict) else {}  # fmt: skip
    seams = to.setdefault(trim.layer, {})
    if typed:
        seams[trim.seam] = typed
    else:
        seams.pop(trim.seam, None)
    to = {layer: seams for layer, seams in to.items() if seams}
    if to:
        fitting["trim_to"] = to
    else:
        fitting.pop("trim_to", None)


def refuse_too_much(trims: Sequence[Trim]) -> None:
    """Raise ``CannotTrim`` where more is to be left than there is."""
    said = [f"{trim.label}: {trim.said}" for trim in trims if trim.too_much]
    if said:
        raise CannotTrim(f"{'. '.join(said)}. Nothing was ticked: say less, or leave it empty")


def write_trimmed(fitting: Entry, note: Entry, first_layer: str) -> None:
    """Write what was said into the sewn entries; ``note`` remembers how they were before."""
    to = fitting.get("trim_to")
    for entry in fitting.get("done") or [] if isinstance(to, dict) else []:
        layer = entry.get("layer") or first_layer
        seams = to.get(layer) if isinstance(to, dict) else None
        typed = seams.get(entry.get("seam")) if isinstance(seams, dict) else None
        edges = {str(move["edge"]) for move in entry.get("moves") or [] if move.get("edge")}
        trimmed = dict.fromkeys(sorted(edges), typed)
        if typed and entry.get("trimmed") != trimmed:
            note.setdefault("trimmed", []).append({
                "layer": layer, "seam": entry["seam"], "side": entry.get("side") or "both",
                **({"before": entry["trimmed"]} if "trimmed" in entry else {}),
            })  # fmt: skip
            entry["trimmed"] = trimmed


def take_back_trimmed(fitting: Entry, note: Mapping[str, Any], first_layer: str) -> None:
    """Let the sewn entries be as they were before the trimming was ticked."""
    for held in note.get("trimmed") or []:
        for entry in fitting.get("done") or []:
            at = (entry.get("layer") or first_layer, entry.get("seam"))
            if at != (held.get("layer"), held.get("seam")) or "trimmed" not in entry:
                continue
            if held.get("side") not in ("both", entry.get("side") or "both"):
                continue
            if "before" in held:
                entry["trimmed"] = held["before"]
            else:
                del entry["trimmed"]


def _trim(
    at: tuple[str, str], moves: Sequence[Move], garment: Garment, fitting: Mapping[str, Any],
    words: Words,
) -> Trim:  # fmt: skip
    layer, seam = at
    least = min(moves, key=lambda move: (round(move.allowance_left or 0.0, 4),
                                         garment.levels[move.level].down))  # fmt: skip
    inside = max(least.allowance_left or 0.0, 0.0)
    typed = _typed(fitting, layer, seam)
    to_mm = mm_written(typed, words.unit)
    label = _label(garment, layer, seam)
    level = garment.levels[least.level].label.lower().partition(",")[0]
    said = ""
    if to_mm is not None and to_mm > inside + SMALLEST_MM:
        said = f"Only {words.length(inside)} is inside at the {level}"
    return Trim(layer, seam, label, inside, words.length(inside), typed, to_mm, said)


def _label(garment: Garment, layer: str, seam: str) -> str:
    found, label = garment.layer(layer), garment.label_of("seam", seam, layer)
    if found is None or found is garment.layers[0]:
        return label
    return f"{found.label}, {label.lower()}"


def _typed(fitting: Mapping[str, Any], layer: str, seam: str) -> str:
    held: Any = fitting.get("trim_to")
    for name in (layer, seam):
        held = held.get(name) if isinstance(held, dict) else None
    return str(held) if isinstance(held, str | int | float) else ""
