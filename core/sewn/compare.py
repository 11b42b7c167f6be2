"""What a level should measure: body and ease, and which of them was used."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from core.body.measurements import tape_error_mm
from core.draft.kinds import Kind
from core.lengths import SMALLEST_MM
from core.records.answer import Side, Verdict
from core.records.fitting import Client, Fitting, Sitting, Taken
from core.records.garment import SIDES, Ease, Garment, Layer
from core.sewn.rounds import Round
from core.wording import listed

_NO_EASE = Ease()


@dataclass(frozen=True, slots=True)
class Body:
    """The client's measurements as they count at one fitting, each with its day.

    Where left and right were taken on two days ``values`` has the older, ``days`` each side's.
    """

    values: Mapping[str, tuple[Taken, str]]
    days: Mapping[tuple[str, Side | None], str] = field(default_factory=dict)

    def of(self, name: str, side: Side | None) -> tuple[float | None, str]:
        """Return a measurement in mm and the day it was taken; ``None`` where there is none."""
        taken, on = self.values.get(name, (None, ""))
        return (None if taken is None else taken.on(side)), self.days.get((name, side), on)


@dataclass(frozen=True, slots=True)
class Wanted:
    """One level of one round against the body, in mm; ``needed = wanted - as_sewn``."""

    level: str
    body: float | None
    body_on: str
    ease: float
    ease_from: str
    wanted: float | None
    as_sewn: float
    needed: float | None

    def beyond(self, band: float, amount: float | None = None) -> bool:
        """Tell whether the need (or another amount left) lies outside the band."""
        left = self.needed if amount is None else amount
        return left is not None and abs(left) > band + SMALLEST_MM


def body_at(sittings: Sequence[Sitting], fitting: Fitting | None) -> Body:
    """Return the newest value of each measurement on or before the fitting's day.

    Her left and her right each count from the day they were last taken.  What was taken at the
    fitting itself beats an older one.  A sitting without a day counts as the oldest.
    """
    until = fitting.on if fitting is not None and fitting.on else "9999-12-31"
    values: dict[str, tuple[Taken, str]] = {}
    days: dict[tuple[str, Side | None], str] = {}
    taken = [(one.on, one.values) for one in sorted(sittings, key=lambda entry: entry.on)
             if one.on <= until]  # fmt: skip
    for on, newer in taken if fitting is None else [*taken, (fitting.on, fitting.measurements)]:
        for name in newer:
            if name not in values or None not in (newer[name].left, newer[name].right):
                days |= {(name, side): on for side in SIDES}
                values[name] = newer[name], on
            else:
                _take_side(name, newer[name], on, values, days)
    return Body(values, days)


def _take_side(
    name: str, newer: Taken, on: str, values: dict[str, tuple[Taken, str]],
    days: dict[tuple[str, Side | None], str],
) -> None:  # fmt: skip
    """Take over the side that was taken on a day; the other stays as it was."""
    older, _ = values[name]
    both = {side: older.on(side) if newer.on(side) is None else newer.on(side) for side in SIDES}
    days |= {(name, side): on for side in SIDES if newer.on(side) is not None}
    counts = [days[name, side] for side in SIDES if both[side] is not None]
    values[name] = Taken(both["left"], both["right"], sided=True), min(counts, default=on)


def ease_at(
    level: str,
    layer: Layer,
    garment: Garment,
    client: Client,
    usual: Kind | None,
    fitting: Fitting | None,
) -> tuple[Ease, str]:
    """Return the ease at a level and whose it is.

    The fitting's (for the first layer only) beats the layer's, the layer's the garment's,
    the garment's the client's, the client's the kind's; else there is none.
    """
    first = bool(garment.layers) and garment.layers[0].id == layer.id
    sources: list[tuple[str, Mapping[str, Ease]]] = [
        ("the fitting", fitting.ease if fitting is not None and first else {}),
        ("the layer", layer.ease),
        ("the garment", garment.ease),
        ("the client", client.ease),
        ("the kind", usual.ease if usual is not None else {}),
    ]
    for source, eases in sources:
        if level in eases:
            return eases[level], source
    return _NO_EASE, ""


def compare(
    around: Round,
    garment: Garment,
    client: Client,
    usual: Kind | None,
    fitting: Fitting | None,
    body: Body,
) -> tuple[Wanted, ...]:
    """Compare each level where the round's girth is known with the body and its ease."""
    found = []
    for level in around.sewn:
        girth, on = body.of(garment.levels[level].body, around.side)
        ease, source = ease_at(level, around.layer, garment, client, usual, fitting)
        as_sewn = around.as_sewn(level)
        if girth is None:
            found.append(Wanted(level, None, "", ease.mm, source, None, as_sewn, None))
            continue
        wanted = girth + ease.of(girth)
        found.append(
            Wanted(level, girth, on, ease.of(girth), source, wanted, as_sewn, wanted - as_sewn)
        )
    return tuple(found)


def verdict_of(wanted: Wanted, left_over: float | None, band: float, *, pinned: bool) -> Verdict:
    """Return the word for a level: by its pins where the fitting has any."""
    if left_over is None:
        return "not measured"
    if not wanted.beyond(band, left_over):
        return "agrees" if pinned else "right as it is"
    if left_over < 0:
        return "still loose" if pinned else "too loose"
    return "would be tight" if pinned else "too tight"


def comparison_cautions(around: Round, wanted: Sequence[Wanted], garment: Garment) -> list[str]:
    """Return what the tape itself has to say: its own error, and where no ease is given."""
    cautions = []
    band = garment.settings.band
    for entry in wanted:
        label = f"{around.layer.label}, {garment.levels[entry.level].label.lower()}"
        if entry.needed is not None and entry.beyond(band):
            error = tape_error_mm(garment.levels[entry.level].body)
            if abs(entry.needed) <= error + SMALLEST_MM:
                cautions.append(
                    f"{label}: the need is within the tape's own error;"
                    " take it again before you unpick."
                )
        if entry.body is not None and not entry.ease_from:
            cautions.append(f"{label}: no ease is given anywhere; counted as none.")
    return cautions


def older_than_fitting(
    wanted: Sequence[Wanted], garment: Garment, fitting: Fitting | None
) -> list[str]:
    """Return a sentence for each earlier day whose measurements count at this fitting."""
    if fitting is None or not fitting.on:
        return []
    days: dict[str, list[str]] = {}
    for entry in wanted:
        if entry.body is not None and entry.body_on < fitting.on:
            label = garment.levels[entry.level].label.lower()
            labels = days.setdefault(entry.body_on, [])
            labels += [label] if label not in labels else []
    return [
        f"Measured on {on or 'a day not noted'}, not at this fitting: {listed(labels)}."
        for on, labels in days.items()
    ]
