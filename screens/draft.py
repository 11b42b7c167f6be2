"""The draft of a garment: its table, the open number with its sum, the pieces, the check."""

from pathlib import Path

from kivy.clock import Clock
from kivy.lang import Builder
from kivy.metrics import dp, sp
from kivy.properties import (
    BooleanProperty,
    ListProperty,
    NumericProperty,
    ObjectProperty,
    StringProperty,
)
from kivy.uix.boxlayout import BoxLayout
from kivy.uix.widget import Widget

from core.body.keypad import BACK
from screens import looks, tokens
from screens.draft_view import DraftView
from screens.page import Page
from screens.parts import (
    caution,
    draft_list,
    draft_name,
    draft_table,
    head,
    piece_sheet,
    row_list,
    stages,
    sum_sheet,
)
from screens.parts.flow import Flow
from screens.parts.press import OpenRow, Press
from screens.parts.upright import Upright, bring_into_sight

__all__ = ["DraftScreen", "caution", "draft_list", "draft_name", "draft_table", "head", "looks",
           "piece_sheet", "row_list", "stages", "sum_sheet"]  # fmt: skip

DIGITS = "0123456789.,"
STEPS = {"+": 1, "-": -1}
BACKSPACE, ENTER = 8, (13, 271)

NEAR_SHARE, NEAR_MOST = 0.62, 764
"""Wide, the table takes this share of the screen and no more than so much (dp)."""

TALL_SHARE = 0.52
"""Tall, it takes no more than this share of the height, so that the pieces can be read."""

ROOMY, ROOMY_TALL = 640, 1100
"""From so high on (sp), wide and tall, everything can stand under the table at once."""

GAPS = 5
"""What lies between the parts of the column, shown or not (grid)."""

PIECES_LEAST = 500
"""Under a table that flows the pieces with their keys are so high at least (dp)."""

ROUNDS = 120
"""What they need more where a garment has several rounds: those are tall, and have keys."""

TABLE_LEAST = 128
"""A level stays in sight over the open number (dp)."""


class DraftChoice(Press):
    """A layer or a round to show: ``row`` is its id, its words, and whether it is chosen."""

    row = ObjectProperty(("", "", False))
    owner = ObjectProperty(None, allownone=True)


class LayerKey(DraftChoice):
    def on_release(self) -> None:
        self.owner.show_layer(self.row[0])


class RingKey(DraftChoice):
    def on_release(self) -> None:
        self.owner.show_ring(self.row[0])


class DraftKey(DraftChoice):
    """What can be done with the draft as a whole; one of them leads on."""

    def on_release(self) -> None:
        self.owner.do(self.row[0])


class CheckLine(OpenRow):
    """The check in a line; a touch opens all of it."""

    row = ObjectProperty(None, allownone=True)
    owner = ObjectProperty(None, allownone=True)
    warns = BooleanProperty(False)

    def on_row(self, *_: object) -> None:
        self.warns = bool(self.row and self.row.mark == "caution")

    def on_release(self) -> None:
        self.owner.turn_to("checks" if self.owner.page == "widths" else "widths")


class DraftPieces(BoxLayout):
    """The pieces to scale under the keys of their layers and rounds."""

    view = ObjectProperty(None, allownone=True, rebind=True)
    wide = BooleanProperty(True)


class DraftKeys(Flow):
    """The keys of a page, in as many lines as they need."""


class SaidLine(OpenRow):
    """What is to be said of a garment just begun; a touch puts it away."""

    row = StringProperty("")
    owner = ObjectProperty(None, allownone=True)

    def on_release(self) -> None:
        self.owner.said = ""


class DraftList(Upright):
    """Lines of one kind that scroll; ``needed_height`` is that of all of them.

    The line whose number lies open is brought into sight.
    """

    shows = StringProperty("")
    rows = ListProperty()
    owner = ObjectProperty(None, allownone=True)
    apart = NumericProperty(0)
    needed_height = NumericProperty(0)

    def __init__(self, **kwargs: object) -> None:
        super().__init__(**kwargs)
        self._bring_soon = Clock.create_trigger(self._bring_lit_into_sight, 0)
        for name in ("rows", "height", "needed_height"):
            self.fbind(name, self._bring_soon)

    def _bring_lit_into_sight(self, *_: object) -> None:
        for line in self.ids.lines.children:
            if getattr(line.row, "lit", False):
                bring_into_sight(line)


class DraftPage(BoxLayout):
    """A page of the draft's screen."""

    view = ObjectProperty(None, rebind=True)
    wide = BooleanProperty(True)


class TablePage(DraftPage):
    """The table, the details or the check, over the number that lies open; beside it the pieces.

    Where it is ``tight`` the check and the keys under it make room for a number that lies open;
    while they show it is ``idle``.  Tall, the table ``flows``: all of it stands over the pieces,
    and both scroll as one, until a number is opened.
    """

    near_width = NumericProperty(dp(NEAR_MOST))
    top_height = NumericProperty(0)
    tight = BooleanProperty(False)
    idle = BooleanProperty(True)
    flows = BooleanProperty(False)

    def __init__(self, **kwargs: object) -> None:
        self._tops: dict[str, Widget] = {}
        super().__init__(**kwargs)
        self.view.fbind("page", self._turn)
        self._turn()

    def on_size(self, _page: object, size: tuple[float, float]) -> None:
        self.near_width = min(dp(NEAR_MOST), (size[0] - dp(2 * tokens.MARGIN)) * NEAR_SHARE)
        self.tight = size[1] < sp(ROOMY if size[0] > size[1] else ROOMY_TALL)

    def on_flows(self, *_: object) -> None:
        """Let the table scroll by itself, or with the pieces."""
        if "widths" in self._tops:
            self._tops["widths"].flows = self.flows

    def flowing_height(self, near: float, rounds: int) -> float:
        """Return how high the table is with the pieces under it, which can be read then."""
        return near + dp(tokens.GRID + PIECES_LEAST + (ROUNDS if rounds > 1 else 0))

    def near_height(self, room: float, table: float, rest: float, flows: bool) -> float:
        """Return how high the table is with what stands under it, the pieces below (pixels)."""
        needed, least = table + rest + dp(GAPS * tokens.GRID), rest + dp(TABLE_LEAST)
        if flows:
            return needed
        return max(min(needed, room * TALL_SHARE), min(least, room))

    def top(self, name: str) -> Widget:
        """Return the table, the details or the check, made when it is first asked for."""
        if name not in self._tops:
            made = TOPS[name](self.view)
            made.fbind("needed_height", self._measure)
            if name == "widths":
                made.flows = self.flows
            self._tops[name] = made
        return self._tops[name]

    def _turn(self, *_: object) -> None:
        if self.view.page not in TOPS:
            return
        made = self.top(self.view.page)
        if made.parent is None:
            self.ids.top.clear_widgets()
            self.ids.top.add_widget(made)
        self._measure()

    def _measure(self, *_: object) -> None:
        self.top_height = self.top(self.view.page).needed_height if self.view.page in TOPS else 0


class StartPage(DraftPage):
    """What a garment can be begun from."""


class ClientsPage(DraftPage):
    """The other clients, to copy from or to."""


class SheetPage(DraftPage):
    """Everything to mark the cloth from."""


class DraftScreen(Page):
    """One garment's draft, or what a new one can be begun from; a page is made when it shows."""

    def __init__(self, **kwargs: object) -> None:
        super().__init__(**kwargs)
        self._pages: dict[type[DraftPage], DraftPage] = {}
        self.view.fbind("page", self._turn)
        self.fbind("wide", self._tell_wide)
        self._turn()

    @property
    def page(self) -> DraftPage | None:
        """The page that shows."""
        return next(iter(self.ids.body.children), None)

    def on_key(self, key: int, text: str) -> bool:
        """Digits go to the keypad of the open number, plus and minus step it, Enter keeps it."""
        opened = self.view.opened
        if opened is None or opened.opened.what == "name":
            return False
        if text and text in DIGITS and opened.types:
            self.view.press(text)
        elif text and text in STEPS and opened.steps:
            self.view.step(STEPS[text])
        elif key == BACKSPACE and self.view.keys is not None:
            self.view.press(BACK)
        elif key in ENTER and self.view.keys is not None:
            self.view.done()
        else:
            return False
        return True

    def _turn(self, *_: object) -> None:
        kind = PAGES.get(self.view.page)
        if kind is None:
            return
        if kind not in self._pages:
            self._pages[kind] = kind(view=self.view, wide=self.wide)
        page = self._pages[kind]
        if page.parent is None:
            self.ids.body.clear_widgets()
            self.ids.body.add_widget(page)

    def _tell_wide(self, *_: object) -> None:
        for page in self._pages.values():
            page.wide = self.wide


def _table(view: DraftView) -> Widget:
    made = draft_table.DraftTable(owner=view)
    _follow(view, made, rows="rows", columns="pieces")
    return made


def _details(view: DraftView) -> Widget:
    made = DraftList(shows="DetailLine", owner=view)
    _follow(view, made, details="rows")
    return made


def _checks(view: DraftView) -> Widget:
    made = DraftList(shows="CheckRowLine", owner=view, apart=4)
    _follow(view, made, checks="rows")
    return made


def _follow(view: DraftView, made: Widget, **names: str) -> None:
    """Let a widget's properties follow the state's, by name."""
    for said, told in names.items():
        view.fbind(said, _tell, made, told)
        setattr(made, told, getattr(view, said))


def _tell(made: Widget, told: str, _view: object, value: object) -> None:
    setattr(made, told, value)


TOPS = {"widths": _table, "more": _details, "checks": _checks}
PAGES = {"widths": TablePage, "more": TablePage, "checks": TablePage, "start": StartPage,
         "clients": ClientsPage, "sheet": SheetPage}  # fmt: skip

Builder.load_file(str(Path(__file__).with_suffix(".kv")))
