"""A file that cannot be used is refused in one line that names the field; nothing else happens.

``FILES_SPOILT=500 python -m pytest tests/core/test_bad_input.py`` spoils each file more often,
``FILES_SEED`` otherwise.
"""

import copy
import json
import os
import random
import zipfile
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest

from core.command import UNUSABLE, main
from tests.garments import Document, pinned, worked

ROOT = Path(__file__).resolve().parents[2]
DRAFTS = sorted((ROOT / "tests" / "data" / "drafts").glob("*.json"))
DEMO = sorted((ROOT / "resources" / "demo").glob("*.json"))

WRONG: tuple[Any, ...] = (
    None, True, 0, -1, 5, 1e308, "", "x", "-1", "1/0", "4%", [], [None], ["x"], {}, {"x": 1},
    {"left": 1, "right": 2}, float("nan"),
)  # fmt: skip
"""What any field may be by mistake; ``DELETED`` beside them."""

DELETED = object()
SPOILT_EACH = int(os.environ.get("FILES_SPOILT", "50"))
SEED = os.environ.get("FILES_SEED", "")
"""How many spoilt copies of each file are tried; another seed tries others."""

ASKED = ([], ["--json"], ["--lead", "both"], ["--lead", "tape", "--json"], ["--unit", "cm"])

Spot = tuple[str | int, ...]
"""Where a field stands in a document: the keys and places that lead to it."""


def everything() -> Document:
    """Return the worked example with a second layer, a sleeve, and all that can be logged."""
    file = worked(
        {"comfort": {"hip": "3/4"}, "weight": {"front": {"bust": 0}}, "clipped": ["bust"],
         "run": {"up": "nothing", "down": "carry"}},
        {"keep": "5/8", "zip": True, "needs": ["lining_edge"], "levels": ["bust", "waist", "hip"]},
        settings={"step": "1/8", "band": "1/4", "keep": "3/8"}, kind="sheath_dress", drop="1",
        heel_of_the_day="3", openings=[{"id": "lining_edge", "label": "Lining", "minutes": 20}],
        joined=[{"id": "band", "layer": "outer", "ring": "body", "level": "waist", "turns": 1,
                 "inner_radius": "6", "depth": "20"}],
        lines=[{"id": "armhole", "sewn": "17", "body": "armscye_girth", "ease": "1",
                "changes": [{"seam": "side", "level": "bust", "factor": 1}]}],
        inserts=[{"id": "godet", "seam": "side", "level": "hip", "allowance": "1/2"}],
    )  # fmt: skip
    garment = file["garments"][0]
    garment["levels"][0] |= {"front_arc": "bust_front_arc", "down_body": {"front": "neck_to_bust"}}
    garment["layers"][0]["rings"] += [
        {"id": "sleeve", "kind": "closed", "copies": 2,
         "pieces": [{"id": "sleeve", "width": {"bust": {"left": "16", "right": "15"}, "hip": "9"}}],
         "seams": [{"id": "underarm", "joins": ["sleeve", "sleeve"],
                    "allowance": {"bust": "1", "hip": "1/2"}}]}]  # fmt: skip
    garment["layers"] += [
        {"id": "lining", "stretch": True, "ease": {"waist": "-4%"}, "rings": [
            {"id": "body", "kind": "half",
             "pieces": [{"id": "whole", "width": {"bust": "19", "waist": "17"},
                         "darts": [{"id": "tuck", "take_up": {"waist": "1"}, "slashed": True,
                                    "ends": {"top": "11", "point": "20"}}]}],
             "seams": [{"id": "side", "joins": ["whole", "whole"], "at": "front",
                        "allowance": "1/2"}]}]}]  # fmt: skip
    done = {"on": "2026-01-02", "layer": "outer", "seam": "side", "side": "left",
            "moves": [{"edge": "front", "level": "waist", "move": "-1/8"}],
            "trimmed": {"front": "3/4"}}  # fmt: skip
    pinned(file, done=[done, {"dart": "back_dart", "moves": [
        {"edge": "back", "level": "waist", "move": "-1/8"}]}])  # fmt: skip
    return pinned(
        file,
        {"seam": "side", "side": "both", "level": "waist", "pinch": "5/8", "through": True},
        {"seam": "side", "side": "left", "level": "hip", "gap": "2"},
        {"seam": "side", "side": "right", "level": "hip", "edges": {"front": "-1/4"}},
        {"seam": "side", "down": "20", "pinch": "1/4"},
        {"dart": "front_dart", "side": "left", "level": "waist", "pinch": "1/8"},
        {"seam": "side", "side": "left", "level": "bust"},
        {"piece": "back", "level": "waist", "pinch": "1/4", "note": "below the blade"},
        {"seam": "underarm", "side": "left", "level": "bust", "pinch": "1/4"},
        stage="second", worn={"heel": "2 1/2", "inside_out": True},
        measurements={"waist_girth": "28", "upper_arm_girth": {"left": "11", "right": "12"}},
        sewn_girths={"outer": {"body": {"waist": "31"}, "sleeve": {"bust": {"left": "13"}}}},
        ease={"hip": "4%"}, lead="pins",
        tucks=[{"level": "waist", "depth": {"left": "1/8"}, "into": "shoulder"}],
        hem={"wanted": "1", "holds": "2",
             "points": [{"at": "front", "floor": "1"}, {"at": "back", "train": True}]},
    )  # fmt: skip


FILES = {"everything": everything, "worked": worked} | {
    path.stem: (lambda path=path: json.loads(path.read_text(encoding="utf-8")))
    for path in DRAFTS + DEMO
}


def spots(value: Any, path: Spot = ()) -> Iterator[Spot]:
    """Yield the path of every field in a document, itself first."""
    yield path
    entries = value.items() if isinstance(value, dict) else (
        enumerate(value) if isinstance(value, list) else ())  # fmt: skip
    for key, entry in entries:
        yield from spots(entry, (*path, key))


def spoilt(file: Document, path: Spot, wrong: Any) -> Any:
    """Return a copy of the document with one field replaced, or taken out."""
    if not path:
        return None if wrong is DELETED else wrong
    changed = copy.deepcopy(file)
    place: Any = changed
    for key in path[:-1]:
        place = place[key]
    if wrong is DELETED:
        del place[path[-1]]
    else:
        place[path[-1]] = wrong
    return changed


def told(path: Path, capsys: pytest.CaptureFixture[str], *asked: str) -> tuple[int, str]:
    """Run ``plan`` and return its exit code with what it said on standard error."""
    code = main([str(path), *asked])
    return code, capsys.readouterr().err


def is_one_line(said: str) -> bool:
    return said.endswith("\n") and said.count("\n") == 1 and len(said) > 10


@pytest.mark.parametrize("name", FILES)
def test_any_field_may_be_wrong(
    name: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    file, chance = FILES[name](), random.Random(name + SEED)
    path = tmp_path / "spoilt.json"
    every = [(spot, wrong) for spot in spots(file) for wrong in (*WRONG, DELETED)]
    count = SPOILT_EACH * (6 if name == "everything" else 1)
    for spot, wrong in chance.sample(every, min(count, len(every))):
        path.write_text(json.dumps(spoilt(file, spot, wrong)), encoding="utf-8")
        asked = chance.choice(ASKED)
        code, said = told(path, capsys, *asked)
        fine = (code == 0 and not said) or (code == UNUSABLE and is_one_line(said))
        assert fine, (spot, wrong, asked, code, said)


@pytest.mark.parametrize("name", FILES)
def test_an_unspoilt_file_is_used(
    name: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    path = tmp_path / "good.json"
    path.write_text(json.dumps(FILES[name]()), encoding="utf-8")
    for asked in ASKED:
        assert told(path, capsys, *asked) == (0, "")


def put(*steps: Any) -> Callable[[Document], None]:
    """Return a change that puts the last of ``steps`` where the others lead."""

    def change(file: Document) -> None:
        place: Any = file
        for key in steps[:-2]:
            place = place[key]
        place[steps[-2]] = steps[-1]

    return change


G = ("garments", 0)
RING = (*G, "layers", 0, "rings", 0)
SIDE = (*RING, "seams", 0)
FITTING = (*G, "fittings", 1)
PIN = (*FITTING, "pins", 0)
RING_PATH = "garments[0].layers[0].rings[0]"
SIDE_PATH = f"{RING_PATH}.seams[0]"
FITTING_PATH = "garments[0].fittings[1]"
PIN_PATH = f"{FITTING_PATH}.pins[0]"

BAD: dict[str, tuple[Callable[[Document], None], str]] = {
    "no format": (put("format", None), "format"),
    "another program's format": (put("format", "dress/1"), "format"),
    "a format before the first": (put("format", "pins-to-seams/0"), "format"),
    "a newer format": (put("format", "pins-to-seams/2"), "format"),
    "a unit nobody sews in": (put("unit", "yd"), "unit"),
    "a client without a name": (put("client", "name", " "), "client.name"),
    "half of a sign": (put("client", "name", "\ud800"), "client.name"),
    "no number": (put("client", "shoe", float("nan")), "client.shoe"),
    "a day that is none": (put("measurements", 0, "on", "2026-13-01"), "measurements[0].on"),
    "a girth below nothing": (
        put("measurements", 0, "values", "hip_girth", "-39"), "measurements[0].values.hip_girth"),
    "an unknown piece in a seam": (put(*SIDE, "joins", ["front", "blouse"]),
                                   f"{SIDE_PATH}.joins[1]"),
    "a seam of three pieces": (put(*SIDE, "joins", ["front", "back", "back"]),
                               f"{SIDE_PATH}.joins"),
    "no allowance": (put(*SIDE, "allowance", None), f"{SIDE_PATH}.allowance"),
    "an allowance not known everywhere": (put(*SIDE, "allowance", {"bust": 1, "waist": 1}),
                                          f"{SIDE_PATH}.allowance"),
    "a comfort at a level nobody knows": (put(*SIDE, "comfort", {"ankle": 1}),
                                          f"{SIDE_PATH}.comfort.ankle"),
    "an edge given on the other ring's piece": (
        put(*FITTING, "pins", 2, "edges", {"front": "-1/4", "whole": "-1/4"}),
        f"{FITTING_PATH}.pins[2].edges.whole"),
    "a turn and a half": (put(*SIDE, "turn", 1.5), f"{SIDE_PATH}.turn"),
    "a weight below nothing": (put(*SIDE, "weight", -1), f"{SIDE_PATH}.weight"),
    "a run to nowhere": (put(*SIDE, "run", "down", "ankle"), f"{SIDE_PATH}.run.down"),
    "a piece less than its allowances": (
        put(*RING, "pieces", 0, "width", "waist", "1"), f"{RING_PATH}.pieces[0].width.waist"),
    "a width at a level nobody knows": (
        put(*RING, "pieces", 0, "width", "ankle", "9"), f"{RING_PATH}.pieces[0].width.ankle"),
    "a length that is none": (
        put(*RING, "pieces", 0, "width", "waist", "ten"), f"{RING_PATH}.pieces[0].width.waist"),
    "a width for one side only": (
        put(*RING, "pieces", 0, "width", "waist", {"left": 10}),
        f"{RING_PATH}.pieces[0].width.waist"),
    "longer than anything sewn": (
        put(*RING, "pieces", 0, "width", "waist", 1e308), f"{RING_PATH}.pieces[0].width.waist"),
    "a piece named like a level": (put(*RING, "pieces", 0, "id", "waist"),
                                   f"{RING_PATH}.pieces[0].id"),
    "two pieces alike": (put(*RING, "pieces", 0, "id", "back"), f"{RING_PATH}.pieces[1].id"),
    "two seams alike": (put(*RING, "seams", 1, "id", "side"), f"{RING_PATH}.seams[1].id"),
    "two garments alike": (
        lambda file: file["garments"].append(copy.deepcopy(file["garments"][0])),
        "garments[1].id"),
    "two levels alike": (put(*G, "levels", 1, "id", "bust"), "garments[0].levels[1].id"),
    "levels out of order": (put(*G, "levels", 1, "down", "9"), "garments[0].levels[1].down"),
    "an id with a space": (put(*SIDE, "id", "side seam"), f"{SIDE_PATH}.id"),
    "three copies": (put(*G, "layers", 0, "rings", 1, "copies", 3),
                     "garments[0].layers[0].rings[1].copies"),
    "a dart upside down": (
        put(*G, "layers", 1, "rings", 0, "pieces", 0, "darts", 0, "ends", "top", "30"),
        "garments[0].layers[1].rings[0].pieces[0].darts[0].ends"),
    "a step of nothing": (put(*G, "settings", "step", 0), "garments[0].settings.step"),
    "an ease that is no share": (put(*FITTING, "ease", {"hip": "four%"}),
                                 f"{FITTING_PATH}.ease.hip"),
    "a lead nobody knows": (put(*FITTING, "lead", "luck"), f"{FITTING_PATH}.lead"),
    "a pin on no seam": (put(*PIN, "seam", "hem"), f"{PIN_PATH}.seam"),
    "a pin on a seam and a dart": (put(*PIN, "dart", "back_dart"), PIN_PATH),
    "a pin pinched and opened": (put(*PIN, "gap", 1), PIN_PATH),
    "a pin pinched the wrong way": (put(*PIN, "pinch", "-1"), f"{PIN_PATH}.pinch"),
    "a pin where its seam does not reach": (put(*PIN, "level", "ankle"), f"{PIN_PATH}.level"),
    "a pin without a place": (put(*PIN, "level", None), PIN_PATH),
    "a pin on a third side": (put(*PIN, "side", "middle"), f"{PIN_PATH}.side"),
    "a side for a centre seam": (
        put(*PIN, {"seam": "centre_back", "side": "left", "level": "waist", "pinch": 1}),
        f"{PIN_PATH}.side"),
    "an edge its seam does not have": (
        put(*FITTING, "pins", 2, "edges", {"sleeve": "-1"}),
        f"{FITTING_PATH}.pins[2].edges.sleeve"),
    "two pins in one place": (
        put(*FITTING, "pins", 1, {"seam": "side", "level": "waist", "gap": 1}),
        f"{FITTING_PATH}.pins[1]"),
    "a layer nobody made": (put(*PIN, "layer", "cape"), f"{PIN_PATH}.layer"),
    "a girth of no ring": (put(*FITTING, "sewn_girths", {"outer": {"cape": {"waist": 1}}}),
                           f"{FITTING_PATH}.sewn_girths.outer.cape"),
    "a tuck at no level": (put(*FITTING, "tucks", 0, "level", "ankle"),
                           f"{FITTING_PATH}.tucks[0].level"),
    "a hem that holds less than nothing": (put(*FITTING, "hem", "holds", "-1"),
                                           f"{FITTING_PATH}.hem.holds"),
    "sewn on an edge that is not there": (
        put(*G, "fittings", 0, "done", 0, "moves", 0, "edge", "fornt"),
        "garments[0].fittings[0].done[0].moves[0].edge"),
    "trimmed an edge that is not there": (
        put(*G, "fittings", 0, "done", 0, "trimmed", {"fornt": "1/2"}),
        "garments[0].fittings[0].done[0].trimmed.fornt"),
}  # fmt: skip


@pytest.mark.parametrize("name", BAD)
def test_what_cannot_be_used_is_named(
    name: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    change, field = BAD[name]
    file = everything()
    change(file)
    path = tmp_path / "bad.json"
    path.write_text(json.dumps(file), encoding="utf-8")
    code, said = told(path, capsys)
    assert code == UNUSABLE
    assert is_one_line(said)
    assert said.startswith(f"{field}: ")


def test_a_newer_format_is_named(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    path = tmp_path / "newer.json"
    path.write_text(json.dumps(worked() | {"format": "pins-to-seams/7"}), encoding="utf-8")
    assert "pins-to-seams/7" in told(path, capsys)[1]


def test_a_file_cut_short_is_refused(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    whole = DEMO[0].read_bytes().rstrip()
    path = tmp_path / "short.json"
    for end in range(0, len(whole), 50):
        path.write_bytes(whole[:end])
        code, said = told(path, capsys)
        assert code == UNUSABLE, end
        assert is_one_line(said), end
        assert said.startswith("short.json: "), end


NESTED = json.dumps(worked())[:-1].encode() + b', "x": ' + b"[" * 500 + b"]" * 500 + b"}"

JUNK = {
    "empty": b"",
    "no text": bytes(range(256)) * 20,
    "nothing but zeros": bytes(100),
    "a list": b"[]",
    "twins": b'{"format": "pins-to-seams/1", "format": "pins-to-seams/1"}',
    "nested without end": b"[" * 100_000,
    "nested too deep": NESTED,
}


@pytest.mark.parametrize("name", JUNK)
def test_junk_is_refused(name: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    path = tmp_path / "junk.json"
    path.write_bytes(JUNK[name])
    code, said = told(path, capsys)
    assert code == UNUSABLE
    assert is_one_line(said)


def test_a_file_with_a_mark_before_it_is_read(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    path = tmp_path / "marked.json"
    path.write_text(json.dumps(worked()), encoding="utf-8-sig")
    assert told(path, capsys) == (0, "")


def test_a_folder_and_a_missing_file_are_refused(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    for path in (tmp_path, tmp_path / "none.json", tmp_path / "none" / "none.json"):
        code, said = told(path, capsys)
        assert code == UNUSABLE
        assert is_one_line(said)


def test_a_bundle_without_the_client_is_refused(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    path = tmp_path / "bundle.zip"
    with zipfile.ZipFile(path, "w") as bundle:
        bundle.writestr("photos/one.jpg", b"x")
    code, said = told(path, capsys)
    assert (code, said) == (UNUSABLE, "bundle.zip: is a bundle without client.json\n")


def test_a_damaged_bundle_is_refused_or_read_whole(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    path = tmp_path / "bundle.zip"
    with zipfile.ZipFile(path, "w", zipfile.ZIP_DEFLATED) as bundle:
        bundle.writestr("client.json", json.dumps(worked()))
    whole = path.read_bytes()
    for place in range(0, len(whole), 17):
        path.write_bytes(whole[:place] + bytes([whole[place] ^ 0xFF]) + whole[place + 1 :])
        code, said = told(path, capsys)
        assert (code, said) == (0, "") or (code == UNUSABLE and is_one_line(said)), place
