"""Where there is little room: no number runs into another, no row is cut, the pins are in sight."""

import copy
from itertools import pairwise

import pytest

from tests.screens.fitting_pictures import GARMENT, NOON, drafted, metric, today
from tests.screens.folders import fill, open_changes

SHAPES = [("landscape", "normal"), ("portrait", "normal"),
          ("landscape", "largest"), ("portrait", "largest")]  # fmt: skip
SIDES = {"seam": "side", "side": "both", "level": "waist", "pinch": "0.5"}
LEFT_HIP = {"seam": "side", "side": "left", "level": "hip", "pinch": "1/4"}


@pytest.fixture
def folder(tmp_path):
    return tmp_path / "data"


@pytest.fixture
def changes_of(launch, folder):
    """``changes_of(document, screen, text)`` opens the changes of the one client there is."""

    def begin(document, screen="landscape", text="normal"):
        from core.settings import Settings, write_settings
        from screens.app import PinsToSeamsApp

        fill(folder, document)
        write_settings(folder, Settings(text=text))
        hand = launch(PinsToSeamsApp(folder, lambda: NOON), screen)
        open_changes(hand)
        hand.settle()
        return hand

    return begin


def large_in_cm(*pinned):
    """A skirt whose rounds have three digits and a decimal: 110.1 + 4.3 = 114.4 at the hip."""
    document = metric("cm", today(pins=list(pinned)))
    document["measurements"][0]["values"] = {"waist_girth": 98.4, "hip_girth": 110.1}
    garment = document["garments"][0]
    garment["ease"] = {"waist": 2.2, "hip": 4.3}
    for piece, waist, hip in zip(garment["layers"][0]["rings"][0]["pieces"], (30.6, 31.7),
                                 (31.1, 32.2), strict=True):  # fmt: skip
        piece["width"] = {"waist": waist, "hip": hip, "hem": hip + 1}
    return document


def gown(*pinned):
    document = drafted("fishtail_gown", today(pins=copy.deepcopy(list(pinned))))
    document["measurements"][0]["on"] = "2026-03-02"
    return document


def levels(hand):
    from screens.parts.levels import LevelsTable

    (table,) = hand.all(LevelsTable)
    return table


def lines_of(table):
    return list(reversed(table.ids.rows.children))


def in_sight(line, view):
    """Return how much of a row its list shows (pixels)."""
    low, top = line.to_window(0, line.y)[1], line.to_window(0, line.top)[1]
    bottom = view.to_window(0, view.y)[1]
    return max(0.0, min(top, bottom + view.height) - max(low, bottom))


def assert_no_row_is_cut(table):
    for line in lines_of(table):
        seen = in_sight(line, table.ids.view)
        assert seen < 1 or seen > line.height - 1, (line.row.label, seen, line.height)


def assert_numbers_stand_apart(table):
    from kivy.metrics import dp

    from screens.parts.words import Words

    for line in lines_of(table):
        words = [one for one in line.walk(restrict=True) if isinstance(one, Words)]
        cells = [one for one in words if one.text and not one.wraps]
        numbers = sorted(cells, key=lambda cell: cell.to_window(cell.x, 0)[0])
        assert numbers
        for cell, after in pairwise(numbers):
            assert cell.x + cell.needed_width + dp(4) <= after.x, (cell.text, after.text)


@pytest.mark.parametrize(("screen", "text"), SHAPES)
def test_no_number_of_a_level_runs_into_the_next_and_no_level_is_cut(changes_of, screen, text):
    from screens.fitting_page import Chosen

    hand = changes_of(large_in_cm(SIDES), screen, text)
    texts = hand.texts()
    assert {"110.1", "+ 4.3", "= 114.4", "114.6"} <= set(texts)
    assert_numbers_stand_apart(levels(hand))
    assert_no_row_is_cut(levels(hand))
    hand.app.room.beside("fitting", Chosen(garment=GARMENT, moment="read", pin=0))
    hand.settle()
    assert_numbers_stand_apart(levels(hand))
    assert_no_row_is_cut(levels(hand))


@pytest.mark.parametrize(("screen", "text"), SHAPES)
def test_of_many_levels_the_pinned_one_is_in_sight_and_the_stages_are_keys(
    changes_of, screen, text
):
    from screens.parts.stages import StageKey

    hand = changes_of(gown(LEFT_HIP), screen, text)
    table = levels(hand)
    hip = next(line for line in lines_of(table) if line.row.level == "hip")
    assert hip.row.live
    assert in_sight(hip, table.ids.view) > hip.height - 1
    assert_no_row_is_cut(table)
    keys = {key.text: key for key in hand.all(StageKey)}
    hand.tap(keys["Draft"])
    assert hand.app.root.current == "draft"


def test_without_pins_the_levels_have_the_room_of_the_pins(changes_of):
    hand = changes_of(gown())
    table = levels(hand)
    assert_no_row_is_cut(table)
    left_empty = hand.ids.near.height - table.height - hand.ids.no_pins.height
    assert left_empty < 120


def test_an_unread_pin_has_a_key_that_leads_to_it_and_nothing_is_sewn_before(changes_of):
    from screens.changes import ReadOffKey

    hand = changes_of(gown(LEFT_HIP, {"seam": "side", "side": "left", "level": "waist"}))
    assert hand.ids.to_sew.disabled
    assert hand.ids.to_sew.text == "Sew"
    (key,) = hand.all(ReadOffKey)
    hand.tap(key)
    assert hand.app.root.current == "fitting"
    page = hand.app.room.view.page
    assert page.moment == "read"
    assert page.body.pin.heading.startswith("Pin 2:")


def test_what_has_nothing_to_show_takes_no_space_in_the_list(changes_of):
    from kivy.metrics import dp

    hand = changes_of(gown(LEFT_HIP), "portrait")
    parts = list(reversed(hand.ids.list_view.children[0].children))
    shown = [part for part in parts if part.height]
    assert len(shown) < len(parts) - 4
    for one, below in pairwise(shown):
        assert one.y - below.top == pytest.approx(dp(8), abs=1)


@pytest.fixture
def sewing_of(launch, folder):
    """``sewing_of(step, screen, text)`` opens the demo's list at a step."""
    from tests.screens.folders import DEMO
    from tests.screens.sewing_pictures import go, show

    def begin(step, screen="portrait", text="normal"):
        hand = show(launch, folder, DEMO, screen, text=text)
        go(step)(hand)
        hand.settle()
        return hand

    return begin


@pytest.mark.parametrize("step", [6, 9], ids=["check", "trim"])
def test_at_the_sewing_table_every_row_is_whole_while_there_is_room(sewing_of, step):
    from screens.parts.sew_keys import SewGirth

    hand = sewing_of(step)
    rows = hand.all(SewGirth)
    assert rows
    for row in rows:
        assert in_sight(row, hand.ids.body.ids.main_view) > row.height - 1, row.row.label


@pytest.mark.parametrize("step", [4, 6, 8])
def test_with_the_largest_letters_no_row_is_cut_and_nothing_lies_on_the_progress(sewing_of, step):
    from screens.parts.sew_amount import SewAmount
    from screens.parts.sew_keys import SewGirth

    hand = sewing_of(step, text="largest")
    view = hand.ids.body.ids.main_view
    bottom = view.to_window(0, view.y)[1]
    for part in hand.all((SewGirth, SewAmount)):
        low, top = part.to_window(0, part.y)[1], part.to_window(0, part.top)[1]
        assert top <= bottom + 1 or low >= bottom - 1, part
    ids = hand.ids
    for name in (ids.whose, ids.place):
        assert not name.text or name.x + name.needed_width <= ids.progress.x or name.wraps


@pytest.mark.parametrize("screen", ["landscape", "portrait"])
def test_with_the_largest_letters_no_word_of_unlike_edges_is_broken(launch, folder, screen):
    from screens.parts.sew_table import SewTable
    from screens.parts.words import Words
    from tests.screens.sewing_pictures import go, show, unlike

    hand = show(launch, folder, unlike(), screen, text="largest")
    go(4)(hand)
    hand.settle()
    (table,) = hand.all(SewTable)
    words = [one for one in table.children if isinstance(one, Words)]
    assert "take in" in [one.text for one in words]
    for one in words:
        pieces = [part for line in one.lines() for word in line for part in word]
        assert [part.over for part in pieces] == one.text.split(), one.text


def test_a_sign_alone_stands_in_the_middle_of_its_key(sewing_of):
    from screens.parts.sew_marks import SewMark

    hand = sewing_of(1)
    (mark,) = [one for one in hand.ids.close.children if isinstance(one, SewMark)]
    assert abs(mark.center_x - hand.ids.close.center_x) < 1


def test_each_level_named_beside_her_stands_on_its_line_and_the_pinned_ones_are(launch, folder):
    from tests.screens.fitting_pictures import show

    waist = {"seam": "side", "side": "both", "level": "waist", "pinch": "3/8"}
    hand = show(launch, folder, gown(LEFT_HIP, waist), {"moment": "read", "pin": 0})
    hand.settle()
    drawn = hand.ids.desk.figure
    labels = {label.partition(",")[0]: name for name, label in drawn.worn.labels.items()}
    named = {words.text: words for words in drawn._words if words.text in labels}
    assert {"Hip", "Waist"} <= set(named)
    for text, words in named.items():
        levels_of_name = [y for name, y in drawn.worn.levels.items()
                          if drawn.worn.labels[name].partition(",")[0] == text]  # fmt: skip
        lines = [drawn._faces["front"].at((0, y))[1] for y in levels_of_name]
        assert min(abs(words.center_y - line) for line in lines) < 1, text
    assert not any(one.center_y - 24 < other.center_y < one.center_y
                   for one in named.values() for other in named.values())  # fmt: skip


@pytest.mark.parametrize(("screen", "text"), [("landscape", "normal"), ("portrait", "largest")])
def test_before_she_steps_in_both_columns_begin_alike_and_a_girths_name_has_two_lines_at_most(
    launch, folder, screen, text
):
    from screens.parts.fit_before import GirthLine
    from tests.screens.fitting_pictures import show

    hand = show(launch, folder, gown(), {"moment": "before"}, screen, text=text)
    hand.settle()
    ids = hand.ids.desk.panel.ids
    if hand.screen.wide:
        tops = [max(part.top for part in column.children if part.height)
                for column in (ids.left, ids.right)]  # fmt: skip
        assert abs(tops[0] - tops[1]) < 1
    girths = hand.all(GirthLine)
    assert "Upper arm, at the band, her left" in [line.row.label for line in girths]
    for line in girths:
        assert len(line.ids.label.lines()) <= 2, line.row.label
        assert line.ids.said.text.startswith("as drafted "), line.row.label


def test_a_point_of_the_hem_has_its_number_in_the_key_size_and_the_lit_one_is_in_sight(
    launch, folder
):
    from kivy.metrics import sp

    from screens import tokens
    from screens.parts.fit_hem import HemKey
    from tests.screens.fitting_pictures import HEM, client, show

    hem = HEM | {"points": HEM["points"][:1]}
    hand = show(launch, folder, client(today(hem=hem)), {"moment": "hem"}, text="largest")
    hand.settle()
    keys = {key.row.key: key for key in hand.all(HemKey)}
    sizes = {hand.size for line, hand in keys["front"].lettered(sp(200))
             if "".join(atom.over for word in line for atom in word) == "1"}  # fmt: skip
    assert sizes == {tokens.KEY}
    lit = next(key for key in keys.values() if key.row.lit)
    assert lit.row.key == "front left"
    assert in_sight(lit, hand.ids.desk.panel.ids.whole) > lit.height - 1


@pytest.mark.parametrize("text", ["normal", "largest"])
def test_tall_the_draft_shows_every_level_on_a_line_and_pieces_with_their_numbers(
    launch, folder, text
):
    from screens.parts.draft_table import DraftLine
    from screens.parts.piece_sheet import PieceSheet
    from tests.screens.fitting_pictures import show

    hand = show(launch, folder, gown(), {"moment": "before"}, "portrait", text=text)
    hand.app.room.open_client(hand.app.room.client_id, "draft", GARMENT)
    hand.settle()
    page = hand.screen.page
    lines = hand.all(DraftLine)
    assert len(lines) == 8
    assert not lines[0].owner.columns.folded
    (sheet,) = hand.all(PieceSheet)
    assert len(sheet.numbers) == 2 * len(lines)
    assert min(placed.edges[1] - placed.edges[0] for placed in sheet.placed) > 60
    hand.see(sheet)
    assert page.ids.whole.scroll_y < 1
    hem = next(line for line in lines if line.row.label == "Hem")
    hand.tap(hem.cells[0])
    hand.settle()
    assert hand.app.room.view.opened
    hem = next(line for line in hand.all(DraftLine) if line.row.label == "Hem")
    assert in_sight(hem, page.top("widths").ids.view) > hem.height - 1
    assert in_sight(hem, page.ids.whole) > hem.height - 1


def test_what_is_shorter_than_its_place_begins_at_the_top_however_it_was_scrolled(launch, folder):
    from tests.screens.fitting_pictures import show

    hand = show(launch, folder, gown(), {"moment": "before"}, text="largest")
    hand.app.room.go("settings")
    hand.app.room.view.open_part("look")
    hand.settle()
    (place,) = hand.ids.place.children
    view, first = place.ids.lines_view, place.ids.lines.children[-1]
    assert view.viewport_size[1] < view.height
    view.scroll_y = 0
    hand.settle()
    assert view.to_window(0, view.top)[1] - first.to_window(0, first.top)[1] < 40


def test_another_pin_is_shown_from_its_top(launch, folder):
    from tests.screens.fitting_pictures import PINS, client, show

    pins = copy.deepcopy(PINS)
    hand = show(launch, folder, client(today(pins=pins)), {"moment": "pin", "pin": 0},
                "portrait", text="largest")  # fmt: skip
    hand.settle()
    whole = hand.ids.desk.panel.ids.whole
    assert whole.viewport_size[1] > whole.height
    whole.scroll_y = 0
    hand.settle()
    spot = hand.ids.desk.figure.where("seam", "side", "hip", "left")
    hand.tap(hand.ids.desk.figure.to_window(*spot))
    hand.settle()
    assert whole.scroll_y == 1
    last = hand.ids.desk.panel.ids.last
    assert last.text.startswith("2:")
    assert in_sight(last, whole) > last.height - 1


def test_with_the_largest_letters_the_figure_is_still_there_while_she_reads_off(launch, folder):
    from kivy.metrics import dp

    from tests.screens.fitting_pictures import show

    hand = show(launch, folder, large_in_cm(SIDES), {"moment": "read", "pin": 0}, text="largest")
    hand.settle()
    figure, keys = hand.ids.desk.figure, hand.ids.desk.keys
    assert figure.parent is hand.ids.desk.__self__
    assert figure.height >= dp(180)
    assert figure.y >= keys.top
    assert min(key.height for key in keys.ids.block.children[0].children) >= dp(48)
