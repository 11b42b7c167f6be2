"""Left and right pinned differently are told, and evening them only where it is offered.

The dress of the worked example, pinned; every amount is one edge or one leg, in inches.
"""

from typing import Any

import pytest

from core.changes.even_sides import uneven_sides
from core.file.fitting_file import read_document
from tests.garments import Document, pinned, planned, worked

STAY = "they stay different"
EVEN = f"{STAY} unless you even them"


def told(*pins: Document, **fitting: Any) -> list[str]:
    """Return what the plan tells of unlike sides."""
    return [said for said in planned(pinned(worked(), *pins, **fitting)).warnings
            if "as pinned, her left" in said]  # fmt: skip


def offered(*pins: Document) -> int:
    """Return how many places the same pins offer to even."""
    garment = read_document(pinned(worked(), *pins)).garments[0]
    return len(uneven_sides(garment, garment.fittings[0], "in"))


def seam(side: str, at: str = "waist", **amount: Any) -> Document:
    return {"seam": "side", "side": side, "level": at, **amount}


def dart(side: str, **amount: Any) -> Document:
    return {"dart": "back_dart", "side": side, "level": "waist", **amount}


def test_a_dart_pinned_unlike_is_told_by_its_legs() -> None:
    """A pinch of 1/8 is 1/8 a leg, a gap of 1/2 lets out 1/4 a leg."""
    pins = dart("left", pinch="1/8"), dart("right", gap="1/2")
    assert told(*pins) == [
        "Back dart, waist: as pinned, her left take in 1/8 and her right let out 1/4 a leg;"
        f" {EVEN}."
    ]
    assert offered(*pins) == 1
    assert told(dart("left", pinch="1/8"), dart("right", pinch="1/8")) == []
    assert told(dart("both", pinch="1/8")) == []


def test_where_only_the_second_edge_differs_that_edge_is_told() -> None:
    pins = (seam("left", edges={"front": "-1/4", "back": "-1/2"}),
            seam("right", edges={"front": "-1/4", "back": "-1/4"}))  # fmt: skip
    (said,) = told(*pins)
    assert said == (
        "Side seam, waist, back: as pinned, her left take in 1/2 and her right take in 1/4;"
        f" {STAY}."
    )


def test_edges_given_apart_are_told_each_by_itself() -> None:
    pins = (seam("left", pinch="1/2"),
            seam("right", edges={"front": "-1/8", "back": "1/4"}))  # fmt: skip
    left = "as pinned, her left take in 1/2 and her right"
    assert told(*pins) == [
        f"Side seam, waist, front: {left} take in 1/8; {STAY}.",
        f"Side seam, waist, back: {left} let out 1/4; {STAY}.",
    ]
    assert offered(*pins) == 0


@pytest.mark.parametrize(
    ("pins", "ends"),
    [
        ((seam("left", pinch="1/2"), seam("right", pinch="1/4")), EVEN),
        ((seam("both", pinch="1/4"), seam("left", pinch="1/2")), STAY),
    ],
)
def test_she_is_told_to_even_them_only_where_that_is_offered(
    pins: tuple[Document, ...], ends: str
) -> None:
    assert told(*pins) == [
        "Side seam, waist: as pinned, her left take in 1/2 and her right take in 1/4 an edge;"
        f" {ends}."
    ]
    assert offered(*pins) == (ends == EVEN)


def test_where_the_tape_leads_the_dart_too_is_to_be_tried_on() -> None:
    (said,) = told(dart("left", pinch="1/8"), dart("right", pinch="1/4"), lead="tape")
    assert said.endswith("; the tape moves both sides alike, so try on first.")


def test_between_two_levels_that_can_be_evened_the_level_read_off_can_be_too() -> None:
    """Bust and hip alike on each side: 1/4 and 1/2 all the way, so 1/4 and 1/2 at the waist."""
    pins = [seam(side, at, pinch=deep) for at in ("bust", "hip")
            for side, deep in (("left", "1/4"), ("right", "1/2"))]  # fmt: skip
    said = told(*pins)
    assert len(said) == 3
    assert all(one.endswith(f"her right take in 1/2 an edge; {EVEN}.") for one in said)
