"""How the garment is worn and pinned: inside out, through which layer, sleeves and legs, in cm."""


import pytest

from core.changes.plan import make_plan
from core.file.fitting_file import read_document
from tests.screens.fitting_hand import last, pins
from tests.screens.fitting_pictures import TURNED, client, drafted, metric, today
from tests.screens.folders import DEMO_ID
from tests.screens.kept import kept

IN = 25.4


@pytest.fixture
def folder(tmp_path):
    return tmp_path / "data"


def planned(folder):
    return make_plan(read_document(kept(folder, DEMO_ID)))


# -- inside out -------------------------------------------------------------------------


def names_over(hand, text):
    """Where a name stands over the figure: its middles, from left to right (window pixels)."""
    found = [words for words in hand.desk.figure.children if getattr(words, "text", "") == text]
    return sorted(words.to_window(*words.center)[0] for words in found)


def level_line(hand, label):
    """How high a level's line runs: its name stands on it."""
    (words,) = [words for words in hand.desk.figure.children
                if getattr(words, "text", "") == label]  # fmt: skip
    return words.to_window(*words.center)[1]


def cloth_edges(hand, y, left, right):
    """The first and the last pixel of the garment between two places of the picture."""
    from screens.tokens import LIGHT

    sheet = tuple(bytes.fromhex(LIGHT["sheet"][1:]))
    picture = hand.picture()
    row = round(picture.height - y - 3)  # the line itself is drawn over
    there = [x for x in range(round(left), round(right)) if picture.getpixel((x, row))[:3] == sheet]
    return there[0], there[-1]


@pytest.mark.parametrize("screen", ["landscape", "portrait"])
def test_inside_out_a_pin_touched_on_the_picture_goes_to_the_garments_other_side(
    fitting, folder, screen
):
    """Seen from the front her left is at the right of the picture; the garment's right lies there.

    By hand: 3/8 deep takes 3/8 off each edge of the garment's right side seam, none off its left.
    """
    hand = fitting(client(today(**TURNED)), {"moment": "pin"}, screen)
    assert "Worn inside out: her left is the garment's right." in " ".join(hand.texts())
    right, *_, last_right = names_over(hand, "her right")
    left, second_left = names_over(hand, "her left")
    assert right < left < second_left < last_right  # from behind she is the other way about
    assert names_over(hand, "the garment's right") == pytest.approx([left, second_left], abs=2)
    assert names_over(hand, "the garment's left") == pytest.approx([right, last_right], abs=2)
    middle = (left + second_left) / 2
    waist = level_line(hand, "Waist")
    _, edge = cloth_edges(hand, waist, right, middle)
    hand.tap((edge, waist))
    assert pins(folder) == [{"seam": "side", "side": "left", "level": "waist"}]
    behind, _ = cloth_edges(hand, waist, middle, last_right + 80)
    hand.tap((behind, waist))  # the same seam from behind: the same pin
    assert len(pins(folder)) == 1
    hand.moment("Read off")
    assert "Inside out: on the garment's right." in hand.page.body.counted
    hand.press("3/8")
    moved = {(move.side, move.edge): move.exact for move in planned(folder).moves
             if (move.seam, move.level) == ("side", "waist")}  # fmt: skip
    assert moved["right", "front"] == moved["right", "back"] == pytest.approx(-0.375 * IN)
    assert not moved.get(("left", "front"))


def test_inside_out_the_seam_allowances_lie_outside_and_right_side_out_they_do_not(fitting):
    hand = fitting(client(today(**TURNED)), {"moment": "pin"})
    figure = hand.desk.figure
    # an inch at each side seam and at the centre back: seen beside the stitching
    for at, face in ((hand.place("seam", "side", "hip", "left"), "front"),
                     (hand.place("seam", "centre_back", "hip", "left"), "back")):  # fmt: skip
        wide = round(figure._faces[face].scale * 0.5 * IN)
        assert beside(hand, at, wide) == "cloth"
    hand.moment("Before")
    hand.word("Inside out")
    hand.moment("Pin")
    assert not names_over(hand, "the garment's left")
    at = hand.place("seam", "centre_back", "hip", "left")
    assert beside(hand, at, wide) == "sheet"


def beside(hand, at, wide):
    """What colour lies so far to the right of a place."""
    from screens.tokens import LIGHT

    picture = hand.picture()
    here = picture.getpixel((round(at[0]) + wide, round(picture.height - at[1] - 6)))[:3]
    named = {tuple(bytes.fromhex(code[1:])): name for name, code in LIGHT.items()}
    return named.get(here, here)


# -- which layer --------------------------------------------------------------------------


def layer_key(hand):
    return next(key for key in hand.desk.panel.ids.verbs.children if "Next pins" in key.text)


def test_what_the_next_pins_go_into_is_said_once_and_kept_even_when_the_battery_dies(
    fitting, folder, again
):
    hand = fitting(client(today()), {"moment": "pin"}, "portrait")
    hand.touches = 0
    hand.touch("seam", "side", "waist", "left")
    assert layer_key(hand).text == "Next pins: outer only"
    hand.tap(layer_key(hand))
    assert layer_key(hand).text == "Next pins: through all layers"
    hand.touch("seam", "side", "hip", "left")
    assert hand.page.body.last == "2: her left side seam, hip, through all layers, not read"
    hand = again(moment="pin", screen="portrait")
    assert layer_key(hand).text == "Next pins: through all layers"
    hand.touch("seam", "side", "hip", "right")
    hand.tap(layer_key(hand))
    assert layer_key(hand).text == "Next pins: lining only"
    assert "Front, lining" in hand.texts()
    hand.touch("seam", "side", "waist", "left")  # the outer's pin there is not in the way
    assert hand.page.body.last == "4: her left side seam, waist, lining, not read"
    hand.touch("seam", "side", "hip", "left")  # that one is through all: it is taken, not doubled
    assert hand.page.body.last.startswith("2: ")
    hand.tap(layer_key(hand))
    assert layer_key(hand).text == "Next pins: outer only"
    assert pins(folder) == [
        {"seam": "side", "side": "left", "level": "waist"},
        {"seam": "side", "side": "left", "level": "hip", "through": True},
        {"seam": "side", "side": "right", "level": "hip", "through": True},
        {"layer": "lining", "seam": "side", "side": "left", "level": "waist"},
    ]


def test_a_pin_of_the_lining_is_read_on_the_linings_own_strip(fitting, folder):
    """By hand: 1/4 deep on one side takes 1/2 off the lining's round, and nothing off the outer."""
    lining = {"layer": "lining", "seam": "side", "side": "left", "level": "waist"}
    hand = fitting(client(today(pins=[lining])), {"moment": "read"})
    hand.press("1/4")
    assert {row.layer for row in hand.page.body.levels} == {"lining"}
    waist = {level.layer: level.pinned for level in planned(folder).levels
             if level.level == "waist"}  # fmt: skip
    assert waist == {"lining": pytest.approx(-0.5 * IN), "outer": 0}


# -- sleeves and legs ---------------------------------------------------------------------


@pytest.mark.parametrize("screen", ["landscape", "portrait"])
def test_on_trousers_a_fold_lies_on_the_leg_that_was_touched_and_lights_that_leg_alone(
    fitting, folder, screen
):
    """By hand: a fold 1/4 deep takes 1/2 off her left leg at the knee, nothing off her right."""
    hand = fitting(drafted("trousers", today()), {"moment": "marks", "mark": "fold"}, screen)
    middle, front = names_over(hand, "her left")[0], level_line(hand, "Knee")
    left, right = cloth_edges(hand, front, hand.desk.figure.x, middle + 200)
    # her left leg from the front is the one at the right of the picture: touch its middle
    inner = next(x for x in range(round((left + right) / 2), round(right))
                 if cloth_at(hand, x, front))  # fmt: skip
    hand.tap(((inner + right) / 2, front + 4))
    assert pins(folder) == [{"piece": "front_leg", "side": "left", "level": "knee"}]
    hand.moment("Read off")
    hand.press("1/4")
    lit = [row.label for row in hand.page.body.levels if row.live]
    assert lit == ["Knee, her left"]
    knees = {level.side: level.pinned for level in planned(folder).levels
             if level.level == "knee"}  # fmt: skip
    assert knees == {"left": pytest.approx(-0.5 * IN), "right": 0}


def cloth_at(hand, x, y):
    from screens.tokens import LIGHT

    picture = hand.kept_picture = getattr(hand, "kept_picture", None) or hand.picture()
    sheet = tuple(bytes.fromhex(LIGHT["sheet"][1:]))
    return picture.getpixel((x, round(picture.height - y - 3)))[:3] == sheet


def test_a_sleeve_is_folded_by_touch_and_its_seam_pinned_inside_the_arm(fitting, folder):
    hand = fitting(drafted("sleeved_bodice", today()), {"moment": "marks", "mark": "fold"})
    hand.touch("piece", "sleeve", "elbow", "right")
    hand.moment("Pin")
    hand.touch("seam", "sleeve_seam", "wrist", "left")
    assert pins(folder) == [
        {"piece": "sleeve", "side": "right", "level": "elbow"},
        {"seam": "sleeve_seam", "side": "left", "level": "wrist"},
    ]


# -- her two sides, notes -----------------------------------------------------------------


def test_a_pin_on_both_sides_is_parted_to_change_one_of_them_alone(fitting, folder):
    both = {"id": "pin_1", "seam": "side", "side": "both", "level": "waist", "pinch": "3/8"}
    hand = fitting(client(today(pins=[both])), {"moment": "pin"})
    hand.touch("seam", "side", "waist", "left")  # on her left there is a pin: it is that one
    assert hand.page.body.last == "1: side seam, both sides, waist, deep 3/8"
    hand.word("Each side")
    assert hand.page.body.last == "1: her left side seam, waist, deep 3/8"
    hand.moment("Read off")
    hand.touch("seam", "side", "waist", "left")
    hand.press("clear", "1/8")
    assert pins(folder) == [
        {"seam": "side", "side": "left", "level": "waist", "pinch": "1/8"},
        {"seam": "side", "side": "right", "level": "waist", "pinch": "3/8"},
    ]
    for _ in range(2):  # the amount was cleared, then typed
        hand.tap(hand.ids.head.ids.undo)
    hand.tap(hand.ids.head.ids.undo)
    assert last(folder)["pins"] == [both]


def test_a_note_is_typed_on_a_pin_while_it_is_read_off_and_its_digits_change_no_amount(
    fitting, folder, again
):
    read = {"seam": "side", "side": "left", "level": "waist", "pinch": "3/8"}
    hand = fitting(client(today(pins=[read, {**read, "level": "hip"}])), {"moment": "read"})
    hand.app.room.view.choose(pin=0)
    hand.frames(1)
    hand.word("Note")
    (row,) = hand.desk.panel.ids.noting.children
    field = row.ids.field
    hand.tap(field)
    assert field.focus
    for sign in "2 rows of tacking":
        field.insert_text(sign)
        hand.frames(1)
    assert field.text == "2 rows of tacking"
    assert pins(folder)[0] == {**read, "note": "2 rows of tacking"}
    hand.word("Note")
    assert "2 rows of tacking" in hand.texts()
    hand.tap(hand.desk.panel.ids.after)
    assert "2 rows of tacking" not in hand.texts()
    assert again(moment="read", pin=0).page.body.note == "2 rows of tacking"


# -- centimetres and millimetres ----------------------------------------------------------

TYPED = {
    "cm": {"pinch": [".5"], "gap": ["1", ".5"], "floor": ["4", "7", ".5"], "wanted": ["3"]},
    "mm": {"pinch": ["5"], "gap": ["1", "5"], "floor": ["4", "7", "5"], "wanted": ["3", "0"]},
}
KEPT = {"cm": ("0.5", "1.5", "47.5"), "mm": ("5", "15", "475")}
STRIP = {
    # wanted 58 + 2 = 60; 63 as sewn; 1/2 cm deep, both sides: four edges, 2 off; 61 is 1 too much
    "cm": [("58", "+ 2", "= 60", "63", "2", "still loose by 1"),
           ("94", "+ 4", "= 98", "96", "1.5", "one side only")],
    "mm": [("580", "+ 20", "= 600", "630", "20", "still loose by 10"),
           ("940", "+ 40", "= 980", "960", "15", "one side only")],
}  # fmt: skip


@pytest.mark.parametrize("unit", ["cm", "mm"])
def test_a_whole_fitting_in_centimetres_or_millimetres_upright(fitting, folder, again, unit):
    """Placed, a hem of eight points, killed, read off: every number in her unit, by hand."""
    hand = fitting(metric(unit, today(worn={"heel": "6"})), {"moment": "pin"}, "portrait")
    hand.drag(hand.place("seam", "side", "waist", "right"),
              hand.place("seam", "side", "waist", "left"))  # fmt: skip
    hand.touch("seam", "side", "hip", "left")
    _, waist = hand.place("seam", "side", "waist", "right")
    _, hip = hand.place("seam", "side", "hip", "right")
    x, _ = hand.desk.figure.to_window(*hand.desk.figure._faces["front"].at((-160, 742)))
    hand.tap((x, (waist + hip) / 2))  # between the two levels
    assert pins(folder)[:2] == [
        {"seam": "side", "side": "both", "level": "waist"},
        {"seam": "side", "side": "left", "level": "hip"},
    ]
    down = float(pins(folder)[2]["down"]) * (10 if unit == "cm" else 1)
    assert down == pytest.approx(105, abs=4)  # half way from 0 to 21 cm, as near as a finger is
    assert f"{pins(folder)[2]['down']} below the waist" in hand.page.body.last or (
        "above the hip" in hand.page.body.last)  # fmt: skip

    hand.moment("Hem")
    hand.word("Off the floor, wanted")
    hand.press(*TYPED[unit]["wanted"])
    hand.word("Front")
    hand.touches = 0
    for _ in range(8):
        hand.press(*TYPED[unit]["floor"])
        if unit == "mm":
            hand.go_on()  # without tenths nothing tells that the number is whole
    assert hand.touches == 8 * (len(TYPED[unit]["floor"]) + (unit == "mm"))
    floors = [point["floor"] for point in last(folder)["hem"]["points"]]
    assert floors == [KEPT[unit][2]] * 8

    hand = again(screen="portrait", moment="read")
    hand.press(*TYPED[unit]["pinch"])
    row = hand.page.body.pin
    assert (row.depth, row.times, row.total) == (
        KEPT[unit][0], "× 2 a fold\n× 2 sides", {"cm": "2", "mm": "20"}[unit])  # fmt: skip
    hand.go_on()
    hand.word("Gap")
    hand.press(*TYPED[unit]["gap"])
    assert [pins(folder)[0]["pinch"], pins(folder)[1]["gap"]] == list(KEPT[unit][:2])
    shown = [(row.body, row.ease, row.wanted, row.as_sewn, row.moved, row.verdict)
             for row in hand.page.body.levels[:2]]  # fmt: skip
    assert shown == STRIP[unit]
    assert any(text.endswith({"cm": "in centimetres", "mm": "in millimetres"}[unit])
               for text in hand.texts())  # fmt: skip
    assert hand.desk.keys.ids.block.unit == unit
    (editor,) = hand.desk.panel.ids.editor.children
    hand.tap(editor.ids.more)  # by her step: half a centimetre
    assert pins(folder)[1]["gap"] == {"cm": "2", "mm": "20"}[unit]
    waist, hip = (level.pinned for level in planned(folder).levels[:2])
    assert (waist, hip) == (pytest.approx(-20), pytest.approx(20))
