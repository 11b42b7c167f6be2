"""The number keys by touch: each says what it means, in the order a thumb learns."""

import pytest

from core.body.keypad import keypad_of
from tests.screens import test_every_screen as every


@pytest.fixture
def block(launch):
    """``block(unit)`` shows the keys of a unit alone; ``told`` is what they said."""

    def begin(unit="in", **more):
        from kivy.app import App

        from screens.parts.keypad import KeyBlock

        class Alone(App):
            def build(self):
                self.told = []
                keys = KeyBlock(unit=unit, key_width=88, spacing=24, **more)
                keys.bind(on_key=lambda _keys, sign: self.told.append(sign))
                return keys

        hand = launch(Alone())
        hand.keys = hand.app.root
        return hand

    return begin


def keys(hand):
    """Every key, by rows from the top and from left to right."""
    from screens.parts.keypad import Key

    return sorted(hand.all(Key, hand.keys), key=lambda key: (-round(key.y), key.x))


def key_of(hand, sign):
    return next(key for key in keys(hand) if key.sign == sign)


def touched(hand, *signs):
    for sign in signs:
        hand.tap(key_of(hand, sign))
    return hand.app.told


def test_every_key_of_inches_says_what_it_is(block):
    hand = block()
    signs = [key.sign for key in keys(hand)]
    assert sorted(signs) == sorted([*"0123456789", "back", "clear", "whole", "1/8", "1/4", "3/8",
                                    "1/2", "5/8", "3/4", "7/8"])  # fmt: skip
    assert touched(hand, *signs) == signs


@pytest.mark.parametrize(
    ("unit", "signs", "kept"),
    [("in", ("3", "1", "5/8"), "31 5/8"), ("cm", ("7", "9", ".5"), "79.5 cm"),
     ("mm", ("7", "9", "5"), "795 mm")],
)  # fmt: skip
def test_what_the_keys_of_a_unit_say_is_what_she_means(block, unit, signs, kept):
    keypad = keypad_of(None, "in", unit)
    for sign in touched(block(unit), *signs):
        keypad = keypad.press(sign)
    assert keypad.as_typed == kept


def test_digits_stand_as_on_a_telephone_and_halves_beside_wholes(block):
    rows = {}
    for key in keys(block()):
        rows.setdefault(round(key.y), []).append(key.sign)
    assert list(rows.values()) == [
        ["1", "2", "3", "whole", "1/2"], ["4", "5", "6", "1/8", "5/8"],
        ["7", "8", "9", "1/4", "3/4"], ["back", "0", "clear", "3/8", "7/8"],
    ]  # fmt: skip


def test_every_key_shows_a_word_or_a_sign_that_can_be_read(block):
    hand = block()
    shown = {key.sign: key.text for key in keys(hand)}
    assert (shown["clear"], shown["whole"], shown["3/8"], shown["7"]) == (
        "Clear", "whole", "3/8", "7")  # fmt: skip
    assert shown["back"] == ""
    drawn = hand.picture().crop([int(edge) for edge in _upside(hand, key_of(hand, "back"))])
    assert len(drawn.getcolors(1_000_000)) > 1  # its sign is drawn, not lettered


def _upside(hand, key):
    left, bottom, right, top = every.box(key)
    height = hand.window.height
    return left + 8, height - top + 8, right - 8, height - bottom - 8


@pytest.mark.parametrize(("unit", "lit"), [("in", "1/4"), ("cm", ".4")])
def test_the_part_of_the_number_is_lit_and_changes_with_the_unit(block, unit, lit):
    """31 1/4 in = 79.375 cm."""
    hand = block()
    hand.keys.unit = unit
    hand.keys.lit = keypad_of("31 1/4", "in", unit).lit
    assert [key.sign for key in keys(hand) if key.chosen] == [lit]


def test_millimetres_have_no_parts_and_wider_digits(block):
    hand = block("mm")
    assert len(keys(hand)) == 12
    assert min(key.width for key in keys(hand)) > 88


def test_left_handed_the_parts_stand_at_the_left(block):
    hand = block(left_handed=True)
    assert key_of(hand, "whole").x < key_of(hand, "1").x
    hand.keys.left_handed = False
    hand.frames(2)
    assert key_of(hand, "whole").x > key_of(hand, "1").x
    assert touched(hand, "1", "whole") == ["1", "whole"]
