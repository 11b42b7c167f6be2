"""What the draft's screen shows, ready as words: the table's lines, the opened sum, the check."""

from dataclasses import dataclass

from screens.parts.draft_chosen import Opened

NOTHING = Opened()


@dataclass(frozen=True, slots=True)
class CellRow:
    """A number that opens when it is touched; ``hers`` where she changed it by hand."""

    words: str
    opened: Opened = NOTHING
    caption: str = ""
    lit: bool = False
    hers: bool = False


@dataclass(frozen=True, slots=True)
class LevelRow:
    """A level of the table: its numbers, each piece's cut width, and whether it agrees.

    ``mark`` is ``agrees``, ``caution`` or nothing, ``second`` how far it is off.
    """

    id: str
    label: str
    down: CellRow
    body: CellRow
    ease: CellRow
    wanted: str
    cells: tuple[CellRow, ...]
    finished: str
    mark: str
    second: str = ""


@dataclass(frozen=True, slots=True)
class TermRow:
    """A term of the opened sum; ``sign`` is what stands before it, ``opened`` where it leads."""

    sign: str
    words: str
    name: str
    opened: Opened = NOTHING


@dataclass(frozen=True, slots=True)
class SumRow:
    """The number that lies open: its sum in terms, what it comes to, and how it is changed.

    ``typed`` is the text as the file has it; ``sides`` are its left and its right where it may
    have both; ``note`` says where it is no longer what its sum gives.
    """

    opened: Opened
    title: str
    terms: tuple[TermRow, ...]
    words: str
    caption: str
    note: str = ""
    typed: str = ""
    steps: bool = True
    types: bool = True
    counted: bool = False
    keys: tuple[tuple[str, str], ...] = ()
    sides: tuple[CellRow, ...] = ()


@dataclass(frozen=True, slots=True)
class CheckRow:
    """A line of the check before cutting; ``measure`` is a measurement to take, or nothing."""

    text: str
    second: str
    mark: str
    measure: str = ""
    id: str = ""


@dataclass(frozen=True, slots=True)
class SheetRow:
    """A piece of the cutting sheet; ``lines`` are what to mark and how much, or only words."""

    title: str
    second: str
    lines: tuple[tuple[str, str], ...]
