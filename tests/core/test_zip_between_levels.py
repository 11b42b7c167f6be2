"""A zip's seam that is pinned between two levels only is planned like any other."""

import json
from pathlib import Path
from typing import Any

import pytest

from core.changes.plan import make_plan
from core.file.fitting_file import read_document

DEMO = Path(__file__).parents[2] / "resources" / "demo" / "moss_green_sheath.json"


@pytest.mark.parametrize("pinned", [{"pinch": "1/4"}, {"gap": "1/4"}])
def test_a_pin_between_levels_on_the_zips_seam(pinned: dict[str, Any]) -> None:
    """The waist is 18 in down, the hip 26 1/2: at 20 in the pin stands at neither."""
    document = json.loads(DEMO.read_text("utf-8"))
    fitting = document["garments"][0]["fittings"][0]
    fitting["pins"] = [{"seam": "centre_back", "down": "20", **pinned}]
    plan = make_plan(read_document(document))
    steps = [step for step in plan.steps if "centre back" in step.text.lower()]
    assert any("1/4" in step.text or "1/8" in step.text for step in steps), plan.steps
    assert any("comes out and goes back in" in follow.text for follow in plan.follows)
