"""Where each part of the tape stands: keys under the thumb, the figure beside the number.

Bare numbers are dp, counted from the lower left corner.
"""

from dataclasses import dataclass

from screens.tokens import BUTTON, GRID, MARGIN

GROUP_GAP, GROUP_GAP_TALL = 24, 16
ACTIONS, ACTIONS_TALL = 152, 176
FOOT, FOOT_TALL = 8, 24
KEY_LEAST, KEY_WIDE, KEY_HIGH_TALL, KEY_WIDE_TALL = 56, 88, 96, 104
"""A digit's key; larger letters take of its height, down to the height of their own line."""
KEYS_SHARE_WIDE, KEYS_SHARE_HIGH, KEYS_SHARE_TALL = 0.52, 0.52, 0.34
LIST_SHARE, LIST_LEAST, LIST_MOST = 0.194, 176, 248
BAR, CAPTION = 8, 24
ORDER_WIDE = 232
FIGURE_SHARE, LIST_BELOW = 0.32, 128


@dataclass(frozen=True, slots=True)
class Box:
    """A place on the screen (dp)."""

    x: float
    y: float
    width: float
    height: float


@dataclass(frozen=True, slots=True)
class Room:
    """What there is to share out, how large the letters are, and what some parts need."""

    width: float
    height: float
    wide: bool
    left_handed: bool
    letters: float
    words: float
    beside: float
    progress: float
    order: float

    @property
    def key_width(self) -> float:
        """How wide a digit's key is: as wide as a thumb likes it where there is room."""
        if self.wide:
            spare = self.width * KEYS_SHARE_WIDE - 3 * GRID - 2 * GROUP_GAP - ACTIONS
            return _within(KEY_LEAST, spare / 5, KEY_WIDE)
        spare = self.width - 2 * MARGIN - 3 * GRID - 2 * GROUP_GAP_TALL - ACTIONS_TALL
        return _within(KEY_LEAST, spare / 5, KEY_WIDE_TALL)

    @property
    def key_height(self) -> float:
        share, most = (
            (KEYS_SHARE_HIGH, KEY_WIDE) if self.wide else (KEYS_SHARE_TALL, KEY_HIGH_TALL)
        )  # fmt: skip
        least = KEY_LEAST * self.letters
        return _within(least, (self.height * share - 3 * GRID) / 4, most / self.letters)

    @property
    def caption(self) -> float:
        return CAPTION * self.letters

    @property
    def order_key(self) -> float:
        return max(BUTTON, self.order + GRID)


def places(room: Room) -> dict[str, Box]:
    """Return the box of every part by its name; left-handed they are all mirrored."""
    boxes = _wide(room) if room.wide else _tall(room)
    if not room.left_handed:
        return boxes
    return {
        name: Box(room.width - box.x - box.width, box.y, box.width, box.height)
        for name, box in boxes.items()
    }


def _wide(room: Room) -> dict[str, Box]:
    """The list, the figure, and the number over its keys, from left to right."""
    top = room.height - GRID
    column = _within(LIST_LEAST, room.width * LIST_SHARE, LIST_MOST)
    keys = 5 * room.key_width + 3 * GRID + GROUP_GAP
    work = keys + GROUP_GAP + ACTIONS
    x = room.width - MARGIN - work
    high = 4 * room.key_height + 3 * GRID
    over = FOOT + high + 2 * GRID
    between = MARGIN + column + MARGIN
    stand = x - MARGIN - between
    beside = FOOT + room.beside + (2 * GRID if room.beside else 0)
    bar = top - room.progress - GRID - BAR
    listed = FOOT + room.order_key + GRID
    return {
        "progress": Box(MARGIN, top - room.progress, column, room.progress),
        "bar": Box(MARGIN, bar, column, BAR),
        "order": Box(MARGIN, FOOT, column, room.order_key),
        "list": Box(MARGIN, listed, column, bar - GRID - listed),
        "seen_from": Box(between, top - room.caption, stand, room.caption),
        "figure": Box(between, beside, stand, top - room.caption - GRID - beside),
        "beside": Box(between, FOOT, stand, room.beside),
        "number": Box(x, over, work, top - over),
        "key_block": Box(x, FOOT, keys, high),
        "actions": Box(x + keys + GROUP_GAP, FOOT, ACTIONS, high),
    }


def _tall(room: Room) -> dict[str, Box]:
    """The figure beside the number and the list, all over the keys."""
    inside = room.width - 2 * MARGIN
    keys = 5 * room.key_width + 3 * GRID + GROUP_GAP_TALL
    high = 4 * room.key_height + 3 * GRID
    top, over = room.height - GRID, FOOT_TALL + high + 2 * GRID
    row = max(room.order_key, room.progress)
    bar = top - row - GRID - BAR
    below = bar - 2 * GRID
    column = inside * FIGURE_SHARE
    x = MARGIN + column + MARGIN
    number = min(room.words, below - over - LIST_BELOW)
    beside = over + room.beside + (2 * GRID if room.beside else 0)
    return {
        "progress": Box(MARGIN, top - row, inside - ORDER_WIDE - GRID, row),
        "order": Box(MARGIN + inside - ORDER_WIDE, top - room.order_key, ORDER_WIDE,
                     room.order_key),
        "bar": Box(MARGIN, bar, inside, BAR),
        "seen_from": Box(MARGIN, below - room.caption, column, room.caption),
        "figure": Box(MARGIN, beside, column, below - room.caption - GRID - beside),
        "beside": Box(MARGIN, over, column, room.beside),
        "number": Box(x, below - number, room.width - MARGIN - x, number),
        "list": Box(x, over, room.width - MARGIN - x, below - number - 2 * GRID - over),
        "key_block": Box(MARGIN, FOOT_TALL, keys, high),
        "actions": Box(MARGIN + keys + GROUP_GAP_TALL, FOOT_TALL,
                       inside - keys - GROUP_GAP_TALL, high),
    }  # fmt: skip


def _within(least: float, wanted: float, most: float) -> float:
    return max(least, min(wanted, most))
