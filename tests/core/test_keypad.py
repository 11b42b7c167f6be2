"""What she types on the keys is what is kept, in few touches, whatever unit she looks at it in.

Expected values are hand sums on 1 in = 25.4 mm exactly.
"""

import string

import pytest
from hypothesis import given
from hypothesis import strategies as st

from core.body.keypad import BACK, CLEAR, EIGHTHS, POINTS, TENTHS, WHOLE, Keypad, keypad_of
from core.lengths import LONGEST_MM, Unit, read_length

UNITS: tuple[Unit, ...] = ("in", "cm", "mm")
KEYS = (*string.digits, *EIGHTHS, WHOLE, *TENTHS, *POINTS, BACK, CLEAR)
INCHES = Keypad("in", "in")
SIXTEENTHS = Keypad("in", "in", sixteenths=True)
CENTIMETRES = Keypad("cm", "in")


def pressed(keypad: Keypad, *keys: str) -> Keypad:
    for key in keys:
        keypad = keypad.press(key)
    return keypad


def test_two_digits_and_an_eighth_are_three_touches() -> None:
    assert pressed(INCHES, "3", "1", "1/4").as_typed == "31 1/4"


@pytest.mark.parametrize(
    ("keys", "kept"),
    [
        ("", ""), ("3", "3"), ("3 1", "31"), ("3 1 1/2", "31 1/2"), ("7/8", "7/8"),
        ("0", "0"), ("0 5", "5"), ("0 1/2", "1/2"), ("0 0", "0"),
        ("3 1 1/4 3/8", "31 3/8"), ("3 1 1/4 1/4", "31 1/4"), ("3 1 1/4 whole", "31"),
        ("3 1 1/4 back", "31"), ("3 1 1/4 back back", "3"), ("3 back", ""), ("back", ""),
        ("3 1 1/4 clear", ""), ("1/2 back", ""), ("1/2 whole", ""), ("whole", ""),
        ("1 2 3 4", "123"), ("7 8 8", "78"), ("7 8 7", "787"), ("7 8 7 1/2", "787"),
        (".", ""), ("3 . 5", "35"),
    ],
)  # fmt: skip
def test_inches_are_kept_as_she_keyed_them(keys: str, kept: str) -> None:
    assert pressed(INCHES, *keys.split()).as_typed == kept


@pytest.mark.parametrize(
    ("keys", "kept"), [("3 1 1/4 2", "2"), ("3 3 whole 4", "4"), ("1/2 9", "9")]
)
def test_a_digit_after_an_eighth_or_whole_begins_another_number(keys: str, kept: str) -> None:
    assert pressed(INCHES, *keys.split()).as_typed == kept


def test_after_taking_the_eighth_back_she_goes_on_with_the_number() -> None:
    assert pressed(INCHES, "3", "1/4", BACK, "1").as_typed == "31"


@pytest.mark.parametrize(
    ("keys", "kept"),
    [
        ("3 1 1/4 1/4", "31 5/16"), ("3 1 1/4 1/4 1/4", "31 1/4"), ("3 1 7/8 7/8", "31 15/16"),
        ("3 1 whole whole", "31 1/16"), ("3 1 1/4 1/4 3/8", "31 3/8"), ("1/8 1/8", "3/16"),
        ("3 1 1/4 whole whole", "31 1/16"),
    ],
)  # fmt: skip
def test_a_second_touch_on_an_eighth_is_a_sixteenth_more(keys: str, kept: str) -> None:
    assert pressed(SIXTEENTHS, *keys.split()).as_typed == kept


@pytest.mark.parametrize(
    ("keys", "kept"),
    [
        ("7 9 . 5", "79.5 cm"), ("7 9 , 5", "79,5 cm"), ("7 9 .", "79 cm"), (". 5", "0.5 cm"),
        ("7 9 . 5 5", "79.5 cm"), ("7 9 . . 5", "79.5 cm"), ("7 9 . 5 back", "79 cm"),
        ("7 9 . 5 back back 8", "798 cm"), ("7 9 1/2", "79 cm"), ("0 7", "7 cm"), ("0", "0 cm"),
        ("1 2 3 4", "123 cm"),
    ],
)  # fmt: skip
def test_centimetres_have_one_decimal_and_say_their_unit(keys: str, kept: str) -> None:
    assert pressed(CENTIMETRES, *keys.split()).as_typed == kept


@pytest.mark.parametrize(
    ("keys", "kept", "lit"),
    [
        ("7 9 .5", "79.5 cm", ".5"), ("7 9 .5 .6", "79.6 cm", ".6"), ("7 9 .5 .0", "79 cm", ".0"),
        (".5", "0.5 cm", ".5"), (".0", "", ""), ("7 9", "79 cm", ""), ("7 9 .5 8", "8 cm", ""),
        ("7 9 .5 back", "79 cm", ""), ("7 9 .5 back back back 1", "71 cm", ""),
        ("7 9 . .5", "79.5 cm", ".5"), ("7 9 , 5", "79,5 cm", ".5"),
        ("7 9 .5 1/4", "79.5 cm", ".5"),
    ],
)  # fmt: skip
def test_a_tenth_of_a_centimetre_is_one_touch(keys: str, kept: str, lit: str) -> None:
    keypad = pressed(CENTIMETRES, *keys.split())
    assert (keypad.as_typed, keypad.lit) == (kept, lit)


def test_a_tenth_changes_only_the_tenth_of_a_value_that_was_there() -> None:
    """31 1/4 in = 79.375 cm, shown as 79.4."""
    there = keypad_of("31 1/4", "in", "cm")
    assert (there.lit, there.as_typed) == (".4", "31 1/4")
    assert there.press(".5").as_typed == "79.5 cm"
    assert keypad_of("79", "cm", "cm").lit == ".0"
    assert keypad_of("79", "mm", "mm").press(".5").as_typed == "79"


@pytest.mark.parametrize(
    ("keys", "kept"),
    [("7 9 5", "795"), ("1 2 0 0", "1200"), ("1 2 0 0 0", "1200"), ("7 . 1/2", "7")],
)
def test_millimetres_are_digits_alone(keys: str, kept: str) -> None:
    assert pressed(Keypad("mm", "mm"), *keys.split()).as_typed == kept


def test_the_other_unit_shows_what_was_typed_and_keeps_it() -> None:
    """31 1/4 in = 793.75 mm."""
    keypad = pressed(INCHES, "3", "1", "1/4")
    assert (keypad.in_unit("cm").shown, keypad.in_unit("cm").as_typed) == ("79.4", "31 1/4")
    assert (keypad.in_unit("mm").shown, keypad.in_unit("mm").as_typed) == ("794", "31 1/4")
    assert keypad.in_unit("cm").in_unit("in").shown == "31 1/4"
    assert keypad.in_unit("cm").mm == 793.75


def test_what_was_typed_in_centimetres_stays_so_in_a_file_of_inches() -> None:
    """79.5 cm = 31.299 in, shown to the nearest sixteenth."""
    keypad = pressed(CENTIMETRES, "7", "9", ".", "5").in_unit("in")
    assert (keypad.shown, keypad.as_typed) == ("31 5/16", "79.5 cm")


def test_after_changing_the_unit_a_digit_begins_a_number_in_the_new_one() -> None:
    assert pressed(pressed(INCHES, "3", "1").in_unit("cm"), "8").as_typed == "8 cm"


def test_changing_the_unit_of_nothing_leaves_nothing() -> None:
    assert INCHES.in_unit("cm").is_empty
    assert pressed(INCHES.in_unit("cm"), "8", "0").as_typed == "80 cm"


@pytest.mark.parametrize(
    "typed", ["31 1/4", "31.25", "31 1/4 in", "79,5 cm", "31 5/16", "1/3", 31.25]
)
def test_a_value_that_was_there_is_not_changed_by_looking_at_it(typed: object) -> None:
    for unit in UNITS:
        assert keypad_of(typed, "in", unit).as_typed == str(typed)


@pytest.mark.parametrize(
    ("key", "kept"),
    [("3", "3"), ("1/2", "31 1/2"), (WHOLE, "31"), (BACK, "31"), (CLEAR, ""), (".", "31.25")],
)
def test_a_value_that_was_there_is_replaced_by_a_digit_and_mended_by_an_eighth(
    key: str, kept: str
) -> None:
    assert keypad_of("31.25", "in", "in").press(key).as_typed == kept


@pytest.mark.parametrize("typed", [None, "", "about thirty", "3 feet"])
def test_what_is_no_length_leaves_the_keys_empty(typed: object) -> None:
    assert keypad_of(typed, "in", "in").is_empty


@pytest.mark.parametrize(
    ("keys", "lit"),
    [
        ("3 1", ""), ("3 1 1/4", "1/4"), ("3 1 whole", WHOLE), ("", ""),
        ("3 1 1/4 1/4", "1/4"), ("3 1 whole whole", WHOLE),
    ],
)  # fmt: skip
def test_the_key_that_counts_is_lit(keys: str, lit: str) -> None:
    assert pressed(SIXTEENTHS, *keys.split()).lit == lit


def test_no_key_of_inches_is_lit_in_centimetres() -> None:
    """3 1/4 in = 8.255 cm, shown as 8.3."""
    assert pressed(INCHES, "3", "1/4").in_unit("cm").lit == ".3"
    assert pressed(INCHES, "3", "1/4").in_unit("mm").lit == ""
    assert keypad_of("31 1/4", "in", "in").lit == "1/4"


@pytest.mark.parametrize(
    ("keys", "may"),
    [("3", True), ("31", False), ("0", True), ("", True), ("9", False), ("3 1/4", False),
     ("3 whole", False), ("1", True)],
)  # fmt: skip
def test_a_beginning_is_not_taken_for_a_value(keys: str, may: bool) -> None:
    """A waist from 17 3/4 to 74 3/4 in: 3 may become 31 and 1 may become 18, but 9 at least 90."""
    keypad = pressed(INCHES, *(keys if keys.isdecimal() else keys.split()))
    assert keypad.may_go_on(450, 1900) is may


def test_a_key_that_does_not_exist_is_a_fault_of_the_program() -> None:
    with pytest.raises(ValueError, match="no key"):
        INCHES.press("11")


@given(
    st.sampled_from(UNITS), st.sampled_from(UNITS), st.booleans(), st.lists(st.sampled_from(KEYS))
)
def test_whatever_is_keyed_can_be_read_and_is_what_is_shown(
    unit: Unit, file_unit: Unit, sixteenths: bool, keys: list[str]
) -> None:
    keypad = pressed(Keypad(unit, file_unit, sixteenths), *keys)
    if keypad.is_empty:
        assert keypad.as_typed == keypad.shown == ""
        return
    read = read_length(keypad.as_typed, file_unit)
    assert 0 <= read.mm <= LONGEST_MM
    assert read.mm == keypad.mm == read_length(keypad.shown, unit).mm


@given(
    st.sampled_from(UNITS),
    st.sampled_from(UNITS),
    st.lists(st.sampled_from(KEYS)),
    st.lists(st.sampled_from(UNITS)),
)
def test_changing_the_unit_to_and_fro_never_changes_what_is_kept(
    unit: Unit, file_unit: Unit, keys: list[str], units: list[Unit]
) -> None:
    keypad = pressed(Keypad(unit, file_unit), *keys)
    turned = keypad
    for other in units:
        turned = turned.in_unit(other)
    assert turned.as_typed == keypad.as_typed


@given(st.integers(0, 786), st.sampled_from(EIGHTHS))
def test_any_whole_number_and_eighth_is_a_touch_a_digit_and_one_more(
    whole: int, eighth: str
) -> None:
    keypad = pressed(INCHES, *str(whole), eighth)
    numerator, denominator = map(int, eighth.split("/"))
    assert keypad.mm == pytest.approx((whole + numerator / denominator) * 25.4)
    assert pressed(keypad, BACK).as_typed == (str(whole) if whole else "")


@given(st.sampled_from(UNITS), st.lists(st.sampled_from(KEYS)))
def test_enough_backspaces_leave_nothing(unit: Unit, keys: list[str]) -> None:
    assert pressed(Keypad(unit, "in"), *keys, *[BACK] * 6).is_empty


@given(st.lists(st.sampled_from(KEYS)), st.sampled_from(EIGHTHS))
def test_without_sixteenths_an_eighth_touched_twice_is_that_eighth(
    keys: list[str], eighth: str
) -> None:
    keypad = pressed(INCHES, *keys, eighth)
    assert keypad.press(eighth) == keypad
