"""The draft by touch: from a garment's kind to numbers on the cloth, each change kept at once."""

import copy
import json
from pathlib import Path

import pytest

from screens.parts.draft_chosen import Opened
from tests.screens.folders import DEMO, DEMO_ID, another, fill

GARMENT = DEMO["garments"][0]["id"]
DRAFTS = Path(__file__).parents[1] / "data" / "drafts"


def open_draft(hand, garment=GARMENT, client=DEMO_ID):
    assert hand.app.room.open_client(client, "draft", garment)
    hand.settle()
    return hand.app.room.view


def stored(hand, client=DEMO_ID):
    """The client's file as it lies on the disk, read by a second store's eyes."""
    return hand.app.room.store.read(client)


def front(hand, client=DEMO_ID, garment=0, layer=0):
    return stored(hand, client)["garments"][garment]["layers"][layer]["rings"][0]["pieces"][0]


def cells(hand, level):
    """The cut widths of a level of the table, from front to back."""
    from screens.parts.draft_table import DraftLine

    (line,) = [line for line in hand.all(DraftLine) if line.row.label == level]
    return line.cells


def sums(hand, level):
    """The height, the body and the ease of a level."""
    from screens.parts.draft_table import DraftLine

    (line,) = [line for line in hand.all(DraftLine) if line.row.label == level]
    return line.sums


def sheet(hand):
    from screens.parts.sum_sheet import SumSheet

    (found,) = hand.all(SumSheet)
    return found.ids


def press(hand, text):
    """Touch the key with this text."""
    from screens.parts.press import Press

    (key,) = [key for key in hand.all(Press) if key.text == text and not key.disabled]
    hand.tap(key)
    hand.settle()


def touch(hand, words):
    """Touch the cell, the row or the term that says this."""
    from kivy.uix.behaviors import ButtonBehavior

    from screens.parts.words import Words

    found = [
        button for button in hand.all(ButtonBehavior)
        if any(isinstance(part, Words) and part.text == words
               for part in button.walk(restrict=True))
    ]  # fmt: skip
    hand.tap(found[0])
    hand.settle()


def keys(hand, *signs):
    from screens.parts.keypad import Key

    for sign in signs:
        (key,) = [key for key in hand.all(Key) if key.sign == sign]
        hand.tap(key)
    hand.settle()


def pieces(hand):
    from screens.parts.piece_sheet import PieceSheet

    (found,) = hand.all(PieceSheet)
    return found


def number_on(hand, piece, level):
    """The number that stands on a piece's level line."""
    (found,) = [one for one in pieces(hand).numbers if (one.piece, one.level) == (piece, level)]
    return found


# -- a width ------------------------------------------------------------------


def test_a_width_is_stepped_and_stays(start, tmp_path):
    hand = start()
    open_draft(hand)
    hand.tap(cells(hand, "Waist")[0])
    hand.settle()
    assert sheet(hand).title.text == "Front at the waist"
    hand.tap(sheet(hand).more)
    hand.settle()
    assert front(hand)["width"]["waist"] == "10 7/8"  # 10 3/4 and an eighth
    assert cells(hand, "Waist")[0].text == "10 7/8"
    assert number_on(hand, "front", "waist").words == "10 7/8"
    again = start("portrait", hand.app.entry.folder)
    open_draft(again)
    assert cells(again, "Waist")[0].text == "10 7/8"


def test_the_open_width_is_lit_in_the_table_and_on_its_piece(start):
    hand = start()
    open_draft(hand)
    hand.tap(cells(hand, "Waist")[1])
    hand.settle()
    assert [cell.lit for cell in cells(hand, "Waist")] == [False, True]
    assert tuple(pieces(hand).lit) == ("back", "waist")


def test_the_sum_has_every_term_with_its_name(start):
    hand = start()
    open_draft(hand)
    hand.tap(cells(hand, "Waist")[0])
    hand.settle()
    terms = [(term.row.sign, term.row.words, term.row.name)
             for term in reversed(sheet(hand).terms.children)]  # fmt: skip
    # 33 / 4 + 1 / 4 + a quarter in front + the dart's 1 + the seam's 1 = 10 3/4
    assert terms == [("", "8 1/4", "waist 33 ÷ 4"), ("+", "1/4", "ease 1 ÷ 4"),
                     ("+", "1/4", "front is more"), ("+", "1", "dart"), ("+", "1", "side seam")]
    assert sheet(hand).result.row.words == "10 3/4"
    assert sheet(hand).result.row.caption == "from the fold"


def test_a_width_is_typed_and_the_pieces_follow_before_she_is_done(start):
    hand = start()
    open_draft(hand)
    hand.tap(cells(hand, "Waist")[0])
    hand.tap(sheet(hand).type)
    hand.settle()
    keys(hand, "1", "1", "1/2")
    assert number_on(hand, "front", "waist").words == "11 1/2"
    assert front(hand)["width"]["waist"] == "10 3/4"  # nothing is kept yet
    press(hand, "Done")
    assert front(hand)["width"]["waist"] == "11 1/2"
    assert sheet(hand).note.text == "Set by hand. Worked out it is 10 3/4."


def test_half_a_number_is_kept_when_she_touches_the_next_one(start):
    hand = start()
    open_draft(hand)
    hand.tap(cells(hand, "Waist")[0])
    hand.tap(sheet(hand).type)
    hand.settle()
    keys(hand, "1", "2")
    hand.tap(cells(hand, "Waist")[1])
    hand.settle()
    assert front(hand)["width"]["waist"] == "12"
    assert sheet(hand).title.text == "Back at the waist"


def test_digits_of_a_real_keyboard_type_the_open_width(start):
    hand = start()
    open_draft(hand)
    hand.tap(cells(hand, "Waist")[0])
    hand.settle()
    for key in ("1", "2", "\b", "1", "enter"):
        hand.key(key)
    hand.settle()
    assert front(hand)["width"]["waist"] == "11"
    hand.key("-")
    hand.settle()
    assert front(hand)["width"]["waist"] == "10 7/8"


def test_a_width_below_its_allowances_is_refused_in_words(start):
    hand = start()
    open_draft(hand)
    hand.tap(cells(hand, "Waist")[0])
    hand.tap(sheet(hand).type)
    hand.settle()
    keys(hand, "1")
    assert cells(hand, "Waist")[0].text == "10 3/4"
    press(hand, "Done")
    assert "The draft is as it was" in hand.ids.head.ids.trouble.text
    assert front(hand)["width"]["waist"] == "10 3/4"
    assert cells(hand, "Waist")[0].text == "10 3/4"


def test_a_change_is_taken_back_and_done_again_with_its_number_open(start):
    hand = start()
    open_draft(hand)
    hand.tap(cells(hand, "Waist")[0])
    hand.tap(sheet(hand).more)
    hand.tap(cells(hand, "Hip")[1])
    hand.settle()
    hand.tap(hand.ids.head.ids.undo)
    hand.settle()
    assert front(hand)["width"]["waist"] == "10 3/4"
    assert sheet(hand).title.text == "Front at the waist"
    hand.tap(hand.ids.head.ids.redo)
    hand.settle()
    assert front(hand)["width"]["waist"] == "10 7/8"


def test_what_was_set_by_hand_goes_back_to_what_is_worked_out(start):
    hand = start()
    open_draft(hand)
    hand.tap(cells(hand, "Waist")[0])
    hand.tap(sheet(hand).more)
    hand.settle()
    assert cells(hand, "Waist")[0].row.hers
    press(hand, "As worked out")
    assert front(hand)["width"]["waist"] == "10 3/4"
    assert not cells(hand, "Waist")[0].row.hers


def test_her_left_is_made_wider_than_her_right(start):
    hand = start()
    open_draft(hand)
    hand.tap(cells(hand, "Hip")[0])
    hand.tap(sheet(hand).unfold)
    hand.settle()
    press(hand, "Left and right apart")
    hand.tap(sheet(hand).more)
    hand.settle()
    assert front(hand)["width"]["hip"] == {"left": "12 3/4", "right": "12 5/8"}
    fronts = [one for one in pieces(hand).pieces if one.label.startswith("Front")]
    assert [(one.label, one.note) for one in fronts] == [
        ("Front, her left", "cut one"), ("Front, her right", "cut one")]  # fmt: skip
    number = number_on(hand, "front:right", "hip")
    assert number.words == "12 5/8"
    hand.tap(pieces(hand).to_window(number.x, number.y))
    hand.tap(sheet(hand).less)
    hand.settle()
    assert front(hand)["width"]["hip"] == {"left": "12 3/4", "right": "12 1/2"}


# -- what a sum is made of ----------------------------------------------------


def test_a_term_leads_to_the_dart_it_stands_for(start):
    hand = start()
    open_draft(hand)
    hand.tap(cells(hand, "Waist")[0])
    hand.settle()
    touch(hand, "dart")
    assert sheet(hand).title.text == "Front waist dart at the waist"
    hand.tap(sheet(hand).more)
    hand.settle()
    assert front(hand)["darts"][0]["take_up"]["waist"] == "1 1/8"
    assert front(hand)["width"]["waist"] == "10 7/8"  # cut wider, finished as before
    assert hand.app.room.view.rows[1].finished == "34"


def test_a_term_leads_to_the_seam_and_its_allowance(start):
    hand = start()
    open_draft(hand)
    hand.tap(cells(hand, "Waist")[0])
    hand.settle()
    touch(hand, "side seam")
    hand.tap(sheet(hand).less)
    hand.settle()
    seam = stored(hand)["garments"][0]["layers"][0]["rings"][0]["seams"][0]
    assert seam["allowance"] == "7/8"
    assert front(hand)["width"]["waist"] == "10 5/8"


def test_the_ease_of_a_level_changes_front_and_back(start):
    hand = start()
    open_draft(hand)
    hand.tap(sums(hand, "Waist")[2])
    hand.settle()
    assert sheet(hand).title.text == "Ease at the waist"
    hand.tap(sheet(hand).type)
    hand.settle()
    keys(hand, "2", "whole")
    press(hand, "Done")
    assert stored(hand)["garments"][0]["ease"]["waist"] == "2"
    # a quarter of the inch more in each: 10 3/4 + 1/4, 11 3/4 + 1/4
    assert [cell.text for cell in cells(hand, "Waist")] == ["11", "12"]


def test_ease_is_made_less_than_the_body(start):
    hand = start()
    open_draft(hand)
    hand.tap(sums(hand, "Waist")[2])
    hand.tap(sheet(hand).unfold)
    hand.settle()
    press(hand, "Less than the body")
    assert stored(hand)["garments"][0]["ease"]["waist"] == "-1"
    assert sums(hand, "Waist")[2].text == "- 1"


def test_ease_is_typed_as_a_share_of_the_girth(start):
    hand = start()
    open_draft(hand)
    hand.tap(sums(hand, "Waist")[2])
    hand.tap(sheet(hand).unfold)
    hand.settle()
    press(hand, "As a share of the girth")
    keys(hand, "5")
    assert sheet(hand).result.children[1].text == "5 %"
    press(hand, "Done")
    assert stored(hand)["garments"][0]["ease"]["waist"] == "5%"
    # a twentieth of 32 is 1 19/32, and 32 and that is wanted
    assert sums(hand, "Waist")[2].text == "+ 1 19/32"


def test_a_height_is_changed(start):
    hand = start()
    open_draft(hand)
    hand.tap(sums(hand, "Hem")[0])
    hand.settle()
    hand.tap(sheet(hand).more)
    hand.settle()
    assert stored(hand)["garments"][0]["levels"][4]["down"] == "40 5/8"


def test_the_body_leads_to_the_tape_at_that_measurement(start):
    hand = start()
    open_draft(hand)
    hand.tap(sums(hand, "Hip")[1])
    hand.settle()
    room = hand.app.room
    assert (room.here, room.view.chosen.number.measurement) == ("tape", "hip_girth")
    room.back()
    hand.settle()
    assert room.here == "draft"


def test_a_number_on_a_piece_opens_its_sum(start):
    hand = start()
    open_draft(hand)
    number = number_on(hand, "back", "hip")
    hand.tap(pieces(hand).to_window(number.x, number.y))
    hand.settle()
    assert sheet(hand).title.text == "Back at the hip"


def test_a_dart_on_a_piece_opens_what_it_takes_up(start):
    hand = start()
    open_draft(hand)
    sheet_of_pieces = pieces(hand)
    placed = next(one for one in sheet_of_pieces.placed if one.piece.id == "back")
    ((_, outline),) = placed.piece.darts
    bottom = max(outline, key=lambda point: point[1])
    x, y = placed.at(bottom)
    hand.tap(sheet_of_pieces.to_window(x, y + 20))
    hand.settle()
    assert sheet(hand).title.text == "Back waist dart at the waist"
    assert sheet_of_pieces.lit_dart == "back_waist"


def test_a_flounce_is_drawn_to_scale_and_follows_what_she_types(start):
    hand = start()
    document = json.loads((DRAFTS / "3_fishtail_gown.json").read_text(encoding="utf-8"))
    hand.app.room.add_client(document, "draft", document["garments"][-1]["id"])
    hand.settle()
    press(hand, "Details")
    touch(hand, "Lining flounce")
    press(hand, "Done")  # the name stays
    cells_of = details_of(hand, "Lining flounce")
    hand.tap(cells_of["deep"])
    hand.settle()
    assert [piece.label for piece in pieces(hand).pieces] == ["Lining flounce"]
    left, right = pieces(hand).pieces[0].across
    hand.tap(sheet(hand).more)
    hand.settle()
    part = stored(hand, document["client"]["id"])["garments"][-1]["joined"][0]
    assert part["depth"] == "21 5/8"
    # half a circle is as wide as twice its outer radius: an eighth deeper, a quarter wider
    wider = pieces(hand).pieces[0].across
    assert (wider[1] - wider[0]) - (right - left) == pytest.approx(25.4 / 4, abs=0.1)


def details_of(hand, name):
    """The numbers of a part in the details, by their captions."""
    from screens.parts.draft_list import DetailLine

    (line,) = [line for line in hand.all(DetailLine) if line.row.name.words == name]
    return {cell.row.caption: cell for cell in line.ids.cells.children}


def test_a_seam_is_kept_more_inside_and_asked_later(start):
    hand = start()
    open_draft(hand)
    press(hand, "Details")
    hand.tap(details_of(hand, "Centre back")["turn"])
    hand.settle()
    hand.tap(sheet(hand).type)
    hand.settle()
    keys(hand, "4")
    press(hand, "Done")
    seams = stored(hand)["garments"][0]["layers"][0]["rings"][0]["seams"]
    assert seams[1]["turn"] == 4


def test_a_lining_is_taken_off_and_put_on_again(start):
    hand = start()
    document = copy.deepcopy(DEMO)
    document["client"] = another(8)["client"]
    document["garments"][0]["fittings"] = []
    fill_here(hand, document)
    open_draft(hand, client=document["client"]["id"])
    press(hand, "Details")
    touch(hand, "Take off")
    layers = stored(hand, document["client"]["id"])["garments"][0]["layers"]
    assert [layer["id"] for layer in layers] == ["outer"]
    touch(hand, "Put on: Lining")
    again = stored(hand, document["client"]["id"])["garments"][0]["layers"]
    assert again == document["garments"][0]["layers"]


def test_a_draft_is_worked_out_again_from_her_tape_of_now(start):
    hand = start()
    document = copy.deepcopy(DEMO)
    document["client"] = another(8)["client"]
    document["garments"][0]["fittings"] = []
    document["measurements"][0]["values"]["waist_girth"] = "32"
    fill_here(hand, document)
    open_draft(hand, client=document["client"]["id"])
    hand.tap(cells(hand, "Bust")[0])
    hand.tap(sheet(hand).more)
    hand.settle()
    press(hand, "Work out the draft")
    # the tape of now has 32 at the waist: 8 + 1/4 + 1/2 + 1 + 1, her front arc being 17
    assert cells(hand, "Waist")[0].text == "10 3/4"
    # back: 8 + 1/4 - 1/2 + 1 + 1 + 1 1/2, where 33 had given 11 3/4
    assert cells(hand, "Waist")[1].text == "11 1/4"
    assert hand.app.room.view.rows[1].mark == "agrees"
    # what she set by hand stays: 11 7/8 and an eighth
    assert cells(hand, "Bust")[0].text == "12"


def test_a_fitted_draft_is_not_worked_out_again_and_says_why(start):
    hand = start()
    open_draft(hand)
    press(hand, "Work out the draft")
    assert "has been fitted" in hand.ids.head.ids.trouble.text
    assert stored(hand)["garments"][0]["layers"] == DEMO["garments"][0]["layers"]


def test_the_lining_has_its_own_table_and_pieces(start):
    hand = start()
    open_draft(hand)
    press(hand, "Lining")
    # its side seam is a quarter narrower: 10 3/4 less 1/4
    assert cells(hand, "Waist")[0].text == "10 1/2"
    assert number_on(hand, "front", "waist").words == "10 1/2"
    hand.tap(cells(hand, "Waist")[0])
    hand.tap(sheet(hand).more)
    hand.settle()
    assert front(hand, layer=1)["width"]["waist"] == "10 5/8"
    assert front(hand)["width"]["waist"] == "10 3/4"


# -- the check before cutting -------------------------------------------------


def test_the_check_says_what_to_look_at_and_opens_to_every_line(start):
    from screens.draft import CheckLine
    from screens.parts.draft_list import CheckRowLine

    hand = start()
    open_draft(hand)
    (line,) = hand.all(CheckLine)
    # 32 + 1 = 33 wanted at the waist, the draft of the older tape has 34
    assert line.row.text == "4 things to look at before cutting"
    hand.tap(line)
    hand.settle()
    rows = [line.row for line in hand.all(CheckRowLine)]
    assert (rows[0].mark, rows[0].text) == ("caution", "Outer, body, waist")
    assert "33 wanted; finished 34" in rows[0].second
    assert any(row.mark == "agrees" and "to sit" in row.text for row in rows)
    press(hand, "The table")
    assert cells(hand, "Waist")


# -- a new garment ------------------------------------------------------------


def client_without_garments(name="Ysolde Fennimore"):
    document = copy.deepcopy(DEMO)
    document["client"] = {"id": another(7)["client"]["id"], "name": name}
    document["garments"] = []
    return document


def key_of(hand, name):
    """The widget that a part of the screen calls by this id."""
    return next(part.ids[name] for part in hand.screen.walk() if name in part.ids)


def test_a_worked_out_draft_is_a_few_touches_from_the_client(start):
    hand = start()
    document = client_without_garments()
    fill_here(hand, document)
    hand.app.room.open_client(document["client"]["id"], "client")
    hand.settle()
    hand.tap(key_of(hand, "new_garment"))
    hand.settle()
    touch(hand, "Sheath dress with waist darts")
    touches = 2
    assert (hand.app.room.here, hand.app.room.view.page) == ("draft", "widths")
    assert touches <= 6
    assert "Worked out from the tape" in hand.ids.said.rows[0]
    # waist 33 / 4 + ease 1 / 4 + front more + dart 1 + seam 1; her front arc 17: (17 - 16 1/2) / 2
    assert cells(hand, "Waist")[0].text == "10 3/4"
    made = stored(hand, document["client"]["id"])["garments"][0]
    assert made["layers"][0]["rings"][0]["pieces"][0]["width"]["waist"] == "10 3/4"
    hand.tap(hand.ids.head.ids.back)
    hand.settle()
    assert hand.app.room.here == "client"


def test_a_client_without_a_tape_is_led_to_it(start):
    from screens.parts.draft_list import MeasureKey

    hand = start()
    document = client_without_garments()
    document["measurements"] = []
    hand.app.room.add_client(document, "draft")
    hand.settle()
    assert "Nothing is measured yet" in hand.ids.body.children[0].ids.heading.text
    touch(hand, "Pencil skirt")
    assert "cannot be worked out yet" in hand.ids.head.ids.trouble.text
    assert not stored(hand, document["client"]["id"])["garments"]
    keys_to_the_tape = [key for key in hand.all(MeasureKey) if key.row.id == "pencil_skirt"]
    hand.tap(keys_to_the_tape[0])
    hand.settle()
    room = hand.app.room
    assert (room.here, room.view.chosen.kinds) == ("tape", ("pencil_skirt",))


def test_a_level_that_was_not_measured_says_so_and_leads_to_the_tape(start):
    from screens.parts.draft_list import CheckRowLine, MeasureKey

    hand = start()
    document = copy.deepcopy(DEMO)
    document["client"] = another(8)["client"]
    document["garments"][0]["fittings"] = []
    for sitting in document["measurements"]:
        sitting["values"].pop("hip_girth", None)
    fill_here(hand, document)
    open_draft(hand, client=document["client"]["id"])
    assert sums(hand, "Hip")[1].text == "–"
    touch(hand, hand.app.room.view.headline.text)
    (line,) = [line for line in hand.all(CheckRowLine) if line.row.measure]
    assert (line.row.text, line.row.second) == ("Hip", "not measured, so not judged")
    (key,) = [part for part in line.walk(restrict=True) if isinstance(part, MeasureKey)]
    hand.tap(key)
    hand.settle()
    assert hand.app.room.here == "tape"
    assert hand.app.room.view.chosen.number.measurement == "hip_girth"


def fill_here(hand, *documents):
    for document in documents:
        hand.app.room.store.save(document)


def test_a_garment_is_begun_from_an_earlier_one(start):
    hand = start()
    open_draft(hand)
    press(hand, "Start from…")
    touch(hand, "Moss green wool sheath")
    assert len(stored(hand)["garments"]) == 2
    assert stored(hand)["garments"][1]["fittings"] == []
    assert hand.app.room.view.chosen.garment == stored(hand)["garments"][1]["id"]


def test_a_draft_is_copied_to_another_client_and_worked_out_for_her(start):
    hand = start()
    document = client_without_garments()
    for sitting in document["measurements"]:
        sitting["values"]["waist_girth"] = "36"
    fill_here(hand, document)
    open_draft(hand)
    press(hand, "Details")
    touch(hand, "Copy to another client")
    touch(hand, "Ysolde Fennimore")
    assert hand.app.room.client_name == "Ysolde Fennimore"
    assert sums(hand, "Waist")[1].text == "36"
    # 36 / 4 = 9, ease 1/4, the back more by (18 - 17) / 2, dart 1, side 1, centre back 1 1/2
    assert cells(hand, "Waist")[1].text == "13 1/4"


def test_a_garment_is_kept_as_her_own_kind_and_begins_others(start):
    hand = start()
    fill_here(hand, client_without_garments())
    open_draft(hand)
    press(hand, "Details")
    touch(hand, "Keep this as my own kind")
    assert "one of your own kinds" in hand.ids.said.rows[0]
    again = start(folder=hand.app.entry.folder)
    again.app.room.open_client(client_without_garments()["client"]["id"], "draft")
    again.settle()
    touch(again, "Moss green wool sheath")
    made = stored(again, client_without_garments()["client"]["id"])["garments"][0]
    assert made["kind"] == "sheath_dress"
    assert made["own_kind"].startswith("own_")


def test_a_garment_is_put_together_from_nothing(start):
    hand = start()
    fill_here(hand, client_without_garments())
    hand.app.room.open_client(client_without_garments()["client"]["id"], "draft")
    hand.settle()
    touch(hand, "Empty")
    assert "Add the levels first" in hand.app.room.view.empty
    press(hand, "Details")
    touch(hand, "Add a level")
    name = naming(hand)
    name.ids.field.text = "Under the bust"
    press(hand, "Done")
    touch(hand, "Add a piece on the fold")
    press(hand, "Done")
    press(hand, "The table")
    hand.app.room.view.open(Opened("width", "front", "level_1"))
    hand.settle()
    made = stored(hand, client_without_garments()["client"]["id"])["garments"][0]
    assert made["levels"][0]["label"] == "Under the bust"
    assert made["layers"][0]["rings"][0]["pieces"][0]["fold"] is True


def naming(hand):
    from screens.parts.draft_name import NameSheet

    (found,) = hand.all(NameSheet)
    return found


def test_her_own_word_for_a_seam_is_said_in_every_sum(start):
    hand = start()
    open_draft(hand)
    press(hand, "Details")
    touch(hand, "Side seam")
    naming(hand).ids.field.text = "Flank seam"
    press(hand, "Done")
    press(hand, "The table")
    hand.tap(cells(hand, "Waist")[0])
    hand.settle()
    assert "flank seam" in [term.row.name for term in sheet(hand).terms.children]


@pytest.mark.parametrize("name", [path.stem for path in sorted(DRAFTS.glob("*.json"))])
def test_every_worked_draft_is_shown_in_every_layer_and_round(start, name):
    document = json.loads((DRAFTS / f"{name}.json").read_text(encoding="utf-8"))
    hand = start()
    hand.app.room.add_client(document, "draft", document["garments"][-1]["id"])
    hand.settle()
    view = hand.app.room.view
    for layer in list(view.layers):
        view.show_layer(layer[0])
        for ring in list(view.rings):
            view.show_ring(ring[0])
            hand.settle()
            assert not hand.app.room.trouble
            assert view.rows
            assert len(pieces(hand).placed) == len(view.columns)
            for page in ("more", "checks", "sheet", "widths"):
                view.turn_to(page)
                hand.frames(2)


def test_a_garment_of_other_pieces_is_shown_in_the_place_of_the_last_one(start):
    hand = start()
    open_draft(hand)
    document = json.loads((DRAFTS / "2_princess_gown.json").read_text(encoding="utf-8"))
    hand.app.room.add_client(document, "draft", document["garments"][-1]["id"])
    hand.settle()
    assert [len(line.cells) for line in lines_of(hand)] == [4] * 7
    open_draft(hand)
    assert [len(line.cells) for line in lines_of(hand)] == [2] * 5


def lines_of(hand):
    from screens.parts.draft_table import DraftLine

    return hand.all(DraftLine)


def test_the_back_key_closes_what_lies_open_first(start):
    hand = start()
    open_draft(hand)
    hand.tap(cells(hand, "Waist")[0])
    hand.tap(sheet(hand).type)
    hand.settle()
    hand.key("back")
    assert hand.app.room.view.keys is None
    hand.key("back")
    assert not hand.app.room.view.opened
    hand.key("back")
    hand.settle()
    assert hand.app.room.here == "day book"


def test_nothing_of_a_client_stays_when_the_app_is_closed(start):
    hand = start()
    view = open_draft(hand)
    hand.tap(cells(hand, "Waist")[0])
    hand.settle()
    hand.app.room.put_away()
    assert (view.title, list(view.rows), view.opened, list(view.drawn)) == ("", [], None, [])


__all__ = ["fill", "open_draft"]
