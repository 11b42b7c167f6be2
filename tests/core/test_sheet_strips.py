"""Move strips are true to size: what is measured on the printed page is what the plan moves.

Pages are drawn by another library (PDFium) at 400 dots to the inch and measured on the picture,
as she would with a ruler; only where to lay the ruler is taken from the layout.
"""

from itertools import pairwise
from pathlib import Path
from typing import Any

import numpy
import pytest
from hypothesis import given
from hypothesis import strategies as st

from core.changes.plan import make_plan
from core.file.fitting_file import FittingFile, load, read_document
from core.said.step_places import step_places
from core.sheet.paper import SIZES_MM, PaperSize
from core.sheet.strip_page import strip_pages
from core.sheet.strips import OVERLAP_MM, Strip, Tile, strips_of, tiles_of
from core.sheet.whole import sheet_pdf
from tests.benchmark import corset, fishtail_with_twelve_pins
from tests.garments import pinned, worked
from tests.sheet_reading import Grey, dark_middles, picture, read, written

ROOT = Path(__file__).resolve().parents[2]
DOTS = 400
PER_MM = DOTS / 25.4
TRUE_MM = 0.2
PAPERS: tuple[PaperSize, ...] = ("a4", "letter")


class Sized:
    """A paper of which only the size is asked."""

    def __init__(self, size: PaperSize) -> None:
        self.width, self.height = SIZES_MM[size]


def unlike() -> FittingFile:
    """Return the worked example with edges apart and unlike sides, pinned between levels too."""
    return read_document(pinned(
        worked(),
        {"seam": "side", "side": "left", "level": "waist",
         "edges": {"front": "-1/4", "back": "1/2"}},
        {"seam": "side", "side": "right", "level": "waist", "down": "14", "pinch": "3/8"},
        {"seam": "centre_back", "level": "hip", "pinch": "7/8"},
    ))  # fmt: skip


def files() -> list[Any]:
    demo = load(ROOT / "resources" / "demo" / "moss_green_sheath.json")
    return [
        pytest.param(demo, "pins", "in", id="demo"),
        pytest.param(fishtail_with_twelve_pins(), "both", "cm", id="fishtail"),
        pytest.param(corset(), "tape", "mm", id="corset"),
        pytest.param(unlike(), "pins", "in", id="unlike"),
    ]


every_file = pytest.mark.parametrize(("file", "lead", "unit"), files())


def laid(
    file: FittingFile, lead: Any, unit: Any, paper: PaperSize = "a4"
) -> tuple[bytes, list[tuple[int, list[Tile]]]]:
    """Return the sheet, and the strip pages with where they are in it."""
    plan = make_plan(file, lead=lead, unit=unit)
    content = sheet_pdf(plan, file, unit=unit, paper=paper, strips=True)
    strips = strips_of(step_places(plan, file, unit).layers, unit)
    pages = strip_pages(Sized(paper), strips)  # type: ignore[arg-type]
    first = len(read(content)) - len(pages)
    return content, [(first + number, tiles) for number, tiles in enumerate(pages)]


def row_at(shown: Grey, y: float, left: float, right: float) -> Grey:
    return shown[round(y * PER_MM), round(left * PER_MM) : round(right * PER_MM)]


def column_at(shown: Grey, x: float, top: float, bottom: float) -> Grey:
    return shown[round(top * PER_MM) : round(bottom * PER_MM), round(x * PER_MM)]


# The squares


@pytest.mark.parametrize("paper", PAPERS)
def test_every_strip_page_has_a_square_of_50_mm_and_one_of_2_inches(paper: PaperSize) -> None:
    content, pages = laid(unlike(), "pins", "in", paper)
    assert pages
    for number, _ in pages:
        shown = picture(content, number, DOTS)
        width, _ = SIZES_MM[paper]
        lines = [middle + 80.0 for middle in
                 dark_middles(row_at(shown, 20.0, 80.0, width), PER_MM)]  # fmt: skip
        assert len(lines) == 4
        assert lines[1] - lines[0] == pytest.approx(50.0, abs=TRUE_MM)
        assert lines[3] - lines[2] == pytest.approx(50.8, abs=TRUE_MM)
        for left, side in ((lines[0], 50.0), (lines[2], 50.8)):
            ends = dark_middles(column_at(shown, left + 5.0, 0.0, 70.0), PER_MM)
            assert len(ends) == 2
            assert ends[1] - ends[0] == pytest.approx(side, abs=TRUE_MM)
        text = read(content)[number].text
        assert "Print at 100 %" in text
        assert "50 mm" in text
        assert "2 in" in text


# The lines


@every_file
@pytest.mark.parametrize("paper", PAPERS)
def test_the_new_line_stands_off_the_old_one_by_the_plan_s_move(
    file: FittingFile, lead: Any, unit: Any, paper: PaperSize
) -> None:
    """Measured just beside every mark, level or between, across the strip."""
    content, pages = laid(file, lead, unit, paper)
    measured = 0
    for number, tiles in pages[:4]:
        shown = picture(content, number, DOTS)
        for tile in tiles:
            old = old_line(shown, tile)
            for mark in tile.strip.marks:
                down = mark.down + (1.2 if mark.down + 1.2 < tile.end - 0.5 else -1.2)
                if not tile.start + 1.0 < down < tile.end - 0.5:
                    continue
                move = tile.strip.line.at(down)
                if abs(move) < 1.5:  # the thick line lies over the dashed one
                    continue
                y = tile.y + down - tile.start
                left, right = tile.x + 4.0, tile.x + tile.strip.words_mm - 2.6
                found = [left + at - old
                         for at in dark_middles(row_at(shown, y, left, right), PER_MM)]  # fmt: skip
                nearest = min(found, key=lambda at: abs(at - move))
                assert nearest == pytest.approx(move, abs=TRUE_MM), (tile.strip.title, down)
                measured += 1
    assert measured >= 6


def old_line(shown: Grey, tile: Tile) -> float:
    """Return where the old stitching is: the darkest column about the middle of the dashes."""
    near = tile.x + tile.strip.old_line_mm
    top, bottom = (round(y * PER_MM) for y in (tile.y + 1, tile.y + tile.end - tile.start - 1))
    left = round((near - 1.4) * PER_MM)
    band = shown[top:bottom, left : round((near + 1.4) * PER_MM)] < 128
    share = band.mean(axis=0)
    dashed = numpy.flatnonzero((share > 0.45) & (share < 0.75))
    best = dashed if dashed.size else numpy.flatnonzero(share == share.max())
    return (left + float(best.mean()) + 0.5) / PER_MM


@every_file
def test_marks_stand_at_their_heights(file: FittingFile, lead: Any, unit: Any) -> None:
    content, pages = laid(file, lead, unit)
    measured = 0
    for number, tiles in pages[:3]:
        shown = picture(content, number, DOTS)
        for tile in tiles:
            inside = [mark for mark in tile.strip.marks
                      if tile.start + 2 < mark.down < tile.end - 2]  # fmt: skip
            if len(inside) < 2:
                continue
            x = tile.x + tile.strip.old_line_mm + (0.7 if inside[0].move <= 0 else -0.7)
            ys = [at + tile.y + 1 for at in dark_middles(
                column_at(shown, x, tile.y + 1, tile.y + tile.end - tile.start - 1), PER_MM)]
            for mark in inside:
                wanted = tile.y + mark.down - tile.start
                assert min(abs(y - wanted) for y in ys) < TRUE_MM or abs(mark.move) < 1.5
                measured += 1
    assert measured >= 3


@every_file
def test_every_line_of_the_plan_is_on_a_strip_with_its_amounts(
    file: FittingFile, lead: Any, unit: Any
) -> None:
    plan = make_plan(file, lead=lead, unit=unit)
    strips = strips_of(step_places(plan, file, unit).layers, unit)
    mark = 25.4 / 16 if unit == "in" else 0.1
    levels = file.garment(plan.garment).levels
    for move in plan.moves:
        if move.seam is None or abs(move.move) < mark / 2:
            continue
        down = levels[move.level].down
        assert any(
            abs(at.down - down) < 1e-6 and abs(at.move - move.move) < 1e-6
            and at.level == levels[move.level].label
            and strip.whose in ("", "both sides alike", f"her {move.side}")
            for strip in strips for at in strip.marks
        ), move  # fmt: skip


@every_file
def test_words_on_the_strips_name_levels_amounts_and_directions(
    file: FittingFile, lead: Any, unit: Any
) -> None:
    content, pages = laid(file, lead, unit)
    whole = read(content)
    for number, tiles in pages:
        text = " ".join(whole[number].text.split())
        for tile in tiles:
            assert tile.strip.title in text
            if tile.strip.whose:
                assert tile.strip.whose in text
            for mark in tile.strip.marks:
                if tile.start <= mark.down <= tile.end:
                    way, sign = ("in", "←") if mark.move < 0 else ("out", "→")
                    amount = written(abs(mark.move), unit)
                    told = "nothing" if amount == "0" else f"{way} {amount} {sign}"
                    assert f"{mark.level} {told}".strip() in text


# Which strips, and how they are cut


def strips(file: FittingFile, **how: Any) -> list[Strip]:
    plan = make_plan(file, **how)
    return strips_of(step_places(plan, file, "in").layers, "in")


def test_what_is_alike_shares_a_strip_and_what_is_not_has_its_own() -> None:
    found = {(strip.title, strip.whose, strip.edges) for strip in strips(unlike())}
    assert found == {
        ("Side seam", "her left", "front only"),
        ("Side seam", "her left", "back only"),
        ("Side seam", "her right", "front and back alike"),
        ("Centre back", "", "each half"),
    }


def test_both_sides_alike_are_one_strip() -> None:
    file = read_document(pinned(worked(), {"seam": "side", "level": "waist", "pinch": "3/8"}))
    (strip,) = strips(file)
    assert (strip.whose, strip.edges) == ("both sides alike", "front and back alike")


def test_marks_stand_every_two_inches_and_at_every_level() -> None:
    """The side is pinned at the waist, 16 1/2 down; it runs from the bust at 10 1/2 to 25."""
    file = read_document(pinned(worked(), {"seam": "side", "level": "waist", "pinch": "3/8"}))
    (strip,) = strips(file)
    inches = [(round(mark.down / 25.4, 4), mark.level) for mark in strip.marks]
    assert inches == [(10.5, "Bust"), (12.5, ""), (14.5, ""), (16.5, "Waist"), (18.5, ""),
                      (20.5, ""), (22.5, ""), (24.5, ""), (25.0, "Hip")]  # fmt: skip
    assert [mark.move for mark in strip.marks][3] == pytest.approx(-9.525)
    assert (strip.top, strip.bottom) == pytest.approx((10.5 * 25.4, 25 * 25.4))


def test_a_pin_between_the_levels_is_marked_where_it_stands() -> None:
    strip = next(strip for strip in strips(unlike()) if strip.whose == "her right")
    assert [(mark.down, mark.move) for mark in strip.marks if mark.level == "Pin"] == [
        (pytest.approx(14 * 25.4), pytest.approx(-9.525))]  # fmt: skip


@given(st.floats(20, 1600), st.floats(60, 260))
def test_pieces_cover_the_whole_strip_and_overlap(length: float, height: float) -> None:
    strip = strips(unlike())[0]
    longer = Strip(1, "Side seam", "", "", strip.line, 100.0, 100.0 + length, strip.marks)
    tiles = tiles_of(longer, height)
    assert (tiles[0].start, tiles[-1].end) == pytest.approx((100.0, 100.0 + length))
    for before, after in pairwise(tiles):
        assert before.end - after.start == pytest.approx(OVERLAP_MM)
        assert before.end - before.start <= height + 1e-6
    assert [tile.number for tile in tiles] == list(range(1, len(tiles) + 1))
    assert {tile.of for tile in tiles} == {len(tiles)}


@every_file
@pytest.mark.parametrize("paper", PAPERS)
def test_no_piece_lies_over_another_or_beyond_the_page(
    file: FittingFile, lead: Any, unit: Any, paper: PaperSize
) -> None:
    _, pages = laid(file, lead, unit, paper)
    width, height = SIZES_MM[paper]
    for _, tiles in pages:
        ends = 0.0
        for tile in tiles:
            assert tile.x >= ends
            ends = tile.x + tile.strip.width_mm
            assert ends <= width - 5
            assert tile.y + tile.end - tile.start <= height - 10


def test_crosses_of_a_join_are_at_the_same_height_of_the_seam() -> None:
    """Cross A is 5 mm from the end of one piece and 5 mm from the beginning of the next."""
    content, pages = laid(fishtail_with_twelve_pins(), "pins", "in")
    tiles = [(number, tile) for number, tiles in pages for tile in tiles if tile.strip.number == 1]
    (first_page, first), (second_page, second) = tiles[:2]
    found = []
    for number, tile in ((first_page, first), (second_page, second)):
        shown = picture(content, number, DOTS)
        x = tile.x + 4.6 - 1.2
        top = tile.y + (first.end - 12.0 - tile.start if tile is first else 0.4)
        ys = dark_middles(column_at(shown, x, top, top + 11.0), PER_MM)
        found.append({round(y + top - tile.y + tile.start, 2) for y in ys})
    assert any(abs(one - other) < TRUE_MM for one in found[0] for other in found[1])


def test_without_a_move_there_are_no_strips() -> None:
    assert strips(corset(), lead="pins") == []
