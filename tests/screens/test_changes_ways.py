"""What the changes lead to: another way of sharing, the pieces, the sheet, sewing, ease kept."""

import copy

import pypdfium2
import pytest

from core.changes.plan import make_plan
from core.file.fitting_file import read_document
from core.said.ways_told import ways_told
from tests.screens.folders import DEMO, DEMO_ID, fill
from tests.screens.kept import kept


def fitting_kept(tmp_path):
    return kept(tmp_path / "data", DEMO_ID)["garments"][0]["fittings"][0]


def cards(hand):
    from screens.changes_way import WayCard

    return {card.row.way: card for card in hand.all(WayCard)}


def minutes_said(plan):
    """The minutes that the opening step tells by itself."""
    return next(step.sum.split()[1] for step in plan.steps if step.group == "open")


def test_another_way_is_chosen_with_its_minutes_and_the_sewing_table_follows_it(
    changes, start, tmp_path
):
    hand = changes()
    assert not cards(hand)  # the pins lead: nothing is shared out
    hand.tap(hand.ids.lead_tape)
    file = read_document(copy.deepcopy(DEMO))
    for way, card in cards(hand).items():
        plan = make_plan(file, lead="tape", way=way)
        assert str(card.row.minutes) == minutes_said(plan)
        assert card.chosen == (way == "by_turns")
    assert {way: card.row.largest for way, card in cards(hand).items()} == {
        "by_turns": "1/2", "fewest": "5/8", "spread": "1/4"}  # fmt: skip
    assert cards(hand)["spread"].row.opens == (
        "side seam, centre back, front waist dart, back waist dart and lining")
    hand.tap(cards(hand)["spread"])
    assert cards(hand)["spread"].chosen
    assert fitting_kept(tmp_path)["way"] == "spread"
    spread = make_plan(file, lead="tape", way="spread")
    assert [row.number for row in hand.app.room.view.steps] == [
        str(step.order) for step in spread.steps]  # fmt: skip
    hand.tap(hand.ids.to_sew)
    assert hand.app.room.here == "sewing"
    assert hand.app.room.view.page.progress == f"1 of {len(spread.steps)}"
    hand.key("back")
    assert hand.app.room.here == "changes"
    hand.tap(cards(hand)["by_turns"])
    assert "way" not in fitting_kept(tmp_path)


def test_every_seam_that_moves_without_a_pin_is_named(changes):
    hand = changes()
    assert hand.ids.unpinned.text == "Moved without a pin: lining side seam. Try on first."
    hand.tap(hand.ids.lead_both)
    assert hand.ids.unpinned.text == (
        "Moved without a pin: centre back, front waist dart and lining side seam. Try on first.")


@pytest.mark.parametrize("screen", ["landscape", "portrait"])
def test_the_pieces_show_every_amount_of_the_plan_and_are_looked_at_closer(changes, screen):
    from screens.changes_pieces import MovesSheet
    from screens.parts.levels import LevelsTable

    hand = changes(screen)
    assert hand.all(LevelsTable)
    hand.tap(hand.ids.as_pieces)
    assert not hand.all(LevelsTable)
    (sheet,) = hand.all(MovesSheet)
    assert [(one.piece.outline.label, one.piece.side) for one in sheet.pieces] == [
        ("Front", "left"), ("Front", "right"), ("Back", "left"), ("Back", "right")]  # fmt: skip
    assert [amount.text for amount in sheet.pieces[0].piece.amounts] == [
        "in 1/8", "in 1/4", "out 5/8", "out 5/8"]  # fmt: skip
    assert {way for way, _ in sheet.pieces[0].parts} == {"take in", "let out"}
    assert {way for way, _ in sheet.pieces[1].parts} == {"take in"}
    from tests.screens.tape_pictures import find

    hand.tap(find(hand, "closer"))
    assert sheet.zoom == pytest.approx(1.5)
    x, y = sheet.to_window(*sheet.center)
    from tests.screens.tablet import Finger

    one, other = Finger(hand, x - 50, y).down(), Finger(hand, x + 50, y).down()
    one.move(x - 100, y)
    other.move(x + 100, y)
    assert sheet.zoom == pytest.approx(3.0, rel=0.05)
    one.up()
    other.up()
    hand.tap(hand.ids.as_list)
    assert hand.all(LevelsTable)


def test_the_sheet_is_written_where_she_says_and_has_the_list(changes, tmp_path, monkeypatch):
    from screens import changes_view
    from screens.parts.panel import AnswerKey, HereKey

    monkeypatch.setattr(changes_view, "beginning", lambda: tmp_path)
    hand = changes()
    hand.tap(hand.ids.to_sheet)
    hand.key("back")  # the way back closes the question first
    assert hand.app.room.here == "changes"
    assert not list(tmp_path.glob("*.pdf"))
    for paper, points in (("Letter", (612, 792)), ("A4", (595, 842))):
        hand.tap(hand.ids.to_sheet)
        hand.tap(next(key for key in hand.all(AnswerKey) if key.text == paper))
        hand.tap(hand.all(HereKey)[0])
        hand.wait()
        assert hand.ids.said.text.startswith("Written: Moss-green-wool-sheath")
        newest = max(tmp_path.glob("*.pdf"), key=lambda path: path.stat().st_mtime_ns)
        document = pypdfium2.PdfDocument(newest.read_bytes())
        assert document[0].get_size() == pytest.approx(points, abs=1)
        text = " ".join(document[page].get_textpage().get_text_range()
                        for page in range(len(document)))  # fmt: skip
        for step in make_plan(read_document(copy.deepcopy(DEMO))).steps:
            assert step.title in text
    assert len(list(tmp_path.glob("*.pdf"))) == 2


def test_a_sheet_that_is_cancelled_or_cannot_be_written_says_so(changes, tmp_path, monkeypatch):
    from core.errors import WorkroomError
    from screens import changes_sheet

    hand = changes()
    view = hand.app.room.view
    view.ask_sheet()
    view.answer("a4")
    folder = tmp_path / "not there"
    view.room.attempt(lambda: view._write_sheet(folder, view.chosen))
    hand.app.aside.cancel()
    hand.wait()
    assert view.said == ""

    def full(path, content):
        raise WorkroomError("The disk is full")

    monkeypatch.setattr(changes_sheet, "hand_out", full)
    view.room.attempt(lambda: view._write_sheet(folder, view.chosen))
    hand.wait()
    assert hand.ids.head.ids.trouble.text == "The disk is full."
    assert view.said == ""


def test_the_ease_as_pinned_is_kept_as_hers(changes, tmp_path):
    from screens.changes import PinnedEaseKey

    hand = changes()
    told = "Ease as pinned, for next time: bust 2, waist 1 1/2, high hip 1 1/8, hip 2 1/2."
    assert told in hand.texts()
    hand.tap(hand.all(PinnedEaseKey)[0])
    assert kept(tmp_path / "data", DEMO_ID)["client"]["ease"] == {
        "bust": "2", "waist": "1 1/2", "top_hip": "1 1/8", "hip": "2 1/2"}  # fmt: skip
    hand.tap(hand.ids.head.ids.undo)
    assert kept(tmp_path / "data", DEMO_ID) == DEMO


def test_what_is_ticked_off_shows_in_the_list_and_later_pins_are_told(changes, tmp_path):
    hand = changes()
    assert hand.ids.to_sew.text == "Sew, 11 steps"
    hand.tap(hand.ids.to_sew)
    for _ in range(4):
        hand.app.room.view.done()
    hand.key("back")
    assert [row.done for row in hand.app.room.view.steps] == [True] * 4 + [False] * 7
    assert hand.ids.to_sew.text == "Sew, 7 steps"
    assert hand.ids.sewn_otherwise.text == ""
    hand.app.room.view.take_pin(1)
    hand.app.room.view.step_pin(1)
    hand.frames(2)
    assert hand.ids.sewn_otherwise.text == (
        "Ticked off with other amounts than these: side seam, her left. Sew and tick it again.")
    hand.tap(hand.ids.to_sew)
    hand.app.room.view._go_to(3)
    hand.frames(130)  # what was ticked last can be taken back for two seconds
    assert "Sewn before, with other amounts" in hand.texts()
    hand.app.room.view.done()
    hand.key("back")
    assert hand.ids.sewn_otherwise.text == ""
    assert len(fitting_kept(tmp_path)["done"]) == 3  # the dart's two sides, and her left
    hand.app.room.change(lambda document: document["garments"][0]["fittings"][-1].update(pins=[
        pin for pin in document["garments"][0]["fittings"][-1]["pins"]
        if pin.get("seam") != "side"]))  # fmt: skip
    hand.frames(2)
    assert hand.ids.sewn_otherwise.text.startswith(
        "Ticked off, but not on this list any more: side seam, her left. It counts as sewn.")


def test_sides_pinned_unlike_are_evened_by_touch_and_the_list_follows(changes, tmp_path):
    from screens.changes_way import UnevenLine

    hand = changes()
    (line,) = hand.all(UnevenLine)
    assert line.row.words.endswith("Even: let out 3/16 each.")
    hand.tap(line.ids.even)
    pins = fitting_kept(tmp_path)["pins"]
    assert [(pin["side"], pin["gap"]) for pin in pins[4:]] == [("left", "3/8"), ("right", "3/8")]
    assert not hand.all(UnevenLine)
    assert any("Side seam, both sides alike" in text for text in hand.texts())


def test_a_shortage_stands_open_with_its_ways_out(changes, tmp_path):
    document = copy.deepcopy(DEMO)  # her hip more than it was: outside the band of what is given
    document["garments"][0]["fittings"][0]["measurements"]["hip_girth"] = "46"
    fill(tmp_path / "data", document)
    hand = changes()
    (short,) = hand.app.room.view.shortages
    assert short.startswith("Outer, hip: 1/4 short to let out; ")
    assert short in hand.texts()
    assert " or " in short


def test_a_step_tells_the_amounts_between_the_levels_with_its_sums(changes):
    hand = changes()
    row = next(row for row in hand.app.room.view.steps if "her left" in row.title)
    assert "Between the levels: in 3/16 at 13 1/4 down" in row.sum


def test_the_ways_of_a_plan_that_pins_lead_are_none():
    file = read_document(copy.deepcopy(DEMO))
    assert ways_told(file, make_plan(file), "by_turns", "in") == ()
