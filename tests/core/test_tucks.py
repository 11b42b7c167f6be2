"""A tuck of depth f takes 2f out of the length, in the seam that takes it, or in the next pattern.

In inches: 3/8 deep is 3/4 shorter.
"""

import pytest

from core.records.answer import Plan
from tests.garments import INCH, pinned, planned, worked

TUCKED = ("waist seam", "shoulders")


def tucked(into: str, label: str = "Waist") -> Plan:
    """Return the worked dress's plan with a tuck of 3/8 at the centre back, and nothing else."""
    file = pinned(worked(), tucks=[
        {"level": "waist", "depth": {"centre_back": "3/8"}, "into": into}])  # fmt: skip
    file["garments"][0]["levels"][1]["label"] = label
    file["measurements"] = []
    return planned(file)


def told(plan: Plan) -> str:
    (tuck,) = [entry for entry in plan.follows if entry.what == "tuck"]
    assert tuck.change == pytest.approx(-0.75 * INCH)
    assert "centre back 3/8 deep = 3/4 shorter" in tuck.text
    return tuck.text


@pytest.mark.parametrize("into", ["pattern", ""])
def test_a_tuck_for_the_pattern_is_told_and_no_step_of_this_garment(into: str) -> None:
    plan = tucked(into)
    assert told(plan).endswith(
        "into the next garment's pattern; nothing is sewn for it in this one."
    )
    assert plan.steps == ()


@pytest.mark.parametrize(("into", "group"), [("waist_seam", "waist seam"),
                                             ("shoulder", "shoulders")])  # fmt: skip
def test_a_tuck_is_a_step_in_the_seam_that_takes_it(into: str, group: str) -> None:
    plan = tucked(into)
    assert "what is below is lifted by as much, so the hem is measured again" in told(plan)
    assert {step.group for step in plan.steps} == {group}


def test_a_level_named_after_the_shoulder_leaves_the_tuck_in_the_waist_seam() -> None:
    plan = tucked("waist_seam", "Waist, shoulder to waist")
    assert [(step.group, step.title) for step in plan.steps] == [("waist seam", "Tuck")]


def test_a_shoulder_taken_up_lowers_the_underarm_beside_it() -> None:
    plan = tucked("shoulder")
    assert [(step.group, step.title) for step in plan.steps] == [
        ("shoulders", "Tuck"), ("shoulders", "Underarm")]  # fmt: skip
    assert "the underarm drops as much" in plan.steps[1].text
