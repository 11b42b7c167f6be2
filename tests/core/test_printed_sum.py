"""Printed sums: read as terms, one changed, and written again."""

import pytest

from core.draft.printed_sum import read_sum, write_exactly, write_sum
from tests.real_drafts import worked_drafts

INCH = 25.4


def _sums():
    for document in worked_drafts().values():
        for layer in document["garments"][0]["layers"]:
            for ring in layer["rings"]:
                for piece in ring["pieces"]:
                    yield from piece["sum"].values()


def test_every_sum_of_the_worked_drafts_is_written_as_it_was_read():
    sums = list(_sums())
    assert len(sums) > 100
    for said in sums:
        assert write_sum(read_sum(said, "in"), "in") == said


def test_a_sum_is_read_as_terms_with_their_signs():
    printed = read_sum("9 1/2 (bust 38 / 4) - 3/8 (back is less) + 1 = 10 1/8", "in")
    assert [term.mm / INCH for term in printed.terms] == pytest.approx([9.5, -0.375, 1])
    assert [term.name for term in printed.terms] == ["bust 38 / 4", "back is less", ""]
    assert printed.result_mm / INCH == pytest.approx(10.125)
    assert printed.worth_mm / INCH == pytest.approx(10.125)


def test_a_changed_term_changes_the_result():
    printed = read_sum("9 (body) + 1 (side seam allowance) = 10", "in")
    term = printed.find(lambda one: one.name == "side seam allowance")
    assert write_sum(printed.changed(term, -INCH / 4, term.name), "in") == (
        "9 (body) + 3/4 (side seam allowance) = 9 3/4"
    )


def test_a_term_that_comes_to_nothing_goes_and_a_new_one_stands_last():
    printed = read_sum("9 (body) + 1 (dart) = 10", "in")
    term = printed.find(lambda one: one.name == "dart")
    assert write_sum(printed.changed(term, -INCH, "dart"), "in") == "9 (body) = 9"
    assert write_sum(printed.changed(None, INCH / 2, "ease"), "in") == (
        "9 (body) + 1 (dart) + 1/2 (ease) = 10 1/2"
    )


@pytest.mark.parametrize("said", ["", "waist and a bit", "7 1/8 (waist) + … = 10", "1 + = 2"])
def test_what_is_not_a_sum_is_not_read_as_one(said):
    assert read_sum(said, "in") is None


def test_a_length_off_the_marks_is_written_without_a_loss():
    assert write_exactly(10.3 * INCH, "in") == "10.3"
    assert write_exactly(33 / 32 * INCH, "in") == "1 1/32"
    assert write_exactly(242.5, "cm") == "24.25"
    assert write_exactly(243.3, "cm") == "24.33"
