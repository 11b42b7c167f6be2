"""Lengths: what a person types is read as she means it, or refused in her own words.

Expected values are hand sums on 1 in = 25.4 mm exactly (international yard and pound
agreement of 1959).
"""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from core.errors import BadLength, WorkroomError
from core.lengths import (
    LONGEST_MM,
    MM_PER_UNIT,
    Unit,
    mm_written,
    read_length,
    write_glyphs,
    write_length,
)

FOURTEEN_AND_THREE_EIGHTHS = 365.125  # 14.375 x 25.4


@pytest.mark.parametrize(
    "typed",
    [
        "14 3/8", "14⅜", "14 ⅜", "14-3/8", "14 - 3/8", "14 3 / 8", "14.375", "14,375", "+14 3/8",
        "  14 3/8  ", "14 3⁄8", "14 6/16", "14 12/32", "115/8", "14 3/8 in", "14⅜in",
        "14 3/8 inches", '14 3/8"', "14⅜″", "14 3/8”", "14 3/8 IN",
        "365.125 mm", "36.5125 cm", "36,5125 cm",
    ],
)  # fmt: skip
def test_fourteen_and_three_eighths_is_read_however_it_is_typed(typed: str) -> None:
    assert read_length(typed, "in").mm == pytest.approx(FOURTEEN_AND_THREE_EIGHTHS, abs=1e-9)


@pytest.mark.parametrize(
    ("typed", "unit", "mm"),
    [
        ("36,5 cm", "in", 365.0), ("36.5", "cm", 365.0), ("365", "mm", 365.0),
        ("1/2", "in", 12.7), ("½", "in", 12.7), ("1/2", "cm", 5.0), ("1 inch", "mm", 25.4),
        ("-¼", "in", -6.35), ("-1/4", "in", -6.35), ("−1/4", "in", -6.35), ("–1/4", "in", -6.35),
        ("- 1/4", "in", -6.35), ("-1 1/2", "in", -38.1), ("-1½ in", "cm", -38.1),
        ("0", "in", 0.0), (".5", "in", 12.7), (",5", "in", 12.7), ("5.", "in", 127.0),
        ("⅛", "in", 3.175), ("⅞", "in", 22.225), ("⅓", "in", 25.4 / 3), ("⅝", "in", 15.875),
        (14, "in", 355.6), (14.375, "in", 365.125), (-0.25, "in", -6.35), (0.1, "mm", 0.1),
    ],
)  # fmt: skip
def test_a_length_is_read_in_the_unit_it_names_or_else_in_hers(
    typed: object, unit: Unit, mm: float
) -> None:
    assert read_length(typed, unit).mm == pytest.approx(mm, abs=1e-9)


@pytest.mark.parametrize(
    "typed",
    [
        "", " ", "twelve", "14 3", "14 3/8 1/8", "1½2", "½0", "½¼", "1/½", "3/", "/8",
        "1e3", "nan", "inf", "--1", "+-1", "1.2.3", "1 000", "14 3/8 in in", "٣", "½/3", "1.5 1/2",
        "5x5", "in", "14'", "-", "0x10",
    ],
)  # fmt: skip
def test_what_is_no_length_is_refused_and_quoted(typed: str) -> None:
    with pytest.raises(BadLength) as refused:
        read_length(typed, "in")
    assert f"“{typed}”" in str(refused.value)


@pytest.mark.parametrize("typed", ["14 feet", "3 m", "2 yd", "5 c"])
def test_a_unit_she_cannot_use_is_named(typed: str) -> None:
    with pytest.raises(BadLength, match="in, cm or mm") as refused:
        read_length(typed, "in")
    assert f"“{typed}”" in str(refused.value)


def test_a_fraction_over_nothing_says_so() -> None:
    with pytest.raises(BadLength, match="“14 3/0” divides by nothing"):
        read_length("14 3/0", "in")


@pytest.mark.parametrize("typed", [None, True, False, [], {}, b"14", object()])
def test_what_is_neither_number_nor_text_is_refused(typed: object) -> None:
    with pytest.raises(BadLength):
        read_length(typed, "in")


@pytest.mark.parametrize("typed", [float("nan"), float("inf"), -float("inf"), 1e300, 10**400])
def test_a_number_that_is_no_length_is_refused(typed: object) -> None:
    with pytest.raises(BadLength):
        read_length(typed, "in")


@pytest.mark.parametrize(("typed", "unit"), [("2001", "cm"), ("788", "in"), ("9" * 50, "mm")])
def test_a_slip_of_the_finger_beyond_twenty_metres_is_refused(typed: str, unit: Unit) -> None:
    with pytest.raises(BadLength, match="20 m"):
        read_length(typed, unit)


def test_twenty_metres_itself_is_taken() -> None:
    assert read_length("2000", "cm").mm == LONGEST_MM


def test_a_page_of_text_is_refused_in_one_short_line() -> None:
    with pytest.raises(BadLength) as refused:
        read_length("1" * 5000, "in")
    assert len(str(refused.value)) < 80


def test_a_refusal_is_something_the_person_can_put_right() -> None:
    assert issubclass(BadLength, WorkroomError)


@pytest.mark.parametrize("typed", ["14⅜", "36,5 cm", " 1/2 ", '14 3/8"'])
def test_what_was_typed_is_kept_as_typed(typed: str) -> None:
    assert read_length(typed, "in").typed == typed


def test_a_number_is_kept_as_plain_digits() -> None:
    assert (read_length(14.375, "in").typed, read_length(14, "in").typed) == ("14.375", "14")


@pytest.mark.parametrize(
    ("mm", "unit", "text"),
    [
        (365.125, "in", "14 3/8"), (12.7, "in", "1/2"), (-6.35, "in", "-1/4"),
        (-38.1, "in", "-1 1/2"), (355.6, "in", "14"), (0.0, "in", "0"), (-0.01, "in", "0"),
        (25.39, "in", "1"),
        (365.0, "cm", "36.5"), (1000.0, "cm", "100"), (-0.2, "cm", "0"), (-5.0, "cm", "-0.5"),
        (365.4, "mm", "365"), (100.0, "mm", "100"), (-0.2, "mm", "0"), (-1200.0, "mm", "-1200"),
    ],
)  # fmt: skip
def test_a_length_is_written_as_she_reads_it(mm: float, unit: Unit, text: str) -> None:
    assert write_length(mm, unit) == text
    assert write_length(mm, unit, with_unit=True) == f"{text} {unit}"


def test_an_eighth_tape_and_a_thirty_second_tape_read_the_same_length_apart() -> None:
    mm = 25.4 * (7 + 5 / 32)
    written = [write_length(mm, "in", fraction=fraction) for fraction in (8, 16, 32)]
    assert written[0] == "7 1/8"
    assert written[1] in ("7 1/8", "7 3/16")  # half way: either mark is as near
    assert written[2] == "7 5/32"


@pytest.mark.parametrize("mm", [float("nan"), float("inf")])
def test_no_length_is_never_written(mm: float) -> None:
    with pytest.raises(BadLength):
        write_length(mm, "in")


@pytest.mark.parametrize(
    ("text", "signs"),
    [
        ("14 3/8", "14⅜"), ("3/8", "⅜"), ("-1/4", "-¼"), ("-1 1/2 in", "-1½ in"), ("7", "7"),
        ("7 3/16", "7 3/16"), ("11/8", "11/8"),
        ("32; take in 2 1/2: 1/2 each", "32; take in 2½: ½ each"),
    ],
)  # fmt: skip
def test_fractions_are_shown_as_single_signs_where_there_are_such(text: str, signs: str) -> None:
    assert write_glyphs(text) == signs


@given(marks=st.integers(-6000, 6000), fraction=st.sampled_from([8, 16, 32]), glyphs=st.booleans())
def test_every_mark_of_an_inch_tape_is_read_back_as_it_was_written(
    marks: int, fraction: int, glyphs: bool
) -> None:
    mm = marks / fraction * 25.4
    text = write_length(mm, "in", fraction=fraction)
    again = read_length(write_glyphs(text) if glyphs else text, "in").mm
    assert again == pytest.approx(mm, abs=1e-9)


@given(marks=st.integers(-19_000, 19_000), unit=st.sampled_from(["cm", "mm"]))
def test_every_millimetre_of_a_metric_tape_is_read_back_as_it_was_written(
    marks: int, unit: Unit
) -> None:
    text = write_length(marks, unit, with_unit=True)
    assert read_length(text, "in").mm == pytest.approx(marks, abs=1e-9)


@given(mm=st.floats(-19_000, 19_000), unit=st.sampled_from(["in", "cm", "mm"]))
def test_nothing_written_is_further_off_than_half_a_mark(mm: float, unit: Unit) -> None:
    mark = MM_PER_UNIT["in"] / 16 if unit == "in" else 1.0
    assert abs(read_length(write_length(mm, unit), unit).mm - mm) <= mark / 2 + 1e-9


@given(typed=st.text(max_size=80))
def test_whatever_is_typed_is_a_length_or_a_plain_refusal(typed: str) -> None:
    try:
        found = read_length(typed, "in")
    except BadLength:
        return  # any other error fails the test
    assert abs(found.mm) <= LONGEST_MM


@pytest.mark.parametrize(
    ("typed", "mm"), [("1/2", 12.7), (2, 50.8), ("5 mm", 5.0), (None, None), ("", None),
                      ("a lot", None), ({"left": 1}, None)],
)  # fmt: skip
def test_what_is_no_length_has_no_millimetres(typed: object, mm: float | None) -> None:
    assert mm_written(typed, "in") == mm
