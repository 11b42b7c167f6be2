"""Every colour, size and letter of the app, named once.

Sizes are bare numbers: dp for space, sp for letters; whoever uses one says ``dp(...)``
or ``sp(...)`` there, because the density of the screen is known only then.
"""

from collections.abc import Callable
from itertools import count
from pathlib import Path
from weakref import WeakMethod

from kivy.core.text import LabelBase
from kivy.event import EventDispatcher
from kivy.metrics import Metrics
from kivy.properties import ColorProperty, NumericProperty, OptionProperty

FONTS = Path(__file__).resolve().parent.parent / "resources" / "fonts"

TEXT_FONT = "Pins Text"
"""Tabular figures: for the two small sizes."""

LARGE_FONT = "Pins Large"
"""Proportional figures: for the two large sizes."""

SMALL, TEXT, KEY, GIANT = 18, 24, 50, 84
"""The four sizes of letters (sp): second text, text, a key figure, the one number."""

LINE = {SMALL: 24, TEXT: 32, KEY: 56, GIANT: 88}
"""The height of a line of each size."""

FRACTION = {SMALL: (18, 2, 3), TEXT: (18, 2, 3), KEY: (24, 3, 4), GIANT: (50, 5, 6)}
"""Beside each size: the digits of a fraction, its bar, and the gap above and below the bar."""

GRID = 8
MARGIN = 24
COLUMN_GAP, COLUMN_GAP_TALL = 40, 32
CORNER, BLOCK_CORNER = 8, 12

TARGET = 48
"""The least a finger is offered; 8 lie between two of them."""

BUTTON = 56
CHOICE = 64
HEADER = 72
HEAD_WITH_STAGES = 1200
"""From this width on the stages of a garment stand beside its name."""

STEPPER = (88, 96)
FIELD = 640
"""How wide a field for words is at most, with the key beside it."""

COLUMNS = {"label": 104, "body": 68, "ease": 68, "wanted": 80, "as_sewn": 76, "pinned": 88}
"""The levels strip, at least: a number may need more; what is left over takes the rest."""

COLUMNS_LARGE = {"label": 108, "body": 74, "ease": 74, "wanted": 90, "as_sewn": 96, "pinned": 92}
"""With larger letters its figures are of the small size, which then is as large as the text was."""

LIGHT = {
    "paper": "#EFE9DD", "sheet": "#FBF8F2", "well": "#E3DBCB", "cloth": "#DCD2BF",
    "ink": "#221E19", "soft": "#5B5347", "edge": "#847965", "rule": "#D3CAB8",
    "take_in": "#2F45B0", "let_out": "#A63A10", "agrees": "#086B6B",
    "caution": "#F5C445", "caution_ink": "#221E19",
}  # fmt: skip
DARK = {
    "paper": "#191714", "sheet": "#24211D", "well": "#332F29", "cloth": "#4A443B",
    "ink": "#F5EFE3", "soft": "#B9AE9C", "edge": "#8C8272", "rule": "#3D3831",
    "take_in": "#A9B6FF", "let_out": "#F0803C", "agrees": "#46C4BC",
    "caution": "#FFDB70", "caution_ink": "#221E19",
}  # fmt: skip


class Colours(EventDispatcher):
    """The colours now worn; every look is bound to them, so a change shows at once."""

    theme = OptionProperty("light", options=["light", "dark"])
    paper = ColorProperty(LIGHT["paper"])
    sheet = ColorProperty(LIGHT["sheet"])
    well = ColorProperty(LIGHT["well"])
    cloth = ColorProperty(LIGHT["cloth"])
    ink = ColorProperty(LIGHT["ink"])
    soft = ColorProperty(LIGHT["soft"])
    edge = ColorProperty(LIGHT["edge"])
    rule = ColorProperty(LIGHT["rule"])
    take_in = ColorProperty(LIGHT["take_in"])
    let_out = ColorProperty(LIGHT["let_out"])
    agrees = ColorProperty(LIGHT["agrees"])
    caution = ColorProperty(LIGHT["caution"])
    caution_ink = ColorProperty(LIGHT["caution_ink"])

    def __init__(self, **kwargs: object) -> None:
        super().__init__(**kwargs)
        self._followers: dict[int, WeakMethod[Callable[[], object]]] = {}
        self._count = count()

    def follow(self, act: Callable[[], object]) -> None:
        """Call a widget's method whenever other colours are worn, as long as the widget lives.

        ``bind`` would look through all that ever followed, and keep the dead ones among them.
        """
        number = next(self._count)
        self._followers[number] = WeakMethod(act, lambda _: self._followers.pop(number, None))

    def on_theme(self, _colours: object, theme: str) -> None:
        for name, value in (DARK if theme == "dark" else LIGHT).items():
            setattr(self, name, value)
        for follower in list(self._followers.values()):
            if (act := follower()) is not None:
                act()


colours = Colours()

SCALES = {"normal": 1.0, "large": 1.15, "largest": 1.3}
"""How much larger than drawn the letters are for each text size."""


class Sizes(EventDispatcher):
    """How large the letters are now; screens are made anew when it changes.

    It acts through Kivy's font scale, so that every ``sp(...)`` follows.  What the device asks
    for counts too, up to the largest there is room for.
    """

    scale = NumericProperty(1.0)

    def __init__(self) -> None:
        super().__init__()
        self._device = Metrics.fontscale
        self.bind(scale=self._apply)
        self._apply()

    def _apply(self, *_: object) -> None:
        Metrics.fontscale = min(self.scale * max(1.0, self._device), SCALES["largest"])


sizes = Sizes()


def letters_are_larger() -> bool:
    """Tell whether the letters are larger than drawn: asked when a screen is made."""
    return Metrics.fontscale > 1


def column(name: str) -> int:
    """Return how wide a column of the levels strip is (dp)."""
    return (COLUMNS_LARGE if letters_are_larger() else COLUMNS)[name]


def figure() -> int:
    """Return the size of the figures of a table."""
    return SMALL if letters_are_larger() else TEXT


def one_number() -> int:
    """Return the size of the one number of a screen that much else stands on."""
    return KEY if letters_are_larger() else GIANT


def register_fonts() -> None:
    """Make the two cuts known by name; needed before the first letter is drawn."""
    for name, file in ((TEXT_FONT, "Pins-Text"), (LARGE_FONT, "Pins-Large")):
        LabelBase.register(
            name,
            fn_regular=str(FONTS / f"{file}-Regular.otf"),
            fn_bold=str(FONTS / f"{file}-SemiBold.otf"),
        )


register_fonts()
