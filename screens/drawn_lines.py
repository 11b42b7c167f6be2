"""The pictures of typed lines that Kivy keeps for a while."""

from kivy.cache import Cache


def forget_drawn() -> None:
    """Forget them: they show what was typed."""
    Cache.remove("textinput.label")
    Cache.remove("textinput.width")
