"""The plan as text to sew from, and as JSON for another program; nothing is computed here."""

import json
import textwrap
from collections.abc import Iterator
from dataclasses import asdict
from typing import Any

from core.changes.set_by_hand import set_by_hand
from core.file.fitting_file import FittingFile
from core.records.answer import LevelAnswer, Option, Plan, Step
from core.said.amounts_to_set import amounts_set
from core.wording import Words, whose

_WIDE = 96


def as_json(plan: Plan) -> str:
    """Return the plan as the fitting file's page says; all lengths in millimetres."""
    data: dict[str, Any] = {
        "garment": plan.garment,
        "fitting": plan.fitting,
        "lead": plan.lead,
        "heading": plan.heading,
        "levels": [asdict(level) for level in plan.levels],
        "moves": [_renamed(asdict(move)) for move in plan.moves],
        "options": [asdict(option) for option in plan.options],
        "steps": [asdict(step) for step in plan.steps],
        "follows": [asdict(follow) for follow in plan.follows],
        "warnings": list(plan.warnings),
    }
    if plan.hand_totals:
        data["hand_totals"] = [asdict(total) for total in plan.hand_totals]
    return json.dumps(_tidy(data), ensure_ascii=False, allow_nan=False, indent=1)


def _renamed(move: dict[str, Any]) -> dict[str, Any]:
    move["from"] = move.pop("source")
    return move


def _tidy(value: Any) -> Any:
    """Return the value with lengths to a ten-thousandth of a millimetre, and no -0."""
    if isinstance(value, float):
        return round(value, 4) + 0.0
    if isinstance(value, dict):
        return {key: _tidy(entry) for key, entry in value.items()}
    return [_tidy(entry) for entry in value] if isinstance(value, (list, tuple)) else value


def as_text(plan: Plan, file: FittingFile, words: Words) -> str:
    """Return the plan as it is read at the sewing table, lengths in one unit."""
    return "\n".join(_lines(plan, file, words)) + "\n"


def _lines(plan: Plan, file: FittingFile, words: Words) -> Iterator[str]:
    garment = file.garment(plan.garment)
    yield f"{garment.name}, for {file.client.name}"
    fitting = next((entry for entry in garment.fittings if entry.id == plan.fitting), None)
    when = (
        "no fitting yet"
        if fitting is None
        else " ".join(filter(None, ["fitting", fitting.stage, fitting.on]))
    )
    unit = {"in": "inches", "cm": "centimetres", "mm": "millimetres"}[words.unit]
    yield f"{plan.heading}. {when[0].upper()}{when[1:]}. All lengths in {unit}."
    yield ""
    yield "LEVELS"
    for level in plan.levels:
        yield from _level(level, plan, words)
    if plan.options:
        yield ""
        yield "WAYS"
        for option in plan.options:
            yield from _wrapped(_option(option, words), "  ")
    if plan.hand_totals:
        yield ""
        yield "SET BY HAND"
        hand = set_by_hand(file, garment, fitting)
        for amount in amounts_set(plan, hand, garment, words):
            yield from _wrapped(f"{amount.text}.", "  ")
        for total in plan.hand_totals:
            yield from _wrapped(total.text, "  ")
    yield from _steps(plan)
    if plan.follows:
        yield ""
        yield "WHAT FOLLOWS"
        for follow in plan.follows:
            yield from _wrapped(follow.text, "  ")
            if follow.sum:
                yield from _wrapped(follow.sum, "       = ", "         ")
    if plan.warnings:
        yield ""
        yield "MIND"
        for warning in plan.warnings:
            yield from _wrapped(warning, "  ! ")


def _steps(plan: Plan) -> Iterator[str]:
    yield ""
    yield f"STEPS ({len(plan.steps)})" if plan.steps else "STEPS: nothing is to be moved."
    for step in plan.steps:
        yield from _step(step)


def _step(step: Step) -> Iterator[str]:
    yield from _wrapped(step.text, f"{step.order:>3}. ", "     ")
    for part in step.sum.split(" | ") if step.sum else ():
        yield from _wrapped(part, "       = ", "         ")
    if step.line:
        yield from _wrapped(f"between the levels: {step.line}", "       ", "         ")
    for caution in step.cautions:
        yield from _wrapped(caution, "       ! ", "         ")


def _level(level: LevelAnswer, plan: Plan, words: Words) -> Iterator[str]:
    several = len({row.layer for row in plan.levels}) > 1
    place = ", ".join(
        filter(
            None,
            [
                level.layer if several else "",
                level.ring if level.side else "",
                whose(level.side),
                level.label.lower(),
            ],
        )
    )
    left = level.left_over
    amount = (
        f" by {words.length(left)}"
        if left is not None
        and level.verdict in ("too loose", "too tight", "still loose", "would be tight")
        else ""
    )
    pinned = f"; pinned: {words.way(level.pinned)}" if level.pinned else ""
    if plan.lead != "pins" and level.needed is not None:
        pinned += f"; planned: {words.way(level.planned)}"
    yield from _wrapped(f"{place}: {level.verdict}{amount}{pinned}", "  ")
    yield from _wrapped(level.sum, "       = ", "         ")


def _option(option: Option, words: Words) -> str:
    mark = "*" if option.chosen else " "
    name = option.way.replace("_", " ")
    place = ", ".join(filter(None, [option.layer, option.ring, whose(option.side)]))
    short = f", {words.length(option.short)} short" if option.short else ""
    opened = ", ".join(name.replace("_", " ") for name in option.open)
    return (
        f"{mark} {name} ({place}): opens {opened}; {option.minutes:.0f} minutes; largest move"
        f" {words.length(option.largest_move)}{short}"
    )


def _wrapped(text: str, first: str, rest: str | None = None) -> list[str]:
    return textwrap.wrap(
        text,
        _WIDE,
        initial_indent=first,
        subsequent_indent=" " * len(first) if rest is None else rest,
        break_on_hyphens=False,
    )
