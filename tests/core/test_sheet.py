"""The printed sheet says what the plan says, whole and legible, whatever the names and sizes.

Every sheet is read back by another library (PDFium), as a reader or a printer would.
"""

import io
import json
import re
import subprocess
import sys
import zipfile
from collections.abc import Iterator
from fractions import Fraction
from pathlib import Path
from typing import Any

import pytest
from fontTools.pens.boundsPen import BoundsPen
from fontTools.ttLib import TTFont
from PIL import Image

from core.bundle.refusals import Cancelled
from core.changes.plan import make_plan
from core.file.fitting_file import FittingFile, load, read_document
from core.lengths import MM_PER_UNIT, Unit
from core.records.answer import Lead, Move, Plan
from core.said.step_places import step_places
from core.sheet.command import photos_beside
from core.sheet.paper import SIZES_MM, PaperSize
from core.sheet.typeface import CUTS, path_of, typeface
from core.sheet.whole import sheet_pdf
from tests.benchmark import corset, fishtail_with_twelve_pins
from tests.garments import gores, pinned, worked
from tests.sheet_reading import (
    Page,
    coloured,
    mark_mm,
    picture,
    read,
    running_text,
    written,
)

ROOT = Path(__file__).resolve().parents[2]
DEMO = ROOT / "resources" / "demo" / "moss_green_sheath.json"
PAPERS: tuple[PaperSize, ...] = ("a4", "letter")


def unlike_document(**fitting: Any) -> dict[str, Any]:
    """Return the worked example pinned in every way: edges apart, between levels, a fold."""
    return pinned(
        worked(),
        {"seam": "side", "side": "left", "level": "waist",
         "edges": {"front": "-1/4", "back": "1/2"}},
        {"seam": "side", "side": "right", "level": "waist", "down": "14", "pinch": "3/8"},
        {"dart": "back_dart", "side": "right", "level": "waist", "pinch": "1/8"},
        {"piece": "front", "side": "both", "level": "waist", "pinch": "1/4"},
        **fitting,
    )  # fmt: skip


def cases() -> Iterator[Any]:
    demo, fishtail = load(DEMO), fishtail_with_twelve_pins()
    leads: tuple[Lead, ...] = ("pins", "tape", "both")
    for lead in leads:
        yield pytest.param(demo, lead, "in", id=f"demo-{lead}")
    yield pytest.param(demo, "both", "cm", id="demo-cm")
    yield pytest.param(fishtail, "both", "in", id="fishtail-both")
    yield pytest.param(fishtail, "pins", "mm", id="fishtail-mm")
    yield pytest.param(corset(), "tape", "in", id="corset")
    yield pytest.param(read_document(unlike_document()), "pins", "in", id="unlike")


every_sheet = pytest.mark.parametrize(("file", "lead", "unit"), list(cases()))


def made(file: FittingFile, lead: Lead | None, unit: Unit = "in", **how: Any) -> tuple[Plan, bytes]:
    plan = make_plan(file, lead=lead, unit=unit)
    return plan, sheet_pdf(plan, file, unit=unit, **how)


def text_of(file: FittingFile, content: bytes) -> str:
    garment = file.garments[-1].name
    pages = read(content)
    head = [f"{garment} {file.client.name}"]
    return running_text(pages[:1]) + " " + running_text(pages[1:], head)


# A reader of written lengths, of this file's own

_WRITTEN = r"(?:\d+ )?\d+/\d+|\d+(?:\.\d+)?"


def mm_written(text: str, unit: Unit) -> float:
    return float(sum(Fraction(part) for part in text.split())) * MM_PER_UNIT[unit]


# What it says


@every_sheet
def test_every_step_is_there_with_its_number_and_all_its_words(
    file: FittingFile, lead: Lead, unit: Unit
) -> None:
    plan, content = made(file, lead, unit)
    text = text_of(file, content)
    at = text.find("The steps")
    for step in plan.steps:
        found = text.find(f"{step.order} {step.title}", at)
        assert found >= 0, step.title
        at = found
        until = text.find(f"{step.order + 1} {plan.steps[step.order].title}", at) if (
            step.order < len(plan.steps)) else len(text)  # fmt: skip
        here = text[at:until]
        if step.side is not None:
            assert f"her {step.side}" in here
        for sentence in re.split(r"(?<=[.?]) ", step.text)[1:]:
            bare = re.search(rf" (?:{_WRITTEN})\.$", sentence)
            told_in_table = bare and "old stitching" in step.text and "same" not in sentence
            assert told_in_table or sentence.rstrip(".") in here, sentence
        for caution in step.cautions:
            assert caution in here
        assert not step.line or f"Between the levels: {step.line}." in here


def of_step(plan: Plan, number: int, text: str) -> str:
    step = plan.steps[number]
    start = text.find(f"{step.order} {step.title}", text.find("The steps"))
    rest = text[start:]
    if number + 1 == len(plan.steps):
        return rest
    following = plan.steps[number + 1]
    return rest[: rest.find(f" {following.order} {following.title}", 1)]


@every_sheet
def test_a_seam_s_table_has_every_amount_of_the_plan(
    file: FittingFile, lead: Lead, unit: Unit
) -> None:
    """Level, height, direction and amount of each edge that moves, from the plan's own moves."""
    plan, content = made(file, lead, unit)
    text = text_of(file, content)
    places = step_places(plan, file, unit).places
    levels = file.garment(plan.garment).levels
    tables = 0
    for number, (step, place) in enumerate(zip(plan.steps, places, strict=True)):
        if place is None or place.what != "seam":
            continue
        tables += 1
        here = of_step(plan, number, text)
        side = step.side or ("left" if place.both else None)
        moves = [move for move in plan.moves
                 if (move.layer, move.seam, move.side) == (step.layer, place.name, side)
                 and abs(move.move) > mark_mm(unit) / 2]  # fmt: skip
        assert moves
        for level in {move.level for move in moves}:
            label = " ".join(levels[level].label.split())
            row = re.search(
                rf"{re.escape(label)} (?P<down>{_WRITTEN}) "
                rf"(?P<rest>(?:(?:take in|let out|stays|nothing)[ →|←]*(?:{_WRITTEN})? ?)+)", here)
            assert row is not None, (label, here)
            assert mm_written(row["down"], unit) == pytest.approx(
                levels[level].down, abs=mark_mm(unit) / 2 + 1e-6
            )
            told = [
                mm_written(amount, unit) * (-1 if way == "take in" else 1)
                for way, amount in re.findall(rf"(take in|let out)[ →|←]*({_WRITTEN})", row["rest"])
            ]
            here_moves = [move.move for move in moves if move.level == level]
            if len(told) == 1 and len(here_moves) == 2:
                told *= 2
            assert sorted(told) == pytest.approx(sorted(here_moves), abs=mark_mm(unit) / 2 + 1e-6)
    assert tables or lead == "tape" or not plan.steps


@every_sheet
def test_the_levels_table_has_body_ease_wanted_change_and_after(
    file: FittingFile, lead: Lead, unit: Unit
) -> None:
    plan, content = made(file, lead, unit)
    text = text_of(file, content)
    for row in plan.levels:
        if row.body is None or row.wanted is None:
            continue
        numbers = (row.body, row.ease, row.wanted, row.as_sewn)
        mark = mark_mm(unit)
        after = round(row.as_sewn / mark) * mark + round(row.planned / mark) * mark
        way = "take in" if row.planned < 0 else "let out"
        moves = round(row.planned / mark)
        change = f"{way} {written(abs(row.planned), unit)}" if moves else "nothing"
        cells = " ".join([*(written(mm, unit) for mm in numbers), change, written(after, unit)])
        place = rf"{re.escape(row.label)}, .*? her {row.side}" if row.side else re.escape(row.label)
        assert re.search(rf"{place} {re.escape(cells)} ", text), cells


@every_sheet
def test_what_follows_what_is_short_and_what_to_mind_are_all_told(
    file: FittingFile, lead: Lead, unit: Unit
) -> None:
    plan, content = made(file, lead, unit)
    text = text_of(file, content)
    for said in (*plan.warnings, *(entry.text for entry in plan.follows)):
        assert said in text
    assert any(row.short for row in plan.levels) <= ("Short of cloth, and the ways out" in text)


@every_sheet
def test_the_check_has_the_girth_to_be_and_room_to_write_what_is(
    file: FittingFile, lead: Lead, unit: Unit
) -> None:
    plan, content = made(file, lead, unit)
    text = text_of(file, content)
    for number, step in enumerate(plan.steps):
        if step.group != "baste and check" or "should be" not in step.text:
            continue
        here = of_step(plan, number, text).partition("what you have")[2]
        rows = [row for row in plan.levels if row.layer == step.layer and abs(row.planned) > 1e-6]
        told = re.findall(rf"({_WRITTEN}) [-+] ({_WRITTEN}) ({_WRITTEN})", here)
        assert [mm_written(after, unit) for _, _, after in told[: len(rows)]] == pytest.approx(
            [row.as_sewn + row.planned for row in rows], abs=mark_mm(unit) + 1e-6
        )


def test_the_head_names_client_garment_fitting_and_what_she_wore() -> None:
    file = load(DEMO)
    _, content = made(file, "pins")
    first = " ".join(read(content)[0].text.split())
    assert first.startswith("Moss green wool sheath for Ottoline Brackenwick (demo, invented)")
    assert "The changes as pinned." in first
    assert "Fitting basted, 2 March 2026" in first
    assert "the underwear she will wear with it; heel 2 1/2; heel of the day 2 1/2" in first
    assert "all in inches" in first


def test_her_measurements_say_how_they_changed() -> None:
    """Waist 33 on 9 February, 32 at the fitting; hip 44, then 44 1/2: so 1 less and 1/2 more."""
    _, content = made(load(DEMO), "pins")
    text = running_text(read(content))
    assert "Waist 32 2 March 2026 1 less (9 February 2026)" in text
    assert "Hip 44 1/2 2 March 2026 1/2 more (9 February 2026)" in text
    assert "Bust 40 2 March 2026 the same (9 February 2026)" in text


def test_the_first_measurement_ever_is_told_beside_the_last() -> None:
    document = json.loads(DEMO.read_text(encoding="utf-8"))
    document["measurements"].append({"on": "2025-01-05", "values": {"waist_girth": "30 1/2"}})
    file = read_document(document)
    _, content = made(file, "pins")
    text = running_text(read(content))
    assert "1 less (9 February 2026) 1 1/2 more (5 January 2025)" in text


# How it is printed


@pytest.mark.parametrize("paper", PAPERS)
def test_pages_have_the_size_that_was_asked_and_say_which_of_how_many(paper: PaperSize) -> None:
    _, content = made(fishtail_with_twelve_pins(), "both", paper=paper, strips=True)
    pages = read(content)
    assert len(pages) > 5
    for number, page in enumerate(pages, 1):
        assert (page.width, page.height) == pytest.approx(SIZES_MM[paper], abs=0.05)
        assert page.text.rstrip().endswith(f"{number} of {len(pages)}")


def all_kinds() -> list[Any]:
    return [
        pytest.param(load(DEMO), "pins", id="demo"),
        pytest.param(corset(), "tape", id="corset"),
        pytest.param(read_document(unlike_document()), "pins", id="unlike"),
        pytest.param(read_document(odd_names()), "pins", id="odd names"),
        pytest.param(read_document(unlike_document(stage="toile")), "pins", id="toile"),
    ]


LONG = "a seam that is called after every panel it passes on its way from the arm to the floor"
ODD = ("Zażółć 王小明 שלום مرحبا 😀 \x00\x07\u200b\u202e\ufeff Ångström \U0001f9f5 ﬁ Ⅷ "
       + "Long" * 60)  # fmt: skip


def odd_names() -> dict[str, Any]:
    """Return a document in which everything that she names is long, and full of odd signs."""
    document = unlike_document(worn={"foundation": ODD * 3, "heel": "2"}, stage=ODD)
    document["client"]["name"] = ODD
    garment = document["garments"][0]
    garment["name"] = LONG * 3 + ODD
    for level in garment["levels"]:
        level["label"] = f"{level['id']} {LONG} {ODD}"
    layer = garment["layers"][0]
    layer["label"] = ODD
    for seam in layer["rings"][0]["seams"]:
        seam["label"] = f"{seam['id']} {LONG} {ODD}"
    for piece in layer["rings"][0]["pieces"]:
        piece["label"] = f"{piece['id']} {LONG} {ODD}"
    return document


@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize(("file", "lead"), all_kinds())
def test_nothing_is_cut_off_at_the_edge_of_the_paper(
    file: FittingFile, lead: Lead, paper: PaperSize
) -> None:
    _, content = made(file, lead, paper=paper, strips=True)
    for number, page in enumerate(read(content)):
        assert page.signs
        for left, top, right, bottom in page.signs:
            assert -0.01 <= left <= right <= page.width + 0.01
            assert -0.01 <= top <= bottom <= page.height + 0.01
        shown = picture(content, number, 72)
        edge = round(5 / 25.4 * 72)  # no printer needs more than 5 mm
        for side in (shown[:edge], shown[-edge:], shown[:, :edge], shown[:, -edge:]):
            assert side.min() > 200


@pytest.mark.parametrize(("file", "lead"), all_kinds())
def test_a_black_and_white_printer_loses_nothing(file: FittingFile, lead: Lead) -> None:
    _, content = made(file, lead, strips=True)
    for number in range(len(read(content))):
        assert not coloured(content, number)


def overlapping(page: Page) -> list[tuple[float, float]]:
    """Return where a sign lies over another by more than half of itself."""
    found = []
    boxes = sorted(box for box in page.signs if box[2] - box[0] > 0.3 and box[3] - box[1] > 0.3)
    for index, one in enumerate(boxes):
        for other in boxes[index + 1 :]:
            if other[0] >= one[2]:
                break
            wide = min(one[2], other[2]) - max(one[0], other[0])
            tall = min(one[3], other[3]) - max(one[1], other[1])
            least = min((box[2] - box[0]) * (box[3] - box[1]) for box in (one, other))
            if wide > 0 and tall > 0 and wide * tall > 0.5 * least:
                found.append((one[0], one[1]))
    return found


@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize(("file", "lead"), all_kinds())
def test_no_words_are_written_over_others(
    file: FittingFile, lead: Lead, paper: PaperSize
) -> None:
    _, content = made(file, lead, paper=paper, strips=True)
    for number, page in enumerate(read(content), 1):
        assert overlapping(page) == [], number


def test_the_type_is_our_own_and_inside_the_file() -> None:
    _, content = made(load(DEMO), "pins")
    assert content.count(b"/FontFile2") == 2
    assert b"Helvetica" not in content
    assert b"PinsText" in content.replace(b"-", b"").replace(b" ", b"")


def test_a_viewer_is_asked_not_to_fit_it_to_the_page() -> None:
    assert b"/PrintScaling /None" in made(load(DEMO), "pins")[1]


@pytest.mark.parametrize("cut", CUTS)
def test_the_type_for_paper_has_the_shapes_of_the_type_on_the_screen(cut: Any) -> None:
    """The outlines are turned into another kind; fontTools measures both."""
    signs = frozenset("ABgq075/½⅝→□é")
    face = typeface(cut, signs)
    ours, original = TTFont(io.BytesIO(face.content)), TTFont(path_of(cut))
    for sign in signs:
        found = []
        for font in (ours, original):
            glyphs, name = font.getGlyphSet(), font.getBestCmap()[ord(sign)]
            pen = BoundsPen(glyphs)
            glyphs[name].draw(pen)
            found.append((*pen.bounds, glyphs[name].width))
        assert found[0] == pytest.approx(found[1], abs=0.002 * original["head"].unitsPerEm)
        assert face.widths[sign] == found[1][-1] / original["head"].unitsPerEm


def test_signs_the_type_lacks_are_replaced_and_the_rest_is_kept() -> None:
    file = read_document(odd_names())
    _, content = made(file, "pins")
    first = " ".join(read(content)[0].text.split())
    assert "Zażółć □□□" in first
    assert "Ångström □ fi" in first
    assert "\x07" not in first


# Unusual plans


def test_a_plan_without_steps_says_so() -> None:
    plan, content = made(corset(), "pins")
    assert plan.steps == ()
    assert "The steps Nothing is to be moved." in running_text(read(content))


def test_a_garment_without_a_fitting_says_so() -> None:
    _, content = made(corset(), "tape")
    assert "Fitting none yet: compared as drafted" in running_text(read(content))


def test_a_toile_s_new_widths_are_on_the_sheet() -> None:
    file = read_document(unlike_document(stage="toile"))
    plan, content = made(file, "pins")
    text = text_of(file, content)
    assert "The draft for the real cloth." in text
    for step in plan.steps:
        assert step.text in text


def test_very_many_steps_are_all_there() -> None:
    sewn = {"bust": 60.0, "waist": 60.0, "hip": 60.0}
    seams = [{"id": f"seam_{number}", "label": f"Gore seam {number}", "turn": 1}
             for number in range(50)]  # fmt: skip
    file = read_document(gores(sewn, {"bust": 30, "waist": 30, "hip": 30}, seams))
    plan, content = made(file, "tape", strips=True)
    assert len(plan.steps) > 50
    text = text_of(file, content)
    assert all(f"{step.order} {step.title}" in text for step in plan.steps)


def test_a_seam_that_is_there_under_the_same_name_twice_keeps_its_own_amounts() -> None:
    """Two seams called alike: the steps must not be told apart by their titles."""
    document = gores(
        {"bust": 40.0, "waist": 40.0}, {"bust": 40.0, "waist": 40.0},
        [{"id": "one", "label": "Panel seam"}, {"id": "two", "label": "Panel seam"}],
    )  # fmt: skip
    pinned(document, {"seam": "one", "level": "waist", "pinch": "1/4"},
           {"seam": "two", "side": "left", "level": "waist", "pinch": "3/8"})  # fmt: skip
    file = read_document(document)
    plan = make_plan(file)
    told = {place.name: [move for row in place.rows for move in row.moves]
            for place in step_places(plan, file, "in").places
            if place is not None and place.what == "seam"}  # fmt: skip
    assert told["one"] == pytest.approx([-6.35, -6.35])
    assert told["two"] == pytest.approx([-9.525, -9.525])


@every_sheet
def test_every_seam_and_dart_step_is_known_for_what_it_is(
    file: FittingFile, lead: Lead, unit: Unit
) -> None:
    plan = make_plan(file, lead=lead, unit=unit)
    found = step_places(plan, file, unit)
    moved: set[Any] = set()
    for step, place in zip(plan.steps, found.places, strict=True):
        if step.group == "darts" or ("old stitching" in step.text and step.group != "mark"):
            assert place is not None, step.title
            moved.add((place.plan.work.layer.id, place.name))
    told = {(move.layer, _place_of(move)) for move in plan.moves
            if abs(move.move) > mark_mm(unit) / 2}  # fmt: skip
    assert told <= moved


def _place_of(move: Move) -> str:
    return move.seam or move.dart or move.edge


# Photos


def grey_photo(width: int = 800, height: int = 1000) -> bytes:
    written = io.BytesIO()
    Image.new("RGB", (width, height), (120, 120, 120)).save(written, "JPEG")
    return written.getvalue()


def with_photos() -> FittingFile:
    return read_document(unlike_document(photos=[
        {"file": "photos/a.jpg", "view": "back",
         "marks": [{"x": 0.5, "y": 0.25, "text": "drags to her left"}, {"x": 0.8, "y": 0.8}]},
        {"file": "photos/b.jpg", "view": "front"},
        {"file": "photos/c.jpg"}, "no photo", {"view": "none"},
    ]))  # fmt: skip


def test_photos_are_there_with_their_marks_and_what_the_marks_say() -> None:
    file = with_photos()
    _, content = made(file, "pins", photo_of=lambda name: grey_photo())
    pages = read(content)
    shown = [image for page in pages for image in page.pictures]
    assert len(shown) == 3
    marked = next(image.convert("L") for image in shown
                  if image.convert("L").getextrema()[0] < 100)  # fmt: skip
    x, y = marked.width // 2, marked.height // 4
    ring = marked.crop((x - 60, y - 60, x + 60, y + 60))
    assert ring.getextrema()[0] < 60  # the dark of the ring
    assert ring.getextrema()[1] > 220  # the light in it
    assert marked.getpixel((40, marked.height - 40)) == pytest.approx(120, abs=6)
    assert "Photos Back 1 drags to her left Front" in running_text(pages)


def test_a_photo_that_is_missing_or_broken_is_named_and_stops_nothing() -> None:
    photos = {"photos/a.jpg": None, "photos/b.jpg": b"no picture", "photos/c.jpg": grey_photo()}
    _, content = made(with_photos(), "pins", photo_of=photos.__getitem__)
    pages = read(content)
    text = running_text(pages)
    assert "This photo is not at hand here." in text
    assert "The original is untouched" in text
    assert sum(len(page.pictures) for page in pages) == 1


def test_photos_of_a_bundle_are_found_in_it(tmp_path: Path) -> None:
    bundle = tmp_path / "client.zip"
    with zipfile.ZipFile(bundle, "w") as written:
        written.writestr("client.json", json.dumps(with_photos().data))
        written.writestr("photos/a.jpg", grey_photo())
    assert photos_beside(bundle)("photos/a.jpg") == grey_photo()
    assert photos_beside(bundle)("photos/b.jpg") is None


@pytest.mark.parametrize("name", ["../secret.jpg", "/etc/passwd", "photos/../../secret.jpg",
                                  "C:\\secret.jpg", "photos/link.jpg", "", "photos"])  # fmt: skip
def test_no_file_outside_its_folder_is_taken_for_a_photo(tmp_path: Path, name: str) -> None:
    folder = tmp_path / "client"
    (folder / "photos").mkdir(parents=True)
    (tmp_path / "secret.jpg").write_bytes(b"secret")
    (folder / "photos" / "link.jpg").symlink_to(tmp_path / "secret.jpg")
    (folder / "photos" / "own.jpg").write_bytes(b"own")
    found = photos_beside(folder / "client.json")
    assert found(name) is None
    assert found("photos/own.jpg") == b"own"


# How it is made


def test_progress_is_told_to_the_end_and_the_work_can_be_stopped() -> None:
    file = load(DEMO)
    plan = make_plan(file)
    heard: list[tuple[int, int]] = []
    sheet_pdf(plan, file, strips=True, told=lambda done, of: heard.append((done, of)))
    assert [done for done, _ in heard] == list(range(1, heard[0][1] + 1))

    def stop(done: int, of: int) -> None:
        if done == 3:
            raise Cancelled("Stopped.")

    with pytest.raises(Cancelled):
        sheet_pdf(plan, file, told=stop)


def test_the_same_plan_gives_the_same_file() -> None:
    assert made(load(DEMO), "both", strips=True)[1] == made(load(DEMO), "both", strips=True)[1]


def test_the_pdf_library_is_loaded_only_when_a_sheet_is_made() -> None:
    code = ("import sys, core.sheet.whole, core.sheet.command, core.said.spoken\n"
            "sys.exit(any(name in sys.modules for name in ('fpdf', 'fontTools')))")  # fmt: skip
    subprocess.run([sys.executable, "-c", code], cwd=ROOT, check=True)


def run(*words: str) -> subprocess.CompletedProcess[str]:
    return subprocess.run([sys.executable, "-OO", "main.py", "sheet", *words], cwd=ROOT,
                          capture_output=True, text=True, check=False)  # fmt: skip


def test_the_command_writes_the_sheet_even_without_assertions(tmp_path: Path) -> None:
    out = tmp_path / "sheet.pdf"
    done = run(str(DEMO), str(out), "--paper", "letter", "--strips", "--lead", "both",
               "--unit", "cm")  # fmt: skip
    assert (done.returncode, done.stdout, done.stderr) == (0, "", "")
    pages = read(out.read_bytes())
    assert pages[0].width == pytest.approx(215.9, abs=0.05)
    assert "all in centimetres" in pages[0].text
    assert any("Move strips, full size" in page.text for page in pages)


def test_the_command_says_in_a_line_what_is_wrong(tmp_path: Path) -> None:
    for words in ([str(tmp_path / "none.json"), str(tmp_path / "x.pdf")],
                  [str(DEMO), str(tmp_path / "no folder" / "x.pdf")],
                  [str(DEMO), str(tmp_path / "x.pdf"), "--garment", "none"]):  # fmt: skip
        done = run(*words)
        assert done.returncode == 2
        assert len(done.stderr.splitlines()) == 1
