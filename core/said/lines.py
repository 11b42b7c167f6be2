"""Lines that a seam's moves make longer or shorter: armhole, neckline, strap, stay; the sleeve."""

from collections.abc import Sequence

from core.changes.layer_plan import LayerPlan
from core.lengths import SMALLEST_MM
from core.records.answer import Consequence, Side
from core.records.garment import SIDES, Garment, Line
from core.sewn.compare import Body
from core.wording import Words, direction, moved, sentence, whose

ARM_KEEPS_MM = 38.1
"""A sleeve keeps 1 1/2 in over the upper arm."""

_ARM, _ARMSCYE = "upper_arm_girth", "armscye_girth"


def layer_of(plans: Sequence[LayerPlan], layer: str) -> LayerPlan | None:
    """Return the plan of a layer by its id; none where the garment has no such layer."""
    return next((plan for plan in plans if plan.work.layer.id == layer), None)


def line_follows(
    line: Line, plans: Sequence[LayerPlan], body: Body, words: Words
) -> list[Consequence]:
    """Tell a line's length before and after, and what the body wants of it."""
    plan = layer_of(plans, line.layer)
    if plan is None or line.sewn is None:
        return []
    changes = {side: _line_change(line, plan, side) for side in SIDES}
    if not line.changes:
        return _free_line(line, plan.work.settings.band, body, words)
    if not any(abs(change) > SMALLEST_MM for change in changes.values()):
        return []
    alike = abs(changes["left"] - changes["right"]) <= SMALLEST_MM and line.sewn[0] == line.sewn[1]
    sides: tuple[Side | None, ...] = (None,) if alike else SIDES
    return [_line_side(line, side, changes[side or "left"], body, words) for side in sides]


def _line_side(
    line: Line, side: Side | None, change: float, body: Body, words: Words
) -> Consequence:
    sewn = line.sewn[1 if side == "right" else 0] if line.sewn else 0.0
    label = ", ".join(filter(None, [line.label, whose(side)]))
    more = "longer" if change > 0 else "shorter"
    said = (
        f"{label}: {words.length(sewn)} sewn, {words.length(change)} {more} ="
        f" {words.length(sewn + change)}"
    )
    girth, _ = body.of(line.body, side)
    if girth is not None and line.ease is not None:
        said += (
            f"; wanted {words.length(girth)} body {words.plus(line.ease)} ease ="
            f" {words.length(girth + line.ease)}"
        )
    return Consequence(line.id, change, sentence(said))


def _free_line(line: Line, band: float, body: Body, words: Words) -> list[Consequence]:
    """A stay or another line no seam changes follows the body, never the outer's pins."""
    girth, _ = body.of(line.body, None)
    if girth is None or line.ease is None or line.sewn is None:
        return []
    change = girth + line.ease - sum(line.sewn) / 2
    if abs(change) <= band + SMALLEST_MM:
        return []
    more = "longer" if change > 0 else "shorter"
    return [
        Consequence(
            line.id,
            change,
            sentence(
                f"{line.label}: follows the body, not the pins: {words.length(girth)}"
                f" {words.plus(line.ease)} = {words.length(girth + line.ease)},"
                f" {words.length(change)} {more} than sewn"
            ),
        )
    ]


def _line_change(line: Line, plan: LayerPlan, side: Side) -> float:
    """Return by how much a line grows (mm): each edge's move times the seam's factor."""
    total = 0.0
    for change in line.changes:
        for number, around in enumerate(plan.work.rounds):
            for index, edge in enumerate(around.edges):
                amount = plan.edges.get((number, index, change.level))
                if (
                    amount is not None
                    and edge.seam.id == change.seam
                    and (edge.side in (None, side))
                ):
                    total += change.factor * edge.count * amount.move
    return total


def sleeves_follow(plans: Sequence[LayerPlan], garment: Garment, words: Words) -> list[Consequence]:
    """Side seam in d an edge at the underarm: sleeve seam d an edge, cap ease unchanged."""
    plan = plans[0]
    lines = (line for line in garment.lines if line.layer == plan.work.layer.id)
    armhole = next((line for line in lines if _is_armhole(line)), None)
    if armhole is None:
        return []
    found = []
    for number, around in enumerate(plan.work.rounds):
        level = next((name for name in around.sewn if garment.levels[name].body == _ARM), None)
        if level is None or around.side is None or around.ring.kind != "closed":
            continue
        change = _line_change(armhole, plan, around.side)
        if abs(change) > SMALLEST_MM:
            found.append(_sleeve(plan, number, level, change, words))
    return found


def _is_armhole(line: Line) -> bool:
    return bool(line.changes) and (line.id == "armhole" or line.body == _ARMSCYE)


def _sleeve(plan: LayerPlan, number: int, level: str, change: float, words: Words) -> Consequence:
    around = plan.work.rounds[number]
    wanted = plan.work.wanted[number][level]
    after = around.as_sewn(level) + plan.planned(number, level) + change
    seam = around.ring.seams[0].label if around.ring.seams else "Seam"
    below = around.ring.levels[around.ring.levels.index(level) + 1 :]
    end = plan.work.garment.levels[below[0]].label.lower() if below else "hem"
    said = [
        f"{around.ring.label}, {whose(around.side)}: {direction(change)} the {seam.lower()}"
        f" {words.length(change / 2)} an edge at the underarm, to nothing at the {end};"
        " the cap's ease stays as it is",
        f"upper arm {words.length(after)}",
    ]
    if wanted.body is not None and after - wanted.body < ARM_KEEPS_MM - SMALLEST_MM:
        left = words.signed(after - wanted.body)
        said.append(f"only {left} over the arm: it must keep {words.length(ARM_KEEPS_MM)}")
    own = plan.planned(number, level)
    if words.shows(own):
        net = (own + change) / 2
        together = (
            f"{direction(net)} {words.length(net)} an edge" if words.shows(net) else "it stays"
        )
        said.append(
            f"The seam itself is {moved(own)} {words.length(own / 2)} an edge there: together"
            f" {together}"
        )
    return Consequence(around.ring.id, change, " ".join(map(sentence, said)))
