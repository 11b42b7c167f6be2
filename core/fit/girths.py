"""The garment's own girths taped before she steps in: the few that matter, and set against the sum.

A girth taped inside the garment beats the sum of its widths (draft and moves drift apart).
"""

from collections.abc import Iterator
from dataclasses import dataclass

from core.draft.kinds import kind
from core.fit.written import Part, length_typed
from core.lengths import Unit
from core.records.answer import Side
from core.records.fitting import Client, Fitting, Sitting
from core.records.garment import Garment
from core.sewn.compare import Wanted, body_at, compare
from core.sewn.rounds import Round, rounds_of

MOST = 3
"""How many of one round are worth her time before she steps in."""


@dataclass(frozen=True, slots=True)
class GirthToTape:
    """One girth: what the widths add up to, and what was taped (mm)."""

    layer: str
    ring: str
    ring_label: str
    level: str
    label: str
    side: Side | None
    sum_mm: float
    taped_mm: float | None

    @property
    def apart_mm(self) -> float:
        """How much the tape differs from the sum of the widths (mm, positive: taped larger)."""
        return 0.0 if self.taped_mm is None else self.taped_mm - self.sum_mm


def girths_to_tape(
    garment: Garment, client: Client, sittings: tuple[Sitting, ...], fitting: Fitting
) -> tuple[GirthToTape, ...]:
    """Return the girths worth taping: of the first layer, where the body is known.

    In each round the three levels with the least ease, for there a slip shows first; those taped
    already stay among them.  From top to bottom.
    """
    if not garment.layers:
        return ()
    layer, body = garment.layers[0], body_at(sittings, fitting)
    found: list[GirthToTape] = []
    for around in rounds_of(garment, layer, fitting):
        wanted = [
            entry
            for entry in compare(around, garment, client, kind(garment.kind), fitting, body)
            if entry.body is not None
        ]
        least = sorted(wanted, key=lambda entry: entry.ease)[:MOST]
        shown = {entry.level for entry in least} | set(around.taped)
        found += _shown(around, garment, wanted, shown)
    return tuple(found)


def _shown(
    around: Round, garment: Garment, wanted: list[Wanted], shown: set[str]
) -> Iterator[GirthToTape]:
    for level in around.ring.levels:
        if level in shown and level in around.sewn:
            yield GirthToTape(
                layer=around.layer.id,
                ring=around.ring.id,
                ring_label=around.ring.label,
                level=level,
                label=garment.levels[level].label,
                side=around.side,
                sum_mm=around.sewn[level],
                taped_mm=around.taped.get(level),
            )


def set_girth(
    fitting: Part, unit: Unit, *, layer: str, ring: str, level: str, side: Side | None, typed: str
) -> None:
    """Write down a girth taped inside the garment, as typed; empty takes it away.

    Of two sleeves or legs each has its own.  Raises ``BadLength`` with nothing changed.
    """
    text = length_typed(typed, unit) if typed.strip() else None
    girths = dict(fitting.get("sewn_girths") or {})
    rings = dict(girths.get(layer) or {})
    levels = dict(rings.get(ring) or {})
    before = levels.get(level)
    if side is None:
        after: object = text
    else:
        both = dict.fromkeys(("left", "right"), before)
        sides = dict(before) if isinstance(before, dict) else both
        sides[side] = text
        after = {name: value for name, value in sides.items() if value is not None} or None
    levels = {**levels, level: after}
    rings[ring] = {name: value for name, value in levels.items() if value is not None}
    girths[layer] = {name: value for name, value in rings.items() if value}
    kept = {name: value for name, value in girths.items() if value}
    if kept:
        fitting["sewn_girths"] = kept
    else:
        fitting.pop("sewn_girths", None)
