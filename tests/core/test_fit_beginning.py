"""A fitting is begun: what goes on from last time, and who leads."""

import copy
import json
from collections.abc import Iterable
from typing import Any

from core.changes.plan import make_plan
from core.file.fitting_file import read_document
from core.fit.beginning import begin
from core.records.answer import Step
from core.resources import RESOURCES

Document = dict[str, Any]


def demo() -> Document:
    (file,) = (RESOURCES / "demo").glob("*.json")
    document: Document = json.loads(file.read_text(encoding="utf-8"))
    return document


def outer_seams(steps: Iterable[Step]) -> list[str]:
    return [step.title for step in steps if step.group == "side seams" and step.layer == "outer"]


def test_after_a_pinned_fitting_the_tape_undoes_nothing_before_she_pins() -> None:
    """The demo's waist was sewn as pinned; the tape alone would still change seams."""
    document = demo()
    garment = document["garments"][0]["id"]
    begun = begin(document, garment, "next", "2026-03-12")
    assert begun["lead"] == "pins"
    plan = make_plan(read_document(document))
    assert plan.lead == "pins"
    assert outer_seams(plan.steps) == []
    begun["lead"] = "tape"
    assert outer_seams(make_plan(read_document(document)).steps) == ["Side seam"]


def test_the_first_fitting_says_nothing_of_who_leads() -> None:
    document = demo()
    document["garments"][0]["fittings"] = []
    assert "lead" not in begin(document, document["garments"][0]["id"], "first", "2026-03-12")
    without = copy.deepcopy(demo())
    without["garments"][0]["fittings"][0]["pins"] = []
    assert "lead" not in begin(without, without["garments"][0]["id"], "next", "2026-03-12")
