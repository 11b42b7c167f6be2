"""Every step can be followed by ear: what is said is what the plan says, in words alone.

The words are read back into numbers by a small reader of English numbers of this file's own.
"""

import json
import re
from collections.abc import Iterator
from fractions import Fraction
from functools import cache
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from core.changes.plan import make_plan
from core.file.fitting_file import FittingFile, load, read_document
from core.lengths import MM_PER_UNIT, Unit
from core.records.answer import Lead, Move, Plan, Step
from core.said.spoken import aloud, spoken_steps
from core.said.spoken_text import BREATH, breaths, label_aloud, length_aloud, text_aloud
from core.said.step_places import step_places
from tests.benchmark import corset, fishtail_with_twelve_pins
from tests.garments import pinned, worked

ROOT = Path(__file__).resolve().parents[2]
LEADS: tuple[Lead, ...] = ("pins", "tape", "both")
UNITS: tuple[Unit, ...] = ("in", "cm", "mm")
DRAFTS = sorted((ROOT / "tests" / "data" / "drafts").glob("*.json"))
SEAM_GROUPS = ("princess and gore seams", "shoulders", "side seams", "waist seam",
               "centre seams and zip", "sleeves", "other layers")  # fmt: skip

# A reader of English numbers

_ONES = {word: number for number, word in enumerate((
    "zero", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten",
    "eleven", "twelve", "thirteen", "fourteen", "fifteen", "sixteen", "seventeen", "eighteen",
    "nineteen"))}  # fmt: skip
_TENS = {"twenty": 20, "thirty": 30, "forty": 40, "fifty": 50, "sixty": 60, "seventy": 70,
         "eighty": 80, "ninety": 90}  # fmt: skip
_PARTS = {"half": 2, "halves": 2, "quarter": 4, "eighth": 8, "sixteenth": 16}


def number_heard(words: str) -> Fraction:
    """Return the number that the words say; raises ``KeyError`` for a word that is none."""
    words = words.replace("-", " ")
    if words == "nothing":
        return Fraction(0)
    whole, point, decimals = words.partition(" point ")
    if point:
        digits = "".join(str(_ONES[word]) for word in decimals.split())
        return _whole_heard(whole) + Fraction(int(digits), 10 ** len(digits))
    *before, last = words.split()
    bottom = _PARTS.get(last) or _PARTS.get(last.removesuffix("s"))
    if bottom is None:
        return _whole_heard(words)
    top = before.pop()
    over = Fraction(1 if top == "a" else _ONES[top], bottom)
    if before[-1:] == ["and"]:
        before.pop()
    return over + (_whole_heard(" ".join(before)) if before else 0)


def _whole_heard(words: str) -> Fraction:
    total = group = 0
    for word in words.split():
        if word == "and":
            continue
        if word == "hundred":
            group *= 100
        elif word == "thousand":
            total, group = total + 1000 * group, 0
        else:
            group += _ONES[word] if word in _ONES else _TENS[word]
    return Fraction(total + group)


def mm_heard(words: str, unit: Unit) -> float:
    """Return a spoken length in mm; in metric its unit must have been said."""
    words = words.strip(" .")
    if words == "nothing":
        return 0.0
    said = re.fullmatch(r"(.+?) (inch|inches|centimetres?|millimetres?)", words)
    name = {"in": "inch", "cm": "centimetre", "mm": "millimetre"}[unit]
    if said is not None:
        assert said[2].startswith(name)
        words = said[1]
    else:
        assert unit == "in", f"no unit in “{words}”"
        assert re.search(r"(half|quarter|eighth|sixteenth)s?$", words), f"no unit in “{words}”"
    return float(number_heard(words)) * MM_PER_UNIT[unit]


def test_the_reader_of_this_file_understands_numbers() -> None:
    assert number_heard("thirty and a half") == Fraction(61, 2)
    assert number_heard("one and five eighths") == Fraction(13, 8)
    assert number_heard("seven hundred and ninety-five") == 795
    assert number_heard("zero point six four") == Fraction(64, 100)
    assert number_heard("three quarters") == Fraction(3, 4)


# The plans


@cache
def fitted(path: Path) -> FittingFile:
    """Return a draft with a fitting at which everything that can be pinned was pinned."""
    document = json.loads(path.read_text(encoding="utf-8"))
    garment = document["garments"][0]
    layer = garment["layers"][0]
    ring = layer["rings"][0]
    levels = ring.get("levels") or [level["id"] for level in garment["levels"]]
    pins: list[dict[str, Any]] = []
    for seam in ring["seams"]:
        shared = [level for level in levels if _joins_at(ring, seam, level)]
        if not shared:
            continue
        centre = seam["joins"][0] == seam["joins"][1]
        pins.append({"seam": seam["id"], "side": "both" if centre else "left",
                     "level": shared[0], "pinch": "3/8"})  # fmt: skip
        if not centre:
            pins.append({"seam": seam["id"], "side": "right", "level": shared[-1], "gap": "1/2"})
    for piece in ring["pieces"]:
        for dart in piece.get("darts", [])[:1]:
            level = next(iter(dart["take_up"]))
            pins.append({"dart": dart["id"], "side": "left", "level": level, "pinch": "1/16"})
    first = ring["pieces"][0]
    pins.append({"piece": first["id"], "side": "both", "level": next(iter(first["width"])),
                 "pinch": "1/4"})  # fmt: skip
    garment["fittings"] = [{
        "id": "f", "on": "2027-01-01", "stage": "basted", "pins": pins,
        "worn": {"heel": "2", "foundation": "a slip"},
        "tucks": [{"level": levels[0], "depth": {"left": "1/8", "right": "3/8"},
                   "into": "waist_seam"}],
        "hem": {"wanted": "1/2", "holds": "2",
                "points": [{"at": "left", "floor": "1"}, {"at": "back", "train": True}]},
    }]  # fmt: skip
    return read_document(document)


def _joins_at(ring: dict[str, Any], seam: dict[str, Any], level: str) -> bool:
    pieces = {piece["id"]: piece for piece in ring["pieces"]}
    return all(level in pieces[name]["width"] for name in seam["joins"]) and (
        level in seam.get("levels", [level])
    )


def unlike_edges() -> FittingFile:
    """Return the worked example with edges apart, a pin between levels and unlike sides."""
    return read_document(pinned(
        worked(),
        {"seam": "side", "side": "left", "level": "waist",
         "edges": {"front": "-1/4", "back": "1/2"}},
        {"seam": "side", "side": "right", "level": "waist", "down": "14", "pinch": "3/8"},
        {"dart": "back_dart", "side": "right", "level": "waist", "pinch": "1/8"},
    ))  # fmt: skip


def files() -> Iterator[tuple[str, FittingFile]]:
    yield "corset", corset()
    yield "fishtail", fishtail_with_twelve_pins()
    yield "demo", load(ROOT / "resources" / "demo" / "moss_green_sheath.json")
    yield "unlike", unlike_edges()
    for path in DRAFTS:
        yield path.stem, fitted(path)


CASES = [
    pytest.param(name, file, lead, unit, id=f"{name}-{lead}-{unit}")
    for name, file in files()
    for lead in LEADS
    for unit in UNITS
]
every_plan = pytest.mark.parametrize(("name", "file", "lead", "unit"), CASES)


def heard(file: FittingFile, lead: Lead, unit: Unit) -> tuple[Plan, tuple[tuple[str, ...], ...]]:
    plan = make_plan(file, lead=lead, unit=unit)
    return plan, spoken_steps(plan, file, unit=unit)


@every_plan
def test_a_step_is_said_in_words_alone(
    name: str, file: FittingFile, lead: Lead, unit: Unit
) -> None:
    plan, spoken = heard(file, lead, unit)
    assert len(spoken) == len(plan.steps)
    for sentences in spoken:
        assert sentences[0].startswith("Step ")
        for sentence in sentences:
            assert re.fullmatch(r"[A-Z][A-Za-z ,;:'’()-]*[.?!]", sentence), sentence
            assert not re.search(r"edge|\b(in|cm|mm|approx|incl)\.|\b(cm|mm|cb|cf)\b|why:",
                                 sentence, re.I), sentence  # fmt: skip
            assert len(sentence) <= BREATH + 1 or ", " not in sentence, sentence


@every_plan
def test_left_and_right_are_the_step_s_own(
    name: str, file: FittingFile, lead: Lead, unit: Unit
) -> None:
    plan, spoken = heard(file, lead, unit)
    for step, sentences in zip(plan.steps, spoken, strict=True):
        if step.side is None or step.group == "draft":
            continue
        other = {"left": "right", "right": "left"}[step.side]
        assert f"her {step.side}" in sentences[1]
        assert f"her {other}" not in aloud(sentences)


@every_plan
def test_front_and_back_alike_is_said_once_at_most(
    name: str, file: FittingFile, lead: Lead, unit: Unit
) -> None:
    for sentences in heard(file, lead, unit)[1]:
        assert len(re.findall(r"(?<!not )alike, level", aloud(sentences))) <= 1


def of_seam(plan: Plan, step: Step, file: FittingFile) -> list[Move]:
    """Return the moves behind a seam's step: those of the side that it tells of."""
    garment = file.garment(plan.garment)
    labels = {
        (layer.id, seam.id): seam.label
        for layer in garment.layers for ring in layer.rings for seam in ring.seams
    }  # fmt: skip
    moves = [move for move in plan.moves if move.seam is not None and move.layer == step.layer
             and step.title.lower().endswith(labels[move.layer, move.seam].lower())]  # fmt: skip
    sides = {move.side for move in moves}
    side = step.side if step.side or None in sides else "left"
    return [move for move in moves if move.side == side]


@every_plan
def test_a_seam_s_amounts_are_the_plan_s_when_they_are_heard(
    name: str, file: FittingFile, lead: Lead, unit: Unit
) -> None:
    """Each level is named with its amounts, top to bottom, and nothing that moves is left out."""
    plan, spoken = heard(file, lead, unit)
    places = step_places(plan, file, unit).places
    levels = file.garment(plan.garment).levels
    mark = {"in": 25.4 / 16, "cm": 0.1, "mm": 0.1}[unit]
    for step, sentences, place in zip(plan.steps, spoken, places, strict=True):
        if step.group not in SEAM_GROUPS or "old stitching" not in step.text:
            continue
        if place is None or place.what != "seam":
            continue
        moves = [move for move in of_seam(plan, step, file) if abs(move.move) > mark / 2]
        wanted = {
            level: [move for move in moves if move.level == level]
            for level in sorted({move.level for move in moves}, key=lambda name: levels[name].down)
        }
        told = list(sentences[3:])
        for level, here in wanted.items():
            label = label_aloud(levels[level].label)
            names = {label, label.partition(",")[0]}
            amounts = []
            while any(told[0].startswith(f"{name}, ") for name in names):
                sentence = told.pop(0).rstrip(".")
                amounts.append(heard_amount(sentence, sentences[2], unit))
            if len(amounts) == 1 and len(here) == 2:
                assert " alike" in sentences[2]
                assert "not alike" not in sentences[2]
                amounts *= 2
            assert sorted(amounts) == pytest.approx(
                sorted(move.move for move in here), abs=mark / 2 + 1e-6
            )
        assert re.match(r"Run out|The same|Baste only|You will have", told[0]), told[0]


def heard_amount(said: str, direction: str, unit: Unit) -> float:
    """Return a signed amount: ``take in one quarter``, ``front one quarter``, ``one quarter``."""
    way = "take in" if "take in" in (said + direction).lower() else "let out"
    words = re.sub(r"^.*(take in|let out|, ) ?", "", said)
    starts = [found.start() for found in re.finditer(r"(?<![\w-])", words)]
    for start in starts:  # the edge's name before the number is skipped
        try:
            mm = mm_heard(words[start:], unit)
        except (KeyError, AssertionError, IndexError):
            continue
        return -mm if way == "take in" else mm
    raise AssertionError(f"no amount in “{said}”")


@every_plan
def test_the_check_asks_for_the_girth_that_is_planned(
    name: str, file: FittingFile, lead: Lead, unit: Unit
) -> None:
    plan, spoken = heard(file, lead, unit)
    mark = {"in": 25.4 / 16, "cm": 0.1, "mm": 0.1}[unit]
    for step, sentences in zip(plan.steps, spoken, strict=True):
        if step.group != "baste and check" or "should be" not in step.text:
            continue
        rows = [row for row in plan.levels if row.layer == step.layer and abs(row.planned) > 1e-6]
        amounts = [sentence.rstrip(".").removeprefix("It should be ").rpartition(", ")[2]
                   for sentence in sentences if sentence != "This is what it should be."][3:-1]
        assert [mm_heard(words, unit) for words in amounts] == pytest.approx(
            [row.as_sewn + row.planned for row in rows], abs=mark
        )  # fmt: skip
        assert sentences[-1] == "What do you have?"


@every_plan
def test_a_dart_s_legs_and_take_up_are_the_plan_s(
    name: str, file: FittingFile, lead: Lead, unit: Unit
) -> None:
    plan, spoken = heard(file, lead, unit)
    mark = {"in": 25.4 / 16, "cm": 0.1, "mm": 0.1}[unit]
    for step, sentences in zip(plan.steps, spoken, strict=True):
        if step.group != "darts" or "on each leg" not in step.text:
            continue
        leg = next(sentence for sentence in sentences if "each leg" in sentence)
        said = mm_heard(leg.partition(", ")[2].removesuffix(" on each leg."), unit)
        becomes = next(sentence for sentence in sentences if " becomes " in sentence)
        before, after = (mm_heard(part.lower(), unit) for part in becomes.split(" becomes "))
        sign = -1 if "Deeper." in sentences else 1
        legs = [move.move for move in plan.moves if move.dart and move.layer == step.layer
                and step.side in (None, move.side)]  # fmt: skip
        assert any(abs(sign * said - move) <= mark / 2 + 1e-6 for move in legs)
        assert after == pytest.approx(before - 2 * sign * said, abs=2 * mark)


def test_a_pinned_side_seam_sounds_as_it_is_said_at_the_table() -> None:
    """The sentences are written out by hand from the worked example, pinned 5/8 on her left.

    The allowance is 1, so 1 + 5/8 is inside when 5/8 was taken in.
    """
    file = read_document(pinned(worked(), {"seam": "side", "side": "left", "level": "waist",
                                           "pinch": "5/8"}))  # fmt: skip
    plan = make_plan(file)
    at = next(number for number, step in enumerate(plan.steps) if step.group == "side seams")
    assert spoken_steps(plan, file)[at] == (
        "Step three of five.",
        "Side seam, her left, and the left is not like the right.",
        "Take in, front and back alike, level in from the old stitching.",
        "Waist, five eighths.",
        "Run out to nothing at the bust.",
        "Run out to nothing at the hip; do not go below it.",
        "You will have one and five eighths inside at the waist: do not trim.",
    )
    assert spoken_steps(plan, file)[0][-2:] == ("One pin.", "Tell me when the tin has one.")


def test_edges_apart_are_each_named_with_their_own_amount() -> None:
    file = unlike_edges()
    plan = make_plan(file)
    said = next(sentences for sentences in spoken_steps(plan, file)
                if sentences[1].startswith("Side seam, her left"))  # fmt: skip
    assert said[2:5] == (
        "Front and back not alike, level across from the old stitching.",
        "Waist, front take in one quarter.",
        "Waist, back let out one half.",
    )


def test_a_plan_without_steps_says_nothing() -> None:
    file = corset()
    plan = make_plan(file, lead="pins")
    assert plan.steps == ()
    assert spoken_steps(plan, file) == ()


def test_a_toile_s_new_widths_are_said_as_sums() -> None:
    file = read_document(pinned(worked(), {"seam": "side", "side": "both", "level": "waist",
                                           "pinch": "5/8"}, stage="toile"))  # fmt: skip
    plan = make_plan(file)
    front = aloud(spoken_steps(plan, file)[0])
    assert "cut ten and a quarter less five eighths is nine and five eighths." in front


@pytest.mark.parametrize(
    ("label", "said"),
    [
        ("Panel 10", "Panel ten"), ("½ circle", "one half circle"), ("Naht 3b", "Naht three b"),
        ("1½ godets", "one and a half godets"), ("Top edge", "Top"), ("Hook & eye", "Hook and eye"),
        ("Edges", "Borders"), ("No. ٣", "No. three"), ("Gore ②", "Gore two"),
        ("12345678", "one two three four five six seven eight"),
    ],
)  # fmt: skip
def test_what_she_calls_a_thing_is_said_without_digits(label: str, said: str) -> None:
    assert label_aloud(label) == said


def test_a_name_with_a_number_is_not_taken_for_a_length() -> None:
    assert text_aloud("Take in the gore 2 3/8 an edge.", "in", ["Gore 2"]) == (
        "Take in the gore two three eighths from the old stitching."
    )


def test_a_length_in_another_unit_keeps_it() -> None:
    said = text_aloud("A hem nearer the floor than 25 mm trips.", "in")
    assert said == "A hem nearer the floor than twenty-five millimetres trips."


def test_a_long_list_is_said_in_several_breaths() -> None:
    parts = [f"the opening called {word}" for word in ("apple", "pear", "plum", "cherry", "fig")]
    said = breaths(f"Outer: {', then '.join(parts)}.")
    assert len(said) > 1
    assert all(len(sentence) <= BREATH + 1 for sentence in said)
    assert re.findall(r"apple|pear|plum|cherry|fig", " ".join(said)) == [
        "apple", "pear", "plum", "cherry", "fig"]  # fmt: skip


@given(st.integers(0, 60 * 16))
def test_every_sixteenth_of_an_inch_is_heard_as_it_is(sixteenths: int) -> None:
    assert mm_heard(length_aloud(sixteenths * 25.4 / 16, "in"), "in") == pytest.approx(
        sixteenths * 25.4 / 16
    )


@given(st.integers(0, 20_000), st.sampled_from(["cm", "mm"]))
def test_every_tenth_of_a_millimetre_is_heard_as_it_is(tenths: int, unit: Unit) -> None:
    assert mm_heard(length_aloud(tenths / 10, unit), unit) == pytest.approx(tenths / 10)


@given(st.text(max_size=60))
def test_whatever_a_thing_is_called_no_digit_is_said(label: str) -> None:
    said = label_aloud(label)
    assert not any(sign.isdecimal() or sign.isdigit() for sign in said)
    assert "edge" not in said.lower().split()
