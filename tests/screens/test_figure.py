"""The figure beside the number: the tape lies on it, and it is nobody's own shape."""

import pytest

from core.body.measurements import catalogue
from core.figure.tape_on_figure import tape_on_figure

NUMBERS = [(name, side) for name, known in catalogue().items()
           for side in (("left", "right") if known.both_sides else ("",))]  # fmt: skip
INK = (34, 30, 25)


@pytest.fixture
def alone(launch):
    """``alone()`` shows a figure and nothing else."""

    def begin(screen="portrait"):
        from kivy.app import App
        from kivy.uix.anchorlayout import AnchorLayout

        from screens.parts.figure import Figure
        from screens.tokens import colours

        class Alone(App):
            def build(self):
                self.figure = Figure(size_hint=(0.4, 0.6))
                ground = AnchorLayout()
                ground.add_widget(self.figure)
                return ground

        hand = launch(Alone(), screen)
        hand.window.clearcolor = colours.paper
        hand.figure = hand.app.figure
        hand.settle()
        return hand

    return begin


def inked(hand):
    """Where ink is drawn in the window: left, top, right, bottom; nothing where there is none."""
    from PIL import Image, ImageChops

    picture = hand.picture()
    away = ImageChops.difference(picture, Image.new("RGB", picture.size, INK)).convert("L")
    return away.point(lambda far: 255 if far == 0 else 0).getbbox()


def test_without_a_measurement_there_is_the_figure_and_no_tape(alone):
    hand = alone()
    assert inked(hand) is None
    assert len(hand.picture().getcolors(1_000_000)) > 2


def test_the_tape_of_every_measurement_is_drawn_inside_its_place(alone):
    hand = alone()
    figure, height = hand.figure, hand.window.height
    for name, side in NUMBERS:
        figure.measurement, figure.side = name, side
        left, top, right, bottom = inked(hand)
        assert figure.x - 1 <= left < right <= figure.right + 1, (name, side)
        assert height - figure.top - 1 <= top < bottom <= height - figure.y + 1, (name, side)


def test_it_says_from_where_she_is_seen(alone):
    hand = alone()
    said = {}
    for name in ("waist_girth", "across_back_width", "waist_to_hip"):
        hand.figure.measurement, hand.figure.side = name, "left" if name == "waist_to_hip" else ""
        hand.frames(2)
        said[name] = hand.figure.seen_from
    assert said == {"waist_girth": "from the front", "across_back_width": "from behind",
                    "waist_to_hip": "from her left"}  # fmt: skip


def test_her_left_is_at_the_right_hand_from_the_front(alone):
    assert tape_on_figure("upper_arm_girth", "left").view == "front"
    hand = alone()
    hand.figure.measurement, hand.figure.side = "upper_arm_girth", "left"
    assert inked(hand)[0] > hand.figure.center_x
    hand.figure.side = "right"
    assert inked(hand)[2] < hand.figure.center_x


def test_a_measurement_of_her_own_shows_the_figure_without_a_tape(alone):
    hand = alone()
    hand.figure.measurement = "tail_length"
    assert inked(hand) is None


def test_turning_the_tablet_and_the_dark_draw_it_anew(alone):
    from screens.tokens import colours

    hand = alone()
    hand.figure.measurement = "waist_girth"
    before = inked(hand)
    hand.turn("landscape")
    assert inked(hand) not in (None, before)
    try:
        colours.theme = "dark"
        hand.frames(2)
        assert inked(hand) is None  # ink is light in the dark
    finally:
        colours.theme = "light"
