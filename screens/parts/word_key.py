"""A key that is only words: one widget, wrapped to its width, for where there are many."""

from pathlib import Path

from kivy.lang import Builder
from kivy.properties import BooleanProperty, ColorProperty, OptionProperty
from kivy.uix.behaviors import ButtonBehavior

from screens import tokens
from screens.parts.words import Words
from screens.tokens import colours

__all__ = ["WordKey"]

NONE = (0, 0, 0, 0)


class WordKey(ButtonBehavior, Words):
    """Words on a key; ``chosen`` fills it with ink."""

    halign = OptionProperty("center", options=["left", "center", "right"])
    chosen = BooleanProperty(False)
    ground = ColorProperty(tokens.LIGHT["sheet"])
    outline = ColorProperty(tokens.LIGHT["edge"])

    def __init__(self, **kwargs: object) -> None:
        super().__init__(**kwargs)
        for name in ("state", "chosen", "disabled"):
            self.fbind(name, self._dress)
        colours.follow(self._dress)
        self._dress()

    def _dress(self, *_: object) -> None:
        dark = self.chosen or (self.state == "down" and not self.disabled)
        self.colour = colours.paper if dark else colours.edge if self.disabled else colours.ink
        self.ground = colours.ink if dark else colours.sheet
        self.outline = NONE if dark else colours.rule if self.disabled else colours.edge


Builder.load_file(str(Path(__file__).with_suffix(".kv")))
