"""On every screen and size: fingers fit, nothing is cut off, and every sign can be drawn."""

from contextlib import ExitStack
from itertools import combinations

import pytest
from PIL import ImageFont

from tests.screens.stages import STAGES, begin, say_everything
from tests.screens.tablet import Tablet

WORN = [("landscape", "normal"), ("portrait", "normal"), ("dense portrait", "normal"),
        ("landscape", "largest"), ("portrait", "largest")]  # fmt: skip
"""The sizes of screens, and of letters on them."""

LOOKED_AT = [(stage, *worn) for stage in STAGES for worn in WORN]


@pytest.fixture(params=LOOKED_AT, ids=" ".join, scope="module")
def hand(request, window, tmp_path_factory):
    """A screen at its fullest, looked at by every test of this module and changed by none."""
    from screens.tokens import sizes

    name, size, text = request.param
    folder = tmp_path_factory.mktemp("data") / "a folder whose name is rather long"
    running = Tablet(window, folder)
    with ExitStack() as held:
        hand = begin(STAGES[name], running, folder, size, held, text=text)
        say_everything(hand)
        yield hand
        running.stop()
        sizes.scale = 1.0


def buttons(hand):
    from kivy.uix.behaviors import ButtonBehavior, FocusBehavior

    found = hand.all((ButtonBehavior, FocusBehavior))
    assert found
    return [button for button in found if in_sight_of_its_list(button)]


def in_sight_of_its_list(button):
    """Tell whether a row of a long list is whole in sight: at its edges they come and go."""
    from kivy.uix.recycleview import RecycleView

    parent = button.parent
    while parent is not None and parent.parent is not parent:
        if isinstance(parent, RecycleView):
            low, high = box(parent)[1::2]
            return low - 1 <= box(button)[1] and box(button)[3] <= high + 1
        parent = parent.parent
    return True


def box(widget):
    x, y = widget.to_window(widget.x, widget.y)
    return x, y, x + widget.width, y + widget.height


def test_every_touch_target_fits_a_finger(hand):
    from kivy.metrics import dp

    for button in buttons(hand):
        assert min(button.size) >= dp(48), (button, button.size)


def test_every_touch_target_can_be_brought_into_the_window(hand):
    from kivy.metrics import dp

    for button in buttons(hand):
        hand.see(button)
        left, bottom, right, top = box(button)
        width, height = hand.window.size
        assert left >= -1, button
        assert right <= width + 1, button
        in_sight = min(top, height) - max(bottom, 0)  # a step that lies open may be a long one
        assert in_sight >= min(dp(48), top - bottom) - 1, button


def test_two_touch_targets_are_never_nearer_than_eight(hand):
    from kivy.metrics import dp
    from kivy.uix.scrollview import ScrollView

    def view(widget):
        while widget is not hand.screen and not isinstance(widget, ScrollView):
            widget = widget.parent
        return widget

    for one, other in combinations(buttons(hand), 2):
        if view(one) is not view(other):
            continue
        a, b = box(one), box(other)
        across = max(a[0], b[0]) - min(a[2], b[2])
        up = max(a[1], b[1]) - min(a[3], b[3])
        assert max(across, up) >= dp(8) - 1, (one.to_window(*one.pos), other.to_window(*other.pos))


def test_no_text_is_cut_off(hand):
    assert_nothing_cut_off(hand)


def assert_nothing_cut_off(hand):
    from screens.parts.lettering import width_of_word
    from screens.parts.words import Words

    for words in hand.all(Words):
        if not words.text or words.shortens:
            continue
        widest = words.needed_width
        if words.wraps:
            widest = max(width_of_word(word, words.hand) for line in words.lines() for word in line)
        assert widest <= words.width + 1, (words.text, widest, words.width)
        assert words.needed_height <= words.height + 1, (words.text, words.height)
        left, _, right, _ = box(words)
        assert left >= -1, words.text
        assert right <= hand.window.width + 1, words.text


def test_only_the_four_sizes_of_letters_are_used(hand):
    from screens import tokens
    from screens.parts.words import Words

    assert {words.letter for words in hand.all(Words)} <= set(tokens.LINE)


def test_every_sign_that_is_shown_is_in_the_font_that_shows_it(hand):
    from screens import tokens
    from screens.parts.words import Words

    fonts = {
        (font, bold): ImageFont.truetype(
            str(tokens.FONTS / f"{font.replace(' ', '-')}-{'SemiBold' if bold else 'Regular'}.otf"),
            40,
        )
        for font in (tokens.TEXT_FONT, tokens.LARGE_FONT)
        for bold in (False, True)
    }
    for words in hand.all(Words):
        font = fonts[words.hand.font, words.bold]
        for sign in set(words.text) - {" ", "\n", "\u00a0"}:
            assert has(font, sign), (sign, words.text)


def has(font, sign):
    """Tell whether a font has a sign: a missing one is drawn as the sign for nothing."""
    drawn, missing = font.getmask(sign), font.getmask("\U000f1234")
    return (drawn.size, bytes(drawn)) != (missing.size, bytes(missing))


def test_a_sign_that_is_missing_would_be_noticed():
    from screens import tokens

    font = ImageFont.truetype(str(tokens.FONTS / "Pins-Text-Regular.otf"), 40)
    assert has(font, "a")
    assert not has(font, "\u4e00")
