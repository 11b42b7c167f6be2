"""The list in the order it is sewn: mark, open, darts, seams, check, layers, parts, hem."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from core.changes.layer_plan import LayerPlan
from core.changes.options import minutes_of
from core.lengths import SMALLEST_MM
from core.records.answer import Consequence, Step
from core.records.fitting import Fitting
from core.records.garment import Garment, Seam
from core.said.between_steps import between_steps
from core.said.dart_steps import dart_steps, fold_steps
from core.said.seam_steps import seam_steps
from core.said.tucks import tuck_steps
from core.wording import Words, counted, sentences, whose

ORDER = (
    "mark",
    "open",
    "darts",
    "princess and gore seams",
    "shoulders",
    "side seams",
    "baste and check",
    "waist seam",
    "centre seams and zip",
    "sleeves",
    "other layers",
    "joined parts",
    "trim",
    "hang",
    "hem",
)


@dataclass(frozen=True, slots=True)
class _Job:
    plans: Sequence[LayerPlan]
    garment: Garment
    fitting: Fitting | None
    words: Words


def steps_of(
    plans: Sequence[LayerPlan],
    garment: Garment,
    fitting: Fitting | None,
    follows: Sequence[Consequence],
    warnings: Sequence[str],
    words: Words,
) -> tuple[Step, ...]:
    """Return the steps, numbered in sewing order; none where nothing is moved."""
    job = _Job(plans, garment, fitting, words)
    steps: list[Step] = []
    if any(plan.opened() or plan.folds or between_steps(plan, words) for plan in plans):
        steps += [_mark(job), _open(job)]
        for plan in plans:
            steps += _layer_steps(plan, job)
        steps += [_check(job), _trim(job)]
    if fitting is not None:
        steps += tuck_steps(garment, fitting, words)
    steps += _joined_steps(follows, garment, job)
    if fitting is not None and fitting.hem is not None:
        steps += _hem_steps(follows, job)
    first = plans[0].work.layer.id if plans else ""
    layers = [plan.work.layer.id for plan in plans]

    def place(step: Step) -> tuple[int, int]:
        group = step.group if step.layer in (first, "") else "other layers"
        return ORDER.index(group), layers.index(step.layer) if step.layer in layers else 0

    ordered = sorted(steps, key=place)
    return tuple(
        replace(step, order=number, cautions=_about(step, warnings))
        for number, step in enumerate(ordered, 1)
    )


def pins_counted(fitting: Fitting, garment: Garment) -> int:
    """Return how many pins were set: one for each side, one where there is no side."""
    centre: set[str] = set()
    for ring in (ring for layer in garment.layers for ring in layer.rings):
        if ring.kind == "half":
            centre |= {seam.id for seam in ring.seams if seam.joins_itself}
        elif ring.copies == 1:
            centre |= {seam.id for seam in ring.seams} | {piece.id for piece in ring.pieces}
            centre |= {dart.id for piece in ring.pieces for dart in piece.darts}
    return sum(1 if pin.side != "both" or pin.place in centre else 2 for pin in fitting.pins)


def _about(step: Step, warnings: Sequence[str]) -> tuple[str, ...]:
    """Return the cautions that begin with the step's own place."""
    if not step.title or step.group in ("mark", "open", "baste and check", "trim"):
        return ()
    other = {"left": "her right", "right": "her left"}.get(step.side or "", "-")
    title = step.title.lower()
    return tuple(
        said
        for said in warnings
        if said.lower().startswith(title) and not said.lower().startswith(f"{title}, {other}")
    )


def _mark(job: _Job) -> Step:
    pins = pins_counted(job.fitting, job.garment) if job.fitting is not None else 0
    said = [
        "Before any pin comes out" if pins else "Before anything is opened",
        "Chalk both sides of every fold, inside and out, then thread it"
        if pins
        else "Thread along the old stitching, then chalk the new line from it",
        f"Count the pins back: {counted(pins, 'pin')}" if pins else "",
    ]
    return Step(0, "mark", "", "Mark", None, sentences(said))


def _open(job: _Job) -> Step:
    """Last stitch in is first out: fastenings, zip, what is in the way, then the seams."""
    said, minutes = [], 0.0
    for plan in job.plans:
        opened = plan.opened()
        if not opened:
            continue
        minutes += minutes_of(plan.work.rules, opened)
        said.append(_opening(plan, opened))
    darts = any(move for plan in job.plans for move in plan.legs.values())
    if not darts and any(around.darts for plan in job.plans for around in plan.work.rounds):
        said.append("Leave the darts")
    told = f"about {minutes:.0f} minutes of unpicking, basting and sewing" if minutes else ""
    return Step(0, "open", "", "Open", None, sentences(said), told)


def _opening(plan: LayerPlan, opened: Sequence[str]) -> str:
    work = plan.work
    seams = [seam for ring in work.layer.rings for seam in ring.seams if seam.id in opened]
    darts = [
        dart
        for ring in work.layer.rings
        for piece in ring.pieces
        for dart in piece.darts
        if dart.id in opened
    ]
    ahead = list(
        dict.fromkeys(
            name for place in opened for name in work.rules.needs(place) if name not in opened
        )
    )
    openings = {name: work.rules.opening(name) for name in ahead}
    first = [name for name, opening in openings.items() if opening and opening.fastening]
    rest = [name for name in ahead if name not in first]
    fastenings, inside = (
        [work.rules.opening_label(name).lower() for name in names] for names in (first, rest)
    )
    zips = ["the zip"] if any(seam.zip for seam in seams) else []
    seam_labels = list(dict.fromkeys(_with_side(plan, seam) for seam in seams))
    dart_labels = [dart.label.lower() for dart in darts]
    parts = fastenings + zips + inside + seam_labels + dart_labels
    return f"{work.layer.label}: {', then '.join(parts)}"


def _with_side(plan: LayerPlan, seam: Seam) -> str:
    """Return ``side seam``, or ``side seam, her left`` where the other stays shut."""
    sides = {side for name, side, _ in plan.lines if name == seam.id}
    only = sides.pop() if len(sides) == 1 else None
    return ", ".join(filter(None, [seam.label.lower(), whose(only)]))


def _layer_steps(plan: LayerPlan, job: _Job) -> list[Step]:
    words = job.words
    darts = dart_steps(plan, words) + fold_steps(plan, words)
    return darts + seam_steps(plan, words) + between_steps(plan, words)


def _check(job: _Job) -> Step:
    """Tape round the inside: what each level that was opened should be."""
    said, sums = [], []
    words = job.words
    plan = job.plans[0]
    for number, around in enumerate(plan.work.rounds):
        for level in around.sewn:
            planned = plan.planned(number, level)
            if abs(planned) > SMALLEST_MM:
                side = f", her {around.side}" if around.side else ""
                label = plan.work.garment.levels[level].label.lower()
                now = around.as_sewn(level)
                after = words.length(words.shown(now) + words.shown(planned))
                said.append(f"{label}{side} {after}")
                sums.append(
                    f"{label}{side}: {words.length(now)} as sewn {words.plus(planned)} = {after}"
                )
    if not said:
        return Step(
            0,
            "baste and check",
            plan.work.layer.id,
            "Baste and check",
            None,
            "Baste, close it, and look.",
        )
    text = (
        "Baste it closed on the new lines, the centre seams too. Tape round the inside. It should"
        f" be: {', '.join(said)}. What do you have?"
    )
    return Step(
        0, "baste and check", plan.work.layer.id, "Baste and check", None, text, "; ".join(sums)
    )


def _trim(job: _Job) -> Step:
    return Step(0, "trim", "", "Trim", None, "Trim nothing before she has tried it on again.")


def _joined_steps(follows: Sequence[Consequence], garment: Garment, job: _Job) -> list[Step]:
    """Return what is changed on joined parts, stays, inserts and sleeves."""
    joined = {part.id: part.label for part in garment.joined}
    joined |= {insert.id: insert.label for insert in garment.inserts}
    joined |= {line.id: line.label for line in garment.lines if not line.changes}
    sleeves = {
        ring.id: ring.label
        for layer in garment.layers
        for ring in layer.rings
        if ring.kind == "closed"
    }
    steps = [
        Step(0, "joined parts", "", joined[entry.what], None, entry.text)
        for entry in follows
        if entry.what in joined
    ]
    return steps + [
        Step(0, "sleeves", "", sleeves[entry.what], None, entry.text)
        for entry in follows
        if entry.what in sleeves
    ]


def _hem_steps(follows: Sequence[Consequence], job: _Job) -> list[Step]:
    """Hang first; the hem is the last thing, after every girth and length."""
    points = [entry for entry in follows if entry.what == "hem"]
    hang = (
        "Let it hang before the hem is turned: a day for an ordinary skirt, longer where it is"
        " cut on the round."
    )
    low = job.fitting is not None and job.fitting.hem is not None and job.fitting.hem.wanted < 25
    trip = "A hem nearer the floor than 25 mm trips: try stairs in the shoes of the day"
    hem = job.fitting.hem if job.fitting is not None else None
    trains = (
        [f"{point.at}: the train, not levelled" for point in hem.points if point.train]
        if (hem is not None)
        else []
    )
    told = [entry.text.removeprefix("Hem, ").removeprefix("Hem: ") for entry in points]
    text = sentences(["Hem", *told, *trains, trip if low else ""])
    total = " | ".join(entry.sum for entry in points if entry.sum)
    return [
        Step(0, "hang", "", "Hang", None, hang),
        Step(0, "hem", "", "Hem", None, text, total),
    ]
