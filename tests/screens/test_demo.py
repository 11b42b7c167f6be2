"""The demo client: invented, drafted by the quarter rule, and with a story to look at."""

import copy
import json
import re
from fractions import Fraction

import pytest

from core.changes.plan import make_plan
from core.file.fitting_file import read_document
from core.resources import RESOURCES

DEMO = json.loads((RESOURCES / "demo" / "moss_green_sheath.json").read_text(encoding="utf-8"))
GARMENT = DEMO["garments"][0]
FITTING = GARMENT["fittings"][0]


def test_she_is_marked_as_invented():
    assert "(demo, invented)" in DEMO["client"]["name"]


def test_as_drafted_every_level_of_every_layer_is_body_and_ease():
    drafted = copy.deepcopy(DEMO)
    drafted["garments"][0]["fittings"] = []
    judged = [level for level in make_plan(read_document(drafted)).levels if level.wanted]
    assert {level.layer for level in judged} == {"outer", "lining"}
    assert len(judged) == 8
    for level in judged:
        assert level.as_sewn == pytest.approx(level.wanted, abs=1e-6), (level.layer, level.level)


def pieces():
    return [piece for layer in GARMENT["layers"] for ring in layer["rings"]
            for piece in ring["pieces"]]  # fmt: skip


def length(text):
    return sum(Fraction(part) for part in text.split())


def test_every_width_is_the_sum_that_stands_beside_it():
    for piece in pieces():
        for level, said in piece["sum"].items():
            terms, result = said.split(" = ")
            bare = re.sub(r"\([^)]*\)", "", terms)
            total, sign = Fraction(0), 1
            for part in re.split(r" ([+-]) ", bare):
                if part in ("+", "-"):
                    sign = 1 if part == "+" else -1
                else:
                    total += sign * length(part)
            assert total == length(result) == length(piece["width"][level]), said


def test_the_fitting_is_three_weeks_later_with_every_pin_read():
    assert (DEMO["measurements"][0]["on"], FITTING["on"]) == ("2026-02-09", "2026-03-02")
    assert 5 <= len(FITTING["pins"]) <= 7
    assert all({"pinch", "gap", "edges"} & set(pin) for pin in FITTING["pins"])


def test_it_has_what_a_fitting_can_have():
    """Still loose, unlike sides, a let-out the cloth is short of, a lining that follows."""
    plan = make_plan(read_document(DEMO))
    outer = {level.level: level for level in plan.levels if level.layer == "outer"}
    assert outer["waist"].verdict == "still loose"
    assert outer["bust"].verdict == "agrees"
    assert any("1/8 an edge is missing" in warning for warning in plan.warnings)
    assert any("they stay different" in warning for warning in plan.warnings)
    assert any(move.layer == "lining" for move in plan.moves)
