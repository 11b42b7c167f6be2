"""The sewing table: one step fills the screen, to be read from where the work lies."""

from itertools import accumulate
from pathlib import Path
from typing import Any

from kivy.core.window import Window
from kivy.lang import Builder
from kivy.metrics import dp, sp
from kivy.properties import BooleanProperty, ListProperty, ObjectProperty
from kivy.uix.floatlayout import FloatLayout

from core.body.keypad import BACK, CLEAR, POINTS
from screens import tokens
from screens.page import Page
from screens.parts import head, keypad, row_list, sew_keys, sew_pieces, sew_table, upright
from screens.parts.lettering import Hand, width_of_line, words_of
from screens.sewing_page import SewingPage, full_height

__all__ = ["SewingScreen", "head", "keypad", "row_list", "sew_keys", "sew_pieces", "sew_table",
           "upright"]  # fmt: skip

BACKSPACE, DELETE, ENTER, SPACE = 8, 127, (13, 271), 32
SIDE, PIECES_LEAST, KEY_WIDTH = 400, 150, 88
WORDS_LEAST = 0.3
"""The words keep this share of the height under the amounts."""

PARTS = ("main_view", "words_view", "pieces", "key_box")
LONG = 16
"""A place of more letters than this is lettered in the second size."""


class SewingBody(FloatLayout):
    """The amounts, the words, the pieces and the keypad of a step, each in its place."""

    page = ObjectProperty(SewingPage(), rebind=True)
    view = ObjectProperty(None, rebind=True, allownone=True)
    wide = BooleanProperty(True)
    left_handed = BooleanProperty(False)
    lines = ListProperty()

    def on_kv_post(self, _base: object) -> None:
        self._places = {name: self.ids[name].__self__ for name in PARTS}
        for name in ("page", "wide", "left_handed", "size", "pos"):
            self.fbind(name, self._trigger_layout)
        self.ids.table.fbind("height", self._trigger_layout)
        self.ids.words.fbind("height", self._trigger_layout)
        self.ids.girths.fbind("height", self._trigger_layout)
        self.ids.main.fbind("height", self._trigger_layout)
        self.fbind("page", self._tell)
        self._tell()

    def _tell(self, *_: object) -> None:
        """Hand on the words of a step, and begin at its top again."""
        page: SewingPage = self.page
        lines = [
            *((text, "") for text in ([page.words] if page.words else [])),
            *((text, "caution") for text in page.cautions),
            *((text, "strong") for text in page.kept),
            *((text, "") for text in page.told),
            *((text, "") for text in page.reasons),
        ]
        self.lines = [(full_height(text), how) for text, how in lines]
        step = (page.step.order if page.step else 0, bool(page.reasons))
        if step != getattr(self, "_shown", None):
            self._shown = step
            self.ids.main_view.scroll_y = self.ids.words_view.scroll_y = 1

    def do_layout(self, *_: object, **__: object) -> None:
        page: SewingPage = self.page
        has_rows = bool(page.step and page.step.rows) and not page.reasons
        self.ids.table.step = page.step if has_rows else None
        if page.keys is not None:
            self._lay_keys()
        elif has_rows or page.girths:
            self._lay_rows()
        else:
            self._put(("words_view", (0, 0, 1, 1)))

    def _lay_rows(self) -> None:
        """Lay the amounts beside the words, or above them; the pieces where there is room."""
        (self._lay_beside if self.wide else self._lay_above)()
        self._put_away("key_box")

    def _lay_beside(self) -> None:
        gap, words = dp(tokens.MARGIN), self.ids.words.height
        side = min(sp(SIDE), self.width * 0.42)
        pieces = self._pieces_in(self.height - words - gap)
        upper = self._whole_rows(self.height)
        self._at("main_view", 0, self.height - upper, self.width - side - gap, upper)
        x = self.width - side
        self._at("pieces", x, 0, side, pieces)
        above = pieces + gap if pieces else 0
        self._at("words_view", x, above, side, self.height - above)
        self.ids.table.room_height = self.height

    def _lay_above(self) -> None:
        gap, words = dp(tokens.MARGIN), self.ids.words.height
        room = self.height - min(words, self.height * WORDS_LEAST) - gap
        self.ids.table.room_height = room
        upper = self._whole_rows(room)
        lower = self.height - upper - gap
        pieces = self._pieces_in(lower - words - gap)
        above = pieces + gap if pieces else 0
        self._at("main_view", 0, self.height - upper, self.width, upper)
        self._at("words_view", 0, above, self.width, lower - above)
        self._at("pieces", 0, 0, self.width, pieces)

    def _pieces_in(self, room: float) -> float:
        """Return how high the pieces are: nothing where they would be too small."""
        return room if room >= dp(PIECES_LEAST) and self.page.pieces else 0

    def _whole_rows(self, room: float) -> float:
        """Return how high the rows are that show whole in so much room (pixels); at least one."""
        ids = self.ids
        rows = [*ids.table.heights, *(part.height for part in reversed(ids.heads.children)),
                *(part.height for part in reversed(ids.girths.children))]  # fmt: skip
        ends = [end for end in accumulate(rows) if end <= room + 1]
        heads = ids.table.has_heads or bool(ids.heads.children)
        return max(ends, default=0.0) if len(ends) > heads else min(ids.main.height, room)

    def _lay_keys(self) -> None:
        gap = dp(tokens.MARGIN)
        if self.wide:
            wide = 5 * dp(KEY_WIDTH) + 4 * dp(tokens.GRID)
            self._at("main_view", 0, 0, self.width - wide - gap, self.height)
            self._at("key_box", self.width - wide, 0, wide, min(self.height, dp(480)))
        else:
            tall = min(dp(480), self.height * 0.6)
            self._at("main_view", 0, tall + gap, self.width, self.height - tall - gap)
            self._at("key_box", 0, 0, self.width, tall)
        self._put_away("words_view", "pieces")

    def _put(self, *places: tuple[str, tuple[float, float, float, float]]) -> None:
        for name, (x, y, width, height) in places:
            self._at(name, x * self.width, y * self.height, width * self.width,
                     height * self.height)  # fmt: skip
        named = [name for name, _ in places]
        self._put_away(*(name for name in PARTS if name not in named))  # fmt: skip

    def _put_away(self, *names: str) -> None:
        for name in names:
            sew_keys.stand(self, self._places[name], there=False)

    def _at(self, name: str, x: float, y: float, width: float, height: float) -> None:
        part = self._places[name]
        sew_keys.stand(self, part, there=width > 0 and height > 0)
        part.size = max(width, 0), max(height, 0)
        left = self.width - x - width if self.left_handed and self.wide else x
        part.pos = self.x + left, self.y + y


class SewingScreen(Page):
    """One step; the device stays awake as long as it is shown.

    ``reads`` is true where a voice can read the step that is shown.
    """

    reads = BooleanProperty(False)

    def __init__(self, **kwargs: Any) -> None:
        self._slept: bool | None = None
        super().__init__(**kwargs)

    def on_kv_post(self, _base: object) -> None:
        self._each = self.ids.each.__self__
        self.fbind("reads", self._offer_each)
        self._offer_each()

    def _offer_each(self, *_: object) -> None:
        """Offer to read each step only where there is a voice."""
        sew_keys.stand(self.ids.each_place, self._each, there=self.reads)

    def on_enter(self, *_: object) -> None:
        self._slept = bool(Window.allow_screensaver)
        Window.allow_screensaver = False

    def on_leave(self, *_: object) -> None:
        """Let the device sleep again as it did before."""
        if self._slept is not None:
            Window.allow_screensaver = self._slept
            self._slept = None

    def on_parent(self, _screen: object, parent: object) -> None:
        """Do so too where the screen is taken away, for another passcode or other letters."""
        if parent is None:
            self.on_leave()

    def largest_letter(self, text: str, room: float) -> int:
        """Return the largest size in which a text stands on one line in so much room (pixels)."""
        wide = width_of_line(words_of(text), Hand(tokens.GIANT, True))
        return tokens.GIANT if wide <= room else tokens.KEY

    def place_letter(self, whose: str, place: str, room: float, has_keys: bool) -> int:
        """Return how large the place is lettered: alone and short as large as whose side."""
        alone = not whose and len(place) <= LONG and not has_keys
        return self.largest_letter(place, room) if alone else tokens.KEY

    def on_key(self, key: int, text: str) -> bool:
        """Take digits for the girth in hand, Enter for done, Space for reading aloud."""
        view = self.view
        if view.page.keys is not None:
            if key in ENTER:
                view.next_girth()
            elif key in (BACKSPACE, DELETE):
                view.press(BACK if key == BACKSPACE else CLEAR)
            elif len(text) == 1 and (text in "0123456789" or text in POINTS):
                view.press(text)
            else:
                return False
            return True
        if key in ENTER:
            view.done()
        elif key == SPACE:
            view.read()
        else:
            return False
        return True


Builder.load_file(str(Path(__file__).with_suffix(".kv")))
