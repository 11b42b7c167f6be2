"""What a level should measure: the newest of each of her sides counts, whoever was taped last.

Two sleeves are cut 15 1/2 with 1/2 inside at both edges: 14 1/2 round each.  Ease is 2.
"""

from typing import Any

import pytest

from core.body.sitting import set_value
from core.body.tape_order import Number
from tests.garments import INCH, Document, document, gores, level, pinned, planned


def sleeves(*sittings: tuple[str, Any]) -> Document:
    """Return two sleeves and a client whose arms were taped on these days, in inches."""
    seam = {"id": "seam", "joins": ["sleeve"] * 2, "allowance": "1/2"}
    ring = {"id": "body", "kind": "closed", "copies": 2, "seams": [seam],
            "pieces": [{"id": "sleeve", "width": {"arm": "15 1/2"}}]}  # fmt: skip
    file = document(
        {"levels": [{"id": "arm", "label": "Arm", "body": "upper_arm_girth"}], "ease": {"arm": 2},
         "layers": [{"id": "outer", "rings": [ring]}]},
        {},
    )  # fmt: skip
    file["measurements"] = [
        {"on": on, "values": {"upper_arm_girth": taken}} for on, taken in sittings
    ]
    return file


def needed(file: Document) -> list[float | None]:
    rows = (level(planned(file), "arm", side=side) for side in ("left", "right"))
    return [row.needed if row.needed is None else round(row.needed / INCH, 6) for row in rows]


BOTH = {"left": 11, "right": 12}


def test_a_side_taped_again_alone_leaves_the_other_as_it_was_taped_before() -> None:
    """Left 12 1/2 + 2 = 14 1/2, as it is; right 12 + 2 = 14, so 1/2 too loose."""
    file = sleeves(("2026-01-01", BOTH), ("2026-02-01", {"left": "12 1/2"}))
    left, right = (level(planned(file), "arm", side=side) for side in ("left", "right"))
    assert needed(file) == [0, -0.5]
    assert (left.verdict, right.verdict) == ("right as it is", "too loose")
    assert (left.body_on, right.body_on) == ("2026-02-01", "2026-01-01")


def test_a_side_taped_again_with_the_tapes_own_keys_leaves_the_other() -> None:
    file = sleeves(("2026-01-01", BOTH))
    set_value(file, "2026-02-01", Number("upper_arm_girth", "left"), "12 1/2")
    assert needed(file) == [0, -0.5]


def test_one_number_for_both_arms_serves_the_side_that_was_not_taped_again() -> None:
    """Both 12 at first; left 12 1/2 since."""
    file = sleeves(("2026-01-01", 12), ("2026-02-01", {"left": "12 1/2", "right": None}))
    assert needed(file) == [0, -0.5]
    both_again = sleeves(("2026-01-01", BOTH), ("2026-02-01", "12 1/2"))
    assert needed(both_again) == [0, 0]


def test_one_side_taped_at_the_fitting_leaves_the_other_with_its_own_day() -> None:
    file = pinned(sleeves(("2026-01-01", BOTH)), measurements={"upper_arm_girth": {"left": 12.5}})
    file["garments"][0]["fittings"][0]["on"] = "2026-03-01"
    assert needed(file) == [0, -0.5]
    assert "Measured on 2026-01-01, not at this fitting: arm." in planned(file).warnings


def test_a_side_never_taped_is_not_measured() -> None:
    assert needed(sleeves(("2026-01-01", {"left": 12.5}), ("2026-02-01", {"left": 12}))) == [
        -0.5, None]  # fmt: skip


def test_a_whole_round_takes_the_mean_of_both_sides_and_says_the_older_day() -> None:
    """Left 31 of February and right 30 of January are 30 1/2 together."""
    file = gores({"waist": 32}, {"waist": 30})
    file["measurements"] = [
        {"on": "2026-01-01", "values": {"waist_girth": {"left": 29, "right": 30}}},
        {"on": "2026-02-01", "values": {"waist_girth": {"left": 31}}},
    ]
    row = level(planned(file), "waist")
    assert row.body == pytest.approx(30.5 * INCH)
    assert row.body_on == "2026-01-01"
