"""What is implausible is asked about once, in plain words; real and odd figures pass.

EN 13402-3: women's control measurements as a text quotes them.  ASTM D5585-11e1: size 8 as read.
The 260 women are measured bodies (source in tests/data/README.md).
"""

import pytest

from core.body.measurements import Value
from core.body.questions import Question, questions
from tests.bodies import WOMEN_IN_THE_FILE, women

INCH = 25.4

# bust, waist, hip in cm, EN 13402-3
EN_SIZES = [
    (76, 60, 84), (80, 64, 88), (84, 68, 92), (88, 72, 96), (92, 76, 100), (96, 80, 104),
    (100, 84, 108), (104, 88, 112), (110, 94, 117), (116, 100, 122), (122, 106, 127),
    (128, 112, 132),
]  # fmt: skip

PLAIN: dict[str, Value] = {
    "bust_girth": 38 * INCH,
    "bust_front_arc": 19.75 * INCH,
    "waist_girth": 30 * INCH,
    "hip_girth": 41 * INCH,
    "upper_arm_girth": {"left": 11.875 * INCH, "right": 12 * INCH},
    "waist_to_top_hip": 4 * INCH,
    "waist_to_hip": 8.5 * INCH,
    "waist_to_knee": 23 * INCH,
}
"""The measurements of an invented client with nothing to ask about."""


def asked(earlier: dict[str, Value] | None = None, **changed: Value) -> tuple[Question, ...]:
    return questions({**PLAIN, **changed}, earlier)


def keys(found: tuple[Question, ...]) -> list[str]:
    return [question.key for question in found]


def test_an_ordinary_figure_is_asked_nothing() -> None:
    assert asked() == ()
    assert questions({}) == ()


@pytest.mark.parametrize("size", EN_SIZES)
def test_no_size_of_the_standard_is_asked_anything(size: tuple[float, float, float]) -> None:
    bust, waist, hip = (cm * 10.0 for cm in size)
    assert questions({"bust_girth": bust, "waist_girth": waist, "hip_girth": hip}) == ()


@pytest.mark.parametrize("waist", [28, 29.5])
def test_a_middling_size_is_asked_nothing_curvy_or_straight(waist: float) -> None:
    """ASTM D5585-11e1 size 8: bust 36 1/4, under-bust 30, upper chest 35 7/8."""
    size = {"bust_girth": 36.25, "under_bust_girth": 30, "upper_chest_girth": 35.875}
    assert (
        questions({name: inches * INCH for name, inches in {**size, "waist_girth": waist}.items()})
        == ()
    )


def test_an_upper_chest_a_little_over_the_bust_is_a_real_figure() -> None:
    """ASTM D5585-11e1: sizes 00 to 2 have it so."""
    assert questions({"upper_chest_girth": 32 * INCH, "bust_girth": 31 * INCH}) == ()


def test_real_women_are_seldom_asked() -> None:
    """Heinz and others 2003: troubling more than one in fifty would be too narrow a check."""
    assert len(women()) == WOMEN_IN_THE_FILE
    troubled = [woman for woman in women() if questions(woman)]
    assert len(troubled) <= WOMEN_IN_THE_FILE / 50


@pytest.mark.parametrize("mm", [0.0, 38.0, 380.0, 9650.0])
def test_a_value_no_body_has_is_asked_about(mm: float) -> None:
    assert "range:bust_girth" in keys(asked(bust_girth=mm))


def test_centimetres_typed_for_inches_are_asked_about() -> None:
    assert "range:hip_girth" in keys(asked(hip_girth=104 * INCH))


def test_a_waist_far_over_the_hip_is_asked_about_and_a_little_over_is_not() -> None:
    """A hip under the waist is real in 7.3% of 4,221 measured women: only far over asks."""
    assert "against:waist_girth:hip_girth" not in keys(asked(waist_girth=42 * INCH))
    found = {question.key: question for question in asked(waist_girth=44 * INCH)}
    assert found["against:waist_girth:hip_girth"].text == (
        "Waist 44 is 3 more than hip 41. Is that as you read them?"
    )


def test_left_and_right_over_a_quarter_apart_are_asked_about_once() -> None:
    level = {"left": 12 * INCH, "right": 12.25 * INCH}
    apart = {"left": 12 * INCH, "right": 12.375 * INCH}
    assert asked(upper_arm_girth=level) == ()
    (question,) = asked(upper_arm_girth=apart)
    assert question == Question(
        "sides",
        ("upper_arm_girth",),
        "Upper arm: left 12 and right 12 3/8 are 3/8 apart. Is that so?",
    )


@pytest.mark.parametrize(
    ("arc", "words"), [(12, "less than a third"), (26, "more than two thirds")]
)
def test_a_front_that_is_no_front_is_asked_about(arc: float, words: str) -> None:
    (question,) = asked(bust_front_arc=arc * INCH)
    assert question.measurements == ("bust_front_arc", "bust_girth")
    assert words in question.text


@pytest.mark.parametrize("arc", [38 / 3, 19, 38 * 2 / 3])
def test_a_front_from_a_third_to_two_thirds_passes(arc: float) -> None:
    assert asked(bust_front_arc=arc * INCH) == ()


@pytest.mark.parametrize(
    ("first", "second", "inches"),
    [
        ("upper_chest_girth", "bust_girth", 41), ("under_bust_girth", "bust_girth", 38.25),
        ("waist_to_top_hip", "waist_to_hip", 8.75), ("waist_to_hip", "waist_to_knee", 23.5),
    ],
)  # fmt: skip
def test_what_is_seldom_longer_is_asked_about_when_it_is(
    first: str, second: str, inches: float
) -> None:
    assert f"against:{first}:{second}" in keys(questions({**PLAIN, first: inches * INCH}))


def test_heights_out_of_order_down_the_front_are_asked_about() -> None:
    heights = {"side_neck_to_bust_point": 14.0, "side_neck_to_under_bust": 13.75}
    found = questions({name: inches * INCH for name, inches in heights.items()})
    assert keys(found) == ["against:side_neck_to_bust_point:side_neck_to_under_bust"]


def test_a_value_with_two_sides_is_held_against_a_single_one_once() -> None:
    found = questions(
        {
            "side_neck_to_bust_point": {"left": 356.0, "right": 358.0},
            "side_neck_to_under_bust": 349.0,
        }
    )
    assert keys(found) == ["against:side_neck_to_bust_point:side_neck_to_under_bust"]
    assert found[0].side == "left"


@pytest.mark.parametrize(
    ("before", "now", "is_asked"),
    [(30, 30, False), (30, 31, False), (30, 31.5, False), (30, 31.75, True), (30, 28.25, True)],
)
def test_only_what_is_far_from_last_time_is_asked_about(
    before: float, now: float, is_asked: bool
) -> None:
    """Over a twentieth: 1 1/2 of 30.  A working default, no source."""
    earlier: dict[str, Value] = {"waist_girth": before * INCH}
    found = keys(asked(earlier, waist_girth=now * INCH))
    assert found == (["last_time:waist_girth"] if is_asked else [])


def test_a_small_measurement_may_move_by_twice_the_tape_error() -> None:
    """The tape errs by 5 mm on a shoulder: 10 mm apart is two honest readings."""
    before: dict[str, Value] = {"shoulder_length": 120.0}
    assert questions({"shoulder_length": 130.0}, before) == ()
    assert keys(questions({"shoulder_length": 131.0}, before)) == ["last_time:shoulder_length"]


def test_a_wish_may_change_as_she_likes() -> None:
    before: dict[str, Value] = {"heel_of_the_day": 100.0, "neckline_drop": 0.0}
    assert questions({"heel_of_the_day": 0.0, "neckline_drop": 120.0}, before) == ()


def test_a_measurement_of_her_own_is_only_held_against_itself() -> None:
    found = questions({"cape_hem_girth": 9000.0}, {"cape_hem_girth": 7000.0})
    assert keys(found) == ["last_time:cape_hem_girth"]


def test_one_side_alone_is_compared_with_that_side() -> None:
    found = questions({"thigh_girth": {"left": 600.0}}, {"thigh_girth": {"left": 500.0}})
    assert [(question.key, question.side) for question in found] == [
        ("last_time:thigh_girth", "left")
    ]


def test_it_is_asked_in_her_own_unit() -> None:
    (question,) = questions({"bust_girth": 380.0}, unit="cm")
    assert question.text == "Bust 38: usually between 65 and 190. Is that as you read it?"


def test_every_question_is_one_a_person_can_answer() -> None:
    found = asked({"waist_girth": 500.0}, bust_girth=300.0, waist_girth=1200.0)
    assert len(found) >= 4
    assert all(question.text.endswith("?") and "_" not in question.text for question in found)
    assert len(set(keys(found))) == len(found)
