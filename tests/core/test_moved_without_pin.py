"""What moves without a pin is basted only, spoken so, and named: another layer under the pins too.

The worked dress (39, 32, 43 1/2 round) with a lining cut alike whose ease is 2 everywhere, so
38 1/2, 30 1/2 and 41 are wanted of it: 1/2 less at the bust, 1 1/2 at the waist, 2 1/2 at the hip.
One pin of 1/4 on both side seams takes 1 off the outer's waist, which is not enough for the lining.
"""

import copy
from typing import Any

from core.file.fitting_file import read_document
from core.records.answer import Plan
from core.said.spoken import spoken_steps
from core.said.ways_told import moved_without_pin
from tests.garments import Document, moved, pinned, planned, worked

PIN = {"seam": "side", "side": "both", "level": "waist", "pinch": "1/4"}


def lined(ease: Document, *pins: Document, **fitting: Any) -> Document:
    file = worked()
    outer = file["garments"][0]["layers"][0]
    lining = {**copy.deepcopy(outer), "id": "lining", "label": "Lining", "ease": ease}
    file["garments"][0]["layers"] = [{**outer, "label": "Outer"}, lining]
    return pinned(file, *pins, **fitting)


OWN = {"bust": 2, "waist": 2, "hip": 2}
ALIKE = {"bust": "2 1/2", "waist": "2 1/2", "hip": "4 1/2"}
"""As sewn the lining is right, but for the waist: 31 is wanted, as the outer is pinned."""


def basted(plan: Plan, layer: str) -> list[str]:
    return [step.title for step in plan.steps
            if step.layer == layer and "Baste only." in step.text]  # fmt: skip


def spoken_basted(file: Document) -> list[str]:
    """Return the titles of the steps that say it aloud."""
    read = read_document(file)
    plan = planned(file)
    said = spoken_steps(plan, read)
    return [step.title for step, spoken in zip(plan.steps, said, strict=True)
            if "Baste only." in spoken]  # fmt: skip


def named(file: Document) -> tuple[str, ...]:
    return moved_without_pin(planned(file), read_document(file), "in")


def test_a_lining_the_tape_moves_under_the_pins_is_basted_only() -> None:
    """Sides 1/8, 3/8 and 1/2 an edge; what the hip lacks, 2 x 1/4, at the centre back."""
    file = lined(OWN, PIN, lead="pins")
    plan = planned(file)
    assert [moved(plan, "side", at, layer="lining", edge="front")
            for at in ("bust", "waist", "hip")] == [[-0.125], [-0.375], [-0.5]]  # fmt: skip
    assert moved(plan, "centre_back", "hip", side=None, layer="lining") == [-0.25]
    assert basted(plan, "outer") == []
    assert basted(plan, "lining") == ["Lining, side seam", "Lining, centre back"]
    assert spoken_basted(file) == ["Lining, side seam", "Lining, centre back"]


def test_what_the_lining_moves_without_a_pin_is_named() -> None:
    assert named(lined(OWN, PIN, lead="pins")) == ("lining side seam", "lining centre back")


def test_a_lining_that_only_follows_the_pins_is_sewn_as_pinned() -> None:
    """1 off the waist as the outer: 31, as it is wanted."""
    file = lined(ALIKE, PIN, lead="pins")
    plan = planned(file)
    assert moved(plan, "side", "waist", layer="lining", edge="front") == [-0.25]
    assert basted(plan, "lining") == []
    assert spoken_basted(file) == []
    assert named(file) == ()


def test_the_lining_is_named_beside_the_outer_only_for_what_the_outer_leaves() -> None:
    """The tape leads: side seam, back dart and centre back of the outer; the lining follows."""
    told = named(lined({}, PIN, lead="tape"))
    assert set(told) == {"side seam", "back dart", "centre back"}


def test_a_lining_that_follows_the_pins_goes_by_the_pins() -> None:
    ways = {option.layer: option.way for option in planned(lined(ALIKE, PIN, lead="pins")).options}
    assert ways == {"outer": "pins", "lining": "pins"}
    own = {option.layer: option.way for option in planned(lined(OWN, PIN, lead="pins")).options}
    assert own == {"outer": "pins", "lining": "by_turns"}
