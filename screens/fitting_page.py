"""A fitting moment by moment in ready-to-show words, and what is chosen there."""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from datetime import date
from typing import Any

from core.body.keypad import Keypad, keypad_of
from core.client.her_garments import which
from core.days import day_month_of
from core.errors import NotFound
from core.file.fitting_file import FittingFile
from core.fit.reading_off import count
from core.fit.written import At
from core.lengths import Unit
from core.records.fitting import Fitting
from core.records.garment import Garment
from screens.browsing import Browsing
from screens.rows import UNIT_WORDS
from screens.shown import NoGarment

MOMENTS = {
    "before": "Before", "look": "Look", "pin": "Pin", "marks": "Marks", "move": "Move",
    "hem": "Hem", "out": "Step out", "read": "Read off",
}  # fmt: skip
"""The moments of a fitting in their order, and what their keys say."""


@dataclass(frozen=True, slots=True)
class Chosen:
    """What is picked at a fitting; empty ids stand for the last garment and its last fitting.

    ``pin`` is the one in hand, ``opened`` its amount while she pins; ``kind`` what the keys make
    of one that is not read, ``edge`` the piece whose edge they move.  ``between`` are the names
    two close seams are picked from.  ``field`` is what the keys write elsewhere: a girth, the
    heel, a tuck, a point of the hem.  ``into`` is what the next pins go into: a layer, or all of
    them; ``noting`` that a note is written on the pin in hand.
    """

    garment: str = ""
    fitting: str = ""
    moment: str = ""
    pin: int | None = None
    opened: bool = False
    kind: str = ""
    edge: str = ""
    between: tuple[Any, ...] = ()
    wanting_both: bool = False
    pieces: bool = False
    into: str = ""
    noting: bool = False
    mark: str = ""
    marked: int | None = None
    meaning: bool = False
    movement: str = ""
    field: str = ""
    tuck_level: str = ""
    tuck_place: str = ""
    keys: Keypad | None = None
    photo: int | None = None
    beside: int = 0
    view: str = ""
    browsing: Browsing | None = None


@dataclass(frozen=True, slots=True)
class WordRow:
    """One key of a row: what it means, what it says, how it stands."""

    key: str
    label: str
    words: str = ""
    chosen: bool = False
    off: bool = False


@dataclass(frozen=True, slots=True)
class KeysRow:
    """The number keys: what they write, what they made so far, and the key that goes on."""

    title: str
    value: str
    unit: Unit
    lit: str
    keypad: Keypad
    go_on: str = "Next"
    words: str = ""
    aside: tuple[WordRow, ...] = ()
    compact: bool = False


@dataclass(frozen=True, slots=True)
class FittingPage:
    """Everything that is shown of one moment; ``body`` is the moment's own."""

    line: str = ""
    title: str = ""
    garment: str = ""
    moment: str = ""
    moments: tuple[WordRow, ...] = ()
    body: Any = None
    keys: KeysRow | None = None
    figure: Any = None
    pieces: bool = False


@dataclass(frozen=True, slots=True)
class Bench:
    """The records behind what is shown; ``written`` is the fitting as it stands in the file."""

    file: FittingFile
    garment: Garment
    fitting: Fitting
    written: Mapping[str, Any]
    at: At
    chosen: Chosen
    sixteenths: bool = False

    @property
    def unit(self) -> Unit:
        return self.file.unit


def garment_of(file: FittingFile, chosen: Chosen) -> Garment:
    """Return the garment that is fitted; raises ``NoGarment`` where she has none."""
    if not file.garments:
        raise NoGarment("This client has no garment yet: start one from her measurements")
    found = [garment for garment in file.garments if garment.id == chosen.garment]
    return found[0] if found else file.garments[-1]


def bench_of(file: FittingFile, chosen: Chosen, sixteenths: bool) -> Bench | None:
    """Return the fitting that was chosen, the last one otherwise; nothing before the first."""
    garment = garment_of(file, chosen)
    if not garment.fittings:
        return None
    found = [fitting for fitting in garment.fittings if fitting.id == chosen.fitting]
    fitting = found[0] if found else garment.fittings[-1]
    at = At(garment.id, fitting.id)
    written = at.fitting_in(file.data)
    settled = replace(chosen, garment=garment.id, fitting=fitting.id)
    if settled.pin is not None and settled.pin >= len(fitting.pins):
        settled = replace(settled, pin=len(fitting.pins) - 1 if fitting.pins else None)
    return Bench(file, garment, fitting, written, at, settled, sixteenths)


def moment_of(bench: Bench, today: date) -> str:
    """Return the moment she is in: on the day she pins, later she reads off, else she begins."""
    if bench.chosen.moment in MOMENTS:
        return bench.chosen.moment
    counted = count(bench.fitting)
    if counted.pins and not counted.all_read:
        return "pin" if bench.fitting.on == today.isoformat() else "read"
    return "before"


def line_of(file: FittingFile, garment: Garment, fitting: Fitting | None, today: date) -> str:
    """Return whose fitting it is, which one and when, and what the numbers are in."""
    said = [file.client.name]
    if fitting is not None:
        number = [one.id for one in garment.fittings].index(fitting.id) + 1
        said += [f"{fitting.stage or which(number)} fitting"]
        said += [day_month_of(fitting.on, today)] if fitting.on else []
        said += ["worn inside out"] if fitting.inside_out else []
    return ", ".join([*said, f"in {UNIT_WORDS[file.unit]}"])


def moment_keys(moment: str) -> tuple[WordRow, ...]:
    """Return a key for each moment."""
    return tuple(WordRow(key, label, chosen=key == moment) for key, label in MOMENTS.items())


def keypad_for(bench: Bench, typed: object) -> Keypad:
    """Return the keys with what is written on them, or as she left them."""
    if bench.chosen.keys is not None:
        return bench.chosen.keys
    return keypad_of(typed, bench.unit, bench.unit, sixteenths=bench.sixteenths)


def label_of(garment: Garment, level: str) -> str:
    """Return a level's name; raises ``NotFound``."""
    if level not in garment.levels:
        raise NotFound("This level is not on the garment any more")
    return garment.levels[level].label


def keys_for(
    bench: Bench, title: str, typed: str, go_on: str, aside: tuple[WordRow, ...] = ()
) -> KeysRow:
    """Return the number keys with what is written on them."""
    keypad = keypad_for(bench, typed)
    return KeysRow(title, keypad.shown, bench.unit, keypad.lit, keypad, go_on, aside=aside)


def written_in(bench: Bench, part: str, name: str) -> str:
    """Return what was typed in a part of the fitting; empty where nothing was."""
    held = bench.written.get(part)
    value = held.get(name) if isinstance(held, dict) else None
    return "" if value is None else str(value)
