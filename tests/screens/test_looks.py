"""Colours: text stands out from its ground in the light and in the dark, and both are worn."""

from contextlib import ExitStack

import pytest

from tests.screens.stages import STAGES, begin, say_everything


@pytest.mark.parametrize("theme", ["light", "dark"])
def test_text_stands_out_from_its_ground(theme):
    from screens.tokens import DARK, LIGHT

    colours = DARK if theme == "dark" else LIGHT
    for ground in ("paper", "sheet"):
        for ink in ("ink", "soft", "take_in", "let_out", "agrees"):
            assert contrast(colours[ink], colours[ground]) >= 4.5, (ink, ground)
        assert contrast(colours["edge"], colours[ground]) >= 3, ground
    assert contrast(colours["caution_ink"], colours["caution"]) >= 4.5


@pytest.mark.parametrize("light", ["light", "dark"])
@pytest.mark.parametrize("stage", STAGES)
def test_every_word_on_every_screen_stands_out_from_what_lies_behind_it(
    launch, tmp_path, stage, light
):
    """Measured in the picture itself; a key that cannot be pressed may stand back."""
    from screens.tokens import colours

    try:
        with ExitStack() as held:
            hand = begin(STAGES[stage], launch, tmp_path / "data", "landscape", held, light=light)
            say_everything(hand)
            picture = hand.picture()
            seen = [words for words in words_in_sight(hand) if not stands_back(words)]
            assert seen
            for words in seen:
                ground = ground_behind(words, picture)
                assert contrast(written(words.colour), ground) >= 4.5, (words.text, ground)
            launch.stop()
    finally:
        colours.theme = "light"


def words_in_sight(hand):
    """Every text that is whole in the window and in whatever it scrolls in."""
    from kivy.uix.scrollview import ScrollView

    from screens.parts.words import Words

    def box(widget):
        x, y = widget.to_window(widget.x, widget.y)
        return x, y, x + widget.width, y + widget.height

    def inside(words):
        left, bottom, right, top = box(words)
        views = [hand.screen]
        parent = words.parent
        while parent is not None and parent is not hand.screen:
            if isinstance(parent, ScrollView):
                views.append(parent)
            parent = parent.parent
        return all(x <= left and y <= bottom and right <= x1 and top <= y1
                   for x, y, x1, y1 in map(box, views))  # fmt: skip

    return [words for words in hand.all(Words)
            if words.text and words.width > 1 and words.height > 1 and inside(words)]  # fmt: skip


def stands_back(words):
    parent = words
    while parent is not None and parent.parent is not parent:
        if getattr(parent, "disabled", False) or not getattr(parent, "opacity", 1):
            return True
        parent = parent.parent
    return False


def ground_behind(words, picture):
    """Return what most of the words' box is filled with."""
    x, y = words.to_window(words.x, words.y)
    top = picture.height - y - words.height
    cut = picture.crop((round(x), round(top), round(x + words.width), round(picture.height - y)))
    _, colour = max(cut.getcolors(cut.width * cut.height))
    return "#{:02X}{:02X}{:02X}".format(*colour)


def written(rgba):
    return "#{:02X}{:02X}{:02X}".format(*(round(255 * part) for part in rgba[:3]))


def contrast(one, other):
    """Return the ratio of relative luminances (WCAG 2.2)."""

    def luminance(colour):
        parts = [int(colour[index : index + 2], 16) / 255 for index in (1, 3, 5)]
        linear = [p / 12.92 if p <= 0.04045 else ((p + 0.055) / 1.055) ** 2.4 for p in parts]
        return sum(w * p for w, p in zip((0.2126, 0.7152, 0.0722), linear, strict=True))

    dim, bright = sorted((luminance(one), luminance(other)))
    return (bright + 0.05) / (dim + 0.05)


def test_the_dark_colours_are_worn_at_once(start):
    from screens.tokens import DARK, colours

    hand = start()
    light = hand.picture().getpixel((5, 400))
    try:
        colours.theme = "dark"
        dark = hand.picture().getpixel((5, 400))
    finally:
        colours.theme = "light"
    assert light != dark == tuple(int(DARK["paper"][i : i + 2], 16) for i in (1, 3, 5))
