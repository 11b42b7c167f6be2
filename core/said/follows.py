"""What follows from the moves: joined parts, lines, sleeves, inserts, zip, tucks, hem."""

import math
from collections.abc import Mapping, Sequence

from core.changes.layer_plan import LayerPlan
from core.changes.plan_levels import ease_as_pinned, levels_of
from core.draft.circles import cut_down_mm, wedge
from core.lengths import SMALLEST_MM
from core.records.answer import Consequence, Side
from core.records.fitting import Fitting, Tuck
from core.records.garment import SIDES, Garment, Insert, Joined, Line
from core.said.hem import HemChange, hem_changes
from core.sewn.compare import Body
from core.wording import Words, direction, listed, moved, sentence, whose

ARM_KEEPS_MM = 38.1
"""A sleeve keeps 1 1/2 in over the upper arm."""

_ARM, _ARMSCYE = "upper_arm_girth", "armscye_girth"


def what_follows(
    plans: Sequence[LayerPlan], garment: Garment, fitting: Fitting | None, body: Body, words: Words
) -> tuple[Consequence, ...]:
    """Return everything the moves bring with them, in the order it is met."""
    found: list[Consequence] = []
    if not plans:
        return ()
    for part in garment.joined:
        found += _joined(part, plans, words)
    for line in garment.lines:
        found += _line(line, plans, body, words)
    found += _sleeves(plans, garment, words)
    for insert in garment.inserts:
        found += _insert(insert, plans, words)
    for plan in plans:
        found += _zips(plan, words)
    if fitting is not None:
        found += _tucks(garment, fitting, words)
        found += _hem(garment, fitting, words)
        found += _ease_as_pinned(plans[0], words)
    return tuple(found)


def _of_layer(plans: Sequence[LayerPlan], layer: str) -> LayerPlan | None:
    return next((plan for plan in plans if plan.work.layer.id == layer), None)


def _joined(part: Joined, plans: Sequence[LayerPlan], words: Words) -> list[Consequence]:
    """A joined part's edge follows the new girth, times its fullness."""
    plan = _of_layer(plans, part.layer)
    if plan is None:
        return []
    found = []
    for number, around in enumerate(plan.work.rounds):
        change = (
            plan.planned(number, part.level) * part.fullness
            if around.ring.id == part.ring and part.level in around.sewn
            else 0.0
        )
        if abs(change) > SMALLEST_MM:
            label = ", ".join(filter(None, [part.label, whose(around.side)]))
            found.append(
                Consequence(
                    part.id,
                    change,
                    _joined_text(part, label, change, around.as_sewn(part.level), words),
                )
            )
    return found


def _joined_text(part: Joined, label: str, change: float, girth: float, words: Words) -> str:
    longer = "longer" if change > 0 else "shorter"
    said = f"{label}: {words.length(change)} {longer}, like the edge it is joined to"
    turns = part.turns
    if turns is None and part.inner_radius:
        turns = girth * part.fullness / (2 * math.pi * part.inner_radius)
    if not turns:
        return sentence(said)
    if change > 0:
        down = words.length(cut_down_mm(change, turns))
        return sentence(f"{said}: cut its inner edge down by {down} all round")
    radius = part.inner_radius or girth * part.fullness / (2 * math.pi * turns)
    taken = wedge(-change, radius, part.depth)
    return sentence(
        f"{said}: it can only shrink by a wedge out of its seams,"
        f" {words.length(taken.top_mm)} at the top and {words.length(taken.bottom_mm)}"
        " at the bottom"
    )


def _line(line: Line, plans: Sequence[LayerPlan], body: Body, words: Words) -> list[Consequence]:
    """Tell a line's length before and after, and what the body wants of it."""
    plan = _of_layer(plans, line.layer)
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


def _sleeves(plans: Sequence[LayerPlan], garment: Garment, words: Words) -> list[Consequence]:
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


def _insert(insert: Insert, plans: Sequence[LayerPlan], words: Words) -> list[Consequence]:
    """If the seam moves at a godet its point moves; what differs inside is trimmed."""
    plan = _of_layer(plans, insert.layer)
    if plan is None or insert.seam not in plan.opened():
        return []
    points: dict[float, list[str]] = {}
    inside: set[float] = set()
    for number, around in enumerate(plan.work.rounds):
        for index, edge in enumerate(around.edges):
            if edge.seam.id == insert.seam and insert.level in edge.levels:
                amount = plan.edges.get((number, index, insert.level))
                move = amount.move if amount else 0.0
                points.setdefault(round(move, 4), []).append(whose(edge.side))
                inside.add(round(edge.allowance[insert.level] - move, 4))
    said = [
        f"its point moves {words.length(move)} {'in' if move < 0 else 'out'}"
        + (f", {listed(sides)}" if (sides := sorted(set(filter(None, points[move])))) else "")
        for move in points
        if abs(move) > SMALLEST_MM
    ]
    if insert.allowance is not None:
        said += [
            f"its seam has {words.length(width)}, to be trimmed to"
            f" {words.length(insert.allowance)} along it once she has tried it on"
            for width in sorted(inside)
            if width > insert.allowance + SMALLEST_MM
        ]
    if not said:
        return []
    change = max(points, key=abs)
    return [Consequence(insert.id, change, sentence(f"{insert.label}: {listed(said)}"))]


def _zips(plan: LayerPlan, words: Words) -> list[Consequence]:
    """A moved zip seam comes out and goes back in."""
    found = []
    seams = {seam.id: seam for ring in plan.work.layer.rings for seam in ring.seams if seam.zip}
    for name in plan.opened():
        if name in seams:
            moves = [
                amount.move
                for (number, index, _), amount in plan.edges.items()
                if plan.work.rounds[number].edges[index].seam.id == name
            ]
            largest = max(moves, key=abs, default=0.0)  # none where it is pinned between levels
            text = f"Zip in the {seams[name].label.lower()}: comes out and goes back in"
            if moves:
                text += f"; the seam is {moved(largest)} {words.length(largest)} an edge at most"
            found.append(Consequence("zip", largest, sentence(text)))
    return found


def _tucks(garment: Garment, fitting: Fitting, words: Words) -> list[Consequence]:
    """A tuck of depth f takes 2f out of the length where it is pinned."""
    swap = {"left": "right", "right": "left"} if fitting.inside_out else {}
    found = []
    for tuck in fitting.tucks:
        places = {swap.get(place, place): depth for place, depth in tuck.depth.items() if depth}
        if places:
            found += _tuck(tuck, places, garment.levels[tuck.level].label, words)
    return found


def _tuck(tuck: Tuck, places: Mapping[str, float], label: str, words: Words) -> list[Consequence]:
    names = {"left": "her left", "right": "her right"}
    said = [
        f"{names.get(place, place.replace('_', ' '))} {words.length(depth)} deep ="
        f" {words.length(2 * depth)} shorter"
        for place, depth in places.items()
    ]
    seam = tuck.into.replace("_", " ")
    into = f"the {seam}" if seam else "the next garment's pattern"
    taken = 2 * max(places.values())
    text = (
        f"Tuck at the {label.lower()}: {listed(said)}, into {into}; what is below is lifted by"
        " as much, so the hem is measured again"
    )
    found = [Consequence("tuck", -taken, sentence(text))]
    if "shoulder" in tuck.into:
        drops = (
            f"Underarm: where the shoulder tip is taken up {words.length(taken)} the underarm"
            " drops as much; cut the armhole down by it"
        )
        found.append(Consequence("underarm", -taken, sentence(drops)))
    return found


def _hem(garment: Garment, fitting: Fitting, words: Words) -> list[Consequence]:
    """At each point: on the day = floor now + heel of the day - heel worn, against the wanted."""
    if fitting.hem is None:
        return []
    found = []
    day, worn = garment.heel_of_the_day, fitting.heel_worn
    heel = ""
    if day is None or worn is None:
        found.append(Consequence("hem", 0.0, "Hem: a heel was not noted; both are taken alike."))
    else:
        heel = f" {words.plus(day)} heel of the day - {words.length(worn)} heel worn"
    for point in hem_changes(fitting.hem, worn, day):
        found.append(_hem_point(point, heel, fitting.hem.wanted, words))
    return found


def _hem_point(point: HemChange, heel: str, wanted: float, words: Words) -> Consequence:
    at = whose(point.at) if point.at in ("left", "right") else point.at
    said = f"Hem, {at}: stays"
    if words.shows(point.change_mm):
        verb = "let down" if point.change_mm > 0 else "take up"
        said = f"Hem, {at}: {verb} {words.length(point.move_mm)}"
    if point.short_mm > SMALLEST_MM:
        said += f"; {words.length(point.short_mm)} more is wanted than the hem holds"
    total = (
        f"{at}: {words.length(point.floor_mm)} floor to hem{heel} ="
        f" {words.signed(point.on_the_day_mm)}; {words.length(wanted)} wanted"
    )
    return Consequence("hem", point.move_mm, sentence(said), total)


def _ease_as_pinned(plan: LayerPlan, words: Words) -> list[Consequence]:
    """After any fitting, after pins - body is offered as this client's ease for next time."""
    said = [
        f"{plan.work.garment.levels[level].label.lower()} {words.signed(ease)}"
        for level, ease in ease_as_pinned(levels_of(plan, words), words).items()
    ]
    if not said:
        return []
    return [Consequence("ease", 0.0, sentence(f"Ease as pinned, for next time: {', '.join(said)}"))]
