"""Colours: text stands out from its ground in the light and in the dark, and both are worn."""

import pytest


@pytest.mark.parametrize("theme", ["light", "dark"])
def test_text_stands_out_from_its_ground(theme):
    from screens.tokens import DARK, LIGHT

    colours = DARK if theme == "dark" else LIGHT
    for ground in ("paper", "sheet"):
        for ink in ("ink", "soft", "take_in", "let_out", "agrees"):
            assert contrast(colours[ink], colours[ground]) >= 4.5, (ink, ground)
        assert contrast(colours["edge"], colours[ground]) >= 3, ground
    assert contrast(colours["caution_ink"], colours["caution"]) >= 4.5


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
