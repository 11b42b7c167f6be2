"""The ring of the hem, point by point, in ready-to-show words."""

from dataclasses import dataclass

from core.fit.hemming import POINTS, floor_typed, is_train, names, next_point
from core.fit.written import garment_in
from core.said.hem import HemChange, heel_not_said, hem_changes
from screens.fitting_page import Bench, KeysRow, WordRow, keys_for, written_in
from screens.rows import amount, direction


@dataclass(frozen=True, slots=True)
class HemPoint:
    """One point of the ring: its name, floor to hem, and what it asks for."""

    key: str
    label: str
    value: str
    change: str
    mark: str
    lit: bool


@dataclass(frozen=True, slots=True)
class HemPage:
    """The ring of points, and the numbers that count for all of them."""

    points: tuple[HemPoint, ...]
    more: tuple[HemPoint, ...]
    numbers: tuple[WordRow, ...]
    words: str
    caution: str


NUMBERS = {"wanted": "Off the floor, wanted", "holds": "Turned up inside",
           "heel": "Heel worn now", "heel_of_the_day": "Heel of the day"}  # fmt: skip


def hem_page(bench: Bench) -> HemPage:
    hem, garment = bench.fitting.hem, bench.garment
    changes = hem_changes(hem, bench.fitting.heel_worn, garment.heel_of_the_day) if hem else ()
    by_name = {change.at: change for change in changes}
    here = hem_field(bench)
    points = []
    for name in names(bench.written):
        change = by_name.get(name)
        points.append(
            HemPoint(
                key=name,
                label=_point_words(name),
                value=_value(bench, name),
                change=_change_words(bench, change) if change else "",
                mark=direction(change.change_mm) if change else "",
                lit=name == here,
            )
        )
    done_all = next_point(bench.written, bench.unit) is None
    return HemPage(
        points=tuple(points[: len(POINTS)]),
        more=tuple(points[len(POINTS) :]),
        numbers=tuple(
            WordRow(key, label, number_typed(bench, key) or "not said",
                    chosen=bench.chosen.field == key)
            for key, label in NUMBERS.items()
        ),
        words="Every point is measured." if done_all else "",
        caution=_hem_caution(bench),
    )  # fmt: skip


def _value(bench: Bench, name: str) -> str:
    return "train" if is_train(bench.written, name) else floor_typed(bench.written, name)


def _change_words(bench: Bench, change: HemChange) -> str:
    way = {"let out": "down", "take in": "up"}.get(direction(change.change_mm))
    return f"{way} {amount(change.change_mm, bench.unit)}" if way else "as wanted"


def _point_words(name: str) -> str:
    words = {"left side": "her left", "right side": "her right"}.get(name, name)
    return words[:1].upper() + words[1:]


def hem_field(bench: Bench) -> str:
    """Return what the keys write: a number that was touched, else the next point to measure."""
    field = bench.chosen.field
    if field in NUMBERS or field in names(bench.written):
        return field
    return next_point(bench.written, bench.unit) or ""


def number_typed(bench: Bench, key: str) -> str:
    if key == "heel":
        return written_in(bench, "worn", "heel")
    if key == "heel_of_the_day":
        value = garment_in(bench.file.data, bench.at.garment).get(key)
        return "" if value is None else str(value)
    return written_in(bench, "hem", key)


def _hem_caution(bench: Bench) -> str:
    worn, of_day = bench.fitting.heel_worn, bench.garment.heel_of_the_day
    if bench.fitting.hem is None or not bench.fitting.hem.points:
        return ""
    missing_heel = heel_not_said(worn, of_day)
    missing = (
        ("How far off the floor it is wanted is not said: it is counted as touching the floor",
         not number_typed(bench, "wanted")),
        ("What is turned up inside is not said: nothing is counted to let down",
         not number_typed(bench, "holds")),
        (f"{missing_heel[:1].upper()}{missing_heel[1:]}: the floor is counted as it is today",
         bool(missing_heel)),
    )  # fmt: skip
    return ". ".join(words for words, is_so in missing if is_so)


def hem_keys(bench: Bench) -> KeysRow | None:
    field = hem_field(bench)
    if not field:
        return None
    if field in NUMBERS:
        return keys_for(bench, NUMBERS[field], number_typed(bench, field), "Next")
    aside = (WordRow("train", "Train: skip", chosen=is_train(bench.written, field)),)
    title = f"Floor to hem, {_point_words(field).lower()}"
    return keys_for(bench, title, floor_typed(bench.written, field), "Next", aside)
