"""The tape in words: everything that shows of one number."""

from dataclasses import dataclass, replace
from datetime import date
from typing import Any

from core.body.asked_once import Asked
from core.body.keypad import Keypad
from core.body.measurements import catalogue
from core.body.sitting import WAIST_FOUND, as_begun
from core.body.taking import Page, after, page_of, taking_of
from core.body.tape_order import Number, measurements_for
from core.client.over_time import unit_of
from core.days import day_month
from core.draft.kinds import all_kinds
from core.lengths import Unit
from core.records.answer import Side
from screens.rows import WHOSE
from screens.tape_chosen import Chosen, Document, kinds_for, next_reading

HEEL_WORN = "Heel worn now"
_HOW_HEEL = "The heel she stands in while you measure. None: type 0."
_UNITS: dict[Unit, str] = {"in": "inches", "cm": "cm", "mm": "mm"}
_ORDINALS = ("first", "second", "third")
_READ_WORDS = tuple(f"{word.capitalize()}\nreading" for word in _ORDINALS)


@dataclass(frozen=True, slots=True)
class ListRow:
    """A number in the list; ``key`` goes to it, ``here`` is the one in hand."""

    key: str
    label: str
    heading: str
    words: str
    state: str
    here: bool


@dataclass(frozen=True, slots=True)
class Choice:
    """One of a few to pick from; ``words`` is what is known of it."""

    key: str
    label: str
    words: str = ""
    chosen: bool = False


@dataclass(frozen=True, slots=True)
class Asking:
    """What is asked quietly: ``key`` answers it, or the ``answer`` is another reading."""

    words: str
    answer: str
    key: str = ""


@dataclass(frozen=True, slots=True)
class TapePage:
    """One number and all around it, ready to show; without numbers only the kinds do."""

    title_line: str = ""
    progress: str = ""
    taken: int = 0
    total: int = 0
    rows: tuple[ListRow, ...] = ()
    measurement: str = ""
    side: Side | None = None
    title: str = ""
    how: str = ""
    value: str = ""
    unit: Unit = "in"
    unit_words: str = ""
    other_unit: Unit = "cm"
    lit: str = ""
    last_caption: str = ""
    last_value: str = ""
    change: str = ""
    reading_words: str = ""
    asking: Asking | None = None
    asks_at_next: bool = False
    read_again: str = ""
    can_read_again: bool = False
    sides: tuple[Choice, ...] = ()
    waist: tuple[Choice, ...] = ()
    shows_worn: bool = False
    foundation: str = ""
    heel: str = ""
    heel_in_hand: bool = False
    next_up: str = ""
    is_last: bool = False
    spoken: str = ""
    arranging: bool = False
    kinds: tuple[Choice, ...] = ()
    order: tuple[Choice, ...] = ()
    picked: str = ""
    can_arrange: bool = False
    is_own_order: bool = False


def page(document: Document, chosen: Chosen) -> TapePage:
    """Return everything that shows of what is chosen, which is settled."""
    on, kinds, number, unit = (
        chosen.on, kinds_for(document, chosen), chosen.number, chosen.unit or "in"
    )  # fmt: skip
    name = str(document["client"]["name"])
    line = f"{name}, {day_month(date.fromisoformat(on), date.fromisoformat(on))}"
    shown = TapePage(title_line=line, unit=unit, other_unit=_other(document, unit))
    shown = replace(shown, arranging=chosen.arranging, **_arranged(document, chosen))
    if number is None:
        return shown
    taking = taking_of(document, on, kinds, unit)
    numbers = tuple(row.number for row in taking.rows)
    following = after(document, on, numbers, number)
    return replace(
        shown,
        progress=taking.progress + (f", {taking.skipped} skipped" if taking.skipped else ""),
        taken=taking.taken,
        total=taking.total,
        rows=tuple(
            ListRow(row.number.key, row.label, row.heading, row.words, row.state,
                    row.number == number)
            for row in taking.rows
        ),
        next_up=following.label if following else "",
        is_last=following is None,
        **_heel_words(chosen) if chosen.heel_worn else _words(document, chosen, number),
        **_beside(document, chosen, number),
        sides=_sides(taking.rows, number),
    )  # fmt: skip


def _words(document: Document, chosen: Chosen, number: Number) -> dict[str, Any]:
    keys, unit = chosen.keys, chosen.unit or "in"
    read = page_of(document, chosen.on, number, unit, reading=chosen.reading)
    begun = _only_begun(number, keys)
    last = read.last_time
    return {
        "measurement": number.measurement,
        "side": number.side,
        "title": f"{read.title}, {WHOSE[read.side]}" if read.side else read.title,
        "how": read.how,
        **_typed_words(keys),
        "last_caption": f"last time, {last.day}" if last else "first time",
        "last_value": last.value if last else "",
        "change": last.change.removesuffix(" than last time") if last and not begun else "",
        "reading_words": _reading_words(read),
        "asking": None if begun else _asking(read),
        "asks_at_next": begun and bool(read.asked),
        "read_again": _READ_WORDS[next_reading(read.reading, max(1, len(read.readings)))],
        "can_read_again": bool(read.readings),
        "spoken": read.spoken,
    }


def _heel_words(chosen: Chosen) -> dict[str, Any]:
    return {
        "measurement": "heel_of_the_day",
        "title": HEEL_WORN,
        "how": _HOW_HEEL,
        **_typed_words(chosen.keys),
        "read_again": _READ_WORDS[1],
        "spoken": f"{HEEL_WORN}. {_HOW_HEEL}",
    }


def _typed_words(keys: Keypad | None) -> dict[str, Any]:
    if keys is None:
        return {}
    return {"value": keys.shown, "lit": keys.lit, "unit_words": _UNITS[keys.unit]}


def _beside(document: Document, chosen: Chosen, number: Number) -> dict[str, Any]:
    """Return what stands beside the figure: how the waist was found, or what is worn."""
    sitting = as_begun(document, chosen.on)
    worn, found = sitting.get("worn") or {}, sitting.get("waist_found")
    known = catalogue().get(number.measurement)
    at_waist = number.measurement == "waist_girth"
    return {
        "waist": tuple(Choice(how, how, chosen=how == found) for how in WAIST_FOUND)
        if at_waist else (),
        "shows_worn": known is not None and known.place == "before",
        "foundation": str(worn.get("foundation") or ""),
        "heel": str(worn.get("heel") or ""),
        "heel_in_hand": chosen.heel_worn,
    }  # fmt: skip


def _sides(rows: tuple[Any, ...], number: Number) -> tuple[Choice, ...]:
    """Return her two sides as they are seen from the front: her right at the left hand."""
    if number.side is None:
        known = catalogue().get(number.measurement)
        both = known is not None and known.both_sides
        return (Choice("both", "Take left and right"),) if both else ()
    words = {row.number: row.words for row in rows}
    return tuple(
        Choice(each.key, WHOSE[side], words.get(each, ""), each == number)
        for side in ("right", "left")
        for each in (Number(number.measurement, side),)
    )


def _asking(read: Page) -> Asking | None:
    """Return the first thing to ask; the rest waits until that is answered."""
    first: Asked | None = next(iter(read.asked), None)
    if first is not None:
        return Asking(first.words, "It is right", first.key)
    return Asking(read.third, "Third reading") if read.third else None


def _reading_words(read: Page) -> str:
    """Return which reading is in hand, and what is kept where there are more than one."""
    which = f"{_ORDINALS[read.reading]} reading"
    if len(read.readings) > 1:
        return f"{which}: {read.kept} is kept"
    return which if read.reading else ""


def _only_begun(number: Number, keys: Keypad | None) -> bool:
    """Tell whether more digits may still make it plausible: until then nothing is said of it."""
    known = catalogue().get(number.measurement)
    return known is not None and keys is not None and keys.may_go_on(*known.range_mm)


def _other(document: Document, unit: Unit) -> Unit:
    """Return the unit the switch leads to: inches and the metric one of the file."""
    metric: Unit = "mm" if unit_of(document) == "mm" else "cm"
    return metric if unit == "in" else "in"


def _arranged(document: Document, chosen: Chosen) -> dict[str, Any]:
    """Return what the tape can take for, and the order where it is open."""
    if chosen.number is not None and not chosen.arranging:
        return {}
    known = {kind.id: kind.label for kind in all_kinds()}
    kinds = kinds_for(document, chosen)
    order = measurements_for(document, kinds)
    return {
        "kinds": tuple(Choice(key, label, chosen=key in kinds)
                       for key, label in known.items()),
        "order": tuple(Choice(name, Number(name).title, chosen=name == chosen.picked)
                       for name in order),
        "picked": Number(chosen.picked).title if chosen.picked else "",
        "can_arrange": any(key in known for key in kinds),
        "is_own_order": order != measurements_for({**document, "client": {}}, kinds),
    }  # fmt: skip
