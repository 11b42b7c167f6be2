"""Words are shown whole: fractions stand upright, lines wrap, and signs keep to their amount."""

import pytest

from screens.parts.lettering import Atom, words_of


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("waist", [[Atom("waist")]]),
        ("3/8", [[Atom("3", "8")]]),
        ("14 3/8", [[Atom("14"), Atom("3", "8")]]),
        ("= 40", [[Atom("=")], [Atom("40")]]),
        ("(1/2)", [[Atom("("), Atom("1", "2"), Atom(")")]]),
        ("-1/4", [[Atom("−"), Atom("1", "4")]]),
        ("33 / 4", [[Atom("33")], [Atom("/")], [Atom("4")]]),
        ("1/2/3", [[Atom("1/2/3")]]),
        ("4 each", [[Atom("4")], [Atom("each")]]),
        ("", []),
    ],
)  # fmt: skip
def test_text_is_read_as_words_whose_parts_stay_together(text, words):
    assert [list(word) for word in words_of(text)] == words


def test_an_amount_is_never_parted_at_the_end_of_a_line(window):
    from screens.parts.words import Words

    words = Words(text="take in 10 1/2 an edge", size=(90, 200))
    lines = [["".join(atom.over for atom in word) for word in line] for line in words.lines()]
    assert ["take", "in"] in lines
    assert all("10" not in line for line in lines)
    assert any("101" in line for line in lines)


def test_a_narrower_place_needs_more_height(window):
    from screens.parts.words import Words

    words = Words(text="Chalk both sides of every fold, then thread it", size=(600, 100))
    wide = words.needed_height
    words.width = 150
    assert words.needed_height >= 2 * wide


def test_a_word_wider_than_its_place_is_broken_rather_than_cut_off(window):
    from screens.parts.words import Words

    words = Words(text="Shoulderbladeheight", size=(90, 200))
    assert len(words.lines()) > 1
    assert "".join(line[0][0].over for line in words.lines()) == "Shoulderbladeheight"


def test_a_name_that_is_too_long_is_lettered_smaller(window):
    from screens.parts.words import Words

    name = {"bold": True, "shrinks": True, "size": (104, 48)}
    assert Words(text="Under-bust", **name).hand.size == 18
    assert Words(text="Waist", **name).hand.size == 24


def test_new_lines_are_kept(window):
    from screens.parts.words import Words

    assert len(Words(text="× 2 a fold\n× 2 sides", size=(600, 100)).lines()) == 2


def test_every_digit_of_the_two_small_sizes_is_as_wide_as_the_others(window):
    from screens.parts.lettering import Hand, letters_of

    for size in (18, 24):
        for bold in (False, True):
            widths = {letters_of(str(digit) * 10, Hand(size, bold)).texture.width
                      for digit in range(10)}  # fmt: skip
            assert len(widths) == 1
