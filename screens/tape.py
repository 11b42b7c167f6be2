"""The tape: one measurement at a time, keys for a thumb, and what is taken and missing."""

from pathlib import Path

from kivy.clock import Clock
from kivy.lang import Builder
from kivy.metrics import dp, sp
from kivy.properties import BooleanProperty, NumericProperty, ObjectProperty, StringProperty
from kivy.uix.boxlayout import BoxLayout
from kivy.uix.floatlayout import FloatLayout

from core.body.keypad import BACK, CLEAR, POINTS
from core.body.sitting import WAIST_FOUND
from screens import tokens
from screens.page import Page
from screens.parts import field, figure, head, keypad, row_list, taken_list, upright
from screens.parts.lettering import Hand, lines_of, width_of_line
from screens.parts.press import Press
from screens.parts.word_key import WordKey
from screens.parts.words import Words
from screens.tape_desk import Room, places
from screens.tape_order import OrderPanel

__all__ = ["TapeScreen", "field", "figure", "head", "keypad", "row_list", "taken_list", "upright"]

BACKSPACE, DELETE, ENTER = 8, 127, (13, 271)
HEAD_ROOM = 720
"""From this width on (dp) the title has two keys beside it and still can be read."""

SHORT = 40
"""A question of so many signs is lettered in the size of the text, a longer one smaller."""


WIDEST = {"in": "88 7/8", "cm": "188.8", "mm": "1888"}
"""By unit about the widest number there is: the place for it does not change while it is typed."""

HOW_FOUND, SIDE = " ".join(WAIST_FOUND), "her right"


def _width(text: str, hand: Hand) -> float:
    """Return how wide a text is on one line."""
    return max((width_of_line(line, hand) for line in lines_of(text, hand, float("inf"))),
               default=0.0)  # fmt: skip


class LastWord(Words):
    """Last time's day, value or change: one over the other, or ``stacked`` in a line."""

    stacked = BooleanProperty(False)


class AskBar(BoxLayout):
    """What is asked quietly, with its one answer; typing again is the other."""

    row = ObjectProperty(None, allownone=True)
    owner = ObjectProperty(None, allownone=True)
    letter = NumericProperty(tokens.TEXT)

    def on_row(self, _bar: object, row: object) -> None:
        self.letter = tokens.TEXT if row is None or len(row.words) <= SHORT else tokens.SMALL


class CautionKey(Press):
    """The answer on the caution's ground, which is as light in the dark."""

    def dress(self) -> tuple[object, object, object]:
        dark, light = tokens.LIGHT["ink"], tokens.LIGHT["sheet"]
        pair = (dark, light) if self.state == "down" else (light, dark)
        return *pair, (0, 0, 0, 0)


class SideKey(WordKey):
    """One of her two sides, or taking both where one number would do."""

    row = ObjectProperty(None, allownone=True)
    owner = ObjectProperty(None, allownone=True)

    def on_release(self) -> None:
        self.owner.pick_side(self.row.key)


class WaistKey(WordKey):
    """One way in which the waist was found."""

    row = ObjectProperty(None, allownone=True)
    owner = ObjectProperty(None, allownone=True)

    def on_release(self) -> None:
        self.owner.pick_waist(self.row.key)


class SpeakKey(Press):
    """Says each number as it comes, until it is touched again."""

    row = StringProperty("")
    owner = ObjectProperty(None, allownone=True, rebind=True)

    def on_release(self) -> None:
        self.owner.speak()


class WornField(field.PlainField):
    """The foundation she wears, kept at every sign."""

    owner = ObjectProperty(None, allownone=True)
    kept = StringProperty("")

    def on_kept(self, _field: object, kept: str) -> None:
        if self.text.strip() != kept:
            self.text = kept
            self.cursor = (0, 0)

    def on_text(self, _field: object, text: str) -> None:
        if self.owner is not None:
            self.owner.wear(text)


class WornBlock(BoxLayout):
    """What she wears while she is measured; ``row`` is the page."""

    row = ObjectProperty(None, allownone=True)
    owner = ObjectProperty(None, allownone=True)


class TapeDesk(FloatLayout):
    """The parts of one number, each in its place: wide, tall, or for the left hand.

    ``letters`` is how much larger the letters are than drawn; ``stacked``: last time stands
    below the number, because beside it is no room; ``narrow``: so do the small choices, and
    ``narrow_sides`` her two sides.
    """

    page = ObjectProperty(None, allownone=True)
    view = ObjectProperty(None, allownone=True)
    wide = BooleanProperty(True)
    left_handed = BooleanProperty(False)
    here = StringProperty("")
    letters = NumericProperty(1)
    stacked = BooleanProperty(False)
    narrow = BooleanProperty(False)
    narrow_sides = BooleanProperty(False)
    key_height = NumericProperty(0)

    def __init__(self, **kwargs: object) -> None:
        self._bring_soon = Clock.create_trigger(self._bring, 0)
        self.letters = sp(1) / dp(1)
        super().__init__(**kwargs)

    def on_kv_post(self, _base: object) -> None:
        ids = self.ids
        for name in ("size", "pos", "wide", "left_handed"):
            self.fbind(name, self._trigger_layout)
        for part, need in (("words", "minimum_height"), ("beside", "minimum_height"),
                           ("progress", "needed_height"), ("order", "needed_height"),
                           ("unit", "needed_width"), ("value", "needed_width"),
                           ("last_caption", "needed_width")):  # fmt: skip
            ids[part].fbind(need, self._trigger_layout)
        ids.rows.fbind("height", self.on_here)
        ids.list.fbind("height", self.on_here)

    def do_layout(self, *_: object, **__: object) -> None:
        """Put each part in its place; sizes go to dp and back here and nowhere else."""
        ids, each = self.ids, dp(1)
        room = Room(
            self.width / each, self.height / each, self.wide, self.left_handed, self.letters,
            *(need / each for need in (ids.words.minimum_height, ids.beside.minimum_height,
                                       ids.progress.needed_height, ids.order.needed_height)),
        )  # fmt: skip
        for name, box in places(room).items():
            part = ids[name]
            part.size = box.width * each, box.height * each
            part.pos = self.x + box.x * each, self.y + box.y * each
        ids.key_block.key_width = room.key_width * each
        self.key_height = room.key_height * each
        overflows = ids.words.minimum_height > ids.number.height
        ids.number.scroll_y = 0 if overflows and self.page.asking else 1
        widest = _width(WIDEST[self.page.unit], Hand(tokens.GIANT, True))
        needs = max(widest, ids.value.needed_width) + ids.unit.needed_width + 2 * dp(16)
        self.stacked = needs + max(dp(120), ids.last_caption.needed_width) > ids.number.width
        self.narrow = _width(HOW_FOUND, Hand(tokens.SMALL)) + dp(40) > ids.beside.width
        self.narrow_sides = 2 * _width(SIDE, Hand(tokens.TEXT)) + dp(40) > ids.beside.width

    def on_here(self, *_: object) -> None:
        """Bring the number in hand near the top of the list, once its rows have settled."""
        self._bring_soon()

    def _bring(self, _passed: float) -> None:
        view, rows = self.ids.list, self.ids.rows
        spare = rows.height - view.height
        row = next((row for row in rows.children if row.row is not None and row.row.here), None)
        if row is None or spare <= 0:
            return
        bottom = row.top + dp(tokens.BUTTON) - rows.y - view.height
        view.scroll_y = min(1.0, max(0.0, bottom / spare))


class TapeScreen(Page):
    """One number at a time; its order and what it takes for lie behind a touch."""

    shows_order = BooleanProperty(False)

    def __init__(self, **kwargs: object) -> None:
        self._desk: TapeDesk | None = None
        self._order: OrderPanel | None = None
        super().__init__(**kwargs)

    def on_kv_post(self, _base: object) -> None:
        self.fbind("shows_order", self._open)
        self._open()

    def _open(self, *_: object) -> None:
        """Show the desk or the order; each is made when it is first shown."""
        given = {"view": self.view, "wide": self.wide, "left_handed": self.left_handed}
        if self.shows_order:
            self._order = shown = self._order or OrderPanel(**given)
        else:
            self._desk = shown = self._desk or TapeDesk(**given)
        self._hand_on()
        self.ids.place.clear_widgets()
        self.ids.place.add_widget(shown)

    def _hand_on(self, *_: object) -> None:
        for part in (self._desk, self._order):
            if part is not None:
                part.wide, part.left_handed = self.wide, self.left_handed

    def extra_fits(self, width: float, can_speak: bool) -> bool:
        """Tell whether a tall screen has room for the extra keys beside the title."""
        return not can_speak or (width >= dp(HEAD_ROOM) and not tokens.letters_are_larger())

    def on_wide(self, *_: object) -> None:
        self._hand_on()

    def on_left_handed(self, *_: object) -> None:
        self._hand_on()

    def on_key(self, key: int, text: str) -> bool:
        """Take digits, the point and Enter of a keyboard as the keys of the screen."""
        if self.shows_order or self.view.page.total == 0 or self._is_typing():
            return False
        if key in ENTER:
            self.view.next()
        elif key in (BACKSPACE, DELETE):
            self.view.press(BACK if key == BACKSPACE else CLEAR)
        elif len(text) == 1 and (text in "0123456789" or text in POINTS):
            self.view.press(text)
        else:
            return False
        return True

    def _is_typing(self) -> bool:
        return any(each.focus for each in self.walk() if isinstance(each, WornField))


Builder.load_file(str(Path(__file__).with_suffix(".kv")))
