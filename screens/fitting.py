"""The fitting: one moment at a time, the figure large while she pins, the keys at the table."""

from pathlib import Path

from kivy.lang import Builder
from kivy.properties import ObjectProperty

from core.body.keypad import BACK, CLEAR, POINTS
from screens.fitting_desk import FitDesk
from screens.page import Page
from screens.parts import fit_moments, head, row_list, stages
from screens.parts.word_key import WordKey

__all__ = ["FitDesk", "FittingScreen", "MomentKey", "fit_moments", "head", "row_list",
           "stages"]  # fmt: skip

BACKSPACE, DELETE, ENTER = 8, 127, (13, 271)


class MomentKey(WordKey):
    """One moment of the fitting."""

    row = ObjectProperty(None, allownone=True)
    owner = ObjectProperty(None, allownone=True)

    def on_row(self, _key: object, row: object) -> None:
        self.text, self.chosen = row.label, row.chosen

    def on_release(self) -> None:
        self.owner.go_to(self.row.key)


class FittingScreen(Page):
    """One garment on her, from before she steps in until every pin is read."""

    def on_key(self, key: int, text: str) -> bool:
        """Type on the number keys where they are shown; Enter goes on."""
        if self.view is None or self.view.page.keys is None:
            return False
        if key in ENTER:
            self.view.go_on()
        elif key == BACKSPACE:
            self.view.press(BACK)
        elif key == DELETE:
            self.view.press(CLEAR)
        elif (text and text in "0123456789") or text in POINTS:
            self.view.press(text)
        else:
            return False
        return True


Builder.load_file(str(Path(__file__).with_suffix(".kv")))
