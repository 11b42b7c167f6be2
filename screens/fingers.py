"""Fingers still on the glass when another screen is shown."""

from kivy.base import EventLoop
from kivy.uix.behaviors import ButtonBehavior
from kivy.uix.scrollview import ScrollView


def let_go() -> None:
    """Let nothing happen any more where fingers lie: what they hold is about to be put away.

    A key that is held while another finger turns the screen would else act on a screen that is
    not shown any more.  What scrolls goes on to the end; what keeps count of its fingers has a
    ``let_go(touch)``.
    """
    for touch in EventLoop.touches:
        for held in [each() for each in touch.grab_list]:
            if held is None or isinstance(held, ScrollView):
                continue
            touch.ungrab(held)
            if isinstance(held, ButtonBehavior):
                held.state = "normal"
            elif hasattr(held, "let_go"):
                held.let_go(touch)
